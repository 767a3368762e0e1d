//! `cord-set-length-limit`: a listed extension set carries no more than its size allows at its length.

use super::compare::{Against, load_against};
use super::{Findings, Remedy, Survey, rule};
use crate::calc::CannotTell;
use crate::code::guidance;
use crate::quantity::{Amperes, Ratio};
use crate::site::{Assembly, Component, Cord};

rule! {
    /// ## Protects against
    /// A long thin extension set that heats and starves what it feeds, although its plug would let more through.
    ///
    /// ## Cannot tell when
    /// The size, the length or the maker of the set is not stated, a load's current is not stated, or the table has
    /// no row for that size and length.
    ///
    /// ## Remedy
    /// A shorter or a thicker set.
    CORD_SET_LENGTH_LIMIT = "cord-set-length-limit" {
        severity: Violation,
        summary: "a listed extension set carries more than its size allows at its length",
        topics: ["listed-and-used-as-listed"],
        sources: ["UL 817 tables 114 and 115 as a trade forum quotes them"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for cord in survey.site.cords().iter().filter(|cord| is_extension(cord)) {
        judge(survey, found, cord);
    }
}

/// The sets that the tables are for: two current-carrying contacts of 15 A or 20 A.
fn is_extension(cord: &Cord) -> bool {
    let other = matches!(cord.assembly, Some(Assembly::FieldAssembled | Assembly::Appliance));
    let small = cord.supply_end.contacts().is_some_and(|contacts| {
        contacts.configuration.poles() == 2 && contacts.configuration.rated_current() <= Amperes::from_whole(20)
    });
    small && !other
}

fn judge(survey: &Survey<'_>, found: &mut Findings, cord: &Cord) {
    if cord.assembly.is_none() {
        return found.ask(cord, "assembly", "whether it is a listed cord set");
    }
    let Some(size) = cord.size else { return found.ask(cord, "size", "its wire size") };
    let Some(length) = cord.length else { return found.ask(cord, "length", "its length") };
    let limit = match guidance::cord_set_current(size, *length) {
        Ok(cell) => cell.value,
        Err(gap) => {
            return found.gap(cord, "length", CannotTell { what: "the current of a set of that size and length", gap });
        }
    };
    let against = Against {
        field: "length",
        does: "carries",
        limit_words: "a set of its size and length may carry",
        limit,
        factor: Ratio::ONE,
        remedy: Remedy::Do("use a shorter or a thicker set, or move a load away"),
    };
    load_against(survey, found, Component::Cord(cord), against);
}
