//! `conductor-ampacity`: no fixed conductor carries more current than its ampacity in its conditions.

use super::compare::{Against, load_against};
use super::wires::Run;
use super::{Findings, Remedy, Survey, rule};
use crate::quantity::Ratio;

rule! {
    /// ## Protects against
    /// A conductor that overheats in the wall while it carries its loads for hours: its ampacity is the table value,
    /// corrected for the ambient temperature, adjusted for the conductors beside it, and never above what its terminals
    /// and its cable admit.
    ///
    /// ## Cannot tell when
    /// The material, size, insulation or cable, place, ambient temperature or count of conductors is not stated, a load's
    /// current is not stated, or the table cell is witnessed too weakly.
    ///
    /// ## Remedy
    /// A larger conductor, fewer conductors together, or less load.
    CONDUCTOR_AMPACITY = "conductor-ampacity" {
        severity: Violation,
        summary: "a conductor carries more current than its ampacity",
        topics: ["ampacity", "ambient-correction", "more-than-three-conductors", "terminal-temperature"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for run in Run::all(survey) {
        let conditions = match run.known(survey).conditions {
            Ok(conditions) => conditions,
            Err((field, fact)) => {
                found.ask(run.component(), field, fact);
                continue;
            }
        };
        match run.ampacity(survey, &conditions, found) {
            Err(gap) => found.gap(run.component(), "wiring", gap),
            Ok(ampacity) => {
                let against = Against {
                    field: "wiring",
                    does: "carries",
                    limit_words: "its ampacity is",
                    limit: ampacity.usable,
                    factor: Ratio::ONE,
                    remedy: Remedy::Do("use a larger conductor, separate the conductors, or move a load away"),
                };
                load_against(survey, found, run.component(), against);
            }
        }
    }
}
