//! Temperature and temperature difference, which are not the same thing.

use super::define::quantity;

/// Smallest units in one degree Celsius: nine thousandths make both °C and °F exact to three decimals.
const DEGREE: i64 = 9000;

quantity! {
    /// A temperature, exact in °C and °F to three decimals; -100 °C to 1000 °C.
    Celsius(i64), "a" "temperature", -100 * 9000 => 1000 * 9000,
    [
        "°C" | "degC" | "C" | "deg C" | "ºC" = 9000;
        "°F" | "degF" | "F" | "deg F" | "ºF" = 5000, offset -160_000
    ]
}

quantity! {
    /// A difference of temperatures, exact in °C and °F to three decimals; -1100 °C to 1100 °C.
    CelsiusRise(i64), "a" "temperature difference", -1100 * 9000 => 1100 * 9000,
    ["°C" | "degC" | "C" | "K" = 9000; "°F" | "degF" | "F" = 5000]
}

impl Celsius {
    /// A temperature of whole degrees Celsius.
    #[must_use]
    pub const fn from_whole(degrees: i8) -> Self {
        Self(degrees as i64 * DEGREE)
    }

    /// A temperature of whole degrees Celsius, or `None` outside -100 °C to 1000 °C.
    #[must_use]
    pub const fn from_degrees(degrees: i64) -> Option<Self> {
        match degrees.checked_mul(DEGREE) {
            Some(count) => Self::new(count),
            None => None,
        }
    }

    /// This temperature with `rise` added; `None` outside the range.
    #[must_use]
    pub fn raised_by(self, rise: CelsiusRise) -> Option<Self> {
        Self::new(self.0 + rise.0)
    }

    /// How much warmer this is than `other`; negative when colder.
    #[must_use]
    pub const fn above(self, other: Self) -> CelsiusRise {
        CelsiusRise(self.0 - other.0)
    }

    /// The whole degrees Celsius at or above this temperature: the cautious reading of a table's bands.
    #[must_use]
    pub const fn degrees_rounded_up(self) -> i64 {
        self.0.div_euclid(DEGREE) + (self.0.rem_euclid(DEGREE) != 0) as i64
    }

    /// The whole degrees Celsius at or below this temperature: the cautious reading of a rating.
    #[must_use]
    pub const fn degrees_rounded_down(self) -> i64 {
        self.0.div_euclid(DEGREE)
    }

    /// The whole degrees Fahrenheit at or above this temperature.
    #[must_use]
    pub const fn fahrenheit_rounded_up(self) -> i64 {
        let count = self.0 + 160_000;
        count.div_euclid(5000) + (count.rem_euclid(5000) != 0) as i64
    }
}

impl CelsiusRise {
    /// The count of ninths of a thousandth of a degree Celsius.
    #[must_use]
    pub const fn ninths_of_millidegrees(self) -> i64 {
        self.0
    }
}
