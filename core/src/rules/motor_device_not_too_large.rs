//! `motor-device-not-too-large`: the device of a motor on its own circuit is no larger than its full-load current
//! permits.

use super::motor_alone::MotorAlone;
use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::calc::CannotTell;
use crate::calc::motor::{CompressorStart, MotorDevice, ProtectedMotor, compressor_device, motor_device};
use crate::code::Code;
use crate::quantity::Amperes;
use crate::trade::DeviceKind;

rule! {
    /// ## Protects against
    /// A device that does not open when a motor's winding or its wiring shorts. It may be larger than the conductor's
    /// ampacity, for the motor must start, but only as far as the code's share of the full-load current, or what is
    /// marked on the equipment. The larger share that the code permits for a motor that does not start otherwise is
    /// left out for ordinary motors. Examined are motors of one phase, each alone on its circuit and not plugged in.
    ///
    /// ## Cannot tell when
    /// The kind of the load, the rating of the device, the output of a motor or the rated-load current of a compressor
    /// is not stated; the table has no full-load current for the output and voltage; or what is marked on a compressor,
    /// or the kind of a fuse, decides.
    ///
    /// ## Remedy
    /// A smaller device.
    MOTOR_DEVICE_NOT_TOO_LARGE = "motor-device-not-too-large" {
        severity: Violation,
        summary: "the overcurrent device of a motor is larger than its full-load current permits",
        topics: ["motor-overcurrent", "compressor-overcurrent", "standard-rating"],
        check: check,
    }
}

/// The largest device in any case, the largest where a fact that is not stated is in its favour, and that fact.
struct Most {
    surely: Amperes,
    perhaps: Amperes,
    field: &'static str,
    fact: &'static str,
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for circuit in survey.site.circuits() {
        let Some(motor) = MotorAlone::of(survey, circuit) else { continue };
        found.rest_on(motor.is_hermetic().then_some(&["compressor-overcurrent", "standard-rating"]));
        let device = circuit.overcurrent_device.as_ref();
        let Some(rating) = device.and_then(|device| device.rating).map(|rating| *rating) else {
            found.ask(circuit, "overcurrent_device", "the rating of its overcurrent device");
            continue;
        };
        let kind = device.and_then(|device| device.kind).unwrap_or(DeviceKind::Breaker);
        let (load, most) = match motor {
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
            MotorAlone::Hermetic(load, current) => match (load.marked_device, current) {
                (Some(marked), _) => (load, Ok(Most::of(*marked))),
                (None, Some(current)) => (load, of_compressor(survey.code, kind, current)),
                (None, None) => {
                    found.ask(load, "current", "its rated-load current, or the largest device marked on it");
                    continue;
                }
            },
            MotorAlone::Ordinary(load, full_load) => (load, of_motor(survey.code, kind, full_load)),
        };
        match most {
            Err(gap) => found.gap(circuit, "overcurrent_device", gap),
            Ok(most) if rating > most.surely && rating <= most.perhaps => {
                if most.field == "marked_device" {
                    found.ask(load, most.field, most.fact);
                } else {
                    found.ask(circuit, most.field, most.fact);
                }
            }
            Ok(most) => {
                let said = Said::Compared {
                    does: "is protected at",
                    measured: Value::Current(rating),
                    limit_words: "its motor permits at most",
                    limit: Value::Current(most.surely),
                };
                let remedy = Remedy::Use("use a device of at most", Value::Current(most.surely));
                found.judge(circuit, "overcurrent_device", rating <= most.surely, said, remedy);
            }
        }
    }
}

impl Most {
    fn of(surely: Amperes) -> Self {
        Self { surely, perhaps: surely, field: "overcurrent_device", fact: "" }
    }
}

fn of_motor(code: &dyn Code, kind: DeviceKind, full_load: Amperes) -> Result<Most, CannotTell> {
    let most = |device| motor_device(code, ProtectedMotor::SinglePhase, device, full_load);
    if kind == DeviceKind::Breaker {
        return Ok(Most::of(most(MotorDevice::InverseTimeBreaker)?));
    }
    Ok(Most {
        surely: most(MotorDevice::DualElementFuse)?,
        perhaps: most(MotorDevice::NontimeDelayFuse)?,
        field: "overcurrent_device",
        fact: "whether its fuse has a time delay",
    })
}

fn of_compressor(code: &dyn Code, kind: DeviceKind, current: Amperes) -> Result<Most, CannotTell> {
    let most = |start| compressor_device(code, kind, current, None, start);
    Ok(Most {
        surely: most(CompressorStart::Usual)?,
        perhaps: most(CompressorStart::NeedsMore)?,
        field: "marked_device",
        fact: "the largest device marked on it, which decides between both shares of its rated-load current",
    })
}
