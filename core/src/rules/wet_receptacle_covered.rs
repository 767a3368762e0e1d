//! `wet-receptacle-covered`: a fixed receptacle outdoors has a cover that keeps water out while a plug is in it.

use super::fact::Fact;
use super::{Findings, Survey, rule};
use crate::site::Component;

rule! {
    /// ## Protects against
    /// Rain in a receptacle in use: a cover that closes only over an empty receptacle is open just when it matters.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the receptacle is outdoors, or what its cover is.
    ///
    /// ## Remedy
    /// A cover that is made to close over a plug.
    WET_RECEPTACLE_COVERED = "wet-receptacle-covered" {
        severity: Violation,
        summary: "a receptacle outdoors has no cover for use",
        topics: ["wet-receptacle"],
        check: check,
    }
}

const COVER: Fact = Fact {
    field: "cover_in_use",
    asked: "whether its cover keeps water out while a plug is in it",
    well: "has a cover that keeps water out while a plug is in it",
    ill: "has no cover that keeps water out while a plug is in it",
    mend: "fit a cover that is made to close over a plug",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for receptacle in survey.site.receptacles() {
        // What hangs on a cord is loose: its connections are judged as the cord's.
        if matches!(survey.from(receptacle.id()), Some(Component::Cord(_))) {
            continue;
        }
        match receptacle.outdoors {
            Some(false) => {}
            Some(true) => COVER.judge(found, receptacle.id(), receptacle.cover_in_use),
            None => found.ask(receptacle, "outdoors", "whether it is outdoors"),
        }
    }
}
