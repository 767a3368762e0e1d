//! Batches over the Arrow C data interface: a table of circuits in, a table of answers out.

use std::ops::ControlFlow;

use loadworthy::batch::JudgeError;
use loadworthy::batch::arrow::{ArrowJudgeError, judge};

use crate::batch::{go_on, lw_batch_options};
use crate::border::{OutTable, Plain, guard, handle, plain, table};
use crate::code::lw_code;
use crate::error::{fail, lw_error};
use crate::status::{LW_STATUS_ARROW, LW_STATUS_COLUMNS, LW_STATUS_STOPPED, lw_status};

/// `struct ArrowSchema` of the Arrow C data interface, which the program defines.
pub struct ArrowSchema {
    _theirs: [u8; 0],
}

/// `struct ArrowArray` of the Arrow C data interface, which the program defines.
pub struct ArrowArray {
    _theirs: [u8; 0],
}

/// Judges a table of circuits that comes by the Arrow C data interface, without copying it, and gives one of answers.
///
/// `schema` and `array` are a struct whose children are columns, named and read as `lw_column` says; numbers may be
/// floating-point, whole or decimal128, words utf8, large utf8, views or dictionaries. `array` is moved in: after the call
/// it counts as released, whatever the status, unless a pointer was NULL or not aligned. `schema` stays the caller's.
///
/// `*schema_out` and `*array_out` take the answers, one row each in the same order; the caller releases them by their own
/// `release`. On failure both count as released. Verdicts and reasons are dictionaries of words: `holds` alone is a pass.
/// `options` may be NULL. Several threads may judge at once.
///
/// ```c
/// struct ArrowSchema answers;
/// struct ArrowArray rows;
/// if (lw_batch_judge_arrow(code, &schema, &array, NULL, &answers, &rows, NULL) == LW_STATUS_OK) {
///     rows.release(&rows);
///     answers.release(&answers);
/// }
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_batch_judge_arrow(
    code: *const lw_code,
    schema: *const ArrowSchema,
    array: *mut ArrowArray,
    options: *const lw_batch_options,
    schema_out: *mut ArrowSchema,
    array_out: *mut ArrowArray,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let given = table(schema, array)?;
        let out = OutTable::new(schema_out, array_out)?;
        let code = handle(code, "code")?.nec.code();
        let options = if options.is_null() { lw_batch_options::UNSTATED } else { plain(options, "options")? };
        let threads = options.threads()?;
        let mut progress = |done| -> ControlFlow<()> { go_on(&options, done) };
        let answers = judge(code, &given, &[], threads, &mut progress).map_err(|error| {
            let status = match &error {
                ArrowJudgeError::Columns(_) => LW_STATUS_COLUMNS,
                ArrowJudgeError::Judge(JudgeError::Stopped { .. }) => LW_STATUS_STOPPED,
                _ => LW_STATUS_ARROW,
            };
            fail(status, "array", format_args!("{error}"))
        })?;
        out.give(answers)
    })
}
