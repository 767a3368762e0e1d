//! The sizes of a circuit: device, conductors, neutral, equipment grounding conductor.

use loadworthy::calc::Working;
use loadworthy::calc::continuous::Load;
use loadworthy::calc::overcurrent::Supplies;
use loadworthy::code::Code;
use loadworthy::quantity::{Amperes, Meters, Ratio, Volts};
use loadworthy::size::circuit::{self, Circuit, Conductors, Device, DropLimit, NeutralLoad, Role, TABLE_8};
use loadworthy::trade::{DeviceKind, WireSize};

use super::ampacity::{lw_ampacity_question, yes_no};
use super::continuous_load::load;
use super::device::{lw_supplies, supplies};
use super::{Answered, Question, ask};
use crate::border::{Plain, plain};
use crate::choices::words::{DEVICE_KINDS, MATERIALS, lw_continuous_rating, lw_device_kind, lw_material};
use crate::code::lw_code;
use crate::error::{Result, fail, lw_error};
use crate::number::{
    Unit, amperes, drop_volts, given, length, lw_wire_size, needed, number_of_wire_size, percent, required,
};
use crate::outcome::{
    Governs, LW_ASSUMED_GROUNDING_ALIKE, LW_ASSUMED_NO_DROP_LIMIT, LW_ASSUMED_RATING_BY_SIZE, LW_OUTCOME_CANNOT_TELL,
    LW_OUTCOME_HOLDS, lw_assumed, lw_governor, lw_outcome, lw_yes_no,
};
use crate::status::{
    LW_STATUS_BAD_CHOICE, LW_STATUS_BAD_NUMBER, LW_STATUS_CONTRADICTION, LW_STATUS_NOT_STATED, lw_status,
};
use crate::working::lw_working;

/// What a circuit is: one of the `LW_ROLE_` constants. 0 is not stated.
pub type lw_role = i32;

/// A branch circuit.
pub const LW_ROLE_BRANCH: lw_role = 1;
/// A feeder.
pub const LW_ROLE_FEEDER: lw_role = 2;

/// The conductors of a circuit: one of the `LW_CONDUCTORS_` constants. 0 is not stated.
pub type lw_conductors = i32;

/// One line and the neutral.
pub const LW_CONDUCTORS_LINE_AND_NEUTRAL: lw_conductors = 1;
/// Two lines.
pub const LW_CONDUCTORS_TWO_LINES: lw_conductors = 2;
/// Two lines and the neutral.
pub const LW_CONDUCTORS_TWO_LINES_AND_NEUTRAL: lw_conductors = 3;
/// Three phases.
pub const LW_CONDUCTORS_THREE_PHASE: lw_conductors = 4;
/// Three phases and the neutral.
pub const LW_CONDUCTORS_THREE_PHASE_AND_NEUTRAL: lw_conductors = 5;

/// A circuit to size. Make one with `lw_size_circuit_question_init`. Load, conductors and `conductor` must be stated, and
/// of a branch circuit what it supplies; with a limit on the drop, voltage and length too.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_size_circuit_question {
    /// Set it to `sizeof(lw_size_circuit_question)`.
    pub struct_size: usize,
    /// The conductor and its conditions; only read during the call. Its size is the least to consider, and may be left
    /// out for the least there is; its `circuit_rating_a` is found here and stays NAN.
    pub conductor: *const lw_ampacity_question,
    /// What it is; a branch circuit where it is not stated.
    pub role: lw_role,
    /// Its conductors.
    pub conductors: lw_conductors,
    /// The part of the load that lasts three hours or more, in amperes.
    pub continuous_a: f64,
    /// The rest, in amperes; 0 where there is none.
    pub non_continuous_a: f64,
    /// The most that the neutral of a feeder carries, taken as continuous, in amperes; NAN for as much as the lines.
    pub neutral_a: f64,
    /// The voltage in volts, between lines where there are two.
    pub voltage_v: f64,
    /// The length of the run, one way, in feet, or NAN.
    pub length_ft: f64,
    /// The same in meters, in place of it, or NAN.
    pub length_m: f64,
    /// The limit on the voltage drop in percent; NAN for none.
    pub drop_limit_percent: f64,
    /// The least rating of the device to consider, in amperes; NAN for 15 A.
    pub least_device_a: f64,
    /// How much of its rating the device carries for hours.
    pub continuous_rating: lw_continuous_rating,
    /// The kind of device; a breaker where it is not stated.
    pub kind: lw_device_kind,
    /// What it supplies.
    pub supplies: lw_supplies,
    /// The material of the equipment grounding conductor; that of the others where it is not stated.
    pub grounding_material: lw_material,
    /// `LW_NO` where there is no equipment grounding conductor, since a raceway or a sheath serves.
    pub grounding: lw_yes_no,
    /// The most sets of conductors in parallel, 1 to 9; 0 for 1.
    pub most_sets: i32,
}

/// The sizes of a circuit: an output.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_size_circuit_answer {
    /// Set it to `sizeof(lw_size_circuit_answer)`.
    pub struct_size: usize,
    /// `LW_OUTCOME_HOLDS` where it is answered, `LW_OUTCOME_FAILS` where no size passes: then the working says what stands
    /// in the way.
    pub outcome: lw_outcome,
    /// What limits the ungrounded conductors, or what stands in the way.
    pub governed_by: lw_governor,
    /// What was assumed.
    pub assumed: lw_assumed,
    /// How many sets in parallel.
    pub sets: i32,
    /// The rating of the overcurrent device, in amperes.
    pub device_a: f64,
    /// The size of the ungrounded conductors.
    pub ungrounded: lw_wire_size,
    /// The size that the ampacity alone needs.
    pub needed: lw_wire_size,
    /// The size of the neutral; 0 where there is none.
    pub neutral: lw_wire_size,
    /// What limits it.
    pub neutral_governed_by: lw_governor,
    /// The size of the equipment grounding conductor; 0 where there is none.
    pub grounding: lw_wire_size,
    /// What limits it.
    pub grounding_governed_by: lw_governor,
    /// The ampacity of one ungrounded conductor, in amperes.
    pub ampacity_of_one_a: f64,
    /// The voltage drop in volts, rounded up to the millivolt; NAN where no limit was stated.
    pub drop_v: f64,
    /// Its share of the voltage in percent, rounded up to the ten-thousandth; NAN likewise.
    pub drop_percent: f64,
}

// SAFETY: `repr(C)`, `struct_size` first, integers, doubles and a pointer only.
unsafe impl Plain for lw_size_circuit_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        conductor: std::ptr::null(),
        role: 0,
        conductors: 0,
        continuous_a: f64::NAN,
        non_continuous_a: f64::NAN,
        neutral_a: f64::NAN,
        voltage_v: f64::NAN,
        length_ft: f64::NAN,
        length_m: f64::NAN,
        drop_limit_percent: f64::NAN,
        least_device_a: f64::NAN,
        continuous_rating: 0,
        kind: 0,
        supplies: 0,
        grounding_material: 0,
        grounding: 0,
        most_sets: 0,
    };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_size_circuit_answer {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        outcome: LW_OUTCOME_CANNOT_TELL,
        governed_by: 0,
        assumed: 0,
        sets: 0,
        device_a: f64::NAN,
        ungrounded: 0,
        needed: 0,
        neutral: 0,
        neutral_governed_by: 0,
        grounding: 0,
        grounding_governed_by: 0,
        ampacity_of_one_a: f64::NAN,
        drop_v: f64::NAN,
        drop_percent: f64::NAN,
    };
}

impl lw_size_circuit_question {
    #[inline(always)]
    fn read(&self, code: &dyn Code) -> Result<(circuit::Question, lw_assumed)> {
        let (load, continuous_rating, mut assumed) =
            load(self.continuous_a, self.non_continuous_a, self.continuous_rating)?;
        let role = match self.role {
            0 | LW_ROLE_BRANCH => Role::Branch,
            LW_ROLE_FEEDER => Role::Feeder,
            other => return Err(wrong(other, "question.role", "write one of the LW_ROLE_ constants")),
        };
        let conductor = plain(self.conductor, "question.conductor")?;
        if !conductor.circuit_rating_a.is_nan() {
            let what = "is found here; leave NAN in it";
            return Err(fail(LW_STATUS_CONTRADICTION, "question.circuit_rating_a", format_args!("{what}")));
        }
        let (conditions, of_conductor) = conductor.conditions(code, WireSize::awg(14))?;
        // The rating is known once the device is: nothing is assumed of it.
        assumed |= of_conductor & !LW_ASSUMED_RATING_BY_SIZE;
        let share: Option<Ratio> = given(self.drop_limit_percent, &Unit::PERCENT, "question.drop_limit_percent")?;
        let length = length((self.length_ft, "question.length_ft"), (self.length_m, "question.length_m"))?;
        let voltage: Option<Volts> = given(self.voltage_v, &Unit::VOLT, "question.voltage_v")?;
        let (voltage, length) = match share {
            Some(_) => {
                (needed(voltage, "voltage", "question.voltage_v")?, needed(length, "length", "question.length_ft")?)
            }
            None => {
                assumed |= LW_ASSUMED_NO_DROP_LIMIT;
                (voltage.unwrap_or(Volts::from_whole(240)), length.unwrap_or(Meters::ZERO))
            }
        };
        let supplies = match role {
            Role::Feeder if self.supplies == 0 => Supplies::Other,
            _ => supplies(self.supplies, "question.supplies")?,
        };
        let least = given(self.least_device_a, &Unit::AMPERE, "question.least_device_a")?;
        let material = MATERIALS.given(self.grounding_material, "question.grounding_material")?;
        let grounding = match yes_no(self.grounding, "question.grounding")? {
            Some(false) => None,
            _ => {
                if material.is_none() {
                    assumed |= LW_ASSUMED_GROUNDING_ALIKE;
                }
                Some(material.unwrap_or(conditions.material))
            }
        };
        let asked = circuit::Question {
            role,
            load,
            conductors: self.conductors()?,
            voltage,
            length,
            conditions,
            drop: share.map(|share| DropLimit { share, method: TABLE_8 }),
            device: Device {
                kind: DEVICE_KINDS.given(self.kind, "question.kind")?.unwrap_or(DeviceKind::Breaker),
                continuous_rating,
                supplies,
                least: least.unwrap_or(Amperes::from_whole(15)),
            },
            grounding,
            most_sets: match u8::try_from(self.most_sets) {
                Ok(0) => 1,
                Ok(sets @ 1..=9) => sets,
                _ => return Err(no_sets(self.most_sets)),
            },
        };
        Ok((asked, assumed))
    }

    #[inline(always)]
    fn conductors(&self) -> Result<Conductors> {
        let neutral = if self.neutral_a.is_nan() {
            NeutralLoad::AsUngrounded
        } else {
            let continuous = required(self.neutral_a, &Unit::AMPERE, "question.neutral_a")?;
            NeutralLoad::Unbalance(Load { continuous, non_continuous: Amperes::ZERO })
        };
        match self.conductors {
            LW_CONDUCTORS_LINE_AND_NEUTRAL => Ok(Conductors::LineAndNeutral),
            LW_CONDUCTORS_TWO_LINES => Ok(Conductors::TwoLines),
            LW_CONDUCTORS_TWO_LINES_AND_NEUTRAL => Ok(Conductors::TwoLinesAndNeutral(neutral)),
            LW_CONDUCTORS_THREE_PHASE => Ok(Conductors::ThreePhase),
            LW_CONDUCTORS_THREE_PHASE_AND_NEUTRAL => Ok(Conductors::ThreePhaseAndNeutral(neutral)),
            other => Err(wrong(other, "question.conductors", "write one of the LW_CONDUCTORS_ constants")),
        }
    }
}

#[cold]
#[inline(never)]
fn no_sets(sets: i32) -> Box<lw_error> {
    let what = format_args!("{sets} is out of range; write a whole number from 1 to 9");
    fail(LW_STATUS_BAD_NUMBER, "question.most_sets", what)
}

#[cold]
#[inline(never)]
fn wrong(number: i32, place: &str, advice: &str) -> Box<lw_error> {
    let status = if number == 0 { LW_STATUS_NOT_STATED } else { LW_STATUS_BAD_CHOICE };
    fail(status, place, format_args!("{number} is not one of them; {advice}"))
}

#[inline(always)]
fn answer(sized: &Circuit, assumed: lw_assumed) -> lw_size_circuit_answer {
    lw_size_circuit_answer {
        outcome: LW_OUTCOME_HOLDS,
        governed_by: sized.ungrounded.governed_by.number(),
        assumed,
        sets: i32::from(sized.sets),
        device_a: amperes(sized.device.value),
        ungrounded: number_of_wire_size(sized.ungrounded.value),
        needed: number_of_wire_size(sized.needed),
        neutral: sized.neutral.map_or(0, |neutral| number_of_wire_size(neutral.value)),
        neutral_governed_by: sized.neutral.map_or(0, |neutral| neutral.governed_by.number()),
        grounding: sized.grounding.map_or(0, |grounding| number_of_wire_size(grounding.value)),
        grounding_governed_by: sized.grounding.map_or(0, |grounding| grounding.governed_by.number()),
        ampacity_of_one_a: amperes(sized.ampacity.usable),
        drop_v: match &sized.drop {
            Some(drop) => drop_volts(drop.drop),
            None => f64::NAN,
        },
        drop_percent: match &sized.drop {
            Some(drop) => drop.share().map_or(f64::NAN, percent),
            None => f64::NAN,
        },
        ..lw_size_circuit_answer::UNSTATED
    }
}

impl Question for lw_size_circuit_question {
    type Answer = lw_size_circuit_answer;

    #[inline(always)]
    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_size_circuit_answer>> {
        let (asked, assumed) = self.read(code)?;
        match &circuit::circuit(code, &asked, working) {
            Ok(sized) => Ok(Answered::Answer(answer(sized, assumed))),
            Err(why) => Ok(Answered::of_unsized(why)),
        }
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_size_circuit_answer {
        lw_size_circuit_answer { outcome, governed_by, ..lw_size_circuit_answer::UNSTATED }
    }
}

/// The smallest device, conductors, neutral and equipment grounding conductor of a circuit or a feeder that pass.
///
/// The drop is reckoned by the direct-current resistance of Chapter 9 Table 8 at 75 °C, loads balanced. Outputs, errors
/// and threads as with `lw_ampacity`.
///
/// ```c
/// lw_ampacity_question conductor = lw_ampacity_question_init();
/// lw_size_circuit_question question = lw_size_circuit_question_init();
/// lw_size_circuit_answer answer = lw_size_circuit_answer_init();
/// conductor.material = LW_MATERIAL_COPPER;
/// conductor.insulation = LW_INSULATION_THWN_2;
/// conductor.terminals = LW_TERMINALS_75C;
/// question.conductor = &conductor;
/// question.conductors = LW_CONDUCTORS_TWO_LINES;
/// question.continuous_a = 32;
/// question.non_continuous_a = 0;
/// question.supplies = LW_SUPPLIES_OTHER;
/// lw_size_circuit(code, &question, &answer, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_size_circuit(
    code: *const lw_code,
    question: *const lw_size_circuit_question,
    answer_out: *mut lw_size_circuit_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}
