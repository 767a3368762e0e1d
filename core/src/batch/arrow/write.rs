//! Answers as arrays of Arrow.

use std::sync::Arc;

use arrow_array::{ArrayRef, Float64Array, Int8Array, StringArray, UInt16Array};
use arrow_buffer::{Buffer, NullBuffer, ScalarBuffer};
use arrow_schema::{ArrowError, DataType, Field};

use super::columns::Columns;
use super::keys::Finished;
use super::{Joins, Wanted};
use crate::batch::{AMPACITY_GOVERNORS, Check, DEVICE_GOVERNORS, Reason, Verdict};

/// The columns of answers, in order.
pub(super) fn fields(wanted: Wanted) -> Vec<Field> {
    let words = |name| Field::new(name, DataType::Dictionary(Box::new(DataType::Int8), Box::new(DataType::Utf8)), true);
    let figure = |name| Field::new(name, DataType::Float64, true);
    let reasons = DataType::Dictionary(Box::new(DataType::UInt16), Box::new(DataType::Utf8));
    let mut fields = vec![
        words("verdict"),
        words("decided_by"),
        Field::new("status", DataType::UInt16, false),
        Field::new("reason", reasons, true),
        words("conductor_ampacity"),
        words("continuous_load_on_conductor"),
        words("continuous_load_on_device"),
        words("breaker_protects_conductor"),
        words("voltage_drop"),
    ];
    if wanted == Wanted::Everything {
        fields.extend([
            figure("ampacity_a"),
            words("ampacity_governed_by"),
            figure("least_device_a"),
            figure("largest_device_a"),
            words("largest_device_governed_by"),
            figure("drop_v"),
            figure("drop_percent"),
        ]);
    }
    fields
}

/// The answers in the order of [`fields`], as `finished` has left them: their buffers as they are, without a copy.
pub(super) fn arrays(
    rows: usize,
    answers: Columns<Buffer>,
    finished: Finished,
    wanted: Wanted,
    joins: Joins,
) -> Result<Vec<ArrayRef>, ArrowError> {
    let (there, met) = finished.together(rows);
    let [verdict, first, second, third, fourth, fifth] = pairs(answers.verdicts, there.verdicts);
    let [decided_by, ampacity_governed_by, device_governed_by] = pairs(answers.numbers, there.numbers);
    let [ampacity, least, largest, drop, percent] = pairs(answers.figures, there.figures);
    let verdicts = verdict_words();
    let of_verdicts = |of| (joins.words)(keys(of, rows)?, &verdicts);
    let numbered = |of, words: &[&'static str]| (joins.words)(keys(of, rows)?, &texts(words));
    let numbers = ScalarBuffer::new(answers.reason, 0, rows);
    let (reasons, texts_of_reasons) = reasons(&numbers, &met, there.reason)?;
    let mut arrays = vec![
        of_verdicts(verdict)?,
        numbered(decided_by, &Check::ALL.map(Check::slug))?,
        Arc::new(UInt16Array::new(numbers, None)),
        (joins.reasons)(reasons, &texts_of_reasons)?,
        of_verdicts(first)?,
        of_verdicts(second)?,
        of_verdicts(third)?,
        of_verdicts(fourth)?,
        of_verdicts(fifth)?,
    ];
    if wanted == Wanted::Everything {
        let ([_, of_ampacity @ ..], [_, of_device @ ..]) = (AMPACITY_GOVERNORS, DEVICE_GOVERNORS);
        arrays.extend([
            figures(ampacity, rows)?,
            numbered(ampacity_governed_by, &of_ampacity)?,
            figures(least, rows)?,
            figures(largest, rows)?,
            numbered(device_governed_by, &of_device)?,
            figures(drop, rows)?,
            figures(percent, rows)?,
        ]);
    }
    Ok(arrays)
}

/// The values of a column, and where they are.
type Pair = (Buffer, Option<NullBuffer>);

fn pairs<const N: usize>(values: [Buffer; N], there: [Option<NullBuffer>; N]) -> [Pair; N] {
    let mut there = there.into_iter();
    values.map(|values| (values, there.next().flatten()))
}

fn verdict_words() -> ArrayRef {
    texts(&[Verdict::Holds, Verdict::Fails, Verdict::CannotTell].map(Verdict::words))
}

fn texts(words: &[&'static str]) -> ArrayRef {
    Arc::new(StringArray::from(words.to_vec()))
}

fn keys((numbers, there): Pair, rows: usize) -> Result<Int8Array, ArrowError> {
    Int8Array::try_new(ScalarBuffer::new(numbers, 0, rows), there)
}

/// Only the reasons that were met are in the dictionary.
fn reasons(numbers: &[u16], met: &[u16], there: Option<NullBuffer>) -> Result<(UInt16Array, ArrayRef), ArrowError> {
    let text = |number: &u16| Reason::of_number(*number).map(|reason| reason.to_string());
    let texts: StringArray = met.iter().map(text).collect();
    let mut places = vec![0; met.last().map_or(0, |last| usize::from(*last) + 1)];
    for (place, number) in (0..).zip(met) {
        if let Some(of) = places.get_mut(usize::from(*number)) {
            *of = place;
        }
    }
    // Where none was met nothing is written: the memory of nothing but zeros is not touched.
    let mut keys = vec![0; numbers.len()];
    for (keys, numbers) in keys.chunks_mut(64).zip(numbers.chunks(64)).filter(|_| !met.is_empty()) {
        if numbers.iter().fold(0, |any, number| any | number) != 0 {
            for (key, number) in keys.iter_mut().zip(numbers) {
                *key = places.get(usize::from(*number)).copied().unwrap_or(0);
            }
        }
    }
    Ok((UInt16Array::try_new(ScalarBuffer::from(keys), there)?, Arc::new(texts)))
}

fn figures((values, there): Pair, rows: usize) -> Result<ArrayRef, ArrowError> {
    Ok(Arc::new(Float64Array::try_new(ScalarBuffer::new(values, 0, rows), there)?))
}
