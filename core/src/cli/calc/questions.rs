//! Many questions in one run: JSON lines in, JSON lines out.
//!
//! A line is one object: `question` names the question, the other keys are its options. It is read as the command line
//! would be, so that a key and a message mean the same in both.

use std::ffi::OsString;
use std::fs::File;
use std::io::{self, BufRead, BufReader, Read, Write};
use std::path::Path;

use clap::Parser;
use serde_json::{Map, Value};

use super::super::Status;
use super::super::answer::{Answer, Detail};
use super::super::json;
use super::super::options::{self, Problem, one_line};
use super::super::output::Output;
use super::Question;
use crate::code::{Acceptance, Edition, Nec};

/// More than any question needs; a file that is not lines of questions shall not fill the memory.
const LONGEST_LINE: u64 = 1 << 20;

/// A line, read as a command line.
#[derive(Parser)]
#[command(no_binary_name = true, disable_help_flag = true, disable_help_subcommand = true)]
struct Line {
    /// The edition, where the line states its own.
    #[arg(long, global = true)]
    edition: Option<String>,
    #[command(subcommand)]
    question: Question,
}

/// What stands in place of an answer to a line that could not be read.
#[derive(serde::Serialize)]
struct NotRead {
    outcome: &'static str,
    line: u64,
    problem: String,
}

pub(super) fn run(
    path: &Path,
    edition: Option<&String>,
    acceptance: &Acceptance,
    out: &mut Output<impl Write>,
) -> Result<Status, Problem> {
    let failed = |error: io::Error| Problem(format!("{}: could not be read: {error}", path.display()));
    let mut lines: Box<dyn BufRead> = match path.to_str() {
        Some("-") => Box::new(io::stdin().lock()),
        _ => Box::new(BufReader::new(File::open(path).map_err(failed)?)),
    };
    let books = Edition::ALL.map(|edition| Nec::new(edition, acceptance));
    let mut worst = Status::Answered;
    let mut text = Vec::new();
    for number in 1.. {
        text.clear();
        let read = lines.by_ref().take(LONGEST_LINE).read_until(b'\n', &mut text).map_err(failed)?;
        if read == 0 || out.is_closed() {
            break;
        }
        if text.iter().all(u8::is_ascii_whitespace) {
            continue;
        }
        let written = match answer(&text, edition, &books) {
            Ok(answer) => {
                worst = worst.max(answer.status());
                json(serde_json::to_string(&answer))?
            }
            Err(Problem(problem)) => {
                worst = Status::NotRead;
                json(serde_json::to_string(&NotRead { outcome: "not-read", line: number, problem }))?
            }
        };
        out.write(&written);
        out.write("\n");
    }
    Ok(worst)
}

fn answer(line: &[u8], edition: Option<&String>, books: &[Nec]) -> Result<Answer, Problem> {
    let fields: Map<String, Value> =
        serde_json::from_slice(line).map_err(|error| Problem(format!("not a JSON object: {error}")))?;
    let line = Line::try_parse_from(arguments(fields)?).map_err(|error| Problem::of_arguments(&error))?;
    let stated = line.edition.as_ref().or(edition);
    let edition = options::edition(stated)?;
    let book = books.iter().find(|book| book.edition() == edition);
    let book = book.ok_or_else(|| Problem::at("edition", "is not carried"))?;
    line.question.answer(book, stated.is_some(), Detail::Full)
}

/// The fields as the arguments of a command line: `{"question": "cord", "size": "6 AWG"}` is `cord --size=6 AWG`.
fn arguments(mut fields: Map<String, Value>) -> Result<Vec<OsString>, Problem> {
    let question = match fields.remove("question") {
        Some(Value::String(question)) if !question.starts_with('-') => question,
        _ => return Err(Problem("`question` is missing; write it, as in `{\"question\": \"ampacity\"}`".to_owned())),
    };
    let mut arguments = vec![OsString::from(question)];
    for (key, value) in fields {
        let values = match value {
            Value::Array(values) => values,
            one => vec![one],
        };
        for value in values {
            arguments.push(format!("--{key}={}", as_text(&key, value)?).into());
        }
    }
    Ok(arguments)
}

fn as_text(key: &str, value: Value) -> Result<String, Problem> {
    match value {
        Value::String(text) => Ok(text),
        // A count is a count; where a unit is wanted, the reader of the option says which.
        Value::Number(number) if number.is_u64() => Ok(number.to_string()),
        // A fraction has passed through binary floating point, and the others are no text at all.
        other => Err(Problem::at(key, format!("`{}` is not text; write it in quotes", one_line(&other.to_string())))),
    }
}
