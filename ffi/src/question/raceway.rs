//! The trade size of a raceway.

use loadworthy::calc::Working;
use loadworthy::code::Code;
use loadworthy::size::raceway::{Extent, Occupant, smallest};
use loadworthy::trade::{Jacket, Stranding};

use super::ampacity::{count, yes_no};
use super::{Answered, Question, ask};
use crate::border::{Elements, Plain};
use crate::choices::words::{
    INSULATIONS, RACEWAYS, STRANDINGS, TRADE_SIZES, lw_insulation, lw_raceway, lw_stranding, lw_trade_size,
};
use crate::code::lw_code;
use crate::error::{Result, fail, lw_error};
use crate::number::{lw_wire_size, needed, percent, wire_size};
use crate::outcome::{
    LW_GOVERNOR_RACEWAY_FILL, LW_OUTCOME_CANNOT_TELL, LW_OUTCOME_HOLDS, lw_governor, lw_outcome, lw_yes_no,
};
use crate::status::{LW_STATUS_CONTRADICTION, LW_STATUS_NOT_STATED, lw_status};
use crate::working::lw_working;

/// The most sorts of conductors in one raceway.
pub const LW_MOST_OCCUPANTS: u32 = 1000;

/// Like conductors in a raceway, grounding conductors too. Make one with `lw_occupant_init`. Count and size must be
/// stated, and the insulation, or that they are bare.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_occupant {
    /// Set it to `sizeof(lw_occupant)`, the same in all of an array.
    pub struct_size: usize,
    /// How many, 1 to 999.
    pub count: i32,
    /// Their size.
    pub size: lw_wire_size,
    /// Their insulation.
    pub insulation: lw_insulation,
    /// How their strands lie; the usual way where it is not stated.
    pub stranding: lw_stranding,
    /// `LW_YES` where they are bare.
    pub bare: lw_yes_no,
    /// Zero.
    pub reserved: i32,
}

/// A raceway to size. Make one with `lw_size_raceway_question_init`. Kind and occupants must be stated.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_size_raceway_question {
    /// Set it to `sizeof(lw_size_raceway_question)`.
    pub struct_size: usize,
    /// What is in it; only read during the call.
    pub occupants: *const lw_occupant,
    /// How many sorts, 1 to `LW_MOST_OCCUPANTS`.
    pub occupant_count: usize,
    /// The raceway.
    pub kind: lw_raceway,
    /// `LW_YES` for a nipple, at most 24 in between boxes; a run where it is not stated.
    pub nipple: lw_yes_no,
}

/// A raceway: an output.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_size_raceway_answer {
    /// Set it to `sizeof(lw_size_raceway_answer)`.
    pub struct_size: usize,
    /// `LW_OUTCOME_HOLDS` where it is answered, `LW_OUTCOME_FAILS` where none is large enough.
    pub outcome: lw_outcome,
    /// What limits it.
    pub governed_by: lw_governor,
    /// The trade size.
    pub trade_size: lw_trade_size,
    /// Zero.
    pub reserved: i32,
    /// The share of its area that may be taken, in percent.
    pub fill_limit_percent: f64,
}

// SAFETY: `repr(C)`, `struct_size` first, integers only.
unsafe impl Plain for lw_occupant {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self =
        Self { struct_size: size_of::<Self>(), count: 0, size: 0, insulation: 0, stranding: 0, bare: 0, reserved: 0 };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and a pointer only.
unsafe impl Plain for lw_size_raceway_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self =
        Self { struct_size: size_of::<Self>(), occupants: std::ptr::null(), occupant_count: 0, kind: 0, nipple: 0 };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_size_raceway_answer {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        outcome: LW_OUTCOME_CANNOT_TELL,
        governed_by: 0,
        trade_size: 0,
        reserved: 0,
        fill_limit_percent: f64::NAN,
    };
}

impl lw_occupant {
    fn read(&self) -> Result<Occupant> {
        let insulation = INSULATIONS.given(self.insulation, "occupant.insulation")?;
        let stranding = STRANDINGS.given(self.stranding, "occupant.stranding")?;
        let jacket = match (yes_no(self.bare, "occupant.bare")?, insulation) {
            (Some(true), None) => Jacket::Bare,
            (Some(true), Some(_)) => {
                let what = "a bare conductor has no insulation; state one of the two";
                return Err(fail(LW_STATUS_CONTRADICTION, "occupant.bare", format_args!("{what}")));
            }
            (_, insulation) => {
                let insulation = needed(insulation, "insulation", "occupant.insulation")?;
                Jacket::Insulated(insulation, stranding.unwrap_or(Stranding::Usual))
            }
        };
        let count = needed(count(self.count, "occupant.count")?, "count", "occupant.count")?;
        Ok(Occupant { jacket, size: wire_size(self.size, "occupant.size")?, count })
    }
}

impl Question for lw_size_raceway_question {
    type Answer = lw_size_raceway_answer;

    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_size_raceway_answer>> {
        let kind = RACEWAYS.required(self.kind, "question.kind")?;
        let most = LW_MOST_OCCUPANTS as usize;
        let occupants = Elements::new(self.occupants, self.occupant_count, most, "question.occupants")?;
        let occupants = occupants.iter().map(|occupant| occupant?.read()).collect::<Result<Vec<_>>>()?;
        if occupants.is_empty() {
            let what = "nothing is in it; pass at least one";
            return Err(fail(LW_STATUS_NOT_STATED, "question.occupants", format_args!("{what}")));
        }
        let extent = match yes_no(self.nipple, "question.nipple")? {
            Some(true) => Extent::Nipple,
            _ => Extent::Run,
        };
        Ok(Answered::of_size(smallest(code, kind, &occupants, extent, working), |found| lw_size_raceway_answer {
            outcome: LW_OUTCOME_HOLDS,
            governed_by: LW_GOVERNOR_RACEWAY_FILL,
            trade_size: TRADE_SIZES.number(found.trade_size),
            fill_limit_percent: percent(found.share),
            ..lw_size_raceway_answer::UNSTATED
        }))
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_size_raceway_answer {
        lw_size_raceway_answer { outcome, governed_by, ..lw_size_raceway_answer::UNSTATED }
    }
}

/// The trade size of a raceway that takes some conductors: NEC Chapter 9 Tables 1, 4, 5, 5A and 8.
///
/// Outputs, errors and threads as with `lw_ampacity`.
///
/// ```c
/// lw_occupant occupant = lw_occupant_init();
/// lw_size_raceway_question question = lw_size_raceway_question_init();
/// lw_size_raceway_answer answer = lw_size_raceway_answer_init();
/// occupant.count = 3;
/// occupant.size = 6;
/// occupant.insulation = LW_INSULATION_THWN_2;
/// question.kind = LW_RACEWAY_EMT;
/// question.occupants = &occupant;
/// question.occupant_count = 1;
/// lw_size_raceway(code, &question, &answer, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_size_raceway(
    code: *const lw_code,
    question: *const lw_size_raceway_question,
    answer_out: *mut lw_size_raceway_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}
