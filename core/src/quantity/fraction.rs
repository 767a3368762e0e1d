//! Exact fractions, for sums of shares such as watts over volts, which no decimal holds.

use std::cmp::Ordering;

use super::{Amperes, PowerFactor, Quantity, Rounding, VoltAmperes, Volts, Watts, compare_products};

/// A non-negative fraction of integers, in lowest terms. Every operation is exact or says that it cannot be.
///
/// Currents drawn by loads given in watts are fractions of a microampere: 1000 W at 120 V is 8.333… A, and
/// three of them are exactly 25 A.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Fraction {
    numerator: u128,
    denominator: u128,
}

impl Fraction {
    /// Nothing.
    pub const ZERO: Self = Self { numerator: 0, denominator: 1 };

    /// `numerator / denominator`; `None` for a denominator of zero.
    #[must_use]
    pub fn new(numerator: u128, denominator: u128) -> Option<Self> {
        if denominator == 0 {
            return None;
        }
        let divisor = greatest_common_divisor(numerator, denominator);
        Some(Self { numerator: quotient(numerator, divisor), denominator: quotient(denominator, divisor) })
    }

    /// The sum; `None` where it would not fit 128 bits.
    #[must_use]
    pub fn checked_add(self, other: Self) -> Option<Self> {
        // Most summands are nothing, or whole: those need no common denominator.
        if other.is_zero() {
            return Some(self);
        }
        if self.is_zero() {
            return Some(other);
        }
        if self.denominator == 1 && other.denominator == 1 {
            return Some(Self { numerator: self.numerator.checked_add(other.numerator)?, denominator: 1 });
        }
        self.over_common(other, u128::checked_add)
    }

    /// The difference without its sign; `None` where it would not fit 128 bits.
    #[must_use]
    pub fn absolute_difference(self, other: Self) -> Option<Self> {
        self.over_common(other, |one, other| Some(one.abs_diff(other)))
    }

    /// What comes of both numerators over the common denominator.
    fn over_common(self, other: Self, of: impl Fn(u128, u128) -> Option<u128>) -> Option<Self> {
        let shared = greatest_common_divisor(self.denominator, other.denominator);
        let (left, right) = (quotient(other.denominator, shared), quotient(self.denominator, shared));
        let numerator = of(product(self.numerator, left)?, product(other.numerator, right)?)?;
        // Whatever the sum and its denominator have in common is in what both denominators share: Knuth 4.5.1.
        let divisor = greatest_common_divisor(shared, numerator);
        let denominator = product(right, quotient(other.denominator, divisor))?;
        Some(Self { numerator: quotient(numerator, divisor), denominator })
    }

    /// The product with a ratio of integers; `None` where it would not fit.
    #[must_use]
    pub fn checked_scale(self, numerator: u128, denominator: u128) -> Option<Self> {
        let by = Self::new(numerator, denominator)?;
        if self.is_zero() {
            return Some(self);
        }
        // Both are in lowest terms, so only across can they have something in common.
        let cross_1 = greatest_common_divisor(self.numerator, by.denominator);
        let cross_2 = greatest_common_divisor(by.numerator, self.denominator);
        Some(Self {
            numerator: product(quotient(self.numerator, cross_1), quotient(by.numerator, cross_2))?,
            denominator: product(quotient(self.denominator, cross_2), quotient(by.denominator, cross_1))?,
        })
    }

    /// A current as a fraction of microamperes.
    #[must_use]
    pub fn of_current(current: Amperes) -> Self {
        Self { numerator: current.count().unsigned_abs(), denominator: 1 }
    }

    /// The current, in microamperes, that apparent power draws at a voltage; `None` at zero volts.
    #[must_use]
    pub fn of_apparent_power(power: VoltAmperes, at: Volts) -> Option<Self> {
        // 10^-9 VA over 10^-3 V is 10^-6 A.
        Self::new(power.count().unsigned_abs(), at.count().unsigned_abs())
    }

    /// The current, in microamperes, that real power draws at a voltage and a power factor; `None` at zero volts.
    #[must_use]
    pub fn of_power(power: Watts, at: Volts, factor: PowerFactor) -> Option<Self> {
        // 10^-15 W over 10^-3 V and 10^-6 is 10^-6 A.
        let denominator =
            at.count().unsigned_abs().checked_mul(u128::from(factor.count_of_millionths().unsigned_abs()))?;
        Self::new(power.count().unsigned_abs(), denominator)
    }

    /// As a current of whole microamperes, rounded as said; the greatest current where it is beyond the range.
    #[must_use]
    pub fn to_current(self, rounding: Rounding) -> Amperes {
        self.to_count(rounding).and_then(Amperes::from_count).unwrap_or(Amperes::MAX)
    }

    /// A whole count as a fraction.
    #[must_use]
    pub const fn of_count(count: u128) -> Self {
        Self { numerator: count, denominator: 1 }
    }

    /// As a whole count, rounded as said; `None` where it does not fit.
    #[must_use]
    pub fn to_count(self, rounding: Rounding) -> Option<i128> {
        let whole = quotient(self.numerator, self.denominator);
        let more = rounding == Rounding::Up && whole * self.denominator != self.numerator;
        i128::try_from(whole).ok()?.checked_add(i128::from(more))
    }

    /// Whether the fraction is nothing.
    #[must_use]
    pub const fn is_zero(self) -> bool {
        self.numerator == 0
    }
}

impl Ord for Fraction {
    fn cmp(&self, other: &Self) -> Ordering {
        compare_products(self.numerator, other.denominator, other.numerator, self.denominator)
    }
}

impl PartialOrd for Fraction {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

fn greatest_common_divisor(mut a: u128, mut b: u128) -> u128 {
    while b != 0 {
        if a == 1 || b == 1 {
            return 1;
        }
        // Most values fit 64 bits, where division is many times faster.
        if let (Ok(x), Ok(y)) = (u64::try_from(a), u64::try_from(b)) {
            return u128::from(small_greatest_common_divisor(x, y));
        }
        (a, b) = (b, a % b);
    }
    a.max(1)
}

/// The product; `None` where it would not fit 128 bits.
fn product(a: u128, b: u128) -> Option<u128> {
    match (u64::try_from(a), u64::try_from(b)) {
        (Ok(a), Ok(b)) => Some(u128::from(a) * u128::from(b)),
        _ => a.checked_mul(b),
    }
}

/// The quotient without its remainder; nothing by nought.
fn quotient(dividend: u128, divisor: u128) -> u128 {
    match (u64::try_from(dividend), u64::try_from(divisor)) {
        _ if divisor == 1 => dividend,
        (Ok(dividend), Ok(divisor)) => u128::from(dividend.checked_div(divisor).unwrap_or_default()),
        _ => dividend.checked_div(divisor).unwrap_or_default(),
    }
}

fn small_greatest_common_divisor(mut a: u64, mut b: u64) -> u64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a.max(1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn parts() -> impl Strategy<Value = (u64, u64)> {
        // Small denominators meet often, large ones hardly ever.
        prop_oneof![(0..1000u64, 1..60u64), (any::<u64>(), 1..=u64::from(u32::MAX)), (any::<u64>(), Just(1))]
    }

    /// By the definition, without a thought for what may cancel.
    fn plain(numerator: u128, denominator: u128) -> Option<Fraction> {
        let (mut a, mut b) = (numerator, denominator);
        while b != 0 {
            (a, b) = (b, a % b);
        }
        Some(Fraction { numerator: numerator / a, denominator: denominator / a })
    }

    proptest! {
        #[test]
        fn every_operation_is_exact_and_ends_in_lowest_terms((a, b) in parts(), (c, d) in parts(), (n, m) in parts()) {
            let [a, b, c, d, n, m] = [a, b, c, d, n, m].map(u128::from);
            let (one, other) = (Fraction::new(a, b).unwrap(), Fraction::new(c, d).unwrap());
            prop_assert_eq!(one.checked_add(other), plain(a * d + c * b, b * d));
            prop_assert_eq!(one.absolute_difference(other), plain((a * d).abs_diff(c * b), b * d));
            prop_assert_eq!(one.checked_scale(n, m), plain(a * n, b * m));
            prop_assert_eq!(one.to_count(Rounding::Down), i128::try_from(a / b).ok());
            prop_assert_eq!(one.to_count(Rounding::Up), i128::try_from(a.div_ceil(b)).ok());
        }
    }

    #[test]
    fn shares_of_a_leg_sum_exactly() {
        // Three loads of 1000 W at 120 V draw exactly 25 A, which no decimal sum of thirds does.
        let power: Watts = "1000 W".parse().unwrap_or(Watts::MIN);
        let volts = Volts::from_whole(120);
        let one = Fraction::of_power(power, volts, PowerFactor::UNITY).unwrap_or(Fraction::ZERO);
        let sum = one.checked_add(one).and_then(|two| two.checked_add(one));
        assert_eq!(sum, Some(Fraction::of_current(Amperes::from_whole(25))));
        assert_eq!(one.to_current(Rounding::Up).microamperes(), 8_333_334);
        assert_eq!(one.to_current(Rounding::Down).microamperes(), 8_333_333);
    }
}
