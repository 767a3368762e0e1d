//! The rows of a batch, block by block.

use std::hint::select_unpredictable;

use super::answers::{Answer, Answers, BLOCK, Block, shown, shown_percent, shown_volts};
use super::field::Field;
use super::memo::{Alike, Factors, MILLION, Memo, Ratings, Size, div_ceil};
use super::number;
use super::reason::Reason;
use super::verdict::Verdict::{self, CannotTell};
use super::words::{self, Seen, Words};
use super::{Asks, Batch};
use crate::code::Code;
use crate::quantity::{Amperes, Ratio};
use crate::trade::ContinuousRating;

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

/// What the code says of devices.
struct Tables {
    ratings: Ratings,
    /// Of the usual device, and of one listed for 100 %.
    factors: [Factors; 2],
}

impl Tables {
    fn of(code: &dyn Code) -> Option<Self> {
        let factors = |rating| Factors::of(code, rating);
        let factors = [factors(ContinuousRating::Standard)?, factors(ContinuousRating::Listed100)?];
        Some(Self { ratings: Ratings::of(code)?, factors })
    }
}

/// Judges rows one after the other, remembering what it has seen.
pub(super) struct Worker<'b, 'a> {
    batch: &'b Batch<'a>,
    memo: Memo<'b>,
    /// `None` where they have a gap: every row is then judged by itself.
    tables: Option<Tables>,
    seen: Seen,
    rows: Box<Rows>,
    known: Box<[Option<Alike>; BLOCK]>,
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
            tables: Tables::of(batch.code.0),
            seen: Seen::new(),
            rows: Box::new(rows),
            known: Box::new([None; BLOCK]),
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
        let Self { batch, memo, tables, block, rows: all, known, .. } = self;
        // First what is known of each: the processor fetches for one row while it looks for the next.
        for (at, known) in (0..rows).zip(known.iter_mut()) {
            let row = all.get(at).filter(|row| !row.is_bad());
            *known = row.and_then(|row| memo.find(row, || batch.circuit(&all.get(at)?).ok()));
        }
        for (at, known) in (0..rows).zip(known.iter()) {
            let Some(row) = all.get(at) else { break };
            if let Some(alike) = known
                && let (Some(size), Some(tables)) = (memo.size(alike), tables.as_ref())
                && let Some(answer) = alike.judge(size, row, batch.asks, tables)
            {
                block.set(at, &answer);
            } else if row.is_bad() {
                block.set(at, &Answer::unjudged(batch.wrong(start + at)));
            } else {
                block.set(at, &batch.slowly(&row));
            }
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

/// How a row ends, and the number of the check that decides it, by the bits of the checks that fail; the sixth bit is set
/// where the fourth check cannot tell. A table, since no processor foresees how checks end.
#[expect(clippy::indexing_slicing, reason = "in a constant, which does not compile outside of its bounds")]
const ENDS: [(Verdict, u8); 64] = {
    let mut ends = [(Verdict::Holds, 0); 64];
    let mut bits: u8 = 1;
    while bits < 64 {
        ends[bits as usize] = match bits & 31 {
            0 => (CannotTell, 4),
            fails => (Verdict::Fails, fails.trailing_zeros() as u8 + 1),
        };
        bits += 1;
    }
    ends
};

impl Alike {
    /// The verdicts of a row: comparisons of whole numbers. `None` for a drop that is too large for 64 bits.
    #[inline(always)]
    fn judge(&self, size: &Size, row: Row, asks: Asks, tables: &Tables) -> Option<Answer> {
        let words = Words(row.words);
        let is = |field, code| words.code(field) == code;
        let factors = tables.factors.get(usize::from(is(Field::ContinuousRating, 2)))?;
        let ([several, other], [by_several, by_other]) = (self.largest, self.largest_governed_by);
        // The stricter reading, and the looser one where it is not stated what it supplies.
        let strict = select_unpredictable(is(Field::Supplies, 2), other, several);
        let loose = select_unpredictable(is(Field::Supplies, 1), several, other);
        let governed_by = select_unpredictable(is(Field::Supplies, 2), by_other, by_several);
        let current = (row.continuous + row.other).min(Amperes::MAX.microamperes());
        let weighed = |factor: i64| row.continuous * factor + row.other * MILLION;
        let required = weighed(factors.device);
        let within = row.continuous <= size.continuous_most;
        let (mut too_much_drop, mut drop_v, mut drop_percent) = (false, f64::NAN, f64::NAN);
        if asks.run {
            let per_unit = size.drop.get(usize::from(is(Field::Circuit, 2)))?;
            let nanovolts = per_unit.nanovolts(current, row.length)?;
            // The voltage in millivolts times a share in millionths is a limit in whole nanovolts.
            too_much_drop = asks.limit & (nanovolts > row.voltage * row.drop_limit);
            (drop_v, drop_percent) = figures(nanovolts, row.voltage);
        }
        // Of two readings that differ neither decides; 240.4(D)(1) to (3) decide by themselves.
        let differ = within & (row.device > strict) & (row.device <= loose);
        let fails = [
            current > self.usable,
            weighed(factors.conductor) > self.before,
            required > row.device * MILLION,
            !within | (row.device > loose) | (row.device > strict) & !differ,
            too_much_drop,
        ];
        let mut checks = fails.map(|fails| Verdict::of(!fails));
        checks[3] = select_unpredictable(differ, CannotTell, checks[3]);
        checks[4] = if asks.limit { checks[4] } else { Verdict::NotAsked };
        let [first, second, third, fourth, fifth] = fails.map(usize::from);
        let ends = first | second << 1 | third << 2 | fourth << 3 | fifth << 4 | usize::from(differ) << 5;
        let (verdict, decided_by) = ENDS.get(ends).copied().unwrap_or((CannotTell, 0));
        Some(Answer {
            verdict,
            checks,
            reason: select_unpredictable(differ, Reason::SUPPLIES_DECIDES, Reason::NONE),
            decided_by,
            ampacity_governed_by: self.ampacity_governed_by,
            largest_device_governed_by: governed_by,
            ampacity_a: shown(self.usable),
            least_device_a: tables.ratings.next(is(Field::DeviceKind, 2), required),
            largest_device_a: shown(strict),
            drop_v,
            drop_percent,
        })
    }
}

/// The drop in volts, and as a percentage of the voltage: both rounded up.
#[inline(always)]
fn figures(nanovolts: i64, voltage: i64) -> (f64, f64) {
    let millivolts = (nanovolts + (MILLION - 1)).cast_unsigned() / MILLION.cast_unsigned();
    let millionths = div_ceil(nanovolts, voltage);
    let percent = if millionths <= Ratio::MAX.count_of_millionths() { shown_percent(millionths) } else { f64::NAN };
    (shown_volts(millivolts.cast_signed()), percent)
}
