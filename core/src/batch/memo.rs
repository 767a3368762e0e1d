//! What was asked of the tables so far, so that it is asked once.
//!
//! Two rows are alike to the tables when their words are the same, their ambients have the same correction factors, their
//! counts of conductors the same adjustment, and their devices lie on the same side of the boundary of 110.14(C)(1).

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

use super::alike::{Alike, Largest, Size, largest};
use super::circuit::Circuit;
use super::kinds::Kinds;
use super::rows::Like;
use super::words::{KEY, PROTECTED, SIZE};
use crate::code::{Code, ConductorRating, Gap, Lookup, Termination};
use crate::published::Cell;
use crate::quantity::{Amperes, Celsius, Ratio};
use crate::trade::TerminalMark;

/// Mixes a number that is already dense.
#[derive(Default)]
pub(super) struct Mix(u64);

impl Hasher for Mix {
    fn finish(&self) -> u64 {
        self.0
    }

    fn write(&mut self, bytes: &[u8]) {
        bytes.iter().for_each(|byte| self.write_u64(u64::from(*byte)));
    }

    fn write_u64(&mut self, number: u64) {
        let wide = u128::from(self.0 ^ number) * 0x9e37_79b9_7f4a_7c15;
        self.0 = (wide >> 64) as u64 ^ wide as u64;
    }
}

/// What one worker remembers.
pub(super) struct Memo<'c> {
    code: &'c dyn Code,
    /// The device rating at or below which unmarked terminals take the lower column.
    boundary: i64,
    ambients: Vec<[Lookup<Ratio>; 3]>,
    /// Ambients met lately, each with its place above.
    latest: Box<[(i64, usize); LATEST]>,
    /// By count; [`UNKNOWN`] where it has not been met.
    counts: Box<[u8; COUNTS]>,
    adjustments: Vec<Result<Option<Cell<Ratio>>, Gap>>,
    kinds: Kinds,
    /// By kind and band, where in `alike` the answer is; [`NEW`] where it has not been asked.
    places: Vec<u32>,
    /// The first says nothing.
    alike: Vec<Alike>,
    by_size: HashMap<u64, u32, BuildHasherDefault<Mix>>,
    /// The first says nothing.
    sizes: Vec<Size>,
    largest: HashMap<(u64, u64), Option<Largest>, BuildHasherDefault<Mix>>,
}

const LATEST: usize = 256;
const COUNTS: usize = 1024;
const UNKNOWN: u8 = u8::MAX;
const NEW: u32 = u32::MAX;
/// Where no answer is: the row is judged by itself.
pub(super) const ALONE: u32 = 0;
/// Ambients and adjustments that tables tell apart, with room; a band is one of each, on one side of the boundary.
const AMBIENTS: usize = 32;
const ADJUSTMENTS: usize = 16;
const BANDS: usize = AMBIENTS * ADJUSTMENTS * 2;
/// So many that few data need them, so few that no data fills the memory.
const MOST_KINDS: u32 = 1 << 13;
const MOST_ALIKE: usize = 1 << 19;

impl<'c> Memo<'c> {
    pub(super) fn new(code: &'c dyn Code) -> Self {
        let boundary = match code.termination() {
            Termination::ColumnCap { boundary: Ok(boundary), .. } => boundary.value.microamperes(),
            Termination::ColumnCap { .. } => i64::MAX,
        };
        Self {
            code,
            boundary,
            ambients: Vec::new(),
            latest: Box::new([(i64::MIN, 0); LATEST]),
            counts: Box::new([UNKNOWN; COUNTS]),
            adjustments: Vec::new(),
            kinds: Kinds::new(),
            places: Vec::new(),
            alike: vec![Alike::NONE],
            by_size: HashMap::default(),
            sizes: vec![Size::default()],
            largest: HashMap::default(),
        }
    }

    /// Where what the tables say of rows like this one is. [`ALONE`] where they have a gap, where there are too many
    /// kinds of rows to remember, and for a row that is no circuit. `circuit` is the row, should it be the first.
    #[inline(always)]
    pub(super) fn find(&mut self, row: &Like, circuit: impl FnOnce() -> Option<Circuit>) -> u32 {
        let Some(band) = self.band(row) else { return ALONE };
        let words = row.words & KEY;
        let kind = self.kinds.find(words).unwrap_or(usize::MAX / BANDS);
        match self.places.get(kind * BANDS + band).copied().unwrap_or(NEW) {
            NEW => self.learn(words, band, circuit()),
            place => place,
        }
    }

    /// What is at a place that was found.
    #[inline(always)]
    pub(super) fn alike(&self, place: u32) -> &Alike {
        self.alike.get(place as usize).unwrap_or(&Alike::NONE)
    }

    /// What the size alone decides.
    #[inline(always)]
    pub(super) fn size(&self, alike: &Alike) -> Option<&Size> {
        self.sizes.get(alike.size as usize)
    }

    #[cold]
    #[inline(never)]
    fn learn(&mut self, words: u64, band: usize, circuit: Option<Circuit>) -> u32 {
        let kind = match self.kinds.find(words) {
            Some(kind) => kind,
            None if self.kinds.met() >= MOST_KINDS => return ALONE,
            None => {
                self.places.resize(self.places.len() + BANDS, NEW);
                self.kinds.insert(words)
            }
        };
        let place = circuit.as_ref().and_then(|circuit| self.ask(words, circuit)).unwrap_or(ALONE);
        let cell = kind * BANDS + band;
        // Marked terminals admit the same column whatever the rating: the other side of the boundary is known as well.
        let marked = circuit.is_some_and(|circuit| circuit.conditions.terminals != TerminalMark::Unmarked);
        for cell in [cell, if marked { cell ^ 1 } else { cell }] {
            if let Some(known) = self.places.get_mut(cell) {
                *known = place;
            }
        }
        place
    }

    /// `None` where a table has a gap, or there is no more room.
    fn ask(&mut self, words: u64, circuit: &Circuit) -> Option<u32> {
        let place = u32::try_from(self.alike.len()).ok().filter(|_| self.alike.len() < MOST_ALIKE)?;
        let size = self.ask_size(words & SIZE, circuit)?;
        let (code, known) = (self.code, &mut self.largest);
        let largest = |usable: Amperes| {
            let key = (usable.microamperes().cast_unsigned(), words & PROTECTED);
            *known.entry(key).or_insert_with(|| largest(code, circuit, usable))
        };
        self.alike.push(Alike::of(code, circuit, size, largest)?);
        Some(place)
    }

    fn ask_size(&mut self, words: u64, circuit: &Circuit) -> Option<u32> {
        if let Some(size) = self.by_size.get(&words) {
            return Some(*size).filter(|size| *size != ALONE);
        }
        let size = Size::of(self.code, circuit).and_then(|size| {
            self.sizes.push(size);
            u32::try_from(self.sizes.len() - 1).ok()
        });
        self.by_size.insert(words, size.unwrap_or(ALONE));
        size
    }

    #[inline(always)]
    fn band(&mut self, row: &Like) -> Option<usize> {
        let (ambient, count) = (self.ambient(row.ambient)?, self.count(row.current_carrying)?);
        Some((ambient * ADJUSTMENTS + count) * 2 + usize::from(row.device > self.boundary))
    }

    /// A number that ambients of the same factors share.
    #[inline(always)]
    fn ambient(&mut self, ambient: i64) -> Option<usize> {
        let slot = (ambient.wrapping_mul(0x9e37_79b9).cast_unsigned() >> 20) as usize % LATEST;
        match self.latest.get(slot) {
            Some((known, place)) if *known == ambient => Some(*place),
            _ => self.new_ambient(slot, ambient),
        }
    }

    #[cold]
    #[inline(never)]
    fn new_ambient(&mut self, slot: usize, ambient: i64) -> Option<usize> {
        let ambient_c = Celsius::new(ambient)?;
        let factors = ConductorRating::ALL.map(|rating| self.code.ambient_factor(rating, ambient_c));
        let place = place_of(&mut self.ambients, factors, AMBIENTS)?;
        if let Some(latest) = self.latest.get_mut(slot) {
            *latest = (ambient, place);
        }
        Some(place)
    }

    /// A number that counts of the same adjustment share.
    #[inline(always)]
    fn count(&mut self, count: i64) -> Option<usize> {
        let at = usize::try_from(count).ok()?;
        match *self.counts.get(at)? {
            UNKNOWN => self.new_count(at, u16::try_from(count).ok()?),
            place => Some(usize::from(place)),
        }
    }

    #[cold]
    #[inline(never)]
    fn new_count(&mut self, at: usize, count: u16) -> Option<usize> {
        let factor = self.code.bundling_factor(count);
        let place = place_of(&mut self.adjustments, factor, ADJUSTMENTS)?;
        if let Some(known) = self.counts.get_mut(at) {
            *known = u8::try_from(place).ok()?;
        }
        Some(place)
    }
}

/// The place of a value in a list that grows up to `most`.
fn place_of<T: PartialEq>(list: &mut Vec<T>, value: T, most: usize) -> Option<usize> {
    let place = list.iter().position(|known| *known == value).unwrap_or(list.len());
    if place == list.len() {
        if place >= most {
            return None;
        }
        list.push(value);
    }
    Some(place)
}
