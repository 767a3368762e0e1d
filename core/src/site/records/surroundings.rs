//! The place around the site, its people and its alarms.

use crate::quantity::{Meters, Written};
use crate::site::record::record;
use crate::site::words::PhaseSequence;

record! {
    /// The place around the site, its people and its alarms.
    pub struct Surroundings: "surroundings" {
        /// Whether the doors, windows and vents that exhaust could reach are closed while an engine runs.
        openings_closed: Option<bool>,
        /// Whether tested carbon monoxide alarms with batteries are on each level and outside each sleeping area.
        carbon_monoxide_alarms: Option<bool>,
        /// Whether anybody depends on medical equipment that needs electricity.
        medical_equipment: Option<bool>,
        /// Whether there is a written plan for that equipment which does not rest on the source alone.
        medical_plan: Option<bool>,
        /// The depth of the clear space in front of the panel and the transfer equipment.
        working_depth: Option<Written<Meters>>,
        /// The width of that space.
        working_width: Option<Written<Meters>>,
        /// The height of that space.
        working_height: Option<Written<Meters>>,
        /// The phase sequence of the premises, where they have three phases.
        phase_sequence: Option<PhaseSequence>,
    }
}
