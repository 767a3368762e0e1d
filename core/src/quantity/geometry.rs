//! Length and area.

use super::define::quantity;

quantity! {
    /// A length: a whole number of micrometers, so that hundredths of feet, of inches and of millimeters are all exact,
    /// and 7/8 in too; 0 to 10 km.
    Meters(i64), "a" "length", 0 => 10_000_000_000,
    [
        "ft" | "foot" | "feet" | "'" = 304_800;
        "m" | "meter" | "meters" | "metre" | "metres" = 1_000_000;
        "in" | "inch" | "inches" | "\"" = 25_400;
        "mm" = 1000; "cm" = 10_000; "km" = 1_000_000_000; "yd" | "yard" | "yards" = 914_400
    ]
}

quantity! {
    /// An area: a whole number of 10⁻⁶ mm², up to 10⁶ mm².
    SquareMillimeters(i64), "an" "area", 0 => 1_000_000_000_000,
    ["mm2" | "mm²" | "sq mm" = 1_000_000; "in2" | "in²" | "sq in" = 645_160_000]
}

quantity! {
    /// The floor area of a building: a whole number of 10⁻⁸ m², so that square feet are exact; up to 10⁵ m².
    SquareMeters(i64), "a" "floor area", 0 => 10_000_000_000_000,
    ["ft²" | "ft2" | "sq ft" | "square feet" = 9_290_304; "m²" | "m2" | "sq m" = 100_000_000]
}

quantity! {
    /// A volume: a whole number of thousandths of a cubic millimeter, so that cubic inches are exact; up to 10⁹ mm³.
    CubicMillimeters(i64), "a" "volume", 0 => 1_000_000_000_000,
    ["in3" | "in³" | "cu in" = 16_387_064; "mm3" | "mm³" = 1000; "cm3" | "cm³" | "mL" = 1_000_000]
}

quantity! {
    /// The area of a conductor in circular mils (the square of its diameter in thousandths of an inch), up to 10⁸.
    CircularMils(i64), "a" "conductor area", 0 => 100_000_000,
    ["cmil" | "circular mil" | "circular mils" = 1; "kcmil" = 1000]
}

impl SquareMeters {
    /// Whole square feet, rounded up.
    #[must_use]
    pub fn square_feet_up(self) -> u32 {
        let feet = self.0.unsigned_abs().div_ceil(9_290_304);
        u32::try_from(feet).unwrap_or(u32::MAX)
    }
}

impl Meters {
    /// No length.
    pub const ZERO: Self = Self(0);

    /// A length of whole feet.
    #[must_use]
    pub const fn from_feet(feet: u16) -> Self {
        Self(feet as i64 * 304_800)
    }
}
