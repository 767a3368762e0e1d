//! `cord-suits-place`: a cord is of a type made for where it lies and how it is used.

use super::{Findings, Remedy, Said, Survey, Value, rule, wires};
use crate::calc::CannotTell;
use crate::code::CordPlace;
use crate::quantity::Volts;
use crate::site::{Assembly, Cord};
use crate::trade::Usage;

rule! {
    /// ## Protects against
    /// A jacket that water and sun open, and a cord too light for being dragged over the ground between a source and a
    /// house.
    ///
    /// ## Cannot tell when
    /// The type of the cord, or whether it lies in a wet place or outdoors, is not stated.
    ///
    /// ## Remedy
    /// A cord with W in its type outdoors, of hard or extra-hard usage, and of a voltage not below the source's.
    CORD_SUITS_PLACE = "cord-suits-place" {
        severity: Violation,
        summary: "a cord is not of a type for its place or use",
        topics: ["cord-types", "cord-wet-location", "cord-use"],
        check: check,
    }
}

const WET: Remedy = Remedy::Do("use a cord with W in its type");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for cord in survey.site.cords() {
        let Some(cord_type) = cord.cord_type else {
            found.ask(cord, "type", "its type");
            continue;
        };
        let facts = match survey.code.cord(cord_type) {
            Ok(cell) => cell.value,
            Err(gap) => {
                found.gap(cord, "type", CannotTell { what: "what the cord is made for", gap });
                continue;
            }
        };
        place(cord, facts.place, found);
        usage(cord, facts.usage, found);
        voltage(survey, cord, facts.voltage, found);
    }
}

fn place(cord: &Cord, made_for: Option<CordPlace>, found: &mut Findings) {
    let wet = wires::is_wet(cord.place_kind, cord.outdoors);
    let (suits, limit) = match (made_for, wet) {
        (Some(CordPlace::Wet), None) => {
            let said = Said::Plain("is of a type for wet places, wherever it lies");
            return found.judge(cord, "type", true, said, WET);
        }
        (_, None) => return found.ask(cord, "outdoors", "whether it lies outdoors or in a wet place"),
        (None, Some(true)) => {
            return found.undecided(cord, "type", Said::Plain("is of a type whose table does not say if it may lie wet"));
        }
        (Some(CordPlace::Wet), Some(_)) => (true, "wet places"),
        (Some(CordPlace::Damp), Some(wet)) => (!wet, "damp places at most"),
        (None, Some(false)) => (true, "dry places at least"),
    };
    let said = Said::Compared {
        does: "lies in",
        measured: Value::Word(if wet == Some(true) { "a wet place or outdoors" } else { "a place that is not wet" }),
        limit_words: "its type is made for",
        limit: Value::Word(limit),
    };
    found.judge(cord, "type", suits, said, WET);
}

fn usage(cord: &Cord, usage: Usage, found: &mut Findings) {
    let suits = cord.assembly == Some(Assembly::Appliance) || matches!(usage, Usage::Hard | Usage::ExtraHard);
    let said = Said::Compared {
        does: "is of",
        measured: Value::Word(match usage {
            Usage::ExtraHard => "extra-hard usage",
            Usage::Hard => "hard usage",
            Usage::NotHard => "not hard usage",
            Usage::RangesDryers => "range and dryer usage",
        }),
        limit_words: "a cord from a source needs",
        limit: Value::Word("hard or extra-hard usage"),
    };
    found.judge(cord, "type", suits, said, Remedy::Do("use a cord of hard or extra-hard usage"));
}

fn voltage(survey: &Survey<'_>, cord: &Cord, rated: Volts, found: &mut Findings) {
    let Some(system) = survey.system(cord.id()) else { return };
    let Some(highest) = system.line_to_line().or(system.line_to_neutral()) else { return };
    let said = Said::Compared {
        does: "is on",
        measured: Value::Voltage(highest),
        limit_words: "its type is rated",
        limit: Value::Voltage(rated),
    };
    found.judge(cord, "type", highest <= rated, said, Remedy::Do("use a cord of a higher voltage"));
}
