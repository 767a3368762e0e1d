//! Overcurrent devices: the largest that protects a conductor, and the next for a load.

use loadworthy::calc::Working;
use loadworthy::calc::continuous::requirement;
use loadworthy::calc::overcurrent::{Supplies, largest_device, next_device};
use loadworthy::code::Code;
use loadworthy::quantity::Scaled;

use super::continuous_load::load;
use super::{Answered, Question, ask};
use crate::border::Plain;
use crate::choices::words::{DEVICE_KINDS, MATERIALS, lw_continuous_rating, lw_device_kind, lw_material};
use crate::code::lw_code;
use crate::error::{Result, fail, lw_error};
use crate::number::{Unit, amperes, lw_wire_size, required, wire_size};
use crate::outcome::{
    Governs, LW_GOVERNOR_LOAD, LW_OUTCOME_CANNOT_TELL, LW_OUTCOME_HOLDS, lw_assumed, lw_governor, lw_outcome,
};
use crate::status::{LW_STATUS_BAD_CHOICE, LW_STATUS_CONTRADICTION, LW_STATUS_NOT_STATED, lw_status};
use crate::working::lw_working;

/// What a circuit supplies, as far as the choice of its device depends on it: one of the `LW_SUPPLIES_` constants. 0 is
/// not stated.
pub type lw_supplies = i32;

/// More than one receptacle for cord-and-plug portable loads: no device above the ampacity.
pub const LW_SUPPLIES_SEVERAL_RECEPTACLES: lw_supplies = 1;
/// Anything else.
pub const LW_SUPPLIES_OTHER: lw_supplies = 2;

/// A conductor to protect. Make one with `lw_largest_device_question_init`. Everything must be stated.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_largest_device_question {
    /// Set it to `sizeof(lw_largest_device_question)`.
    pub struct_size: usize,
    /// What the conductor is made of.
    pub material: lw_material,
    /// Its size.
    pub size: lw_wire_size,
    /// Its ampacity in its conditions, in amperes: `lw_ampacity` gives it.
    pub ampacity_a: f64,
    /// The kind of device.
    pub kind: lw_device_kind,
    /// What the circuit supplies.
    pub supplies: lw_supplies,
}

/// A load to supply. Make one with `lw_next_device_question_init`. The kind must be stated, and either what is required or
/// both parts of the load.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_next_device_question {
    /// Set it to `sizeof(lw_next_device_question)`.
    pub struct_size: usize,
    /// The least rating that the load requires, in amperes, or NAN.
    pub required_a: f64,
    /// The part of the load that lasts three hours or more, in amperes, or NAN.
    pub continuous_a: f64,
    /// The rest, in amperes, or NAN.
    pub non_continuous_a: f64,
    /// How much of its rating the device carries for hours.
    pub continuous_rating: lw_continuous_rating,
    /// The kind of device.
    pub kind: lw_device_kind,
}

/// An overcurrent device: an output.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_device_answer {
    /// Set it to `sizeof(lw_device_answer)`.
    pub struct_size: usize,
    /// `LW_OUTCOME_HOLDS` where it is answered.
    pub outcome: lw_outcome,
    /// What limits it.
    pub governed_by: lw_governor,
    /// What was assumed.
    pub assumed: lw_assumed,
    /// Zero.
    pub reserved: u32,
    /// The rating in amperes; NAN where it cannot be told.
    pub rating_a: f64,
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_largest_device_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self =
        Self { struct_size: size_of::<Self>(), material: 0, size: 0, ampacity_a: f64::NAN, kind: 0, supplies: 0 };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_next_device_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        required_a: f64::NAN,
        continuous_a: f64::NAN,
        non_continuous_a: f64::NAN,
        continuous_rating: 0,
        kind: 0,
    };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_device_answer {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        outcome: LW_OUTCOME_CANNOT_TELL,
        governed_by: 0,
        assumed: 0,
        reserved: 0,
        rating_a: f64::NAN,
    };
}

/// What a circuit supplies; it must be stated.
#[inline(always)]
pub(crate) fn supplies(number: lw_supplies, place: &'static str) -> Result<Supplies> {
    match number {
        LW_SUPPLIES_SEVERAL_RECEPTACLES => Ok(Supplies::SeveralReceptacles),
        LW_SUPPLIES_OTHER => Ok(Supplies::Other),
        _ => Err(no_supplies(number, place)),
    }
}

#[cold]
#[inline(never)]
fn no_supplies(number: lw_supplies, place: &str) -> Box<lw_error> {
    let status = if number == 0 { LW_STATUS_NOT_STATED } else { LW_STATUS_BAD_CHOICE };
    let what = "what the circuit supplies decides the answer; write one of the LW_SUPPLIES_ constants";
    fail(status, place, format_args!("{number}: {what}"))
}

fn answer(rating: loadworthy::quantity::Amperes, governed_by: lw_governor, assumed: lw_assumed) -> lw_device_answer {
    lw_device_answer {
        outcome: LW_OUTCOME_HOLDS,
        governed_by,
        assumed,
        rating_a: amperes(rating),
        ..lw_device_answer::UNSTATED
    }
}

impl Question for lw_largest_device_question {
    type Answer = lw_device_answer;

    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_device_answer>> {
        let kind = DEVICE_KINDS.required(self.kind, "question.kind")?;
        let ampacity = required(self.ampacity_a, &Unit::AMPERE, "question.ampacity_a")?;
        let material = MATERIALS.required(self.material, "question.material")?;
        let of = (material, wire_size(self.size, "question.size")?);
        let supplies = supplies(self.supplies, "question.supplies")?;
        let found = largest_device(code, kind, ampacity, of, supplies, working);
        Ok(Answered::of(found, |found| answer(found.rating, found.governed_by.number(), 0)))
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_device_answer {
        lw_device_answer { outcome, governed_by, ..lw_device_answer::UNSTATED }
    }
}

impl Question for lw_next_device_question {
    type Answer = lw_device_answer;

    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_device_answer>> {
        let kind = DEVICE_KINDS.required(self.kind, "question.kind")?;
        let (needs, assumed) = if self.required_a.is_nan() {
            let (load, rating, assumed) = load(self.continuous_a, self.non_continuous_a, self.continuous_rating)?;
            match requirement(code, load, rating, working) {
                Ok(found) => (found.device, assumed),
                Err(gap) => return Ok(Answered::CannotTell(gap)),
            }
        } else if self.continuous_a.is_nan() && self.non_continuous_a.is_nan() {
            (Scaled::whole(required(self.required_a, &Unit::AMPERE, "question.required_a")?), 0)
        } else {
            let what =
                "stands for continuous_a and non_continuous_a; state the one or the others and leave NAN elsewhere";
            return Err(fail(LW_STATUS_CONTRADICTION, "question.required_a", format_args!("{what}")));
        };
        Ok(Answered::of(next_device(code, kind, needs, working), |found| answer(found, LW_GOVERNOR_LOAD, assumed)))
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_device_answer {
        lw_device_answer { outcome, governed_by, ..lw_device_answer::UNSTATED }
    }
}

/// The largest standard device that protects a conductor: NEC 240.4(B), (C), (D), 240.6(A). It is neither a tap, a motor
/// circuit nor a transformer, which 240.4(E) to (G) treat apart.
///
/// Outputs, errors and threads as with `lw_ampacity`.
///
/// ```c
/// lw_largest_device_question question = lw_largest_device_question_init();
/// lw_device_answer answer = lw_device_answer_init();
/// question.material = LW_MATERIAL_COPPER;
/// question.size = 6;
/// question.ampacity_a = 55;
/// question.kind = LW_DEVICE_KIND_BREAKER;
/// question.supplies = LW_SUPPLIES_OTHER;
/// lw_largest_device(code, &question, &answer, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_largest_device(
    code: *const lw_code,
    question: *const lw_largest_device_question,
    answer_out: *mut lw_device_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}

/// The least standard device for a load: NEC 240.6(A), 210.20, 215.3.
///
/// Outputs, errors and threads as with `lw_ampacity`.
///
/// ```c
/// lw_next_device_question question = lw_next_device_question_init();
/// lw_device_answer answer = lw_device_answer_init();
/// question.continuous_a = 16;
/// question.non_continuous_a = 4;
/// question.kind = LW_DEVICE_KIND_BREAKER;
/// lw_next_device(code, &question, &answer, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_next_device(
    code: *const lw_code,
    question: *const lw_next_device_question,
    answer_out: *mut lw_device_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}
