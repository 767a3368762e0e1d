//! Transfer equipment.

use crate::quantity::{Amperes, Written};
use crate::site::joining::{InterlockMounting, NeutralOpens};
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
        /// Whether any position that its handles can be brought into joins two of its supplies.
        joins_two_supplies: Option<bool>,
        /// Whether a source is meant to run joined with the utility through it.
        parallel: Option<bool>,
        /// Whether it brings both supplies into step before they meet.
        synchronizing: Option<bool>,
        /// Whether the panel's own listing or marking covers an interlock, fitted as its instructions say.
        listed_for_panel: Option<bool>,
        /// What an interlock is fastened to.
        mounting: Option<InterlockMounting>,
        /// Whether the cover that carries an interlock stays on whenever its breakers are worked.
        cover_stays_on: Option<bool>,
        /// Whether one handle moves every ungrounded conductor, and the neutral where it is switched.
        poles_move_together: Option<bool>,
        /// When it opens the neutral, where it switches it.
        neutral_opens: Option<NeutralOpens>,
        /// The rating of the device that protects it on the side of the normal supply.
        normal_device: Option<Written<Amperes>>,
        /// The fault current that it withstands: for an interlock, that of its panel and breakers.
        short_circuit_rating: Option<Written<Amperes>>,
        /// The greatest current that a fault at it can draw, whichever supply feeds it.
        available_fault_current: Option<Written<Amperes>>,
        /// Whether the utility agreed to it, in place of the meter or in parallel.
        utility_agreed: Option<bool>,
        /// Whether a person qualified for interactive sources installed it.
        qualified_installer: Option<bool>,
        /// Whether a warning stands at each switch whose load terminals may be live while it is open.
        backfeed_warning: Option<bool>,
    }
}
