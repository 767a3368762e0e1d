//! A derivation as numbered lines: what was done, what came of it, and where that stands.

use std::fmt::{self, Write};

use crate::calc::Step;

/// Writes the steps, numbered from 1: a line for the arithmetic, a line below for the section, the cell and its grade.
///
/// ```
/// # use loadworthy::{calc::Step, report::derivation};
/// let mut out = String::new();
/// derivation::write(&[Step::new("ambient 120 °F: times 82 %", "32.8 A")], &mut out)?;
/// assert_eq!(out, "  1. ambient 120 °F: times 82 %: 32.8 A\n");
/// # Ok::<(), std::fmt::Error>(())
/// ```
///
/// # Errors
/// Only where the writer fails.
pub fn write(steps: &[Step], out: &mut impl Write) -> fmt::Result {
    for (number, step) in (1..).zip(steps) {
        writeln!(out, "{number:>3}. {}: {}", step.what, step.result)?;
        let place = [step.citation.as_deref(), step.cell.as_deref(), step.grade];
        let place: Vec<&str> = place.into_iter().flatten().collect();
        if !place.is_empty() {
            writeln!(out, "     {}", place.join("; "))?;
        }
    }
    Ok(())
}
