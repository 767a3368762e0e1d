//! A branch circuit.

use super::{OvercurrentDevice, Wiring};
use crate::quantity::{Volts, Written};
use crate::site::record::record;
use crate::site::value::Name;
use crate::site::words::Supplies;

record! {
    /// A branch circuit.
    pub struct Circuit: "a circuit" {
        /// Its name.
        name: Name,
        /// The panel that feeds it.
        from: Name,
        /// The device that protects it.
        overcurrent_device: Option<OvercurrentDevice>,
        /// Its nominal voltage.
        voltage: Option<Written<Volts>>,
        /// Its conductors.
        wiring: Option<Wiring>,
        /// Whether it shares its neutral with another leg.
        multiwire: Option<bool>,
        /// What it supplies.
        supplies: Option<Supplies>,
        /// Whether its breaker stays open while the source feeds the panel.
        off_on_source: Option<bool>,
    }
}
