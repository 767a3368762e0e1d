//! `all-live-poles-move-together`: one handle transfers every ungrounded conductor at once.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, Value, premises, rule};
use crate::site::Panel;
use crate::trade::System;

rule! {
    /// ## Protects against
    /// One leg on each supply: a path between them through every load between the legs, and wrong voltages.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the poles move together, or how many poles the device has that feeds the panel.
    ///
    /// ## Remedy
    /// A device with a pole for every ungrounded conductor and one handle.
    ALL_LIVE_POLES_MOVE_TOGETHER = "all-live-poles-move-together" {
        severity: Violation,
        summary: "ungrounded conductors are transferred one by one",
        topics: ["generator-disconnect", "shared-neutral", "switched-neutral"],
        check: check,
    }
}

const HANDLE: Fact = Fact {
    field: "poles_move_together",
    asked: "whether one handle moves all its poles",
    well: "has one handle that moves all its poles",
    ill: "has poles that move one by one",
    mend: "use a device with a pole for every ungrounded conductor and one handle",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for transfer in survey.site.transfers() {
        HANDLE.judge(found, transfer.id(), transfer.poles_move_together);
    }
    for panel in premises::fed_panels(survey) {
        breaker(survey, found, panel);
    }
}

fn breaker(survey: &Survey<'_>, found: &mut Findings, panel: &Panel) {
    if panel.supply_breaker.is_none() && !premises::is_backfed(survey, panel) {
        return;
    }
    let Some(poles) = panel.supply_breaker.as_ref().and_then(|device| device.poles) else {
        return found.ask(panel, "supply_breaker", "how many poles the device has that feeds it from the source");
    };
    let Some(needed) = survey.site.source_of(panel.id()).map(|source| ungrounded(source.system)) else { return };
    let said = Said::Compared {
        does: "is fed through a device of poles:",
        measured: Value::Count(u16::from(poles.count())),
        limit_words: "its source's ungrounded conductors are",
        limit: Value::Count(u16::from(needed)),
    };
    found.judge(panel, "supply_breaker", poles.count() >= needed, said, Remedy::Do(HANDLE.mend));
}

/// How many conductors of a system are not grounded.
const fn ungrounded(system: System) -> u8 {
    match system {
        System::V120 | System::V230 => 1,
        System::V240 | System::V120V240 => 2,
        System::V208Y120 | System::V480Y277 | System::V400Y230 => 3,
    }
}
