//! `backfed-breaker-not-one-way`: a breaker marked for one direction is not fed in the other.

use super::fact::Fact;
use super::{Findings, Survey, premises, rule};
use crate::site::BreakerMarking;

rule! {
    /// ## Protects against
    /// A trip unit that is destroyed, or does not open, because it is fed from its load side: many ground-fault and
    /// arc-fault breakers are such.
    ///
    /// ## Cannot tell when
    /// A breaker of the panel is fed from the source, and its marking is not stated. An interlock always has one, and so has
    /// a panel without transfer equipment.
    ///
    /// ## Remedy
    /// A breaker without the marks, or one identified for reverse feed.
    BACKFED_BREAKER_NOT_ONE_WAY = "backfed-breaker-not-one-way" {
        severity: Violation,
        summary: "a breaker marked line and load is fed backwards",
        topics: ["backfed-breaker-suited"],
        check: check,
    }
}

const MARKING: Fact = Fact {
    field: "supply_breaker_marking",
    asked: "what is marked at the terminals of the breaker that feeds it from the source",
    well: "is fed through a breaker that may be fed in reverse",
    ill: "is fed in reverse through a breaker marked line and load",
    mend: "use a breaker identified for reverse feed",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for panel in premises::fed_panels(survey) {
        let stated = panel.supply_breaker.is_some() || panel.supply_breaker_marking.is_some();
        if stated || premises::is_backfed(survey, panel) {
            let marking = panel.supply_breaker_marking;
            MARKING.judge(found, panel.id(), marking.map(|marking| marking != BreakerMarking::LineAndLoad));
        }
    }
}
