//! What the tables say of rows that are alike, asked once and kept as whole numbers.
//!
//! Two rows are alike to the tables when their words are the same, their ambients have the same correction factors, their
//! counts of conductors the same adjustment, and their devices lie on the same side of the boundary of 110.14(C)(1).
//! Everything kept comes from the functions of `calc`; what is left for a row are comparisons.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};
use std::hint::select_unpredictable;

use super::answers::{ampacity_governor, device_governor, shown};
use super::circuit::{Circuit, METHOD, Phases};
use super::judge::Row;
use super::words::{KEY, SIZE, WIDTH};
use crate::calc::Silent;
use crate::calc::ampacity::{ampacity, before_factors};
use crate::calc::continuous::factors;
use crate::calc::overcurrent::Supplies;
use crate::calc::voltage_drop::{Segment, Wire, voltage_drop};
use crate::code::{Code, ConductorRating, Gap, Lookup, Termination};
use crate::published::Cell;
use crate::quantity::{Amperes, Celsius, Meters, NANOVOLT, Quantity, Ratio, Volts};
use crate::trade::{ContinuousRating, DeviceKind};

/// What rows of one key have in common, where the tables tell all of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Alike {
    /// In microamperes.
    pub(super) usable: i64,
    /// In millionths of a microampere, as loads with their factor are.
    pub(super) before: i64,
    /// In microamperes: for several receptacles, and for anything else.
    pub(super) largest: [i64; 2],
    pub(super) largest_governed_by: [u8; 2],
    pub(super) ampacity_governed_by: u8,
    /// The place of what the size alone decides.
    size: u32,
}

/// What the size of a conductor alone decides.
#[derive(Clone, Copy, Debug)]
pub(super) struct Size {
    /// The greatest continuous load of a small conductor.
    pub(super) continuous_most: i64,
    /// Over two wires, and over three phases.
    pub(super) drop: [PerUnit; 2],
}

pub(super) const MILLION: i64 = 1_000_000;

// A load in millionths of a microampere fits, and so does one with any factor of `Factors`.
const _: () = assert!((1 + 2 * Factors::MOST / MILLION) as i128 * 1_000_000 * Amperes::MAXIMUM < i64::MAX as i128);

impl Alike {
    /// `None` where a table has a gap.
    fn of(code: &dyn Code, circuit: &Circuit, size: u32) -> Option<Self> {
        let ampacity = ampacity(code, &circuit.conditions, &mut Silent).ok()?;
        let before = before_factors(code, &circuit.conditions, &mut Silent).ok()?;
        let largest = |supplies| circuit.largest(code, ampacity.usable, supplies, &mut Silent).ok();
        let largest = [largest(Supplies::SeveralReceptacles)?, largest(Supplies::Other)?];
        Some(Self {
            usable: ampacity.usable.microamperes(),
            before: before.microamperes() * MILLION,
            largest: largest.map(|found| found.rating.microamperes()),
            largest_governed_by: largest.map(|found| device_governor(found.governed_by)),
            ampacity_governed_by: ampacity_governor(ampacity.governed_by),
            size,
        })
    }
}

impl Size {
    /// `None` where a table has a gap.
    fn of(code: &dyn Code, circuit: &Circuit) -> Option<Self> {
        let drop = |phases| PerUnit::of(code, circuit, phases);
        let continuous_most = circuit.continuous_most(code).map_or(i64::MAX, Amperes::microamperes);
        Some(Self { continuous_most, drop: [drop(Phases::TwoWire)?, drop(Phases::ThreePhase)?] })
    }
}

/// The factors of continuous loads, in millionths.
#[derive(Clone, Copy, Debug)]
pub(super) struct Factors {
    pub(super) device: i64,
    pub(super) conductor: i64,
}

impl Factors {
    /// More than any code asks.
    const MOST: i64 = 20 * MILLION;

    /// `None` where a table has a gap, or a factor is too large for a load times it to fit 64 bits.
    pub(super) fn of(code: &dyn Code, rating: ContinuousRating) -> Option<Self> {
        let (device, conductor) = factors(code, rating).ok()?;
        let count = |factor: Ratio| Some(factor.count_of_millionths()).filter(|count| *count <= Self::MOST);
        Some(Self { device: count(device)?, conductor: count(conductor)? })
    }
}

/// The drop of one microampere over one micrometer in nanovolts, as a fraction in lowest terms.
#[derive(Clone, Copy, Debug)]
pub(super) struct PerUnit {
    pub(super) numerator: i64,
    pub(super) denominator: i64,
    /// Their quotient, to start from.
    pub(super) quotient: f64,
}

impl PerUnit {
    /// The drop is exactly proportional to current and length, so that one of each tells all.
    fn of(code: &dyn Code, circuit: &Circuit, phases: Phases) -> Option<Self> {
        let wire = Wire::Sized(circuit.conditions.material, circuit.conditions.size);
        let (one, currents) = (Meters::new(1).unwrap_or(Meters::MAX), Amperes::new(1).unwrap_or(Amperes::MAX));
        let segment = Segment { wire, neutral: None, length: one, currents: phases.currents(currents) };
        Self::fraction(voltage_drop(code, Volts::MAX, &[segment], METHOD, &mut Silent).ok()?.drop.count())
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
    #[inline(always)]
    #[expect(clippy::cast_precision_loss, reason = "the remainder corrects it")]
    pub(super) fn nanovolts(&self, current: i64, length: i64) -> Option<i64> {
        let estimate = current as f64 * length as f64 * self.quotient;
        (estimate < NEAR).then(|| {
            // Modulo 2^64 on both sides: the remainder is small, so it is what it would be in whole numbers.
            let product = current.wrapping_mul(length).wrapping_mul(self.numerator);
            let quotient = nearest(estimate);
            quotient + i64::from(product.wrapping_sub(quotient.wrapping_mul(self.denominator)) > 0)
        })
    }
}

/// A quotient below [`NEAR`], rounded up.
#[inline(always)]
#[expect(clippy::cast_precision_loss, reason = "the remainder corrects it")]
pub(super) fn div_ceil(dividend: i64, divisor: i64) -> i64 {
    let quotient = nearest(dividend as f64 / divisor as f64);
    quotient + i64::from(dividend > quotient.wrapping_mul(divisor))
}

/// Below 2^49 a product of three factors in floating point is less than half away from the true one: each rounding adds
/// 2^-53 of it, and there are five with those of the quotient. The nearest whole number is then less than one away, and
/// the sign of the exact remainder says whether to take the next.
const NEAR: f64 = 562_949_953_421_312.0;

/// The whole number nearest to one below 2^51: after this sum they are its last bits.
#[inline(always)]
fn nearest(number: f64) -> i64 {
    const ROUND: f64 = 6_755_399_441_055_744.0; // 3 · 2^51
    (number + ROUND).to_bits().wrapping_sub(ROUND.to_bits()).cast_signed()
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
    latest: Box<[(i64, u64); LATEST]>,
    /// By count; [`UNKNOWN`] where it has not been met.
    counts: Box<[u8; COUNTS]>,
    adjustments: Vec<Result<Option<Cell<Ratio>>, Gap>>,
    sizes: Vec<(u64, Option<Size>)>,
    alike: HashMap<u64, Option<Alike>, BuildHasherDefault<Mix>>,
}

/// Where in a key the ambient, the count and the side of the boundary stand: above the words.
const AMBIENT: u32 = WIDTH;
const COUNT: u32 = WIDTH + 8;
const ABOVE: u32 = WIDTH + 14;
const LATEST: usize = 256;
const COUNTS: usize = 1024;
const UNKNOWN: u8 = u8::MAX;
/// So many that few data need them, so few that no data fills the memory.
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
            sizes: Vec::new(),
            alike: HashMap::default(),
        }
    }

    /// What the tables say of rows like this one. `None` where they have a gap, where there are too many kinds of rows to
    /// remember, and for a row that is no circuit. `circuit` is the row, should it be the first of its kind.
    #[inline]
    pub(super) fn find(&mut self, row: Row, circuit: impl FnOnce() -> Option<Circuit>) -> Option<Alike> {
        let (ambient, count) = (self.ambient(row.ambient)?, self.count(row.current_carrying)?);
        let above = u64::from(row.device > self.boundary);
        let key = row.words & KEY | ambient << AMBIENT | count << COUNT | above << ABOVE;
        match self.alike.get(&key) {
            Some(alike) => *alike,
            None => self.learn(key, &circuit()?),
        }
    }

    /// What the size alone decides.
    #[inline]
    pub(super) fn size(&self, alike: &Alike) -> Option<&Size> {
        self.sizes.get(alike.size as usize)?.1.as_ref()
    }

    #[cold]
    #[inline(never)]
    fn learn(&mut self, key: u64, circuit: &Circuit) -> Option<Alike> {
        if self.alike.len() >= MOST_ALIKE {
            return None;
        }
        let known = self.sizes.iter().position(|(size, _)| *size == key & SIZE);
        let size = known.unwrap_or_else(|| {
            self.sizes.push((key & SIZE, Size::of(self.code, circuit)));
            self.sizes.len() - 1
        });
        let alike = Alike::of(self.code, circuit, u32::try_from(size).ok()?);
        self.alike.insert(key, alike);
        alike
    }

    /// A number that ambients of the same factors share.
    #[inline]
    fn ambient(&mut self, ambient: i64) -> Option<u64> {
        let slot = (ambient.wrapping_mul(0x9e37_79b9).cast_unsigned() >> 20) as usize % LATEST;
        match self.latest.get(slot) {
            Some((known, place)) if *known == ambient => Some(*place),
            _ => self.new_ambient(slot, ambient),
        }
    }

    #[cold]
    #[inline(never)]
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
        match *self.counts.get(at)? {
            UNKNOWN => self.new_count(at, u16::try_from(count).ok()?),
            place => Some(u64::from(place)),
        }
    }

    #[cold]
    #[inline(never)]
    fn new_count(&mut self, at: usize, count: u16) -> Option<u64> {
        let factor = self.code.bundling_factor(count);
        let place = place_of(&mut self.adjustments, factor, 1 << (ABOVE - COUNT))?;
        if let Some(known) = self.counts.get_mut(at) {
            *known = u8::try_from(place).ok()?;
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

/// The standard ratings that answers may rest on, found without searching.
#[derive(Clone, Debug)]
pub(super) struct Ratings {
    /// What is shown of the smallest rating of breakers that is not below so many whole amperes; then those of fuses.
    by_ampere: Vec<f64>,
    /// How many there are of each.
    each: usize,
}

const AMPERE: i64 = MILLION * MILLION;

impl Ratings {
    /// `None` for a code whose ratings are not all whole amperes.
    pub(super) fn of(code: &dyn Code) -> Option<Self> {
        let (mut breakers, mut fuses) = (Self::known(code, DeviceKind::Breaker)?, Self::known(code, DeviceKind::Fuse)?);
        let each = breakers.len().max(fuses.len()) + 1;
        breakers.resize(each, f64::NAN);
        fuses.resize(each, f64::NAN);
        breakers.extend(fuses);
        Some(Self { by_ampere: breakers, each })
    }

    /// By ampere, as far as every rating below is known: one that is not could be the next.
    fn known(code: &dyn Code, kind: DeviceKind) -> Option<Vec<f64>> {
        let known = code.standard_ratings(kind).iter().map_while(|rating| rating.ok().map(|cell| cell.value));
        let mut by_ampere = Vec::new();
        for rating in known.map(Amperes::microamperes) {
            let amperes = usize::try_from(rating / MILLION).ok().filter(|_| rating % MILLION == 0)?;
            by_ampere.resize(by_ampere.len().max(amperes + 1), shown(rating));
        }
        Some(by_ampere)
    }

    /// The smallest that is not below a load in millionths of a microampere; NaN above the last.
    #[inline(always)]
    pub(super) fn next(&self, fuse: bool, required: i64) -> f64 {
        let amperes = (required + (AMPERE - 1)).cast_unsigned() / AMPERE.cast_unsigned();
        // Above the last rating stands a NaN of its kind.
        let at = (amperes as usize).min(self.each - 1) + select_unpredictable(fuse, self.each, 0);
        self.by_ampere.get(at).copied().unwrap_or(f64::NAN)
    }
}
