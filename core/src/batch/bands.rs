//! The numbers of a row that choose in tables: its ambient, its count of conductors and its device, as one small number.
//!
//! Two rows of the same words are alike to the tables when their ambients have the same correction factors, their counts of
//! conductors the same adjustment, and their devices lie on the same side of the boundary of 110.14(C)(1).

use crate::code::{Code, ConductorRating, Gap, Lookup, Termination};
use crate::published::Cell;
use crate::quantity::{Celsius, Ratio};

/// The bands that were met.
pub(super) struct Bands<'c> {
    code: &'c dyn Code,
    /// The device rating at or below which unmarked terminals take the lower column.
    boundary: i64,
    ambients: Vec<[Lookup<Ratio>; 3]>,
    /// Ambients met lately, each with what it adds to the number of a band.
    latest: Box<[(i64, u32); LATEST]>,
    /// By count; [`UNKNOWN`] where it has not been met.
    counts: Box<[u8; COUNTS]>,
    adjustments: Vec<Result<Option<Cell<Ratio>>, Gap>>,
}

const LATEST: usize = 256;
const COUNTS: usize = 1024;
const UNKNOWN: u8 = u8::MAX;
/// Ambients and adjustments that tables tell apart, with room; a band is one of each, on one side of the boundary.
const AMBIENTS: usize = 32;
const ADJUSTMENTS: usize = 8;
/// How many bands there are.
pub(super) const BANDS: usize = AMBIENTS * ADJUSTMENTS * 2;

impl<'c> Bands<'c> {
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
        }
    }

    /// The band of a row. Two that differ in their last bit alone lie on the two sides of the boundary.
    #[inline(always)]
    pub(super) fn of(&mut self, ambient: i64, current_carrying: i64, device: i64) -> Option<u32> {
        Some(self.ambient(ambient)? + self.count(current_carrying)? + u32::from(device > self.boundary))
    }

    /// What ambients of the same factors add to the number of a band.
    #[inline(always)]
    fn ambient(&mut self, ambient: i64) -> Option<u32> {
        let slot = (ambient.wrapping_mul(0x9e37_79b9).cast_unsigned() >> 20) as usize % LATEST;
        match self.latest.get(slot) {
            Some((known, place)) if *known == ambient => Some(*place),
            _ => self.new_ambient(slot, ambient),
        }
    }

    #[cold]
    #[inline(never)]
    fn new_ambient(&mut self, slot: usize, ambient: i64) -> Option<u32> {
        let ambient_c = Celsius::new(ambient)?;
        let factors = ConductorRating::ALL.map(|rating| self.code.ambient_factor(rating, ambient_c));
        let place = place_of(&mut self.ambients, factors, AMBIENTS)? * ADJUSTMENTS as u32 * 2;
        if let Some(latest) = self.latest.get_mut(slot) {
            *latest = (ambient, place);
        }
        Some(place)
    }

    /// What counts of the same adjustment add to it.
    #[inline(always)]
    fn count(&mut self, count: i64) -> Option<u32> {
        let at = usize::try_from(count).ok()?;
        match *self.counts.get(at)? {
            UNKNOWN => self.new_count(at, u16::try_from(count).ok()?),
            place => Some(u32::from(place)),
        }
    }

    #[cold]
    #[inline(never)]
    fn new_count(&mut self, at: usize, count: u16) -> Option<u32> {
        let factor = self.code.bundling_factor(count);
        let place = place_of(&mut self.adjustments, factor, ADJUSTMENTS)? * 2;
        if let Some(known) = self.counts.get_mut(at) {
            *known = u8::try_from(place).ok()?;
        }
        Some(place)
    }
}

/// The place of a value in a list that grows up to `most`.
fn place_of<T: PartialEq>(list: &mut Vec<T>, value: T, most: usize) -> Option<u32> {
    let place = list.iter().position(|known| *known == value).unwrap_or(list.len());
    if place == list.len() {
        if place >= most {
            return None;
        }
        list.push(value);
    }
    u32::try_from(place).ok()
}
