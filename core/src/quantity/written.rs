//! A quantity together with the unit it was written in, to print it the same way back.

use std::fmt;
use std::str::FromStr;

use super::text::{self, QuantityError, Rounding, Unit};
use super::{Celsius, Quantity};

/// A quantity that remembers its unit: `95 °F` prints as `95 °F`, not as 35 °C.
///
/// Two are equal when the quantities are, whatever the units.
///
/// ```
/// # use loadworthy::quantity::{Celsius, Written};
/// let attic: Written<Celsius> = "95 degF".parse()?;
/// assert_eq!(attic.to_string(), "95 °F");
/// assert_eq!(*attic, Celsius::from_whole(35));
/// # Ok::<(), loadworthy::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug)]
pub struct Written<Q> {
    value: Q,
    unit: &'static Unit,
}

impl<Q: Quantity> Written<Q> {
    /// The unit that it was written in.
    #[must_use]
    pub fn unit(&self) -> &'static Unit {
        self.unit
    }

    /// The quantity.
    #[must_use]
    pub fn value(&self) -> Q {
        self.value
    }
}

impl<Q> std::ops::Deref for Written<Q> {
    type Target = Q;

    fn deref(&self) -> &Q {
        &self.value
    }
}

impl<Q: Quantity> FromStr for Written<Q> {
    type Err = QuantityError;

    fn from_str(text: &str) -> Result<Self, QuantityError> {
        text::parse::<Q>(text).map(|(value, unit)| Self { value, unit })
    }
}

impl<Q: Quantity> From<Q> for Written<Q> {
    fn from(value: Q) -> Self {
        Self { value, unit: text::natural_unit(value) }
    }
}

impl<Q: Quantity> fmt::Display for Written<Q> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Exact: the value came from a decimal in this very unit.
        let number = self.value.in_unit(self.unit, text::MOST_DIGITS, Rounding::Up);
        text::write_number(out, number, self.unit)
    }
}

impl<Q: PartialEq> PartialEq for Written<Q> {
    fn eq(&self, other: &Self) -> bool {
        self.value == other.value
    }
}

impl<Q: Eq> Eq for Written<Q> {}

impl<Q: Quantity> serde::Serialize for Written<Q> {
    fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_str(self)
    }
}

const _: () = assert!(std::mem::size_of::<Written<Celsius>>() == 16);
