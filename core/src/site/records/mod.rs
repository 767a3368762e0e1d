//! The records of a site description, one file each.

mod circuit;
mod cord;
mod device;
mod document;
mod dwelling;
mod feeder;
mod inlet;
mod load;
mod panel;
mod premises;
mod procedure;
mod receptacle;
mod source;
mod surroundings;
mod transfer;
mod wiring;

pub use circuit::Circuit;
pub use cord::Cord;
pub use device::OvercurrentDevice;
pub use document::Document;
pub use dwelling::{Appliance, Dwelling};
pub use feeder::Feeder;
pub use inlet::Inlet;
pub use load::{DayPart, Load};
pub use panel::Panel;
pub use premises::{Premises, Utility};
pub use procedure::Procedure;
pub use receptacle::Receptacle;
pub use source::{FuelUse, Losses, Outlet, Source};
pub use surroundings::Surroundings;
pub use transfer::Transfer;
pub use wiring::Wiring;
