//! `main-open-and-proved`: the way from the utility is open, and seen to be, before a source is connected.

use super::fact::{Fact, joins_utility, transfers_by_itself};
use super::{Findings, Survey, rule};
use crate::site::ComponentId;

rule! {
    /// ## Protects against
    /// A street that is live from a house, and a lineman on it. A breaker that is believed open and is not, or a
    /// handle that does not show its position, is no isolation.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the main is opened and seen to be open first. Transfer equipment that passes over by
    /// itself opens it without a person.
    ///
    /// ## Remedy
    /// Open the main or set the transfer equipment to the source, see that its handle shows it and that the interlock
    /// is engaged, and only then connect.
    MAIN_OPEN_AND_PROVED = "main-open-and-proved" {
        severity: Prohibited,
        summary: "a source is connected before the way from the utility is seen to be open",
        topics: ["transfer-equipment", "indicating-position"],
        sources: ["California Health and Safety Code 119075(b)", "electric-cooperative advice"],
        check: check,
    }
}

const OPEN: Fact = Fact {
    field: "main_verified_open",
    asked: "whether the way from the utility is opened, and seen to be open, before a source is connected",
    well: "opens the way from the utility, and sees it open, before a source is connected",
    ill: "connects a source before the way from the utility is seen to be open",
    mend: "open the main first, see that its handle and the interlock show it, and then connect",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    if joins_utility(survey) && !transfers_by_itself(survey) {
        let stated = survey.site.procedure().and_then(|procedure| procedure.main_verified_open);
        OPEN.judge(found, ComponentId::PROCEDURE, stated);
    }
}
