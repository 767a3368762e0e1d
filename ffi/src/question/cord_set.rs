//! A cord set for an outlet.

use loadworthy::calc::Working;
use loadworthy::code::Code;
use loadworthy::quantity::{Celsius, Meters, Ratio, Rounding};
use loadworthy::size::cord::{self, CordSet, cord_set};

use super::{Answered, Question, ask};
use crate::border::Plain;
use crate::choices::configuration::{configuration, configuration_given, lw_configuration};
use crate::choices::words::{CORDS, PLACES, USAGES, lw_cord, lw_place, lw_usage};
use crate::code::lw_code;
use crate::error::{Result, lw_error};
use crate::number::{
    Unit, amperes, given, length, lw_wire_size, needed, number_of_wire_size, required, shown, temperature,
};
use crate::outcome::{
    Governs, LW_ASSUMED_AMBIENT_30C, LW_ASSUMED_CORD_UNMARKED, LW_ASSUMED_NO_DROP_LIMIT, LW_OUTCOME_CANNOT_TELL,
    LW_OUTCOME_HOLDS, lw_assumed, lw_governor, lw_outcome,
};
use crate::status::lw_status;
use crate::working::lw_working;

/// A cord set to find: a plug at the outlet's end, a connector at the other. Make one with `lw_size_cord_question_init`.
/// Outlet, device, current, voltage, usage and place must be stated; with a limit on the drop, the length too. A cord with
/// blades at both ends is never sized: it cannot be asked for.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_size_cord_question {
    /// Set it to `sizeof(lw_size_cord_question)`.
    pub struct_size: usize,
    /// The configuration of the outlet.
    pub outlet: lw_configuration,
    /// That of the connector, where it differs.
    pub connector: lw_configuration,
    /// The rating of the device that protects the outlet, in amperes.
    pub device_a: f64,
    /// The load on each line, in amperes.
    pub current_a: f64,
    /// The voltage in volts.
    pub voltage_v: f64,
    /// The length in feet, or NAN.
    pub length_ft: f64,
    /// The same in meters, in place of it, or NAN.
    pub length_m: f64,
    /// The limit on the voltage drop in percent; NAN for none.
    pub drop_limit_percent: f64,
    /// The ambient temperature in °C, or NAN.
    pub ambient_c: f64,
    /// The same in °F, in place of it, or NAN.
    pub ambient_f: f64,
    /// The temperature marked on the cord in °C, or NAN.
    pub marked_c: f64,
    /// The same in °F, in place of it, or NAN.
    pub marked_f: f64,
    /// How hard it is used.
    pub usage: lw_usage,
    /// The kind of place.
    pub place: lw_place,
    /// The type, where one is wanted.
    pub cord: lw_cord,
    /// Zero.
    pub reserved: i32,
}

/// A cord set: an output.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_size_cord_answer {
    /// Set it to `sizeof(lw_size_cord_answer)`.
    pub struct_size: usize,
    /// `LW_OUTCOME_HOLDS` where it is answered, `LW_OUTCOME_FAILS` where no cord passes.
    pub outcome: lw_outcome,
    /// What limits the size, or what stands in the way.
    pub governed_by: lw_governor,
    /// What was assumed.
    pub assumed: lw_assumed,
    /// The letter type.
    pub cord: lw_cord,
    /// The size of its conductors.
    pub size: lw_wire_size,
    /// How many conductors it has, the grounding conductor with them.
    pub conductors: i32,
    /// Its ampacity in amperes.
    pub ampacity_a: f64,
    /// The longest that keeps the limit on the drop, in feet, rounded down to a tenth; NAN where there is no limit.
    pub longest_ft: f64,
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_size_cord_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        outlet: 0,
        connector: 0,
        device_a: f64::NAN,
        current_a: f64::NAN,
        voltage_v: f64::NAN,
        length_ft: f64::NAN,
        length_m: f64::NAN,
        drop_limit_percent: f64::NAN,
        ambient_c: f64::NAN,
        ambient_f: f64::NAN,
        marked_c: f64::NAN,
        marked_f: f64::NAN,
        usage: 0,
        place: 0,
        cord: 0,
        reserved: 0,
    };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_size_cord_answer {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        outcome: LW_OUTCOME_CANNOT_TELL,
        governed_by: 0,
        assumed: 0,
        cord: 0,
        size: 0,
        conductors: 0,
        ampacity_a: f64::NAN,
        longest_ft: f64::NAN,
    };
}

impl lw_size_cord_question {
    fn read(&self) -> Result<(cord::Question, lw_assumed)> {
        let mut assumed = 0;
        let outlet = configuration(self.outlet, "question.outlet")?;
        let drop: Option<Ratio> = given(self.drop_limit_percent, &Unit::PERCENT, "question.drop_limit_percent")?;
        let mut length = length((self.length_ft, "question.length_ft"), (self.length_m, "question.length_m"))?;
        if drop.is_none() {
            assumed |= LW_ASSUMED_NO_DROP_LIMIT;
            length = length.or(Some(Meters::ZERO));
        }
        let ambient = temperature((self.ambient_c, "question.ambient_c"), (self.ambient_f, "question.ambient_f"))?;
        if ambient.is_none() {
            assumed |= LW_ASSUMED_AMBIENT_30C;
        }
        let marked = temperature((self.marked_c, "question.marked_c"), (self.marked_f, "question.marked_f"))?;
        if marked.is_none() {
            assumed |= LW_ASSUMED_CORD_UNMARKED;
        }
        let asked = cord::Question {
            outlet,
            connector: configuration_given(self.connector, "question.connector")?.unwrap_or(outlet),
            device: required(self.device_a, &Unit::AMPERE, "question.device_a")?,
            current: required(self.current_a, &Unit::AMPERE, "question.current_a")?,
            voltage: required(self.voltage_v, &Unit::VOLT, "question.voltage_v")?,
            length: needed(length, "length", "question.length_ft")?,
            drop,
            usage: USAGES.required(self.usage, "question.usage")?,
            place: PLACES.required(self.place, "question.place")?,
            ambient: ambient.unwrap_or(Celsius::from_whole(30)),
            marked,
            cord: CORDS.given(self.cord, "question.cord")?,
        };
        Ok((asked, assumed))
    }
}

fn answer(set: &CordSet, assumed: lw_assumed) -> lw_size_cord_answer {
    lw_size_cord_answer {
        outcome: LW_OUTCOME_HOLDS,
        governed_by: set.size.governed_by.number(),
        assumed,
        cord: CORDS.number(set.cord),
        size: number_of_wire_size(set.size.value),
        conductors: i32::from(set.conductors),
        ampacity_a: amperes(set.ampacity),
        longest_ft: set.longest.map_or(f64::NAN, |longest| shown(longest, &Unit::FOOT, 1, Rounding::Down)),
        ..lw_size_cord_answer::UNSTATED
    }
}

impl Question for lw_size_cord_question {
    type Answer = lw_size_cord_answer;

    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_size_cord_answer>> {
        let (asked, assumed) = self.read()?;
        Ok(Answered::of_size(cord_set(code, &asked, working), |set| answer(&set, assumed)))
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_size_cord_answer {
        lw_size_cord_answer { outcome, governed_by, ..lw_size_cord_answer::UNSTATED }
    }
}

/// The smallest cord set for an outlet that passes: NEC 400.5, 240.5, Table 400.4.
///
/// Outputs, errors and threads as with `lw_ampacity`.
///
/// ```c
/// lw_size_cord_question question = lw_size_cord_question_init();
/// lw_size_cord_answer answer = lw_size_cord_answer_init();
/// question.outlet = LW_CONFIGURATION_L14_30;
/// question.device_a = 30;
/// question.current_a = 24;
/// question.voltage_v = 240;
/// question.usage = LW_USAGE_HARD;
/// question.place = LW_PLACE_WET;
/// lw_size_cord(code, &question, &answer, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_size_cord(
    code: *const lw_code,
    question: *const lw_size_cord_question,
    answer_out: *mut lw_size_cord_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}
