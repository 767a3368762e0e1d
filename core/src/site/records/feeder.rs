//! A feeder.

use super::{OvercurrentDevice, Wiring};
use crate::site::record::record;
use crate::site::value::Name;

record! {
    /// Fixed wiring that is not a branch circuit, such as the wiring from an inlet to a panel.
    pub struct Feeder: "a feeder" {
        /// Its name.
        name: Name,
        /// What feeds it: an inlet, an outlet, a panel or transfer equipment.
        from: Name,
        /// The device at its supply end that protects it, where it has one of its own.
        overcurrent_device: Option<OvercurrentDevice>,
        /// Its conductors.
        wiring: Option<Wiring>,
    }
}
