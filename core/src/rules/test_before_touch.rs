//! `test-before-touch`: conductors are tested dead at the point of work before they are touched.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::ComponentId;

rule! {
    /// ## Protects against
    /// Conductors that are believed dead: the wrong breaker, a second source, a shared neutral, a back-feed.
    ///
    /// ## Cannot tell when
    /// It is not stated whether anybody is to work on the wiring, or whether it is tested dead then.
    ///
    /// ## Remedy
    /// Prove the meter, test between phases and to ground at the point of work, prove the meter again; a tester that
    /// does not touch the conductor is no proof.
    TEST_BEFORE_TOUCH = "test-before-touch" {
        severity: Prohibited,
        summary: "wiring is touched without a test that it is dead",
        topics: [],
        sources: ["NFPA 70E 120.5(7)", "OSHA 1910.333(b)(2)(iv)(B) as a DOE handbook restates it"],
        check: check,
    }
}

const TESTED: Fact = Fact {
    field: "tested_dead",
    asked: "whether the work is tested dead at its point, with a meter of contact proved before and after",
    well: "tests the work dead at its point, with the meter proved before and after",
    ill: "has wiring touched without a test that it is dead",
    mend: "test between phases and to ground at the point of work, with a meter of contact proved before and after",
};

const WORK: &str = "whether anybody is to work on the wiring";

fn check(survey: &Survey<'_>, found: &mut Findings) {
    if survey.site.sources().is_empty() || survey.site.panels().is_empty() {
        return;
    }
    let procedure = survey.site.procedure();
    match procedure.and_then(|procedure| procedure.wiring_work) {
        Some(false) => {
            let said = Said::Plain("has nobody work on the wiring");
            found.judge_part(ComponentId::PROCEDURE, "wiring_work", true, said, Remedy::Do(TESTED.mend));
        }
        Some(true) => TESTED.judge(found, ComponentId::PROCEDURE, procedure.and_then(|procedure| procedure.tested_dead)),
        None => found.ask_part(ComponentId::PROCEDURE, "wiring_work", WORK),
    }
}
