//! Amounts of fuel.

use std::fmt;
use std::str::FromStr;

use super::word::{Word, WordError, words};

words! {
    /// What fuel is measured in.
    pub enum FuelUnit: "unit of fuel" {
        /// US gallon.
        Gallon = "gal" | "gallon" | "gallons",
        /// Liter.
        Liter = "L" | "l" | "liter" | "liters",
        /// Pound.
        Pound = "lb" | "pound" | "pounds",
        /// Kilogram.
        Kilogram = "kg" | "kilogram" | "kilograms",
        /// Cubic foot of gas.
        CubicFoot = "ft3" | "ft³" | "cubic feet",
        /// British thermal unit.
        Btu = "Btu" | "BTU",
    }
}

/// An amount of fuel: exact to a millionth of its unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct FuelAmount {
    /// Millionths of the unit.
    pub millionths: u64,
    /// The unit.
    pub unit: FuelUnit,
}

impl FuelAmount {
    /// From thousandths of a unit.
    #[must_use]
    pub const fn thousandths(thousandths: u32, unit: FuelUnit) -> Self {
        Self { millionths: thousandths as u64 * 1000, unit }
    }
}

impl fmt::Display for FuelAmount {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let number = rust_decimal::Decimal::from_i128_with_scale(i128::from(self.millionths), 6).normalize();
        write!(out, "{number} {}", self.unit)
    }
}

impl FromStr for FuelAmount {
    type Err = WordError;

    /// A number with at most six decimals and its unit.
    ///
    /// ```
    /// # use loadworthy::trade::{FuelAmount, FuelUnit};
    /// assert_eq!("6.6 gal".parse::<FuelAmount>()?, FuelAmount::thousandths(6600, FuelUnit::Gallon));
    /// let unitless = "5".parse::<FuelAmount>().unwrap_err().to_string();
    /// assert_eq!(unitless, "`5` is not a known amount of fuel; write a number and its unit, such as `5 gal`");
    /// # Ok::<(), loadworthy::trade::WordError>(())
    /// ```
    fn from_str(text: &str) -> Result<Self, WordError> {
        amount(text.trim()).ok_or_else(|| WordError {
            found: text.trim().chars().take(60).collect(),
            kind: "amount of fuel",
            advice: "write a number and its unit, such as `5 gal`".to_owned(),
        })
    }
}

fn amount(text: &str) -> Option<FuelAmount> {
    let end = text.find(|letter: char| !letter.is_ascii_digit() && letter != '.')?;
    let (number, unit) = text.split_at_checked(end)?;
    let (whole, decimals) = number.split_once('.').unwrap_or((number, ""));
    let plain = !whole.is_empty() && decimals.len() <= 6 && decimals.bytes().all(|byte| byte.is_ascii_digit());
    let millionths = plain.then(|| format!("{whole}{decimals:0<6}").parse().ok()).flatten()?;
    // More than any tank would leave no room for the products that time is reckoned from.
    (millionths <= MOST).then_some(FuelAmount { millionths, unit: FuelUnit::find(unit).ok()? })
}

/// A thousand million units.
const MOST: u64 = 1_000_000_000_000_000;

impl serde::Serialize for FuelAmount {
    fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_str(self)
    }
}
