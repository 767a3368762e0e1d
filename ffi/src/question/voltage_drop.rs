//! How much voltage is lost along a path.

use loadworthy::calc::Working;
use loadworthy::calc::voltage_drop::{Currents, Method, Segment, Wire, voltage_drop};
use loadworthy::code::Code;
use loadworthy::quantity::{Amperes, Celsius, OhmsPerLength, PowerFactor, Ratio, Volts};
use loadworthy::trade::Conduit;

use super::{Answered, Question, ask};
use crate::border::{Elements, Plain};
use crate::choices::words::{CONDUITS, MATERIALS, lw_conduit, lw_material};
use crate::code::lw_code;
use crate::error::{Result, fail, lw_error};
use crate::number::{
    Unit, drop_volts, given, k_factor, length, lw_wire_size, needed, percent, power_factor, required, temperature,
    volts, wire_size,
};
use crate::outcome::LW_NO;
use crate::outcome::{
    LW_ASSUMED_CONDUCTORS_75C, LW_ASSUMED_NO_DROP_LIMIT, LW_ASSUMED_RETURN_ALIKE, LW_GOVERNOR_VOLTAGE_DROP,
    LW_OUTCOME_CANNOT_TELL, LW_OUTCOME_FAILS, LW_OUTCOME_HOLDS, LW_YES, lw_assumed, lw_governor, lw_outcome, lw_yes_no,
};
use crate::status::{
    LW_STATUS_BAD_CHOICE, LW_STATUS_BAD_NUMBER, LW_STATUS_CONTRADICTION, LW_STATUS_NOT_STATED, lw_status,
};
use crate::working::lw_working;

/// A method for the voltage drop: one of the `LW_METHOD_` constants. 0 is not stated.
pub type lw_method = i32;

/// Direct-current resistance, Chapter 9 Table 8, corrected to the temperature of the conductors.
pub const LW_METHOD_DC: lw_method = 1;
/// The constant K over circular mils.
pub const LW_METHOD_CONSTANT: lw_method = 2;
/// Effective impedance at a power factor, Chapter 9 Table 9.
pub const LW_METHOD_IMPEDANCE: lw_method = 3;
/// The exact phasor at a power factor.
pub const LW_METHOD_PHASOR: lw_method = 4;

/// How the conductors of a circuit carry its current: one of the `LW_CIRCUIT_` constants. 0 is not stated.
pub type lw_circuit = i32;

/// Two wires.
pub const LW_CIRCUIT_TWO_WIRE: lw_circuit = 1;
/// Two legs and a neutral; the drop is that of one leg, its voltage that of a leg.
pub const LW_CIRCUIT_THREE_WIRE: lw_circuit = 2;
/// Three phases, balanced; the voltage and the drop are between lines.
pub const LW_CIRCUIT_THREE_PHASE: lw_circuit = 3;

/// The most stretches of one path.
pub const LW_MOST_SEGMENTS: u32 = 1000;

/// One stretch of a path. Make one with `lw_segment_init`. A conductor is stated by material and size, or by its
/// resistance (and reactance, where the method uses it).
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_segment {
    /// Set it to `sizeof(lw_segment)`, the same in all of an array.
    pub struct_size: usize,
    /// The material of the conductors.
    pub material: lw_material,
    /// Their size.
    pub size: lw_wire_size,
    /// The resistance of one conductor in ohms per 1000 ft, in place of material and size, or NAN.
    pub resistance_ohm_per_kft: f64,
    /// Its reactance in ohms per 1000 ft, or NAN.
    pub reactance_ohm_per_kft: f64,
    /// The material of the return or neutral conductor, where it differs.
    pub neutral_material: lw_material,
    /// Its size.
    pub neutral_size: lw_wire_size,
    /// Its resistance in ohms per 1000 ft, in place of material and size, or NAN.
    pub neutral_resistance_ohm_per_kft: f64,
    /// Its reactance in ohms per 1000 ft, or NAN.
    pub neutral_reactance_ohm_per_kft: f64,
    /// The length, one way, in feet, or NAN.
    pub length_ft: f64,
    /// The same in meters, in place of it, or NAN.
    pub length_m: f64,
    /// The current in amperes; on three wires that of the leg asked about.
    pub current_a: f64,
    /// The current of the other leg in amperes, on three wires; else NAN.
    pub other_leg_a: f64,
}

/// A path and how to reckon. Make one with `lw_voltage_drop_question_init`. Method, circuit, supply and at least one
/// segment must be stated.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_voltage_drop_question {
    /// Set it to `sizeof(lw_voltage_drop_question)`.
    pub struct_size: usize,
    /// How to reckon.
    pub method: lw_method,
    /// How the conductors carry the current.
    pub circuit: lw_circuit,
    /// The voltage that is sent, in volts.
    pub supply_v: f64,
    /// The stretches of the path, from the supply to the load; only read during the call.
    pub segments: *const lw_segment,
    /// How many, 1 to `LW_MOST_SEGMENTS`.
    pub segment_count: usize,
    /// The temperature of the conductors in °C, for `LW_METHOD_DC`, or NAN.
    pub conductor_temperature_c: f64,
    /// The same in °F, in place of it, or NAN.
    pub conductor_temperature_f: f64,
    /// The constant in ohm circular mils per foot, for `LW_METHOD_CONSTANT`.
    pub k: f64,
    /// The power factor, above 0 and at most 1, for `LW_METHOD_IMPEDANCE` and `LW_METHOD_PHASOR`.
    pub power_factor: f64,
    /// What the conduit is made of, for the same two.
    pub conduit: lw_conduit,
    /// Zero.
    pub reserved: i32,
    /// The most that may be lost, in percent of the supply; NAN for no limit.
    pub limit_percent: f64,
}

/// The voltage drop to the load at the end: an output. NAN where it cannot be told.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_voltage_drop_answer {
    /// Set it to `sizeof(lw_voltage_drop_answer)`.
    pub struct_size: usize,
    /// `LW_OUTCOME_HOLDS` where it is within the limit, or answered where there is none; `LW_OUTCOME_FAILS` where it is
    /// more. Exactly at the limit is within it.
    pub outcome: lw_outcome,
    /// What limits it.
    pub governed_by: lw_governor,
    /// What was assumed.
    pub assumed: lw_assumed,
    /// `LW_YES` where the voltage rises in place of dropping: an unbalanced neutral does that to the lighter leg.
    pub rises: lw_yes_no,
    /// The drop (or rise) in volts, rounded up to the millivolt.
    pub drop_v: f64,
    /// Its share of the supply in percent, rounded up to the ten-thousandth.
    pub drop_percent: f64,
    /// The voltage at the load in volts, rounded down to the millivolt.
    pub at_load_v: f64,
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_segment {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        material: 0,
        size: 0,
        resistance_ohm_per_kft: f64::NAN,
        reactance_ohm_per_kft: f64::NAN,
        neutral_material: 0,
        neutral_size: 0,
        neutral_resistance_ohm_per_kft: f64::NAN,
        neutral_reactance_ohm_per_kft: f64::NAN,
        length_ft: f64::NAN,
        length_m: f64::NAN,
        current_a: f64::NAN,
        other_leg_a: f64::NAN,
    };
}

// SAFETY: `repr(C)`, `struct_size` first, integers, doubles and a pointer only.
unsafe impl Plain for lw_voltage_drop_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        method: 0,
        circuit: 0,
        supply_v: f64::NAN,
        segments: std::ptr::null(),
        segment_count: 0,
        conductor_temperature_c: f64::NAN,
        conductor_temperature_f: f64::NAN,
        k: f64::NAN,
        power_factor: f64::NAN,
        conduit: 0,
        reserved: 0,
        limit_percent: f64::NAN,
    };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_voltage_drop_answer {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        outcome: LW_OUTCOME_CANNOT_TELL,
        governed_by: 0,
        assumed: 0,
        rises: 0,
        drop_v: f64::NAN,
        drop_percent: f64::NAN,
        at_load_v: f64::NAN,
    };
}

impl Question for lw_voltage_drop_question {
    type Answer = lw_voltage_drop_answer;

    #[inline(always)]
    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_voltage_drop_answer>> {
        let supply: Volts = required(self.supply_v, &Unit::VOLT, "question.supply_v")?;
        if supply == Volts::MIN {
            let what = "nothing is sent; write a voltage above 0";
            return Err(fail(LW_STATUS_BAD_NUMBER, "question.supply_v", format_args!("{what}")));
        }
        let most = LW_MOST_SEGMENTS as usize;
        let segments = Elements::new(self.segments, self.segment_count, most, "question.segments")?;
        let (one, many);
        let (path, method, mut assumed): (&[Segment], _, _) = match segments.only() {
            // A path of one stretch, as most are, needs no memory.
            Some(segment) => {
                let segment = segment?;
                let (method, mut assumed) = self.method(segment.is_sized())?;
                one = [segment.read(self.circuit, method, &mut assumed)?];
                (&one, method, assumed)
            }
            None => {
                let (path, method, assumed) = self.several(&segments)?;
                many = path;
                (&many, method, assumed)
            }
        };
        let limit: Option<Ratio> = given(self.limit_percent, &Unit::PERCENT, "question.limit_percent")?;
        if limit.is_none() {
            assumed |= LW_ASSUMED_NO_DROP_LIMIT;
        }
        // Read where it stands: a copy of words that were written singly makes the processor wait.
        let found = voltage_drop(code, supply, path, method, working);
        let found = match &found {
            Ok(found) => found,
            Err(gap) => return Ok(Answered::CannotTell(*gap)),
        };
        Ok(Answered::Answer(lw_voltage_drop_answer {
            outcome: match limit {
                Some(limit) if !found.within(limit) => LW_OUTCOME_FAILS,
                _ => LW_OUTCOME_HOLDS,
            },
            governed_by: LW_GOVERNOR_VOLTAGE_DROP,
            assumed,
            rises: if found.rises { LW_YES } else { LW_NO },
            drop_v: drop_volts(found.drop),
            drop_percent: found.share().map_or(f64::NAN, percent),
            at_load_v: volts(found.at_load()),
            ..lw_voltage_drop_answer::UNSTATED
        }))
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_voltage_drop_answer {
        lw_voltage_drop_answer { outcome, governed_by, ..lw_voltage_drop_answer::UNSTATED }
    }
}

impl lw_voltage_drop_question {
    /// Any number of stretches but one.
    #[inline(never)]
    fn several(&self, segments: &Elements<lw_segment>) -> Result<(Vec<Segment>, Method, lw_assumed)> {
        let segments = segments.iter().collect::<Result<Vec<_>>>()?;
        if segments.is_empty() {
            let what = "no stretch of the path is stated; pass at least one";
            return Err(fail(LW_STATUS_NOT_STATED, "question.segments", format_args!("{what}")));
        }
        let (method, mut assumed) = self.method(segments.iter().any(lw_segment::is_sized))?;
        let read = |segment: &lw_segment| segment.read(self.circuit, method, &mut assumed);
        let path = segments.iter().map(read).collect::<Result<_>>()?;
        Ok((path, method, assumed))
    }

    /// The method, and what was assumed for it; `sized` says whether an impedance is to be read from the tables.
    #[inline(always)]
    fn method(&self, sized: bool) -> Result<(Method, lw_assumed)> {
        match self.method {
            LW_METHOD_DC => {
                let stated = temperature(
                    (self.conductor_temperature_c, "question.conductor_temperature_c"),
                    (self.conductor_temperature_f, "question.conductor_temperature_f"),
                )?;
                let assumed = if stated.is_none() && sized { LW_ASSUMED_CONDUCTORS_75C } else { 0 };
                Ok((Method::DirectCurrent { temperature: stated.unwrap_or(Celsius::from_whole(75)) }, assumed))
            }
            LW_METHOD_CONSTANT => Ok((Method::Constant { k: k_factor(self.k, "question.k")? }, 0)),
            LW_METHOD_IMPEDANCE => {
                let (conduit, power_factor) = self.conduit(sized)?;
                Ok((Method::EffectiveImpedance { conduit, power_factor }, 0))
            }
            LW_METHOD_PHASOR => {
                let (conduit, power_factor) = self.conduit(sized)?;
                Ok((Method::ExactPhasor { conduit, power_factor }, 0))
            }
            other => Err(choice(other, "question.method", "write one of the LW_METHOD_ constants")),
        }
    }

    fn conduit(&self, sized: bool) -> Result<(Conduit, PowerFactor)> {
        let power_factor = power_factor(self.power_factor, "question.power_factor")?;
        // Where every impedance is stated no table is read, so that the conduit decides nothing.
        let conduit = match CONDUITS.given(self.conduit, "question.conduit")? {
            None if !sized => Conduit::Pvc,
            conduit => needed(conduit, "material of the conduit", "question.conduit")?,
        };
        Ok((conduit, power_factor))
    }
}

#[cold]
#[inline(never)]
fn choice(number: i32, place: &str, advice: &str) -> Box<lw_error> {
    let status = if number == 0 { LW_STATUS_NOT_STATED } else { LW_STATUS_BAD_CHOICE };
    fail(status, place, format_args!("{number} is not one of them; {advice}"))
}

/// A conductor as C states it, with the names of its fields.
struct Stated {
    material: (lw_material, &'static str),
    size: (lw_wire_size, &'static str),
    resistance: (f64, &'static str),
    reactance: (f64, &'static str),
}

impl Stated {
    #[inline(always)]
    fn wire(&self, reactance_counts: bool) -> Result<Option<Wire>> {
        let by_impedance = !self.resistance.0.is_nan() || !self.reactance.0.is_nan();
        match (self.material.0 != 0 || self.size.0 != 0, by_impedance) {
            (false, false) => Ok(None),
            (true, true) => Err(fail(
                LW_STATUS_CONTRADICTION,
                self.resistance.1,
                format_args!("stands for material and size; state the one or the others"),
            )),
            (true, false) => {
                let material = MATERIALS.required(self.material.0, self.material.1)?;
                Ok(Some(Wire::Sized(material, wire_size(self.size.0, self.size.1)?)))
            }
            (false, true) => {
                let resistance = required(self.resistance.0, &Unit::OHM_PER_KILOFOOT, self.resistance.1)?;
                let reactance = match given(self.reactance.0, &Unit::OHM_PER_KILOFOOT, self.reactance.1)? {
                    None if !reactance_counts => OhmsPerLength::MIN,
                    reactance => needed(reactance, "reactance", self.reactance.1)?,
                };
                Ok(Some(Wire::Stated { resistance, reactance }))
            }
        }
    }
}

impl lw_segment {
    /// Whether an impedance is to be read from the tables.
    #[inline(always)]
    fn is_sized(&self) -> bool {
        self.size != 0 || self.neutral_size != 0
    }

    #[inline(always)]
    fn read(&self, circuit: lw_circuit, method: Method, assumed: &mut lw_assumed) -> Result<Segment> {
        let reactance = matches!(method, Method::EffectiveImpedance { .. } | Method::ExactPhasor { .. });
        let conductor = Stated {
            material: (self.material, "segment.material"),
            size: (self.size, "segment.size"),
            resistance: (self.resistance_ohm_per_kft, "segment.resistance_ohm_per_kft"),
            reactance: (self.reactance_ohm_per_kft, "segment.reactance_ohm_per_kft"),
        };
        let neutral = Stated {
            material: (self.neutral_material, "segment.neutral_material"),
            size: (self.neutral_size, "segment.neutral_size"),
            resistance: (self.neutral_resistance_ohm_per_kft, "segment.neutral_resistance_ohm_per_kft"),
            reactance: (self.neutral_reactance_ohm_per_kft, "segment.neutral_reactance_ohm_per_kft"),
        };
        let wire = needed(conductor.wire(reactance)?, "size or resistance", "segment.size")?;
        let neutral = neutral.wire(reactance)?;
        let length = length((self.length_ft, "segment.length_ft"), (self.length_m, "segment.length_m"))?;
        let length = needed(length, "length", "segment.length_ft")?;
        let current: Amperes = required(self.current_a, &Unit::AMPERE, "segment.current_a")?;
        let other: Option<Amperes> = given(self.other_leg_a, &Unit::AMPERE, "segment.other_leg_a")?;
        let currents = match (circuit, other) {
            (LW_CIRCUIT_THREE_WIRE, other) => Currents::Legs {
                this: current,
                other: needed(other, "current of the other leg", "segment.other_leg_a")?,
            },
            (LW_CIRCUIT_TWO_WIRE, None) => Currents::TwoWire(current),
            (LW_CIRCUIT_THREE_PHASE, None) => Currents::ThreePhase(current),
            (LW_CIRCUIT_TWO_WIRE | LW_CIRCUIT_THREE_PHASE, Some(_)) => {
                let what = "only a three-wire circuit has one; leave NAN in it";
                return Err(fail(LW_STATUS_CONTRADICTION, "segment.other_leg_a", format_args!("{what}")));
            }
            (circuit, _) => return Err(choice(circuit, "question.circuit", "write one of the LW_CIRCUIT_ constants")),
        };
        match (circuit, neutral) {
            (LW_CIRCUIT_THREE_PHASE, Some(_)) => {
                let what = "the neutral of a balanced three-phase circuit carries nothing; leave it out";
                return Err(fail(LW_STATUS_CONTRADICTION, "segment.neutral_size", format_args!("{what}")));
            }
            (LW_CIRCUIT_TWO_WIRE | LW_CIRCUIT_THREE_WIRE, None) => *assumed |= LW_ASSUMED_RETURN_ALIKE,
            _ => {}
        }
        Ok(Segment { wire, neutral, length, currents })
    }
}

/// How much voltage is lost along a path: NEC Chapter 9 Tables 8 and 9; the verdict against a limit is exact.
///
/// Outputs, errors and threads as with `lw_ampacity`.
///
/// ```c
/// lw_segment segment = lw_segment_init();
/// lw_voltage_drop_question question = lw_voltage_drop_question_init();
/// lw_voltage_drop_answer answer = lw_voltage_drop_answer_init();
/// segment.material = LW_MATERIAL_COPPER;
/// segment.size = 12;
/// segment.length_ft = 50;
/// segment.current_a = 16;
/// question.method = LW_METHOD_DC;
/// question.circuit = LW_CIRCUIT_TWO_WIRE;
/// question.supply_v = 120;
/// question.segments = &segment;
/// question.segment_count = 1;
/// question.limit_percent = 3;
/// lw_voltage_drop(code, &question, &answer, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_voltage_drop(
    code: *const lw_code,
    question: *const lw_voltage_drop_question,
    answer_out: *mut lw_voltage_drop_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}
