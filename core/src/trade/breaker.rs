//! Overcurrent devices and their marks.

use super::word::words;

words! {
    /// The kind of an overcurrent device.
    pub enum DeviceKind: "kind of overcurrent device" {
        /// An inverse-time circuit breaker.
        Breaker = "breaker" | "circuit breaker",
        /// A fuse.
        Fuse = "fuse",
    }
}

words! {
    /// How many ungrounded conductors a device opens.
    pub enum Poles: "number of poles" {
        /// One.
        One = "1" | "one",
        /// Two.
        Two = "2" | "two",
        /// Three.
        Three = "3" | "three",
    }
}

words! {
    /// How much of its rating a device carries for three hours and more.
    pub enum ContinuousRating: "continuous rating" {
        /// The usual device: 80 % of its rating.
        Standard = "80 %" | "standard",
        /// The device and its assembly are listed for 100 %.
        Listed100 = "100 %" | "listed for 100 %",
    }
}

words! {
    /// The conductor temperature that a terminal is marked for.
    pub enum TerminalMark: "terminal temperature mark" {
        /// 60 °C.
        C60 = "60 °C" | "60 C",
        /// 75 °C, or 60/75 °C.
        C75 = "75 °C" | "60/75 °C" | "75 C" | "60/75 C",
        /// 90 °C.
        C90 = "90 °C" | "90 C",
        /// Not marked: the code's default for the circuit's rating holds.
        Unmarked = "unmarked",
    }
}

impl Poles {
    /// The number of poles.
    #[must_use]
    pub const fn count(self) -> u8 {
        match self {
            Self::One => 1,
            Self::Two => 2,
            Self::Three => 3,
        }
    }
}
