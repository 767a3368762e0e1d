//! `instructions-posted`: the steps for this site are posted at the transfer equipment.

use super::fact::{Fact, joins_utility};
use super::{Findings, Survey, rule};
use crate::site::ComponentId;

rule! {
    /// ## Protects against
    /// A wrong step in the dark, under stress, by somebody who did not set the equipment up.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the steps are posted.
    ///
    /// ## Remedy
    /// Post the order of steps for this site at the transfer equipment.
    INSTRUCTIONS_POSTED = "instructions-posted" {
        severity: Information,
        summary: "no steps are posted at the transfer equipment",
        topics: [],
        sources: ["set manuals: the installer leaves written steps"],
        check: check,
    }
}

const POSTED: Fact = Fact {
    field: "posted",
    asked: "whether the steps for this site are posted at the transfer equipment",
    well: "has its steps posted at the transfer equipment",
    ill: "has no steps posted at the transfer equipment",
    mend: "post the order of steps for this site at the transfer equipment",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    if joins_utility(survey) {
        let stated = survey.site.procedure().and_then(|procedure| procedure.posted);
        POSTED.judge(found, ComponentId::PROCEDURE, stated);
    }
}
