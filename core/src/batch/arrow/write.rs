//! Answers as arrays of Arrow.

use std::sync::Arc;

use arrow_array::{ArrayRef, Float64Array, Int8Array, StringArray, UInt16Array};
use arrow_buffer::{Buffer, NullBuffer, ScalarBuffer};
use arrow_schema::{ArrowError, DataType, Field};

use super::keys::Finished;
use super::{Joins, Wanted};
use crate::batch::{AMPACITY_GOVERNORS, Check, DEVICE_GOVERNORS, OwnedAnswers, Reason, Verdict};

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

/// The answers in the order of [`fields`], as `finished` has left them. Their buffers are taken as they are, without a copy.
pub(super) fn arrays(
    answers: OwnedAnswers,
    finished: Finished,
    wanted: Wanted,
    joins: Joins,
) -> Result<Vec<ArrayRef>, ArrowError> {
    let (there, met) = finished.together(answers.reason.len());
    let [verdict, first, second, third, fourth, fifth] = there.verdicts;
    let [decided_by, ampacity_governed_by, device_governed_by] = there.numbers;
    let [ampacity, least, largest, drop, percent] = there.figures;
    let verdicts = verdict_words();
    let of_verdicts = |of, there| (joins.words)(keys(of, there)?, &verdicts);
    let numbered = |of, there, words: &[&'static str]| (joins.words)(keys(of, there)?, &texts(words));
    let (reasons, texts_of_reasons) = reasons(&answers.reason, &met, there.reason)?;
    let mut arrays = vec![
        of_verdicts(answers.verdict, verdict)?,
        numbered(answers.decided_by, decided_by, &Check::ALL.map(Check::slug))?,
        Arc::new(UInt16Array::from(answers.reason)),
        (joins.reasons)(reasons, &texts_of_reasons)?,
        of_verdicts(answers.conductor_ampacity, first)?,
        of_verdicts(answers.continuous_load_on_conductor, second)?,
        of_verdicts(answers.continuous_load_on_device, third)?,
        of_verdicts(answers.breaker_protects_conductor, fourth)?,
        of_verdicts(answers.voltage_drop, fifth)?,
    ];
    if wanted == Wanted::Everything {
        let ([_, of_ampacity @ ..], [_, of_device @ ..]) = (AMPACITY_GOVERNORS, DEVICE_GOVERNORS);
        arrays.extend([
            figures(answers.ampacity_a, ampacity)?,
            numbered(answers.ampacity_governed_by, ampacity_governed_by, &of_ampacity)?,
            figures(answers.least_device_a, least)?,
            figures(answers.largest_device_a, largest)?,
            numbered(answers.largest_device_governed_by, device_governed_by, &of_device)?,
            figures(answers.drop_v, drop)?,
            figures(answers.drop_percent, percent)?,
        ]);
    }
    Ok(arrays)
}

fn verdict_words() -> ArrayRef {
    texts(&[Verdict::Holds, Verdict::Fails, Verdict::CannotTell].map(Verdict::words))
}

fn texts(words: &[&'static str]) -> ArrayRef {
    Arc::new(StringArray::from(words.to_vec()))
}

fn keys(numbers: Vec<u8>, there: Option<NullBuffer>) -> Result<Int8Array, ArrowError> {
    let rows = numbers.len();
    Int8Array::try_new(ScalarBuffer::new(Buffer::from_vec(numbers), 0, rows), there)
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

fn figures(values: Vec<f64>, there: Option<NullBuffer>) -> Result<ArrayRef, ArrowError> {
    Ok(Arc::new(Float64Array::try_new(ScalarBuffer::from(values), there)?))
}
