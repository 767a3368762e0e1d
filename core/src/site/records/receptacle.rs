//! A receptacle.

use crate::site::reader::Reader;
use crate::site::record::record;
use crate::site::value::Name;
use crate::trade::{Contacts, Gender};

record! {
    /// A receptacle of a circuit, or an outlet at the end of a cord.
    pub struct Receptacle: "a receptacle" {
        /// Its name.
        name: Name,
        /// What feeds it: a circuit, an outlet or a cord.
        from: Name,
        /// Its contacts: a receptacle has openings, as in `5-20R`.
        configuration: Contacts,
        /// How many of them there are: a duplex receptacle is two.
        count: Option<u16>,
        /// Whether it is outdoors.
        outdoors: Option<bool>,
        /// Whether a ground-fault circuit interrupter protects it.
        gfci: Option<bool>,
        /// Whether its cover keeps water out while a plug is in it.
        cover_in_use: Option<bool>,
    }
    checked by gender
}

fn gender(receptacle: &Receptacle, reader: &mut Reader<'_>) {
    reader.expect_gender(
        receptacle.place_of("configuration"),
        receptacle.configuration,
        Gender::Female,
        "a receptacle",
    );
}
