//! `lock-and-tag-all-sources`: whoever works on wiring has locked and tagged every source that can reach it.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::ComponentId;

rule! {
    /// ## Protects against
    /// A second source that somebody starts, or that starts by itself, while hands are on the conductors. An
    /// interlock or a transfer switch is no lock.
    ///
    /// ## Cannot tell when
    /// It is not stated whether anybody is to work on the wiring, or whether every source is locked then.
    ///
    /// ## Remedy
    /// Lock and tag the utility, each inlet, each battery and each vehicle; locks are taken off by those who put them
    /// on.
    LOCK_AND_TAG_ALL_SOURCES = "lock-and-tag-all-sources" {
        severity: Prohibited,
        summary: "wiring is worked on while a source that reaches it is not locked",
        topics: [],
        sources: ["OSHA 1910.333(b)(2), read as Washington WAC 296-24-975", "NFPA 70E 120.5"],
        check: check,
    }
}

const LOCKED: Fact = Fact {
    field: "all_sources_locked",
    asked: "whether every source that can reach the work is locked and tagged",
    well: "locks and tags every source that can reach the work",
    ill: "has wiring worked on while a source that reaches it is not locked",
    mend: "lock and tag every source that can reach the work before it begins",
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
            found.judge_part(ComponentId::PROCEDURE, "wiring_work", true, said, Remedy::Do(LOCKED.mend));
        }
        Some(true) => LOCKED.judge(found, ComponentId::PROCEDURE, procedure.and_then(|procedure| procedure.all_sources_locked)),
        None => found.ask_part(ComponentId::PROCEDURE, "wiring_work", WORK),
    }
}
