//! The values that fields take: names, texts, quantities, words, sizes, contacts and small counts.

use std::fmt;
use std::str::FromStr;

use super::document::{Node, Value};
use super::form::{Form, FromNode};
use super::place::At;
use super::problem::Problem;
use super::reader::{Reader, shortened};
use crate::quantity::{PowerFactor, Quantity, QuantityError, Written};
use crate::trade::{
    Configuration, Contacts, FuelAmount, Gender, Horsepower, HorsepowerError, WireSize, Word, WordError,
};

/// A name that a component has or refers to: 1 to 100 characters on one line.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize)]
pub struct Name(String);

impl Name {
    /// The text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl std::ops::Deref for Name {
    type Target = str;

    fn deref(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Name {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

/// The end of a cord, or the terminals of a source: contacts that mate, or a connection made with tools.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// A plug, an inlet, a receptacle or a connector.
    Contacts(Contacts),
    /// Conductors fastened to terminals.
    Hardwired,
}

impl End {
    /// The contacts; `None` where it is hardwired.
    #[must_use]
    pub const fn contacts(self) -> Option<Contacts> {
        match self {
            Self::Contacts(contacts) => Some(contacts),
            Self::Hardwired => None,
        }
    }

    /// Whether it has blades or pins that could be touched.
    #[must_use]
    pub fn is_male(self) -> bool {
        self.contacts().is_some_and(|contacts| contacts.gender == Gender::Male)
    }
}

/// An hour of the day, 0 to 23, written as `17:00`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct DayHour(u8);

impl DayHour {
    /// The hour, 0 to 23.
    #[must_use]
    pub const fn hour(self) -> u8 {
        self.0
    }
}

impl FromStr for DayHour {
    type Err = WordError;

    fn from_str(text: &str) -> Result<Self, WordError> {
        let trimmed = text.trim();
        let digits = trimmed.strip_suffix(":00").filter(|digits| digits.bytes().all(|byte| byte.is_ascii_digit()));
        let hour = digits.and_then(|digits| digits.parse().ok()).filter(|hour| *hour < 24);
        hour.map(Self).ok_or_else(|| WordError {
            found: shortened(trimmed),
            kind: "hour of the day",
            advice: "write a full hour from `0:00` to `23:00`".to_owned(),
        })
    }
}

impl fmt::Display for DayHour {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}:00", self.0)
    }
}

impl serde::Serialize for DayHour {
    fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_str(self)
    }
}

const HARDWIRED: &str = "hardwired";

impl FromStr for End {
    type Err = WordError;

    fn from_str(text: &str) -> Result<Self, WordError> {
        let trimmed = text.trim();
        if trimmed.eq_ignore_ascii_case(HARDWIRED) {
            return Ok(Self::Hardwired);
        }
        trimmed.parse().map(Self::Contacts).map_err(|error: WordError| {
            match crate::trade::nearest(trimmed, [HARDWIRED].into_iter()) {
                Some(near) => WordError { advice: format!("did you mean `{near}`?"), ..error },
                None => error,
            }
        })
    }
}

impl fmt::Display for End {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Contacts(contacts) => contacts.fmt(out),
            Self::Hardwired => out.write_str(HARDWIRED),
        }
    }
}

impl serde::Serialize for End {
    fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_str(self)
    }
}

/// Reads a value from a text, or from the text of a bare number, which then says what is missing.
fn parsed<T: FromStr + FromNode>(
    node: &Node<'_>,
    at: At<'_>,
    reader: &mut Reader<'_>,
    problem: impl FnOnce(super::Place, T::Err) -> Problem,
) -> Option<T> {
    let result = match &node.value {
        Value::Text(text) => text.parse::<T>(),
        Value::Integer(raw) | Value::Decimal(raw) => raw.parse::<T>(),
        _ => {
            reader.wrong_type(node, at, &T::form());
            return None;
        }
    };
    result.map_err(|error| reader.note(problem(reader.place_at(node.span.start, at), error))).ok()
}

fn quantity(at: super::Place, error: QuantityError) -> Problem {
    Problem::Quantity { at, error }
}

fn word(at: super::Place, error: WordError) -> Problem {
    Problem::Word { at, error }
}

impl<Q: Quantity> FromNode for Written<Q> {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        parsed(node, at, reader, quantity)
    }

    fn form() -> Form {
        let symbol = Q::UNITS.first().map_or("", |unit| unit.symbol);
        Form::of(format!("{} such as `25 {symbol}`", Q::A_NOUN))
    }
}

impl FromNode for PowerFactor {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        parsed(node, at, reader, quantity)
    }

    fn form() -> Form {
        Form::of("a power factor such as `0.85`")
    }
}

impl FromNode for WireSize {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        parsed(node, at, reader, quantity)
    }

    fn form() -> Form {
        Form::of("a wire size such as `6 AWG`")
    }
}

impl<W: Word + FromStr<Err = WordError>> FromNode for W {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        parsed(node, at, reader, word)
    }

    fn form() -> Form {
        let words = W::all().into_iter().filter(|(text, word)| *text == word.spelling()).map(|(text, _)| text);
        Form { words: words.collect(), ..Form::of(with_article(W::KIND)) }
    }
}

impl FromNode for Configuration {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        parsed(node, at, reader, word)
    }

    fn form() -> Form {
        Form::of("a configuration such as `14-50`")
    }
}

impl FromNode for Contacts {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        parsed(node, at, reader, word)
    }

    fn form() -> Form {
        Form::of("a plug or a receptacle such as `14-50P` or `14-50R`")
    }
}

impl FromNode for End {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        parsed(node, at, reader, word)
    }

    fn form() -> Form {
        Form::of("a plug or a receptacle such as `14-50P` or `14-50R`, or `hardwired`")
    }
}

impl FromNode for DayHour {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        parsed(node, at, reader, word)
    }

    fn form() -> Form {
        Form::of("an hour of the day such as `17:00`")
    }
}

impl FromNode for FuelAmount {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        parsed(node, at, reader, word)
    }

    fn form() -> Form {
        Form::of("an amount of fuel such as `5 gal`")
    }
}

impl FromNode for Horsepower {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        parsed(node, at, reader, |at, error| match error {
            HorsepowerError::MissingUnit(found) => {
                quantity(at, QuantityError::MissingUnit { found, a_quantity: "a motor output", unit: "hp" })
            }
            HorsepowerError::NotANumber(found) => {
                let advice = "write a number above 0 and at most 100000 such as `1-1/2 hp`".to_owned();
                word(at, WordError { found: shortened(&found), kind: "motor output", advice })
            }
        })
    }

    fn form() -> Form {
        Form::of("a motor output such as `1-1/2 hp`")
    }
}

impl FromNode for bool {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        match node.value {
            Value::Boolean(boolean) => Some(boolean),
            _ => {
                reader.wrong_type(node, at, &Self::form());
                None
            }
        }
    }

    fn form() -> Form {
        Form::of("`true` or `false` without quotes")
    }
}

impl FromNode for String {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        match &node.value {
            Value::Text(text) => Some(text.clone().into_owned()),
            _ => {
                reader.wrong_type(node, at, &Self::form());
                None
            }
        }
    }

    fn form() -> Form {
        Form::of("a text in quotes")
    }
}

/// The longest name, in characters.
const LONGEST_NAME: usize = 100;

/// Why a text cannot be a name; `None` where it can.
fn not_a_name(text: &str) -> Option<&'static str> {
    if text.trim().is_empty() {
        Some("write at least one character")
    } else if text.trim() != text {
        Some("leave out the spaces around it")
    } else if text.chars().any(char::is_control) {
        Some("write it on one line, without control characters")
    } else if text.chars().nth(LONGEST_NAME).is_some() {
        Some("write at most 100 characters")
    } else {
        None
    }
}

impl FromNode for Name {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        let Value::Text(text) = &node.value else {
            reader.wrong_type(node, at, &Self::form());
            return None;
        };
        if let Some(advice) = not_a_name(text) {
            let at = reader.place_at(node.span.start, at);
            reader.note(Problem::NotAName { at, found: shortened(text), advice });
            return None;
        }
        Some(Self(text.clone().into_owned()))
    }

    fn form() -> Form {
        Form::of("a name such as `kitchen`")
    }
}

/// The greatest count: of conductors, or of receptacles on a circuit.
const MOST: u16 = 999;

impl FromNode for u16 {
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        let Value::Integer(raw) = node.value else {
            reader.wrong_type(node, at, &Self::form());
            return None;
        };
        match raw.parse::<Self>() {
            Ok(count) if (1..=MOST).contains(&count) => Some(count),
            _ => {
                let at = reader.place_at(node.span.start, at);
                reader.note(Problem::OutOfRange { at, found: shortened(raw), minimum: 1, maximum: MOST });
                None
            }
        }
    }

    fn form() -> Form {
        Form::of("a whole number such as `3`")
    }
}

fn with_article(noun: &str) -> String {
    let article = if noun.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("{article} {noun}")
}
