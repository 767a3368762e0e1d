//! `no-plug-under-load`: connectors are made and parted only while no current flows.

use super::fact::Fact;
use super::{Findings, Survey, rule};
use crate::site::ComponentId;

rule! {
    /// ## Protects against
    /// The arc that stands between the blades when a loaded connector is pulled, at the hand that pulls it.
    ///
    /// ## Cannot tell when
    /// It is not stated whether current flows while connectors are made and parted.
    ///
    /// ## Remedy
    /// Open the breakers on both sides first, then seat or part the connector.
    NO_PLUG_UNDER_LOAD = "no-plug-under-load" {
        severity: Violation,
        summary: "a connector is made or parted under load",
        topics: ["single-pole-connectors"],
        sources: ["OSHA 1910.334(b)(1), from memory"],
        check: check,
    }
}

const UNLOADED: Fact = Fact {
    field: "connectors_unloaded",
    asked: "whether connectors are made and parted only while no current flows",
    well: "makes and parts connectors only while no current flows",
    ill: "has connectors made or parted while current flows",
    mend: "open the breakers on both sides before a connector is seated or parted",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    if !survey.site.cords().is_empty() {
        let stated = survey.site.procedure().and_then(|procedure| procedure.connectors_unloaded);
        UNLOADED.judge(found, ComponentId::PROCEDURE, stated);
    }
}
