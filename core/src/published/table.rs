//! One published table, read from its CSV file.

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

/// What is wrong with a file of a published table.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum TableError {
    /// The CSV itself is not well formed.
    #[error("{file}.csv: {message}")]
    Csv {
        /// The file.
        file: &'static str,
        /// What the reader says, with the line.
        message: String,
    },
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
        let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
        let csv_error = |error: csv::Error| TableError::Csv { file, message: error.to_string() };
        let mut columns: Vec<String> = reader.headers().map_err(csv_error)?.iter().map(str::to_owned).collect();
        if columns.pop().as_deref() != Some("grade") {
            return Err(TableError::Form { file, line: 1, message: "the last column is not `grade`".to_owned() });
        }
        table.columns = columns;
        for record in reader.records() {
            let record = record.map_err(csv_error)?;
            let line = record.position().map_or(0, csv::Position::line);
            let mut cells: Vec<String> = record.iter().map(str::to_owned).collect();
            let marks = cells.pop().unwrap_or_default();
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
