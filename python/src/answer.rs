//! The answer to one question. What is judged is judged at once; words are made when somebody asks for them.

use std::sync::OnceLock;

use loadworthy::cli::{self, Asked, Brief, Form};
use loadworthy::code::{Edition, Nec};
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyDict, PyTuple};

use crate::acceptance::Acceptance;
use crate::argument::{Accepted, EditionName, decimal, state};
use crate::error;
use crate::quantity;

/// The answer to one question: exact, with its working on demand.
///
/// An answer has no truth value: ask for its `outcome`. It is made by the functions of the package, such as `ampacity`.
#[pyclass(frozen, module = "loadworthy")]
pub(crate) struct Answer {
    question: &'static str,
    asked: Asked,
    edition: Edition,
    edition_stated: bool,
    accept: Option<Py<Acceptance>>,
    brief: Brief,
    json: OnceLock<String>,
    document: PyOnceLock<Py<PyDict>>,
}

impl Answer {
    /// Asks a question once `stating` has stated its options.
    pub(crate) fn of(
        question: &'static str,
        edition: Option<EditionName<'_>>,
        accept: Option<Accepted<'_>>,
        stating: impl FnOnce(&mut Asked) -> PyResult<()>,
    ) -> PyResult<Self> {
        let mut asked = Asked::new(question).ok_or_else(|| error::no_such_question(question))?;
        stating(&mut asked)?;
        let not_understood = |error: cli::NotUnderstood| error::question(&asked, &error);
        let edition_stated = edition.is_some();
        let edition = cli::edition(edition.map(|EditionName(id)| id)).map_err(not_understood)?;
        let accept = accept.map(|Accepted(cells)| cells);
        let code = accept.as_ref().map_or_else(|| Nec::standard(edition), |cells| cells.get().book(edition));
        let json = OnceLock::new();
        let brief = if question == "size-kit" {
            // Answered by several side by side, and only in writing.
            let (outcome, written) = asked.written(code, edition_stated, Form::Json).map_err(not_understood)?;
            let _ = json.set(written);
            Brief { outcome, figure: None, governed_by: None }
        } else {
            asked.brief(code).map_err(not_understood)?
        };
        let accept = accept.map(Bound::unbind);
        Ok(Self { question, asked, edition, edition_stated, accept, brief, json, document: PyOnceLock::new() })
    }

    fn written(&self, form: Form) -> PyResult<String> {
        let code =
            self.accept.as_ref().map_or_else(|| Nec::standard(self.edition), |cells| cells.get().book(self.edition));
        let written = self.asked.written(code, self.edition_stated, form);
        written.map(|(_, text)| text).map_err(|error| error::question(&self.asked, &error))
    }

    fn json(&self) -> PyResult<&str> {
        if let Some(json) = self.json.get() {
            return Ok(json);
        }
        let json = self.written(Form::Json)?;
        Ok(self.json.get_or_init(|| json))
    }

    fn document<'py>(&self, py: Python<'py>) -> PyResult<&Bound<'py, PyDict>> {
        let document = self.document.get_or_try_init(py, || {
            let read = py.import("json")?.getattr("loads")?.call1((self.json()?,))?;
            Ok::<_, PyErr>(read.cast_into::<PyDict>()?.unbind())
        })?;
        Ok(document.bind(py))
    }

    /// A field of the document; `None` where this question has no such field.
    fn field<'py>(&self, py: Python<'py>, name: &str) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.document(py)?.get_item(name)
    }

    /// A field of the document through a function of `loadworthy._views`.
    fn view<'py>(&self, py: Python<'py>, view: &str, name: &str) -> PyResult<Bound<'py, PyAny>> {
        py.import("loadworthy._views")?.getattr(view)?.call1((self.field(py, name)?,))
    }

    fn parts(&self) -> Option<(&str, &str)> {
        self.brief.figure.as_deref().and_then(|figure| figure.split_once(' '))
    }

    /// The trade size of a raceway names it, as that of a wire does: it measures nothing.
    fn is_trade_size(&self) -> bool {
        self.question == "size-raceway"
    }

    fn stated(&self) -> Vec<(&'static str, Vec<String>)> {
        self.asked.stated().into_iter().map(|(option, values)| (option, values.to_vec())).collect()
    }

    const fn edition_as_stated(&self) -> Option<&'static str> {
        if self.edition_stated { Some(self.edition.id()) } else { None }
    }
}

#[pymethods]
impl Answer {
    /// The question, as it is named on the command line: `ampacity`, `size-cord`.
    #[getter]
    fn question(&self) -> &'static str {
        self.question
    }

    /// The identifier of the edition: `nec-2023`.
    #[getter]
    fn edition(&self) -> &'static str {
        self.edition.id()
    }

    /// How the question ends: `Outcome.ANSWERED`, `Outcome.NO` or `Outcome.CANNOT_TELL`.
    #[getter]
    fn outcome(&self, py: Python<'_>) -> PyResult<Py<PyAny>> {
        outcome(py, self.brief.outcome)
    }

    /// The number that answers, an exact `decimal.Decimal` in `unit`; `None` where a trade size or no number answers.
    #[getter]
    fn value<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        match self.parts() {
            Some((number, unit)) if !matches!(unit, "AWG" | "kcmil") && !self.is_trade_size() => {
                decimal(py)?.call1((number,)).map(Some)
            }
            _ => Ok(None),
        }
    }

    /// The unit of `value`: `A`, `V`, `m`; of a wire size `AWG` or `kcmil`.
    #[getter]
    fn unit(&self) -> Option<&str> {
        self.parts().map(|(_, unit)| unit)
    }

    /// What answers as an object: `Amperes('50 A')`, `WireSize('8 AWG')`; `None` where no number with a unit answers, or
    /// where it is finer than such an object is kept, as most voltage drops are.
    #[getter]
    fn quantity<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        match &self.brief.figure {
            Some(figure) if !self.is_trade_size() => quantity::object(py, figure),
            _ => Ok(None),
        }
    }

    /// The word for what limits the answer: `terminals`, `conductor`, `cable`.
    #[getter]
    fn governed_by(&self) -> Option<&str> {
        self.brief.governed_by.as_deref()
    }

    /// The answer as people read it; `None` where it cannot be told.
    #[getter]
    fn text<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        match self.field(py, "answer")? {
            Some(answer) if !answer.is_none() => answer.get_item("text").map(Some),
            _ => Ok(None),
        }
    }

    /// What the answer is about, in words.
    #[getter]
    fn subject<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.view(py, "words", "subject")
    }

    /// Further figures by name, as texts with units.
    #[getter]
    fn figures<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.view(py, "figures", "figures")
    }

    /// How the answer came about, step by step; worked out when it is first asked for.
    #[getter]
    fn derivation<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.view(py, "steps", "working")
    }

    /// What was not stated and was taken as the base of the table has it.
    #[getter]
    fn assumed<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.view(py, "texts", "assumed")
    }

    /// Where the answer cannot be told: what was looked for, and why it is not known.
    #[getter]
    fn gap<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.view(py, "gap", "gap")
    }

    /// Of a kit: the ways to connect the source, as the document has them; else empty.
    #[getter]
    fn alternatives<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.view(py, "records", "alternatives")
    }

    /// What every answer says once.
    #[getter]
    fn caution<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.view(py, "words", "caution")
    }

    /// The options that were stated, as texts.
    #[getter]
    fn stated_options<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let stated = PyDict::new(py);
        for (option, values) in self.asked.stated() {
            stated.set_item(option, PyTuple::new(py, values)?)?;
        }
        Ok(stated)
    }

    /// The document that `--format json` of the command prints, byte for byte.
    fn to_json(&self) -> PyResult<&str> {
        self.json()
    }

    /// The same document as a dictionary.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        py.import("json")?.getattr("loads")?.call1((self.json()?,))
    }

    fn __str__(&self) -> PyResult<String> {
        self.written(Form::Text)
    }

    fn __repr__(&self) -> String {
        let answer = match (&self.brief.figure, self.brief.outcome) {
            (Some(figure), _) => figure.as_str(),
            (None, cli::Outcome::Answered) => "answered",
            (None, cli::Outcome::No) => "no",
            (None, cli::Outcome::CannotTell) => "cannot tell",
        };
        match &self.brief.governed_by {
            Some(word) => format!("<Answer {}: {answer}, governed by {word}>", self.question),
            None => format!("<Answer {}: {answer}>", self.question),
        }
    }

    fn _repr_html_<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        py.import("loadworthy._html")?.getattr("answer")?.call1((self.document(py)?,))
    }

    fn __bool__(&self) -> PyResult<bool> {
        Err(pyo3::exceptions::PyTypeError::new_err("an answer has no truth value; ask for its `outcome`"))
    }

    /// The same question with the same options, by the same book.
    fn __eq__(&self, other: &Bound<'_, PyAny>) -> PyResult<bool> {
        let Ok(other) = other.cast::<Self>() else { return Ok(false) };
        let one = other.get();
        let same = self.question == one.question
            && self.edition == one.edition
            && self.edition_stated == one.edition_stated
            && self.asked.stated() == one.asked.stated();
        let py = other.py();
        Ok(same
            && match (&self.accept, &one.accept) {
                (None, None) => true,
                (Some(cells), Some(others)) => cells.bind(py).eq(others.bind(py))?,
                _ => false,
            })
    }

    fn __hash__(&self) -> u64 {
        use std::hash::{DefaultHasher, Hash, Hasher};
        let mut hasher = DefaultHasher::new();
        (self.question, self.edition.id(), self.asked.stated()).hash(&mut hasher);
        hasher.finish()
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyTuple>> {
        let again = py.import("loadworthy._core")?.getattr("ask")?;
        let accept = self.accept.as_ref().map(|cells| cells.clone_ref(py));
        let arguments = (self.question, self.stated(), self.edition_as_stated(), accept);
        (again, arguments).into_pyobject(py)
    }
}

/// Asks a question of the command by its name, with options as pairs of name and values: `("ampacity", [("size", ["8 AWG"])])`.
#[pyfunction]
#[pyo3(signature = (question, stated, edition = None, accept = None))]
pub(crate) fn ask(
    question: &str,
    stated: Vec<(String, Bound<'_, PyAny>)>,
    edition: Option<EditionName<'_>>,
    accept: Option<Accepted<'_>>,
) -> PyResult<Answer> {
    let known = crate::questions::NAMES.iter().find(|(_, name)| *name == question);
    let (_, question) = known.ok_or_else(|| error::no_such_question(question))?;
    Answer::of(question, edition, accept, |asked| {
        stated.iter().try_for_each(|(option, value)| state(asked, option, Some(value)))
    })
}

/// What an option of a question wants, in the words of the command's help.
#[pyfunction]
pub(crate) fn wanted(question: &str, option: &str) -> PyResult<Option<String>> {
    Asked::new(question).map(|asked| asked.wanted(option)).ok_or_else(|| error::no_such_question(question))
}

/// The member of `loadworthy.Outcome`.
pub(crate) fn outcome(py: Python<'_>, outcome: cli::Outcome) -> PyResult<Py<PyAny>> {
    static MEMBERS: PyOnceLock<[Py<PyAny>; 3]> = PyOnceLock::new();
    let [answered, no, cannot_tell] = MEMBERS.get_or_try_init(py, || {
        let all = py.import("loadworthy._outcome")?.getattr("Outcome")?;
        let member = |name: &str| all.getattr(name).map(Bound::unbind);
        Ok::<_, PyErr>([member("ANSWERED")?, member("NO")?, member("CANNOT_TELL")?])
    })?;
    Ok(match outcome {
        cli::Outcome::Answered => answered,
        cli::Outcome::No => no,
        cli::Outcome::CannotTell => cannot_tell,
    }
    .clone_ref(py))
}
