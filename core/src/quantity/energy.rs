//! Time, frequency and energy.

use super::define::quantity;
use super::electrical::Watts;

quantity! {
    /// A duration: a whole number of milliseconds, up to 1000 days.
    Seconds(i64), "a" "duration", 0 => 86_400_000_000,
    [
        "s" | "sec" | "second" | "seconds" = 1000;
        "min" | "minute" | "minutes" = 60_000;
        "h" | "hr" | "hour" | "hours" = 3_600_000;
        "d" | "day" | "days" = 86_400_000; "ms" = 1
    ]
}

quantity! {
    /// A frequency: a whole number of millihertz, up to 1000 Hz.
    Hertz(i64), "a" "frequency", 0 => 1_000_000,
    ["Hz" | "hertz" = 1000]
}

quantity! {
    /// An energy: power times time, exact (a count of 10⁻¹⁸ J), up to 10¹⁷ W·s.
    WattHours(i128), "an" "energy", 0 => 100_000_000_000_000_000_000_000_000_000_000_000,
    [
        "Wh" | "watt-hour" | "watt-hours" = 3_600_000_000_000_000_000_000;
        "kWh" = 3_600_000_000_000_000_000_000_000;
        "MWh" = 3_600_000_000_000_000_000_000_000_000
    ]
}

impl std::ops::Mul<Seconds> for Watts {
    type Output = Option<WattHours>;

    /// The energy of this power over `time`; `None` above the range of [`WattHours`].
    fn mul(self, time: Seconds) -> Option<WattHours> {
        use super::Quantity;
        self.count().checked_mul(i128::from(time.0)).and_then(WattHours::new)
    }
}
