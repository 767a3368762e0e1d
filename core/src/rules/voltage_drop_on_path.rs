//! `voltage-drop-on-path`: the drop from the source to a load stays within what the code recommends.

use super::path::{Reach, running};
use super::voltage_drop_in_branch::judge;
use super::{Findings, Survey, rule};
use crate::calc::CannotTell;
use crate::code::DropAdvice;

rule! {
    /// ## Protects against
    /// A voltage at the last load that is too low, although every stretch by itself looks short: cord, feeder and branch
    /// circuit add up. A recommendation, not a requirement.
    ///
    /// ## Cannot tell when
    /// A length, a wire size, a material or a current on the way is not stated, or a leg where that decides.
    ///
    /// ## Remedy
    /// A larger or shorter cord or conductor where the drop is greatest.
    VOLTAGE_DROP_ON_PATH = "voltage-drop-on-path" {
        severity: Caution,
        summary: "the way from the source drops more voltage than is recommended",
        topics: ["voltage-drop-note"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for load in running(survey) {
        judge(survey, found, load, Reach::FromSource, |advice| match advice {
            DropAdvice::Advisory { total, .. } => Ok(total.value),
            DropAdvice::Unknown(gap) => Err(CannotTell { what: "the drop that is recommended", gap: *gap }),
        });
    }
}
