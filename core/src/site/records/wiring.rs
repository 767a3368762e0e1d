//! The conductors of a feeder or a branch circuit.

use crate::quantity::{Celsius, Meters, Written};
use crate::site::record::record;
use crate::trade::{Cable, Conduit, Installation, Insulation, Material, Place, TerminalMark, WireSize};

record! {
    /// The conductors of a feeder or a branch circuit, in their conditions.
    pub struct Wiring: "wiring" {
        /// What the conductors are made of.
        material: Option<Material>,
        /// Their size.
        size: Option<WireSize>,
        /// Their insulation.
        insulation: Option<Insulation>,
        /// The cable assembly that they are part of.
        cable: Option<Cable>,
        /// How they are installed.
        installation: Option<Installation>,
        /// How wet the place is; inside a raceway outdoors it is wet.
        place_kind as "place": Option<Place>,
        /// The length of the run, one way.
        length: Option<Written<Meters>>,
        /// The air temperature around them.
        ambient: Option<Written<Celsius>>,
        /// The conductors that carry current in the same raceway, cable or bundle, those of other circuits too.
        current_carrying: Option<u16>,
        /// Whether the neutral counts as one of them.
        neutral_counted: Option<bool>,
        /// The material of the raceway.
        conduit: Option<Conduit>,
        /// The height above a roof in the sun, where they run there.
        rooftop_clearance: Option<Written<Meters>>,
        /// Whether they lie in thermal insulation.
        thermal_insulation: Option<bool>,
        /// The marks of the terminals at the supply end.
        supply_terminals: Option<TerminalMark>,
        /// The marks of the terminals at the load end.
        load_terminals: Option<TerminalMark>,
        /// The size of the equipment grounding conductor.
        grounding_size: Option<WireSize>,
        /// What the equipment grounding conductor is made of.
        grounding_material: Option<Material>,
        /// The smallest size that would do, where the conductors were enlarged.
        minimum_size: Option<WireSize>,
        /// The size of the neutral, where it differs from that of the conductors.
        neutral_size: Option<WireSize>,
    }
}
