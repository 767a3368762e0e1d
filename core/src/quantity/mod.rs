//! Checked units: a quantity has a unit, or it does not exist.
//!
//! Each quantity is an integer count of a small fixed unit, so that sums are exact, and each product of
//! two quantities below is exact too: nothing rounds, and the documented ranges leave no room to overflow.
//! What is not listed as a product does not compile:
//!
//! ```compile_fail,E0277
//! use loadworthy::quantity::{Amperes, Volts};
//! fn nonsense(volts: Volts, amperes: Amperes) { let _ = volts + amperes; }
//! ```
//! ```compile_fail,E0277
//! use loadworthy::quantity::{Amperes, Meters};
//! fn nonsense(current: Amperes, length: Meters) { let _ = current * length; }
//! ```
//! ```compile_fail,E0308
//! use loadworthy::quantity::{VoltAmperes, Volts, Amperes, Watts};
//! // Apparent power is not real power: a power factor stands between them.
//! fn nonsense(volts: Volts, amperes: Amperes) -> Watts { volts * amperes }
//! ```
//! ```compile_fail,E0308
//! use loadworthy::quantity::{Celsius, CelsiusRise};
//! fn nonsense(ambient: Celsius) -> CelsiusRise { ambient }
//! ```
//! ```
//! use loadworthy::quantity::{Amperes, Ratio, Volts, VoltAmperes};
//! let source: VoltAmperes = "240 V".parse::<Volts>()? * "40 A".parse::<Amperes>()?;
//! assert_eq!(source, "9.6 kVA".parse()?);
//! // A verdict multiplies the load instead of dividing the rating: exactly at the limit stays at the limit.
//! let load = "40 A".parse::<Amperes>()? * "125 %".parse::<Ratio>()?;
//! assert!(load <= "50 A".parse::<Amperes>()?);
//! # Ok::<(), loadworthy::quantity::QuantityError>(())
//! ```

mod define;
mod electrical;
mod energy;
mod fraction;
mod geometry;
mod ratio;
mod text;
mod thermal;
mod wide;
mod written;

pub(crate) use electrical::NANOVOLT;
pub use electrical::{Amperes, Drop, Ohms, OhmsPerLength, VoltAmperes, Volts, Watts};
pub use energy::{Hertz, Seconds, WattHours};
pub use fraction::Fraction;
pub use geometry::{CircularMils, CubicMillimeters, Meters, SquareMeters, SquareMillimeters};
pub use ratio::{PowerFactor, Ratio, SQUARE_ROOT_OF_THREE, Scaled};
pub use text::{QuantityError, Rounding, Unit};
pub use thermal::{Celsius, CelsiusRise};
pub use wide::compare_products;
pub use written::Written;

/// What all quantities have in common: a name, units to write them in, a range, and an exact integer inside.
pub trait Quantity: Copy + Ord + std::fmt::Debug + std::fmt::Display + Sized {
    /// What it is, as it reads in a message: `current`, `length`.
    const NOUN: &'static str;
    /// With its article: `a current`, `an area`.
    const A_NOUN: &'static str;
    /// The units that it may be written in; the first is the one to suggest.
    const UNITS: &'static [Unit];
    /// The least value, as a count of the smallest unit.
    const MINIMUM: i128;
    /// The greatest value, as a count of the smallest unit.
    const MAXIMUM: i128;

    /// The exact count of the smallest unit.
    fn count(self) -> i128;

    /// A quantity from a count of the smallest unit; `None` outside the range.
    fn from_count(count: i128) -> Option<Self>;

    /// The value in `unit`, with at most `digits` decimals.
    fn in_unit(self, unit: &Unit, digits: u32, rounding: Rounding) -> rust_decimal::Decimal {
        text::in_unit(self.count(), unit, digits, rounding)
    }
}
