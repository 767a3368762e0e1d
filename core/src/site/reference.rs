//! The printed reference of the description: every record and every field.

use std::fmt::Write;

use super::form::Form;
use super::record::{Field, RecordInfo};
use super::records::Document;

/// The reference of the description as Markdown: every record with its fields, whether they are required, and what
/// they take. It is printed from what reads the documents, so that the two cannot differ.
#[must_use]
pub fn reference() -> String {
    let mut out = String::new();
    let mut records: Vec<&'static RecordInfo> = vec![Document::INFO];
    let mut next = 0;
    while let Some(record) = records.get(next).copied() {
        for field in record.fields {
            if let Some(inner) = (field.form)().record
                && records.iter().all(|known| !std::ptr::eq(*known, inner))
            {
                records.push(inner);
            }
        }
        // Writing to a text cannot fail.
        let _ = write_record(&mut out, record);
        next += 1;
    }
    out
}

fn write_record(out: &mut String, record: &RecordInfo) -> std::fmt::Result {
    if !out.is_empty() {
        writeln!(out)?;
    }
    writeln!(out, "## {}\n\n{}\n", title(record), prose(record.about))?;
    writeln!(out, "| field | required | takes | meaning |\n| --- | --- | --- | --- |")?;
    record.fields.iter().try_for_each(|field| write_field(out, field))
}

fn write_field(out: &mut String, field: &Field) -> std::fmt::Result {
    let form = (field.form)();
    let required = if field.required { "yes" } else { "no" };
    writeln!(out, "| `{}` | {required} | {} | {} |", field.name, takes(&form), prose(field.about))
}

fn takes(form: &Form) -> String {
    if let Some(record) = form.record {
        return format!("{}: see {}", form.wanted, title(record));
    }
    if form.words.is_empty() {
        return form.wanted.clone();
    }
    form.words.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ")
}

/// `a site description` as a heading.
fn title(record: &RecordInfo) -> String {
    let noun = record.a_record.trim_start_matches("an ").trim_start_matches("a ");
    let mut title = noun.to_owned();
    if let Some(first) = title.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    title
}

/// Documentation lines as one paragraph.
fn prose(lines: &[&str]) -> String {
    lines.iter().map(|line| line.trim()).collect::<Vec<_>>().join(" ")
}
