//! Voltage, current, apparent and real power, resistance.

use super::define::{products, quantity};
use super::geometry::Meters;
use super::ratio::PowerFactor;

/// Smallest units of [`Ohms`] in one ohm. The factor 381 makes feet and meters both whole: 381 km is 1250 kft.
const OHM: i128 = 381_000_000_000_000_000_000_000;

/// Counts of [`Drop`] in one millivolt.
const MILLIVOLT: i128 = 1000 * OHM;

/// Counts of [`Drop`] in one nanovolt.
pub(crate) const NANOVOLT: i128 = OHM / 1000;

quantity! {
    /// An electric potential difference: a whole number of millivolts, 0 to 1,000,000 V.
    Volts(i64), "a" "voltage", 0 => 1_000_000_000,
    ["V" | "volt" | "volts" | "VAC" | "Vac" = 1000; "kV" = 1_000_000; "mV" = 1]
}

quantity! {
    /// An electric current: a whole number of microamperes, 0 to 100,000 A.
    Amperes(i64), "a" "current", 0 => 100_000_000_000,
    ["A" | "amp" | "amps" | "ampere" | "amperes" = 1_000_000; "mA" = 1_000; "kA" = 1_000_000_000]
}

quantity! {
    /// Apparent power: voltage times current, exact (a count of 10⁻⁹ VA), up to 10¹² VA.
    VoltAmperes(i128), "an" "apparent power", 0 => 1_000_000_000_000_000_000_000,
    ["VA" | "volt-ampere" | "volt-amperes" = 1_000_000_000; "kVA" = 1_000_000_000_000; "MVA" = 1_000_000_000_000_000]
}

quantity! {
    /// Real power: apparent power times power factor, exact (a count of 10⁻¹⁵ W), up to 10¹² W.
    Watts(i128), "a" "power", 0 => 1_000_000_000_000_000_000_000_000_000,
    [
        "W" | "watt" | "watts" = 1_000_000_000_000_000;
        "kW" | "kilowatt" | "kilowatts" = 1_000_000_000_000_000_000;
        "MW" = 1_000_000_000_000_000_000_000;
        "mW" = 1_000_000_000_000
    ]
}

quantity! {
    /// Resistance, reactance or impedance, exact for any length in feet or meters, up to 3300 Ω.
    Ohms(i128), "a" "resistance", 0 => 3300 * OHM,
    ["ohm" | "ohms" | "Ω" | "Ohm" = OHM; "mohm" | "mΩ" | "milliohm" | "milliohms" = OHM / 1000; "kohm" | "kΩ" = OHM * 1000]
}

quantity! {
    /// Resistance or reactance per length of one conductor, exact per kilofoot and per kilometer, up to 100 Ω/kft.
    OhmsPerLength(i64), "a" "resistance per length", 0 => 125_000_000_000_000_000,
    [
        "ohm/kft" | "ohms/kft" | "Ω/kft" = 1_250_000_000_000_000;
        "ohm/km" | "ohms/km" | "Ω/km" | "mohm/m" | "mΩ/m" = 381_000_000_000_000;
        "ohm/ft" | "Ω/ft" = 1_250_000_000_000_000_000;
        "ohm/m" | "Ω/m" = 381_000_000_000_000_000
    ]
}

quantity! {
    /// A voltage drop: current times resistance, exact and never rounded; up to 3.3 · 10⁸ V.
    ///
    /// It is compared with a share of a supply voltage by [`Drop::compare_share`], not by dividing.
    Drop(i128), "a" "voltage drop", 0 => 330_000_000 * 1_000_000 * OHM,
    ["V" | "volt" | "volts" = 1_000_000 * OHM]
}

products! {
    Volts * Amperes = VoltAmperes;
    VoltAmperes * PowerFactor = Watts;
    OhmsPerLength * Meters = Ohms;
    Amperes * Ohms = Drop;
}

impl Amperes {
    /// No current.
    pub const ZERO: Self = Self(0);

    /// A current of whole amperes, at most 65,535.
    ///
    /// ```
    /// # use loadworthy::quantity::Amperes;
    /// assert_eq!(Amperes::from_whole(40).to_string(), "40 A");
    /// ```
    #[must_use]
    pub const fn from_whole(amperes: u16) -> Self {
        Self(amperes as i64 * 1_000_000)
    }

    /// The count of microamperes.
    #[must_use]
    pub const fn microamperes(self) -> i64 {
        self.0
    }
}

impl Volts {
    /// A voltage of whole volts.
    #[must_use]
    pub const fn from_whole(volts: u16) -> Self {
        Self(volts as i64 * 1000)
    }

    /// The count of millivolts.
    #[must_use]
    pub const fn millivolts(self) -> i64 {
        self.0
    }
}

impl Ohms {
    /// No resistance.
    pub const ZERO: Self = Self(0);

    /// The resistance of `conductors` of these in series, such as the way there and the way back.
    #[must_use]
    pub fn times(self, conductors: u8) -> Option<Self> {
        self.0.checked_mul(i128::from(conductors)).and_then(Self::new)
    }
}

impl Drop {
    /// No drop.
    pub const ZERO: Self = Self(0);

    /// The drop rounded up to the millivolt, for showing: a drop is never shown smaller than it is. One beyond the range of a
    /// voltage, which no load can take, is shown as it is.
    #[must_use]
    pub fn rounded_up(self) -> Self {
        Self(self.millivolts_rounded_up() * MILLIVOLT)
    }

    /// The count of millivolts, rounded up.
    #[must_use]
    pub const fn millivolts_rounded_up(self) -> i128 {
        self.0 / MILLIVOLT + (self.0 % MILLIVOLT != 0) as i128
    }

    /// The drop as a voltage, rounded up to the millivolt; `None` beyond the range of one.
    #[must_use]
    pub fn to_volts(self) -> Option<Volts> {
        i64::try_from(self.millivolts_rounded_up()).ok().and_then(Volts::new)
    }

    /// A drop that is a voltage.
    #[must_use]
    pub fn from_volts(volts: Volts) -> Self {
        Self(i128::from(volts.0) * MILLIVOLT)
    }

    /// How the drop compares with `share` of `supply`, exactly.
    ///
    /// ```
    /// # use loadworthy::quantity::*;
    /// let two_hundred_milliohms: Ohms = "0.2 ohm".parse()?;
    /// let drop = "18 A".parse::<Amperes>()? * two_hundred_milliohms;
    /// // 3.6 V of 120 V is exactly 3 %: at the limit, not over it.
    /// assert!(drop.compare_share("120 V".parse()?, "3 %".parse()?).is_eq());
    /// # Ok::<(), QuantityError>(())
    /// ```
    #[must_use]
    pub fn compare_share(self, supply: Volts, share: super::Ratio) -> std::cmp::Ordering {
        // drop [1 / (10^6 OHM) V] against supply [10^-3 V] x share [10^-6]
        super::compare_products(
            self.0.unsigned_abs(),
            1000,
            supply.0.unsigned_abs() as u128 * share.count_of_millionths() as u128,
            OHM.unsigned_abs(),
        )
    }
}
