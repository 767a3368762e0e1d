//! `loads-kept-off`: heavy loads are off while the source feeds, or counted.

use super::{Findings, Remedy, Said, Survey, capacity, rule};
use crate::site::{Load, LoadKind};

rule! {
    /// ## Protects against
    /// One heating element of a water heater or a dryer that takes a small source completely.
    ///
    /// ## Cannot tell when
    /// The kind of a load, or whether a heavy load is to run, is not stated.
    ///
    /// ## Remedy
    /// Open the breakers of heavy loads before the transfer, or count their draw.
    LOADS_KEPT_OFF = "loads-kept-off" {
        severity: Caution,
        summary: "a heavy load is on and is not counted",
        topics: ["manual-transfer-capacity"],
        sources: ["agency and utility advice to run essentials only"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("open its breaker before the transfer, or state what it draws so that it is counted");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for load in survey.site.loads().iter().filter(|load| survey.site.source_of(load.id()).is_some()) {
        match load.kind {
            None if load.running == Some(false) => {}
            None => found.ask(load, "kind", "what kind of load it is"),
            Some(kind) if is_heavy(kind) => judge(found, load),
            Some(_) => {}
        }
    }
}

const fn is_heavy(kind: LoadKind) -> bool {
    use LoadKind::{CentralCooling, Dryer, Range, SpaceHeating, VehicleCharging, WaterHeater};
    matches!(kind, SpaceHeating | Range | WaterHeater | Dryer | CentralCooling | VehicleCharging)
}

fn judge(found: &mut Findings, load: &Load) {
    match (load.running, capacity::running(load)) {
        (Some(false), _) => found.judge(load, "running", true, Said::Plain("stays off on the source"), REMEDY),
        (None, _) => found.ask(load, "running", "whether it is to run on the source"),
        (Some(true), Some(_)) => {
            found.judge(load, "running", true, Said::Plain("is to run, and its draw is counted"), REMEDY);
        }
        (Some(true), None) => {
            let said = Said::Plain("is to run, and its draw is not stated and so not counted");
            found.judge(load, "running", false, said, REMEDY);
        }
    }
}
