//! Described sites: read once, judged without the interpreter's lock.

use std::path::PathBuf;

use loadworthy::cli::{self, Book, Form, Page, PlanOptions};
use loadworthy::interrupt::Interrupt;
use loadworthy::rules::RULES;
use loadworthy::site::{ChangeError, Kind, Site};
use pyo3::prelude::*;
use pyo3::types::PyString;

use crate::argument::{Accepted, EditionName};
use crate::error;
use crate::signals::Signals;

/// A description that was understood.
#[pyclass(frozen, module = "loadworthy._core")]
pub(crate) struct Described(Site);

#[pymethods]
impl Described {
    /// Reads a description; `file` is the name that problems and places carry.
    #[new]
    fn new(py: Python<'_>, file: &str, document: &[u8]) -> PyResult<Self> {
        py.detach(|| Site::read(file, document)).map(Self).map_err(|problems| error::document(&problems))
    }

    /// The name that the description gives the site.
    #[getter]
    fn name<'py>(&self, py: Python<'py>) -> Bound<'py, PyString> {
        PyString::new(py, &self.0.premises().name)
    }

    /// The edition that the description names.
    #[getter]
    fn edition<'py>(&self, py: Python<'py>) -> Bound<'py, PyString> {
        PyString::new(py, &self.0.premises().code)
    }

    /// The names of its components, in the order of the description.
    #[getter]
    fn components(&self) -> Vec<&str> {
        self.0.components().map(|component| component.name()).collect()
    }

    fn with_field(&self, py: Python<'_>, path: &str, value: &str) -> PyResult<Self> {
        py.detach(|| self.0.with_field(path, value)).map(Self).map_err(|error| changed(&error))
    }

    fn with_components(&self, py: Python<'_>, file: &str, text: &str) -> PyResult<Self> {
        py.detach(|| self.0.with_components(file, text)).map(Self).map_err(|error| changed(&error))
    }

    #[pyo3(signature = (form, working, edition = None, accept = None))]
    fn check(
        &self,
        py: Python<'_>,
        form: &str,
        working: bool,
        edition: Option<EditionName<'_>>,
        accept: Option<Accepted<'_>>,
    ) -> PyResult<String> {
        let (form, book) = (form_of(form), book(edition, accept.as_ref()));
        let work = |interrupt: &Interrupt| cli::checked(&self.0, book, working, form, interrupt);
        written(py, work, error::site)
    }

    #[pyo3(signature = (form, *, source, start_order, hours, start_hour, measured, measured_share, measured_for,
        edition = None, accept = None))]
    #[expect(clippy::too_many_arguments, reason = "an option is a keyword")]
    fn plan(
        &self,
        py: Python<'_>,
        form: &str,
        source: Option<&str>,
        start_order: Option<&str>,
        hours: Option<&str>,
        start_hour: u8,
        measured: Option<PathBuf>,
        measured_share: Option<&str>,
        measured_for: Option<&str>,
        edition: Option<EditionName<'_>>,
        accept: Option<Accepted<'_>>,
    ) -> PyResult<String> {
        let measured = measured.as_deref();
        let asked = PlanOptions { source, start_order, hours, start_hour, measured, measured_share, measured_for };
        let (form, book) = (form_of(form), book(edition, accept.as_ref()));
        let work = |interrupt: &Interrupt| cli::planned(&self.0, book, asked, form, interrupt);
        written(py, work, error::site)
    }

    #[pyo3(signature = (form, steps = None, edition = None, accept = None))]
    fn sequence(
        &self,
        py: Python<'_>,
        form: &str,
        steps: Option<(String, String)>,
        edition: Option<EditionName<'_>>,
        accept: Option<Accepted<'_>>,
    ) -> PyResult<String> {
        let page = match form {
            "json" => Page::Json,
            "checklist" => Page::Checklist,
            _ => Page::Text,
        };
        let steps = steps.as_ref().map(|(file, text)| (file.as_str(), text.as_str()));
        let book = book(edition, accept.as_ref());
        let work = |interrupt: &Interrupt| cli::sequenced(&self.0, book, steps, page, interrupt);
        let file = steps.map_or("", |(file, _)| file);
        written(py, work, |error| error::sequence(file, error))
    }
}

/// Every rule: its slug, and the word for how grave a failure is.
#[pyfunction]
pub(crate) fn rules() -> Vec<(&'static str, &'static str)> {
    RULES.iter().map(|rule| (rule.slug, rule.severity.word())).collect()
}

/// Every kind of component, by its name in a description.
#[pyfunction]
pub(crate) fn kinds() -> Vec<&'static str> {
    Kind::ALL.iter().map(|kind| kind.key()).collect()
}

fn form_of(form: &str) -> Form {
    if form == "json" { Form::Json } else { Form::Text }
}

fn book<'a>(edition: Option<EditionName<'a>>, accept: Option<&'a Accepted<'_>>) -> Book<'a> {
    let edition = edition.map(|EditionName(id)| id);
    Book { edition, acceptance: accept.map(|Accepted(cells)| cells.get().cells()) }
}

/// Does the work without the interpreter's lock, and ends it when a signal has come.
fn written<E: Send>(
    py: Python<'_>,
    work: impl FnOnce(&Interrupt) -> Result<(cli::Outcome, String), E> + Send,
    raised: impl FnOnce(&E) -> PyErr,
) -> PyResult<String> {
    let signals = Signals::default();
    let found = py.detach(|| work(&signals.interrupt()));
    // What a signal's handler raised stands before what is left of the answer.
    if let Some(signal) = signals.raised() {
        return Err(signal);
    }
    // The outcome stands in the document.
    found.map(|(_, document)| document).map_err(|error| raised(&error))
}

fn changed(error: &ChangeError) -> PyErr {
    match error {
        ChangeError::NotRead(problems) | ChangeError::Problems(problems) => error::document(problems),
        other => error::QuestionError::new_err((other.to_string(), "path")),
    }
}
