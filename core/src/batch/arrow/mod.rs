//! Arrow in, Arrow out: a record batch of circuits comes back as one of answers. Safe code alone; what imports and exports
//! the C interface of Arrow is the business of the doors.

mod columns;
mod keys;
mod memory;
mod read;
mod room;
mod write;

use std::ops::ControlFlow;
use std::sync::Arc;

use arrow_array::types::{ArrowDictionaryKeyType, Int8Type, UInt16Type};
use arrow_array::{ArrayRef, DictionaryArray, PrimitiveArray, RecordBatch, RecordBatchOptions};
use arrow_schema::{ArrowError, Field, Schema, SchemaRef};

use super::learned::Learned;
use super::{Answers, Batch, Column, ColumnProblem, ColumnProblems, Field as Fact, JudgeError};
use crate::code::Code;
use keys::Finished;
use read::Held;
use room::Room;

/// Why a record batch has no answers.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ArrowJudgeError {
    /// The columns are not those of circuits.
    #[error(transparent)]
    Columns(#[from] ColumnProblems),
    /// It was stopped.
    #[error(transparent)]
    Judge(#[from] JudgeError),
    /// The answers make no record batch.
    #[error(transparent)]
    Arrow(#[from] ArrowError),
}

/// What is answered of each row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// Verdicts, reasons and figures.
    Everything,
    /// Verdicts and reasons: a quarter of the memory.
    Verdicts,
}

/// How keys and their words are joined to a dictionary. Each key is one of a word, or null.
pub type Join<K> = fn(PrimitiveArray<K>, &ArrayRef) -> Result<ArrayRef, ArrowError>;

fn join<K: ArrowDictionaryKeyType>(keys: PrimitiveArray<K>, words: &ArrayRef) -> Result<ArrayRef, ArrowError> {
    Ok(Arc::new(DictionaryArray::try_new(keys, Arc::clone(words))?))
}

/// For keys of both widths: those of words that are known beforehand, and those of reasons.
#[derive(Clone, Copy)]
struct Joins {
    words: Join<Int8Type>,
    reasons: Join<UInt16Type>,
}

/// The schema of the answers to batches of a schema: the columns to carry along, then the answers.
///
/// Verdicts and reasons are dictionaries of words; figures are null where there are none; `status` is the number of the
/// [`Reason`](super::Reason), 0 where all was judged, and `reason` its text.
///
/// # Errors
/// A column to carry that is not there, or has the name of an answer.
pub fn schema(of: &Schema, carry: &[&str], wanted: Wanted) -> Result<SchemaRef, ColumnProblems> {
    let mut problems = Vec::new();
    let mut fields: Vec<Field> = Vec::new();
    let answers = write::fields(wanted);
    for name in carry {
        let advice = match of.field_with_name(name) {
            Err(_) => "no column has this name",
            Ok(_) if answers.iter().any(|field| field.name() == name) => "its name is that of an answer; rename it",
            Ok(field) => {
                fields.push(field.clone());
                continue;
            }
        };
        problems.push(ColumnProblem::NotCarried { name: (*name).to_owned(), advice });
    }
    fields.extend(answers);
    if problems.is_empty() { Ok(Schema::new(fields).into()) } else { Err(ColumnProblems(problems)) }
}

/// Judges every row of a record batch: everything is answered. See [`Judge`].
///
/// # Errors
/// Columns that are not those of circuits (all problems at once), or that it was stopped.
pub fn judge(
    code: &dyn Code,
    circuits: &RecordBatch,
    carry: &[&str],
    threads: usize,
    go_on: &mut dyn FnMut(usize) -> ControlFlow<()>,
) -> Result<RecordBatch, ArrowJudgeError> {
    Judge::new(code, carry, Wanted::Everything).judge(circuits, threads, go_on)
}

/// Judges record batches one after the other, and keeps what it has learned of the code: for streams of small ones.
///
/// Columns named in `carry` stand before the answers as they are, and facts of circuits among them are read all the
/// same; all others must be facts of circuits: see [`Field`](super::Field). Numbers may be floating point of 32 or 64
/// bits, whole numbers or decimals of 128 bits; words may be text of any layout or dictionaries.
pub struct Judge<'c> {
    code: &'c dyn Code,
    carry: &'c [&'c str],
    wanted: Wanted,
    joins: Joins,
    learned: Learned<'c>,
}

impl<'c> Judge<'c> {
    /// By a code.
    #[must_use]
    pub fn new(code: &'c dyn Code, carry: &'c [&'c str], wanted: Wanted) -> Self {
        let joins = Joins { words: join, reasons: join };
        Self { code, carry, wanted, joins, learned: Learned::new(code) }
    }

    /// The same with another way to join keys and words: one that need not look at each key, as safe code has to.
    #[must_use]
    pub const fn joined_by(mut self, words: Join<Int8Type>, reasons: Join<UInt16Type>) -> Self {
        self.joins = Joins { words, reasons };
        self
    }

    /// The answers to a record batch, over so many threads; see [`Batch::judge`](super::Batch::judge).
    ///
    /// # Errors
    /// Columns that are not those of circuits (all problems at once), or that it was stopped.
    pub fn judge(
        &mut self,
        circuits: &RecordBatch,
        threads: usize,
        go_on: &mut dyn FnMut(usize) -> ControlFlow<()>,
    ) -> Result<RecordBatch, ArrowJudgeError> {
        let schema = schema(circuits.schema_ref(), self.carry, self.wanted)?;
        let held = held(circuits, self.carry);
        let columns: Vec<Column<'_>> = held.iter().map(|(name, held)| held.column(name)).collect();
        let (rows, wanted) = (circuits.num_rows(), self.wanted);
        let mut room = Room::new(rows, wanted);
        let finished = Finished::default();
        let finish = |start: usize, answers: &mut Answers<'_>| finished.block(start, answers);
        let batch = Batch::new(self.code, &columns)?;
        batch.judge_with(&mut self.learned, room.answers()?, &finish, threads, go_on)?;
        let carried = self.carry.iter().filter_map(|name| circuits.column_by_name(name).cloned());
        let arrays = carried.chain(write::arrays(rows, room.buffers(), finished, wanted, self.joins)?).collect();
        let options = RecordBatchOptions::new().with_row_count(Some(rows));
        Ok(RecordBatch::try_new_with_options(schema, arrays, &options)?)
    }
}

/// What is assumed of every row of batches of a schema, since no column states it. Checks the columns without any row.
///
/// # Errors
/// Columns that are not those of circuits.
pub fn assumed(code: &dyn Code, of: &SchemaRef, carry: &[&str]) -> Result<Vec<&'static str>, ArrowJudgeError> {
    schema(of, carry, Wanted::Verdicts)?;
    let empty = RecordBatch::new_empty(of.clone());
    let held = held(&empty, carry);
    let columns: Vec<Column<'_>> = held.iter().map(|(name, held)| held.column(name)).collect();
    Ok(Batch::new(code, &columns)?.assumed())
}

fn held<'a>(circuits: &'a RecordBatch, carry: &[&str]) -> Vec<(&'a str, Held<'a>)> {
    let known = circuits.schema_ref().fields().iter().zip(circuits.columns());
    known
        .filter(|(field, _)| {
            let name = field.name().as_str();
            !carry.contains(&name) || Fact::of_name(name).is_some()
        })
        .map(|(field, array)| (field.name().as_str(), Held::of(array.as_ref())))
        .collect()
}
