//! What the tables say of rows that are alike, asked once and kept as whole numbers.
//!
//! Two rows are alike to the tables when their words are the same, their ambients have the same correction factors, their
//! counts of conductors the same adjustment, and their devices lie on the same side of the boundary of 110.14(C)(1).
//! Everything kept comes from the functions of `calc`; what is left for a row are comparisons.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

use super::answers::{ampacity_governor, device_governor, shown};
use super::circuit::{Circuit, METHOD, Phases};
use super::judge::Row;
use super::reason::Reason;
use super::words::{WIDTH, Words};
use crate::calc::ampacity::{ampacity, before_factors};
use crate::calc::continuous::factors;
use crate::calc::voltage_drop::{Segment, Wire, voltage_drop};
use crate::calc::{CannotTell, Silent};
use crate::code::{Code, ConductorRating, Lookup, Termination};
use crate::quantity::{Amperes, Celsius, Meters, NANOVOLT, Quantity, Ratio, Volts};
use crate::trade::DeviceKind;

/// What rows of one key have in common. Counts are of the smallest units; a reason stands where there is none.
#[derive(Clone, Copy, Debug)]
pub(super) struct Alike {
    pub(super) usable: i64,
    pub(super) before: i64,
    /// Millionths.
    pub(super) device_factor: i64,
    pub(super) conductor_factor: i64,
    pub(super) largest_strict: i64,
    pub(super) largest_loose: i64,
    /// The greatest continuous load of a small conductor.
    pub(super) continuous_most: i64,
    pub(super) drop: PerUnit,
    pub(super) ampacity_a: f64,
    pub(super) largest_a: f64,
    pub(super) kind: DeviceKind,
    pub(super) ampacity_governed_by: u8,
    pub(super) largest_governed_by: u8,
    pub(super) no_ampacity: Reason,
    pub(super) no_before: Reason,
    pub(super) no_factors: Reason,
    pub(super) no_protection: Reason,
    pub(super) no_drop: Reason,
}

/// The drop of one microampere over one micrometer in nanovolts, as a fraction in lowest terms.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct PerUnit {
    pub(super) numerator: i64,
    /// 0 where the fraction is too fine for 64 bits: such rows are judged one by one.
    pub(super) denominator: i64,
    /// Their quotient, to start from.
    pub(super) quotient: f64,
}

impl Alike {
    fn of(code: &dyn Code, circuit: &Circuit, phases: Option<Phases>) -> Self {
        let of = &circuit.conditions;
        let ampacity = ampacity(code, of, &mut Silent);
        let before = before_factors(code, of, &mut Silent);
        let factors = factors(code, circuit.continuous_rating);
        let protection = ampacity.and_then(|found| circuit.protection(code, found.usable, &mut Silent));
        let drop = phases.map_or(Ok(PerUnit::default()), |phases| PerUnit::of(code, circuit, phases));
        let count = |current: Option<Amperes>| current.map_or(0, Amperes::microamperes);
        let reason = |cannot: Option<CannotTell>| cannot.map_or(Reason::NONE, Reason::gap);
        let factor = |of: fn((Ratio, Ratio)) -> Ratio| factors.map_or(0, |both| of(both).count_of_millionths());
        let found = protection.ok();
        Self {
            usable: count(ampacity.ok().map(|found| found.usable)),
            before: count(before.ok()),
            device_factor: factor(|both| both.0),
            conductor_factor: factor(|both| both.1),
            largest_strict: count(found.map(|found| found.strict.rating)),
            largest_loose: count(found.map(|found| found.loose.rating)),
            continuous_most: found.and_then(|found| found.continuous).map_or(i64::MAX, Amperes::microamperes),
            drop: drop.unwrap_or_default(),
            ampacity_a: ampacity.map_or(f64::NAN, |found| shown(found.usable)),
            largest_a: found.map_or(f64::NAN, |found| shown(found.strict.rating)),
            kind: circuit.kind,
            ampacity_governed_by: ampacity.map_or(0, |found| ampacity_governor(found.governed_by)),
            largest_governed_by: found.map_or(0, |found| device_governor(found.strict.governed_by)),
            no_ampacity: reason(ampacity.err()),
            no_before: reason(before.err()),
            no_factors: reason(factors.err()),
            no_protection: reason(protection.err()),
            no_drop: reason(drop.err()),
        }
    }
}

impl PerUnit {
    /// The drop is exactly proportional to current and length, so that one of each tells all.
    fn of(code: &dyn Code, circuit: &Circuit, phases: Phases) -> Result<Self, CannotTell> {
        let wire = Wire::Sized(circuit.conditions.material, circuit.conditions.size);
        let (one, currents) = (Meters::new(1).unwrap_or(Meters::MAX), Amperes::new(1).unwrap_or(Amperes::MAX));
        let segment = Segment { wire, neutral: None, length: one, currents: phases.currents(currents) };
        let drop = voltage_drop(code, Volts::MAX, &[segment], METHOD, &mut Silent)?.drop.count();
        Ok(Self::fraction(drop).unwrap_or_default())
    }

    #[expect(clippy::cast_precision_loss, reason = "only to start from; the remainder is taken exactly")]
    fn fraction(drop: i128) -> Option<Self> {
        let common = gcd(drop.unsigned_abs(), NANOVOLT.unsigned_abs());
        let numerator = i64::try_from(drop.unsigned_abs().checked_div(common)?).ok()?;
        let denominator = i64::try_from(NANOVOLT.unsigned_abs().checked_div(common)?).ok()?;
        // So small that a remainder one denominator off still fits.
        (denominator < i64::MAX / 4).then_some(Self {
            numerator,
            denominator,
            quotient: numerator as f64 / denominator as f64,
        })
    }

    /// The drop in nanovolts, rounded up; `None` where it must be found the long way.
    ///
    /// The quotient is first found in floating point, at most one off; the remainder then says exactly which it is.
    #[inline]
    #[expect(clippy::cast_precision_loss, clippy::cast_possible_truncation, reason = "the remainder corrects it")]
    pub(super) fn nanovolts(&self, current: i64, length: i64) -> Option<i64> {
        // Below 2^49 the estimate is less than one away from the quotient: four roundings of 2^-53 each.
        const MOST: f64 = 562_949_953_421_312.0;
        let estimate = current as f64 * length as f64 * self.quotient;
        if self.denominator == 0 || estimate >= MOST {
            return None;
        }
        let quotient = estimate as i64;
        // Modulo 2^64 on both sides: the difference is small, so it is what it would be in whole numbers.
        let product = current.wrapping_mul(length).wrapping_mul(self.numerator);
        let remainder = product.wrapping_sub(quotient.wrapping_mul(self.denominator));
        let over = i64::from(remainder > 0) + i64::from(remainder > self.denominator);
        Some(quotient + over - i64::from(remainder <= -self.denominator))
    }
}

fn gcd(mut a: u128, mut b: u128) -> u128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a.max(1)
}

/// Mixes a number that is already dense.
#[derive(Default)]
pub(super) struct Mix(u64);

impl Hasher for Mix {
    fn finish(&self) -> u64 {
        self.0
    }

    fn write(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.write_u64(u64::from(*byte));
        }
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
    latest: Vec<(i64, u64)>,
    counts: Vec<Option<u64>>,
    adjustments: Vec<Result<Option<crate::published::Cell<Ratio>>, crate::code::Gap>>,
    places: HashMap<u64, u32, BuildHasherDefault<Mix>>,
    alike: Vec<Alike>,
    last: (u64, u32),
}

const AMBIENT: u32 = WIDTH;
const COUNT: u32 = WIDTH + 8;
const ABOVE: u32 = WIDTH + 14;
const LATEST: usize = 256;
/// So many that no data of this world needs them, so few that no data fills the memory.
const MOST_ALIKE: usize = 1 << 20;

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
            latest: vec![(i64::MIN, 0); LATEST],
            counts: vec![None; 1000],
            adjustments: Vec::new(),
            places: HashMap::default(),
            alike: Vec::new(),
            last: (u64::MAX, 0),
        }
    }

    /// What the tables say of rows like this one; `None` where there are too many kinds of rows to remember.
    /// `circuit` is the row, should it be the first of its kind.
    #[inline]
    pub(super) fn find(&mut self, key: &Row, circuit: impl FnOnce() -> Option<Circuit>) -> Option<&Alike> {
        let ambient = self.ambient(key.ambient)?;
        let count = self.count(key.current_carrying)?;
        let above = u64::from(key.device > self.boundary);
        let whole = key.words | ambient << AMBIENT | count << COUNT | above << ABOVE;
        if self.last.0 != whole {
            let place = match self.places.get(&whole) {
                Some(place) => *place,
                None => self.learn(whole, &circuit()?, Words(key.words).phases())?,
            };
            self.last = (whole, place);
        }
        self.alike.get(usize::try_from(self.last.1).ok()?)
    }

    #[cold]
    fn learn(&mut self, key: u64, circuit: &Circuit, phases: Option<Phases>) -> Option<u32> {
        let place = u32::try_from(self.alike.len()).ok().filter(|_| self.alike.len() < MOST_ALIKE)?;
        self.alike.push(Alike::of(self.code, circuit, phases));
        self.places.insert(key, place);
        Some(place)
    }

    /// A number that ambients of the same factors share.
    #[inline]
    fn ambient(&mut self, ambient: i64) -> Option<u64> {
        let slot = usize::try_from(ambient.wrapping_mul(0x9e37_79b9).cast_unsigned() >> 20).ok()? % LATEST;
        match self.latest.get(slot) {
            Some((known, place)) if *known == ambient => Some(*place),
            _ => self.new_ambient(slot, ambient),
        }
    }

    #[cold]
    fn new_ambient(&mut self, slot: usize, ambient: i64) -> Option<u64> {
        let ambient_c = Celsius::new(ambient)?;
        let factors = ConductorRating::ALL.map(|rating| self.code.ambient_factor(rating, ambient_c));
        let place = place_of(&mut self.ambients, factors, 1 << (COUNT - AMBIENT))?;
        if let Some(latest) = self.latest.get_mut(slot) {
            *latest = (ambient, place);
        }
        Some(place)
    }

    /// A number that counts of the same adjustment share.
    #[inline]
    fn count(&mut self, count: i64) -> Option<u64> {
        let at = usize::try_from(count).ok()?;
        match self.counts.get(at) {
            Some(Some(place)) => Some(*place),
            _ => self.new_count(at, u16::try_from(count).ok()?),
        }
    }

    #[cold]
    fn new_count(&mut self, at: usize, count: u16) -> Option<u64> {
        let factor = self.code.bundling_factor(count);
        let place = place_of(&mut self.adjustments, factor, 1 << (ABOVE - COUNT))?;
        if let Some(known) = self.counts.get_mut(at) {
            *known = Some(place);
        }
        Some(place)
    }
}

/// The place of a value in a list that grows up to `most`.
fn place_of<T: PartialEq>(list: &mut Vec<T>, value: T, most: usize) -> Option<u64> {
    let place = list.iter().position(|known| *known == value).unwrap_or(list.len());
    if place == list.len() {
        if place >= most {
            return None;
        }
        list.push(value);
    }
    u64::try_from(place).ok()
}

/// The standard ratings of a kind of device that answers may rest on, found without searching.
#[derive(Clone, Debug)]
pub(super) struct Ratings {
    /// Ascending, each with the figure that is shown.
    ratings: Vec<(i64, f64)>,
    /// The first rating not below so many whole amperes.
    first: Vec<u16>,
}

impl Ratings {
    pub(super) fn of(code: &dyn Code, kind: DeviceKind) -> Self {
        // As far as every rating below is known: one that is not could be the next.
        let known = code.standard_ratings(kind).iter().map_while(|rating| rating.ok().map(|cell| cell.value));
        let ratings: Vec<(i64, f64)> = known.map(|rating| (rating.microamperes(), shown(rating))).collect();
        let most = ratings.last().map_or(0, |(most, _)| most / 1_000_000);
        let first = |amperes: i64| ratings.iter().position(|(rating, _)| *rating >= amperes * 1_000_000);
        let first = (0..=most).map(|amperes| first(amperes).and_then(|at| u16::try_from(at).ok()).unwrap_or(u16::MAX));
        Self { first: first.collect(), ratings }
    }

    /// The smallest that is not below a load in millionths of a microampere; NaN above the last.
    #[inline]
    pub(super) fn next(&self, required: i128) -> f64 {
        let amperes = i64::try_from(required).map_or(i64::MAX, |required| required / 1_000_000_000_000);
        let first = usize::try_from(amperes).ok().and_then(|amperes| self.first.get(amperes));
        let mut from = first.and_then(|first| self.ratings.get(usize::from(*first)..)).unwrap_or_default().iter();
        from.find(|(rating, _)| required <= i128::from(*rating) * 1_000_000).map_or(f64::NAN, |(_, shown)| *shown)
    }
}
