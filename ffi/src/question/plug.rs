//! Whether a plug enters a receptacle, and what governs the current.

use loadworthy::calc::Working;
use loadworthy::calc::plug::fit;
use loadworthy::code::Code;
use loadworthy::trade::Mating;

use super::{Answered, Question, ask};
use crate::border::Plain;
use crate::choices::configuration::{configuration, lw_configuration};
use crate::code::lw_code;
use crate::error::{Result, lw_error};
use crate::number::{Unit, amperes, given};
use crate::outcome::{
    Governs, LW_ASSUMED_SUPPLY_AMPLE, LW_OUTCOME_CANNOT_TELL, LW_OUTCOME_FAILS, LW_OUTCOME_HOLDS, lw_assumed,
    lw_governor, lw_outcome,
};
use crate::status::lw_status;
use crate::working::lw_working;

/// A plug and a receptacle. Make one with `lw_plug_question_init`. Both must be stated.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_plug_question {
    /// Set it to `sizeof(lw_plug_question)`.
    pub struct_size: usize,
    /// The configuration of the plug.
    pub plug: lw_configuration,
    /// The configuration of the receptacle.
    pub receptacle: lw_configuration,
    /// What the supply behind the receptacle gives, in amperes; NAN where it is not known.
    pub supply_a: f64,
}

/// Whether they mate: an output.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_plug_answer {
    /// Set it to `sizeof(lw_plug_answer)`.
    pub struct_size: usize,
    /// `LW_OUTCOME_HOLDS` where they mate, `LW_OUTCOME_FAILS` where they do not, `LW_OUTCOME_CANNOT_TELL` where some makes
    /// of the pair do.
    pub outcome: lw_outcome,
    /// What limits the current.
    pub governed_by: lw_governor,
    /// What was assumed.
    pub assumed: lw_assumed,
    /// Zero.
    pub reserved: u32,
    /// The current that the pair may carry, in amperes; NAN where it does not mate.
    pub governing_a: f64,
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_plug_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self { struct_size: size_of::<Self>(), plug: 0, receptacle: 0, supply_a: f64::NAN };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_plug_answer {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        outcome: LW_OUTCOME_CANNOT_TELL,
        governed_by: 0,
        assumed: 0,
        reserved: 0,
        governing_a: f64::NAN,
    };
}

impl Question for lw_plug_question {
    type Answer = lw_plug_answer;

    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_plug_answer>> {
        let plug = configuration(self.plug, "question.plug")?;
        let receptacle = configuration(self.receptacle, "question.receptacle")?;
        let supply = given(self.supply_a, &Unit::AMPERE, "question.supply_a")?;
        let found = fit(code, plug, receptacle, supply, working);
        Ok(Answered::Answer(match found.mating {
            Mating::Mates(_) => lw_plug_answer {
                outcome: LW_OUTCOME_HOLDS,
                governed_by: found.governed_by.number(),
                assumed: if supply.is_none() { LW_ASSUMED_SUPPLY_AMPLE } else { 0 },
                governing_a: amperes(found.governing_current),
                ..lw_plug_answer::UNSTATED
            },
            Mating::Conditional(_) => lw_plug_answer::UNSTATED,
            Mating::DoesNot => Self::no(LW_OUTCOME_FAILS, 0),
        }))
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_plug_answer {
        lw_plug_answer { outcome, governed_by, ..lw_plug_answer::UNSTATED }
    }
}

/// Whether a plug enters a receptacle, and the current that the pair may carry: ANSI/NEMA WD 6, IEC 60309-2.
///
/// Outputs, errors and threads as with `lw_ampacity`.
///
/// ```c
/// lw_plug_question question = lw_plug_question_init();
/// lw_plug_answer answer = lw_plug_answer_init();
/// question.plug = LW_CONFIGURATION_5_15;
/// question.receptacle = LW_CONFIGURATION_5_20;
/// lw_plug_fit(code, &question, &answer, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_plug_fit(
    code: *const lw_code,
    question: *const lw_plug_question,
    answer_out: *mut lw_plug_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}
