//! What Arrow needs of the answers, found block by block while they are at hand: bitmaps of what is there, numbers of words as
//! keys into them.

use std::collections::BTreeSet;
use std::iter::Sum;
use std::sync::Mutex;

use arrow_buffer::{BooleanBuffer, Buffer, NullBuffer};

use super::columns::Columns;
use crate::batch::rows::BLOCK;
use crate::batch::wide::widest;
use crate::batch::{Answers, Verdict};

/// What was found of all blocks.
#[derive(Default)]
pub(super) struct Finished {
    blocks: Mutex<Vec<Block>>,
}

struct Block {
    start: usize,
    there: Columns<Words>,
    /// The numbers of the reasons that were met.
    reasons: BTreeSet<u16>,
}

/// A bit for each row of a block, and for those that a last block has not.
type Words = [u64; BLOCK / 64];
const ALL: Words = [u64::MAX; BLOCK / 64];

impl Finished {
    /// Turns the numbers of words of a block into keys, and notes where something is.
    pub(super) fn block(&self, start: usize, answers: &mut Answers<'_>) {
        let verdicts = [
            &mut answers.verdict,
            &mut answers.conductor_ampacity,
            &mut answers.continuous_load_on_conductor,
            &mut answers.continuous_load_on_device,
            &mut answers.breaker_protects_conductor,
            &mut answers.voltage_drop,
        ];
        let of_words =
            [&mut answers.decided_by, &mut answers.ampacity_governed_by, &mut answers.largest_device_governed_by];
        let figures = [
            &answers.ampacity_a,
            &answers.least_device_a,
            &answers.largest_device_a,
            &answers.drop_v,
            &answers.drop_percent,
        ];
        let reasons = answers.reason.as_deref().unwrap_or_default();
        let there = Columns {
            verdicts: verdicts.map(|column| widest!(keys(column, 0, Verdict::NotAsked as u8))),
            numbers: of_words.map(|column| widest!(keys(column, 1, 0))),
            figures: figures.map(|column| widest!(numbers(column.as_deref().unwrap_or_default()))),
            reason: widest!(words(reasons.chunks(64), |some| bits::<_, u16>(some, |reason| *reason != 0))),
        };
        let mut met = BTreeSet::new();
        for (_, some) in there.reason.iter().zip(reasons.chunks(64)).filter(|(bits, _)| **bits != 0) {
            met.extend(some.iter().filter(|reason| **reason != 0));
        }
        // Nothing panics while it is held.
        let mut blocks = self.blocks.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        blocks.push(Block { start, there, reasons: met });
    }

    /// The bitmaps of so many rows, `None` where all is there, and the numbers of the reasons that were met.
    pub(super) fn together(self, rows: usize) -> (Columns<Option<NullBuffer>>, Vec<u16>) {
        let mut blocks = self.blocks.into_inner().unwrap_or_else(std::sync::PoisonError::into_inner);
        blocks.sort_unstable_by_key(|block| block.start);
        let all = |of: &dyn Fn(&Columns<Words>) -> &Words| {
            let some = blocks.iter().any(|block| *of(&block.there) != ALL);
            let words = || blocks.iter().flat_map(|block| of(&block.there)).copied().collect();
            some.then(|| NullBuffer::new(BooleanBuffer::new(Buffer::from_vec::<u64>(words()), 0, rows)))
        };
        let there = Columns {
            verdicts: [0, 1, 2, 3, 4, 5].map(|at| all(&|there| there.verdicts.get(at).unwrap_or(&ALL))),
            numbers: [0, 1, 2].map(|at| all(&|there| there.numbers.get(at).unwrap_or(&ALL))),
            figures: [0, 1, 2, 3, 4].map(|at| all(&|there| there.figures.get(at).unwrap_or(&ALL))),
            reason: all(&|there| &there.reason),
        };
        let reasons: BTreeSet<u16> = blocks.iter().flat_map(|block| &block.reasons).copied().collect();
        (there, reasons.into_iter().collect())
    }
}

/// Turns numbers into keys into words of which the first has the number `first`, and finds where they are not `none`.
#[inline(always)]
fn keys(column: &mut Option<&mut [u8]>, first: u8, none: u8) -> Words {
    let column = column.as_deref_mut().unwrap_or_default();
    words(column.chunks_mut(64), |numbers| {
        let there = bits::<_, u8>(numbers, |number| *number != none);
        if there != u64::MAX || first != 0 {
            for number in numbers {
                *number = if *number == none { 0 } else { number.wrapping_sub(first) };
            }
        }
        there
    })
}

/// Finds where figures are numbers. Of 64 mostly all are: then their sum is.
#[inline(always)]
fn numbers(column: &[f64]) -> Words {
    let mut words = ALL;
    for (word, values) in words.iter_mut().zip(column.chunks(64)) {
        *word = some_numbers(values);
    }
    words
}

#[inline(always)]
fn some_numbers(values: &[f64]) -> u64 {
    let (eights, rest) = values.as_chunks::<8>();
    let mut sums = [0.0; 8];
    for eight in eights {
        for (sum, value) in sums.iter_mut().zip(eight) {
            *sum += value;
        }
    }
    let all = rest.is_empty() && !sums.iter().sum::<f64>().is_nan();
    if all { u64::MAX } else { bits::<_, u64>(values, |value| !value.is_nan()) }
}

#[inline(always)]
fn words<T>(of: impl Iterator<Item = T>, each: impl Fn(T) -> u64) -> Words {
    let mut words = ALL;
    for (word, values) in words.iter_mut().zip(of) {
        *word = each(values);
    }
    words
}

/// A bit for each of up to 64 values, set where it is there. Mostly all are, or none is, which is seen at a glance: at the
/// values of several rows at once, if the counter is as wide as they are.
#[inline(always)]
fn bits<T, Counter: From<bool> + Into<u64> + Sum>(values: &[T], there: impl Fn(&T) -> bool) -> u64 {
    let count: u64 = values.iter().map(|value| Counter::from(there(value))).sum::<Counter>().into();
    match usize::try_from(count) {
        Ok(0) => 0,
        Ok(count) if count == values.len() => u64::MAX,
        _ => {
            let mut bytes = [0; 64];
            bytes.iter_mut().zip(values).for_each(|(byte, value)| *byte = u8::from(there(value)));
            packed(&bytes).to_le()
        }
    }
}

/// Bytes of 0 or 1 as bits. Of eight, this product has each at its place in the topmost byte, and no carry.
#[inline(always)]
fn packed(bytes: &[u8; 64]) -> u64 {
    let (eights, _) = bytes.as_chunks::<8>();
    let bits = |eight: &[u8; 8]| u64::from_le_bytes(*eight).wrapping_mul(0x0102_0408_1020_4080) >> 56;
    eights.iter().rev().fold(0, |all, eight| all << 8 | bits(eight))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bitmap_has_a_bit_for_every_value() {
        let sets: [fn(usize) -> bool; 4] = [|_| true, |_| false, |row| row % 3 == 0, |row| row == 70];
        for rows in [0, 1, 63, 64, 65, 130, 200, BLOCK] {
            for set in sets {
                let values: Vec<bool> = (0..rows).map(set).collect();
                let figures: Vec<f64> = values.iter().map(|value| if *value { 7.5 } else { f64::NAN }).collect();
                for found in [words(values.chunks(64), |some| bits::<_, u8>(some, |value| *value)), numbers(&figures)] {
                    let found = BooleanBuffer::new(Buffer::from_vec(found.to_vec()), 0, rows);
                    assert_eq!(found.iter().collect::<Vec<_>>(), values, "{rows}");
                }
            }
        }
    }

    #[test]
    fn numbers_of_words_become_keys() {
        for (first, none, numbers) in [(0, 3, [0_u8, 1, 2, 3]), (1, 0, [1, 2, 3, 0])] {
            for rows in [2, 4, 100, BLOCK] {
                let mut column: Vec<u8> = numbers.into_iter().cycle().take(rows).collect();
                let there = keys(&mut Some(&mut column), first, none);
                let expected: Vec<u8> = [0, 1, 2, 0].into_iter().cycle().take(rows).collect();
                assert_eq!(column, expected);
                let bits = BooleanBuffer::new(Buffer::from_vec(there.to_vec()), 0, rows);
                assert_eq!(bits.iter().collect::<Vec<_>>(), (0..rows).map(|row| row % 4 != 3).collect::<Vec<_>>());
            }
        }
    }

    #[test]
    fn blocks_come_together_in_order_whoever_was_first() {
        let finished = Finished::default();
        for (start, rows, reason) in [(BLOCK, 70, 7), (0, BLOCK, 0)] {
            let (mut reasons, mut verdict) = (vec![reason; rows], [0_u8, 3].repeat(rows / 2));
            let mut answers = Answers { reason: Some(&mut reasons), verdict: Some(&mut verdict), ..Answers::default() };
            finished.block(start, &mut answers);
            assert_eq!(verdict, vec![0; rows]);
        }
        let (there, met) = finished.together(BLOCK + 70);
        assert_eq!(met, [7]);
        let is: Vec<bool> = there.reason.map(|found| found.iter().collect()).unwrap_or_default();
        assert_eq!(is, [vec![false; BLOCK], vec![true; 70]].concat());
        assert_eq!(there.verdicts[0].as_ref().map(NullBuffer::null_count), Some(BLOCK / 2 + 35));
        assert!(there.verdicts[1].is_none());
    }
}
