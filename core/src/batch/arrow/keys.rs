//! What Arrow needs of the answers, found chunk by chunk while they are at hand: bitmaps of what is there, numbers of words as
//! keys into them.

use std::collections::BTreeSet;
use std::iter::Sum;
use std::sync::Mutex;

use arrow_buffer::{BooleanBuffer, Buffer, NullBuffer};

use crate::batch::{Answers, Verdict};

/// What was found of all chunks.
#[derive(Default)]
pub(super) struct Finished {
    chunks: Mutex<Vec<Chunk>>,
}

struct Chunk {
    start: usize,
    there: There<Vec<u64>>,
    /// The numbers of the reasons that were met.
    reasons: BTreeSet<u16>,
}

/// One of something for each column that may have gaps.
#[derive(Default)]
pub(super) struct There<T> {
    pub(super) verdicts: [T; 6],
    pub(super) numbers: [T; 3],
    pub(super) figures: [T; 5],
    pub(super) reason: T,
}

impl Finished {
    /// Turns the numbers of words of a chunk into keys, and notes where something is.
    pub(super) fn chunk(&self, start: usize, answers: &mut Answers<'_>) {
        let verdicts = [
            &mut answers.verdict,
            &mut answers.conductor_ampacity,
            &mut answers.continuous_load_on_conductor,
            &mut answers.continuous_load_on_device,
            &mut answers.breaker_protects_conductor,
            &mut answers.voltage_drop,
        ];
        let numbers =
            [&mut answers.decided_by, &mut answers.ampacity_governed_by, &mut answers.largest_device_governed_by];
        let figures = [
            &answers.ampacity_a,
            &answers.least_device_a,
            &answers.largest_device_a,
            &answers.drop_v,
            &answers.drop_percent,
        ];
        let reasons = answers.reason.as_deref().unwrap_or_default();
        let there = There {
            verdicts: verdicts.map(|column| keys(column, 0, Verdict::NotAsked as u8)),
            numbers: numbers.map(|column| keys(column, 1, 0)),
            figures: figures
                .map(|column| bits::<_, u64>(column.as_deref().unwrap_or_default(), |value| !value.is_nan())),
            reason: bits::<_, u16>(reasons, |reason| *reason != 0),
        };
        let mut met = BTreeSet::new();
        for some in reasons.chunks(64).filter(|some| some.iter().any(|reason| *reason != 0)) {
            met.extend(some.iter().filter(|reason| **reason != 0));
        }
        // Nothing panics while it is held.
        let mut chunks = self.chunks.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        chunks.push(Chunk { start, there, reasons: met });
    }

    /// The bitmaps of so many rows, `None` where all is there, and the numbers of the reasons that were met.
    pub(super) fn together(self, rows: usize) -> (There<Option<NullBuffer>>, Vec<u16>) {
        let mut chunks = self.chunks.into_inner().unwrap_or_else(std::sync::PoisonError::into_inner);
        chunks.sort_unstable_by_key(|chunk| chunk.start);
        let all = |of: &dyn Fn(&There<Vec<u64>>) -> &Vec<u64>| {
            let words: Vec<u64> = chunks.iter().flat_map(|chunk| of(&chunk.there)).copied().collect();
            let some = words.iter().any(|word| *word != u64::MAX);
            some.then(|| NullBuffer::new(BooleanBuffer::new(Buffer::from_vec(words), 0, rows)))
        };
        let there = There {
            verdicts: [0, 1, 2, 3, 4, 5].map(|at| all(&|there| there.verdicts.get(at).unwrap_or(&NONE))),
            numbers: [0, 1, 2].map(|at| all(&|there| there.numbers.get(at).unwrap_or(&NONE))),
            figures: [0, 1, 2, 3, 4].map(|at| all(&|there| there.figures.get(at).unwrap_or(&NONE))),
            reason: all(&|there| &there.reason),
        };
        let reasons: BTreeSet<u16> = chunks.iter().flat_map(|chunk| &chunk.reasons).copied().collect();
        (there, reasons.into_iter().collect())
    }
}

static NONE: Vec<u64> = Vec::new();

/// Turns numbers into keys into words of which the first has the number `first`, and finds where they are not `none`.
fn keys(column: &mut Option<&mut [u8]>, first: u8, none: u8) -> Vec<u64> {
    let numbers = column.as_deref_mut().unwrap_or_default();
    let there = bits::<_, u8>(numbers, |number| *number != none);
    for number in numbers {
        *number = if *number == none { 0 } else { number.wrapping_sub(first) };
    }
    there
}

/// A bit for each value, set where it is there. Of 64 mostly all are, or none is, which is seen at a glance: at the values
/// of several rows at once, if the counter is as wide as they are.
fn bits<T, Counter: From<bool> + Into<u64> + Sum>(values: &[T], there: impl Fn(&T) -> bool) -> Vec<u64> {
    let of = |values: &[T]| {
        let count: u64 = values.iter().map(|value| Counter::from(there(value))).sum::<Counter>().into();
        match usize::try_from(count) {
            Ok(0) => 0,
            Ok(count) if count == values.len() => u64::MAX,
            _ => values.iter().rev().fold(0, |bits, value| bits << 1 | u64::from(there(value))).to_le(),
        }
    };
    values.chunks(64).map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bitmap_has_a_bit_for_every_value() {
        let sets: [fn(usize) -> bool; 4] = [|_| true, |_| false, |row| row % 3 == 0, |row| row == 70];
        for rows in [0, 1, 63, 64, 65, 130, 200] {
            for set in sets {
                let values: Vec<bool> = (0..rows).map(set).collect();
                let found = bits::<_, u8>(&values, |value| *value);
                let found = BooleanBuffer::new(Buffer::from_vec(found), 0, rows);
                assert_eq!(found.iter().collect::<Vec<_>>(), values, "{rows}");
            }
        }
    }

    #[test]
    fn chunks_come_together_in_order_whoever_was_first() {
        let finished = Finished::default();
        for (start, reason) in [(64, 7), (0, 0)] {
            let (mut reasons, mut verdict) = ([reason; 64], [0_u8, 3].repeat(32));
            let mut answers = Answers { reason: Some(&mut reasons), verdict: Some(&mut verdict), ..Answers::default() };
            finished.chunk(start, &mut answers);
            assert_eq!(verdict, [0; 64]);
        }
        let (there, met) = finished.together(128);
        assert_eq!(met, [7]);
        let is: Vec<bool> = there.reason.map(|found| found.iter().collect()).unwrap_or_default();
        assert_eq!(is, [[false; 64], [true; 64]].concat());
        assert_eq!(there.verdicts[0].as_ref().map(NullBuffer::null_count), Some(64));
        assert!(there.verdicts[1].is_none());
    }
}
