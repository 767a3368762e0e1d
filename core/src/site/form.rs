//! What a field takes: one value, perhaps none, or many.

use std::sync::Arc;

use super::document::{Node, Value};
use super::place::At;
use super::reader::Reader;
use super::record::RecordInfo;

/// What a field takes, in words and by example.
pub(super) struct Form {
    /// How the advice reads: `a length such as \`25 ft\``.
    pub(super) wanted: String,
    /// The record, where the field takes a table or tables.
    pub(super) record: Option<&'static RecordInfo>,
    /// The words, where the field takes a word.
    pub(super) words: Vec<&'static str>,
}

impl Form {
    pub(super) fn of(wanted: impl Into<String>) -> Self {
        Self { wanted: wanted.into(), record: None, words: Vec::new() }
    }

    /// What a field takes, as it reads after `write`.
    pub(super) fn advised(&self) -> String {
        const MOST: usize = 12;
        if self.words.is_empty() {
            return self.wanted.clone();
        }
        let listed = self.words.iter().take(MOST).map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ");
        let more = if self.words.len() > MOST { ", …" } else { "" };
        format!("{} as text, one of {listed}{more}", self.wanted)
    }
}

/// A value that can be read from one node.
pub(super) trait FromNode: Sized {
    /// Reads it, or notes what is wrong.
    fn from_node(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self>;

    /// What it looks like in a document.
    fn form() -> Form;
}

/// The value of a field: required, optional (`Option`) or many (`Vec`).
pub(super) trait FieldValue: Sized {
    const REQUIRED: bool;

    /// Reads the field; `None` where a problem was noted.
    fn read(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self>;

    /// The value of a field that is not there; `None` where it must be.
    fn when_absent() -> Option<Self>;

    /// Whether the field need not be written.
    fn is_absent(&self) -> bool;

    fn form() -> Form;
}

impl<T: FromNode> FieldValue for T {
    const REQUIRED: bool = true;

    fn read(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        T::from_node(node, at, reader)
    }

    fn when_absent() -> Option<Self> {
        None
    }

    fn is_absent(&self) -> bool {
        false
    }

    fn form() -> Form {
        T::form()
    }
}

impl<T: FromNode> FieldValue for Option<T> {
    const REQUIRED: bool = false;

    fn read(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        T::from_node(node, at, reader).map(Some)
    }

    fn when_absent() -> Option<Self> {
        Some(None)
    }

    fn is_absent(&self) -> bool {
        self.is_none()
    }

    fn form() -> Form {
        T::form()
    }
}

impl<T: FromNode> FieldValue for Vec<T> {
    const REQUIRED: bool = false;

    fn read(node: &Node<'_>, at: At<'_>, reader: &mut Reader<'_>) -> Option<Self> {
        let Value::Array(items) = &node.value else {
            reader.wrong_type(node, at, &Self::form());
            return None;
        };
        let mut values = Self::with_capacity(items.len());
        let path = at.path();
        for (index, item) in items.iter().enumerate() {
            let path = Arc::from(format!("{path}[{index}]"));
            values.extend(T::from_node(item, At { record: &path, field: None }, reader));
        }
        (values.len() == items.len()).then_some(values)
    }

    fn when_absent() -> Option<Self> {
        Some(Self::new())
    }

    fn is_absent(&self) -> bool {
        self.is_empty()
    }

    fn form() -> Form {
        let form = T::form();
        let wanted = if form.record.is_some() { "a list of tables" } else { "a list of texts" };
        Form { wanted: wanted.to_owned(), ..form }
    }
}
