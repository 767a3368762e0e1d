//! The module `loadworthy._core`: what of the Python package is written in Rust.
//!
//! It sees only the public face of the core, and judges nothing itself.

#![forbid(unsafe_code)]

use pyo3::prelude::*;

#[pymodule]
mod _core {
    #[pymodule_export]
    const VERSION: &str = env!("CARGO_PKG_VERSION");
}
