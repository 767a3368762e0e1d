//! Where something stands in a document.

use std::fmt;
use std::sync::Arc;

use super::component::ComponentId;

/// A line and a column, both counted from 1; columns count characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Spot {
    pub(super) line: u32,
    pub(super) column: u32,
}

impl Spot {
    pub(super) const START: Self = Self { line: 1, column: 1 };

    /// Of a description that was changed after it was read.
    pub(super) const NONE: Self = Self { line: 0, column: 0 };
}

/// A place in a document: the file as the caller named it, the path of the field, and the line and column.
///
/// It prints as `site.toml:14:10`, and in a description that was changed after it was read, where lines mean nothing, as
/// `site.toml, changed: cord[0].size`. Cloning it allocates nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    pub(super) file: Arc<str>,
    pub(super) record: Arc<str>,
    pub(super) field: Option<&'static str>,
    pub(super) spot: Spot,
}

impl Place {
    /// The file, as the caller named it.
    #[must_use]
    pub fn file(&self) -> &str {
        &self.file
    }

    /// The path of the field, such as `cord[0].size`: the second `cord` would be `cord[1]`.
    #[must_use]
    pub fn path(&self) -> String {
        joined(&self.record, self.field)
    }

    /// The line, from 1; 0 in a description that was changed after it was read.
    #[must_use]
    pub const fn line(&self) -> u32 {
        self.spot.line
    }

    /// The column in characters, from 1; 0 in a description that was changed after it was read.
    #[must_use]
    pub const fn column(&self) -> u32 {
        self.spot.column
    }
}

impl fmt::Display for Place {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.spot {
            Spot::NONE => write!(out, "{}: {}", self.file, self.path()),
            spot => write!(out, "{}:{}:{}", self.file, spot.line, spot.column),
        }
    }
}

/// Where a record and each of its present fields stand.
#[derive(Clone, Debug)]
pub(super) struct Location {
    pub(super) file: Arc<str>,
    pub(super) path: Arc<str>,
    pub(super) spot: Spot,
    pub(super) fields: Vec<(&'static str, Spot)>,
    /// Given when the site is put together; only components have one.
    pub(super) id: ComponentId,
}

impl Location {
    pub(super) fn place(&self) -> Place {
        Place { file: Arc::clone(&self.file), record: Arc::clone(&self.path), field: None, spot: self.spot }
    }

    pub(super) fn place_of(&self, field: &str) -> Place {
        match self.fields.iter().find(|(name, _)| *name == field) {
            Some((name, spot)) => Place { field: Some(name), spot: *spot, ..self.place() },
            None => self.place(),
        }
    }
}

/// Where a thing stands is no part of what it is: two records are equal when what they say is.
impl PartialEq for Location {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Eq for Location {}

/// The path of a value while it is read: built into text only for a problem or a record.
#[derive(Clone, Copy)]
pub(super) struct At<'a> {
    pub(super) record: &'a Arc<str>,
    pub(super) field: Option<&'static str>,
}

impl At<'_> {
    pub(super) fn path(self) -> Arc<str> {
        match self.field {
            None => Arc::clone(self.record),
            field => joined(self.record, field).into(),
        }
    }
}

fn joined(record: &str, field: Option<&str>) -> String {
    match field {
        None => record.to_owned(),
        Some(field) if record.is_empty() => field.to_owned(),
        Some(field) => format!("{record}.{field}"),
    }
}
