//! `no-cut-ground-to-stop-tripping`: nobody opened the grounding path to silence a ground-fault device.

use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::GroundingPath;

rule! {
    /// ## Protects against
    /// A nuisance trip that is turned into an electrocution. The trip comes from a second bond of the neutral, which
    /// `bond-matches-transfer-poles` finds; cutting the ground hides it and leaves metal live after the next fault.
    ///
    /// ## Cannot tell when
    /// The state of the grounding path is not stated.
    ///
    /// ## Remedy
    /// The grounding path made whole, and the number of neutral bonds put right.
    NO_CUT_GROUND_TO_STOP_TRIPPING = "no-cut-ground-to-stop-tripping" {
        severity: Prohibited,
        summary: "the grounding path was opened so that a ground-fault device stops tripping",
        topics: ["effective-fault-path", "equipment-grounded"],
        sources: ["29 CFR 1910.334(a)(3)(ii), as adopted in WAC 296-24-985"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        let Some(path) = source.grounding_path else {
            found.ask(source, "grounding_path", "whether the grounding conductor is whole from its frame to all that it feeds");
            continue;
        };
        let cut = path == GroundingPath::OpenedAgainstTripping;
        let said = Said::Plain(if cut {
            "has a grounding path that was opened so that a ground-fault device stops tripping"
        } else {
            "has a grounding path that nobody opened against tripping"
        });
        let remedy = "make the grounding path whole, and put the number of neutral bonds right";
        found.judge(source, "grounding_path", !cut, said, Remedy::Do(remedy));
    }
}
