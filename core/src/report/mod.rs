//! What people and programs read.

pub mod derivation;
