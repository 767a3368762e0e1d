//! `refuel-cool`: fuel is added only to a cool engine, and stored away from it.

use super::fact::{Fact, engines};
use super::{Findings, Survey, rule};
use crate::site::{ComponentId, Fuel};

rule! {
    /// ## Protects against
    /// Vapor that a hot muffler lights, and a store of fuel beside an engine or where people live.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the engine is cool, where the fuel is stored, or whether a source has an engine.
    ///
    /// ## Remedy
    /// Wait until the engine is cool; store fuel away from it and from where people live.
    REFUEL_COOL = "refuel-cool" {
        severity: Violation,
        summary: "fuel is added to a hot engine, or stored beside it",
        topics: [],
        sources: ["OSHA fact sheet on portable generators", "utility advice"],
        check: check,
    }
}

const FUEL: Fact = Fact {
    field: "refueled_cool",
    asked: "whether fuel is added only with the engine cool",
    well: "adds fuel only with the engine cool",
    ill: "adds fuel while the engine is hot",
    mend: "wait until the engine is cool",
};

const STORE: Fact = Fact {
    field: "fuel_stored_away",
    asked: "whether fuel is stored away from the engine and from where people live",
    well: "stores fuel away from the engine and from where people live",
    ill: "stores fuel beside the engine or where people live",
    mend: "store fuel away from the engine and from where people live",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    // Nobody refuels an engine on a pipe; an unknown fuel may be one that people pour.
    if engines(survey, found).iter().all(|source| source.fuel == Some(Fuel::PipedGas)) {
        return;
    }
    let procedure = survey.site.procedure();
    FUEL.judge(found, ComponentId::PROCEDURE, procedure.and_then(|procedure| procedure.refueled_cool));
    STORE.judge(found, ComponentId::PROCEDURE, procedure.and_then(|procedure| procedure.fuel_stored_away));
}
