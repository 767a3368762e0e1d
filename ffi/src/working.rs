//! How an answer came about: made only for those who ask.

use std::sync::OnceLock;

use loadworthy::calc::{Derivation, Step};
use loadworthy::report::derivation;

use crate::border::{Out, OutStruct, Plain, Text, Texts, free, guard, handle, lw_str};
use crate::error::{fail, lw_error, no_such_index};
use crate::status::{LW_STATUS_PANIC, lw_status};

/// The working of one answer: its steps, and where it cannot be told, why. It is only read: several threads may do so at
/// once.
pub struct lw_working {
    steps: Vec<StepTexts>,
    gap: Option<Text>,
    derivation: Derivation,
    text: OnceLock<Text>,
    json: OnceLock<Text>,
}

/// One step as texts.
pub(crate) struct StepTexts {
    what: Text,
    result: Text,
    citation: Option<Text>,
    cell: Option<Text>,
    grade: Option<Text>,
}

/// One step of a working: an output. Its texts live as long as the object that it was asked of; one that has nothing to
/// say has NULL as its `data`.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_step {
    /// Set it to `sizeof(lw_step)`.
    pub struct_size: usize,
    /// What was done, in a few words.
    pub what: lw_str,
    /// What came of it, with its unit.
    pub result: lw_str,
    /// The section that asks for it, or the table that it was read from.
    pub citation: lw_str,
    /// The row and column of the cell, where one was read.
    pub cell: lw_str,
    /// How the cell is witnessed.
    pub grade: lw_str,
}

// SAFETY: `repr(C)`, `struct_size` first, integers and pointers only.
unsafe impl Plain for lw_step {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        what: lw_str::NONE,
        result: lw_str::NONE,
        citation: lw_str::NONE,
        cell: lw_str::NONE,
        grade: lw_str::NONE,
    };
}

impl StepTexts {
    pub(crate) fn new(step: &Step) -> Self {
        Self {
            what: Text::new(step.what.as_str()),
            result: Text::new(step.result.as_str()),
            citation: step.citation.as_deref().map(Text::new),
            cell: step.cell.as_deref().map(Text::new),
            grade: step.grade.map(Text::new),
        }
    }

    pub(crate) fn as_struct(&self) -> lw_step {
        lw_step {
            what: self.what.as_str(),
            result: self.result.as_str(),
            citation: self.citation.or_none(),
            cell: self.cell.or_none(),
            grade: self.grade.or_none(),
            ..lw_step::UNSTATED
        }
    }
}

impl lw_working {
    pub(crate) fn new(derivation: Derivation, gap: Option<String>) -> Self {
        Self {
            steps: derivation.steps.iter().map(StepTexts::new).collect(),
            gap: gap.map(Text::new),
            derivation,
            text: OnceLock::new(),
            json: OnceLock::new(),
        }
    }
}

/// Frees a working; NULL does nothing.
///
/// Not while another call uses the working.
///
/// ```c
/// lw_working_free(working);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_working_free(working: *mut lw_working) -> lw_status {
    free(working, "working")
}

/// How many steps a working has.
///
/// Several threads may ask at once.
///
/// ```c
/// size_t count;
/// lw_working_step_count(working, &count, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_working_step_count(
    working: *const lw_working,
    count_out: *mut usize,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(count_out, "count_out", 0)?;
        out.write(handle(working, "working")?.steps.len());
        Ok(())
    })
}

/// One step of a working, counted from 0. Its texts live as long as the working.
///
/// `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.
///
/// ```c
/// lw_step step = lw_step_init();
/// if (lw_working_step(working, 0, &step, NULL) == LW_STATUS_OK)
///     printf("%s: %s\n", step.what.data, step.result.data);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_working_step(
    working: *const lw_working,
    index: usize,
    step_out: *mut lw_step,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutStruct::new(step_out, "step_out")?;
        let steps = &handle(working, "working")?.steps;
        out.write(steps.get(index).ok_or_else(|| no_such_index(index, steps.len()))?.as_struct());
        Ok(())
    })
}

/// Why the answer cannot be told or is no, in words; NULL as its `data` where there is an answer. The text lives as long
/// as the working.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str gap;
/// lw_working_gap(working, &gap, NULL);
/// if (gap.data) printf("%s\n", gap.data);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_working_gap(
    working: *const lw_working,
    gap_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(gap_out, "gap_out", lw_str::NONE)?;
        out.write(handle(working, "working")?.gap.or_none());
        Ok(())
    })
}

/// The steps for a person to read, a line each. The text lives as long as the working.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str text;
/// lw_working_text(working, &text, NULL);
/// fputs(text.data, stdout);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_working_text(
    working: *const lw_working,
    text_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(text_out, "text_out", lw_str::NONE)?;
        let working = handle(working, "working")?;
        let text = working.text.get_or_init(|| {
            let mut text = String::new();
            // A `String` takes whatever is written to it.
            let _ = derivation::write(&working.derivation.steps, &mut text);
            Text::new(text)
        });
        out.write(text.as_str());
        Ok(())
    })
}

/// The steps for a program: a JSON list of objects `{ what, result, citation, cell, grade }`, the last three only where
/// there is one. The text lives as long as the working.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str json;
/// lw_working_json(working, &json, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_working_json(
    working: *const lw_working,
    json_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(json_out, "json_out", lw_str::NONE)?;
        let working = handle(working, "working")?;
        let json = match working.json.get() {
            Some(json) => json,
            None => {
                let json = serde_json::to_string(&working.derivation)
                    .map_err(|error| fail(LW_STATUS_PANIC, "working", format_args!("could not be written: {error}")))?;
                working.json.get_or_init(|| Text::new(json))
            }
        };
        out.write(json.as_str());
        Ok(())
    })
}
