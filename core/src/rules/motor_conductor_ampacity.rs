//! `motor-conductor-ampacity`: the conductors of a motor on its own circuit have 125 % of its full-load current.

use super::motor_alone::MotorAlone;
use super::wires::Run;
use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::calc::motor::{compressor_conductor, motor_conductor};
use crate::quantity::{Amperes, Rounding, Scaled};

rule! {
    /// ## Protects against
    /// The conductors of a motor that overheat: it runs for hours at a current somewhat above its rating before its
    /// overload protection opens. A motor counts with the full-load current of the table, a hermetic compressor with
    /// its rated-load current, or with the least ampacity that is marked on the equipment. Examined are motors of one
    /// phase, each alone on its circuit and not plugged in.
    ///
    /// ## Cannot tell when
    /// The kind of the load, the output of a motor, the rated-load current of a compressor or a condition that the
    /// ampacity depends on is not stated, or the table has no full-load current for the output and voltage.
    ///
    /// ## Remedy
    /// Larger conductors.
    MOTOR_CONDUCTOR_AMPACITY = "motor-conductor-ampacity" {
        severity: Violation,
        summary: "the conductors of a motor have less than 125 % of its full-load current",
        topics: ["motor-conductor", "compressor-conductor", "motor-current"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for circuit in survey.site.circuits() {
        let Some(motor) = MotorAlone::of(survey, circuit) else { continue };
        found.rest_on(motor.is_hermetic().then_some(&["compressor-conductor"]));
        let run = Run::Circuit(circuit);
        let least = match motor {
            MotorAlone::NoKind(load) => {
                found.ask(load, "kind", "what kind of load it is");
                continue;
            }
            MotorAlone::NotStated(load) => {
                found.ask(load, "motor_output", "its rated output, or that it is hermetic");
                continue;
            }
            MotorAlone::NoFullLoad(load) => {
                found.ask(load, "motor_output", "an output and a voltage that the table of full-load currents has");
                continue;
            }
            MotorAlone::Hermetic(load, current) => match (load.marked_ampacity, current) {
                (Some(marked), _) => Ok(Scaled::whole(*marked)),
                (None, Some(current)) => compressor_conductor(current, None),
                (None, None) => {
                    found.ask(load, "current", "its rated-load current, or the least ampacity marked on it");
                    continue;
                }
            },
            MotorAlone::Ordinary(_, full_load) => motor_conductor(full_load),
        };
        let conditions = match run.known(survey).conditions {
            Ok(conditions) => conditions,
            Err((field, fact)) => {
                found.ask(circuit, field, fact);
                continue;
            }
        };
        let ampacity = run.ampacity(survey, &conditions, found);
        match (least, ampacity) {
            (Err(gap), _) | (_, Err(gap)) => found.gap(circuit, "wiring", gap),
            (Ok(least), Ok(ampacity)) => {
                let shown = Value::Current(least.rounded(Rounding::Up).unwrap_or(Amperes::MAX));
                let said = Said::Compared {
                    does: "feeds a motor that needs",
                    measured: shown,
                    limit_words: "its conductors have an ampacity of",
                    limit: Value::Current(ampacity.usable),
                };
                let remedy = Remedy::Use("use conductors with an ampacity of at least", shown);
                found.judge(circuit, "wiring", least <= ampacity.usable, said, remedy);
            }
        }
    }
}
