//! The rows of a batch, block by block: read, looked up, judged by comparisons of whole numbers, written.

use std::hint::select_unpredictable;

use super::alike::{Alike, Factors, MILLION, Size};
use super::answers::{Answer, Answers};
use super::circuit::Circuit;
use super::field::Field;
use super::memo::{ALONE, Memo};
use super::ratings::Ratings;
use super::rows::{BLOCK, Row, Rows};
use super::words::{Seen, Words};
use super::{Asks, Batch, ends, figures};
use crate::code::Code;
use crate::quantity::Amperes;
use crate::trade::ContinuousRating;

/// What the code says of devices.
pub(super) struct Tables {
    pub(super) ratings: Ratings,
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

/// What is found of the rows of a block.
pub(super) struct Found {
    /// Where the memo has what the tables say; [`ALONE`] for a row that is judged by itself.
    pub(super) places: [u32; BLOCK],
    /// How the checks end, in bits.
    ends: [u8; BLOCK],
    /// The load with its factor, in millionths of a microampere.
    pub(super) required: [i64; BLOCK],
    /// The drop rounded up, a whole number of nanovolts; NaN where it is not asked for.
    pub(super) nanovolts: [f64; BLOCK],
}

/// What one thread has learned and works with.
pub(super) struct Worker<'c> {
    memo: Memo<'c>,
    /// `None` where they have a gap: every row is then judged by itself.
    tables: Option<Tables>,
    seen: Seen,
    rows: Box<Rows>,
    found: Box<Found>,
}

impl<'c> Worker<'c> {
    pub(super) fn new(code: &'c dyn Code) -> Self {
        let found =
            Found { places: [ALONE; BLOCK], ends: [0; BLOCK], required: [0; BLOCK], nanovolts: [f64::NAN; BLOCK] };
        Self {
            memo: Memo::new(code),
            tables: Tables::of(code),
            seen: Seen::new(),
            rows: Box::new(Rows::assumed()),
            found: Box::new(found),
        }
    }

    /// Judges `rows` rows of a batch from `start` into `answers`, which begin with the first of them.
    pub(super) fn judge(&mut self, batch: &Batch<'_>, start: usize, rows: usize, answers: &mut Answers<'_>) {
        // What another batch had columns for, this one may have none for.
        *self.rows = Rows::assumed();
        let mut done = 0;
        while done < rows {
            let some = BLOCK.min(rows - done);
            self.block(batch, start + done, some, &mut answers.take(some));
            done += some;
        }
    }

    fn block(&mut self, batch: &Batch<'_>, start: usize, count: usize, answers: &mut Answers<'_>) {
        let Self { memo, tables, rows, found, .. } = self;
        let all = rows.read(batch, start, count, &mut self.seen);
        found.places.fill(ALONE);
        if let Some(tables) = tables {
            // First what is known of each: the processor fetches for one row while it looks for the next.
            found.look_up(rows, count, all, memo, |at| batch.circuit(&rows.get(at)?).ok());
            found.judge(rows, count, memo, batch.asks, tables);
            ends::write(found.ends.get(..count).unwrap_or_default(), batch.asks.limit, answers);
            figures::write(found, rows, count, memo, tables, answers);
        }
        if found.places.get(..count).unwrap_or_default().contains(&ALONE) {
            for (at, _) in (0..count).zip(&found.places).filter(|(_, place)| **place == ALONE) {
                let Some(row) = rows.get(at) else { break };
                let bad = || Answer::unjudged(batch.wrong(start + at));
                answers.set(at, &if row.is_bad() { bad() } else { batch.slowly(&row) });
            }
        }
    }
}

// Each loop is a function of its own, for which the processor has registers enough.
impl Found {
    #[inline(never)]
    fn look_up(
        &mut self,
        rows: &Rows,
        count: usize,
        all: bool,
        memo: &mut Memo<'_>,
        circuit: impl Fn(usize) -> Option<Circuit>,
    ) {
        for (at, place) in (0..count.min(BLOCK)).zip(&mut self.places) {
            if let Some(like) = rows.like(at)
                && (all || rows.get(at).is_some_and(|row| !row.is_bad()))
            {
                *place = memo.find(&like, || circuit(at));
            }
        }
    }

    #[inline(never)]
    fn judge(&mut self, rows: &Rows, count: usize, memo: &Memo<'_>, asks: Asks, tables: &Tables) {
        let columns = self.places.iter_mut().zip(&mut self.ends).zip(&mut self.required).zip(&mut self.nanovolts);
        for (at, (((place, ends), required), nanovolts)) in (0..count.min(BLOCK)).zip(columns) {
            if *place == ALONE {
                continue;
            }
            let alike = memo.alike(*place);
            let judged = || alike.judge(memo.size(alike)?, rows.get(at)?, asks, tables);
            match judged() {
                Some(judged) => (*ends, *required, *nanovolts) = judged,
                None => *place = ALONE,
            }
        }
    }
}

impl Alike {
    /// How the checks of a row end, what the load requires and how much it drops: comparisons of whole numbers. `None` for
    /// a drop that is too large for 64 bits.
    #[inline(always)]
    fn judge(&self, size: &Size, row: Row, asks: Asks, tables: &Tables) -> Option<(u8, i64, f64)> {
        let words = Words(row.words);
        let is = |field, code| words.code(field) == code;
        let factors = tables.factors.get(usize::from(is(Field::ContinuousRating, 2)))?;
        let [several, other] = self.largest;
        // The stricter reading, and the looser one where it is not stated what it supplies.
        let strict = select_unpredictable(is(Field::Supplies, 2), other, several);
        let loose = select_unpredictable(is(Field::Supplies, 1), several, other);
        let current = (row.continuous + row.other).min(Amperes::MAX.microamperes());
        let others = row.other * MILLION;
        let required = row.continuous * factors.device + others;
        let (mut too_much_drop, mut drop) = (false, f64::NAN);
        if asks.run {
            let per_unit = size.drop.get(usize::from(is(Field::Circuit, 2)))?;
            let nanovolts = per_unit.nanovolts(current, row.length)?;
            // The voltage in millivolts times a share in millionths is a limit in whole nanovolts.
            too_much_drop = asks.limit & (nanovolts > row.voltage * row.drop_limit);
            #[expect(clippy::cast_precision_loss, reason = "below 2^50")]
            let shown = nanovolts as f64;
            drop = shown;
        }
        // Of two readings that differ neither decides; 240.4(D)(1) to (3) decide by themselves.
        let within = row.continuous <= size.continuous_most;
        let differ = within & (row.device > strict) & (row.device <= loose);
        let fails = [
            current > self.usable,
            row.continuous * factors.conductor + others > self.before,
            required > row.device * MILLION,
            !within | (row.device > loose) | (row.device > strict) & !differ,
            too_much_drop,
        ];
        Some((ends::of(fails, differ), required, drop))
    }
}
