//! The whole document.

use super::{
    Circuit, Cord, Dwelling, Feeder, Inlet, Load, Panel, Premises, Procedure, Receptacle, Source, Surroundings,
    Transfer, Utility,
};
use crate::site::record::record;

record! {
    /// The whole description. Each component refers by name to the one that feeds it; names are unique over the document.
    pub struct Document: "a site description" {
        /// The site as a whole.
        site: Premises,
        /// The utility service; where it is left out, whether there is one is not known.
        utility: Option<Utility>,
        /// The sources.
        sources as "source": Vec<Source>,
        /// The flexible cords.
        cords as "cord": Vec<Cord>,
        /// The inlets.
        inlets as "inlet": Vec<Inlet>,
        /// The feeders: fixed wiring that is not a branch circuit.
        feeders as "feeder": Vec<Feeder>,
        /// The transfer equipment.
        transfers as "transfer": Vec<Transfer>,
        /// The panels.
        panels as "panel": Vec<Panel>,
        /// The branch circuits.
        circuits as "circuit": Vec<Circuit>,
        /// The receptacles, and the outlets of a cord's connector.
        receptacles as "receptacle": Vec<Receptacle>,
        /// The loads.
        loads as "load": Vec<Load>,
        /// The place around the site, its people and its alarms.
        surroundings: Option<Surroundings>,
        /// The dwelling as a whole: what its calculated load rests on.
        dwelling: Option<Dwelling>,
        /// The procedure by which people connect a source and return to the utility.
        procedure: Option<Procedure>,
    }
}
