//! What a load draws, as exact fractions, and the common unit that turns a set of them into integers.

use crate::quantity::{Amperes, Fraction, PowerFactor, Quantity, Ratio, Rounding, VoltAmperes, Volts, Watts};

/// A non-negative fraction in lowest terms whose parts can be seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Exact {
    numerator: u128,
    denominator: u128,
}

/// What one load draws: the current in each line that it uses, its apparent and its real power, all exact.
///
/// ```
/// # use loadworthy::plan::Draw;
/// # use loadworthy::quantity::{PowerFactor, Rounding};
/// let kettle = Draw::from_power("1000 W".parse()?, "120 V".parse()?, PowerFactor::UNITY).ok_or("no voltage")?;
/// assert_eq!(kettle.current(Rounding::Up).to_string(), "8.333334 A");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Draw {
    /// Microamperes.
    pub(crate) current: Exact,
    /// 10⁻⁹ VA.
    pub(crate) apparent: Exact,
    /// 10⁻¹⁵ W.
    pub(crate) power: Exact,
}

impl Draw {
    /// Nothing.
    pub const NONE: Self = Self { current: Exact::ZERO, apparent: Exact::ZERO, power: Exact::ZERO };

    /// From a current, such as a nameplate's, at the voltage of the load.
    #[must_use]
    pub fn from_current(current: Amperes, at: Volts, factor: PowerFactor) -> Self {
        let apparent = at * current;
        let whole = |count: i128| Exact { numerator: count.unsigned_abs(), denominator: 1 };
        Self {
            current: whole(current.count()),
            apparent: whole(apparent.count()),
            power: whole((apparent * factor).count()),
        }
    }

    /// From apparent power; `None` at zero volts.
    #[must_use]
    pub fn from_apparent(power: VoltAmperes, at: Volts, factor: PowerFactor) -> Option<Self> {
        Some(Self {
            current: Exact::new(power.count().unsigned_abs(), at.count().unsigned_abs())?,
            apparent: Exact::new(power.count().unsigned_abs(), 1)?,
            power: Exact::new((power * factor).count().unsigned_abs(), 1)?,
        })
    }

    /// From real power; `None` at zero volts.
    #[must_use]
    pub fn from_power(power: Watts, at: Volts, factor: PowerFactor) -> Option<Self> {
        let count = power.count().unsigned_abs();
        let share = u128::from(factor.count_of_millionths().unsigned_abs());
        Some(Self {
            current: Exact::new(count, at.count().unsigned_abs().checked_mul(share)?)?,
            apparent: Exact::new(count, share)?,
            power: Exact::new(count, 1)?,
        })
    }

    /// The current in each line that the load uses, rounded as said.
    #[must_use]
    pub fn current(&self, rounding: Rounding) -> Amperes {
        self.current.rounded(rounding, Amperes::MAX)
    }

    /// The apparent power, rounded as said.
    #[must_use]
    pub fn apparent(&self, rounding: Rounding) -> VoltAmperes {
        self.apparent.rounded(rounding, VoltAmperes::MAX)
    }

    /// The real power, rounded as said.
    #[must_use]
    pub fn power(&self, rounding: Rounding) -> Watts {
        self.power.rounded(rounding, Watts::MAX)
    }
}

impl Exact {
    pub(crate) const ZERO: Self = Self { numerator: 0, denominator: 1 };

    /// More than any quantity.
    pub(crate) const GREATEST: Self = Self { numerator: u128::MAX, denominator: 1 };

    /// The whole number at or above.
    pub(crate) fn rounded_up(self) -> Self {
        Self { numerator: self.numerator.div_ceil(self.denominator), denominator: 1 }
    }

    pub(crate) fn new(numerator: u128, denominator: u128) -> Option<Self> {
        let divisor = common_divisor(numerator, denominator);
        (denominator != 0).then(|| Self { numerator: numerator / divisor, denominator: denominator / divisor })
    }

    /// The smallest units of `quantity`.
    pub(crate) fn of(quantity: impl Quantity) -> Self {
        Self { numerator: quantity.count().unsigned_abs(), denominator: 1 }
    }

    pub(crate) fn scaled(self, ratio: Ratio) -> Option<Self> {
        let ratio = Self::new(u128::from(ratio.count_of_millionths().unsigned_abs()), 1_000_000)?;
        self.times(ratio)
    }

    pub(crate) fn times(self, other: Self) -> Option<Self> {
        let cross_1 = common_divisor(self.numerator, other.denominator);
        let cross_2 = common_divisor(other.numerator, self.denominator);
        Some(Self {
            numerator: (self.numerator / cross_1).checked_mul(other.numerator / cross_2)?,
            denominator: (self.denominator / cross_2).checked_mul(other.denominator / cross_1)?,
        })
    }

    pub(crate) fn plus(self, other: Self) -> Option<Self> {
        // The usual case, without the division of wide numbers.
        if self.denominator == 1 && other.denominator == 1 {
            return Some(Self { numerator: self.numerator.checked_add(other.numerator)?, denominator: 1 });
        }
        let divisor = common_divisor(self.denominator, other.denominator);
        let (left, right) = (other.denominator / divisor, self.denominator / divisor);
        let sum = self.numerator.checked_mul(left)?.checked_add(other.numerator.checked_mul(right)?)?;
        Self::new(sum, self.denominator.checked_mul(left)?)
    }

    /// The difference; `None` where it is negative or does not fit.
    pub(crate) fn minus(self, other: Self) -> Option<Self> {
        let divisor = common_divisor(self.denominator, other.denominator);
        let (left, right) = (other.denominator / divisor, self.denominator / divisor);
        let whole = self.numerator.checked_mul(left)?.checked_sub(other.numerator.checked_mul(right)?)?;
        Self::new(whole, self.denominator.checked_mul(left)?)
    }

    pub(crate) fn fraction(self) -> Fraction {
        Fraction::new(self.numerator, self.denominator).unwrap_or(Fraction::ZERO)
    }

    /// As a quantity whose smallest unit this counts; `most` where it is beyond the range.
    pub(crate) fn rounded<Q: Quantity>(self, rounding: Rounding, most: Q) -> Q {
        let count = match rounding {
            Rounding::Down => self.numerator / self.denominator,
            Rounding::Up => self.numerator.div_ceil(self.denominator),
        };
        i128::try_from(count).ok().and_then(Q::from_count).unwrap_or(most)
    }
}

/// The unit in which the draws on a limit are integers.
#[derive(Clone, Copy, Debug)]
pub(crate) struct CommonUnit {
    /// One unit, in the smallest unit of the quantity.
    unit: Exact,
    /// Whether every draw is a whole number of units; where not, each is rounded up.
    pub(crate) exact: bool,
}

/// Integers above this leave no room for a sum of a thousand of them.
const MOST: u128 = 1 << 52;

/// So many units make up the limit where no exact common unit is small enough.
const UNITS_WHEN_ROUNDED: u128 = 1 << 40;

impl CommonUnit {
    /// The unit that makes all draws whole; where none fits, a fine one, to which draws are rounded up.
    pub(crate) fn of(draws: &[Exact], limit: Exact) -> Option<Self> {
        Self::whole(draws, limit)
            .or_else(|| Some(Self { unit: limit.times(Exact::new(1, UNITS_WHEN_ROUNDED)?)?, exact: false }))
    }

    fn whole(draws: &[Exact], limit: Exact) -> Option<Self> {
        let mut multiple: u128 = 1;
        for draw in draws {
            multiple = (multiple / common_divisor(multiple, draw.denominator)).checked_mul(draw.denominator)?;
        }
        let mut divisor: u128 = 0;
        for draw in draws.iter().filter(|draw| draw.numerator != 0) {
            divisor = common_divisor(draw.numerator.checked_mul(multiple / draw.denominator)?, divisor);
        }
        let unit = Self { unit: Exact::new(divisor.max(1), multiple)?, exact: true };
        (unit.floor(limit)? <= MOST).then_some(unit)
    }

    /// A limit in units, rounded down, which changes no verdict over whole draws.
    pub(crate) fn limit(&self, limit: Exact) -> Option<i64> {
        i64::try_from(self.floor(limit)?).ok()
    }

    fn floor(&self, limit: Exact) -> Option<u128> {
        let divisor = limit.denominator.checked_mul(self.unit.numerator)?;
        limit.numerator.checked_mul(self.unit.denominator)?.checked_div(divisor)
    }

    /// A draw in units, rounded up; more than any limit where it does not fit the integers.
    pub(crate) fn count(&self, draw: Exact) -> i64 {
        let dividend = draw.numerator.checked_mul(self.unit.denominator);
        let divisor = draw.denominator.checked_mul(self.unit.numerator);
        let count = match (dividend, divisor) {
            _ if draw.numerator == 0 => 0,
            (Some(dividend), Some(divisor)) if divisor > 0 => dividend.div_ceil(divisor),
            _ => u128::MAX,
        };
        i64::try_from(count.min(MOST + 1)).unwrap_or(i64::MAX)
    }

    /// So many units in the smallest unit of the quantity.
    pub(crate) fn amount(&self, count: i64) -> Option<Exact> {
        self.unit.times(Exact::new(u128::from(count.unsigned_abs()), 1)?)
    }
}

/// The greatest common divisor, at least 1.
pub(crate) fn common_divisor(mut a: u128, mut b: u128) -> u128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a.max(1)
}
