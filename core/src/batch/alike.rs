//! What the tables say of rows that are alike, as whole numbers.
//!
//! Everything kept comes from the functions of `calc`; what is left for a row are comparisons.

use super::answers::{ampacity_governor, device_governor, shown};
use super::circuit::{Circuit, METHOD, Phases};
use super::ends::Open;
use super::reason::Reason;
use super::said::Said;
use crate::calc::ampacity::{ampacity, before_factors};
use crate::calc::continuous::factors;
use crate::calc::overcurrent::{LargestDevice, Supplies};
use crate::calc::voltage_drop::{Segment, Wire, voltage_drop};
use crate::calc::{CannotTell, Silent};
use crate::code::Code;
use crate::quantity::{Amperes, Meters, NANOVOLT, Quantity, Ratio, Volts};
use crate::trade::ContinuousRating;

/// What rows of one kind and band have in common. One line of a cache.
#[derive(Clone, Copy, Debug)]
#[repr(align(64))]
pub(super) struct Alike {
    /// In microamperes.
    pub(super) usable: i64,
    /// In millionths of a microampere, as loads with their factor are.
    pub(super) before: i64,
    /// The largest device in microamperes, read strictly and read loosely where it is not stated what it supplies.
    pub(super) strict: i64,
    pub(super) loose: i64,
    /// The stricter one and the ampacity as they are shown.
    pub(super) usable_a: f64,
    pub(super) largest_a: f64,
    /// Where the two readings agree, and where they differ.
    pub(super) said: [Said; 2],
    /// Which checks cannot tell, since a table has a gap.
    pub(super) open: Open,
}

/// What rows of the same words have in common, whatever their numbers. One line of a cache.
#[derive(Clone, Copy, Debug)]
#[repr(align(64))]
pub(super) struct Combination {
    pub(super) factors: Factors,
    /// The greatest continuous load of a small conductor.
    pub(super) continuous_most: i64,
    pub(super) drop: PerUnit,
    /// Where the places of its kind begin, and where the ratings of its device do.
    pub(super) places: u32,
    pub(super) ratings: u32,
}

/// What the size of a conductor alone decides.
#[derive(Clone, Copy, Debug)]
pub(super) struct Size {
    /// The greatest continuous load of a small conductor.
    pub(super) continuous_most: i64,
    /// Over two wires, and over three phases.
    pub(super) drop: [PerUnit; 2],
}

/// All numbers of an [`Alike`] but those that are shown, which follow from them.
pub(super) type Key = ([i64; 4], [Said; 2], Open);

pub(super) const MILLION: i64 = 1_000_000;

// A load in millionths of a microampere fits, and so does one with any factor of `Factors`.
const _: () = assert!((1 + 2 * Factors::MOST / MILLION) as i128 * 1_000_000 * Amperes::MAXIMUM < i64::MAX as i128);

/// What a circuit protects its conductor with: for several receptacles, and for anything else.
pub(super) type Largest = [Result<LargestDevice, CannotTell>; 2];

impl Alike {
    /// `largest` finds the devices of a usable ampacity.
    pub(super) fn of(code: &dyn Code, circuit: &Circuit, largest: impl FnOnce(Amperes) -> Largest) -> Self {
        let ampacity = ampacity(code, &circuit.conditions, &mut Silent);
        let before = before_factors(code, &circuit.conditions, &mut Silent);
        let [several, other] = ampacity.map_or_else(|gap| [Err(gap); 2], |found| largest(found.usable));
        let (strict, loose) = match circuit.supplies {
            Some(Supplies::SeveralReceptacles) => (several, several),
            Some(Supplies::Other) => (other, other),
            None => (several, other),
        };
        let gaps = [ampacity.err(), before.err(), strict.err().or(loose.err())];
        let reason = gaps.into_iter().flatten().next().map(Reason::gap);
        // What cannot be told neither fails nor differs.
        let device = |found: Result<LargestDevice, _>| match (gaps[2], found) {
            (None, Ok(found)) => found.rating.microamperes(),
            _ => i64::MAX,
        };
        Self {
            usable: ampacity.map_or(i64::MAX, |found| found.usable.microamperes()),
            before: before.map_or(i64::MAX, |found| found.microamperes() * MILLION),
            strict: device(strict),
            loose: device(loose),
            usable_a: ampacity.map_or(f64::NAN, |found| shown(found.usable.microamperes())),
            largest_a: strict.map_or(f64::NAN, |found| shown(found.rating.microamperes())),
            said: [Reason::NONE, Reason::SUPPLIES_DECIDES].map(|otherwise| {
                Said::of(
                    reason.unwrap_or(otherwise),
                    ampacity.map_or(0, |found| ampacity_governor(found.governed_by)),
                    strict.map_or(0, |found| device_governor(found.governed_by)),
                )
            }),
            open: Open::of(gaps.map(|gap| gap.is_some())),
        }
    }

    /// What two that are the same have in common.
    pub(super) const fn key(&self) -> Key {
        ([self.usable, self.before, self.strict, self.loose], self.said, self.open)
    }
}

/// The devices that protect the conductor of a usable ampacity.
pub(super) fn largest(code: &dyn Code, circuit: &Circuit, usable: Amperes) -> Largest {
    [Supplies::SeveralReceptacles, Supplies::Other].map(|supplies| circuit.largest(code, usable, supplies, &mut Silent))
}

impl Size {
    /// `None` where a table has a gap.
    pub(super) fn of(code: &dyn Code, circuit: &Circuit) -> Option<Self> {
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
    pub(super) const NONE: Self = Self { numerator: 0, denominator: 1, quotient: 0.0 };

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
}

/// Below 2^49 a product of three factors in floating point is less than half away from the true one: each rounding adds
/// 2^-53 of it, and there are five with those of the quotient. The nearest whole number is then less than one away, and
/// the sign of the exact remainder says whether to take the next.
pub(super) const NEAR: f64 = 562_949_953_421_312.0;

/// The quotient of a product and a divisor, rounded up, from an estimate below [`NEAR`] that is less than half away from it. The
/// product may be given modulo 2^64: the remainder is small, so it is what it would be in whole numbers.
#[inline(always)]
pub(super) fn rounded_up(estimate: f64, product: i64, divisor: i64) -> i64 {
    let quotient = nearest(estimate);
    quotient.wrapping_add(i64::from(product.wrapping_sub(quotient.wrapping_mul(divisor)) > 0))
}

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

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn drops_are_rounded_up_as_whole_numbers_are(
            current in 0_i64..200_000_000_000, length in 0_i64..20_000_000_000, numerator in 1_i64..1 << 40, shift in 20_u32..60,
        ) {
            for denominator in [(1_i64 << shift) - 1, 1 << shift, (1 << shift) + 1] {
                let unit = PerUnit { numerator, denominator, quotient: numerator as f64 / denominator as f64 };
                // As it is, and with a quotient that is whole, one under and one over.
                let exact = |length: i64| i128::from(current) * i128::from(length) * i128::from(numerator);
                for length in [length, length / denominator * denominator] {
                    let estimate = current as f64 * length as f64 * unit.quotient;
                    let product = current.wrapping_mul(length).wrapping_mul(numerator);
                    if estimate < NEAR {
                        for step in [-1, 0, 1_i64] {
                            let whole = exact(length) + i128::from(step);
                            if whole >= 0 {
                                let expected = (whole + i128::from(denominator) - 1) / i128::from(denominator);
                                let found = rounded_up(estimate, product.wrapping_add(step), denominator);
                                prop_assert_eq!(i128::from(found), expected, "{} * {} * {:?}", current, length, unit);
                            }
                        }
                    }
                }
            }
        }
    }
}
