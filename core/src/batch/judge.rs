//! The rows of a batch, block by block: read, looked up, judged by comparisons of whole numbers, written.

use super::ahead::Ahead;
use super::alike::{Alike, Combination, MILLION};
use super::answers::{Answer, Answers};
use super::memo::{ALONE, Devices, Memo};
use super::rows::{BLOCK, Numbers, Rows};
use super::said::{self, Said};
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
    /// What is said of them in words.
    said: [Said; BLOCK],
    /// The drop rounded up, a whole number of nanovolts; NaN where it is not asked for.
    nanovolts: [f64; BLOCK],
    /// Where figures go that are not wanted.
    spare: [[f64; BLOCK]; 2],
}

impl Found {
    const NOTHING: Self = Self {
        combinations: [ALONE; BLOCK],
        places: [ALONE; BLOCK],
        ends: [0; BLOCK],
        said: [Said::NOTHING; BLOCK],
        nanovolts: [f64::NAN; BLOCK],
        spare: [[f64::NAN; BLOCK]; 2],
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
        let look_up = if all { Found::look_up::<true> } else { Found::look_up::<false> };
        look_up(found, rows, count, memo, &mut told);
        let mut alone = memo.devices().is_none();
        if let Some(devices) = memo.devices() {
            let figures = answers.has_figures();
            let asked = Asked { of: batch.asks, ahead: Ahead::of(&batch.numbers, start) };
            let judge = if figures { Found::judge::<true> } else { Found::judge::<false> };
            alone = !judge(found, rows, count, memo, &asked, devices, answers);
            ends::write(found.ends.get(..count).unwrap_or_default(), batch.asks.limit, answers);
            said::write(&found.said, answers);
            if figures {
                found.show(count, memo, answers);
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

/// What is asked of the rows of a block, and of the memory meanwhile.
struct Asked<'a> {
    of: Asks,
    ahead: Ahead<'a>,
}

// Each loop is a function of its own, for which the processor has registers enough.
impl Found {
    /// Finds what is known of each row. Where `ALL` of their numbers are some, none is looked at.
    #[inline(never)]
    fn look_up<const ALL: bool>(&mut self, rows: &Rows, count: usize, memo: &mut Memo<'_>, told: &mut Told<'_>) {
        let numbers = rows.ambient.iter().zip(&rows.current_carrying).zip(&rows.device);
        let words = rows.words.indices.iter().zip(&rows.words.bits);
        let found = self.combinations.iter_mut().zip(&mut self.places);
        for (at, ((((ambient, count), device), (index, bits)), (combination, place))) in
            (0..count).zip(numbers.zip(words).zip(found))
        {
            *combination =
                if rows.words.indexed { memo.indexed(*index, at, told) } else { memo.spoken(*bits, at, told) };
            *place = match memo.bands.of(*ambient, *count, *device) {
                Some(band) if ALL || !rows.is_bad(at) => memo.find(*combination, band, at, told),
                _ => ALONE,
            };
        }
    }

    /// Finds how the checks end, and where figures are wanted the least device and the drop; whether the tables say it of every
    /// row. A row of which they do not is to be judged by itself.
    #[inline(never)]
    fn judge<const FIGURES: bool>(
        &mut self,
        rows: &Rows,
        count: usize,
        memo: &Memo<'_>,
        asked: &Asked<'_>,
        devices: &Devices,
        answers: &mut Answers<'_>,
    ) -> bool {
        let count = count.min(BLOCK);
        let [least, _] = &mut self.spare;
        let Some(least) = entries(&mut answers.least_device_a, least, count) else {
            self.places.fill(ALONE);
            return false;
        };
        for at in 0..count {
            asked.ahead.ask(at);
            let mut one = || {
                let (place, combination) = (self.places.get(at)?, memo.combination(*self.combinations.get(at)?)?);
                let alike = memo.alike(*place)?;
                let judged = judge(alike, combination, &rows.get(at)?, asked.of)?;
                *self.ends.get_mut(at)? = judged.ends;
                *self.said.get_mut(at)? = alike.said(judged.ends);
                if FIGURES {
                    *self.nanovolts.get_mut(at)? = judged.nanovolts;
                    *least.get_mut(at)? = devices.ratings.next(combination.ratings, judged.required);
                }
                Some(())
            };
            if let (None, Some(place)) = (one(), self.places.get_mut(at)) {
                *place = ALONE;
            }
        }
        !self.places.iter().take(count).fold(false, |any, place| any | (*place == ALONE))
    }

    /// Writes the figures that the tables have.
    #[inline(never)]
    fn show(&mut self, count: usize, memo: &Memo<'_>, answers: &mut Answers<'_>) {
        let [ampacity, largest] = &mut self.spare;
        let ampacity = entries(&mut answers.ampacity_a, ampacity, count).unwrap_or_default();
        let largest = entries(&mut answers.largest_device_a, largest, count).unwrap_or_default();
        for ((ampacity, largest), place) in ampacity.iter_mut().zip(largest).zip(&self.places) {
            if let Some(alike) = memo.alike(*place) {
                (*ampacity, *largest) = (alike.usable_a, alike.largest_a);
            }
        }
    }
}

/// The first entries of a column, or of spare ones where it is not wanted.
fn entries<'a, T>(column: &'a mut Option<&mut [T]>, spare: &'a mut [T; BLOCK], count: usize) -> Option<&'a mut [T]> {
    column.as_deref_mut().unwrap_or(spare).get_mut(..count)
}

struct Judged {
    ends: u8,
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
    // 240.4(D)(1) to (3) decide by themselves; of two readings that differ neither decides.
    let unprotected = (continuous > combination.continuous_most) | (device > alike.loose);
    let fails = [
        current > alike.usable,
        continuous * combination.factors.conductor + others > alike.before,
        required > device * MILLION,
        unprotected,
        too_much_drop,
    ];
    let ends = ends::of(fails, !unprotected & (device > alike.strict), alike.open);
    Some(Judged { ends, required, nanovolts: drop })
}
