//! `source-opened-before-utility`: on return, the way from the source is opened before the way from the utility is closed.

use super::fact::{Fact, joins_utility, transfers_by_itself};
use super::{Findings, Survey, rule};
use crate::site::ComponentId;

rule! {
    /// ## Protects against
    /// A source and the utility in parallel, out of step: torn shafts, burnt windings, and a street fed from the
    /// house.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the way from the source is opened first. Transfer equipment that passes over by
    /// itself does it without a person.
    ///
    /// ## Remedy
    /// Open the inlet breaker or set the transfer equipment to off, then close the main.
    SOURCE_OPENED_BEFORE_UTILITY = "source-opened-before-utility" {
        severity: Prohibited,
        summary: "on return the utility is closed before the source is opened",
        topics: ["transfer-equipment"],
        sources: ["set and transfer-switch instructions"],
        check: check,
    }
}

const FIRST: Fact = Fact {
    field: "source_opened_before_utility",
    asked: "whether on return the way from the source is opened before the way from the utility is closed",
    well: "opens the way from the source before it closes the way from the utility",
    ill: "closes the way from the utility before it opens the way from the source",
    mend: "open the inlet breaker first, then close the main",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    if joins_utility(survey) && !transfers_by_itself(survey) {
        let stated = survey.site.procedure().and_then(|procedure| procedure.source_opened_before_utility);
        FIRST.judge(found, ComponentId::PROCEDURE, stated);
    }
}
