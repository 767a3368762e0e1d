//! Supply systems, the legs of a split phase, and how long a load lasts.

use super::word::words;
use crate::quantity::Volts;

words! {
    /// A supply system by its nominal voltages.
    pub enum System: "supply system" {
        /// Two wires, 120 V.
        V120 = "120 V",
        /// Two wires, 240 V, no neutral.
        V240 = "240 V",
        /// Three wires, split phase.
        V120V240 = "120/240 V",
        /// Two phases and the neutral of a wye, or all three.
        V208Y120 = "208Y/120 V",
        /// Four-wire wye.
        V480Y277 = "480Y/277 V",
        /// Two wires, 230 V.
        V230 = "230 V",
        /// Four-wire wye, 400 V.
        V400Y230 = "400Y/230 V",
    }
}

words! {
    /// One of the two ungrounded conductors of a split phase.
    pub enum Leg: "leg" {
        /// The first.
        A = "A",
        /// The second.
        B = "B",
        /// Between both.
        Both = "both",
    }
}

words! {
    /// Whether a load is expected to last three hours or more.
    pub enum Duty: "duty" {
        /// Three hours or more.
        Continuous = "continuous",
        /// Less than three hours.
        NonContinuous = "non-continuous" | "noncontinuous",
    }
}

impl System {
    /// The voltage between a line and the neutral; `None` where there is no neutral.
    #[must_use]
    pub const fn line_to_neutral(self) -> Option<Volts> {
        match self {
            Self::V120 | Self::V120V240 | Self::V208Y120 => Some(Volts::from_whole(120)),
            Self::V240 => None,
            Self::V480Y277 => Some(Volts::from_whole(277)),
            Self::V230 | Self::V400Y230 => Some(Volts::from_whole(230)),
        }
    }

    /// The voltage between two lines; `None` where there is only one.
    #[must_use]
    pub const fn line_to_line(self) -> Option<Volts> {
        match self {
            Self::V120 | Self::V230 => None,
            Self::V240 | Self::V120V240 => Some(Volts::from_whole(240)),
            Self::V208Y120 => Some(Volts::from_whole(208)),
            Self::V480Y277 => Some(Volts::from_whole(480)),
            Self::V400Y230 => Some(Volts::from_whole(400)),
        }
    }

    /// Whether the system gives `voltage` between some two of its conductors.
    #[must_use]
    pub fn gives(self, voltage: Volts) -> bool {
        self.line_to_neutral() == Some(voltage) || self.line_to_line() == Some(voltage)
    }
}
