//! Columns of circuits: a table of anything that speaks Arrow, judged without the interpreter's lock.

use std::ops::ControlFlow;
use std::sync::Arc;

use arrow_array::{RecordBatch, RecordBatchIterator, RecordBatchReader};
use arrow_schema::SchemaRef;
use loadworthy::batch::arrow::{self, ArrowJudgeError, Judge, Wanted};
use loadworthy::batch::{ColumnProblem, JudgeError, Reason};
use loadworthy::code::{Code, Edition, Nec};
use pyo3::import_exception;
use pyo3::prelude::*;
use pyo3::types::PyCapsule;

use crate::argument::{Accepted, EditionName};
use crate::error::QuestionError;

import_exception!(loadworthy._columns, ColumnError);

/// The answers to a table of circuits, a row for a row: a table itself, for anything that reads Arrow.
#[pyclass(frozen, module = "loadworthy._core")]
pub(crate) struct JudgedCircuits {
    schema: SchemaRef,
    batches: Vec<RecordBatch>,
    assumed: Vec<&'static str>,
}

#[pymethods]
impl JudgedCircuits {
    /// The answers as a capsule of an Arrow stream; as often as you like.
    #[pyo3(signature = (requested_schema = None))]
    fn __arrow_c_stream__<'py>(
        &self,
        py: Python<'py>,
        requested_schema: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyCapsule>> {
        // A producer may hand over what it has, whatever was asked for.
        let _ = requested_schema;
        let batches = self.batches.clone().into_iter().map(Ok);
        loadworthy_capsule::export(py, Box::new(RecordBatchIterator::new(batches, Arc::clone(&self.schema))))
    }

    /// The schema of the answers as a capsule.
    fn __arrow_c_schema__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyCapsule>> {
        loadworthy_capsule::export_schema(py, &self.schema)
    }

    fn __len__(&self) -> usize {
        self.batches.iter().map(RecordBatch::num_rows).sum()
    }

    /// The names of the columns, in order.
    #[getter]
    fn column_names(&self) -> Vec<&str> {
        self.schema.fields().iter().map(|field| field.name().as_str()).collect()
    }

    /// What was assumed of every row, since no column states it.
    #[getter]
    fn assumed(&self) -> Vec<&'static str> {
        self.assumed.clone()
    }

    fn __repr__(&self) -> String {
        format!("<JudgedCircuits of {} rows: {}>", self.__len__(), self.column_names().join(", "))
    }
}

/// Judges a table of circuits; see the function of the package.
#[pyfunction]
#[pyo3(signature = (table, edition, accept, carry, threads, figures, progress))]
#[expect(clippy::too_many_arguments, reason = "the package calls it, by name")]
pub(crate) fn judge_columns(
    py: Python<'_>,
    table: &Bound<'_, PyAny>,
    edition: Option<EditionName<'_>>,
    accept: Option<Accepted<'_>>,
    carry: Vec<String>,
    threads: usize,
    figures: bool,
    progress: Option<Py<PyAny>>,
) -> PyResult<Option<JudgedCircuits>> {
    let Some(batches) = loadworthy_capsule::import(table)? else { return Ok(None) };
    let edition = match edition {
        None => Edition::Nec2023,
        Some(EditionName(id)) => Edition::of_id(id.trim()).ok_or_else(|| {
            let ids = Edition::ALL.map(Edition::id).join(", ");
            QuestionError::new_err((format!("edition: `{id}` is not known; write one of: {ids}"), "edition"))
        })?,
    };
    let code: &dyn Code = match &accept {
        Some(Accepted(accept)) => accept.get().book(edition),
        None => Nec::standard(edition),
    };
    let carry: Vec<&str> = carry.iter().map(String::as_str).collect();
    let wanted = if figures { Wanted::Everything } else { Wanted::Verdicts };
    py.detach(|| judge_all(code, batches, &carry, wanted, threads, progress.as_ref())).map(Some)
}

fn judge_all(
    code: &dyn Code,
    batches: Box<dyn RecordBatchReader + Send>,
    carry: &[&str],
    wanted: Wanted,
    threads: usize,
    progress: Option<&Py<PyAny>>,
) -> PyResult<JudgedCircuits> {
    let of = batches.schema();
    let kept = kept(&of, carry);
    let all = kept.len() == of.fields().len();
    let of = Arc::new(of.project(&kept).map_err(|error| loadworthy_capsule::raised(&error))?);
    let assumed = arrow::assumed(code, &of, carry).map_err(raised)?;
    let schema = arrow::schema(&of, carry, wanted).map_err(|problems| raised(problems.into()))?;
    let mut judge = Judge::new(code, carry, wanted).joined_by(loadworthy_capsule::join, loadworthy_capsule::join);
    let (mut judged, mut before) = (Vec::new(), 0);
    for batch in batches {
        let batch = batch.and_then(|batch| if all { Ok(batch) } else { batch.project(&kept) });
        let batch = batch.map_err(|error| loadworthy_capsule::raised(&error))?;
        let mut interrupted = None;
        let found = judge.judge(&batch, threads, &mut |done| match heard(progress, before + done) {
            Ok(()) => ControlFlow::Continue(()),
            Err(error) => {
                interrupted = Some(error);
                ControlFlow::Break(())
            }
        });
        // What was raised on the way stands before the news that it stopped, even in the last rows.
        if let Some(error) = interrupted {
            return Err(error);
        }
        before += batch.num_rows();
        judged.push(found.map_err(raised)?);
    }
    Ok(JudgedCircuits { schema, batches: judged, assumed })
}

/// The columns that somebody has put there: pandas adds the labels of its rows by names of its own, unasked.
fn kept(of: &SchemaRef, carry: &[&str]) -> Vec<usize> {
    let label = |name: &str| {
        let level = name.strip_prefix("__index_level_").and_then(|rest| rest.strip_suffix("__"));
        level.is_some_and(|level| !level.is_empty() && level.bytes().all(|byte| byte.is_ascii_digit()))
    };
    let named = (0..).zip(of.fields()).map(|(at, field)| (at, field.name().as_str()));
    named.filter(|(_, name)| carry.contains(name) || !label(name)).map(|(at, _)| at).collect()
}

/// Lets Python speak between chunks: a signal, or what the callback raises, ends the work.
fn heard(progress: Option<&Py<PyAny>>, done: usize) -> PyResult<()> {
    Python::attach(|py| {
        py.check_signals()?;
        progress.map_or(Ok(()), |progress| progress.call1(py, (done,)).map(drop))
    })
}

fn raised(error: ArrowJudgeError) -> PyErr {
    match error {
        ArrowJudgeError::Columns(problems) => ColumnError::new_err((problems.0.iter().map(said).collect::<Vec<_>>(),)),
        ArrowJudgeError::Judge(JudgeError::Stopped { done }) => {
            QuestionError::new_err((format!("stopped after {done} rows"), None::<String>))
        }
        other => pyo3::exceptions::PyRuntimeError::new_err(other.to_string()),
    }
}

/// A problem in words: what must be left out elsewhere may be carried along here.
fn said(problem: &ColumnProblem) -> String {
    match problem {
        ColumnProblem::Unknown { advice, .. } if advice == "leave it out" => {
            format!("{problem}, or name it in `carry`")
        }
        _ => problem.to_string(),
    }
}

/// Every reason that a row may give, by the number in its `status`.
#[pyfunction]
pub(crate) fn reasons() -> Vec<(u16, String)> {
    Reason::all().map(|reason| (reason.number(), reason.to_string())).collect()
}
