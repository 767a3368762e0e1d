//! The rows of a block as whole numbers, read a column at a time.

use super::Batch;
use super::field::Field;
use super::group::GROUP;
use super::number;
use super::seen::Seen;

/// Rows that are judged together: so few that all that is known of them stays in the nearest cache.
pub(super) const BLOCK: usize = 512;

/// The numbers of a block, in counts of the smallest units, and its words.
pub(super) struct Rows {
    /// Which fields were read last: a bit for each.
    read: u32,
    pub(super) words: Spoken,
    pub(super) ambient: [i64; BLOCK],
    pub(super) current_carrying: [i64; BLOCK],
    pub(super) continuous: [i64; BLOCK],
    pub(super) other: [i64; BLOCK],
    pub(super) device: [i64; BLOCK],
    pub(super) voltage: [i64; BLOCK],
    pub(super) length: [i64; BLOCK],
    pub(super) drop_limit: [i64; BLOCK],
}

/// The words of a block: each row's by their number in the index of the batch, or as bits.
pub(super) struct Spoken {
    pub(super) indexed: bool,
    pub(super) indices: [u16; BLOCK],
    pub(super) bits: [u64; BLOCK],
}

/// The numbers of a group of rows that are compared.
#[derive(Clone, Copy)]
pub(super) struct Numbers<'a> {
    pub(super) continuous: &'a [i64; GROUP],
    pub(super) other: &'a [i64; GROUP],
    pub(super) device: &'a [i64; GROUP],
    pub(super) voltage: &'a [i64; GROUP],
    pub(super) length: &'a [i64; GROUP],
    pub(super) drop_limit: &'a [i64; GROUP],
}

/// One row.
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

/// A row as it is where no column states anything.
const ASSUMED: Row = Row {
    words: 0,
    ambient: 30 * 9000, // 30 °C, the base of the tables
    current_carrying: 3,
    continuous: 0,
    other: 0,
    device: 0,
    voltage: 0,
    length: 0,
    drop_limit: 0,
};

impl Rows {
    /// Rows as they are where no column states anything.
    pub(super) const fn assumed() -> Self {
        Self {
            read: 0,
            words: Spoken { indexed: false, indices: [0; BLOCK], bits: [ASSUMED.words; BLOCK] },
            ambient: [ASSUMED.ambient; BLOCK],
            current_carrying: [ASSUMED.current_carrying; BLOCK],
            continuous: [ASSUMED.continuous; BLOCK],
            other: [ASSUMED.other; BLOCK],
            device: [ASSUMED.device; BLOCK],
            voltage: [ASSUMED.voltage; BLOCK],
            length: [ASSUMED.length; BLOCK],
            drop_limit: [ASSUMED.drop_limit; BLOCK],
        }
    }

    /// Forgets what another batch has columns for, if this one has none for it.
    pub(super) fn begin(&mut self, batch: &Batch<'_>) {
        let read = batch.numbers.iter().fold(0, |read, column| read | 1 << column.field as u32);
        if self.read & !read != 0 {
            *self = Self::assumed();
        }
        self.read = read;
    }

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

    /// Reads `rows` rows of a batch from `start`; whether every number of them is one.
    pub(super) fn read(&mut self, batch: &Batch<'_>, start: usize, rows: usize, seen: &mut Seen) -> bool {
        self.read_words(batch, start, rows, seen);
        let mut all = true;
        for column in &batch.numbers {
            if let Some(counts) = self.counts(column.field).and_then(|counts| counts.get_mut(..rows)) {
                all &= column.fill(start, counts);
            }
        }
        all
    }

    fn read_words(&mut self, batch: &Batch<'_>, start: usize, rows: usize, seen: &mut Seen) {
        let Spoken { indexed, indices, bits } = &mut self.words;
        let indices = indices.get_mut(..rows).unwrap_or_default();
        *indexed = batch.index.as_ref().is_some_and(|index| index.fill(&batch.words, start, indices));
        if !*indexed {
            let bits = bits.get_mut(..rows).unwrap_or_default();
            bits.fill(ASSUMED.words);
            for column in &batch.words {
                column.fill(start, bits, seen);
            }
        }
    }

    /// The numbers of a group; `None` beyond the last.
    pub(super) fn group(&self, group: usize) -> Option<Numbers<'_>> {
        Some(Numbers {
            continuous: self.continuous.as_chunks().0.get(group)?,
            other: self.other.as_chunks().0.get(group)?,
            device: self.device.as_chunks().0.get(group)?,
            voltage: self.voltage.as_chunks().0.get(group)?,
            length: self.length.as_chunks().0.get(group)?,
            drop_limit: self.drop_limit.as_chunks().0.get(group)?,
        })
    }

    /// Whether a number of the row is none. Every number but an ambient is zero or more, so that one sign says it for all
    /// of them.
    #[inline]
    pub(super) fn is_bad(&self, row: usize) -> bool {
        let others = [
            &self.current_carrying,
            &self.continuous,
            &self.other,
            &self.device,
            &self.voltage,
            &self.length,
            &self.drop_limit,
        ];
        let at = |of: &[i64; BLOCK]| of.get(row).copied().unwrap_or(number::BAD);
        others.into_iter().fold(0, |any, of| any | at(of)) < 0 || at(&self.ambient) == number::BAD
    }
}

impl Row {
    /// Reads one row of a batch, whose words may be none; `None` where a number of it is none.
    pub(super) fn read(batch: &Batch<'_>, row: usize, seen: &mut Seen) -> Option<Self> {
        let mut read = ASSUMED;
        for column in &batch.words {
            read.words |= column.bits(row, seen);
        }
        for column in &batch.numbers {
            let count = column.one(row).ok()?;
            match column.field {
                Field::Ambient => read.ambient = count,
                Field::CurrentCarrying => read.current_carrying = count,
                Field::LoadContinuous => read.continuous = count,
                Field::LoadOther => read.other = count,
                Field::Device => read.device = count,
                Field::Voltage => read.voltage = count,
                Field::Length => read.length = count,
                Field::DropLimit => read.drop_limit = count,
                _ => {}
            }
        }
        Some(read)
    }
}
