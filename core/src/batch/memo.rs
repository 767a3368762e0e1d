//! What was asked of the tables so far, so that it is asked once.

use std::collections::BTreeMap;

use super::alike::{Alike, Combination, Factors, Key, Largest, PerUnit, Size, largest};
use super::bands::{BANDS, Bands};
use super::circuit::{Circuit, Phases};
use super::kinds::Kinds;
use super::ratings::Ratings;
use super::told::Told;
use super::words::{BAD, KEY, PROTECTED, SIZE, Words};
use crate::code::Code;
use crate::quantity::Amperes;
use crate::trade::{ContinuousRating, DeviceKind, TerminalMark};

/// What one worker remembers.
pub(super) struct Memo<'c> {
    code: &'c dyn Code,
    /// `None` where what the code says of devices has a gap: every row is then judged by itself.
    devices: Option<Devices>,
    pub(super) bands: Bands<'c>,
    /// Numbers of combinations, by words and by the index of the batch: [`NEW`] where it has not been met.
    by_words: Kinds,
    by_index: Vec<u32>,
    /// The first says nothing.
    combinations: Vec<Combination>,
    /// By what the tables are asked with: where the places of a kind begin.
    kinds: BTreeMap<u64, u32>,
    /// By kind and band, where in `alike` the answer is; [`NEW`] where it has not been asked.
    places: Vec<u32>,
    /// The place of the first is 1. Each stands there once, so that all of them stay in the caches.
    alike: Vec<Alike>,
    alike_by_key: BTreeMap<Key, u32>,
    sizes: BTreeMap<u64, Option<Size>>,
    largest: BTreeMap<(u64, u64), Largest>,
}

/// What the code says of devices.
pub(super) struct Devices {
    pub(super) ratings: Ratings,
    /// Of the usual device, and of one listed for 100 %.
    factors: [Factors; 2],
}

const NEW: u32 = u32::MAX;
/// Where no answer is: the row is judged by itself.
pub(super) const ALONE: u32 = 0;
/// So many that few data need them, so few that no data fills the memory.
const MOST_COMBINATIONS: usize = 1 << 15;
const MOST_KINDS: usize = 1 << 13;
const MOST_ALIKE: usize = 1 << 19;

impl<'c> Memo<'c> {
    pub(super) fn new(code: &'c dyn Code) -> Self {
        Self {
            code,
            devices: Devices::of(code),
            bands: Bands::new(code),
            by_words: Kinds::new(),
            by_index: Vec::new(),
            combinations: vec![Combination::NONE],
            kinds: BTreeMap::new(),
            places: Vec::new(),
            alike: Vec::new(),
            alike_by_key: BTreeMap::new(),
            sizes: BTreeMap::new(),
            largest: BTreeMap::new(),
        }
    }

    /// Forgets the index of another batch, for one of so many combinations.
    pub(super) fn begin(&mut self, combinations: usize) {
        self.by_index.clear();
        self.by_index.resize(combinations, NEW);
    }

    /// About how many bytes it takes.
    pub(super) fn bytes(&self) -> usize {
        let alike = self.alike.len() * size_of::<(Key, u32)>();
        size_of_val(&*self.places) + size_of_val(&*self.alike) + size_of_val(&*self.combinations) + alike
    }

    pub(super) const fn devices(&self) -> Option<&Devices> {
        self.devices.as_ref()
    }

    /// The number of the combination that the batch has at an index; [`ALONE`] for one that must be judged by itself, and
    /// for a row of which nothing could be read. `at` is the row, should it be the first.
    #[inline(always)]
    pub(super) fn indexed(&mut self, index: u16, at: usize, told: &mut Told<'_>) -> u32 {
        match self.by_index.get(usize::from(index)).copied().unwrap_or(ALONE) {
            NEW => self.learn_index(index, at, told),
            number => number,
        }
    }

    /// The same of a combination by its words.
    #[inline(always)]
    pub(super) fn spoken(&mut self, words: u64, at: usize, told: &mut Told<'_>) -> u32 {
        match self.by_words.find(words) {
            Some(number) => number,
            None => self.learn_words(words, at, told).unwrap_or(ALONE),
        }
    }

    /// Where what the tables say of rows like this one is. [`ALONE`] where there are too many to remember.
    #[inline(always)]
    pub(super) fn find(&mut self, number: u32, band: u32, at: usize, told: &mut Told<'_>) -> u32 {
        let Some(combination) = self.combinations.get(number as usize) else { return ALONE };
        let cell = combination.places.wrapping_add(band) as usize;
        match self.places.get(cell).copied().unwrap_or(ALONE) {
            NEW => self.learn(cell, at, told),
            place => place,
        }
    }

    #[inline(always)]
    pub(super) fn combination(&self, number: u32) -> Option<&Combination> {
        self.combinations.get(number as usize)
    }

    /// What is at a place that was found; `None` for [`ALONE`].
    #[inline(always)]
    pub(super) fn alike(&self, place: u32) -> Option<&Alike> {
        // One that says nothing would stand at 0.
        self.alike.get((place as usize).wrapping_sub(1))
    }

    #[cold]
    #[inline(never)]
    fn learn_index(&mut self, index: u16, at: usize, told: &mut Told<'_>) -> u32 {
        let words = told.words(at);
        // Another batch may have had them at another index.
        let Some(number) = self.by_words.find(words).or_else(|| self.learn_words(words, at, told)) else {
            return ALONE;
        };
        if let Some(known) = self.by_index.get_mut(usize::from(index)) {
            *known = number;
        }
        number
    }

    /// `None` where nothing could be read.
    #[cold]
    #[inline(never)]
    fn learn_words(&mut self, words: u64, at: usize, told: &mut Told<'_>) -> Option<u32> {
        let circuit = if words & BAD == 0 { told.met(at)? } else { None };
        let number = circuit.and_then(|circuit| self.combine(words, &circuit)).unwrap_or(ALONE);
        if self.by_words.taken() < MOST_COMBINATIONS {
            self.by_words.insert(words, number);
        }
        Some(number)
    }

    /// `None` where a table has a gap, or there is no more room.
    fn combine(&mut self, words: u64, circuit: &Circuit) -> Option<u32> {
        let number =
            u32::try_from(self.combinations.len()).ok().filter(|_| self.combinations.len() < MOST_COMBINATIONS)?;
        let size = *self.sizes.entry(words & SIZE).or_insert_with(|| Size::of(self.code, circuit));
        let places = match self.kinds.get(&(words & KEY)) {
            Some(places) => *places,
            None if self.kinds.len() >= MOST_KINDS => return None,
            None => {
                let places = u32::try_from(self.places.len()).ok()?;
                self.places.resize(self.places.len() + BANDS, NEW);
                self.kinds.insert(words & KEY, places);
                places
            }
        };
        self.combinations.push(Combination::of(Words(words), &size?, self.devices.as_ref()?, places)?);
        Some(number)
    }

    #[cold]
    #[inline(never)]
    fn learn(&mut self, cell: usize, at: usize, told: &mut Told<'_>) -> u32 {
        // A row of which nothing could be read teaches nothing.
        let Some(Some(circuit)) = told.met(at) else { return ALONE };
        let place = self.ask(told.words(at), &circuit).unwrap_or(ALONE);
        // Marked terminals admit the same column whatever the rating: the other side of the boundary is known as well.
        let marked = circuit.conditions.terminals != TerminalMark::Unmarked;
        for cell in [cell, if marked { cell ^ 1 } else { cell }] {
            if let Some(known) = self.places.get_mut(cell) {
                *known = place;
            }
        }
        place
    }

    /// `None` where there is no more room.
    fn ask(&mut self, words: u64, circuit: &Circuit) -> Option<u32> {
        let (code, known) = (self.code, &mut self.largest);
        let largest = |usable: Amperes| {
            let key = (usable.microamperes().cast_unsigned(), words & PROTECTED);
            *known.entry(key).or_insert_with(|| largest(code, circuit, usable))
        };
        let alike = Alike::of(code, circuit, largest);
        if let Some(place) = self.alike_by_key.get(&alike.key()) {
            return Some(*place);
        }
        let place = u32::try_from(self.alike.len() + 1).ok().filter(|_| self.alike.len() < MOST_ALIKE)?;
        self.alike.push(alike);
        self.alike_by_key.insert(alike.key(), place);
        Some(place)
    }
}

impl Devices {
    fn of(code: &dyn Code) -> Option<Self> {
        let factors = |rating| Factors::of(code, rating);
        let factors = [factors(ContinuousRating::Standard)?, factors(ContinuousRating::Listed100)?];
        Some(Self { ratings: Ratings::of(code)?, factors })
    }
}

impl Combination {
    /// What is said of no row: there is no such place.
    const NONE: Self = Self {
        factors: Factors { device: 0, conductor: 0 },
        continuous_most: 0,
        drop: PerUnit::NONE,
        places: NEW - BANDS as u32,
        ratings: 0,
    };

    fn of(words: Words, size: &Size, devices: &Devices, places: u32) -> Option<Self> {
        let listed = usize::from(words.continuous_rating() == ContinuousRating::Listed100);
        Some(Self {
            factors: *devices.factors.get(listed)?,
            continuous_most: size.continuous_most,
            drop: *size.drop.get(usize::from(words.phases() == Some(Phases::ThreePhase)))?,
            places,
            ratings: devices.ratings.first(words.kind() == DeviceKind::Fuse),
        })
    }
}
