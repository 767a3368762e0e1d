//! The rows of a batch, block by block.

use super::answers::{Answer, Answers, BLOCK, Block, shown_percent, shown_volts};
use super::field::Field;
use super::memo::{Alike, Memo, Ratings};
use super::number;
use super::reason::Reason;
use super::verdict::Verdict::{self, CannotTell};
use super::verdict::decided_by;
use super::words::{self, Seen};
use super::{Asks, Batch};
use crate::quantity::{Amperes, Ratio};
use crate::trade::DeviceKind;

/// The numbers of a block, in counts of the smallest units, and its words.
pub(super) struct Rows {
    words: [u64; BLOCK],
    ambient: [i64; BLOCK],
    current_carrying: [i64; BLOCK],
    continuous: [i64; BLOCK],
    other: [i64; BLOCK],
    device: [i64; BLOCK],
    voltage: [i64; BLOCK],
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

    #[inline]
    fn get(&self, row: usize) -> Option<Row> {
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

/// Judges rows one after the other, remembering what it has seen.
pub(super) struct Worker<'b, 'a> {
    batch: &'b Batch<'a>,
    memo: Memo<'b>,
    ratings: [Ratings; 2],
    seen: Seen,
    rows: Box<Rows>,
    block: Box<Block>,
}

impl<'b, 'a> Worker<'b, 'a> {
    pub(super) fn new(batch: &'b Batch<'a>) -> Self {
        // What no column states stands in the rows from the beginning.
        let rows = Rows {
            words: [0; BLOCK],
            ambient: [Batch::AMBIENT; BLOCK],
            current_carrying: [Batch::CURRENT_CARRYING; BLOCK],
            continuous: [0; BLOCK],
            other: [0; BLOCK],
            device: [0; BLOCK],
            voltage: [0; BLOCK],
            length: [0; BLOCK],
            drop_limit: [0; BLOCK],
        };
        Self {
            batch,
            memo: Memo::new(batch.code.0),
            ratings: [DeviceKind::Breaker, DeviceKind::Fuse].map(|kind| Ratings::of(batch.code.0, kind)),
            seen: Seen::new(),
            rows: Box::new(rows),
            block: Box::new(Block::new()),
        }
    }

    /// Judges `rows` rows from `start` into `answers`, which begin with the first of them.
    pub(super) fn judge(&mut self, start: usize, rows: usize, answers: &mut Answers<'_>) {
        let mut done = 0;
        while done < rows {
            let some = BLOCK.min(rows - done);
            self.block(start + done, some);
            answers.write(done, &self.block, some);
            done += some;
        }
    }

    /// One row.
    pub(super) fn one(&mut self, row: usize) -> Option<Row> {
        self.read(row, 1);
        self.rows.get(0)
    }

    fn block(&mut self, start: usize, rows: usize) {
        self.read(start, rows);
        let Self { batch, memo, ratings: [breakers, fuses], .. } = self;
        for at in 0..rows {
            let Some(row) = self.rows.get(at) else { break };
            let answer = if row.is_bad() {
                Answer::unjudged(batch.wrong(start + at))
            } else {
                let alike = memo.find(&row, || batch.circuit(&row).ok());
                let quick = alike.and_then(|alike| {
                    let ratings = if alike.kind == DeviceKind::Fuse { &*fuses } else { &*breakers };
                    alike.judge(&row, batch.asks, ratings)
                });
                quick.unwrap_or_else(|| batch.slowly(&row))
            };
            self.block.set(at, &answer);
        }
    }

    fn read(&mut self, start: usize, rows: usize) {
        let Rows { words, .. } = &mut *self.rows;
        let words = words.get_mut(..rows).unwrap_or_default();
        words.fill(0);
        for column in &self.batch.words {
            column.fill(start, words, &mut self.seen);
        }
        for (field, column) in &self.batch.numbers {
            if let Some(counts) = self.rows.counts(*field).and_then(|counts| counts.get_mut(..rows)) {
                column.fill(start, counts);
            }
        }
    }
}

impl Alike {
    /// The verdicts of a row: comparisons of whole numbers. `None` for a drop that is too large for 64 bits.
    #[inline]
    fn judge(&self, row: &Row, asks: Asks, ratings: &Ratings) -> Option<Answer> {
        let weighed = |factor: i64| i128::from(row.continuous) * i128::from(factor) + i128::from(row.other) * 1_000_000;
        let current = (row.continuous + row.other).min(Amperes::MAX.microamperes());
        let required = weighed(self.device_factor);
        let told = |reason: Reason, holds: bool| if reason == Reason::NONE { Verdict::of(holds) } else { CannotTell };
        let no_before = if self.no_before == Reason::NONE { self.no_factors } else { self.no_before };
        let strict = row.device <= self.largest_strict;
        // Of two readings of what it supplies that differ, neither decides; 240.4(D)(1) to (3) decide by themselves.
        let within = row.continuous <= self.continuous_most;
        let differ = within & (strict != (row.device <= self.largest_loose));
        let no_protection =
            if self.no_protection == Reason::NONE && differ { Reason::SUPPLIES_DECIDES } else { self.no_protection };
        let mut answer = Answer {
            ampacity_governed_by: self.ampacity_governed_by,
            largest_device_governed_by: self.largest_governed_by,
            ampacity_a: self.ampacity_a,
            largest_device_a: self.largest_a,
            least_device_a: if self.no_factors == Reason::NONE { ratings.next(required) } else { f64::NAN },
            ..Answer::unjudged(Reason::NONE)
        };
        let mut drop = Verdict::NotAsked;
        if asks.run && self.no_drop == Reason::NONE {
            let nanovolts = self.drop.nanovolts(current, row.length)?;
            // The voltage in millivolts times a share in millionths is a limit in whole nanovolts.
            let holds = i128::from(nanovolts) <= i128::from(row.voltage) * i128::from(row.drop_limit);
            drop = if asks.limit { Verdict::of(holds) } else { Verdict::NotAsked };
            (answer.drop_v, answer.drop_percent) = figures(nanovolts, row.voltage);
        } else if asks.limit {
            drop = CannotTell;
        }
        answer.checks = [
            told(self.no_ampacity, current <= self.usable),
            told(no_before, weighed(self.conductor_factor) <= i128::from(self.before) * 1_000_000),
            told(self.no_factors, required <= i128::from(row.device) * 1_000_000),
            told(no_protection, strict & within),
            drop,
        ];
        let no_drop = if asks.limit { self.no_drop } else { Reason::NONE };
        let reasons = [self.no_ampacity, no_before, self.no_factors, no_protection, no_drop];
        answer.reason = reasons.into_iter().find(|reason| *reason != Reason::NONE).unwrap_or(Reason::NONE);
        answer.verdict = Verdict::of_all(answer.checks);
        answer.decided_by = decided_by(answer.checks, answer.verdict);
        Some(answer)
    }
}

/// The drop in volts, and as a percentage of the voltage: both rounded up.
#[inline]
fn figures(nanovolts: i64, voltage: i64) -> (f64, f64) {
    let millivolts = nanovolts.unsigned_abs().div_ceil(1_000_000).cast_signed();
    let millionths = nanovolts.unsigned_abs().div_ceil(voltage.unsigned_abs().max(1)).cast_signed();
    let percent = if millionths <= Ratio::MAX.count_of_millionths() { shown_percent(millionths) } else { f64::NAN };
    (shown_volts(millivolts), percent)
}
