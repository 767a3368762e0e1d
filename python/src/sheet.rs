//! Circuits of a spreadsheet: columns of numbers and words in, a judgement a row out, with words for what fails.

use std::ops::ControlFlow;

use loadworthy::batch::{
    AMPACITY_GOVERNORS, Batch, Bits, Check, Column, Data, Field, OwnedAnswers, Reason, Text, Verdict,
};
use loadworthy::cli;
use loadworthy::code::{Code, Edition, Nec};
use loadworthy::trade::{
    Cable, ContinuousRating, DeviceKind, Installation, Insulation, Material, Place, TerminalMark, WireSize, Word,
};
use pyo3::prelude::*;

use crate::acceptance::Acceptance;
use crate::error;
use crate::failure::{Failure, failures};

type Numbers = Vec<(String, Vec<Option<f64>>)>;
type Words = Vec<(String, Vec<Option<String>>)>;

/// A row, judged; a dictionary in Python.
#[derive(IntoPyObject)]
struct Judged {
    verdict: &'static str,
    /// Why something could not be judged.
    reason: Option<String>,
    /// The names of the column whose value is the reason.
    reason_columns: Vec<&'static str>,
    /// The checks that fail: slug, sentence, sections.
    failures: Vec<Failure>,
    /// How each check ends: slug, verdict.
    checks: Vec<(&'static str, &'static str)>,
    ampacity_a: Option<f64>,
    ampacity_governed_by: Option<&'static str>,
    least_device_a: Option<f64>,
    largest_device_a: Option<f64>,
    drop_v: Option<f64>,
    drop_percent: Option<f64>,
}

/// Judges circuits: `numbers` and `words` are pairs of a column's name and its values, `None` where there is none.
/// Gives the edition, what is assumed of every row, and a dictionary a row.
#[pyfunction]
#[pyo3(signature = (numbers, words, edition=None, accept=None))]
fn judge_sheet(
    py: Python<'_>,
    numbers: Numbers,
    words: Words,
    edition: Option<&str>,
    accept: Option<Bound<'_, Acceptance>>,
) -> PyResult<(&'static str, Vec<&'static str>, Vec<Judged>)> {
    let edition = cli::edition(edition).map_err(|error| error::sheet(&error.to_string()))?;
    let code = accept.as_ref().map_or_else(|| Nec::standard(edition), |cells| cells.get().book(edition));
    py.detach(|| judge(code, edition, &numbers, &words)).map_err(|message| error::sheet(&message))
}

fn judge(
    code: &Nec,
    edition: Edition,
    numbers: &Numbers,
    words: &Words,
) -> Result<(&'static str, Vec<&'static str>, Vec<Judged>), String> {
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
    let rows = (0..batch.rows()).map(|row| judged(code, &batch, &answers, row, words)).collect();
    Ok((edition.id(), batch.assumed(), rows))
}

fn judged(code: &dyn Code, batch: &Batch<'_>, answers: &OwnedAnswers, row: usize, words: &Words) -> Judged {
    let verdict_of = |column: &[u8]| {
        let number = column.get(row).copied().map(usize::from);
        number.and_then(|number| Verdict::ALL.get(number).copied()).unwrap_or(Verdict::CannotTell)
    };
    let figure = |column: &[f64]| column.get(row).copied().filter(|value| !value.is_nan());
    let verdict = verdict_of(&answers.verdict);
    let reason = answers.reason.get(row).and_then(|number| Reason::of_number(*number)).unwrap_or(Reason::NONE);
    let checks = [
        &answers.conductor_ampacity,
        &answers.continuous_load_on_conductor,
        &answers.continuous_load_on_device,
        &answers.breaker_protects_conductor,
        &answers.voltage_drop,
    ];
    let checks = Check::ALL.into_iter().zip(checks).map(|(check, column)| (check.slug(), verdict_of(column).words()));
    let circuit = (verdict == Verdict::Fails).then(|| batch.circuit_of(row).ok()).flatten();
    let governor =
        answers.ampacity_governed_by.get(row).and_then(|number| AMPACITY_GOVERNORS.get(usize::from(*number)));
    Judged {
        verdict: verdict.words(),
        reason: (reason != Reason::NONE).then(|| said(reason, row, words)),
        reason_columns: reason.field().map(|field| field.names().to_vec()).unwrap_or_default(),
        failures: circuit.map(|circuit| failures(code, &circuit)).unwrap_or_default(),
        checks: checks.collect(),
        ampacity_a: figure(&answers.ampacity_a),
        ampacity_governed_by: governor.copied().filter(|word| !word.is_empty()),
        least_device_a: figure(&answers.least_device_a),
        largest_device_a: figure(&answers.largest_device_a),
        drop_v: figure(&answers.drop_v),
        drop_percent: figure(&answers.drop_percent),
    }
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
struct Texts<'a>(&'a [Option<String>]);

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
    module.add_function(wrap_pyfunction!(judge_sheet, module)?)?;
    module.add_function(wrap_pyfunction!(circuit_columns, module)?)
}
