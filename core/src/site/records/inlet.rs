//! An inlet.

use crate::quantity::{Amperes, Written};
use crate::site::joining::NeutralMark;
use crate::site::reader::Reader;
use crate::site::record::record;
use crate::site::value::Name;
use crate::trade::{Contacts, Gender, Place};

record! {
    /// An inlet: blades fixed to the building or a vehicle, which a cord's connector is pushed onto.
    pub struct Inlet: "an inlet" {
        /// Its name.
        name: Name,
        /// The cord that feeds it.
        from: Name,
        /// Its contacts: an inlet has blades, as in `14-50P`.
        configuration: Contacts,
        /// Its rated current, where it differs from the configuration's.
        rated_current: Option<Written<Amperes>>,
        /// How wet the place is where it is mounted.
        place_kind as "place": Option<Place>,
        /// Whether it is outdoors.
        outdoors: Option<bool>,
        /// Whether it is listed.
        listed: Option<bool>,
        /// Whether a cover closes over its blades while nothing is plugged in.
        cover: Option<bool>,
        /// Whether a listed disconnect is interlocked with it, or it is listed as a disconnect itself.
        interlocked_disconnect: Option<bool>,
        /// What the sign beside it says of the source's neutral.
        neutral_sign: Option<NeutralMark>,
    }
    checked by gender
}

fn gender(inlet: &Inlet, reader: &mut Reader<'_>) {
    reader.expect_gender(inlet.place_of("configuration"), inlet.configuration, Gender::Male, "an inlet");
}
