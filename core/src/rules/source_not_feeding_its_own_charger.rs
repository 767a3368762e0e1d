//! `source-not-feeding-its-own-charger`: a source does not feed what charges it.

use super::{Findings, Remedy, Said, Survey, capacity, rule};
use crate::site::{LoadKind, Source, SourceKind};

rule! {
    /// ## Protects against
    /// A battery that runs itself down through the losses of its own charger.
    ///
    /// ## Cannot tell when
    /// The kind of a load, or whether a charger charges the source that feeds it, is not stated.
    ///
    /// ## Remedy
    /// Open the circuit of the charger.
    SOURCE_NOT_FEEDING_ITS_OWN_CHARGER = "source-not-feeding-its-own-charger" {
        severity: Caution,
        summary: "a source feeds its own charger",
        topics: [],
        sources: ["own reasoning, no source"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("open the circuit of the charger while the source feeds");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources().iter().filter(|source| source.kind != SourceKind::Generator) {
        judge(survey, found, source);
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, source: &Source) {
    let mut known = true;
    for load in capacity::loads(survey, source) {
        match (load.kind, load.charges_own_source) {
            (Some(LoadKind::VehicleCharging | LoadKind::BatteryCharging), Some(true)) | (None, Some(true)) => {
                found.judge(load, "charges_own_source", false, Said::Plain("charges the source that feeds it"), REMEDY);
                known = false;
            }
            (Some(LoadKind::VehicleCharging | LoadKind::BatteryCharging), None) => {
                found.ask(load, "charges_own_source", "whether it charges the source that feeds it");
                known = false;
            }
            (None, None) => {
                found.ask(load, "kind", "what kind of load it is");
                known = false;
            }
            (Some(_), _) | (None, Some(false)) => {}
        }
    }
    if known {
        found.judge(source, "kind", true, Said::Plain("feeds nothing that charges it"), REMEDY);
    }
}
