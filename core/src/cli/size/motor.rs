//! `size motor`: the branch circuit of one continuous-duty motor, from what its nameplate says of it.

use super::super::answer::{Answer, Detail};
use super::super::calc::conductor::Conductor;
use super::super::named::named;
use super::super::options::{Problem, given, missing, required};
use super::settle;
use crate::calc::{Step, Working};
use crate::code::{Code, Gap};
use crate::plan::motor::{
    Horsepower, MotorDevice, Phase, ProtectedMotor, full_load_current, motor_conductor, motor_device,
};
use crate::quantity::{Amperes, Rounding, Scaled, Volts};
use crate::size::motor::motor_circuit;
use crate::trade::{Material, TerminalMark};

const FULL_LOAD: &str = "the full-load current of the motor";

#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    /// Its output: "7-1/2 hp"
    #[arg(long)]
    output: Option<String>,
    /// The voltage: "230 V"
    #[arg(long)]
    voltage: Option<String>,
    /// Its phases: single-phase or three-phase
    #[arg(long)]
    phases: Option<String>,
    /// Its kind, where three-phase: squirrel-cage-other-than-design-b-energy-or-premium-efficient,
    /// design-b-energy-or-premium-efficient, ac-polyphase-other-than-wound-rotor, wound-rotor
    #[arg(long)]
    motor_kind: Option<String>,
    /// The device against short circuit: inverse-time breaker, dual-element fuse, nontime-delay fuse
    #[arg(long)]
    device: Option<String>,
    #[command(flatten)]
    conductor: Conductor,
    /// The material of the equipment grounding conductor
    #[arg(long)]
    grounding_material: Option<String>,
}

named!(Question: output, voltage, phases, motor_kind, device, grounding_material; conductor);

impl Question {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("size-motor", code, detail);
        let output = required::<Horsepower>("output", self.output.as_ref(), "7-1/2 hp")?;
        let voltage = required::<Volts>("voltage", self.voltage.as_ref(), "230 V")?;
        let phases = required::<Phase>("phases", self.phases.as_ref(), "three-phase")?;
        let kind = self.kind(phases)?;
        let device = match given::<MotorDevice>("device", self.device.as_ref())? {
            Some(device) => device,
            None => {
                answer.assume("an inverse-time breaker");
                MotorDevice::InverseTimeBreaker
            }
        };
        if self.conductor.circuit_rating.is_some() {
            return Err(Problem::at("circuit-rating", "is found here; leave it out"));
        }
        let mut conductor = self.conductor.clone();
        let smallest = conductor.size.get_or_insert_with(|| "14 AWG".to_owned()).clone();
        conductor.circuit_rating = Some("15 A".to_owned()); // Found below: nothing is assumed of it.
        let mut conditions = conductor.conditions(code, &mut answer)?;
        answer.assume(format_args!("no conductor smaller than {smallest}"));
        let grounding = match given::<Material>("grounding-material", self.grounding_material.as_ref())? {
            Some(material) => material,
            None => {
                answer.assume(format_args!("equipment grounding conductor of {}", conditions.material));
                conditions.material
            }
        };
        answer.assume("one motor of continuous duty on its own circuit; no limit on the voltage drop");
        answer.assume("overload protection, 430.32, is not sized here: it goes by the nameplate current");
        answer.subject(format_args!("for a motor of {output}, {voltage}, {phases}"));

        let Some((full_load, least, rating)) =
            requirements(code, (phases, output, voltage), (kind, device), &mut answer)
        else {
            return Ok(answer);
        };
        if conditions.terminals == TerminalMark::Unmarked {
            answer.assume("unmarked terminals count by the required ampacity, not by the larger device, 110.14(C)(1)");
        }
        let shown = least.rounded(Rounding::Up).unwrap_or(Amperes::MAX);
        conditions.circuit_rating = Some(shown);
        let found = motor_circuit(code, &conditions, least, rating, grounding, &mut answer.working);
        let Some(sized) = settle(&mut answer, found) else {
            return Ok(answer);
        };
        answer.quantity(sized.ungrounded.value);
        answer.say(format_args!("{} {}, {device} of at most {rating}", sized.ungrounded.value, conditions.material));
        answer.governed_by(sized.ungrounded.governed_by);
        answer.figure("full_load_current_of_the_table", full_load);
        answer.figure("required_ampacity_rounded_up", shown);
        answer.figure("largest_overcurrent_device", rating);
        answer.figure("ungrounded_conductor", sized.ungrounded.value);
        answer.figure("equipment_grounding_conductor", sized.grounding.value);
        answer.figure("equipment_grounding_conductor_governed_by", sized.grounding.governed_by);
        Ok(answer)
    }

    /// The kind by which the device is found; of a single-phase motor there is but one.
    fn kind(&self, phases: Phase) -> Result<ProtectedMotor, Problem> {
        let kind = given::<ProtectedMotor>("motor-kind", self.motor_kind.as_ref())?;
        match (phases, kind) {
            (Phase::Single, None | Some(ProtectedMotor::SinglePhase)) => Ok(ProtectedMotor::SinglePhase),
            (Phase::Single, Some(_)) => Err(Problem::at("motor-kind", "is not single-phase, and --phases is")),
            (_, None) => Err(missing("motor-kind", "design-b-energy-or-premium-efficient")),
            (_, Some(ProtectedMotor::SinglePhase)) => {
                Err(Problem::at("motor-kind", "is single-phase, and --phases is not"))
            }
            // Their currents stand in other tables.
            (_, Some(ProtectedMotor::DirectCurrent | ProtectedMotor::Synchronous)) => {
                Err(Problem::at("motor-kind", "only induction and wound-rotor motors are sized here"))
            }
            (_, Some(kind)) => Ok(kind),
        }
    }
}

/// The full-load current of the table, the least ampacity and the largest device; `None` with the gap noted.
fn requirements(
    code: &dyn Code,
    (phases, output, voltage): (Phase, Horsepower, Volts),
    (kind, device): (ProtectedMotor, MotorDevice),
    answer: &mut Answer,
) -> Option<(Amperes, Scaled<Amperes>, Amperes)> {
    let cell = match full_load_current(phases, output, voltage) {
        Ok(cell) => cell,
        Err(missing) => {
            answer.gap(FULL_LOAD, missing);
            return None;
        }
    };
    if !code.admits(cell.place, cell.grade) {
        answer.gap(FULL_LOAD, Gap::BelowGrade(cell.place, cell.grade));
        return None;
    }
    let full_load = cell.value;
    answer.working.step(|| Step::read(format!("{output} at {voltage}, full-load current"), cell, code));
    let least = answer.settle(motor_conductor(full_load))?;
    let shown = least.rounded(Rounding::Up).unwrap_or(Amperes::MAX);
    answer
        .working
        .step(|| Step::new("least ampacity of the conductors", shown.to_string()).by(&code.section("motor-conductor")));
    let rating = answer.settle(motor_device(code, kind, device, full_load))?;
    answer.working.step(|| {
        let largest = format!("largest {device}, the standard size at or above the share of the full-load current");
        Step::new(largest, rating.to_string()).by(&code.section("motor-overcurrent"))
    });
    Some((full_load, least, rating))
}
