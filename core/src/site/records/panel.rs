//! A panel.

use super::OvercurrentDevice;
use crate::quantity::{Amperes, Written};
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
    }
}
