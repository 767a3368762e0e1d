//! The inverse question: the smallest that passes.
//!
//! Each function answers with standard sizes, the requirement that governed each of them, and the working when asked.
//! Every answer passes the forward calculations of [`calc`](crate::calc), and the next smaller standard size fails one.
//! Where nothing standard passes, the answer is the requirement that cannot be met and what would have to change.

pub mod ampacity;
pub mod box_fill;
pub mod circuit;
mod conductor;
pub mod cord;
pub mod kit;
pub mod motor;
pub mod raceway;
pub mod remedy;
mod requirement;
mod search;
pub mod solve;

pub use requirement::{Chosen, NothingPasses, Requirement, Unsized};
