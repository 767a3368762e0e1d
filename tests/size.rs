//! Sizes are minimal and pass the forward calculations: properties over random circuits, cords, raceways and boxes.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod corpus;

#[path = "size/circuits.rs"]
mod circuits;
#[path = "size/cords.rs"]
mod cords;
#[path = "size/kits.rs"]
mod kits;
#[path = "size/motors.rs"]
mod motors;
#[path = "size/remedies.rs"]
mod remedies;
#[path = "size/room.rs"]
mod room;
#[path = "size/unknowns.rs"]
mod unknowns;
