//! JSON text to a tree: the plain language of RFC 8259, nothing looser.

use std::collections::HashSet;

use jsonc_parser::ast;
use jsonc_parser::common::Ranged;
use jsonc_parser::{CollectOptions, ParseOptions, parse_to_ast};

use super::{Entry, Limits, Node, Value, one_line};
use crate::site::problem::Problem;
use crate::site::reader::Reader;

const STRICT: ParseOptions = ParseOptions {
    allow_comments: false,
    allow_loose_object_property_names: false,
    allow_trailing_commas: false,
    allow_missing_commas: false,
    allow_single_quoted_strings: false,
    allow_hexadecimal_numbers: false,
    allow_unary_plus_numbers: false,
    allow_bare_decimal_point_numbers: false,
    allow_non_finite_numbers: false,
    allow_extended_string_escapes: false,
};

pub(super) fn parse<'a>(text: &'a str, reader: &mut Reader<'a>) -> Option<Node<'a>> {
    let syntax = |offset: usize, what: &str, reader: &mut Reader<'a>| {
        let at = reader.place(offset);
        reader.note(Problem::Syntax { at, language: "JSON", what: one_line(what) });
    };
    let parsed = match parse_to_ast(text, &CollectOptions::default(), &STRICT) {
        Ok(parsed) => parsed,
        Err(error) => {
            syntax(error.range().start, &error.kind().to_string(), reader);
            return None;
        }
    };
    let Some(value) = parsed.value else {
        syntax(0, "the document is empty", reader);
        return None;
    };
    let count = reader.count();
    let node = node(value, 1, &mut Limits::new(), reader)?;
    // The parser with spans lets a few loose forms pass, such as raw line breaks in texts; the strict one does not.
    if let Err(error) = serde_json::from_str::<serde::de::IgnoredAny>(text) {
        let offset = offset_of(text, error.line(), error.column());
        let message = error.to_string();
        let what = message.split(" at line ").next().unwrap_or(&message);
        syntax(offset, what, reader);
    }
    (reader.count() == count).then_some(node)
}

/// The offset of a line and a column that counts bytes, both from 1.
fn offset_of(text: &str, line: usize, column: usize) -> usize {
    let before: usize = text.split_inclusive('\n').take(line.saturating_sub(1)).map(str::len).sum();
    before + column.saturating_sub(1)
}

fn node<'a>(value: ast::Value<'a>, depth: usize, limits: &mut Limits, reader: &mut Reader<'a>) -> Option<Node<'a>> {
    let span = value.start()..value.end();
    limits.allow(depth, matches!(value, ast::Value::Object(_)), &span, reader)?;
    let value = match value {
        ast::Value::StringLit(text) => Value::Text(text.value),
        ast::Value::NumberLit(number) if number.value.contains(['.', 'e', 'E']) => Value::Decimal(number.value),
        ast::Value::NumberLit(number) => Value::Integer(number.value),
        ast::Value::BooleanLit(boolean) => Value::Boolean(boolean.value),
        ast::Value::NullKeyword(_) => Value::Null,
        ast::Value::Array(array) => {
            let items = array.elements.into_iter().map(|item| node(item, depth + 1, limits, reader));
            Value::Array(items.collect::<Option<_>>()?)
        }
        ast::Value::Object(object) => Value::Table(entries(object, depth, limits, reader)?),
    };
    Some(Node { value, span })
}

fn entries<'a>(
    object: ast::Object<'a>,
    depth: usize,
    limits: &mut Limits,
    reader: &mut Reader<'a>,
) -> Option<Vec<Entry<'a>>> {
    let mut seen = HashSet::new();
    let mut entries = Vec::with_capacity(object.properties.len());
    for property in object.properties {
        let (key, key_span) = match property.name {
            ast::ObjectPropName::String(name) => (name.value, name.range.start..name.range.end),
            ast::ObjectPropName::Word(name) => (name.value.into(), name.range.start..name.range.end),
        };
        if !seen.insert(key.clone()) {
            let at = reader.place(key_span.start);
            reader.note(Problem::DuplicateField { at, field: key.to_string() });
        }
        entries.push(Entry { key, key_span, node: node(property.value, depth + 1, limits, reader)? });
    }
    Some(entries)
}
