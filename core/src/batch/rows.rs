//! The rows of a block as whole numbers, read a column at a time.

use super::Batch;
use super::field::Field;
use super::number;
use super::words::{self, Seen};

/// Rows that are judged together: so few that all that is known of them stays in the nearest cache.
pub(super) const BLOCK: usize = 128;

/// The numbers of a block, in counts of the smallest units, and its words.
pub(super) struct Rows {
    pub(super) words: [u64; BLOCK],
    ambient: [i64; BLOCK],
    current_carrying: [i64; BLOCK],
    continuous: [i64; BLOCK],
    other: [i64; BLOCK],
    device: [i64; BLOCK],
    pub(super) voltage: [i64; BLOCK],
    length: [i64; BLOCK],
    drop_limit: [i64; BLOCK],
}

/// One of them.
#[derive(Clone, Copy)]
pub(super) struct Row {
    pub(super) words: u64,
    pub(super) ambient: i64,
    pub(super) current_carrying: i64,
    pub(super) continuous: i64,
    pub(super) other: i64,
    pub(super) device: i64,
    pub(super) voltage: i64,
    pub(super) length: i64,
    pub(super) drop_limit: i64,
}

/// What makes a row like others to the tables.
pub(super) struct Like {
    pub(super) words: u64,
    pub(super) ambient: i64,
    pub(super) current_carrying: i64,
    pub(super) device: i64,
}

impl Rows {
    fn counts(&mut self, field: Field) -> Option<&mut [i64; BLOCK]> {
        match field {
            Field::Ambient => Some(&mut self.ambient),
            Field::CurrentCarrying => Some(&mut self.current_carrying),
            Field::LoadContinuous => Some(&mut self.continuous),
            Field::LoadOther => Some(&mut self.other),
            Field::Device => Some(&mut self.device),
            Field::Voltage => Some(&mut self.voltage),
            Field::Length => Some(&mut self.length),
            Field::DropLimit => Some(&mut self.drop_limit),
            _ => None,
        }
    }

    /// Rows as they are where no column states anything.
    pub(super) const fn assumed() -> Self {
        Self {
            words: [0; BLOCK],
            ambient: [Batch::AMBIENT; BLOCK],
            current_carrying: [Batch::CURRENT_CARRYING; BLOCK],
            continuous: [0; BLOCK],
            other: [0; BLOCK],
            device: [0; BLOCK],
            voltage: [0; BLOCK],
            length: [0; BLOCK],
            drop_limit: [0; BLOCK],
        }
    }

    /// Reads `rows` rows of a batch from `start`; whether every number and word of them is one.
    pub(super) fn read(&mut self, batch: &Batch<'_>, start: usize, rows: usize, seen: &mut Seen) -> bool {
        let words = self.words.get_mut(..rows).unwrap_or_default();
        words.fill(0);
        for column in &batch.words {
            column.fill(start, words, seen);
        }
        let mut all = words.iter().fold(0, |any, word| any | word) & words::BAD == 0;
        for (field, column) in &batch.numbers {
            if let Some(counts) = self.counts(*field).and_then(|counts| counts.get_mut(..rows)) {
                all &= column.fill(start, counts);
            }
        }
        all
    }

    #[inline(always)]
    pub(super) fn like(&self, row: usize) -> Option<Like> {
        Some(Like {
            words: *self.words.get(row)?,
            ambient: *self.ambient.get(row)?,
            current_carrying: *self.current_carrying.get(row)?,
            device: *self.device.get(row)?,
        })
    }

    #[inline(always)]
    pub(super) fn get(&self, row: usize) -> Option<Row> {
        Some(Row {
            words: *self.words.get(row)?,
            ambient: *self.ambient.get(row)?,
            current_carrying: *self.current_carrying.get(row)?,
            continuous: *self.continuous.get(row)?,
            other: *self.other.get(row)?,
            device: *self.device.get(row)?,
            voltage: *self.voltage.get(row)?,
            length: *self.length.get(row)?,
            drop_limit: *self.drop_limit.get(row)?,
        })
    }
}

impl Row {
    /// Whether a number or a word of the row is none. Every number but an ambient is zero or more, so that one sign says
    /// it for all of them.
    #[inline]
    pub(super) fn is_bad(&self) -> bool {
        let numbers = self.current_carrying
            | self.continuous
            | self.other
            | self.device
            | self.voltage
            | self.length
            | self.drop_limit;
        numbers < 0 || self.ambient == number::BAD || self.words & words::BAD != 0
    }
}
