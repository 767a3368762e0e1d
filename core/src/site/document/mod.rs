//! TOML and JSON text to one tree, within limits.

mod json;
mod node;
mod text;
mod toml;

use std::ops::Range;

pub(super) use node::{Entry, Node, Value};
pub(super) use text::TextIndex;

use super::problem::Problem;
use super::reader::Reader;

/// The largest document, in bytes: 4 MiB.
pub const MOST_BYTES: usize = 4 * 1024 * 1024;
/// How deep tables and lists may stand inside one another.
pub const DEEPEST: usize = 32;
/// The most tables in one document.
pub const MOST_TABLES: usize = 10_000;

/// The language of a document.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Language {
    /// TOML, version 1.
    Toml,
    /// JSON without comments or trailing commas.
    Json,
}

impl Language {
    /// By the ending of the file's name, else by the first character: a JSON document opens with a brace.
    #[must_use]
    pub fn of(file_name: &str, text: &str) -> Self {
        let ends = |ending: &str| file_name.to_ascii_lowercase().ends_with(ending);
        if ends(".json") || (!ends(".toml") && text.trim_start().starts_with('{')) { Self::Json } else { Self::Toml }
    }
}

/// The tree of a document, or the problems noted.
pub(super) fn parse<'a>(language: Language, text: &'a str, reader: &mut Reader<'a>) -> Option<Node<'a>> {
    if text.len() > MOST_BYTES {
        let at = reader.place(0);
        reader.note(Problem::TooLarge { at, most: MOST_BYTES, things: "bytes" });
        return None;
    }
    match language {
        Language::Toml => toml::parse(text, reader),
        Language::Json => json::parse(text, reader),
    }
}

/// Keeps the tree within the limits while it is built.
struct Limits {
    tables: usize,
}

impl Limits {
    const fn new() -> Self {
        Self { tables: 0 }
    }

    /// Whether one more value may stand here.
    fn allow(&mut self, depth: usize, is_table: bool, span: &Range<usize>, reader: &mut Reader<'_>) -> Option<()> {
        if depth > DEEPEST {
            let at = reader.place(span.start);
            reader.note(Problem::TooDeep { at, deepest: DEEPEST });
            return None;
        }
        self.tables += usize::from(is_table);
        if self.tables > MOST_TABLES {
            let at = reader.place(span.start);
            reader.note(Problem::TooLarge { at, most: MOST_TABLES, things: "tables" });
            return None;
        }
        Some(())
    }
}

/// A parser's message in one line that begins in lower case.
fn one_line(message: &str) -> String {
    let mut words = message.split_whitespace().collect::<Vec<_>>().join(" ");
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_lowercase();
    }
    words
}
