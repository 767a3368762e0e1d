//! A load.

use crate::quantity::{Amperes, Hertz, PowerFactor, Ratio, Seconds, VoltAmperes, Volts, Watts, Written};
use crate::site::reader::Reader;
use crate::site::record::record;
use crate::site::value::{DayHour, Name};
use crate::site::words::{LoadKind, LoadWish};
use crate::trade::{CodeLetterMark, Contacts, Duty, Gender, Horsepower, Leg, Phase, StartingMethod};

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
        /// The current that its motor draws while it starts at full voltage: its locked-rotor current.
        starting_current: Option<Written<Amperes>>,
        /// The frequency that it is made for.
        frequency: Option<Written<Hertz>>,
        /// Another frequency that it is made for too.
        other_frequency: Option<Written<Hertz>>,
        /// Whether it charges the very source that feeds it.
        charges_own_source: Option<bool>,
        /// The rated output of its motor.
        motor_output: Option<Horsepower>,
        /// The phases of its motor.
        phases: Option<Phase>,
        /// The locked-rotor code letter of its motor.
        code_letter: Option<CodeLetterMark>,
        /// Whether its motor is a hermetic compressor; its current is then the rated-load current.
        hermetic: Option<bool>,
        /// The least ampacity of its circuit that is marked on the equipment.
        marked_ampacity: Option<Written<Amperes>>,
        /// The largest overcurrent device that is marked on the equipment.
        marked_device: Option<Written<Amperes>>,
        /// How its motor is started.
        starting_method: Option<StartingMethod>,
        /// The share of the locked-rotor current that its soft starter lets through.
        starting_ratio: Option<Written<Ratio>>,
        /// How long its start lasts.
        starting_time: Option<Written<Seconds>>,
        /// Its power factor while it starts.
        starting_power_factor: Option<PowerFactor>,
        /// How long to wait after its start before the next load is started.
        settling_time: Option<Written<Seconds>>,
        /// How far its voltage may dip while a motor starts, as a share of its rated voltage; `100 %` where no dip matters.
        greatest_dip: Option<Written<Ratio>>,
        /// The share of the time that it draws, while it is on.
        duty_cycle: Option<Written<Ratio>>,
        /// The share of the time that it draws, through the day, in place of one share; each part lasts until the next.
        profile: Vec<DayPart>,
        /// What is wanted of it while a source feeds; where this is left out, it is on if it can be.
        wish: Option<LoadWish>,
        /// Its class of importance, 1 before all others and 255 the last; where this is left out it comes after all classes.
        priority: Option<u16>,
        /// What it is worth beside others of its class; 1 where this is left out.
        weight: Option<u16>,
        /// The groups that it is in: of each only one member may be on.
        exclusion_groups: Vec<Name>,
        /// Whether it comes on by itself at any time, as by a thermostat or a float switch.
        automatic: Option<bool>,
        /// Whether it comes on by itself when power returns.
        starts_with_power: Option<bool>,
        /// Whether it can be put on either leg, where its leg is not stated.
        may_choose_leg: Option<bool>,
    }
    at most one of "current", "power", "apparent_power"
    checked by gender
}

record! {
    /// A part of the day.
    pub struct DayPart: "a part of the day" {
        /// The hour at which it begins.
        hour: DayHour,
        /// The share of the time that the load draws from then on.
        share: Written<Ratio>,
    }
}

fn gender(load: &Load, reader: &mut Reader<'_>) {
    if let Some(plug) = load.plug {
        reader.expect_gender(load.place_of("plug"), plug, Gender::Male, "the plug of a load");
    }
}
