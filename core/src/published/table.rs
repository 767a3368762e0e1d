//! One published table, read from its CSV file.

use std::borrow::Cow;

use super::{Grade, TableId};

/// A published table: what its `#` lines say, its columns and its rows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// Which table it is.
    pub id: TableId,
    /// What it gives.
    pub title: &'static str,
    /// The document that it is printed in.
    pub document: &'static str,
    /// Which editions print it, and under which number.
    pub editions: &'static str,
    /// The conditions that its values hold for.
    pub base: Option<&'static str>,
    /// Where the values were read.
    pub sources: Vec<&'static str>,
    /// Footnotes and doubts.
    pub notes: Vec<&'static str>,
    /// The names of the columns, without the last one that holds the grades.
    pub columns: Vec<Text>,
    /// The rows in printed order.
    pub rows: Vec<Row>,
}

/// A row of a published table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Its line in the file, counted from 1.
    pub line: u64,
    cells: Vec<Text>,
    grades: Vec<Option<Grade>>,
}

/// The text of a cell: a piece of its file, but where a quotation had to be undone.
pub type Text = Cow<'static, str>;

/// The cells of a line that is no comment. Quotations are rare, so only lines that have any are left to a reader of them.
fn cells(line: &'static str) -> Vec<Text> {
    if line.bytes().any(|byte| byte == b'"') {
        return quoted(line);
    }
    // Cells are short: looking at each byte finds their ends sooner than a search that prepares itself for long texts.
    let mut cells = Vec::with_capacity(16);
    let mut rest = line;
    while let Some((cell, after)) = rest.bytes().position(|byte| byte == b',').and_then(|at| rest.split_at_checked(at))
    {
        cells.push(Cow::Borrowed(cell));
        rest = after.get(1..).unwrap_or_default();
    }
    cells.push(Cow::Borrowed(rest));
    cells
}

fn quoted(line: &str) -> Vec<Text> {
    let line = [line, "\n"].concat();
    let (mut reader, mut input, mut cells) = (csv_core::Reader::new(), line.as_bytes(), Vec::new());
    // A cell is never longer than its line.
    let mut cell = vec![0; line.len()];
    while let (csv_core::ReadFieldResult::Field { record_end }, read, written) = reader.read_field(input, &mut cell) {
        input = input.get(read..).unwrap_or_default();
        cells.push(String::from_utf8_lossy(cell.get(..written).unwrap_or_default()).into_owned().into());
        if record_end {
            break;
        }
    }
    cells
}

/// What is wrong with a file of a published table.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum TableError {
    /// A heading or grade that does not fit.
    #[error("{file}.csv:{line}: {message}")]
    Form {
        /// The file.
        file: &'static str,
        /// The line, counted from 1.
        line: u64,
        /// What is wrong.
        message: String,
    },
    /// No such table.
    #[error("the table is not carried")]
    NotCarried,
}

impl Table {
    /// Reads a table from the text of its CSV file.
    ///
    /// # Errors
    /// Where the CSV is not well formed, a `#` line has an unknown key, or a row's grades do not fit its columns.
    pub fn parse(id: TableId, text: &'static str) -> Result<Self, TableError> {
        let file = id.path();
        let mut table = Self {
            id,
            title: "",
            document: "",
            editions: "",
            base: None,
            sources: Vec::new(),
            notes: Vec::new(),
            columns: Vec::new(),
            rows: Vec::new(),
        };
        let (mut graded, mut places) = (None, None);
        for (number, line) in (1..).zip(text.lines()) {
            let wrong = |message| TableError::Form { file, line: number, message };
            if let Some(comment) = line.strip_prefix('#') {
                let (key, value) = comment.split_once(':').unwrap_or((comment, ""));
                let value = value.trim();
                match key.trim() {
                    "title" => table.title = value,
                    "document" => table.document = value,
                    "editions" => table.editions = value,
                    "base" => table.base = Some(value),
                    "source" => table.sources.push(value),
                    "note" => table.notes.push(value),
                    "graded" => graded = Some(value),
                    other => return Err(wrong(format!("unknown key `{other}`"))),
                }
                continue;
            }
            if line.is_empty() {
                continue;
            }
            let mut cells = cells(line);
            let marks = cells.pop().unwrap_or_default();
            let Some(places) = &places else {
                if marks != "grade" {
                    return Err(wrong("the last column is not `grade`".to_owned()));
                }
                table.columns = cells;
                places = Some(graded.map(|names| table.places(names)).transpose().map_err(wrong)?);
                continue;
            };
            if cells.len() != table.columns.len() {
                return Err(wrong(format!("{} cells for {} columns", cells.len(), table.columns.len())));
            }
            let grades = grades(&marks, &cells, places.as_deref()).map_err(wrong)?;
            table.rows.push(Row { line: number, cells, grades });
        }
        match places {
            Some(_) => Ok(table),
            None => Err(TableError::Form { file, line: 1, message: "the last column is not `grade`".to_owned() }),
        }
    }

    /// The columns that `# graded:` names.
    fn places(&self, names: &str) -> Result<Vec<usize>, String> {
        let place = |name: &str| self.column(name).map(usize::from).ok_or_else(|| format!("no column `{name}`"));
        names.split(',').map(|name| place(name.trim())).collect()
    }

    /// The index of a column.
    #[must_use]
    pub fn column(&self, name: &str) -> Option<u16> {
        self.columns.iter().position(|column| column == name).and_then(|index| u16::try_from(index).ok())
    }

    /// The text of a cell; `None` outside the table.
    #[must_use]
    pub fn cell(&self, row: u16, column: u16) -> Option<&str> {
        self.rows.get(usize::from(row))?.cell(column)
    }
}

impl Row {
    /// The text of a cell of this row; `None` beyond the last column.
    #[must_use]
    pub fn cell(&self, column: u16) -> Option<&str> {
        self.cells.get(usize::from(column)).map(|text| &**text)
    }

    /// The grade of a cell of this row; `None` for a blank cell and for a heading.
    #[must_use]
    pub fn grade(&self, column: u16) -> Option<Grade> {
        self.grades.get(usize::from(column)).copied().flatten()
    }

    /// The cells in order.
    #[must_use]
    pub fn cells(&self) -> &[Text] {
        &self.cells
    }
}

/// Spreads the marks of a row over its columns: over those that are graded, else over the last ones.
fn grades(marks: &str, cells: &[Text], graded: Option<&[usize]>) -> Result<Vec<Option<Grade>>, String> {
    let mut grades = vec![None; cells.len()];
    let count = marks.chars().count();
    let first = cells.len().saturating_sub(count);
    let places = graded.map_or(cells.len() - first, <[usize]>::len);
    let whole_row = count == 1;
    if !whole_row && places != count {
        return Err(format!("{count} grades for {places} columns"));
    }
    // A single mark is that of every place.
    for (index, mark) in (0..places).zip(marks.chars().cycle()) {
        let place = graded.map_or(Some(first + index), |graded| graded.get(index).copied()).unwrap_or_default();
        let blank = cells.get(place).is_none_or(|text| text.is_empty());
        let grade = Grade::of_mark(mark);
        if grade.is_none() && mark != '-' || !whole_row && grade.is_none() != blank {
            return Err(format!("grade `{mark}` does not fit column {}", place + 1));
        }
        if let Some(slot) = grades.get_mut(place) {
            *slot = grade.filter(|_| !blank);
        }
    }
    Ok(grades)
}

#[cfg(test)]
mod tests {
    use super::*;

    const GOOD: &str = "# title: T\n# source: S\nkey,a_a,b_a,grade\nx,1,2,2m\ny,\"3\",,1-\n";

    fn parse(text: &str) -> Result<Table, String> {
        Table::parse(TableId::Sections, text.to_owned().leak()).map_err(|error| error.to_string())
    }

    #[test]
    fn rows_keep_their_lines_and_grades() {
        let table = parse(GOOD).unwrap();
        assert_eq!(table.columns, ["key", "a_a", "b_a"]);
        let lines: Vec<u64> = table.rows.iter().map(|row| row.line).collect();
        assert_eq!(lines, [4, 5]);
        assert_eq!(table.cell(1, 1), Some("3"));
        assert_eq!((table.rows[0].grade(1), table.rows[0].grade(2)), (Some(Grade::TwoSources), Some(Grade::Memory)));
        assert_eq!((table.rows[1].grade(0), table.rows[1].grade(2)), (None, None));
    }

    #[test]
    fn every_carried_cell_is_what_a_reader_of_csv_makes_of_it() {
        for id in TableId::ALL {
            let mut reader =
                csv::ReaderBuilder::new().comment(Some(b'#')).has_headers(false).from_reader(id.text().as_bytes());
            let records: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
            let table = id.load().unwrap();
            let own = std::iter::once((&table.columns[..], None))
                .chain(table.rows.iter().map(|row| (row.cells(), Some(row.line))));
            let own: Vec<_> = own.collect();
            assert_eq!(own.len(), records.len(), "{}", id.path());
            for (record, (cells, line)) in records.iter().zip(own) {
                let read: Vec<&str> = record.iter().take(record.len() - 1).collect();
                assert_eq!(cells, read, "{}", id.path());
                assert!(
                    line.is_none_or(|line| Some(line) == record.position().map(csv::Position::line)),
                    "{}",
                    id.path()
                );
            }
        }
    }

    #[test]
    fn a_quotation_is_undone() {
        let quoted = parse("# title: T\nkey,a_a,grade\n\"x, \"\"y\"\"\",1,2\n").unwrap();
        assert_eq!((quoted.cell(0, 0), quoted.cell(0, 1)), (Some("x, \"y\""), Some("1")));
    }

    #[test]
    fn what_is_wrong_names_the_line() {
        assert_eq!(
            parse(&GOOD.replace("1-", "11")).unwrap_err(),
            "nec/sections.csv:5: grade `1` does not fit column 3"
        );
        assert_eq!(parse(&GOOD.replace("# title", "# titel")).unwrap_err(), "nec/sections.csv:1: unknown key `titel`");
        assert_eq!(parse(&GOOD.replace("x,1,2", "x,1")).unwrap_err(), "nec/sections.csv:4: 2 cells for 3 columns");
        assert!(parse("").unwrap_err().contains("the last column is not `grade`"));
    }
}
