//! `phase-sequence-match`: a three-phase source has the phase sequence of the premises.

use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::site::{Component, ComponentId, Source};
use crate::trade::{System, Word};

rule! {
    /// ## Protects against
    /// Pumps and compressors that run backwards.
    ///
    /// ## Cannot tell when
    /// The sequence of the source or of the premises is not stated: it is measured with the source running and not
    /// yet connected.
    ///
    /// ## Remedy
    /// Swap two conductors at the source.
    PHASE_SEQUENCE_MATCH = "phase-sequence-match" {
        severity: Violation,
        summary: "a three-phase source has another phase sequence than the premises",
        topics: [],
        sources: ["a transfer-equipment maker's technical brief; no section was found for optional standby"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources().iter().filter(|source| is_three_phase(source.system)) {
        let mut below = survey.below(source.id());
        if below.any(|component| matches!(component, Component::Panel(_) | Component::Transfer(_))) {
            judge(survey, found, source);
        }
    }
}

const fn is_three_phase(system: System) -> bool {
    matches!(system, System::V208Y120 | System::V480Y277 | System::V400Y230)
}

fn judge(survey: &Survey<'_>, found: &mut Findings, source: &Source) {
    let Some(own) = source.phase_sequence else {
        return found.ask(source, "phase_sequence", "its phase sequence");
    };
    let Some(theirs) = survey.site.surroundings().and_then(|place| place.phase_sequence) else {
        return found.ask_part(ComponentId::SURROUNDINGS, "phase_sequence", "the phase sequence of the premises");
    };
    let said = Said::Compared {
        does: "turns",
        measured: Value::Word(own.spelling()),
        limit_words: "the premises turn",
        limit: Value::Word(theirs.spelling()),
    };
    found.judge(source, "phase_sequence", own == theirs, said, Remedy::Do("swap two conductors at the source"));
}
