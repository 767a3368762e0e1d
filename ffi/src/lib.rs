//! The C interface of Loadworthy: opaque handles, plain structs, one status a call.
//!
//! `ffi/include/loadworthy.h` is generated from these files, comments and all; write here for those who read there.
//! Unsafe code stands in `border` alone: it reads pointers that C passes and writes through those that it gives. What an
//! entry may assume of a caller is said once, at the top of the header, and checked wherever it can be.

#![allow(non_camel_case_types, reason = "the types are named as C names them")]
#![allow(
    clippy::missing_safety_doc,
    reason = "what a caller owes is the same for every entry; it stands at the top of the header"
)]
#![cfg_attr(test, allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic))]

// A panic is caught at the border and comes back as a status; where panics abort, it could not.
#[cfg(not(panic = "unwind"))]
compile_error!("the C interface catches panics at its border: build it with panic = \"unwind\"");

#[cfg(feature = "arrow")]
pub mod arrow;
#[cfg(feature = "questions")]
pub mod asked;
pub mod batch;
pub mod border;
pub mod choices;
pub mod code;
pub mod error;
pub mod number;
pub mod outcome;
pub mod plan;
pub mod question;
pub mod report;
pub mod sequence;
pub mod site;
pub mod status;
pub mod version;
pub mod working;
