//! Loadworthy: whether every part of an electrical path is fit to carry what it is asked to carry.

#![forbid(unsafe_code)]
#![cfg_attr(test, allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic))]

pub mod batch;
pub mod calc;
pub mod check;
#[cfg(feature = "cli")]
pub mod cli;
pub mod code;
pub mod interrupt;
pub mod plan;
pub mod published;
pub mod quantity;
pub mod report;
pub mod rules;
pub mod site;
pub mod size;
pub mod switching;
pub mod trade;
