//! Answers as arrays of Arrow.

use std::sync::Arc;

use arrow_array::types::{Int8Type, UInt16Type};
use arrow_array::{ArrayRef, DictionaryArray, Float64Array, Int8Array, StringArray, UInt16Array};
use arrow_buffer::{BooleanBuffer, Buffer, NullBuffer, ScalarBuffer};
use arrow_schema::{ArrowError, DataType, Field};

use super::Wanted;
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

/// The answers in the order of [`fields`]. Figures are taken as they are, without a copy.
pub(super) fn arrays(answers: OwnedAnswers, wanted: Wanted) -> Result<Vec<ArrayRef>, ArrowError> {
    let verdicts = verdict_words();
    let verdict = |of: Vec<u8>| words(of, 0, |verdict| *verdict != Verdict::NotAsked as u8, &verdicts);
    let checks: ArrayRef = Arc::new(StringArray::from(Check::ALL.map(Check::slug).to_vec()));
    let governors = |names: [&'static str; 4]| -> ArrayRef {
        Arc::new(StringArray::from(names.into_iter().filter(|name| !name.is_empty()).collect::<Vec<_>>()))
    };
    let numbered = |of: Vec<u8>, of_words: &ArrayRef| words(of, 1, |number| *number != 0, of_words);
    let texts = reasons(&answers.reason)?;
    let mut arrays = vec![
        verdict(answers.verdict)?,
        numbered(answers.decided_by, &checks)?,
        Arc::new(UInt16Array::from(answers.reason)),
        texts,
        verdict(answers.conductor_ampacity)?,
        verdict(answers.continuous_load_on_conductor)?,
        verdict(answers.continuous_load_on_device)?,
        verdict(answers.breaker_protects_conductor)?,
        verdict(answers.voltage_drop)?,
    ];
    if wanted == Wanted::Everything {
        arrays.extend([
            figures(answers.ampacity_a)?,
            numbered(answers.ampacity_governed_by, &governors(AMPACITY_GOVERNORS))?,
            figures(answers.least_device_a)?,
            figures(answers.largest_device_a)?,
            numbered(answers.largest_device_governed_by, &governors(DEVICE_GOVERNORS))?,
            figures(answers.drop_v)?,
            figures(answers.drop_percent)?,
        ]);
    }
    Ok(arrays)
}

fn verdict_words() -> ArrayRef {
    let judged = [Verdict::Holds, Verdict::Fails, Verdict::CannotTell];
    Arc::new(StringArray::from(judged.map(Verdict::words).to_vec()))
}

/// Numbers as keys into words of which the first has the number `first`; null where a number is not `there`. The keys
/// take the room of the numbers.
fn words(
    mut numbers: Vec<u8>,
    first: u8,
    there: impl Fn(&u8) -> bool + Copy,
    of: &ArrayRef,
) -> Result<ArrayRef, ArrowError> {
    let (nulls, rows) = (valid(&numbers, there), numbers.len());
    for number in &mut numbers {
        *number = if there(number) { number.wrapping_sub(first) } else { 0 };
    }
    let keys = Int8Array::try_new(ScalarBuffer::new(Buffer::from_vec(numbers), 0, rows), nulls)?;
    Ok(Arc::new(DictionaryArray::<Int8Type>::try_new(keys, of.clone())?))
}

/// The bitmap of what is there; none where all is. Of 64 rows mostly all are, or none is, which is seen at a glance.
fn valid<T>(values: &[T], there: impl Fn(&T) -> bool) -> Option<NullBuffer> {
    let bits = |values: &[T]| {
        let (all, any) = values.iter().map(&there).fold((true, false), |(all, any), is| (all & is, any | is));
        match (all, any) {
            (true, _) => u64::MAX,
            (_, false) => 0,
            _ => values.iter().rev().fold(0, |bits, value| bits << 1 | u64::from(there(value))).to_le(),
        }
    };
    let words: Vec<u64> = values.chunks(64).map(bits).collect();
    let some = words.iter().any(|word| *word != u64::MAX);
    some.then(|| NullBuffer::new(BooleanBuffer::new(Buffer::from_vec(words), 0, values.len())))
}

/// Only the reasons that were met are in the dictionary.
fn reasons(numbers: &[u16]) -> Result<ArrayRef, ArrowError> {
    let mut met: Vec<u16> = numbers.iter().copied().filter(|number| *number != 0).collect();
    met.sort_unstable();
    met.dedup();
    let texts: StringArray =
        met.iter().map(|number| Reason::of_number(*number).map(|reason| reason.to_string())).collect();
    let place = |number: &u16| met.binary_search(number).ok().and_then(|at| u16::try_from(at).ok()).unwrap_or(0);
    let keys: Vec<u16> = numbers.iter().map(|number| if *number == 0 { 0 } else { place(number) }).collect();
    let keys = UInt16Array::try_new(ScalarBuffer::from(keys), valid(numbers, |number| *number != 0))?;
    Ok(Arc::new(DictionaryArray::<UInt16Type>::try_new(keys, Arc::new(texts))?))
}

fn figures(values: Vec<f64>) -> Result<ArrayRef, ArrowError> {
    let nulls = valid(&values, |value| !value.is_nan());
    Ok(Arc::new(Float64Array::try_new(ScalarBuffer::from(values), nulls)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bitmap_has_a_bit_for_every_row() {
        let sets: [fn(usize) -> bool; 4] = [|_| true, |_| false, |row| row % 3 == 0, |row| row == 70];
        for rows in [0, 1, 63, 64, 65, 130, 200] {
            for set in sets {
                let values: Vec<bool> = (0..rows).map(set).collect();
                let found = valid(&values, |value| *value);
                assert_eq!(found.is_none(), values.iter().all(|value| *value));
                let bits = found.map_or(values.clone(), |found| found.iter().collect());
                assert_eq!(bits, values, "{rows}");
            }
        }
    }
}
