//! `table`: the published tables, to be held beside the printed page.

use std::fmt::{self, Write as _};
use std::io::Write;

use serde::Serialize;

use super::Status;
use super::options::{self, Problem};
use super::output::Output;
use crate::code::{Code, Nec};
use crate::published::{Grade, Row, Table, TableId, Text};
use crate::trade::nearest;

/// The options of `table`.
#[derive(clap::Args)]
pub(super) struct Arguments {
    /// The name of a table; without it all are listed
    name: Option<String>,
    /// The edition whose numbers are shown: nec-2017, nec-2020 or nec-2023
    #[arg(long)]
    edition: Option<String>,
    /// How to print: text with the grade beside each cell, csv as the file is carried, json
    #[arg(long, default_value = "text")]
    format: Format,
}

#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum Format {
    /// For a person to read
    Text,
    /// The file as it is carried
    Csv,
    /// For a program
    Json,
}

pub(super) fn run(arguments: &Arguments, out: &mut Output<impl Write>) -> Result<Status, Problem> {
    let code = Nec::standard(options::edition(arguments.edition.as_ref())?);
    let Some(name) = &arguments.name else {
        let listed: Vec<Listed> = TableId::ALL.iter().map(|id| Listed::of(*id, code)).collect::<Result<_, _>>()?;
        match arguments.format {
            Format::Text => out.write(&list(&listed, code)),
            Format::Json => write_json(&listed, out)?,
            Format::Csv => return Err(Problem::at("format", "csv prints one table; name it, or use text or json")),
        }
        return Ok(Status::Answered);
    };
    let id = find(name)?;
    match arguments.format {
        Format::Csv => out.write(id.text()),
        Format::Json => write_json(&Printed::of(load(id)?, code), out)?,
        Format::Text => {
            let mut text = String::new();
            // A `String` takes whatever is written to it.
            let _ = print(load(id)?, code, &mut text);
            out.write(&text);
        }
    }
    Ok(Status::Answered)
}

/// The name that finds a table again: its file where two share the last part.
fn name(id: TableId) -> &'static str {
    let shared = TableId::ALL.iter().filter(|other| other.name() == id.name()).count() > 1;
    if shared { id.path() } else { id.name() }
}

fn find(text: &str) -> Result<TableId, Problem> {
    let found = TableId::ALL.iter().find(|id| name(**id) == text || id.path() == text);
    found.copied().ok_or_else(|| {
        let shown: String = text.chars().take(60).collect();
        let advice = match nearest(&shown, TableId::ALL.iter().map(|id| name(*id))) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "`table` lists them".to_owned(),
        };
        Problem(format!("there is no table `{shown}`; {advice}"))
    })
}

fn load(id: TableId) -> Result<&'static Table, Problem> {
    id.load().map_err(|error| Problem(error.to_string()))
}

fn number(id: TableId, code: &Nec) -> Option<String> {
    code.number(id).map(str::to_owned)
}

fn write_json(what: &impl Serialize, out: &mut Output<impl Write>) -> Result<(), Problem> {
    let text = serde_json::to_string_pretty(what)
        .map_err(|error| Problem(format!("the answer could not be written: {error}")))?;
    out.write(&text);
    out.write("\n");
    Ok(())
}

/// A table in the list.
#[derive(Serialize)]
struct Listed {
    name: &'static str,
    title: &'static str,
    edition: &'static str,
    /// How the edition numbers it.
    number: Option<String>,
    /// How many cells there are of each grade, by its mark.
    cells: Vec<Graded>,
}

#[derive(Serialize)]
struct Graded {
    grade: char,
    meaning: &'static str,
    cells: usize,
}

impl Listed {
    fn of(id: TableId, code: &Nec) -> Result<Self, Problem> {
        let table = load(id)?;
        let grades = || table.rows.iter().flat_map(|row| columns(table).filter_map(|column| row.grade(column)));
        let cells = Grade::ALL.into_iter().filter_map(|grade| {
            let cells = grades().filter(|found| *found == grade).count();
            (cells > 0).then_some(Graded { grade: grade.mark(), meaning: grade.words(), cells })
        });
        Ok(Self {
            name: name(id),
            title: table.title,
            edition: code.id(),
            number: number(id, code),
            cells: cells.collect(),
        })
    }
}

fn columns(table: &Table) -> std::ops::Range<u16> {
    0..u16::try_from(table.columns.len()).unwrap_or(u16::MAX)
}

fn list(listed: &[Listed], code: &Nec) -> String {
    let mut out = format!("Tables by {}\n", code.title());
    let width = listed.iter().map(|table| table.name.len()).max().unwrap_or(0);
    for table in listed {
        let cells: Vec<String> =
            table.cells.iter().map(|graded| format!("{} [{}]", graded.cells, graded.grade)).collect();
        let number = table.number.as_deref().map_or_else(String::new, |number| format!("{number}; "));
        let _ = writeln!(out, "{:width$}  {}", table.name, table.title);
        let _ = writeln!(out, "{:width$}  {number}cells: {}", "", cells.join(", "));
    }
    let _ = legend(&mut out);
    out
}

fn legend(out: &mut String) -> fmt::Result {
    let marks: Vec<String> = Grade::ALL.iter().map(|grade| format!("[{}] {}", grade.mark(), grade.words())).collect();
    writeln!(out, "grades: {}", marks.join("; "))
}

/// One table for a program.
#[derive(Serialize)]
struct Printed<'a> {
    name: &'static str,
    title: &'a str,
    document: &'a str,
    edition: &'static str,
    number: Option<String>,
    editions: &'a str,
    base: Option<&'a str>,
    sources: &'a [&'a str],
    notes: &'a [&'a str],
    columns: &'a [Text],
    rows: Vec<PrintedRow<'a>>,
    grades: Vec<(char, &'static str)>,
}

#[derive(Serialize)]
struct PrintedRow<'a> {
    cells: &'a [Text],
    /// The mark of each cell's grade; null for a heading and for a blank cell.
    grades: Vec<Option<char>>,
}

impl<'a> Printed<'a> {
    fn of(table: &'a Table, code: &Nec) -> Self {
        let row = |row: &'a Row| PrintedRow {
            cells: row.cells(),
            grades: columns(table).map(|column| row.grade(column).map(Grade::mark)).collect(),
        };
        Self {
            name: name(table.id),
            title: table.title,
            document: table.document,
            edition: code.id(),
            number: number(table.id, code),
            editions: table.editions,
            base: table.base,
            sources: &table.sources,
            notes: &table.notes,
            columns: &table.columns,
            rows: table.rows.iter().map(row).collect(),
            grades: Grade::ALL.map(|grade| (grade.mark(), grade.words())).to_vec(),
        }
    }
}

fn print(table: &Table, code: &Nec, out: &mut String) -> fmt::Result {
    writeln!(out, "{}", table.title)?;
    writeln!(out, "{}; in {}: {}", table.document, code.id(), code.number(table.id).unwrap_or("not numbered"))?;
    writeln!(out, "editions: {}", table.editions)?;
    if let Some(base) = table.base {
        writeln!(out, "base: {base}")?;
    }
    writeln!(out)?;
    grid(table, out)?;
    writeln!(out)?;
    legend(out)?;
    for source in &table.sources {
        writeln!(out, "source: {source}")?;
    }
    for note in &table.notes {
        writeln!(out, "note: {note}")?;
    }
    Ok(())
}

/// The rows, aligned; a heading is broken at its underscores, as a printed table stacks its words. A wide table is
/// folded into blocks that begin with its first column.
fn grid(table: &Table, out: &mut String) -> fmt::Result {
    const WIDEST: usize = 110;
    let headings: Vec<Vec<&str>> = table.columns.iter().map(|name| name.split('_').collect()).collect();
    let row = |row| columns(table).map(|column| cell(row, column)).collect();
    let cells: Vec<Vec<String>> = table.rows.iter().map(row).collect();
    let widths: Vec<usize> = (0..headings.len()).map(|column| width(&headings, &cells, column)).collect();
    let mut block: Vec<usize> = vec![0];
    let mut wide = widths.first().copied().unwrap_or(0);
    for (column, width) in widths.iter().enumerate().skip(1) {
        if wide + 2 + width > WIDEST && block.len() > 1 {
            print_block(&block, &headings, &cells, &widths, out)?;
            writeln!(out)?;
            block.truncate(1);
            wide = widths.first().copied().unwrap_or(0);
        }
        block.push(column);
        wide += 2 + width;
    }
    print_block(&block, &headings, &cells, &widths, out)
}

fn width(headings: &[Vec<&str>], cells: &[Vec<String>], column: usize) -> usize {
    let words = headings.get(column).into_iter().flatten().map(|word| word.chars().count());
    let texts = cells.iter().filter_map(|row| row.get(column)).map(|text| text.chars().count());
    words.chain(texts).max().unwrap_or(0)
}

fn print_block(
    block: &[usize],
    headings: &[Vec<&str>],
    cells: &[Vec<String>],
    widths: &[usize],
    out: &mut String,
) -> fmt::Result {
    let heading = |column: &usize| headings.get(*column).map(Vec::as_slice).unwrap_or_default();
    let widths: Vec<usize> = block.iter().filter_map(|column| widths.get(*column)).copied().collect();
    let depth = block.iter().map(|column| heading(column).len()).max().unwrap_or(0);
    for level in 0..depth {
        // Stacked from below, so that the unit stands just above the figures.
        let words = block.iter().map(heading);
        let at_level = words.map(|words| (level + words.len()).checked_sub(depth).and_then(|at| words.get(at)));
        line(at_level.map(|word| word.copied().unwrap_or("")), &widths, out)?;
    }
    line(widths.iter().map(|width| "-".repeat(*width)), &widths, out)?;
    for row in cells {
        line(block.iter().map(|column| row.get(*column).map_or("", String::as_str)), &widths, out)?;
    }
    Ok(())
}

fn line<T: AsRef<str>>(texts: impl Iterator<Item = T>, widths: &[usize], out: &mut String) -> fmt::Result {
    let mut line = String::new();
    for (text, width) in texts.zip(widths) {
        write!(line, "{:width$}  ", text.as_ref())?;
    }
    writeln!(out, "{}", line.trim_end())
}

fn cell(row: &Row, column: u16) -> String {
    let text = row.cell(column).unwrap_or("");
    match row.grade(column) {
        Some(grade) => format!("{text} [{}]", grade.mark()),
        None => text.to_owned(),
    }
}
