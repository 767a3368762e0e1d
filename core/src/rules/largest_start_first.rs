//! `largest-start-first`: loads are added one at a time, the largest starting demand first.

use super::fact::{Fact, joins_utility};
use super::{Findings, Survey, rule};
use crate::site::ComponentId;

rule! {
    /// ## Protects against
    /// A motor that cannot start because the source is already loaded: its locked-rotor current stays and its
    /// windings burn.
    ///
    /// ## Cannot tell when
    /// The order in which loads are added is not stated.
    ///
    /// ## Remedy
    /// Close the branch circuits one at a time, the one with the largest starting demand first, and wait for each to
    /// settle.
    LARGEST_START_FIRST = "largest-start-first" {
        severity: Caution,
        summary: "loads are not added in the order of their starting demand",
        topics: [],
        sources: ["two set manuals: motors first, then lights, then electronics"],
        check: check,
    }
}

const ORDER: Fact = Fact {
    field: "largest_start_first",
    asked: "whether loads are added one at a time, the largest starting demand first",
    well: "adds loads one at a time, the largest starting demand first",
    ill: "adds loads in another order than by their starting demand",
    mend: "add loads one at a time, the largest starting demand first",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    if joins_utility(survey) {
        let stated = survey.site.procedure().and_then(|procedure| procedure.largest_start_first);
        ORDER.judge(found, ComponentId::PROCEDURE, stated);
    }
}
