//! The same site with something changed, to ask what would be then.

use serde_json::{Map, Value as Json};

use super::document::{self, Language, Node, Value};
use super::reader::Reader;
use super::{Problems, Site, read};

/// A change that cannot be made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ChangeError {
    /// The text that is to be added cannot be read.
    #[error("{0}")]
    NotRead(Problems),
    /// The changed description has problems; their places are paths.
    #[error("{0}")]
    Problems(Problems),
    /// A path that does not name a field.
    #[error("`{0}` does not name a field; write the name of a component, a dot and the field, as in `cord.length`")]
    NoSuchField(String),
}

impl Site {
    /// This site with one field set, or removed where the value is empty. The path is the name of a component (or
    /// `site`), a dot, and the field.
    ///
    /// ```
    /// # use loadworthy::site::Site;
    /// let site = Site::from_toml("cottage.toml", include_str!("../../examples/cottage.toml"))?;
    /// let longer = site.with_field("generator cord.length", "100 ft")?;
    /// assert_eq!(longer.cords()[0].length, Some("100 ft".parse()?));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// A path that names no field, or a value that the field does not take.
    pub fn with_field(&self, path: &str, value: &str) -> Result<Self, ChangeError> {
        let mut document = self.as_json();
        let no_field = || ChangeError::NoSuchField(path.to_owned());
        let (record, fields) = named(&mut document, path).ok_or_else(no_field)?;
        let mut keys: Vec<&str> = fields.split('.').collect();
        let last = keys.pop().filter(|last| !last.is_empty()).ok_or_else(no_field)?;
        let mut table = record;
        for key in keys {
            let inner = table.entry(key).or_insert_with(|| Json::Object(Map::new()));
            table = inner.as_object_mut().ok_or_else(no_field)?;
        }
        match (value.trim(), value.trim().parse::<u16>()) {
            ("", _) => drop(table.remove(last)),
            (word @ ("true" | "false"), _) => drop(table.insert(last.to_owned(), Json::Bool(word == "true"))),
            (_, Ok(number)) => drop(table.insert(last.to_owned(), number.into())),
            (text, _) => drop(table.insert(last.to_owned(), text.into())),
        }
        self.read_again(&document)
    }

    /// This site with the components of a further text, which is written like a description and need not have all its
    /// parts. A component takes the place of the one with its name, and a source that of the one with its outlet.
    ///
    /// # Errors
    /// A text that cannot be read, or problems of the whole that it makes.
    pub fn with_components(&self, file_name: &str, text: &str) -> Result<Self, ChangeError> {
        let mut reader = Reader::new(file_name, text);
        let added = document::parse(Language::of(file_name, text), text, &mut reader).map(|node| as_json(&node));
        if let Some(problems) = reader.into_problems() {
            return Err(ChangeError::NotRead(problems));
        }
        let mut document = self.as_json();
        if let (Some(whole), Some(Json::Object(added))) = (document.as_object_mut(), added) {
            for (key, value) in added {
                match (whole.get_mut(&key), value) {
                    (Some(Json::Array(present)), Json::Array(new)) => new.into_iter().for_each(|one| put(present, one)),
                    (Some(Json::Object(present)), Json::Object(new)) => present.extend(new),
                    (_, value) => drop(whole.insert(key, value)),
                }
            }
        }
        self.read_again(&document)
    }

    fn as_json(&self) -> Json {
        // Records are texts, whole numbers and truths, which JSON always holds.
        serde_json::to_value(&self.document).unwrap_or(Json::Null)
    }

    fn read_again(&self, document: &Json) -> Result<Self, ChangeError> {
        let file = format!("{}, changed", self.premises().place().file().trim_end_matches(", changed"));
        read::from_changed(&file, &document.to_string()).map_err(ChangeError::Problems)
    }
}

/// The record whose name begins the path, and the fields behind the dot; of several names the longest.
fn named<'j, 'p>(document: &'j mut Json, path: &'p str) -> Option<(&'j mut Map<String, Json>, &'p str)> {
    let whole = document.as_object_mut()?;
    if let Some(rest) = path.strip_prefix("site.") {
        return Some((whole.get_mut("site")?.as_object_mut()?, rest));
    }
    let mut found: Option<(&'j mut Map<String, Json>, &'p str)> = None;
    let mut records: Vec<&'j mut Json> = whole.values_mut().filter_map(Json::as_array_mut).flatten().collect();
    while let Some(record) = records.pop().and_then(Json::as_object_mut) {
        let rest =
            record.get("name").and_then(Json::as_str).and_then(|name| path.strip_prefix(name)?.strip_prefix('.'));
        match (rest, &found) {
            (Some(rest), Some((_, best))) if rest.len() >= best.len() => {}
            (Some(rest), _) => found = Some((record, rest)),
            // Outlets stand inside their source.
            (None, _) => records.extend(record.get_mut("outlet").and_then(Json::as_array_mut).into_iter().flatten()),
        }
    }
    found
}

/// Puts a record in the place of its like, or at the end.
fn put(present: &mut Vec<Json>, new: Json) {
    let outlets = |record: &Json| {
        let outlets = record.get("outlet").and_then(Json::as_array).cloned().unwrap_or_default();
        outlets.iter().filter_map(|outlet| outlet.get("name").cloned()).collect::<Vec<_>>()
    };
    let ours = outlets(&new);
    let same = |old: &Json| old.get("name") == new.get("name") || outlets(old).iter().any(|name| ours.contains(name));
    match present.iter().position(same).and_then(|index| present.get_mut(index)) {
        Some(old) => *old = new,
        None => present.push(new),
    }
}

fn as_json(node: &Node<'_>) -> Json {
    match &node.value {
        Value::Table(entries) => {
            Json::Object(entries.iter().map(|entry| (entry.key.clone().into_owned(), as_json(&entry.node))).collect())
        }
        Value::Array(items) => Json::Array(items.iter().map(as_json).collect()),
        Value::Text(text) => Json::String(text.clone().into_owned()),
        Value::Integer(raw) => raw.parse::<i64>().map_or_else(|_| Json::String((*raw).to_owned()), Json::from),
        // As text: nothing turns a decimal into a binary fraction.
        Value::Decimal(raw) => Json::String((*raw).to_owned()),
        Value::Boolean(boolean) => Json::Bool(*boolean),
        Value::Null | Value::Date => Json::Null,
    }
}
