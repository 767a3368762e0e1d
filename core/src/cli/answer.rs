//! The answer to one question, as text and as a document for programs.

use std::fmt::{self, Display, Write};

use serde::ser::SerializeStruct;
use serde::{Serialize, Serializer};

use super::options::Problem;
use super::{Status, json};
use crate::calc::{CannotTell, Step, Working};
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
    pub(super) working: Kept,
    /// What was not stated and was taken as the base of the table has it.
    assumed: Vec<String>,
    /// Where the answer cannot be told: what was looked for, and why it is not known.
    gap: Option<Gap>,
    caution: &'static str,
    #[serde(skip)]
    title: &'static str,
    #[serde(skip)]
    detail: Detail,
}

/// How much of an answer is wanted; what is judged is the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Detail {
    /// The outcome, the figure that answers, and what governs it: no words are made.
    Brief,
    /// All that the document has.
    Full,
}

/// How a question ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// Answered.
    Answered,
    /// Answered, and the answer is no.
    No,
    /// A fact is missing, or a table does not give the answer.
    CannotTell,
}

/// The steps of the working, where they are wanted.
#[derive(Serialize)]
#[serde(transparent)]
pub(super) struct Kept(Option<Vec<Step>>);

impl Working for Kept {
    fn step(&mut self, step: impl FnOnce() -> Step) {
        if let Self(Some(steps)) = self {
            steps.push(step());
        }
    }
}

/// An answer as text, and taken apart where it is a number with a unit.
struct Value {
    /// Number and unit, such as `45 A`.
    figure: Option<String>,
    /// What is said in place of them.
    said: Option<String>,
}

impl Value {
    fn text(&self) -> &str {
        self.said.as_deref().or(self.figure.as_deref()).unwrap_or("")
    }
}

impl Serialize for Value {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        let parts = self.figure.as_deref().and_then(|figure| figure.split_once(' '));
        let mut fields = out.serialize_struct("Value", 3)?;
        fields.serialize_field("value", &parts.map(|(value, _)| value))?;
        fields.serialize_field("unit", &parts.map(|(_, unit)| unit))?;
        fields.serialize_field("text", self.text())?;
        fields.end()
    }
}

#[derive(Serialize)]
struct Gap {
    what: String,
    why: String,
}

impl Answer {
    pub(super) fn new(question: &'static str, code: &dyn Code, detail: Detail) -> Self {
        Self {
            question,
            edition: code.id(),
            outcome: Outcome::CannotTell,
            subject: String::new(),
            answer: None,
            governed_by: None,
            figures: Vec::new(),
            working: Kept((detail == Detail::Full).then(Vec::new)),
            assumed: Vec::new(),
            gap: None,
            caution: CAUTION,
            title: code.title(),
            detail,
        }
    }

    /// Notes something that was not stated.
    pub(super) fn assume(&mut self, what: impl Display) {
        if self.is_full() {
            self.assumed.push(what.to_string());
        }
    }

    /// Notes that the edition was not stated.
    pub(super) fn assume_edition(&mut self) {
        let edition = self.edition;
        self.assume(format_args!("edition {edition}, the newest that is carried"));
    }

    /// What was noted so.
    pub(super) fn assumed(&self) -> &[String] {
        &self.assumed
    }

    pub(super) fn subject(&mut self, subject: impl Display) {
        if self.is_full() {
            self.subject = subject.to_string();
        }
    }

    /// Adds a further figure.
    pub(super) fn figure(&mut self, name: &'static str, value: impl Display) {
        if self.is_full() {
            self.figures.push((name, value.to_string()));
        }
    }

    fn is_full(&self) -> bool {
        self.detail == Detail::Full
    }

    /// The answer is a number and a unit.
    pub(super) fn quantity(&mut self, value: impl Display) {
        self.answer = Some(Value { figure: Some(value.to_string()), said: None });
        self.outcome = Outcome::Answered;
    }

    /// Says the answer in other words than number and unit.
    pub(super) fn say(&mut self, text: impl Display) {
        if let (Detail::Full, Some(answer)) = (self.detail, &mut self.answer) {
            answer.said = Some(text.to_string());
        }
    }

    /// The answer is no.
    pub(super) fn no(&mut self, text: impl Display) {
        self.answer = Some(Value { figure: None, said: Some(text.to_string()) });
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

    pub(super) const fn outcome(&self) -> Outcome {
        self.outcome
    }

    /// Number and unit as text, such as `45 A`, where there are such.
    pub(super) fn into_figure(self) -> (Option<String>, Option<String>) {
        (self.answer.and_then(|answer| answer.figure), self.governed_by)
    }

    pub(super) const fn status(&self) -> Status {
        match self.outcome {
            Outcome::Answered => Status::Answered,
            Outcome::No => Status::No,
            Outcome::CannotTell => Status::CannotTell,
        }
    }

    /// For a program: the document that [`cli`](super) describes.
    pub(super) fn json(&self) -> Result<String, Problem> {
        json(serde_json::to_string_pretty(self)).map(|text| text + "\n")
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
            (Some(answer), _) => writeln!(out, "{}: {}", answer.text(), self.subject)?,
            (None, Some(gap)) => writeln!(out, "cannot tell {}: {}", gap.what, gap.why)?,
            (None, None) => writeln!(out, "cannot tell: {}", self.subject)?,
        }
        if let Some(word) = &self.governed_by {
            writeln!(out, "governed by: {}", word.replace('-', " "))?;
        }
        for (name, value) in &self.figures {
            writeln!(out, "{}: {value}", name.replace('_', " "))?;
        }
        if let Kept(Some(steps)) = &self.working
            && !steps.is_empty()
        {
            writeln!(out, "working, by {}:", self.title)?;
            derivation::write(steps, out)?;
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
