//! `refuel-stopped`: fuel is added only with the engine stopped.

use super::fact::{Fact, engines};
use super::{Findings, Survey, rule};
use crate::site::{ComponentId, Fuel};

rule! {
    /// ## Protects against
    /// Fuel that spills on a running engine and its exhaust, and burns the person who pours it.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the engine is stopped first, or whether a source has an engine.
    ///
    /// ## Remedy
    /// Stop the engine before its tank is opened; a battery bridges the gap for what must not stop.
    REFUEL_STOPPED = "refuel-stopped" {
        severity: Prohibited,
        summary: "fuel is added while the engine runs",
        topics: [],
        sources: ["OSHA fact sheet on portable generators", "utility advice"],
        check: check,
    }
}

const FUEL: Fact = Fact {
    field: "refueled_stopped",
    asked: "whether fuel is added only with the engine stopped",
    well: "adds fuel only with the engine stopped",
    ill: "adds fuel while the engine runs",
    mend: "stop the engine before its tank is opened",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    // Nobody refuels an engine on a pipe; an unknown fuel may be one that people pour.
    if engines(survey, found).iter().all(|source| source.fuel == Some(Fuel::PipedGas)) {
        return;
    }
    let procedure = survey.site.procedure();
    FUEL.judge(found, ComponentId::PROCEDURE, procedure.and_then(|procedure| procedure.refueled_stopped));
}
