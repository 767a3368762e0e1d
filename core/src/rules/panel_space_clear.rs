//! `panel-space-clear`: there is room to stand and work in front of the panel and the transfer equipment.

use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::calc::CannotTell;
use crate::code::guidance;
use crate::published::TableId;
use crate::quantity::{Meters, Volts, Written};
use crate::site::ComponentId;

rule! {
    /// ## Protects against
    /// A switch that cannot be reached or worked in the dark, and a person who cannot step back from an arc.
    ///
    /// ## Cannot tell when
    /// The depth, the width or the height of the space is not stated, or the voltage to ground is above the one that
    /// the depth holds for.
    ///
    /// ## Remedy
    /// Clear the space in front of the panel and of the transfer equipment.
    PANEL_SPACE_CLEAR = "panel-space-clear" {
        severity: Violation,
        summary: "the space in front of a panel is not clear",
        topics: ["working-space"],
        sources: ["OSHA 1910.303(g)(1)"],
        check: check,
    }
}

/// A side of the space: the field, the key of its least, as it is asked, and what the place has.
struct Side(&'static str, &'static str, &'static str, &'static str);

const DEPTH: Side = Side(
    "working_depth",
    "working-space-depth",
    "the depth of the clear space in front of the panel and the transfer equipment",
    "has in front of its panels a depth of",
);
const WIDTH: Side = Side(
    "working_width",
    "working-space-width",
    "the width of the clear space in front of the panel and the transfer equipment",
    "has in front of its panels a width of",
);
const HEIGHT: Side = Side(
    "working_height",
    "working-space-height",
    "the height of the clear space in front of the panel and the transfer equipment",
    "has in front of its panels a height of",
);

fn check(survey: &Survey<'_>, found: &mut Findings) {
    let site = survey.site;
    if site.sources().is_empty() || site.panels().is_empty() && site.transfers().is_empty() {
        return;
    }
    let place = site.surroundings();
    if is_low(survey) {
        judge(found, &DEPTH, place.and_then(|place| place.working_depth));
    } else {
        let words = "is in front of a panel whose voltage to ground asks for a depth by the wall behind, which is not described";
        found.undecided_part(ComponentId::SURROUNDINGS, DEPTH.0, Said::Plain(words));
    }
    judge(found, &WIDTH, place.and_then(|place| place.working_width));
    judge(found, &HEIGHT, place.and_then(|place| place.working_height));
}

/// Whether every panel is at a voltage to ground for which the least depth holds.
fn is_low(survey: &Survey<'_>) -> bool {
    let limit = guidance::figure::<Volts>(TableId::ConnectionLimits, "working-space-voltage");
    survey.site.panels().iter().all(|panel| {
        // Where there is no neutral, the voltage to ground may be that between the lines.
        let to_ground = panel.system.line_to_neutral().or(panel.system.line_to_line());
        limit.is_ok_and(|limit| to_ground.is_some_and(|voltage| voltage <= limit.value))
    })
}

fn judge(found: &mut Findings, side: &Side, stated: Option<Written<Meters>>) {
    let Side(field, key, asked, does) = *side;
    let Some(stated) = stated else { return found.ask_part(ComponentId::SURROUNDINGS, field, asked) };
    let least = match guidance::figure::<Written<Meters>>(TableId::ConnectionLimits, key) {
        Ok(cell) => cell.value,
        Err(gap) => {
            let gap = CannotTell { what: "the working space", gap };
            return found.undecided_part(ComponentId::SURROUNDINGS, field, Said::Gap(gap));
        }
    };
    let said = Said::Compared {
        does,
        measured: Value::Length(stated),
        limit_words: "the least is",
        limit: Value::Length(least),
    };
    let remedy = Remedy::Use("clear the space in front of the panel and of the transfer equipment to", Value::Length(least));
    found.judge_part(ComponentId::SURROUNDINGS, field, *stated >= *least, said, remedy);
}
