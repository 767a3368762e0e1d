//! Every cell that a code answers, against the second copy of the published tables, in every edition.
//!
//! Each answer is asked for twice: of a code that rests on every cell, which must give the printed value and its grade,
//! and of the usual one, which must say "cannot tell" where only memory witnesses the cell.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "tables/compared.rs"]
mod compared;
#[path = "tables/conductors.rs"]
mod conductors;
#[path = "tables/cords.rs"]
mod cords;
#[path = "tables/protection.rs"]
mod protection;
