//! Horsepower as the code prints it: halves, thirds and quarters, exact.

use std::fmt;
use std::str::FromStr;

/// The rated output of a motor, exact, more than 0 and at most 100,000 hp.
///
/// ```
/// # use loadworthy::plan::motor::Horsepower;
/// assert_eq!("1-1/2 hp".parse::<Horsepower>()?, "1.5 hp".parse()?);
/// assert_eq!("7.5 hp".parse::<Horsepower>()?.to_string(), "7-1/2 hp");
/// assert_eq!("5".parse::<Horsepower>().unwrap_err().to_string(), "`5` has no unit; write a motor output such as `5 hp`");
/// # Ok::<(), loadworthy::plan::motor::HorsepowerError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Horsepower {
    numerator: u32,
    denominator: u32,
}

/// Why a text is not a motor output.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum HorsepowerError {
    /// No unit.
    #[error("`{0}` has no unit; write a motor output such as `{0} hp`")]
    MissingUnit(String),
    /// Not a number, or out of range.
    #[error("`{0}` is not a motor output; write a number above 0 and at most 100000 such as `1-1/2 hp`")]
    NotANumber(String),
}

impl Horsepower {
    /// `numerator / denominator` horsepower; `None` for 0, for no denominator and above 100,000 hp.
    #[must_use]
    pub fn new(numerator: u32, denominator: u32) -> Option<Self> {
        let in_range = numerator > 0 && denominator > 0 && u64::from(numerator) <= 100_000 * u64::from(denominator);
        let divisor = common_divisor(numerator, denominator);
        in_range.then(|| Self { numerator: numerator / divisor, denominator: denominator / divisor })
    }

    /// The numerator and the denominator, in lowest terms.
    #[must_use]
    pub const fn parts(self) -> (u32, u32) {
        (self.numerator, self.denominator)
    }

    /// The number without its unit, as a table heads its rows.
    pub(crate) fn of_number(text: &str) -> Option<Self> {
        let (whole, part) = match text.split_once(['-', ' ']) {
            Some((whole, part)) => (whole.parse::<u32>().ok()?, part),
            None => (0, text),
        };
        if let Some((numerator, denominator)) = part.split_once('/') {
            let (numerator, denominator): (u32, u32) = (numerator.parse().ok()?, denominator.parse().ok()?);
            return Self::new(whole.checked_mul(denominator)?.checked_add(numerator)?, denominator);
        }
        let (integer, decimals) = text.split_once('.').unwrap_or((text, ""));
        let plain = !integer.is_empty()
            && decimals.len() <= 4
            && text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.');
        let denominator = 10_u32.checked_pow(u32::try_from(decimals.len()).ok()?)?;
        plain.then(|| Self::new(format!("{integer}{decimals}").parse().ok()?, denominator)).flatten()
    }
}

impl Ord for Horsepower {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        let product = |a: u32, b: u32| u64::from(a) * u64::from(b);
        product(self.numerator, other.denominator).cmp(&product(other.numerator, self.denominator))
    }
}

impl PartialOrd for Horsepower {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl FromStr for Horsepower {
    type Err = HorsepowerError;

    fn from_str(text: &str) -> Result<Self, HorsepowerError> {
        let text = text.trim();
        let not_a_number = || HorsepowerError::NotANumber(text.to_owned());
        match text.strip_suffix("hp").or_else(|| text.strip_suffix("HP")) {
            Some(number) => Self::of_number(number.trim_end()).ok_or_else(not_a_number),
            None if Self::of_number(text).is_some() => Err(HorsepowerError::MissingUnit(text.to_owned())),
            None => Err(not_a_number()),
        }
    }
}

impl fmt::Display for Horsepower {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (whole, rest) = (self.numerator / self.denominator, self.numerator % self.denominator);
        match (whole, rest) {
            (whole, 0) => write!(out, "{whole} hp"),
            (0, rest) => write!(out, "{rest}/{} hp", self.denominator),
            (whole, rest) => write!(out, "{whole}-{rest}/{} hp", self.denominator),
        }
    }
}

fn common_divisor(mut a: u32, mut b: u32) -> u32 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a.max(1)
}
