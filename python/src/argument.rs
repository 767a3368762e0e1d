//! What Python hands in, as the text that the core reads.

use loadworthy::cli::Asked;
use loadworthy::code::Edition;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyBool, PyFloat, PyInt, PyList, PyString, PyTuple, PyType};

use crate::acceptance::Acceptance;
use crate::error;
use crate::quantity;

/// States an option, unless it is `None`.
pub(crate) fn state(asked: &mut Asked, option: &str, value: Option<&Bound<'_, PyAny>>) -> PyResult<()> {
    let Some(value) = value else { return Ok(()) };
    // A keyword of Python that is one of Rust too.
    let option = option.strip_prefix("r#").unwrap_or(option);
    if let Ok(text) = value.cast::<PyString>() {
        return set(asked, option, whole(asked, option, text)?);
    }
    if value.is_none() {
        return Ok(());
    }
    if value.is_instance_of::<PyList>() || value.is_instance_of::<PyTuple>() {
        for one in value.try_iter()? {
            let one = one?;
            let text = text(asked, option, &one)?;
            set(asked, option, &text)?;
        }
        return Ok(());
    }
    let text = text(asked, option, value)?;
    set(asked, option, &text)
}

fn set(asked: &mut Asked, option: &str, text: &str) -> PyResult<()> {
    asked.set(option, text).map_err(|error| error::question(asked, &error))
}

/// One value as text; what has a unit of its own brings it along.
fn text(asked: &Asked, option: &str, value: &Bound<'_, PyAny>) -> PyResult<String> {
    if let Ok(text) = value.cast::<PyString>() {
        return Ok(whole(asked, option, text)?.to_owned());
    }
    if value.is_instance_of::<PyBool>() {
        return Err(error::wrong_type(asked, option, value));
    }
    if value.is_instance_of::<PyInt>() {
        // A count is a count; where a unit is wanted, the core says which.
        return digits(value).ok_or_else(|| error::value(asked, option, "this", TOO_LONG));
    }
    if value.is_instance_of::<PyFloat>() {
        let shown = format!("`{}`", value.repr()?);
        return Err(error::value(asked, option, &shown, "a bare binary floating-point number"));
    }
    if let Some(text) = quantity::text_of(value) {
        return text;
    }
    if value.is_instance(decimal(value.py())?)? {
        return plain(value);
    }
    if let Some(text) = foreign(value)? {
        return Ok(text);
    }
    // The whole numbers of other libraries; some give a number for their truth values too.
    if value.get_type().name()?.to_str().is_ok_and(|name| matches!(name, "bool" | "bool_")) {
        return Err(error::wrong_type(asked, option, value));
    }
    digits(value).ok_or_else(|| error::wrong_type(asked, option, value))
}

/// What the keyword `edition` names; whether there is such an edition is looked at where it is asked for.
pub(crate) struct EditionName<'a>(pub(crate) &'a str);

impl<'a, 'py> FromPyObject<'a, 'py> for EditionName<'a> {
    type Error = PyErr;

    fn extract(value: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        value.extract().map(Self).map_err(|_| {
            let ids = Edition::ALL.map(Edition::id).join(", ");
            error::keyword("edition", &value, &format!("the name of an edition; write one of: {ids}"))
        })
    }
}

/// What the keyword `accept` holds.
pub(crate) struct Accepted<'py>(pub(crate) Bound<'py, Acceptance>);

impl<'py> FromPyObject<'_, 'py> for Accepted<'py> {
    type Error = PyErr;

    fn extract(value: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        value.to_owned().cast_into().map(Self).map_err(|_| {
            error::keyword(
                "accept",
                &value,
                "accepted cells; give an Acceptance, such as Acceptance.load(\"cells.toml\")",
            )
        })
    }
}

/// A text that is text: Python's may hold half a character.
fn whole<'a>(asked: &Asked, option: &str, text: &'a Bound<'_, PyString>) -> PyResult<&'a str> {
    text.to_str().map_err(|_| error::value(asked, option, "this", HALF))
}

/// What is said of a text that cannot be written.
pub(crate) const HALF: &str = "text with half a character, a lone surrogate";

/// What is said of a whole number that [`digits`] does not write out.
pub(crate) const TOO_LONG: &str = "a whole number of more than 38 digits";

/// A whole number; `None` where it is longer than any that counts anything.
pub(crate) fn digits(value: &Bound<'_, PyAny>) -> Option<String> {
    value.extract::<i128>().ok().map(|number| number.to_string())
}

/// A `Decimal` without an exponent; one whose digits would fill the memory keeps it, and is refused by the core.
pub(crate) fn plain(value: &Bound<'_, PyAny>) -> PyResult<String> {
    const MOST_DIGITS: i64 = 60;
    let written_out = value.call_method0("adjusted")?.extract::<i64>()?.abs() <= MOST_DIGITS;
    value.call_method1("__format__", (if written_out { "f" } else { "" },))?.extract()
}

/// The class `decimal.Decimal`.
pub(crate) fn decimal(py: Python<'_>) -> PyResult<&Bound<'_, PyType>> {
    static DECIMAL: PyOnceLock<Py<PyType>> = PyOnceLock::new();
    DECIMAL.import(py, "decimal", "Decimal")
}

/// A quantity of pint, where that is installed, as text.
fn foreign(value: &Bound<'_, PyAny>) -> PyResult<Option<String>> {
    if !value.hasattr("magnitude")? {
        return Ok(None);
    }
    value.py().import("loadworthy._pint")?.getattr("text")?.call1((value,))?.extract()
}
