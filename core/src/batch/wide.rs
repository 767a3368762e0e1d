//! Loops over columns, compiled once for each width of vectors: the widest of the processor at hand is taken.
//!
//! The code is the same for all of them, and no operation of it rounds otherwise in wider vectors.

/// Runs a call with the widest vectors. What is called must be inlined always, and so must what it calls.
macro_rules! widest {
    ($call:expr) => {
        fearless_simd::dispatch!(fearless_simd::Level::new(), _level => $call)
    };
}
pub(super) use widest;
