//! `cord-ampacity`: no cord carries more current than its size and type allow.

use super::compare::{Against, load_against};
use super::{Findings, Remedy, Survey, cord, rule};
use crate::calc;
use crate::quantity::Ratio;
use crate::site::Component;

rule! {
    /// ## Protects against
    /// A flexible cord that overheats while it carries the loads for hours.
    ///
    /// ## Cannot tell when
    /// The type, size, ambient temperature or count of current-carrying conductors of the cord, or the current of a load,
    /// is not stated.
    ///
    /// ## Remedy
    /// A larger cord, or less load.
    CORD_AMPACITY = "cord-ampacity" {
        severity: Violation,
        summary: "a cord carries more current than its ampacity",
        topics: ["cord-ampacity", "cord-ambient", "cord-conductor-counting"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for cord in survey.site.cords() {
        let conditions = match cord::conditions(survey, cord) {
            Ok(conditions) => conditions,
            Err((field, fact)) => {
                found.ask(cord, field, fact);
                continue;
            }
        };
        match calc::cord::ampacity(survey.code, &conditions, found) {
            Err(gap) => found.gap(cord, "size", gap),
            Ok(limit) => {
                let against = Against {
                    field: "size",
                    does: "carries",
                    limit_words: "its ampacity is",
                    limit,
                    factor: Ratio::ONE,
                    remedy: Remedy::Do("use a larger cord or move a load away"),
                };
                load_against(survey, found, Component::Cord(cord), against);
            }
        }
    }
}
