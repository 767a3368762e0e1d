//! TOML text to a tree.

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::{Entry, Limits, Node, Value, one_line};
use crate::site::problem::Problem;
use crate::site::reader::Reader;

pub(super) fn parse<'a>(text: &'a str, reader: &mut Reader<'a>) -> Option<Node<'a>> {
    let (table, errors) = DeTable::parse_recoverable(text);
    if !errors.is_empty() {
        for error in errors {
            let at = reader.place(error.span().map_or(0, |span| span.start));
            reader.note(Problem::Syntax { at, language: "TOML", what: one_line(error.message()) });
        }
        return None;
    }
    let span = table.span();
    let value = table_value(table.into_inner(), text, 1, &mut Limits::new(), reader)?;
    Some(Node { value, span: 0..span.end })
}

fn node<'a>(
    value: Spanned<DeValue<'a>>,
    text: &'a str,
    depth: usize,
    limits: &mut Limits,
    reader: &mut Reader<'a>,
) -> Option<Node<'a>> {
    let span = value.span();
    limits.allow(depth, matches!(value.get_ref(), DeValue::Table(_)), &span, reader)?;
    let written = text.get(span.clone()).unwrap_or_default();
    let value = match value.into_inner() {
        DeValue::String(text) => Value::Text(text),
        DeValue::Integer(_) => Value::Integer(written),
        DeValue::Float(_) => Value::Decimal(written),
        DeValue::Boolean(boolean) => Value::Boolean(boolean),
        DeValue::Datetime(_) => Value::Date,
        DeValue::Array(items) => {
            let items = items.into_iter().map(|item| node(item, text, depth + 1, limits, reader));
            Value::Array(items.collect::<Option<_>>()?)
        }
        DeValue::Table(table) => table_value(table, text, depth + 1, limits, reader)?,
    };
    Some(Node { value, span })
}

fn table_value<'a>(
    table: DeTable<'a>,
    text: &'a str,
    depth: usize,
    limits: &mut Limits,
    reader: &mut Reader<'a>,
) -> Option<Value<'a>> {
    let entries = table.into_iter().map(|(key, value)| {
        let key_span = key.span();
        Some(Entry { key: key.into_inner(), key_span, node: node(value, text, depth, limits, reader)? })
    });
    let mut entries: Vec<Entry<'a>> = entries.collect::<Option<_>>()?;
    // In the order of the document, so that its problems are met in that order.
    entries.sort_by_key(|entry| entry.key_span.start);
    Some(Value::Table(entries))
}
