//! Transfer equipment.

use crate::quantity::{Amperes, Written};
use crate::site::record::record;
use crate::site::value::Name;
use crate::site::words::{TransferKind, TransferNeutral, Transition};

record! {
    /// Equipment that keeps the source and the utility apart.
    pub struct Transfer: "transfer equipment" {
        /// Its name.
        name: Name,
        /// What brings the source to it: a feeder, an inlet, an outlet or a cord.
        from: Name,
        /// What it is.
        kind: TransferKind,
        /// Its rated current.
        rated_current: Option<Written<Amperes>>,
        /// Whether it switches the neutral.
        neutral: Option<TransferNeutral>,
        /// Whether it is listed for this use.
        listed: Option<bool>,
        /// How it passes from one supply to the other.
        transition: Option<Transition>,
    }
}
