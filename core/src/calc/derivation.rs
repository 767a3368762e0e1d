//! The working of a calculation: data while it is gathered, text only when it is shown.

use crate::code::{Citation, Code};
use crate::published::{Cell, CellPlace, Grade};

/// One step of a derivation.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Step {
    /// What was done, in a few words.
    pub what: String,
    /// What came of it, with its unit.
    pub result: String,
    /// The section that asks for it, or the table that it was read from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub citation: Option<String>,
    /// The row and column of the cell, where one was read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cell: Option<String>,
    /// How the cell is witnessed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grade: Option<&'static str>,
}

impl Step {
    /// A step of arithmetic.
    #[must_use]
    pub fn new(what: impl Into<String>, result: impl Into<String>) -> Self {
        Self { what: what.into(), result: result.into(), citation: None, cell: None, grade: None }
    }

    /// A value read from a table.
    #[must_use]
    pub fn read<T: std::fmt::Display>(what: impl Into<String>, cell: Cell<T>, code: &dyn Code) -> Self {
        Self::new(what, cell.value.to_string()).from_cell(cell.place, cell.grade, code)
    }

    /// With the cell that it was read from.
    #[must_use]
    pub fn from_cell(mut self, place: CellPlace, grade: Grade, code: &dyn Code) -> Self {
        self.citation = Some(number(place, code));
        self.cell = Some(format!("row {}, column {}", place.row_heading(), place.column_heading()));
        self.grade = Some(grade.words());
        self
    }

    /// With the section that asks for it.
    #[must_use]
    pub fn by(mut self, citation: &Citation) -> Self {
        self.citation = Some(citation.to_string());
        self
    }
}

/// How the code numbers the table of a cell, with the edition.
fn number(place: CellPlace, code: &dyn Code) -> String {
    let edition = code.section("").document;
    match code.number(place.table) {
        Some(number) => format!("{edition} {number}"),
        None => format!("table `{}`", place.table.name()),
    }
}

/// Where a calculation writes its working.
pub trait Working {
    /// Adds a step; `step` is only called when somebody wants the working.
    fn step(&mut self, step: impl FnOnce() -> Step);
}

/// Nobody wants the working: costs nothing.
#[derive(Clone, Copy, Debug, Default)]
pub struct Silent;

impl Working for Silent {
    #[inline]
    fn step(&mut self, _: impl FnOnce() -> Step) {}
}

/// The steps, gathered.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Serialize)]
#[serde(transparent)]
pub struct Derivation {
    /// The steps in order.
    pub steps: Vec<Step>,
}

impl Working for Derivation {
    fn step(&mut self, step: impl FnOnce() -> Step) {
        self.steps.push(step());
    }
}
