//! The rows of a batch, block by block: read, looked up, judged by comparisons of whole numbers, written.

use super::alike::{Alike, Combination, MILLION};
use super::answers::{Answer, Answers};
use super::memo::{ALONE, Devices, Memo};
use super::rows::{BLOCK, Numbers, Rows};
use super::seen::Seen;
use super::spread::Finish;
use super::told::Told;
use super::{Asks, Batch, ends, figures};
use crate::calc::Silent;
use crate::code::Code;
use crate::quantity::Amperes;

/// What is found of the rows of a block.
pub(super) struct Found {
    /// The numbers of their combinations of words.
    combinations: [u32; BLOCK],
    /// Where the memo has what the tables say; [`ALONE`] for a row that is judged by itself.
    places: [u32; BLOCK],
    /// How the checks end, in bits.
    ends: [u8; BLOCK],
    /// The drop rounded up, a whole number of nanovolts; NaN where it is not asked for.
    nanovolts: [f64; BLOCK],
    spare: Spare,
}

/// Where answers go that are not wanted.
struct Spare {
    reasons: [u16; BLOCK],
    figures: [[f64; BLOCK]; 3],
    governed_by: [[u8; BLOCK]; 2],
}

impl Found {
    const NOTHING: Self = Self {
        combinations: [ALONE; BLOCK],
        places: [ALONE; BLOCK],
        ends: [0; BLOCK],
        nanovolts: [f64::NAN; BLOCK],
        spare: Spare { reasons: [0; BLOCK], figures: [[f64::NAN; BLOCK]; 3], governed_by: [[0; BLOCK]; 2] },
    };
}

/// What one thread has learned and works with.
pub(super) struct Worker<'c> {
    memo: Memo<'c>,
    seen: Seen,
    rows: Box<Rows>,
    found: Box<Found>,
}

impl<'c> Worker<'c> {
    pub(super) fn new(code: &'c dyn Code) -> Self {
        Self {
            memo: Memo::new(code),
            seen: Seen::new(),
            rows: Box::new(Rows::assumed()),
            found: Box::new(Found::NOTHING),
        }
    }

    /// Forgets what holds for another batch alone.
    pub(super) fn begin(&mut self, batch: &Batch<'_>) {
        self.rows.begin(batch);
        self.memo.begin(batch.index.as_ref().map_or(0, |index| index.count));
    }

    /// Judges `rows` rows of a batch from `start` into `answers`, which begin with the first of them. `finish` gets the
    /// answers of each block.
    pub(super) fn judge(
        &mut self,
        batch: &Batch<'_>,
        start: usize,
        rows: usize,
        mut answers: Answers<'_>,
        finish: &Finish<'_>,
    ) {
        let mut done = 0;
        while done < rows {
            let some = BLOCK.min(rows - done);
            let mut block = answers.take(some);
            self.block(batch, start + done, some, &mut block);
            finish(start + done, &mut block);
            done += some;
        }
    }

    fn block(&mut self, batch: &Batch<'_>, start: usize, count: usize, answers: &mut Answers<'_>) {
        let Self { memo, seen, rows, found } = self;
        let all = rows.read(batch, start, count, seen);
        let mut told = Told { batch, start, seen };
        // First what is known of each: the processor fetches for one row while it looks for the next.
        found.combine(rows, count, memo, &mut told);
        found.look_up(rows, count, all, memo, &mut told);
        let mut alone = memo.devices().is_none();
        if let Some(devices) = memo.devices() {
            let figures = answers.has_figures();
            let judge = if figures { Found::judge::<true> } else { Found::judge::<false> };
            alone = !judge(found, rows, count, memo, batch.asks, devices, answers);
            ends::write(found.ends.get(..count).unwrap_or_default(), batch.asks.limit, answers);
            if figures {
                figures::write(&found.nanovolts, &rows.voltage, answers);
            }
        }
        if alone {
            for (at, _) in (0..count).zip(&found.places).filter(|(_, place)| **place == ALONE) {
                let circuit = told.circuit(at);
                let judged = circuit.map(|circuit| Answer::from(&circuit.judge(batch.code.0, &mut Silent)));
                answers.set(at, &judged.unwrap_or_else(Answer::unjudged));
            }
        }
    }
}

// Each loop is a function of its own, for which the processor has registers enough.
impl Found {
    #[inline(never)]
    fn combine(&mut self, rows: &Rows, count: usize, memo: &mut Memo<'_>, told: &mut Told<'_>) {
        let numbers = (0..count).zip(&mut self.combinations);
        if rows.words.indexed {
            for ((at, number), index) in numbers.zip(&rows.words.indices) {
                *number = memo.indexed(*index, at, told);
            }
        } else {
            for ((at, number), bits) in numbers.zip(&rows.words.bits) {
                *number = memo.spoken(*bits, at, told);
            }
        }
    }

    #[inline(never)]
    fn look_up(&mut self, rows: &Rows, count: usize, all: bool, memo: &mut Memo<'_>, told: &mut Told<'_>) {
        let numbers = rows.ambient.iter().zip(&rows.current_carrying).zip(&rows.device);
        let places = self.combinations.iter().zip(&mut self.places);
        for (at, (((ambient, count), device), (combination, place))) in (0..count).zip(numbers.zip(places)) {
            *place = match memo.bands.of(*ambient, *count, *device) {
                Some(band) if all || !rows.is_bad(at) => memo.find(*combination, band, at, told),
                _ => ALONE,
            };
        }
    }

    /// Writes what the tables say; whether it does of every row. A row of which it does not is to be judged by itself.
    #[inline(never)]
    fn judge<const FIGURES: bool>(
        &mut self,
        rows: &Rows,
        count: usize,
        memo: &Memo<'_>,
        asks: Asks,
        devices: &Devices,
        answers: &mut Answers<'_>,
    ) -> bool {
        let count = count.min(BLOCK);
        let Spare { reasons, figures: [ampacity_a, least_a, largest_a], governed_by: [ampacity_by, device_by] } =
            &mut self.spare;
        let (Some(reasons), Some(ampacity_a), Some(least_a), Some(largest_a), Some(ampacity_by), Some(device_by)) = (
            entries(&mut answers.reason, reasons, count),
            entries(&mut answers.ampacity_a, ampacity_a, count),
            entries(&mut answers.least_device_a, least_a, count),
            entries(&mut answers.largest_device_a, largest_a, count),
            entries(&mut answers.ampacity_governed_by, ampacity_by, count),
            entries(&mut answers.largest_device_governed_by, device_by, count),
        ) else {
            self.places.fill(ALONE);
            return false;
        };
        let mut all = true;
        for at in 0..count {
            let mut one = || {
                let (place, combination) = (self.places.get(at)?, memo.combination(*self.combinations.get(at)?));
                let alike = memo.alike(*place)?;
                let judged = judge(alike, combination, &rows.get(at)?, asks)?;
                *self.ends.get_mut(at)? = judged.ends;
                *reasons.get_mut(at)? = judged.reason;
                if !FIGURES {
                    return Some(());
                }
                *self.nanovolts.get_mut(at)? = judged.nanovolts;
                *least_a.get_mut(at)? = devices.ratings.next(combination.ratings, judged.required);
                *ampacity_a.get_mut(at)? = alike.usable_a;
                *largest_a.get_mut(at)? = alike.largest_a;
                *ampacity_by.get_mut(at)? = alike.ampacity_governed_by;
                *device_by.get_mut(at)? = alike.largest_governed_by;
                Some(())
            };
            if one().is_none() {
                all = false;
                if let Some(place) = self.places.get_mut(at) {
                    *place = ALONE;
                }
            }
        }
        all
    }
}

/// The first entries of a column, or of spare ones where it is not wanted.
fn entries<'a, T>(column: &'a mut Option<&mut [T]>, spare: &'a mut [T; BLOCK], count: usize) -> Option<&'a mut [T]> {
    column.as_deref_mut().unwrap_or(spare).get_mut(..count)
}

struct Judged {
    ends: u8,
    reason: u16,
    /// The load with its factor, in millionths of a microampere.
    required: i64,
    nanovolts: f64,
}

/// How the checks of a row end, what the load requires and how much it drops: comparisons of whole numbers. `None` for a
/// drop that is too large for 64 bits.
#[inline(always)]
fn judge(alike: &Alike, combination: &Combination, row: &Numbers, asks: Asks) -> Option<Judged> {
    let Numbers { continuous, other, device, .. } = *row;
    let current = (continuous + other).min(Amperes::MAX.microamperes());
    let others = other * MILLION;
    let required = continuous * combination.factors.device + others;
    let (mut too_much_drop, mut drop) = (false, f64::NAN);
    if asks.run {
        let nanovolts = combination.drop.nanovolts(current, row.length)?;
        // The voltage in millivolts times a share in millionths is a limit in whole nanovolts.
        too_much_drop = asks.limit & (nanovolts > row.voltage * row.drop_limit);
        #[expect(clippy::cast_precision_loss, reason = "below 2^50")]
        let shown = nanovolts as f64;
        drop = shown;
    }
    // Of two readings that differ neither decides; 240.4(D)(1) to (3) decide by themselves.
    let within = continuous <= combination.continuous_most;
    let (above_strict, above_loose) = (device > alike.strict, device > alike.loose);
    let differ = within & above_strict & !above_loose;
    let fails = [
        current > alike.usable,
        continuous * combination.factors.conductor + others > alike.before,
        required > device * MILLION,
        !within | above_loose,
        too_much_drop,
    ];
    let reason = if differ { alike.reasons[1] } else { alike.reasons[0] };
    Some(Judged { ends: ends::of(fails, differ, alike.open), reason, required, nanovolts: drop })
}
