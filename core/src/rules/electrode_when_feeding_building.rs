//! `electrode-when-feeding-building`: a source that feeds a building is connected to earth as its neutral asks.

use super::{Findings, Remedy, Said, Survey, Value, premises, rule};
use crate::site::{Electrode, Source, TransferNeutral};
use crate::trade::Word;

rule! {
    /// ## Protects against
    /// A system whose voltage to earth is not defined. Where the neutral is switched, the source is separately derived and
    /// needs an electrode, the building's or its own; where the neutral runs through, its grounding conductor is tied to the
    /// building's electrode system.
    ///
    /// ## Cannot tell when
    /// It is not stated what connects the source to earth, or whether the neutral is switched and that decides.
    ///
    /// ## Remedy
    /// The building's electrode system, through the feeder's grounding conductor.
    ELECTRODE_WHEN_FEEDING_BUILDING = "electrode-when-feeding-building" {
        severity: Violation,
        summary: "a source that feeds a building is not connected to earth as its neutral asks",
        topics: ["portable-generator-grounding", "separately-derived-electrode", "outdoor-source-electrode"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in premises::building_sources(survey) {
        judge(survey, found, source);
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, source: &Source) {
    let Some(electrode) = source.electrode else {
        return found.ask(source, "electrode", "what connects its system to earth");
    };
    let mut wanted = "the building's electrode or its own";
    let connected = match electrode {
        Electrode::Building => true,
        Electrode::Frame | Electrode::Missing | Electrode::Distributor => false,
        // An electrode of its own serves only a separately derived source.
        Electrode::Own => {
            for transfer in premises::transfers_below(survey, source.id()) {
                match transfer.neutral {
                    Some(TransferNeutral::Switched) => {}
                    Some(TransferNeutral::Solid) => wanted = "the building's electrode",
                    None => return found.ask(transfer, "neutral", "whether it switches the neutral"),
                }
            }
            wanted == "the building's electrode or its own"
        }
    };
    let said = Said::Compared {
        does: "is connected to earth through:",
        measured: Value::Word(electrode.spelling()),
        limit_words: "it needs",
        limit: Value::Word(wanted),
    };
    let remedy = Remedy::Do("connect it to the electrode system of the building through the feeder's grounding conductor");
    found.judge(source, "electrode", connected, said, remedy);
}
