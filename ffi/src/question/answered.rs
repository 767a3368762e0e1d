//! What all questions have in common: read the question, compute, write the answer, and the working where it is wanted.

use loadworthy::calc::{CannotTell, Derivation, Silent, Working};
use loadworthy::code::Code;
use loadworthy::size::Unsized;

use crate::border::{OutCurrent, OutHandle, OutStruct, Plain, current, guard, handle, plain};
use crate::code::lw_code;
use crate::error::{Result, lw_error};
use crate::outcome::{Governs, LW_OUTCOME_FAILS, lw_governor, lw_outcome};
use crate::status::{LW_STATUS_OK, lw_status};
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

impl<A: Plain> Answered<A> {
    /// The answer made of what was found.
    #[inline(always)]
    pub(crate) fn of<T>(found: std::result::Result<T, CannotTell>, answer: impl FnOnce(T) -> A) -> Self {
        match found {
            Ok(found) => Self::Answer(answer(found)),
            Err(gap) => Self::CannotTell(gap),
        }
    }

    /// What is written: where a table does not tell, what is unstated says so.
    #[cold]
    fn settled<Q: Question<Answer = A>>(self) -> A {
        match self {
            Self::Answer(answer) => answer,
            Self::CannotTell(_) => A::UNSTATED,
            Self::NothingPasses(_, governed_by) => Q::no(LW_OUTCOME_FAILS, governed_by),
        }
    }

    /// The answer made of a size.
    #[inline(always)]
    pub(crate) fn of_size<T>(found: std::result::Result<T, Unsized>, answer: impl FnOnce(T) -> A) -> Self {
        match found {
            Ok(found) => Self::Answer(answer(found)),
            Err(why) => Self::of_unsized(&why),
        }
    }

    #[cold]
    #[inline(never)]
    pub(crate) fn of_unsized(why: &Unsized) -> Self {
        match why {
            Unsized::CannotTell(gap) => Self::CannotTell(*gap),
            Unsized::NothingPasses(nothing) => Self::NothingPasses(nothing.to_string(), nothing.requirement.number()),
            other => Self::NothingPasses(other.to_string(), 0),
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
#[inline(always)]
pub(crate) fn ask<Q: Question>(
    code: *const lw_code,
    question: *const Q,
    answer_out: *mut Q::Answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    let status = guard(error_out, || {
        // The usual call goes without a detour: structs of this version, and no working.
        if working_out.is_null()
            && let Some(out) = OutCurrent::new(answer_out)
            && let Some(question) = current(question)
        {
            let code = handle(code, "code")?.nec.code();
            match question.answer(code, &mut Silent)? {
                Answered::Answer(answer) => out.write(answer),
                none => out.write(none.settled::<Q>()),
            }
            return Ok(());
        }
        ask_any(code, question, answer_out, working_out)
    });
    if status != LW_STATUS_OK {
        unanswered(answer_out);
    }
    status
}

/// Structs of any version, and the working where it is wanted.
#[inline(never)]
fn ask_any<Q: Question>(
    code: *const lw_code,
    question: *const Q,
    answer_out: *mut Q::Answer,
    working_out: *mut *mut lw_working,
) -> Result<()> {
    let working = OutHandle::optional(working_out, "working_out")?;
    let out = OutStruct::new(answer_out, "answer_out")?;
    let code = handle(code, "code")?.nec.code();
    let question = plain(question, "question")?;
    let mut derivation = Derivation::default();
    let answered = question.answer(code, &mut derivation)?;
    let gap = match &answered {
        Answered::Answer(_) => None,
        Answered::CannotTell(gap) => Some(gap.to_string()),
        Answered::NothingPasses(why, _) => Some(why.clone()),
    };
    out.write(answered.settled::<Q>());
    if let Some(working) = working {
        working.give(lw_working::new(derivation, gap));
    }
    Ok(())
}

/// What stands in the answer where the call fails, whichever way.
#[cold]
#[inline(never)]
fn unanswered<A: Plain>(answer_out: *mut A) {
    // Its end writes what is unstated; where there is no place for it, the status says so already.
    drop(OutStruct::new(answer_out, "answer_out"));
}
