//! A source and its outlets.

use crate::quantity::{Amperes, Hertz, PowerFactor, Ratio, VoltAmperes, Watts, Written};
use crate::site::record::record;
use crate::site::value::{End, Name};
use crate::site::words::{SourceKind, SourceNeutral};
use crate::trade::{ContinuousRating, Poles, System};

record! {
    /// A portable or standby source of electricity.
    pub struct Source: "a source" {
        /// Its name.
        name: Name,
        /// What kind of machine it is.
        kind: SourceKind,
        /// The supply system that it gives.
        system: System,
        /// The current that it gives for hours on each leg.
        continuous_current: Option<Written<Amperes>>,
        /// The real power that it gives for hours.
        continuous_power: Option<Written<Watts>>,
        /// The apparent power that it gives for hours.
        continuous_apparent_power: Option<Written<VoltAmperes>>,
        /// The power factor at which its power is stated.
        power_factor: Option<PowerFactor>,
        /// Whether its neutral is bonded to its frame.
        neutral: Option<SourceNeutral>,
        /// Whether a fuel engine drives it, whose exhaust kills.
        engine: Option<bool>,
        /// The share of its voltage that the drop up to a load may reach, where the source or its loads require one.
        greatest_drop: Option<Written<Ratio>>,
        /// Whether it is portable.
        portable: Option<bool>,
        /// Its frequency.
        frequency: Option<Written<Hertz>>,
        /// Anything a reader should know; nothing is concluded from it.
        note: Option<String>,
        /// Its outlets, or the terminals that wiring is fastened to.
        outlets as "outlet": Vec<Outlet>,
    }
}

record! {
    /// An outlet of a source.
    pub struct Outlet: "an outlet" {
        /// Its name.
        name: Name,
        /// Its receptacle, or `hardwired` for terminals.
        configuration: End,
        /// The rating of the device that protects it.
        overcurrent_device: Option<Written<Amperes>>,
        /// The poles of that device.
        poles: Option<Poles>,
        /// How much of its rating that device carries for three hours and more.
        continuous_rating: Option<ContinuousRating>,
        /// The current that the source gives for hours through this outlet, where it is less than the configuration suggests.
        continuous_current: Option<Written<Amperes>>,
        /// Whether a ground-fault circuit interrupter protects it.
        gfci: Option<bool>,
    }
}
