//! `equipment-grounding-conductor`: the grounding conductor of a run is large enough for its device.

use super::wires::{Run, rating_ahead};
use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::calc::grounding::{Enlarged, equipment};

rule! {
    /// ## Protects against
    /// A fault to metal that the device does not clear, because the way back is too thin; more so where conductors were
    /// enlarged and the grounding conductor was not.
    ///
    /// ## Cannot tell when
    /// The rating of the device, or the size or material of the grounding conductor, is not stated.
    ///
    /// ## Remedy
    /// A larger grounding conductor.
    EQUIPMENT_GROUNDING_CONDUCTOR = "equipment-grounding-conductor" {
        severity: Violation,
        summary: "an equipment grounding conductor is too small for its device",
        topics: ["equipment-grounding", "equipment-grounding-increase"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for run in Run::all(survey) {
        let of = run.component();
        let Some(device) = rating_ahead(run.device(survey), of, found) else { continue };
        let Some(wiring) = run.wiring() else {
            found.ask(of, "wiring", "its wiring");
            continue;
        };
        let Some(size) = wiring.grounding_size else {
            found.ask(of, "wiring", "the size of its equipment grounding conductor");
            continue;
        };
        let Some(material) = wiring.grounding_material else {
            found.ask(of, "wiring", "the material of its equipment grounding conductor");
            continue;
        };
        let enlarged = match (wiring.minimum_size, wiring.size) {
            (Some(needed), Some(installed)) => Some(Enlarged { needed, installed }),
            _ => None,
        };
        match equipment(survey.code, material, device, enlarged, found) {
            Err(gap) => found.gap(of, "wiring", gap),
            Ok(least) => {
                let said = Said::Compared {
                    does: "has a grounding conductor of",
                    measured: Value::Size(size),
                    limit_words: "its device asks for",
                    limit: Value::Size(least),
                };
                let holds = size >= least;
                let remedy = Remedy::Use("use an equipment grounding conductor of at least", Value::Size(least));
                found.judge(of, "wiring", holds, said, remedy);
            }
        }
    }
}
