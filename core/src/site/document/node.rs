//! A document as a tree, whatever language it was written in, each part with its span.

use std::borrow::Cow;
use std::ops::Range;

/// A value and where it stands.
pub(in crate::site) struct Node<'a> {
    pub(in crate::site) value: Value<'a>,
    /// In bytes; for a TOML table it is the header.
    pub(in crate::site) span: Range<usize>,
}

/// A value. Numbers keep the text that was written: nothing turns them into binary fractions.
pub(in crate::site) enum Value<'a> {
    Table(Vec<Entry<'a>>),
    Array(Vec<Node<'a>>),
    Text(Cow<'a, str>),
    Integer(&'a str),
    Decimal(&'a str),
    Boolean(bool),
    Null,
    Date,
}

/// A field of a table.
pub(in crate::site) struct Entry<'a> {
    pub(in crate::site) key: Cow<'a, str>,
    pub(in crate::site) key_span: Range<usize>,
    pub(in crate::site) node: Node<'a>,
}

impl<'a> Node<'a> {
    /// The value of a field; `None` where this is no table or lacks it.
    pub(in crate::site) fn field(&self, key: &str) -> Option<&Node<'a>> {
        match &self.value {
            Value::Table(entries) => entries.iter().find(|entry| entry.key == key).map(|entry| &entry.node),
            _ => None,
        }
    }

    /// The items of an array; nothing where this is none.
    pub(in crate::site) fn items(&self) -> &[Node<'a>] {
        match &self.value {
            Value::Array(items) => items,
            _ => &[],
        }
    }

    /// The text; `None` where this is none.
    pub(in crate::site) fn text(&self) -> Option<&str> {
        match &self.value {
            Value::Text(text) => Some(text),
            _ => None,
        }
    }
}

impl Value<'_> {
    /// What it is, with its article.
    pub(in crate::site) const fn is_a(&self) -> &'static str {
        match self {
            Self::Table(_) => "a table",
            Self::Array(_) => "a list",
            Self::Text(_) => "a text",
            Self::Integer(_) => "a whole number",
            Self::Decimal(_) => "a decimal number",
            Self::Boolean(_) => "a boolean",
            Self::Null => "no value",
            Self::Date => "a date",
        }
    }
}
