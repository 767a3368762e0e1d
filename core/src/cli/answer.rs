//! The answer to one question, as text and as a document for programs.

use std::fmt::{self, Display, Write};

use serde::{Serialize, Serializer};

use super::Status;
use crate::calc::{CannotTell, Derivation};
use crate::code::Code;
use crate::report::derivation;

/// What every answer says once.
pub(super) const CAUTION: &str = "electricity kills; the local code and the authority having jurisdiction decide; \
                                  the answer covers only what was stated";

/// The answer to one question. Its fields, in this order, are the JSON document; a field that has nothing to say is
/// null or empty, never left out.
#[derive(Serialize)]
pub(super) struct Answer {
    /// The question, as it is named on the command line.
    question: &'static str,
    /// The edition that was asked, such as `nec-2023`.
    edition: &'static str,
    outcome: Outcome,
    /// What the answer is about, in words.
    subject: String,
    answer: Option<Value>,
    /// The word for what limits the answer.
    governed_by: Option<String>,
    /// Further figures by name, each with its unit, exact unless its name says otherwise.
    #[serde(serialize_with = "as_map")]
    figures: Vec<(&'static str, String)>,
    pub(super) working: Derivation,
    /// What was not stated and was taken as the base of the table has it.
    assumed: Vec<String>,
    /// Where the answer cannot be told: what was looked for, and why it is not known.
    gap: Option<Gap>,
    caution: &'static str,
    #[serde(skip)]
    title: &'static str,
}

/// How a question ends.
#[derive(Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
enum Outcome {
    Answered,
    /// Answered, and the answer is no.
    No,
    CannotTell,
}

/// An answer as text, and taken apart where it is a number with a unit.
#[derive(Serialize)]
struct Value {
    value: Option<String>,
    unit: Option<String>,
    text: String,
}

#[derive(Serialize)]
struct Gap {
    what: String,
    why: String,
}

impl Answer {
    pub(super) fn new(question: &'static str, code: &dyn Code) -> Self {
        Self {
            question,
            edition: code.id(),
            outcome: Outcome::CannotTell,
            subject: String::new(),
            answer: None,
            governed_by: None,
            figures: Vec::new(),
            working: Derivation::default(),
            assumed: Vec::new(),
            gap: None,
            caution: CAUTION,
            title: code.title(),
        }
    }

    /// Notes something that was not stated.
    pub(super) fn assume(&mut self, what: impl Into<String>) {
        self.assumed.push(what.into());
    }

    /// What was noted so.
    pub(super) fn assumed(&self) -> &[String] {
        &self.assumed
    }

    pub(super) fn subject(&mut self, subject: impl Into<String>) {
        self.subject = subject.into();
    }

    /// Adds a further figure.
    pub(super) fn figure(&mut self, name: &'static str, value: impl Display) {
        self.figures.push((name, value.to_string()));
    }

    /// The answer is a number and a unit.
    pub(super) fn quantity(&mut self, value: impl Display) {
        let text = value.to_string();
        let (number, unit) =
            text.split_once(' ').map_or((None, None), |(n, u)| (Some(n.to_owned()), Some(u.to_owned())));
        self.answer = Some(Value { value: number, unit, text });
        self.outcome = Outcome::Answered;
    }

    /// Says the answer in other words than number and unit.
    pub(super) fn say(&mut self, text: impl Into<String>) {
        if let Some(answer) = &mut self.answer {
            answer.text = text.into();
        }
    }

    /// The answer is no.
    pub(super) fn no(&mut self, text: impl Into<String>) {
        self.answer = Some(Value { value: None, unit: None, text: text.into() });
        self.outcome = Outcome::No;
    }

    /// What limits the answer, by the word that serves programs too.
    pub(super) fn governed_by(&mut self, word: impl Serialize) {
        self.governed_by = serde_json::to_value(word).ok().and_then(|word| word.as_str().map(str::to_owned));
    }

    /// The answer cannot be told.
    pub(super) fn gap(&mut self, what: impl Display, why: impl Display) {
        self.answer = None;
        self.outcome = Outcome::CannotTell;
        self.gap = Some(Gap { what: what.to_string(), why: why.to_string() });
    }

    /// A result, or its gap noted.
    pub(super) fn settle<T>(&mut self, result: Result<T, CannotTell>) -> Option<T> {
        result.map_err(|CannotTell { what, gap }| self.gap(what, gap)).ok()
    }

    pub(super) const fn status(&self) -> Status {
        match self.outcome {
            Outcome::Answered => Status::Answered,
            Outcome::No => Status::No,
            Outcome::CannotTell => Status::CannotTell,
        }
    }

    /// For a person to read.
    pub(super) fn text(&self) -> String {
        let mut out = String::new();
        // A `String` takes whatever is written to it.
        let _ = self.write(&mut out);
        out
    }

    fn write(&self, out: &mut String) -> fmt::Result {
        match (&self.answer, &self.gap) {
            (Some(answer), _) => writeln!(out, "{}: {}", answer.text, self.subject)?,
            (None, Some(gap)) => writeln!(out, "cannot tell {}: {}", gap.what, gap.why)?,
            (None, None) => writeln!(out, "cannot tell: {}", self.subject)?,
        }
        if let Some(word) = &self.governed_by {
            writeln!(out, "governed by: {}", word.replace('-', " "))?;
        }
        for (name, value) in &self.figures {
            writeln!(out, "{}: {value}", name.replace('_', " "))?;
        }
        if !self.working.steps.is_empty() {
            writeln!(out, "working, by {}:", self.title)?;
            derivation::write(&self.working.steps, out)?;
        }
        for assumed in &self.assumed {
            writeln!(out, "assumed: {assumed}")?;
        }
        writeln!(out, "caution: {}", self.caution)
    }
}

fn as_map<S: Serializer>(figures: &[(&'static str, String)], out: S) -> Result<S::Ok, S::Error> {
    out.collect_map(figures.iter().map(|(name, value)| (name, value)))
}
