//! A panel.

use super::OvercurrentDevice;
use crate::quantity::{Amperes, Written};
use crate::site::joining::{BreakerMarking, Fastening, KeptOff};
use crate::site::record::record;
use crate::site::value::Name;
use crate::trade::System;

record! {
    /// A panelboard.
    pub struct Panel: "a panel" {
        /// Its name.
        name: Name,
        /// What brings the source to it: transfer equipment, a feeder, an outlet, an inlet, a cord or a receptacle.
        from: Option<Name>,
        /// What supplies it when no source runs: `utility` or another panel.
        normal_supply: Option<Name>,
        /// Its supply system.
        system: System,
        /// The rating of its busbar.
        busbar: Option<Written<Amperes>>,
        /// The rating of its main breaker.
        main_breaker: Option<Written<Amperes>>,
        /// The device in it through which the source feeds it.
        supply_breaker: Option<OvercurrentDevice>,
        /// What holds that device in place.
        supply_breaker_fastening: Option<Fastening>,
        /// What is marked at the terminals of that device.
        supply_breaker_marking: Option<BreakerMarking>,
        /// Whether that device sits at the end of the busbar opposite the main breaker.
        supply_breaker_at_far_end: Option<bool>,
        /// The sum of the ratings of all devices in it but the main breaker.
        sum_of_breakers: Option<Written<Amperes>>,
        /// Whether another inlet, source or supply can feed it, besides the two that are named.
        other_supplies: Option<bool>,
        /// Whether equipment keeps each of those apart from every other supply.
        other_supplies_excluded: Option<bool>,
        /// Whether its neutral is bonded to ground in it.
        neutral_bonded: Option<bool>,
        /// The rating of its neutral busbar.
        neutral_bus: Option<Written<Amperes>>,
        /// Whether one line of a source is joined to both of its legs.
        legs_joined: Option<bool>,
        /// Whether it is marked as fed by a single 120 V supply, with no multiwire circuit to be connected.
        single_supply_mark: Option<bool>,
        /// Whether the source's connection to it is temporary.
        temporary: Option<bool>,
        /// Whether only qualified persons service the installation, by its maintenance and supervision.
        qualified_persons_only: Option<bool>,
        /// How its normal supply is kept off while a temporary source feeds it.
        normal_supply_kept_off: Option<KeptOff>,
    }
}
