//! How much current a flexible cord may carry.

use loadworthy::calc::Working;
use loadworthy::calc::cord::{CordConditions, ampacity};
use loadworthy::code::Code;
use loadworthy::quantity::Celsius;

use super::ampacity::count;
use super::{Answered, Question, ask};
use crate::border::Plain;
use crate::choices::words::{CORDS, lw_cord};
use crate::code::lw_code;
use crate::error::{Result, lw_error};
use crate::number::{amperes, lw_wire_size, temperature, wire_size};
use crate::outcome::{
    LW_ASSUMED_AMBIENT_30C, LW_ASSUMED_CORD_UNMARKED, LW_ASSUMED_THREE_CONDUCTORS, LW_GOVERNOR_CORD,
    LW_OUTCOME_CANNOT_TELL, LW_OUTCOME_HOLDS, lw_assumed, lw_governor, lw_outcome,
};
use crate::status::lw_status;
use crate::working::lw_working;

/// A flexible cord and its conditions. Make one with `lw_cord_question_init`. Type and size must be stated.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_cord_question {
    /// Set it to `sizeof(lw_cord_question)`.
    pub struct_size: usize,
    /// The letter type.
    pub cord: lw_cord,
    /// The size of its conductors.
    pub size: lw_wire_size,
    /// How many conductors carry current, 1 to 999.
    pub current_carrying: i32,
    /// Zero.
    pub reserved: i32,
    /// The ambient temperature in °C, or NAN.
    pub ambient_c: f64,
    /// The same in °F, in place of it, or NAN.
    pub ambient_f: f64,
    /// The temperature marked on the cord in °C, or NAN.
    pub marked_c: f64,
    /// The same in °F, in place of it, or NAN.
    pub marked_f: f64,
}

/// The ampacity of a cord: an output.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_cord_answer {
    /// Set it to `sizeof(lw_cord_answer)`.
    pub struct_size: usize,
    /// `LW_OUTCOME_HOLDS` where it is answered.
    pub outcome: lw_outcome,
    /// What limits it.
    pub governed_by: lw_governor,
    /// What was assumed.
    pub assumed: lw_assumed,
    /// Zero.
    pub reserved: u32,
    /// The current that it may carry, in amperes; NAN where it cannot be told.
    pub ampacity_a: f64,
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_cord_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        cord: 0,
        size: 0,
        current_carrying: 0,
        reserved: 0,
        ambient_c: f64::NAN,
        ambient_f: f64::NAN,
        marked_c: f64::NAN,
        marked_f: f64::NAN,
    };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_cord_answer {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        outcome: LW_OUTCOME_CANNOT_TELL,
        governed_by: 0,
        assumed: 0,
        reserved: 0,
        ampacity_a: f64::NAN,
    };
}

impl Question for lw_cord_question {
    type Answer = lw_cord_answer;

    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_cord_answer>> {
        let mut assumed = 0;
        let mut or = |found, what| {
            if found {
                assumed |= what;
            }
        };
        let count = count(self.current_carrying, "question.current_carrying")?;
        or(count.is_none(), LW_ASSUMED_THREE_CONDUCTORS);
        let ambient = temperature((self.ambient_c, "question.ambient_c"), (self.ambient_f, "question.ambient_f"))?;
        or(ambient.is_none(), LW_ASSUMED_AMBIENT_30C);
        let marked = temperature((self.marked_c, "question.marked_c"), (self.marked_f, "question.marked_f"))?;
        or(marked.is_none(), LW_ASSUMED_CORD_UNMARKED);
        let conditions = CordConditions {
            cord: CORDS.required(self.cord, "question.cord")?,
            size: wire_size(self.size, "question.size")?,
            current_carrying: count.unwrap_or(3),
            ambient: ambient.unwrap_or(Celsius::from_whole(30)),
            marked,
        };
        Ok(Answered::of(ampacity(code, &conditions, working), |found| lw_cord_answer {
            outcome: LW_OUTCOME_HOLDS,
            governed_by: LW_GOVERNOR_CORD,
            assumed,
            ampacity_a: amperes(found),
            ..lw_cord_answer::UNSTATED
        }))
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_cord_answer {
        lw_cord_answer { outcome, governed_by, ..lw_cord_answer::UNSTATED }
    }
}

/// How much current a flexible cord may carry: NEC 400.5.
///
/// Outputs, errors and threads as with `lw_ampacity`.
///
/// ```c
/// lw_cord_question question = lw_cord_question_init();
/// lw_cord_answer answer = lw_cord_answer_init();
/// question.cord = LW_CORD_SOOW;
/// question.size = 10;
/// lw_cord_ampacity(code, &question, &answer, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_cord_ampacity(
    code: *const lw_code,
    question: *const lw_cord_question,
    answer_out: *mut lw_cord_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}
