//! An order of switching as a page to print: a box, a number, a step, what to see, and a place for initials.

use std::fmt::{self, Write};

use super::CAUTIONS;
use super::sequence::{self, standing, titled};
use crate::check::Verdict;
use crate::switching::Sequence;

const WIDTH: usize = 78;
const INITIALS: &str = "______";

/// Writes the page. Where there is no order, it says so and has no boxes.
///
/// # Errors
/// Only where `out` fails.
pub fn write(found: &Sequence<'_>, out: &mut impl Write) -> fmt::Result {
    let site = &found.report.site.premises().name;
    writeln!(out, "{site}: order of switching")?;
    writeln!(out, "date ____________  person ______________________")?;
    for caution in CAUTIONS {
        writeln!(out, "! {caution}")?;
    }
    if found.report.verdict() != Verdict::Loadworthy {
        writeln!(out, "! the site is {}", standing(found.report.verdict()))?;
    }
    let mut boxes = false;
    for plan in &found.plans {
        let (Some(arrangement), Ok(orders)) = (found.arrangements.get(plan.arrangement), &plan.answer) else {
            continue;
        };
        let network = &arrangement.network;
        for (title, order) in titled(orders) {
            boxes = true;
            writeln!(out, "\n{title} ({})\n", network.name(plan.source))?;
            for (number, step) in (1..).zip(&order.steps) {
                let line = format!("[ ] {number:>2}. {}", network.operation(step.operation));
                writeln!(out, "{line:<WIDTH$} {INITIALS}")?;
                writeln!(out, "        see: {}", step.verify)?;
            }
        }
    }
    if !boxes {
        writeln!(out, "\n{}; the text form says why", sequence::headline(found))?;
    }
    Ok(())
}
