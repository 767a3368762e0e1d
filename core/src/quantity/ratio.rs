//! Ratios, power factor, and a quantity taken a ratio of times.

use std::cmp::Ordering;
use std::fmt;
use std::ops::{Add, Mul};
use std::str::FromStr;

use super::define::quantity;
use super::text::{self, QuantityError};
use super::{Quantity, Rounding};

const MILLION: i64 = 1_000_000;

quantity! {
    /// A share of something, exact to a ten-thousandth of a percent, 0 to 100,000 %.
    Ratio(i64), "a" "percentage", 0 => 1_000_000_000,
    ["%" | "percent" = 10_000]
}

/// √3 to nine digits, rounded up, so that a three-phase drop is never understated (1.732050807568… printed 1.732050808).
pub const SQUARE_ROOT_OF_THREE: (i128, i128) = (1_732_050_808, 1_000_000_000);

impl Ratio {
    /// The whole.
    pub const ONE: Self = Self(MILLION);

    /// A share of whole percent.
    #[must_use]
    pub const fn percent(percent: u16) -> Self {
        Self(percent as i64 * 10_000)
    }

    /// The count of millionths.
    #[must_use]
    pub const fn count_of_millionths(self) -> i64 {
        self.0
    }
}

/// Real power as a share of apparent power: more than 0, at most 1, exact to a millionth.
///
/// ```
/// # use loadworthy::quantity::PowerFactor;
/// assert_eq!("0.85".parse::<PowerFactor>()?.to_string(), "0.85");
/// assert_eq!("85 %".parse::<PowerFactor>()?, "0.85".parse()?);
/// assert!("1.01".parse::<PowerFactor>().is_err());
/// # Ok::<(), loadworthy::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PowerFactor(pub(super) i64);

impl PowerFactor {
    /// The greatest value, for a resistance.
    pub const MAX: Self = Self(MILLION);
    /// Unity: current and voltage in phase.
    pub const UNITY: Self = Self::MAX;

    /// From millionths; `None` for zero, less, or more than a million.
    #[must_use]
    pub const fn from_millionths(count: i64) -> Option<Self> {
        if count > 0 && count <= MILLION { Some(Self(count)) } else { None }
    }

    /// The count of millionths.
    #[must_use]
    pub const fn count_of_millionths(self) -> i64 {
        self.0
    }

    /// The sine of the angle in billionths, rounded up: √(1 - pf²), the share of the current that meets reactance.
    ///
    /// ```
    /// # use loadworthy::quantity::PowerFactor;
    /// assert_eq!("0.8".parse::<PowerFactor>()?.sine_in_billionths(), 600_000_000);
    /// # Ok::<(), loadworthy::quantity::QuantityError>(())
    /// ```
    #[must_use]
    pub fn sine_in_billionths(self) -> i64 {
        let cosine = u128::from(self.0.unsigned_abs()) * 1000;
        let one: u128 = 1_000_000_000;
        let square = one * one - cosine * cosine;
        let root = square.isqrt();
        let rounded_up = root + u128::from(root * root != square);
        i64::try_from(rounded_up).unwrap_or(i64::MAX)
    }
}

impl fmt::Display for PowerFactor {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}", rust_decimal::Decimal::new(self.0, 6).normalize())
    }
}

impl FromStr for PowerFactor {
    type Err = QuantityError;

    fn from_str(text: &str) -> Result<Self, QuantityError> {
        let trimmed = text.trim();
        let count = if trimmed.ends_with(['%', 't']) {
            trimmed.parse::<Ratio>()?.0
        } else {
            text::bare_number(trimmed, "power factor", "0.85", 6)?
        };
        Self::from_millionths(count).ok_or_else(|| QuantityError::OutOfRange {
            found: trimmed.to_owned(),
            quantity: "power factor",
            minimum: "above 0".to_owned(),
            maximum: "1".to_owned(),
        })
    }
}

impl serde::Serialize for PowerFactor {
    fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_str(self)
    }
}

/// A quantity taken a ratio of times, such as 125 % of a load: exact, in millionths of the quantity's smallest unit.
///
/// It can be compared with a plain quantity and summed; going back to a plain quantity rounds, and says which way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Scaled<Q> {
    millionths: i128,
    of: std::marker::PhantomData<Q>,
}

impl<Q: Quantity> Scaled<Q> {
    /// `ratio` times `quantity`. Saturates only for an energy near the end of its range times more than 1000 %.
    #[must_use]
    #[inline]
    pub fn new(quantity: Q, ratio: Ratio) -> Self {
        Self { millionths: quantity.count().saturating_mul(i128::from(ratio.0)), of: std::marker::PhantomData }
    }

    /// The quantity itself.
    #[must_use]
    pub fn whole(quantity: Q) -> Self {
        Self::new(quantity, Ratio::ONE)
    }

    /// Back to a plain quantity, rounded `rounding` to its smallest unit; `None` outside its range.
    #[must_use]
    pub fn rounded(self, rounding: Rounding) -> Option<Q> {
        Q::from_count(text::divide(self.millionths, i128::from(MILLION), rounding))
    }
}

impl<Q: Quantity> Mul<Ratio> for Scaled<Q> {
    type Output = Option<Scaled<Q>>;

    /// A further ratio; `None` where the result could not be held exactly.
    fn mul(self, ratio: Ratio) -> Option<Self> {
        let product = self.millionths.checked_mul(i128::from(ratio.0))?;
        (product % i128::from(MILLION) == 0)
            .then_some(Self { millionths: product / i128::from(MILLION), of: std::marker::PhantomData })
    }
}

impl<Q: Quantity> Add for Scaled<Q> {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self { millionths: self.millionths.saturating_add(other.millionths), of: std::marker::PhantomData }
    }
}

impl<Q: Quantity> PartialEq<Q> for Scaled<Q> {
    fn eq(&self, other: &Q) -> bool {
        self.partial_cmp(other) == Some(Ordering::Equal)
    }
}

impl<Q: Quantity> PartialOrd<Q> for Scaled<Q> {
    fn partial_cmp(&self, other: &Q) -> Option<Ordering> {
        Some(self.millionths.cmp(&other.count().saturating_mul(i128::from(MILLION))))
    }
}

macro_rules! scalable {
    ($($name:ty),+) => {$(
        impl Mul<Ratio> for $name {
            type Output = Scaled<$name>;

            #[inline]
            fn mul(self, ratio: Ratio) -> Scaled<$name> {
                Scaled::new(self, ratio)
            }
        }
    )+};
}

scalable!(super::Amperes, super::Volts, super::VoltAmperes, super::Watts, super::WattHours, super::Meters);
