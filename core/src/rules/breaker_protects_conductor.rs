//! `breaker-protects-conductor`: the device ahead of a conductor is no larger than the conductor permits.

use super::motor_alone::MotorAlone;
use super::wires::{Known, Run, rating_ahead};
use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::calc;
use crate::calc::overcurrent::Supplies as Use;
use crate::site::Supplies;
use crate::trade::DeviceKind;

rule! {
    /// ## Protects against
    /// A conductor that burns before its device opens. The device may not be above the ampacity, but for the next
    /// standard rating where the code permits it, and never above the limit of a small conductor. Wiring from an inlet is
    /// protected by the device of the source, wherever a smaller one stands further on. A circuit that feeds one motor
    /// alone may have a larger device, which `motor-device-not-too-large` judges.
    ///
    /// ## Cannot tell when
    /// The rating of the device, or a condition that the ampacity depends on, is not stated; or what the circuit supplies
    /// is not stated and decides whether the next standard rating is permitted.
    ///
    /// ## Remedy
    /// A smaller device or a larger conductor.
    BREAKER_PROTECTS_CONDUCTOR = "breaker-protects-conductor" {
        severity: Violation,
        summary: "an overcurrent device is too large for the conductor behind it",
        topics: ["conductor-protection", "next-size-up", "small-conductor", "standard-rating"],
        check: check,
    }
}

/// A load of unknown kind is not taken for a motor: silence must not permit the larger device.
fn is_motor_circuit(survey: &Survey<'_>, run: Run<'_>) -> bool {
    match run {
        Run::Circuit(circuit) => {
            MotorAlone::of(survey, circuit).is_some_and(|motor| !matches!(motor, MotorAlone::NoKind(_)))
        }
        Run::Feeder(_) => false,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for run in Run::all(survey) {
        let of = run.component();
        let Known { device, conditions } = run.known(survey);
        let Some(rating) = rating_ahead(device, of, found) else { continue };
        let kind = device.map_or(DeviceKind::Breaker, |device| device.kind);
        let conditions = match conditions {
            Ok(conditions) => conditions,
            Err((field, fact)) => {
                found.ask(of, field, fact);
                continue;
            }
        };
        let largest = |supplies, found: &mut Findings| {
            found.afresh();
            let ampacity = run.ampacity(survey, &conditions, found)?;
            let conductor = (conditions.material, conditions.size);
            calc::overcurrent::largest_device(survey.code, kind, ampacity.usable, conductor, supplies, found)
        };
        let supplies = match run {
            Run::Feeder(_) => Some(Use::Other),
            Run::Circuit(circuit) => circuit.supplies.map(|supplies| match supplies {
                Supplies::SeveralReceptacles => Use::SeveralReceptacles,
                _ => Use::Other,
            }),
        };
        // Where what it supplies is not stated, the stricter reading decides if both agree.
        let judged = match supplies {
            Some(supplies) => largest(supplies, found).map(Some),
            None => match (largest(Use::Other, found), largest(Use::SeveralReceptacles, found)) {
                (Ok(loose), Ok(strict)) if (rating <= loose.rating) == (rating <= strict.rating) => Ok(Some(strict)),
                (Err(gap), _) | (_, Err(gap)) => Err(gap),
                _ => Ok(None),
            },
        };
        match judged {
            Err(gap) => found.gap(of, "wiring", gap),
            Ok(None) => found.ask(of, "supplies", "whether it supplies more than one receptacle"),
            // 240.4(G): what a motor alone on its circuit permits is a rule of its own, `motor-device-not-too-large`.
            Ok(Some(most)) if rating > most.rating && is_motor_circuit(survey, run) => {}
            Ok(Some(most)) => {
                let said = Said::Compared {
                    does: "is protected at",
                    measured: Value::Current(rating),
                    limit_words: "its conductor permits at most",
                    limit: Value::Current(most.rating),
                };
                let remedy = Remedy::Use("use a larger conductor, or a device of at most", Value::Current(most.rating));
                found.judge(of, "overcurrent_device", rating <= most.rating, said, remedy);
            }
        }
    }
}
