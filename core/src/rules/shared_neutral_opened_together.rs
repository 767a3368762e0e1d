//! `shared-neutral-opened-together`: all ungrounded conductors that share a neutral open together.

use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::site::Circuit;

rule! {
    /// ## Protects against
    /// A circuit that is believed dead and is live over the neutral of its other leg, and a neutral that two supplies
    /// feed.
    ///
    /// ## Cannot tell when
    /// Whether the circuit shares its neutral, or how many poles its device has, is not stated.
    ///
    /// ## Remedy
    /// A device of two poles, and both legs in one panel.
    SHARED_NEUTRAL_OPENED_TOGETHER = "shared-neutral-opened-together" {
        severity: Violation,
        summary: "the legs that share a neutral do not open together",
        topics: ["shared-neutral-disconnect"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for circuit in survey.site.circuits() {
        let legs = survey.site.panel_of(circuit.id()).is_some_and(|panel| {
            panel.system.line_to_line().is_some() && panel.system.line_to_neutral().is_some()
        });
        match circuit.multiwire {
            _ if !legs => {}
            Some(false) => {}
            Some(true) => judge(found, circuit),
            None => found.ask(circuit, "multiwire", "whether it shares its neutral with another leg"),
        }
    }
}

fn judge(found: &mut Findings, circuit: &Circuit) {
    let Some(poles) = circuit.overcurrent_device.as_ref().and_then(|device| device.poles) else {
        return found.ask(circuit, "overcurrent_device", "the poles of its overcurrent device");
    };
    let poles = u16::from(poles.count());
    let said = Said::Compared {
        does: "shares its neutral, with a device of poles:",
        measured: Value::Count(poles),
        limit_words: "to open together it needs",
        limit: Value::Count(2),
    };
    let remedy = Remedy::Do("use a device of two poles, with both legs in one panel");
    found.judge(circuit, "overcurrent_device", poles >= 2, said, remedy);
}
