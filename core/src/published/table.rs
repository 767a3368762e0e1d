//! One published table, read from its CSV file.

use std::sync::{LazyLock, Mutex, MutexGuard, PoisonError};

use super::{Grade, TableId};

/// A published table: what its `#` lines say, its columns and its rows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// Which table it is.
    pub id: TableId,
    /// What it gives.
    pub title: String,
    /// The document that it is printed in.
    pub document: String,
    /// Which editions print it, and under which number.
    pub editions: String,
    /// The conditions that its values hold for.
    pub base: Option<String>,
    /// Where the values were read.
    pub sources: Vec<String>,
    /// Footnotes and doubts.
    pub notes: Vec<String>,
    /// The names of the columns, without the last one that holds the grades.
    pub columns: Vec<String>,
    /// The rows in printed order.
    pub rows: Vec<Row>,
}

/// A row of a published table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Its line in the file, counted from 1.
    pub line: u64,
    cells: Vec<String>,
    grades: Vec<Option<Grade>>,
}

/// The records of a CSV file with their lines.
struct Records<'a> {
    reader: MutexGuard<'static, csv_core::Reader>,
    input: &'a [u8],
    cell: Vec<u8>,
}

/// One reader for all tables: building its automaton costs more than reading a table with it. It is reset, not
/// cloned, since a clone of csv-core 0.1.13 loses its classes of bytes.
static READER: LazyLock<Mutex<csv_core::Reader>> =
    LazyLock::new(|| Mutex::new(csv_core::ReaderBuilder::new().comment(Some(b'#')).build()));

impl<'a> Records<'a> {
    fn of(text: &'a str) -> Self {
        // A reader left behind by a panic is as good as new once it is reset.
        let mut reader = READER.lock().unwrap_or_else(PoisonError::into_inner);
        reader.reset();
        reader.set_line(1);
        // A cell is never longer than the file.
        Self { reader, input: text.as_bytes(), cell: vec![0; text.len() + 1] }
    }
}

impl Iterator for Records<'_> {
    type Item = (u64, Vec<String>);

    fn next(&mut self) -> Option<Self::Item> {
        let mut cells = Vec::new();
        let (mut line, mut used) = (self.reader.line(), 0);
        loop {
            let (result, read, written) = self.reader.read_field(self.input, self.cell.get_mut(used..)?);
            self.input = self.input.get(read..)?;
            used += written;
            match result {
                csv_core::ReadFieldResult::InputEmpty => {}
                csv_core::ReadFieldResult::OutputFull | csv_core::ReadFieldResult::End => return None,
                csv_core::ReadFieldResult::Field { record_end } => {
                    if cells.is_empty() {
                        line = self.reader.line() - u64::from(record_end);
                    }
                    cells.push(String::from_utf8_lossy(self.cell.get(..used)?).into_owned());
                    used = 0;
                    if record_end {
                        return Some((line, cells));
                    }
                }
            }
        }
    }
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
    pub fn parse(id: TableId, text: &str) -> Result<Self, TableError> {
        let file = id.path();
        let mut table = Self {
            id,
            title: String::new(),
            document: String::new(),
            editions: String::new(),
            base: None,
            sources: Vec::new(),
            notes: Vec::new(),
            columns: Vec::new(),
            rows: Vec::new(),
        };
        let mut graded = None;
        for (number, line) in (1..).zip(text.lines()) {
            let Some(comment) = line.strip_prefix('#') else {
                continue;
            };
            let (key, value) = comment.split_once(':').unwrap_or((comment, ""));
            let value = value.trim().to_owned();
            match key.trim() {
                "title" => table.title = value,
                "document" => table.document = value,
                "editions" => table.editions = value,
                "base" => table.base = Some(value),
                "source" => table.sources.push(value),
                "note" => table.notes.push(value),
                "graded" => graded = Some(value),
                other => {
                    return Err(TableError::Form { file, line: number, message: format!("unknown key `{other}`") });
                }
            }
        }
        let mut records = Records::of(text);
        let mut columns = records.next().map(|(_, cells)| cells).unwrap_or_default();
        if columns.pop().as_deref() != Some("grade") {
            return Err(TableError::Form { file, line: 1, message: "the last column is not `grade`".to_owned() });
        }
        table.columns = columns;
        for (line, mut cells) in records {
            let marks = cells.pop().unwrap_or_default();
            if cells.len() != table.columns.len() {
                let message = format!("{} cells for {} columns", cells.len(), table.columns.len());
                return Err(TableError::Form { file, line, message });
            }
            let grades = table.grades(&marks, &cells, graded.as_deref()).map_err(|message| TableError::Form {
                file,
                line,
                message,
            })?;
            table.rows.push(Row { line, cells, grades });
        }
        Ok(table)
    }

    /// Spreads the marks of a row over its columns: over those that `# graded:` names, else over the last ones.
    fn grades(&self, marks: &str, cells: &[String], graded: Option<&str>) -> Result<Vec<Option<Grade>>, String> {
        let mut grades = vec![None; cells.len()];
        let marks: Vec<char> = marks.chars().collect();
        let places: Vec<usize> = match graded {
            Some(names) => names
                .split(',')
                .map(|name| self.column(name.trim()).map(usize::from).ok_or_else(|| format!("no column `{name}`")))
                .collect::<Result<_, _>>()?,
            None => (cells.len().saturating_sub(marks.len())..cells.len()).collect(),
        };
        let whole_row = marks.len() == 1;
        if !whole_row && places.len() != marks.len() {
            return Err(format!("{} grades for {} columns", marks.len(), places.len()));
        }
        for (index, place) in places.iter().enumerate() {
            let mark = if whole_row { marks.first() } else { marks.get(index) }.copied().unwrap_or('?');
            let blank = cells.get(*place).is_none_or(String::is_empty);
            let grade = Grade::of_mark(mark);
            if grade.is_none() && mark != '-' || !whole_row && grade.is_none() != blank {
                return Err(format!("grade `{mark}` does not fit column {}", place + 1));
            }
            if let Some(slot) = grades.get_mut(*place) {
                *slot = grade.filter(|_| !blank);
            }
        }
        Ok(grades)
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
        self.cells.get(usize::from(column)).map(String::as_str)
    }

    /// The grade of a cell of this row; `None` for a blank cell and for a heading.
    #[must_use]
    pub fn grade(&self, column: u16) -> Option<Grade> {
        self.grades.get(usize::from(column)).copied().flatten()
    }

    /// The cells in order.
    #[must_use]
    pub fn cells(&self) -> &[String] {
        &self.cells
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const GOOD: &str = "# title: T\n# source: S\nkey,a_a,b_a,grade\nx,1,2,2m\ny,\"3\",,1-\n";

    fn parse(text: &str) -> Result<Table, String> {
        Table::parse(TableId::Sections, text).map_err(|error| error.to_string())
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
