//! Walks the tree of a document, reads records from it, and collects problems without stopping at the first.

use std::sync::Arc;

use super::component::ComponentId;
use super::document::{Node, TextIndex, Value};
use super::form::{FieldValue, Form};
use super::place::{At, Location, Place, Spot};
use super::problem::{Problem, Problems};
use super::record::{Field, RecordInfo};
use crate::trade::{Contacts, Gender, nearest};

/// The most problems that are listed.
pub const MOST_PROBLEMS: usize = 1000;

/// How many problems come with a near word: looking for it is slow beside everything else.
const MOST_ADVISED: usize = 100;

/// Among how many words the near one is looked for.
const MOST_COMPARED: usize = 1000;

/// The document being read: its text, and the problems so far.
pub(super) struct Reader<'a> {
    text: &'a str,
    file: Arc<str>,
    root: Arc<str>,
    index: TextIndex,
    /// Whether lines and columns mean nothing, as the text is one that nobody wrote.
    without_lines: bool,
    problems: Vec<Problem>,
    too_many: bool,
}

impl<'a> Reader<'a> {
    pub(super) fn new(file: &str, text: &'a str) -> Self {
        Self {
            text,
            file: file.into(),
            root: "".into(),
            index: TextIndex::new(text),
            without_lines: false,
            problems: Vec::new(),
            too_many: false,
        }
    }

    pub(super) fn note(&mut self, problem: Problem) {
        if self.problems.len() < MOST_PROBLEMS {
            self.problems.push(problem);
        } else {
            self.too_many = true;
        }
    }

    /// How many problems there are so far.
    pub(super) fn count(&self) -> usize {
        self.problems.len()
    }

    /// The place of an offset that belongs to no field.
    pub(super) fn place(&self, offset: usize) -> Place {
        self.place_at(offset, At { record: &self.root, field: None })
    }

    pub(super) fn place_at(&self, offset: usize, at: At<'_>) -> Place {
        Place { file: Arc::clone(&self.file), record: Arc::clone(at.record), field: at.field, spot: self.spot(offset) }
    }

    /// The same, whose places are paths alone.
    pub(super) fn without_lines(self) -> Self {
        Self { without_lines: true, ..self }
    }

    pub(super) fn spot(&self, offset: usize) -> Spot {
        if self.without_lines {
            return Spot::NONE;
        }
        self.index.spot(self.text, offset)
    }

    /// Notes that a value is of another type than the field takes.
    pub(super) fn wrong_type(&mut self, node: &Node<'_>, at: At<'_>, form: &Form) {
        let found = match &node.value {
            Value::Table(_) | Value::Array(_) => "this".to_owned(),
            Value::Text(text) => format!("`{}`", shortened(text)),
            _ => format!("`{}`", shortened(self.text.get(node.span.clone()).unwrap_or_default())),
        };
        let at = self.place_at(node.span.start, at);
        self.note(Problem::WrongType { at, found, is_a: node.value.is_a(), wanted: form.advised() });
    }

    /// Notes contacts of the wrong gender: what has blades and what has openings is part of what the words mean.
    pub(super) fn expect_gender(&mut self, at: Place, found: Contacts, gender: Gender, a_record: &'static str) {
        const fn has(gender: Gender) -> &'static str {
            match gender {
                Gender::Male => "blades",
                Gender::Female => "openings",
            }
        }
        if found.gender != gender {
            let instead = Contacts { gender, ..found };
            let (has, must_have) = (has(found.gender), has(gender));
            self.note(Problem::WrongGender { at, found, has, a_record, must_have, instead });
        }
    }

    /// The near word, where there is one and there are not yet too many problems to look for it.
    pub(super) fn near<'w>(&self, text: &str, words: impl Iterator<Item = &'w str>) -> Option<&'w str> {
        if self.problems.len() < MOST_ADVISED { nearest(text, words.take(MOST_COMPARED)) } else { None }
    }

    /// All problems in the order of their places; `None` where there are none.
    pub(super) fn into_problems(self) -> Option<Problems> {
        let mut problems = self.problems;
        // Stable: problems of one place stay in the order in which they were found.
        problems.sort_by_key(|problem| problem.place().spot);
        if self.too_many
            && let Some(last) = problems.last()
        {
            let at = last.place().clone();
            problems.push(Problem::TooMany { at, most: MOST_PROBLEMS });
        }
        (!problems.is_empty()).then_some(Problems(problems))
    }
}

/// The fields of one table while its record is read.
pub(super) struct Fields<'n, 'a> {
    node: &'n Node<'a>,
    info: &'static RecordInfo,
    location: Location,
}

impl<'n, 'a> Fields<'n, 'a> {
    /// The fields of a table, with its unknown fields noted; `None` where the node is no table.
    pub(super) fn of(
        node: &'n Node<'a>,
        at: At<'_>,
        info: &'static RecordInfo,
        reader: &mut Reader<'_>,
    ) -> Option<Self> {
        let Value::Table(entries) = &node.value else {
            reader.wrong_type(node, at, &Form::of("a table"));
            return None;
        };
        let location = Location {
            file: Arc::clone(&reader.file),
            path: at.path(),
            spot: reader.spot(node.span.start),
            fields: Vec::with_capacity(entries.len()),
            id: ComponentId(0),
        };
        for entry in entries {
            if info.fields.iter().all(|field| field.name != entry.key) {
                let advice = match reader.near(&entry.key, info.fields.iter().map(|field| field.name)) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => format!("its fields are {}", listed(info.fields)),
                };
                let path = At { record: &location.path, field: None };
                let at = reader.place_at(entry.key_span.start, path);
                let field = shortened(&entry.key);
                reader.note(Problem::UnknownField { at, field, a_record: info.a_record, advice });
            }
        }
        Some(Self { node, info, location })
    }

    /// Reads one field; `None` where a problem was noted.
    pub(super) fn read<T: FieldValue>(&mut self, name: &'static str, reader: &mut Reader<'_>) -> Option<T> {
        match self.node.field(name) {
            Some(node) => {
                self.location.fields.push((name, reader.spot(node.span.start)));
                T::read(node, At { record: &self.location.path, field: Some(name) }, reader)
            }
            None => {
                let absent = T::when_absent();
                if absent.is_none() {
                    let at = self.location.place();
                    let wanted = T::form().advised();
                    let a_record = self.info.a_record;
                    reader.note(Problem::MissingField { at, a_record, field: name, wanted });
                }
                absent
            }
        }
    }

    /// Notes that more than one of these fields is present.
    pub(super) fn at_most_one(&self, names: &[&'static str], reader: &mut Reader<'_>) {
        let present = || self.location.fields.iter().map(|(name, _)| *name).filter(|name| names.contains(name));
        if let Some(second) = present().nth(1) {
            let fields = present().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(" and ");
            let at = self.location.place_of(second);
            reader.note(Problem::Contradiction { at, a_record: self.info.a_record, fields });
        }
    }

    pub(super) fn into_location(self) -> Location {
        self.location
    }
}

fn listed(fields: &[Field]) -> String {
    fields.iter().map(|field| format!("`{}`", field.name)).collect::<Vec<_>>().join(", ")
}

/// The user's own text for a message: one line, cut where it would fill the screen.
pub(super) fn shortened(text: &str) -> String {
    const LONGEST: usize = 60;
    let mut shown: String =
        text.chars().take(LONGEST).map(|character| if character.is_control() { ' ' } else { character }).collect();
    if text.chars().nth(LONGEST).is_some() {
        shown.push('…');
    }
    shown
}
