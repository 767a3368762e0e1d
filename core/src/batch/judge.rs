//! The rows of a batch, block by block: read, looked up, judged by comparisons of whole numbers, written.

use super::ahead::Ahead;
use super::answers::{Answer, Answers};
use super::group::{GROUP, Outcome, Tables};
use super::memo::{ALONE, Memo};
use super::ratings::Ratings;
use super::rows::{BLOCK, Rows};
use super::said::{self, Said};
use super::seen::Seen;
use super::spread::Finish;
use super::told::Told;
use super::wide::widest;
use super::{Asks, Batch, ends, figures};
use crate::calc::Silent;
use crate::code::Code;

/// What is found of the rows of a block.
pub(super) struct Found {
    /// The numbers of their combinations of words.
    combinations: [u32; BLOCK],
    /// Where the memo has what the tables say; [`ALONE`] for a row that is judged by itself.
    places: [u32; BLOCK],
    /// What the tables say of a group of them.
    tables: Tables,
    // See `Outcome`.
    ends: [u8; BLOCK],
    said: [Said; BLOCK],
    nanovolts: [f64; BLOCK],
    least: [u32; BLOCK],
    /// Where figures go that are not wanted.
    spare: [[f64; BLOCK]; 2],
}

impl Found {
    const NOTHING: Self = Self {
        combinations: [ALONE; BLOCK],
        places: [ALONE; BLOCK],
        tables: Tables::NOTHING,
        ends: [0; BLOCK],
        said: [Said::NOTHING; BLOCK],
        nanovolts: [f64::NAN; BLOCK],
        least: [0; BLOCK],
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

    /// About how many bytes it takes.
    pub(super) fn bytes(&self) -> usize {
        size_of::<Rows>() + size_of::<Found>() + self.memo.bytes()
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
            found.judge(rows, count, memo, &devices.ratings, batch.asks, &Ahead::of(&batch.numbers, start));
            alone = found.places.iter().take(count).fold(false, |any, place| any | (*place == ALONE));
            ends::write(found.ends.get(..count).unwrap_or_default(), batch.asks.limit, answers);
            said::write(&found.said, answers);
            if answers.has_figures() {
                found.show(memo, &devices.ratings, answers);
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

    /// Finds how the checks end, and all else that the numbers of a row decide. A row of which the tables do not say it is to be
    /// judged by itself.
    #[inline(never)]
    fn judge(&mut self, rows: &Rows, count: usize, memo: &Memo<'_>, ratings: &Ratings, asks: Asks, ahead: &Ahead<'_>) {
        let groups = (0..count.div_ceil(GROUP)).filter_map(|group| Some((group, rows.group(group)?)));
        for (group, numbers) in groups {
            self.gather(group, memo, ahead);
            let outcome = widest!(self.tables.compare(&numbers, asks, ratings));
            self.keep(group, &outcome);
        }
    }

    /// Puts what the tables say of each row of a group side by side.
    #[inline(always)]
    fn gather(&mut self, group: usize, memo: &Memo<'_>, ahead: &Ahead<'_>) -> Option<()> {
        let places = self.places.as_chunks_mut::<GROUP>().0.get_mut(group)?;
        let combinations = self.combinations.as_chunks::<GROUP>().0.get(group)?;
        for (at, (place, combination)) in places.iter_mut().zip(combinations).enumerate() {
            ahead.ask(group * GROUP + at);
            match (memo.alike(*place), memo.combination(*combination)) {
                (Some(alike), Some(combination)) => self.tables.put(at, alike, combination)?,
                _ => *place = ALONE,
            }
        }
        Some(())
    }

    #[inline(always)]
    fn keep(&mut self, group: usize, outcome: &Outcome) -> Option<()> {
        *self.ends.as_chunks_mut().0.get_mut(group)? = outcome.ends;
        *self.said.as_chunks_mut().0.get_mut(group)? = outcome.said;
        *self.nanovolts.as_chunks_mut().0.get_mut(group)? = outcome.nanovolts;
        *self.least.as_chunks_mut().0.get_mut(group)? = outcome.least;
        let places = self.places.as_chunks_mut::<GROUP>().0.get_mut(group)?;
        for (place, far) in places.iter_mut().zip(&outcome.far) {
            *place = if *far { ALONE } else { *place };
        }
        Some(())
    }

    /// Writes the figures that the tables have.
    #[inline(never)]
    fn show(&mut self, memo: &Memo<'_>, ratings: &Ratings, answers: &mut Answers<'_>) {
        let [ampacity, largest] = &mut self.spare;
        let ampacity = answers.ampacity_a.as_deref_mut().unwrap_or(ampacity);
        let largest = answers.largest_device_a.as_deref_mut().unwrap_or(largest);
        for ((ampacity, largest), place) in ampacity.iter_mut().zip(largest).zip(&self.places) {
            if let Some(alike) = memo.alike(*place) {
                (*ampacity, *largest) = (alike.usable_a, alike.largest_a);
            }
        }
        if let Some(least) = &mut answers.least_device_a {
            for (least, place) in least.iter_mut().zip(&self.least) {
                *least = ratings.at(*place);
            }
        }
    }
}
