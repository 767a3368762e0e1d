//! What all questions have in common: read the question, compute, write the answer, and the working where it is wanted.

use std::mem::MaybeUninit;

use loadworthy::calc::{CannotTell, Derivation, Silent, Working};
use loadworthy::code::Code;
use loadworthy::size::Unsized;

use crate::border::{OutHandle, OutStruct, Plain, guard, handle, plain_in};
use crate::code::lw_code;
use crate::error::{Result, lw_error};
use crate::outcome::{Governs, LW_OUTCOME_FAILS, lw_governor, lw_outcome};
use crate::status::lw_status;
use crate::working::lw_working;

/// An answer, or why there is none.
pub(crate) enum Answered<A> {
    /// An answer with its own outcome.
    Answer(A),
    /// A table does not tell.
    CannotTell(CannotTell),
    /// No size passes; what stands in the way.
    NothingPasses(String, lw_governor),
}

impl<A> Answered<A> {
    /// The answer made of what was found.
    #[inline]
    pub(crate) fn of<T>(found: std::result::Result<T, CannotTell>, answer: impl FnOnce(T) -> A) -> Self {
        match found {
            Ok(found) => Self::Answer(answer(found)),
            Err(gap) => Self::CannotTell(gap),
        }
    }

    /// The answer made of a size.
    pub(crate) fn of_size<T>(found: std::result::Result<T, Unsized>, answer: impl FnOnce(T) -> A) -> Self {
        match found {
            Ok(found) => Self::Answer(answer(found)),
            Err(Unsized::CannotTell(gap)) => Self::CannotTell(gap),
            Err(Unsized::NothingPasses(nothing)) => {
                Self::NothingPasses(nothing.to_string(), nothing.requirement.number())
            }
            Err(other) => Self::NothingPasses(other.to_string(), 0),
        }
    }
}

/// A question as a struct that C fills in.
pub(crate) trait Question: Plain {
    /// The struct of its answer; its `UNSTATED` says that it cannot be told.
    type Answer: Plain;

    /// # Errors
    /// Where the question itself is not understood.
    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<Self::Answer>>;

    /// The answer where nothing passes.
    fn no(outcome: lw_outcome, governed_by: lw_governor) -> Self::Answer;
}

/// The whole of an entry that asks a question.
#[inline]
pub(crate) fn ask<Q: Question>(
    code: *const lw_code,
    question: *const Q,
    answer_out: *mut Q::Answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let working = OutHandle::optional(working_out, "working_out")?;
        let out = OutStruct::new(answer_out, "answer_out")?;
        let code = handle(code, "code")?.nec.code();
        let mut place = MaybeUninit::uninit();
        let question = plain_in(question, "question", &mut place)?;
        match working {
            None => {
                if let Some(answer) = settled::<Q>(question.answer(code, &mut Silent)?) {
                    out.write(answer);
                }
            }
            Some(working) => {
                let mut derivation = Derivation::default();
                let answered = question.answer(code, &mut derivation)?;
                let gap = match &answered {
                    Answered::Answer(_) => None,
                    Answered::CannotTell(gap) => Some(gap.to_string()),
                    Answered::NothingPasses(why, _) => Some(why.clone()),
                };
                if let Some(answer) = settled::<Q>(answered) {
                    out.write(answer);
                }
                working.give(lw_working::new(derivation, gap));
            }
        }
        Ok(())
    })
}

/// `None` where it cannot be told: the place of the answer says so already.
#[inline]
fn settled<Q: Question>(answered: Answered<Q::Answer>) -> Option<Q::Answer> {
    match answered {
        Answered::Answer(answer) => Some(answer),
        Answered::CannotTell(_) => None,
        Answered::NothingPasses(_, governed_by) => Some(Q::no(LW_OUTCOME_FAILS, governed_by)),
    }
}
