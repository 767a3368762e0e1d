//! The procedure by which people connect a source and return to the utility.

use crate::site::record::record;

record! {
    /// The procedure by which people connect a source and return to the utility. Each fact says what is done every time.
    pub struct Procedure: "a procedure" {
        /// Whether the way from the utility is opened, and seen to be open, before a source is connected.
        main_verified_open: Option<bool>,
        /// Whether anybody is to work on the wiring.
        wiring_work: Option<bool>,
        /// Whether every source that can reach that work is locked and tagged.
        all_sources_locked: Option<bool>,
        /// Whether it is tested dead at the point of work, between phases and to ground, with a meter of contact proved before and after.
        tested_dead: Option<bool>,
        /// Whether connectors are made and parted only while no current flows.
        connectors_unloaded: Option<bool>,
        /// Whether the branch circuits are off when a source is joined or removed.
        loads_off_at_transfer: Option<bool>,
        /// Whether loads are added one at a time, the largest starting demand first.
        largest_start_first: Option<bool>,
        /// Whether sensitive electronics go on last and off first, behind surge protection.
        electronics_last: Option<bool>,
        /// Whether on return the way from the source is opened before the way from the utility is closed.
        source_opened_before_utility: Option<bool>,
        /// Whether on return loads go off first, and the source cools and stops before its cords are parted.
        returned_in_order: Option<bool>,
        /// Whether somebody is there while a portable source runs.
        attended: Option<bool>,
        /// Whether fuel is added only with the engine stopped.
        refueled_stopped: Option<bool>,
        /// Whether fuel is added only with the engine cool.
        refueled_cool: Option<bool>,
        /// Whether fuel is stored away from the engine and from where people live.
        fuel_stored_away: Option<bool>,
        /// Whether the steps for this site are posted at the transfer equipment.
        posted: Option<bool>,
    }
}
