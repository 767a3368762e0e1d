//! The site as a whole, and its utility service.

use crate::quantity::{Celsius, Meters, PowerFactor, Watts, Written};
use crate::site::joining::Occupancy;
use crate::site::record::record;
use crate::trade::System;

record! {
    /// The site as a whole.
    pub struct Premises: "a site" {
        /// How the report calls it.
        name: String,
        /// The code edition that it is judged by, such as `nec-2023`.
        code: String,
        /// The air temperature around its wiring where a component does not say otherwise.
        ambient: Option<Written<Celsius>>,
        /// What kind of building it is.
        occupancy: Option<Occupancy>,
        /// Whether people work there with the source's cords and tools.
        workplace: Option<bool>,
        /// How high it lies above the sea.
        altitude: Option<Written<Meters>>,
        /// What it draws besides the loads that are described, and all the time.
        base_load: Option<Written<Watts>>,
        /// The power factor of that.
        base_load_power_factor: Option<PowerFactor>,
        /// Anything a reader should know; nothing is concluded from it.
        note: Option<String>,
        /// The cautions that somebody has read and answers for, by the slugs of their rules: the report counts them and
        /// shows them no more. Nothing but a caution becomes quiet.
        acknowledged: Vec<String>,
    }
}

record! {
    /// The utility service.
    pub struct Utility: "a utility service" {
        /// Whether there is one: `false` says that the site is served by its own sources alone.
        connected: bool,
        /// Its supply system.
        system: Option<System>,
        /// Whether the neutral is bonded to ground at service equipment that is not one of the panels.
        neutral_bonded_ahead: Option<bool>,
    }
}
