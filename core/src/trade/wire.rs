//! Wire sizes and conductor materials.

use std::cmp::Ordering;
use std::fmt;
use std::str::FromStr;

use super::word::words;
use crate::quantity::QuantityError;

words! {
    /// What a conductor is made of.
    pub enum Material: "conductor material" {
        /// Copper.
        Copper = "copper" | "cu",
        /// Aluminum.
        Aluminum = "aluminum" | "aluminium" | "al",
        /// Copper-clad aluminum: the aluminum columns of the tables hold for it.
        CopperCladAluminum = "copper-clad aluminum" | "copper-clad aluminium" | "cca",
    }
}

/// The system that a wire size belongs to. Sizes are compared only inside one: never convert silently.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SizeSystem {
    /// American wire gauge and thousands of circular mils.
    American,
    /// Square millimeters.
    Metric,
}

/// A wire size: AWG 27 to 4/0, a whole number of kcmil, or square millimeters.
///
/// ```
/// # use loadworthy::trade::WireSize;
/// let size: WireSize = "1/0 AWG".parse()?;
/// assert!(size > "2 AWG".parse()?);
/// assert!(size < "250 kcmil".parse()?);
/// // Sizes of two systems are not compared.
/// assert_eq!(size.partial_cmp(&"50 mm2".parse()?), None);
/// # Ok::<(), loadworthy::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct WireSize(Inner);

#[derive(Clone, Copy, PartialEq, Eq, Hash)]
enum Inner {
    /// The gauge number; 0 is 1/0 and -3 is 4/0.
    Awg(i8),
    Kcmil(u16),
    /// Hundredths of a square millimeter.
    SquareMillimeters(u32),
}

const LARGEST_GAUGE: i8 = -3;
const SMALLEST_GAUGE: i8 = 27;

impl WireSize {
    /// An American gauge number, 27 to 1, or 0 for 1/0 down to -3 for 4/0.
    #[must_use]
    pub const fn awg(number: i8) -> Option<Self> {
        if number < LARGEST_GAUGE || number > SMALLEST_GAUGE { None } else { Some(Self(Inner::Awg(number))) }
    }

    /// Thousands of circular mils, 250 to 2000.
    #[must_use]
    pub const fn kcmil(thousands: u16) -> Option<Self> {
        if thousands < 250 || thousands > 2000 { None } else { Some(Self(Inner::Kcmil(thousands))) }
    }

    /// The system that the size belongs to.
    #[must_use]
    pub const fn system(self) -> SizeSystem {
        match self.0 {
            Inner::Awg(_) | Inner::Kcmil(_) => SizeSystem::American,
            Inner::SquareMillimeters(_) => SizeSystem::Metric,
        }
    }

    /// A rank that grows with the size inside one system: a dense small number for AWG, sparse above.
    #[must_use]
    pub const fn rank(self) -> u32 {
        match self.0 {
            Inner::Awg(number) => (SMALLEST_GAUGE - number) as u32,
            Inner::Kcmil(thousands) => thousands as u32,
            Inner::SquareMillimeters(hundredths) => hundredths,
        }
    }
}

impl PartialOrd for WireSize {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        // The ranks of AWG end at 30, below the least kcmil.
        (self.system() == other.system()).then(|| self.rank().cmp(&other.rank()))
    }
}

impl FromStr for WireSize {
    type Err = QuantityError;

    fn from_str(text: &str) -> Result<Self, QuantityError> {
        let trimmed = text.trim();
        let found = || trimmed.chars().take(60).collect::<String>();
        let start = trimmed.find(|c: char| !(c.is_ascii_digit() || matches!(c, '/' | '.'))).unwrap_or(trimmed.len());
        let (number, rest) = trimmed.split_at(start);
        let unit = rest.trim().trim_start_matches('#').to_ascii_lowercase();
        if number.is_empty() {
            return Err(QuantityError::NotANumber {
                found: found(),
                a_quantity: "a wire size",
                example: "12 AWG".to_owned(),
            });
        }
        let size = match unit.as_str() {
            "" => {
                return Err(QuantityError::MissingUnit { found: found(), a_quantity: "a wire size", unit: "AWG" });
            }
            "awg" | "ga" | "gauge" => gauge(number).and_then(Self::awg),
            "kcmil" | "mcm" => number.parse().ok().and_then(Self::kcmil),
            "mm2" | "mm²" | "sq mm" => square_millimeters(number),
            _ => {
                return Err(QuantityError::UnknownUnit {
                    found: found(),
                    unit,
                    a_quantity: "a wire size",
                    units: "AWG, kcmil, mm2".to_owned(),
                });
            }
        };
        size.ok_or_else(|| QuantityError::OutOfRange {
            found: found(),
            quantity: "wire size",
            minimum: "27 AWG".to_owned(),
            maximum: "4/0 AWG, 250 to 2000 kcmil, or 0.5 to 1000 mm2".to_owned(),
        })
    }
}

fn gauge(text: &str) -> Option<i8> {
    match text.split_once('/') {
        None => text.parse::<i8>().ok().filter(|number| *number >= 1),
        Some((aughts, "0")) => aughts.parse::<i8>().ok().filter(|count| (1..=4).contains(count)).map(|count| 1 - count),
        Some(_) => None,
    }
}

fn square_millimeters(text: &str) -> Option<WireSize> {
    let decimal = rust_decimal::Decimal::from_str_exact(text).ok()?.normalize();
    let hundredths = decimal.checked_mul(rust_decimal::Decimal::ONE_HUNDRED)?.normalize();
    if hundredths.scale() != 0 {
        return None;
    }
    let count = u32::try_from(hundredths.mantissa()).ok()?;
    (50..=100_000).contains(&count).then_some(WireSize(Inner::SquareMillimeters(count)))
}

impl fmt::Display for WireSize {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Inner::Awg(number) if number > 0 => write!(out, "{number} AWG"),
            Inner::Awg(number) => write!(out, "{}/0 AWG", 1 - number),
            Inner::Kcmil(thousands) => write!(out, "{thousands} kcmil"),
            Inner::SquareMillimeters(hundredths) => {
                write!(out, "{} mm2", rust_decimal::Decimal::new(i64::from(hundredths), 2).normalize())
            }
        }
    }
}

impl fmt::Debug for WireSize {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{self}")
    }
}

impl serde::Serialize for WireSize {
    fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_str(self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_spelling_prints_the_same_way_back() {
        for text in ["27 AWG", "14 AWG", "1 AWG", "1/0 AWG", "4/0 AWG", "250 kcmil", "2000 kcmil", "2.5 mm2", "0.5 mm2"]
        {
            assert_eq!(text.parse::<WireSize>().unwrap().to_string(), text);
        }
        for text in ["0 AWG", "5/0 AWG", "28 AWG", "249 kcmil", "2001 kcmil", "0.49 mm2", "1000.01 mm2", "2.555 mm2"] {
            assert!(text.parse::<WireSize>().is_err(), "{text}");
        }
        assert_eq!(
            "6".parse::<WireSize>().unwrap_err().to_string(),
            "`6` has no unit; write a wire size such as `6 AWG`"
        );
    }

    #[test]
    fn the_american_series_grows() {
        let series = ["20 AWG", "1 AWG", "1/0 AWG", "2/0 AWG", "4/0 AWG", "250 kcmil", "2000 kcmil"];
        let sizes: Vec<WireSize> = series.iter().map(|text| text.parse().unwrap()).collect();
        assert!(sizes.is_sorted_by(|a, b| a < b));
    }
}
