//! Errors of the core as the exceptions of the package.

use loadworthy::cli::{Asked, NotSequenced, NotUnderstood};
use loadworthy::site::Problems;
use loadworthy::switching::StepProblem;
use pyo3::import_exception;
use pyo3::prelude::*;

import_exception!(loadworthy._errors, InputError);
import_exception!(loadworthy._errors, QuantityError);
import_exception!(loadworthy._errors, QuantityTypeError);
import_exception!(loadworthy._errors, QuestionError);
import_exception!(loadworthy._errors, QuestionTypeError);

/// A question that could not be understood: the command's words, with its options as keyword arguments.
pub(crate) fn question(asked: &Asked, error: &NotUnderstood) -> PyErr {
    keywords(error, |option| matches!(option, "edition" | "accept") || asked.wanted(option).is_some())
}

/// A site that could not be judged as asked.
pub(crate) fn site(error: &NotUnderstood) -> PyErr {
    const OPTIONS: [&str; 8] =
        ["edition", "hours", "measured", "measured_for", "measured_share", "source", "start_hour", "start_order"];
    keywords(error, |option| OPTIONS.contains(&option))
}

/// A site without an order; `file` is that of the steps that are judged.
pub(crate) fn sequence(file: &str, error: &NotSequenced) -> PyErr {
    match error {
        NotSequenced::NotUnderstood(error) => site(error),
        NotSequenced::Steps(problems) => {
            let record = |problem: &StepProblem| {
                let (line, column, path) = (problem.line, problem.column, problem.path.clone());
                (problem.code, problem.to_string(), file.to_owned(), line, column, path)
            };
            InputError::new_err((problems.0.iter().map(record).collect::<Vec<_>>(),))
        }
        other => QuestionError::new_err((other.to_string(), None::<String>)),
    }
}

fn keywords(error: &NotUnderstood, is_option: impl Fn(&str) -> bool) -> PyErr {
    let option = error.option().map(|option| option.replace('-', "_"));
    QuestionError::new_err((as_keywords(&error.to_string(), is_option), option))
}

/// A question that the command does not answer.
pub(crate) fn no_such_question(question: &str) -> PyErr {
    QuestionError::new_err((format!("`{question}` is not a question that is answered here"), None::<String>))
}

/// Columns that cannot be judged.
pub(crate) fn sheet(message: &str) -> PyErr {
    QuestionError::new_err((message.trim_start_matches("--").to_owned(), None::<String>))
}

/// A value that an option cannot take; `found` is the value in backticks, or `this`.
pub(crate) fn value(asked: &Asked, option: &str, found: &str, is_a: &str) -> PyErr {
    let wanted = asked.wanted(option).unwrap_or_default();
    let message = format!("{option}: {found} is {is_a}; write text or a quantity: {wanted}");
    QuestionError::new_err((message, option.to_owned()))
}

/// A value of a type that no option takes.
pub(crate) fn wrong_type(asked: &Asked, option: &str, found: &Bound<'_, PyAny>) -> PyErr {
    let wanted = asked.wanted(option).unwrap_or_default();
    let kind = found.get_type().name().map_or_else(|_| "object".to_owned(), |name| name.to_string());
    let message = format!("{option}: a value of type `{kind}` is not understood; write text or a quantity: {wanted}");
    QuestionTypeError::new_err((message, option.to_owned()))
}

/// A value of a type that a keyword does not take; `is_not` says what is wanted instead.
pub(crate) fn keyword(keyword: &'static str, found: &Bound<'_, PyAny>, is_not: &str) -> PyErr {
    let kind = found.get_type().name().map_or_else(|_| "object".to_owned(), |name| name.to_string());
    QuestionTypeError::new_err((format!("{keyword}: a value of type `{kind}` is not {is_not}"), keyword))
}

/// Everything that is wrong with a document.
pub(crate) fn document(problems: &Problems) -> PyErr {
    let listed: Vec<_> = problems
        .iter()
        .map(|problem| {
            let at = problem.place();
            (problem.code(), problem.to_string(), at.file().to_owned(), at.line(), at.column(), at.path())
        })
        .collect();
    InputError::new_err((listed,))
}

/// A text that is not the quantity that was wanted.
pub(crate) fn quantity(error: &loadworthy::quantity::QuantityError) -> PyErr {
    QuantityError::new_err((error.to_string(), code(error)))
}

const fn code(error: &loadworthy::quantity::QuantityError) -> &'static str {
    use loadworthy::quantity::QuantityError as Wrong;
    match error {
        Wrong::MissingUnit { .. } => "missing-unit",
        Wrong::WrongKind { .. } => "wrong-quantity",
        Wrong::UnknownUnit { .. } => "unknown-unit",
        Wrong::OutOfRange { .. } => "out-of-range",
        Wrong::TooFine { .. } => "too-fine",
        _ => "not-a-number",
    }
}

/// `--service-size "2/0 AWG"` as `service_size="2/0 AWG"`: what the command says, for somebody who writes Python. What
/// is no option stands as it is, for it is what somebody wrote.
fn as_keywords(message: &str, is_option: impl Fn(&str) -> bool) -> String {
    // Between backticks stands what is to be written, or was written.
    let part = |(at, part): (usize, &str)| {
        let written = if at % 2 == 1 { arguments(part, &is_option) } else { None };
        written.unwrap_or_else(|| named(part, &is_option))
    };
    message.split('`').enumerate().map(part).collect::<Vec<_>>().join("`")
}

/// Options with their values alone, as `--size "6 AWG" --material copper`, as arguments.
fn arguments(text: &str, is_option: &impl Fn(&str) -> bool) -> Option<String> {
    let stated = text.strip_prefix("--")?.split(" --").map(|one| {
        let (name, value) = one.split_once(' ')?;
        let (name, value) = (name.replace('-', "_"), value.trim_matches('"'));
        is_option(&name).then(|| format!("{name}=\"{value}\""))
    });
    stated.collect::<Option<Vec<_>>>().map(|stated| stated.join(", "))
}

/// Options by their names as keywords.
fn named(text: &str, is_option: &impl Fn(&str) -> bool) -> String {
    let mut parts = text.split("--");
    let mut out = parts.next().unwrap_or("").to_owned();
    for part in parts {
        let end = part.find(|c: char| !(c.is_ascii_lowercase() || c == '-')).unwrap_or(part.len());
        let (name, rest) = part.split_at(end);
        let name = name.replace('-', "_");
        if !is_option(&name) {
            out.push_str("--");
            out.push_str(part);
        } else if let Some(value) = rest.strip_prefix(" \"") {
            out.push_str(&name);
            out.push_str("=\"");
            out.push_str(value);
        } else {
            out.push_str(&name);
            out.push_str(rest);
        }
    }
    out
}
