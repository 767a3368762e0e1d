//! What can be wrong with a document: all of it at once, each with its place.

use std::fmt;

use super::place::Place;
use crate::quantity::QuantityError;
use crate::trade::{Contacts, WordError};

/// One thing wrong with a document. A reader collects them all before it gives up.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum Problem {
    /// A byte that is not UTF-8 text.
    #[error("{at}: the byte 0x{byte:02x} is not UTF-8 text; save the file as UTF-8")]
    NotText {
        /// Where.
        at: Place,
        /// The byte.
        byte: u8,
    },
    /// A document beyond [`MOST_BYTES`](super::MOST_BYTES) or [`MOST_TABLES`](super::MOST_TABLES).
    #[error("{at}: the document has more than {most} {things}; divide it into several sites")]
    TooLarge {
        /// Where the limit was met.
        at: Place,
        /// The limit.
        most: usize,
        /// What is counted.
        things: &'static str,
    },
    /// Tables and lists inside one another beyond [`DEEPEST`](super::DEEPEST).
    #[error("{at}: tables and lists stand inside one another more than {deepest} deep; write them flatter")]
    TooDeep {
        /// Where the limit was met.
        at: Place,
        /// The limit.
        deepest: usize,
    },
    /// Not well-formed TOML or JSON.
    #[error("{at}: this is not well-formed {language}: {what}")]
    Syntax {
        /// Where.
        at: Place,
        /// `TOML` or `JSON`.
        language: &'static str,
        /// What is wrong, in the parser's words.
        what: String,
    },
    /// A field twice in one table.
    #[error("{at}: `{field}` stands here a second time; keep one of the two")]
    DuplicateField {
        /// Where the second stands.
        at: Place,
        /// The field.
        field: String,
    },
    /// A field that the record does not have.
    #[error("{at}: `{field}` is not a field of {a_record}; {advice}")]
    UnknownField {
        /// Where.
        at: Place,
        /// The field as it was written.
        field: String,
        /// What the record describes, with its article.
        a_record: &'static str,
        /// The near field, or the fields to choose from.
        advice: String,
    },
    /// A required field that is absent.
    #[error("{at}: {a_record} needs `{field}`; write {wanted}")]
    MissingField {
        /// Where the record stands.
        at: Place,
        /// What the record describes, with its article.
        a_record: &'static str,
        /// The absent field.
        field: &'static str,
        /// What it takes.
        wanted: String,
    },
    /// A text where a number belongs, and the like.
    #[error("{at}: {found} is {is_a}; write {wanted}")]
    WrongType {
        /// Where.
        at: Place,
        /// The value as it was written, in backticks, or `this`.
        found: String,
        /// What it is, with its article.
        is_a: &'static str,
        /// What the field takes.
        wanted: String,
    },
    /// A text that is not the quantity that was wanted.
    #[error("{at}: {error}")]
    Quantity {
        /// Where.
        at: Place,
        /// What is wrong with it.
        error: QuantityError,
    },
    /// A text that is not a word of the vocabulary.
    #[error("{at}: {error}")]
    Word {
        /// Where.
        at: Place,
        /// What is wrong with it.
        error: WordError,
    },
    /// Blades where there are openings, or the other way round.
    #[error("{at}: `{found}` has {has}; {a_record} has {must_have}: write `{instead}`")]
    WrongGender {
        /// Where.
        at: Place,
        /// The contacts as they are printed.
        found: Contacts,
        /// `blades` or `openings`.
        has: &'static str,
        /// What has the contacts, with its article.
        a_record: &'static str,
        /// `blades` or `openings`.
        must_have: &'static str,
        /// The other half of the same configuration.
        instead: Contacts,
    },
    /// A whole number beyond what the field takes.
    #[error("{at}: `{found}` is out of range; write a whole number from {minimum} to {maximum}")]
    OutOfRange {
        /// Where.
        at: Place,
        /// The number as it was written.
        found: String,
        /// The least.
        minimum: u16,
        /// The greatest.
        maximum: u16,
    },
    /// A text that cannot name anything.
    #[error("{at}: `{found}` cannot be a name; {advice}")]
    NotAName {
        /// Where.
        at: Place,
        /// The text as it was found.
        found: String,
        /// What a name is.
        advice: &'static str,
    },
    /// Two components of one name.
    #[error("{at}: `{name}` is already the name of {another} at {first}; give one of them another name")]
    DuplicateName {
        /// Where the second stands.
        at: Place,
        /// The name.
        name: String,
        /// What the first is, with its article.
        another: &'static str,
        /// Where the first stands.
        first: Place,
    },
    /// A reference to nothing.
    #[error("{at}: `{name}` is not the name of {wanted}; {advice}")]
    DanglingReference {
        /// Where.
        at: Place,
        /// The name as it was written.
        name: String,
        /// What may stand there.
        wanted: String,
        /// The near name, or what to do.
        advice: String,
    },
    /// A reference to a component that cannot stand there.
    #[error("{at}: `{name}` is {is_a}; {a_record} takes {wanted} as its `{field}`")]
    WrongKindOfReference {
        /// Where.
        at: Place,
        /// The name.
        name: String,
        /// What it names, with its article.
        is_a: &'static str,
        /// What refers to it, with its article.
        a_record: &'static str,
        /// The field that refers.
        field: &'static str,
        /// What may stand there.
        wanted: String,
    },
    /// Components that feed each other in a circle.
    #[error("{at}: `{name}` is fed from itself: {cycle}; correct the `{field}` of one of them")]
    CircularReference {
        /// Where the first of them refers to the next.
        at: Place,
        /// The first.
        name: String,
        /// All of them in order.
        cycle: String,
        /// The field that refers.
        field: &'static str,
    },
    /// Fields that exclude each other.
    #[error("{at}: {a_record} gives {fields}, which exclude each other; keep one of them")]
    Contradiction {
        /// Where the second of them stands.
        at: Place,
        /// What the record describes, with its article.
        a_record: &'static str,
        /// The fields, in backticks.
        fields: String,
    },
    /// More than [`MOST_PROBLEMS`](super::MOST_PROBLEMS).
    #[error("{at}: the document has more than {most} problems; correct these and read it again")]
    TooMany {
        /// The place of the last one listed.
        at: Place,
        /// The limit.
        most: usize,
    },
}

impl Problem {
    /// A stable name for programs: never reused.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NotText { .. } => "not-text",
            Self::TooLarge { .. } => "too-large",
            Self::TooDeep { .. } => "too-deep",
            Self::Syntax { .. } => "syntax",
            Self::DuplicateField { .. } => "duplicate-field",
            Self::UnknownField { .. } => "unknown-field",
            Self::MissingField { .. } => "missing-field",
            Self::WrongType { .. } => "wrong-type",
            Self::Quantity { error, .. } => match error {
                QuantityError::MissingUnit { .. } => "missing-unit",
                QuantityError::WrongKind { .. } => "wrong-quantity",
                QuantityError::UnknownUnit { .. } => "unknown-unit",
                QuantityError::NotANumber { .. } | QuantityError::Exponent { .. } => "not-a-number",
                QuantityError::OutOfRange { .. } => "out-of-range",
                QuantityError::TooFine { .. } => "too-fine",
            },
            Self::Word { .. } => "unknown-word",
            Self::WrongGender { .. } => "wrong-gender",
            Self::OutOfRange { .. } => "out-of-range",
            Self::NotAName { .. } => "not-a-name",
            Self::DuplicateName { .. } => "duplicate-name",
            Self::DanglingReference { .. } => "dangling-reference",
            Self::WrongKindOfReference { .. } => "wrong-kind-of-reference",
            Self::CircularReference { .. } => "circular-reference",
            Self::Contradiction { .. } => "contradiction",
            Self::TooMany { .. } => "too-many",
        }
    }

    /// Where it stands.
    #[must_use]
    pub const fn place(&self) -> &Place {
        match self {
            Self::NotText { at, .. }
            | Self::TooLarge { at, .. }
            | Self::TooDeep { at, .. }
            | Self::Syntax { at, .. }
            | Self::DuplicateField { at, .. }
            | Self::UnknownField { at, .. }
            | Self::MissingField { at, .. }
            | Self::WrongType { at, .. }
            | Self::Quantity { at, .. }
            | Self::Word { at, .. }
            | Self::WrongGender { at, .. }
            | Self::OutOfRange { at, .. }
            | Self::NotAName { at, .. }
            | Self::DuplicateName { at, .. }
            | Self::DanglingReference { at, .. }
            | Self::WrongKindOfReference { at, .. }
            | Self::CircularReference { at, .. }
            | Self::Contradiction { at, .. }
            | Self::TooMany { at, .. } => at,
        }
    }
}

/// Everything that is wrong with a document, in the order of the places; never empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problems(pub(super) Vec<Problem>);

impl Problems {
    /// The problems.
    #[must_use]
    pub fn as_slice(&self) -> &[Problem] {
        &self.0
    }

    /// The problems, in order.
    pub fn iter(&self) -> std::slice::Iter<'_, Problem> {
        self.0.iter()
    }
}

impl<'a> IntoIterator for &'a Problems {
    type Item = &'a Problem;
    type IntoIter = std::slice::Iter<'a, Problem>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl fmt::Display for Problems {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (number, problem) in self.0.iter().enumerate() {
            if number > 0 {
                out.write_str("\n")?;
            }
            write!(out, "{problem}")?;
        }
        Ok(())
    }
}

impl std::error::Error for Problems {}
