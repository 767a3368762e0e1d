//! A load.

use crate::quantity::{Amperes, Hertz, PowerFactor, VoltAmperes, Volts, Watts, Written};
use crate::site::reader::Reader;
use crate::site::record::record;
use crate::site::value::Name;
use crate::site::words::LoadKind;
use crate::trade::{Contacts, Duty, Gender, Leg};

record! {
    /// A load. Its draw is stated as a current, a power with its power factor, or an apparent power.
    pub struct Load: "a load" {
        /// Its name.
        name: Name,
        /// What feeds it: a circuit, a receptacle, a cord, an outlet or an inlet.
        from: Name,
        /// The current that it draws.
        current: Option<Written<Amperes>>,
        /// The real power that it draws.
        power: Option<Written<Watts>>,
        /// The power factor of that power.
        power_factor: Option<PowerFactor>,
        /// The apparent power that it draws.
        apparent_power: Option<Written<VoltAmperes>>,
        /// Its rated voltage.
        voltage: Written<Volts>,
        /// Whether it is expected to run for three hours or more.
        duty: Option<Duty>,
        /// The leg of a split phase that it is connected to.
        leg: Option<Leg>,
        /// Its plug, where it has one.
        plug: Option<Contacts>,
        /// Whether it is to run on the source; it is counted where this is left out.
        running: Option<bool>,
        /// The lowest voltage that it works at.
        lowest_voltage: Option<Written<Volts>>,
        /// Whether it is fastened in place.
        fastened_in_place: Option<bool>,
        /// What kind of load it is.
        kind: Option<LoadKind>,
        /// The current that its motor draws while it starts: its locked-rotor current.
        starting_current: Option<Written<Amperes>>,
        /// The frequency that it is made for.
        frequency: Option<Written<Hertz>>,
        /// Another frequency that it is made for too.
        other_frequency: Option<Written<Hertz>>,
        /// Whether it charges the very source that feeds it.
        charges_own_source: Option<bool>,
    }
    at most one of "current", "power", "apparent_power"
    checked by gender
}

fn gender(load: &Load, reader: &mut Reader<'_>) {
    if let Some(plug) = load.plug {
        reader.expect_gender(load.place_of("plug"), plug, Gender::Male, "the plug of a load");
    }
}
