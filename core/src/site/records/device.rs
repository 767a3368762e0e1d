//! An overcurrent device.

use crate::quantity::{Amperes, Written};
use crate::site::record::record;
use crate::trade::{ContinuousRating, DeviceKind, Poles, TerminalMark};

record! {
    /// A circuit breaker or a fuse.
    pub struct OvercurrentDevice: "an overcurrent device" {
        /// Its rated current.
        rating: Option<Written<Amperes>>,
        /// What it is.
        kind: Option<DeviceKind>,
        /// How many ungrounded conductors it opens.
        poles: Option<Poles>,
        /// How much of its rating it carries for three hours and more.
        continuous_rating: Option<ContinuousRating>,
        /// The conductor temperature that its terminals are marked for.
        terminals: Option<TerminalMark>,
    }
}
