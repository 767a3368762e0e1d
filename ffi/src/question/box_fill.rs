//! The volume of a box for what it holds.

use loadworthy::calc::Working;
use loadworthy::code::Code;
use loadworthy::quantity::Rounding;
use loadworthy::size::box_fill::{Clamps, Contents, least_volume};
use loadworthy::trade::WireSize;

use super::ampacity::{count, yes_no};
use super::{Answered, Question, ask};
use crate::border::{Elements, Plain};
use crate::code::lw_code;
use crate::error::{Result, fail, lw_error};
use crate::number::{Unit, lw_wire_size, needed, shown, wire_size};
use crate::outcome::{
    LW_GOVERNOR_BOX_FILL, LW_OUTCOME_CANNOT_TELL, LW_OUTCOME_HOLDS, lw_governor, lw_outcome, lw_yes_no,
};
use crate::status::{LW_STATUS_BAD_NUMBER, LW_STATUS_CONTRADICTION, LW_STATUS_NOT_STATED, lw_status};
use crate::working::lw_working;

/// The most sorts of conductors or devices in one box.
pub const LW_MOST_COUNTED: u32 = 1000;

/// So many of a size. Make one with `lw_counted_init`. Both must be stated.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_counted {
    /// Set it to `sizeof(lw_counted)`, the same in all of an array.
    pub struct_size: usize,
    /// How many, 1 to 999.
    pub count: i32,
    /// Of which size.
    pub size: lw_wire_size,
}

/// What a box holds. Make one with `lw_size_box_question_init`. What is not in the box is said too: a box that is too
/// small by what was forgotten overheats what it holds.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_size_box_question {
    /// Set it to `sizeof(lw_size_box_question)`.
    pub struct_size: usize,
    /// Conductors that end, are spliced or pass unbroken inside, one entry a size; only read during the call.
    pub conductors: *const lw_counted,
    /// How many entries, 1 to `LW_MOST_COUNTED`.
    pub conductor_count: usize,
    /// Devices, each with the size of the largest conductor on it; one wider than a single device counts once a gang.
    pub devices: *const lw_counted,
    /// How many entries; 0 where `has_devices` is `LW_NO`.
    pub device_count: usize,
    /// Whether there are devices.
    pub has_devices: lw_yes_no,
    /// Whether there are equipment grounding conductors.
    pub has_grounding: lw_yes_no,
    /// How many of them.
    pub grounding_count: i32,
    /// The size of the largest.
    pub grounding_size: lw_wire_size,
    /// Whether there are cable clamps inside.
    pub has_clamps: lw_yes_no,
    /// Whether there are fittings inside, studs or hickeys.
    pub has_fittings: lw_yes_no,
    /// How many kinds of them, 1 or 2.
    pub fitting_kinds: i32,
    /// Zero.
    pub reserved: i32,
}

/// The least volume of a box: an output.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_size_box_answer {
    /// Set it to `sizeof(lw_size_box_answer)`.
    pub struct_size: usize,
    /// `LW_OUTCOME_HOLDS` where it is answered.
    pub outcome: lw_outcome,
    /// What limits it.
    pub governed_by: lw_governor,
    /// The least volume in cubic inches, rounded up to a thousandth; NAN where it cannot be told.
    pub volume_in3: f64,
}

// SAFETY: `repr(C)`, `struct_size` first, integers only.
unsafe impl Plain for lw_counted {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self { struct_size: size_of::<Self>(), count: 0, size: 0 };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and pointers only.
unsafe impl Plain for lw_size_box_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        conductors: std::ptr::null(),
        conductor_count: 0,
        devices: std::ptr::null(),
        device_count: 0,
        has_devices: 0,
        has_grounding: 0,
        grounding_count: 0,
        grounding_size: 0,
        has_clamps: 0,
        has_fittings: 0,
        fitting_kinds: 0,
        reserved: 0,
    };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_size_box_answer {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self =
        Self { struct_size: size_of::<Self>(), outcome: LW_OUTCOME_CANNOT_TELL, governed_by: 0, volume_in3: f64::NAN };
}

impl lw_counted {
    fn read(&self) -> Result<(WireSize, u16)> {
        let count = needed(count(self.count, "counted.count")?, "count", "counted.count")?;
        Ok((wire_size(self.size, "counted.size")?, count))
    }
}

fn all(counted: *const lw_counted, count: usize, name: &'static str) -> Result<Vec<(WireSize, u16)>> {
    let all = Elements::new(counted, count, LW_MOST_COUNTED as usize, name)?;
    all.iter().map(|counted: Result<lw_counted>| counted?.read()).collect()
}

/// Whether there are such things; it must be said.
fn said(number: lw_yes_no, place: &'static str) -> Result<bool> {
    yes_no(number, place)?.ok_or_else(|| {
        let what = "is not stated and decides the answer; write LW_YES or LW_NO";
        fail(LW_STATUS_NOT_STATED, place, format_args!("{what}"))
    })
}

fn none_of(has: bool, count: usize, place: &'static str) -> Result<()> {
    match (has, count) {
        (true, 0) => Err(fail(LW_STATUS_NOT_STATED, place, format_args!("there are some; say how many"))),
        (false, 1..) => {
            Err(fail(LW_STATUS_CONTRADICTION, place, format_args!("there are none, and {count} are stated")))
        }
        _ => Ok(()),
    }
}

impl Question for lw_size_box_question {
    type Answer = lw_size_box_answer;

    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_size_box_answer>> {
        let conductors = all(self.conductors, self.conductor_count, "question.conductors")?;
        none_of(true, conductors.len(), "question.conductors")?;
        let devices = all(self.devices, self.device_count, "question.devices")?;
        none_of(said(self.has_devices, "question.has_devices")?, devices.len(), "question.devices")?;
        let grounding = if said(self.has_grounding, "question.has_grounding")? {
            let place = "question.grounding_count";
            let count = needed(count(self.grounding_count, place)?, "count of grounding conductors", place)?;
            Some((wire_size(self.grounding_size, "question.grounding_size")?, count))
        } else {
            none_of(false, usize::from(self.grounding_count != 0), "question.grounding_count")?;
            None
        };
        let clamps = if said(self.has_clamps, "question.has_clamps")? { Clamps::Internal } else { Clamps::None };
        let fittings = match (said(self.has_fittings, "question.has_fittings")?, self.fitting_kinds) {
            (false, 0) => 0,
            (true, 1) => 1,
            (true, 2) => 2,
            (has, kinds) => {
                let advice = if has { "write 1 or 2" } else { "there are none; write 0" };
                let what = format_args!("{kinds} kinds of fittings; {advice}");
                return Err(fail(LW_STATUS_BAD_NUMBER, "question.fitting_kinds", what));
            }
        };
        let contents = Contents { conductors: &conductors, grounding, clamps, fittings, devices: &devices };
        Ok(Answered::of(least_volume(code, &contents, working), |volume| lw_size_box_answer {
            outcome: LW_OUTCOME_HOLDS,
            governed_by: LW_GOVERNOR_BOX_FILL,
            volume_in3: shown(volume, &Unit::CUBIC_INCH, 3, Rounding::Up),
            ..lw_size_box_answer::UNSTATED
        }))
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_size_box_answer {
        lw_size_box_answer { outcome, governed_by, ..lw_size_box_answer::UNSTATED }
    }
}

/// The least volume of a box for what it holds: NEC 314.16. There are no terminal blocks in it, and no volume of plaster
/// rings, extension rings or domed covers counts.
///
/// Outputs, errors and threads as with `lw_ampacity`.
///
/// ```c
/// lw_counted conductors = lw_counted_init();
/// lw_size_box_question question = lw_size_box_question_init();
/// lw_size_box_answer answer = lw_size_box_answer_init();
/// conductors.count = 4;
/// conductors.size = 12;
/// question.conductors = &conductors;
/// question.conductor_count = 1;
/// question.has_devices = LW_NO;
/// question.has_grounding = LW_NO;
/// question.has_clamps = LW_YES;
/// question.has_fittings = LW_NO;
/// lw_size_box(code, &question, &answer, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_size_box(
    code: *const lw_code,
    question: *const lw_size_box_question,
    answer_out: *mut lw_size_box_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}
