//! `protective-electronics-on-source`: ground-fault and arc-fault devices are fed with a sine.

use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::{Component, Source, Waveform};

rule! {
    /// ## Protects against
    /// A ground-fault or arc-fault device that trips or does not trip on a distorted voltage, and is then bypassed.
    ///
    /// ## Cannot tell when
    /// The form of the source's voltage is not stated, or whether a receptacle has a ground-fault circuit
    /// interrupter.
    ///
    /// ## Remedy
    /// A source whose voltage is a sine; never bypass the device.
    PROTECTIVE_ELECTRONICS_ON_SOURCE = "protective-electronics-on-source" {
        severity: Caution,
        summary: "a ground-fault device is fed with a voltage that is not a sine",
        topics: [],
        sources: ["own reasoning; no primary source was found for arc-fault devices on inverters"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        match fed(survey, source) {
            None => {}
            Some(Err(receptacle)) => {
                found.ask(receptacle, "gfci", "whether a ground-fault circuit interrupter protects it");
            }
            Some(Ok(())) => judge(found, source),
        }
    }
}

/// Whether it feeds a protected receptacle, or the first that may be one.
fn fed<'a>(survey: &Survey<'a>, source: &Source) -> Option<Result<(), &'a crate::site::Receptacle>> {
    let receptacles = survey.below(source.id()).filter_map(|component| match component {
        Component::Receptacle(receptacle) => Some(receptacle),
        _ => None,
    });
    if receptacles.clone().any(|receptacle| receptacle.gfci == Some(true)) {
        return Some(Ok(()));
    }
    // The first by name, wherever it stands in the document.
    receptacles.filter(|receptacle| receptacle.gfci.is_none()).min_by(|one, other| one.name.cmp(&other.name)).map(Err)
}

fn judge(found: &mut Findings, source: &Source) {
    let Some(waveform) = source.waveform else { return found.ask(source, "waveform", "the form of its voltage") };
    let sine = waveform == Waveform::Sine;
    let said = Said::Plain(if sine {
        "feeds ground-fault devices with a sine"
    } else {
        "feeds ground-fault devices with a voltage that is not a sine"
    });
    found.judge(source, "waveform", sine, said, Remedy::Do("use a source whose voltage is a sine; never bypass the device"));
}
