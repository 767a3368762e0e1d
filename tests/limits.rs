//! Every limit of the calculations: at it, one step under, one step over.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "limits/cells.rs"]
mod cells;
#[path = "limits/conductors.rs"]
mod conductors;
#[path = "limits/devices.rs"]
mod devices;
#[path = "limits/drops.rs"]
mod drops;

use std::fmt::Debug;
use std::str::FromStr;

use loadworthy::code::{Acceptance, Edition, Nec};
use loadworthy::published::Grade;

/// A value as people write it.
fn of<T: FromStr<Err: Debug>>(text: &str) -> T {
    text.parse().unwrap()
}

fn nec(edition: Edition) -> &'static Nec {
    Nec::standard(edition)
}

/// An edition that rests on every cell, for the limits among the cells of memory.
fn every_cell(edition: Edition) -> Nec {
    Nec::new(edition, &Acceptance::of_grade(Grade::Memory))
}
