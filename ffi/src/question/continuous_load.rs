//! What a load that lasts asks of device and conductor.

use loadworthy::calc::Working;
use loadworthy::calc::continuous::{Load, requirement};
use loadworthy::code::Code;
use loadworthy::quantity::Amperes;
use loadworthy::trade::ContinuousRating;

use super::{Answered, Question, ask};
use crate::border::Plain;
use crate::choices::words::{CONTINUOUS_RATINGS, lw_continuous_rating};
use crate::code::lw_code;
use crate::error::{Result, fail, lw_error};
use crate::number::{Unit, amperes, required};
use crate::outcome::{
    LW_ASSUMED_NOT_LISTED_100_PERCENT, LW_GOVERNOR_LOAD, LW_OUTCOME_CANNOT_TELL, LW_OUTCOME_HOLDS, lw_assumed,
    lw_governor, lw_outcome,
};
use crate::status::{LW_STATUS_BAD_NUMBER, lw_status};
use crate::working::lw_working;

/// A load in its two parts. Make one with `lw_continuous_load_question_init`. Both currents must be stated.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_continuous_load_question {
    /// Set it to `sizeof(lw_continuous_load_question)`.
    pub struct_size: usize,
    /// The part that lasts three hours or more, in amperes.
    pub continuous_a: f64,
    /// The rest, in amperes; 0 where there is none.
    pub non_continuous_a: f64,
    /// How much of its rating the device carries for hours.
    pub continuous_rating: lw_continuous_rating,
    /// Zero.
    pub reserved: i32,
}

/// What a load asks for: an output. In amperes; NAN where it cannot be told.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_continuous_load_answer {
    /// Set it to `sizeof(lw_continuous_load_answer)`.
    pub struct_size: usize,
    /// `LW_OUTCOME_HOLDS` where it is answered.
    pub outcome: lw_outcome,
    /// What limits it.
    pub governed_by: lw_governor,
    /// What was assumed.
    pub assumed: lw_assumed,
    /// Zero.
    pub reserved: u32,
    /// The least rating of the device, in amperes, rounded up to the microampere.
    pub device_a: f64,
    /// The least ampacity before correction and adjustment, in amperes, rounded up to the microampere.
    pub conductor_before_factors_a: f64,
    /// The least ampacity after them, in amperes.
    pub conductor_after_factors_a: f64,
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_continuous_load_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        continuous_a: f64::NAN,
        non_continuous_a: f64::NAN,
        continuous_rating: 0,
        reserved: 0,
    };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_continuous_load_answer {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        outcome: LW_OUTCOME_CANNOT_TELL,
        governed_by: 0,
        assumed: 0,
        reserved: 0,
        device_a: f64::NAN,
        conductor_before_factors_a: f64::NAN,
        conductor_after_factors_a: f64::NAN,
    };
}

/// A load and how its device is rated, with what was assumed.
#[inline(always)]
pub(crate) fn load(
    continuous: f64,
    non_continuous: f64,
    rating: lw_continuous_rating,
) -> Result<(Load, ContinuousRating, lw_assumed)> {
    let load = Load {
        continuous: required(continuous, &Unit::AMPERE, "question.continuous_a")?,
        non_continuous: required(non_continuous, &Unit::AMPERE, "question.non_continuous_a")?,
    };
    let (rating, assumed) = continuous_rating(rating)?;
    Ok((load, rating, assumed))
}

#[inline(always)]
pub(crate) fn continuous_rating(rating: lw_continuous_rating) -> Result<(ContinuousRating, lw_assumed)> {
    Ok(match CONTINUOUS_RATINGS.given(rating, "question.continuous_rating")? {
        Some(rating) => (rating, 0),
        None => (ContinuousRating::Standard, LW_ASSUMED_NOT_LISTED_100_PERCENT),
    })
}

impl Question for lw_continuous_load_question {
    type Answer = lw_continuous_load_answer;

    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_continuous_load_answer>> {
        let (load, rating, assumed) = load(self.continuous_a, self.non_continuous_a, self.continuous_rating)?;
        let found = requirement(code, load, rating, working);
        if found.as_ref().is_ok_and(|found| !found.is_in_range()) {
            // It would be said to be smaller than it is.
            let what = format_args!("with its factor, and the other load, out of range: above {}", Amperes::MAX);
            return Err(fail(LW_STATUS_BAD_NUMBER, "question.continuous_a", what));
        }
        Ok(Answered::of(found, |found| lw_continuous_load_answer {
            outcome: LW_OUTCOME_HOLDS,
            governed_by: LW_GOVERNOR_LOAD,
            assumed,
            device_a: amperes(found.device_shown()),
            conductor_before_factors_a: amperes(found.conductor_shown()),
            conductor_after_factors_a: amperes(found.conductor_after_factors),
            ..lw_continuous_load_answer::UNSTATED
        }))
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_continuous_load_answer {
        lw_continuous_load_answer { outcome, governed_by, ..lw_continuous_load_answer::UNSTATED }
    }
}

/// What a load that lasts three hours or more asks of device and conductor: NEC 210.19, 210.20, 215.2, 215.3.
///
/// Outputs, errors and threads as with `lw_ampacity`.
///
/// ```c
/// lw_continuous_load_question question = lw_continuous_load_question_init();
/// lw_continuous_load_answer answer = lw_continuous_load_answer_init();
/// question.continuous_a = 16;
/// question.non_continuous_a = 0;
/// lw_continuous_load(code, &question, &answer, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_continuous_load(
    code: *const lw_code,
    question: *const lw_continuous_load_question,
    answer_out: *mut lw_continuous_load_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}
