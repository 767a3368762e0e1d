//! Circuits of a spreadsheet: columns of numbers and words in, columns of answers out, with words for what fails.

use std::ops::ControlFlow;

use loadworthy::batch::{Batch, Bits, Check, Column, Data, Field, OwnedAnswers, Reason, Text, Verdict};
use loadworthy::cli;
use loadworthy::code::{Code, Edition, Nec};
use loadworthy::trade::{
    Cable, ContinuousRating, DeviceKind, Installation, Insulation, Material, Place, TerminalMark, WireSize, Word,
};
use pyo3::prelude::*;
use pyo3::pybacked::PyBackedStr;
use pyo3::types::{PyList, PyString};

use crate::argument::{Accepted, EditionName};
use crate::error;
use crate::failure::{Failure, failures};

type Numbers = Vec<(String, Vec<Option<f64>>)>;
type Words = Vec<(String, Vec<Option<PyBackedStr>>)>;

/// Circuits, judged: an attribute of words or figures a column, and what is to be said of some rows.
#[pyclass(frozen, module = "loadworthy._core")]
struct JudgedSheet {
    edition: Edition,
    assumed: Vec<&'static str>,
    answers: OwnedAnswers,
    remarks: Vec<Remark>,
}

/// What is to be said of a row that does not hold, or that something could not be told of.
#[derive(Clone, IntoPyObject)]
struct Remark {
    row: usize,
    /// Why something could not be judged.
    reason: Option<String>,
    /// The names of the column whose value is the reason.
    reason_columns: Vec<&'static str>,
    /// The checks that fail: slug, sentence, sections.
    failures: Vec<Failure>,
}

#[pymethods]
impl JudgedSheet {
    #[getter]
    fn edition(&self) -> &'static str {
        self.edition.id()
    }

    #[getter]
    fn assumed(&self) -> Vec<&'static str> {
        self.assumed.clone()
    }

    /// The rows that something is to be said of, in order: dictionaries.
    #[getter]
    fn remarks(&self) -> Vec<Remark> {
        self.remarks.clone()
    }

    /// How each row ends.
    #[getter]
    fn verdict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        words(py, &self.answers.verdict)
    }

    /// How each check ends: its slug, and a word for each row.
    #[getter]
    fn checks<'py>(&self, py: Python<'py>) -> PyResult<Vec<(&'static str, Bound<'py, PyList>)>> {
        let columns = [
            &self.answers.conductor_ampacity,
            &self.answers.continuous_load_on_conductor,
            &self.answers.continuous_load_on_device,
            &self.answers.breaker_protects_conductor,
            &self.answers.voltage_drop,
        ];
        Check::ALL.into_iter().zip(columns).map(|(check, column)| Ok((check.slug(), words(py, column)?))).collect()
    }

    /// The figures: the name of the column, and a figure or `None` for each row.
    #[getter]
    fn figures(&self) -> [(&'static str, Vec<Option<f64>>); 5] {
        let answers = &self.answers;
        let given = |column: &[f64]| column.iter().map(|value| (!value.is_nan()).then_some(*value)).collect();
        [
            ("ampacity_a", given(&answers.ampacity_a)),
            ("least_device_a", given(&answers.least_device_a)),
            ("largest_device_a", given(&answers.largest_device_a)),
            ("drop_v", given(&answers.drop_v)),
            ("drop_percent", given(&answers.drop_percent)),
        ]
    }
}

/// The words of numbers of verdicts; the rows share them, for a text made for each takes longer than judging it.
fn words<'py>(py: Python<'py>, column: &[u8]) -> PyResult<Bound<'py, PyList>> {
    let known = Verdict::ALL.map(|verdict| PyString::intern(py, verdict.words()));
    let unknown = PyString::intern(py, Verdict::CannotTell.words());
    PyList::new(py, column.iter().map(|number| known.get(usize::from(*number)).unwrap_or(&unknown)))
}

/// Judges circuits: `numbers` and `words` are pairs of a column's name and its values, `None` where there is none.
#[pyfunction]
#[pyo3(signature = (numbers, words, edition=None, accept=None))]
fn judge_sheet(
    py: Python<'_>,
    numbers: Numbers,
    words: Words,
    edition: Option<EditionName<'_>>,
    accept: Option<Accepted<'_>>,
) -> PyResult<JudgedSheet> {
    let edition = cli::edition(edition.map(|EditionName(id)| id)).map_err(|error| error::sheet(&error.to_string()))?;
    let code = accept.as_ref().map_or_else(|| Nec::standard(edition), |Accepted(cells)| cells.get().book(edition));
    py.detach(|| judge(code, edition, &numbers, &words)).map_err(|message| error::sheet(&message))
}

fn judge(code: &Nec, edition: Edition, numbers: &Numbers, words: &Words) -> Result<JudgedSheet, String> {
    let held: Vec<(&str, Vec<f64>, Vec<u8>)> = numbers.iter().map(|(name, values)| packed(name, values)).collect();
    let texts: Vec<(&str, Texts<'_>)> = words.iter().map(|(name, values)| (name.as_str(), Texts(values))).collect();
    let mut columns: Vec<Column<'_>> = Vec::new();
    for (name, values, bytes) in &held {
        columns.push(Column { name, data: Data::F64(values), validity: Some(Bits { bytes, offset: 0 }) });
    }
    for (name, values) in &texts {
        columns.push(Column { name, data: Data::Text(values), validity: None });
    }
    let batch = Batch::new(code, &columns).map_err(|problems| problems.to_string())?;
    let mut answers = OwnedAnswers::new(batch.rows());
    batch.judge(answers.as_mut(), 1, &mut |_| ControlFlow::Continue(())).map_err(|error| error.to_string())?;
    let ends = answers.verdict.iter().zip(&answers.reason).enumerate();
    let remarks = ends.filter_map(|(row, (verdict, reason))| remark(code, &batch, row, (*verdict, *reason), words));
    let remarks = remarks.collect();
    Ok(JudgedSheet { edition, assumed: batch.assumed(), answers, remarks })
}

fn remark(
    code: &dyn Code,
    batch: &Batch<'_>,
    row: usize,
    (verdict, reason): (u8, u16),
    words: &Words,
) -> Option<Remark> {
    let verdict = Verdict::ALL.get(usize::from(verdict)).copied().unwrap_or(Verdict::CannotTell);
    let reason = Reason::of_number(reason).unwrap_or(Reason::NONE);
    if verdict == Verdict::Holds && reason == Reason::NONE {
        return None;
    }
    let circuit = (verdict == Verdict::Fails).then(|| batch.circuit_of(row).ok()).flatten();
    Some(Remark {
        row,
        reason: (reason != Reason::NONE).then(|| said(reason, row, words)),
        reason_columns: reason.field().map(|field| field.names().to_vec()).unwrap_or_default(),
        failures: circuit.map(|circuit| failures(code, &circuit)).unwrap_or_default(),
    })
}

/// A reason; of an unknown word with the near one.
fn said(reason: Reason, row: usize, words: &Words) -> String {
    let unknown = || {
        let field = reason.field()?;
        let (name, values) = words.iter().find(|(name, _)| field.names().contains(&name.as_str()))?;
        let advice = advice(field, values.get(row)?.as_deref()?)?;
        Some(format!("`{name}`: {advice}"))
    };
    unknown().unwrap_or_else(|| reason.to_string())
}

/// What is wrong with a word, and the word that may have been meant.
fn advice(field: Field, text: &str) -> Option<String> {
    fn of<W: Word>(text: &str) -> Option<String> {
        W::find(text).err().map(|error| error.to_string())
    }
    match field {
        Field::Material => of::<Material>(text),
        Field::Size => text.parse::<WireSize>().err().map(|error| error.to_string()),
        Field::Insulation => of::<Insulation>(text),
        Field::Cable => of::<Cable>(text),
        Field::Installation => of::<Installation>(text),
        Field::Place => of::<Place>(text),
        Field::Terminals => of::<TerminalMark>(text),
        Field::DeviceKind => of::<DeviceKind>(text),
        Field::ContinuousRating => of::<ContinuousRating>(text),
        _ => None,
    }
}

fn packed<'a>(name: &'a str, values: &[Option<f64>]) -> (&'a str, Vec<f64>, Vec<u8>) {
    let mut bytes = vec![0_u8; values.len().div_ceil(8)];
    for (row, _) in values.iter().enumerate().filter(|(_, value)| value.is_some()) {
        if let Some(byte) = bytes.get_mut(row / 8) {
            *byte |= 1 << (row % 8);
        }
    }
    (name, values.iter().map(|value| value.unwrap_or_default()).collect(), bytes)
}

#[derive(Debug)]
struct Texts<'a>(&'a [Option<PyBackedStr>]);

impl Text for Texts<'_> {
    fn rows(&self) -> usize {
        self.0.len()
    }

    fn get(&self, row: usize) -> Option<&str> {
        self.0.get(row)?.as_deref()
    }
}

/// The columns of a circuit in order: the names that each may have, and the words that it may hold, where they are few.
#[pyfunction]
fn circuit_columns() -> Vec<(Vec<&'static str>, Vec<&'static str>)> {
    fn of<W: Word + PartialEq>() -> Vec<&'static str> {
        let mut spellings: Vec<_> = W::all().into_iter().map(|(_, word)| word.spelling()).collect();
        spellings.dedup();
        spellings
    }
    let words = |field| match field {
        Field::Material => of::<Material>(),
        Field::Insulation => of::<Insulation>(),
        Field::Cable => of::<Cable>(),
        Field::Installation => of::<Installation>(),
        Field::Place => of::<Place>(),
        Field::ThermalInsulation => vec!["yes", "no"],
        Field::Terminals => of::<TerminalMark>(),
        Field::DeviceKind => of::<DeviceKind>(),
        Field::ContinuousRating => of::<ContinuousRating>(),
        Field::Supplies => vec!["several-receptacles", "other"],
        Field::Circuit => vec!["two-wire", "three-phase"],
        _ => Vec::new(),
    };
    Field::ALL.into_iter().map(|field| (field.names().to_vec(), words(field))).collect()
}

pub(crate) fn add_to(module: &Bound<'_, PyModule>) -> PyResult<()> {
    module.add_class::<JudgedSheet>()?;
    module.add_function(wrap_pyfunction!(judge_sheet, module)?)?;
    module.add_function(wrap_pyfunction!(circuit_columns, module)?)
}
