//! `waveform-suits-loads`: an inverter that gives no sine feeds nothing that needs one.

use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::site::{Load, LoadKind, SourceKind, Waveform};
use crate::trade::Word;

rule! {
    /// ## Protects against
    /// Motors that run hot, electronics that fail, and protective devices that trip falsely or not at all, on a voltage of
    /// steps.
    ///
    /// ## Cannot tell when
    /// The waveform of a battery, an inverter or a vehicle is not stated, or what kind of load it feeds.
    ///
    /// ## Remedy
    /// A source that gives a sine.
    WAVEFORM_SUITS_LOADS = "waveform-suits-loads" {
        severity: Caution,
        summary: "a load that needs a sine is on a source that gives none",
        topics: ["listed-and-used-as-listed"],
        sources: ["an inverter's manual on ground-fault devices; otherwise reasoning, no section found"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("use a source that gives a sine, or leave the load off");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        match source.waveform {
            // A generator that turns gives a sine unless its description says otherwise.
            None if source.kind == SourceKind::Generator => {}
            None => found.ask(source, "waveform", "its waveform"),
            Some(Waveform::Sine) => {
                found.judge(source, "waveform", true, Said::Plain("gives a sine"), REMEDY);
            }
            Some(waveform) => {
                for load in survey.site.loads_below(source.id()).filter(|load| load.running != Some(false)) {
                    of_load(found, load, waveform);
                }
            }
        }
    }
}

fn of_load(found: &mut Findings, load: &Load, waveform: Waveform) {
    let Some(kind) = load.kind else {
        return found.ask(load, "kind", "what kind of load it is");
    };
    // Resistance heat takes any waveform; what has a motor or electronics in it does not.
    let takes = matches!(kind, LoadKind::SpaceHeating | LoadKind::WaterHeater);
    let said = Said::Compared {
        does: "is a load of the kind",
        measured: Value::Word(kind.spelling()),
        limit_words: "its source's waveform is",
        limit: Value::Word(waveform.spelling()),
    };
    found.judge(load, "kind", takes, said, REMEDY);
}
