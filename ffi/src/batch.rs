//! Columns of circuits judged where they lie: arrays in, arrays out.

use std::ffi::{c_char, c_void};
use std::ops::ControlFlow;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::sync::LazyLock;

use loadworthy::batch::{Answers, Batch, Bits, Column, Data, Integers, Joined, JudgeError, Reason};

use crate::border::{
    Number, Out, Outputs, Plain, Text, elements, guard, handle, lw_str, numbers, plain, strings, text,
};
use crate::code::lw_code;
use crate::error::{Result, fail, lw_error};
use crate::outcome::{LW_GOVERNOR_AMPACITY, LW_OUTCOME_HOLDS};
use crate::status::{
    LW_STATUS_BAD_CHOICE, LW_STATUS_BAD_NUMBER, LW_STATUS_COLUMNS, LW_STATUS_STOPPED, LW_STATUS_TOO_LARGE, lw_status,
};

/// How the values of a column lie in memory: one of the `LW_LAYOUT_` constants.
pub type lw_layout = i32;

/// `double`; NAN is no value.
pub const LW_LAYOUT_F64: lw_layout = 1;
/// `float`; six significant digits count.
pub const LW_LAYOUT_F32: lw_layout = 2;
/// `int64_t`.
pub const LW_LAYOUT_I64: lw_layout = 3;
/// `int32_t`.
pub const LW_LAYOUT_I32: lw_layout = 4;
/// `int16_t`.
pub const LW_LAYOUT_I16: lw_layout = 5;
/// `int8_t`.
pub const LW_LAYOUT_I8: lw_layout = 6;
/// `uint64_t`.
pub const LW_LAYOUT_U64: lw_layout = 7;
/// `uint32_t`.
pub const LW_LAYOUT_U32: lw_layout = 8;
/// `uint16_t`.
pub const LW_LAYOUT_U16: lw_layout = 9;
/// `uint8_t`.
pub const LW_LAYOUT_U8: lw_layout = 10;
/// Integers of 128 bits in the order of the machine, aligned to 16 bytes, that count 10 to the power of minus `scale`.
pub const LW_LAYOUT_DECIMAL128: lw_layout = 11;
/// `lw_str`, one a row: pointer and length, UTF-8; where `data` is NULL the value is missing.
pub const LW_LAYOUT_STRINGS: lw_layout = 12;
/// Texts one behind the other in `byte_count` bytes at `data`, with `rows` + 1 offsets of `int32_t` at `offsets`.
pub const LW_LAYOUT_JOINED_32: lw_layout = 13;
/// The same with offsets of `int64_t`.
pub const LW_LAYOUT_JOINED_64: lw_layout = 14;
/// Yes and no, a bit a row, the least significant of a byte first; the first row has the bit `data_offset`.
pub const LW_LAYOUT_FLAGS: lw_layout = 15;

/// The most columns of one batch.
pub const LW_MOST_COLUMNS: u32 = 100;

/// A check of a row: what `decided_by` says; 0 where none decided.
pub type lw_check = u8;

/// The load is within the usable ampacity of the conductor.
pub const LW_CHECK_CONDUCTOR_AMPACITY: lw_check = 1;
/// The continuous load with its factor is within the ampacity before factors.
pub const LW_CHECK_CONTINUOUS_LOAD_ON_CONDUCTOR: lw_check = 2;
/// The continuous load with its factor is within the rating of the device.
pub const LW_CHECK_CONTINUOUS_LOAD_ON_DEVICE: lw_check = 3;
/// The device is no larger than the conductor permits.
pub const LW_CHECK_BREAKER_PROTECTS_CONDUCTOR: lw_check = 4;
/// The drop is within its limit.
pub const LW_CHECK_VOLTAGE_DROP: lw_check = 5;

/// A column of circuits, a row each; only read during the call, and never copied. Make one with `lw_column_init`.
///
/// Its name says what it holds and in which unit. Required: `material`, `size` (a text such as `12 AWG`),
/// `load_continuous_a`, `load_other_a`, `device_a` (or `_ma`), and `insulation` or `cable`. May be left out, and is then
/// assumed: `installation`, `place`, `terminals`, `ambient_c` or `ambient_f`, `current_carrying`, `device_kind`,
/// `continuous_rating`. Decides only in some rows: `thermal_insulation` (yes, no), `supplies` (`several-receptacles`,
/// `other`). For the voltage drop all of `voltage_v`, `circuit` (`two-wire`, `three-phase`), `length_ft` or `length_m`;
/// with `drop_limit_percent` it is judged.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_column {
    /// Set it to `sizeof(lw_column)`, the same in all of an array.
    pub struct_size: usize,
    /// Its name, UTF-8.
    pub name: *const c_char,
    /// The length of the name in bytes.
    pub name_len: usize,
    /// How its values lie in memory.
    pub layout: lw_layout,
    /// How many digits are decimals, -100 to 100, for `LW_LAYOUT_DECIMAL128`.
    pub scale: i32,
    /// The values.
    pub data: *const c_void,
    /// How many rows it has; all columns have the same.
    pub rows: usize,
    /// Which values are there, a bit a row, the least significant of a byte first; NULL where all are.
    pub validity: *const u8,
    /// The bit of the first row in `validity`.
    pub validity_offset: usize,
    /// The bit of the first row in `data`, for `LW_LAYOUT_FLAGS`.
    pub data_offset: usize,
    /// Where each text begins, for `LW_LAYOUT_JOINED_32` and `LW_LAYOUT_JOINED_64`.
    pub offsets: *const c_void,
    /// How many bytes of text there are, for the same two.
    pub byte_count: usize,
    /// A dictionary: then the values are whole numbers, and count its words from 0. NULL where they are no codes.
    pub words: *const lw_str,
    /// How many words it has.
    pub word_count: usize,
}

/// Where the answers go: arrays of the caller, `rows` entries each; NULL where one is not wanted. They must not overlap
/// each other or a column. Every entry of every array is written once the arguments are in order, also where the judging is
/// stopped: zero is no outcome.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_batch_answers {
    /// Set it to `sizeof(lw_batch_answers)`.
    pub struct_size: usize,
    /// How many entries each array has: as many as the columns have rows.
    pub rows: usize,
    /// The outcome of the row, an `LW_OUTCOME_` constant.
    pub outcome: *mut u8,
    /// Why a row could not be judged, for `lw_reason_text`; 0 where it was.
    pub reason: *mut u16,
    /// The outcome of the check `LW_CHECK_CONDUCTOR_AMPACITY`.
    pub conductor_ampacity: *mut u8,
    /// The outcome of the check `LW_CHECK_CONTINUOUS_LOAD_ON_CONDUCTOR`.
    pub continuous_load_on_conductor: *mut u8,
    /// The outcome of the check `LW_CHECK_CONTINUOUS_LOAD_ON_DEVICE`.
    pub continuous_load_on_device: *mut u8,
    /// The outcome of the check `LW_CHECK_BREAKER_PROTECTS_CONDUCTOR`.
    pub breaker_protects_conductor: *mut u8,
    /// The outcome of the check `LW_CHECK_VOLTAGE_DROP`; 0 where it was not asked for.
    pub voltage_drop: *mut u8,
    /// The check that decided the row, an `LW_CHECK_` constant; 0 where none did.
    pub decided_by: *mut lw_check,
    /// What limits the ampacity, an `LW_GOVERNOR_` constant; 0 where it cannot be told.
    pub ampacity_governed_by: *mut u8,
    /// What limits the largest device, an `LW_GOVERNOR_` constant; 0 where it cannot be told.
    pub largest_device_governed_by: *mut u8,
    /// The usable ampacity in amperes; NAN where it cannot be told.
    pub ampacity_a: *mut f64,
    /// The least device for the load in amperes; NAN where it cannot be told.
    pub least_device_a: *mut f64,
    /// The largest device for the conductor in amperes; NAN where it cannot be told.
    pub largest_device_a: *mut f64,
    /// The voltage drop in volts, rounded up to the millivolt; NAN where there is none.
    pub drop_v: *mut f64,
    /// Its share in percent, rounded up; NAN where there is none.
    pub drop_percent: *mut f64,
}

/// Is called after some ten thousand rows with `user` and the count of rows done; returns 0 to go on, anything else to
/// stop. It runs on the thread that called `lw_batch_judge`, must return normally (no longjmp, no exception), and may call
/// any function of the library.
pub type lw_progress = Option<unsafe extern "C" fn(user: *mut c_void, done: usize) -> i32>;

/// How a batch is judged. Make one with `lw_batch_options_init`.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_batch_options {
    /// Set it to `sizeof(lw_batch_options)`.
    pub struct_size: usize,
    /// Over how many threads, 1 to 1024; 0 for 1: the calling thread alone.
    pub threads: i32,
    /// Zero.
    pub reserved: i32,
    /// Is told of the progress; NULL for nobody.
    pub progress: lw_progress,
    /// What it is called with.
    pub user: *mut c_void,
}

// SAFETY: `repr(C)`, `struct_size` first, integers and pointers only.
unsafe impl Plain for lw_column {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        name: std::ptr::null(),
        name_len: 0,
        layout: 0,
        scale: 0,
        data: std::ptr::null(),
        rows: 0,
        validity: std::ptr::null(),
        validity_offset: 0,
        data_offset: 0,
        offsets: std::ptr::null(),
        byte_count: 0,
        words: std::ptr::null(),
        word_count: 0,
    };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and pointers only.
unsafe impl Plain for lw_batch_answers {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        rows: 0,
        outcome: std::ptr::null_mut(),
        reason: std::ptr::null_mut(),
        conductor_ampacity: std::ptr::null_mut(),
        continuous_load_on_conductor: std::ptr::null_mut(),
        continuous_load_on_device: std::ptr::null_mut(),
        breaker_protects_conductor: std::ptr::null_mut(),
        voltage_drop: std::ptr::null_mut(),
        decided_by: std::ptr::null_mut(),
        ampacity_governed_by: std::ptr::null_mut(),
        largest_device_governed_by: std::ptr::null_mut(),
        ampacity_a: std::ptr::null_mut(),
        least_device_a: std::ptr::null_mut(),
        largest_device_a: std::ptr::null_mut(),
        drop_v: std::ptr::null_mut(),
        drop_percent: std::ptr::null_mut(),
    };
}

// SAFETY: `repr(C)`, `struct_size` first; integers, and pointers to data and to a function that may be NULL. A function
// pointer of other bits is the caller's word, as a data pointer is: it is called only where it is not NULL.
unsafe impl Plain for lw_batch_options {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self =
        Self { struct_size: size_of::<Self>(), threads: 0, reserved: 0, progress: None, user: std::ptr::null_mut() };
}

impl lw_batch_options {
    pub(crate) fn threads(&self) -> Result<usize> {
        match usize::try_from(self.threads) {
            Ok(threads @ 0..=1024) => Ok(threads.max(1)),
            _ => {
                let what = format_args!("{} is out of range; write 1 to 1024", self.threads);
                Err(fail(LW_STATUS_BAD_NUMBER, "options.threads", what))
            }
        }
    }
}

/// What of a column is not borrowed as it is: pointers to its texts, never their bytes.
enum Kept<'a> {
    Nothing,
    Words(Vec<Option<&'a str>>),
    Rows(Strings<'a>),
    Joined(Joined<'a>),
}

/// A text a row.
#[derive(Debug)]
struct Strings<'a>(Vec<Option<&'a str>>);

impl loadworthy::batch::Text for Strings<'_> {
    fn rows(&self) -> usize {
        self.0.len()
    }

    fn get(&self, row: usize) -> Option<&str> {
        self.0.get(row).copied().flatten()
    }
}

impl lw_column {
    fn kept<'a>(&self, outputs: &mut Outputs) -> Result<Kept<'a>> {
        if !self.words.is_null() {
            return Ok(Kept::Words(strings(self.words.cast(), self.word_count, "column.words")?));
        }
        Ok(match self.layout {
            LW_LAYOUT_STRINGS => Kept::Rows(Strings(strings(self.data, self.rows, "column.data")?)),
            LW_LAYOUT_JOINED_32 | LW_LAYOUT_JOINED_64 => {
                let count = self.rows.checked_add(1).ok_or_else(|| too_many(self.rows))?;
                let offsets = if self.layout == LW_LAYOUT_JOINED_32 {
                    Integers::I32(input(self.offsets, count, "column.offsets", outputs)?)
                } else {
                    Integers::I64(input(self.offsets, count, "column.offsets", outputs)?)
                };
                let bytes = input(self.data, self.byte_count, "column.data", outputs)?;
                Kept::Joined(Joined { offsets, bytes })
            }
            _ => Kept::Nothing,
        })
    }

    fn data<'a>(&self, kept: &'a Kept<'a>, outputs: &mut Outputs) -> Result<Data<'a>> {
        match kept {
            Kept::Words(words) => Ok(Data::Coded { codes: self.integers(outputs)?, words }),
            Kept::Rows(rows) => Ok(Data::Text(rows)),
            Kept::Joined(joined) => Ok(Data::Text(joined)),
            Kept::Nothing => match self.layout {
                LW_LAYOUT_F64 => Ok(Data::F64(self.values(outputs)?)),
                LW_LAYOUT_F32 => Ok(Data::F32(self.values(outputs)?)),
                LW_LAYOUT_DECIMAL128 => {
                    let scale = i8::try_from(self.scale).ok().filter(|scale| (-100..=100).contains(scale));
                    let scale = scale.ok_or_else(|| {
                        let what = format_args!("{} is out of range; write -100 to 100", self.scale);
                        fail(LW_STATUS_BAD_NUMBER, "column.scale", what)
                    })?;
                    Ok(Data::Decimals { values: self.values(outputs)?, scale })
                }
                LW_LAYOUT_FLAGS => {
                    let bits = bits(self.data, self.data_offset, self.rows, "column.data", outputs)?;
                    Ok(Data::Flags { bits, rows: self.rows })
                }
                _ => Ok(Data::Integers(self.integers(outputs)?)),
            },
        }
    }

    fn integers<'a>(&self, outputs: &mut Outputs) -> Result<Integers<'a>> {
        Ok(match self.layout {
            LW_LAYOUT_I64 => Integers::I64(self.values(outputs)?),
            LW_LAYOUT_I32 => Integers::I32(self.values(outputs)?),
            LW_LAYOUT_I16 => Integers::I16(self.values(outputs)?),
            LW_LAYOUT_I8 => Integers::I8(self.values(outputs)?),
            LW_LAYOUT_U64 => Integers::U64(self.values(outputs)?),
            LW_LAYOUT_U32 => Integers::U32(self.values(outputs)?),
            LW_LAYOUT_U16 => Integers::U16(self.values(outputs)?),
            LW_LAYOUT_U8 => Integers::U8(self.values(outputs)?),
            other => {
                let advice = "write one of the LW_LAYOUT_ constants; with `words`, one of whole numbers";
                return Err(fail(
                    LW_STATUS_BAD_CHOICE,
                    "column.layout",
                    format_args!("{other} does not stand here; {advice}"),
                ));
            }
        })
    }

    fn values<'a, T: Number>(&self, outputs: &mut Outputs) -> Result<&'a [T]> {
        input(self.data, self.rows, "column.data", outputs)
    }

    fn column<'a>(&self, kept: &'a Kept<'a>, outputs: &mut Outputs) -> Result<Column<'a>> {
        let validity = if self.validity.is_null() {
            None
        } else {
            Some(bits(self.validity.cast(), self.validity_offset, self.rows, "column.validity", outputs)?)
        };
        Ok(Column { name: text(self.name, self.name_len, "column.name")?, data: self.data(kept, outputs)?, validity })
    }
}

fn too_many(rows: usize) -> Box<lw_error> {
    fail(LW_STATUS_TOO_LARGE, "column.rows", format_args!("{rows} rows are more than memory can hold"))
}

/// An array that is only read, and that no answer may be written into.
fn input<'a, T: Number>(
    pointer: *const c_void,
    count: usize,
    name: &'static str,
    outputs: &mut Outputs,
) -> Result<&'a [T]> {
    let values = numbers(pointer, count, name)?;
    outputs.keep(values, name)?;
    Ok(values)
}

fn bits<'a>(
    pointer: *const c_void,
    offset: usize,
    rows: usize,
    name: &'static str,
    outputs: &mut Outputs,
) -> Result<Bits<'a>> {
    let end = offset.checked_add(rows).ok_or_else(|| too_many(rows))?;
    Ok(Bits { bytes: input(pointer, end.div_ceil(8), name, outputs)?, offset })
}

impl lw_batch_answers {
    fn answers<'a>(&self, outputs: &mut Outputs) -> Result<Answers<'a>> {
        let rows = self.rows;
        Ok(Answers {
            verdict: outputs.array(self.outcome, rows, "answers.outcome")?,
            reason: outputs.array(self.reason, rows, "answers.reason")?,
            conductor_ampacity: outputs.array(self.conductor_ampacity, rows, "answers.conductor_ampacity")?,
            continuous_load_on_conductor: outputs.array(
                self.continuous_load_on_conductor,
                rows,
                "answers.continuous_load_on_conductor",
            )?,
            continuous_load_on_device: outputs.array(
                self.continuous_load_on_device,
                rows,
                "answers.continuous_load_on_device",
            )?,
            breaker_protects_conductor: outputs.array(
                self.breaker_protects_conductor,
                rows,
                "answers.breaker_protects_conductor",
            )?,
            voltage_drop: outputs.array(self.voltage_drop, rows, "answers.voltage_drop")?,
            decided_by: outputs.array(self.decided_by, rows, "answers.decided_by")?,
            ampacity_governed_by: outputs.array(self.ampacity_governed_by, rows, "answers.ampacity_governed_by")?,
            largest_device_governed_by: outputs.array(
                self.largest_device_governed_by,
                rows,
                "answers.largest_device_governed_by",
            )?,
            ampacity_a: outputs.array(self.ampacity_a, rows, "answers.ampacity_a")?,
            least_device_a: outputs.array(self.least_device_a, rows, "answers.least_device_a")?,
            largest_device_a: outputs.array(self.largest_device_a, rows, "answers.largest_device_a")?,
            drop_v: outputs.array(self.drop_v, rows, "answers.drop_v")?,
            drop_percent: outputs.array(self.drop_percent, rows, "answers.drop_percent")?,
        })
    }
}

/// The numbers of the core as the constants of the header: there holds is 0, here 0 is no outcome.
const OUTCOMES: [u8; 4] = [LW_OUTCOME_HOLDS as u8, 2, 3, 0];

fn renumber(answers: &mut Answers<'_>, judged: bool) {
    let outcomes = [
        &mut answers.verdict,
        &mut answers.conductor_ampacity,
        &mut answers.continuous_load_on_conductor,
        &mut answers.continuous_load_on_device,
        &mut answers.breaker_protects_conductor,
        &mut answers.voltage_drop,
    ];
    for number in outcomes.into_iter().flatten().flat_map(|column| column.iter_mut()) {
        *number = if judged { OUTCOMES.get(usize::from(*number)).copied().unwrap_or(0) } else { 0 };
    }
    // Of the ampacity the numbers are the same; the governors of a device follow them in the header.
    let step = u8::try_from(LW_GOVERNOR_AMPACITY - 1).unwrap_or(0);
    for number in answers.largest_device_governed_by.iter_mut().flat_map(|column| column.iter_mut()) {
        *number = if *number == 0 { 0 } else { *number + step };
    }
}

/// The same arrays once more.
fn again<'a>(answers: &'a mut Answers<'_>) -> Answers<'a> {
    Answers {
        verdict: answers.verdict.as_deref_mut(),
        reason: answers.reason.as_deref_mut(),
        conductor_ampacity: answers.conductor_ampacity.as_deref_mut(),
        continuous_load_on_conductor: answers.continuous_load_on_conductor.as_deref_mut(),
        continuous_load_on_device: answers.continuous_load_on_device.as_deref_mut(),
        breaker_protects_conductor: answers.breaker_protects_conductor.as_deref_mut(),
        voltage_drop: answers.voltage_drop.as_deref_mut(),
        decided_by: answers.decided_by.as_deref_mut(),
        ampacity_governed_by: answers.ampacity_governed_by.as_deref_mut(),
        largest_device_governed_by: answers.largest_device_governed_by.as_deref_mut(),
        ampacity_a: answers.ampacity_a.as_deref_mut(),
        least_device_a: answers.least_device_a.as_deref_mut(),
        largest_device_a: answers.largest_device_a.as_deref_mut(),
        drop_v: answers.drop_v.as_deref_mut(),
        drop_percent: answers.drop_percent.as_deref_mut(),
    }
}

/// Judges circuits, a row each, where they lie: the columns are not copied, and the answers are written to the caller's
/// arrays. A row that cannot be judged says why in `reason` and never stops the others.
///
/// Columns that are unknown, missing or of a wrong type give `LW_STATUS_COLUMNS`, all at once in the message. Where the
/// progress function stops it, the status is `LW_STATUS_STOPPED` and every outcome is 0. `options` may be NULL. Several
/// threads may judge at once, into answers of their own.
///
/// ```c
/// double load[2] = {16, 16.1}, other[2] = {0, 0}, device[2] = {20, 20};
/// uint8_t codes[2] = {0, 0}, outcome[2];
/// lw_str copper = {"copper", 6};
/// lw_column material = lw_column_init();
/// material.name = "material";
/// material.name_len = 8;
/// material.layout = LW_LAYOUT_U8;
/// material.data = codes;
/// material.rows = 2;
/// material.words = &copper;
/// material.word_count = 1;
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_batch_judge(
    code: *const lw_code,
    columns: *const lw_column,
    column_count: usize,
    answers: *const lw_batch_answers,
    options: *const lw_batch_options,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let code = handle(code, "code")?.nec.code();
        let columns = elements(columns, column_count, LW_MOST_COLUMNS as usize, "columns")?;
        let answers = plain(answers, "answers")?;
        let options = if options.is_null() { lw_batch_options::UNSTATED } else { plain(options, "options")? };
        let threads = options.threads()?;
        // Before any array is touched: a count that is wrong in one place is seen here.
        if let Some(other) = columns.iter().find(|column| column.rows != answers.rows) {
            let what =
                format_args!("a column has {} rows, the answers have {}; all have the same", other.rows, answers.rows);
            return Err(fail(LW_STATUS_COLUMNS, "columns", what));
        }
        let mut outputs = Outputs::default();
        let kept = columns.iter().map(|column| column.kept(&mut outputs)).collect::<Result<Vec<_>>>()?;
        let read = columns
            .iter()
            .zip(&kept)
            .map(|(column, kept)| column.column(kept, &mut outputs))
            .collect::<Result<Vec<_>>>()?;
        let batch = Batch::new(code, &read)
            .map_err(|problems| fail(LW_STATUS_COLUMNS, "columns", format_args!("{problems}")))?;
        let mut answers = answers.answers(&mut outputs)?;
        let judged = catch_unwind(AssertUnwindSafe(|| {
            batch.judge(again(&mut answers), threads, &mut |done| go_on(&options, done))
        }));
        // Whatever happened: no number of the core stays in an array, where it would mean something else.
        renumber(&mut answers, matches!(judged, Ok(Ok(()))));
        judged.unwrap_or_else(|payload| resume_unwind(payload)).map_err(|error| {
            let status =
                if matches!(error, JudgeError::Stopped { .. }) { LW_STATUS_STOPPED } else { LW_STATUS_COLUMNS };
            fail(status, "answers", format_args!("{error}"))
        })
    })
}

/// What the caller's function says to the progress; without one, to go on.
pub(crate) fn go_on(options: &lw_batch_options, done: usize) -> ControlFlow<()> {
    match options.progress {
        None => ControlFlow::Continue(()),
        Some(progress) => {
            if crate::border::call(progress, options.user, done) == 0 {
                ControlFlow::Continue(())
            } else {
                ControlFlow::Break(())
            }
        }
    }
}

/// The texts of the reasons by their numbers, made once.
static REASONS: LazyLock<Vec<(u16, Text)>> =
    LazyLock::new(|| Reason::all().map(|reason| (reason.number(), Text::new(reason.to_string()))).collect());

/// Why a row could not be judged, in words. The text lives as long as the library is loaded.
///
/// Any thread may call it at any time.
///
/// ```c
/// lw_str words;
/// lw_reason_text(reason[0], &words, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_reason_text(
    reason: u16,
    text_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(text_out, "text_out", lw_str::NONE)?;
        let found = REASONS.iter().find(|(number, _)| *number == reason);
        let (_, words) = found
            .ok_or_else(|| fail(LW_STATUS_BAD_CHOICE, "reason", format_args!("{reason} is no reason of a batch")))?;
        out.write(words.as_str());
        Ok(())
    })
}
