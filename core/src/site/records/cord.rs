//! A flexible cord.

use crate::quantity::{Celsius, Meters, Written};
use crate::site::record::record;
use crate::site::value::{End, Name};
use crate::site::words::{Assembly, CordRoute};
use crate::trade::{CordType, Place, WireSize};

record! {
    /// A flexible cord with its two ends.
    pub struct Cord: "a cord" {
        /// Its name.
        name: Name,
        /// What it is plugged into or wired to: an outlet, a receptacle or another cord.
        from: Name,
        /// Its type, by the letters on its jacket.
        cord_type as "type": Option<CordType>,
        /// The size of its conductors.
        size: Option<WireSize>,
        /// All conductors in the jacket, the grounding conductor too.
        conductors: Option<u16>,
        /// Its conductors that carry current, where the count differs from what the system says.
        current_carrying: Option<u16>,
        /// Its length.
        length: Option<Written<Meters>>,
        /// The end towards the source: normally a plug.
        supply_end: End,
        /// The end towards the loads: normally a connector.
        load_end: End,
        /// The temperature that its insulation is rated for, as marked.
        temperature_rating: Option<Written<Celsius>>,
        /// The air temperature around it.
        ambient: Option<Written<Celsius>>,
        /// How wet the place is where it lies.
        place_kind as "place": Option<Place>,
        /// Whether any part of it lies outdoors.
        outdoors: Option<bool>,
        /// Who made it.
        assembly: Option<Assembly>,
        /// The way that it takes.
        route: Option<CordRoute>,
        /// Whether it is there only while the utility is out.
        outage_only: Option<bool>,
        /// Whether it is protected from pinching where it passes a door or a window.
        pinch_protected: Option<bool>,
        /// Whether it was looked over and found undamaged, under no rug and under no tension.
        sound: Option<bool>,
        /// Whether a part of it stays coiled or on its reel.
        coiled: Option<bool>,
        /// Whether its connections outdoors are off the ground and in covers.
        connections_off_ground: Option<bool>,
    }
}
