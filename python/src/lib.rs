//! The module `loadworthy._core`: what of the Python package is written in Rust.
//!
//! It sees only the public face of the core, and judges nothing itself.

#![forbid(unsafe_code)]

mod acceptance;
mod answer;
mod argument;
mod columns;
mod error;
mod failure;
mod quantity;
mod questions;
mod sheet;
mod signals;
mod site;

use std::ffi::OsString;

use pyo3::prelude::*;

/// Runs the command on these arguments, the first of which is its name; gives the exit status.
#[pyfunction]
fn command(py: Python<'_>, arguments: Vec<OsString>) -> u8 {
    py.detach(|| loadworthy::cli::command(arguments))
}

#[pymodule]
fn _core(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add("VERSION", env!("CARGO_PKG_VERSION"))?;
    module.add("QUESTIONS", questions::NAMES.to_vec())?;
    quantity::add_to(module)?;
    questions::add_to(module)?;
    sheet::add_to(module)?;
    module.add_class::<acceptance::Acceptance>()?;
    module.add_class::<answer::Answer>()?;
    module.add_class::<site::Described>()?;
    module.add_class::<columns::JudgedCircuits>()?;
    module.add_function(wrap_pyfunction!(columns::judge_columns, module)?)?;
    module.add_function(wrap_pyfunction!(columns::reasons, module)?)?;
    module.add_function(wrap_pyfunction!(site::rules, module)?)?;
    module.add_function(wrap_pyfunction!(site::kinds, module)?)?;
    module.add_function(wrap_pyfunction!(answer::ask, module)?)?;
    module.add_function(wrap_pyfunction!(answer::wanted, module)?)?;
    module.add_function(wrap_pyfunction!(command, module)?)
}
