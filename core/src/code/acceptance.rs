//! Cells that the user, book in hand, accepts although their grade is too low to rest on.

use serde::Deserialize;

use crate::published::{CellPlace, Grade, TableId};

/// Which cells an answer may rest on: all of a least grade, and those that the user has read in the book.
///
/// ```
/// # use loadworthy::code::Acceptance;
/// let text = r#"
/// [[cell]]
/// table = "ampacity-free-air"
/// row = "10 AWG"
/// column = "copper_75c_a"
/// value = "50"
/// read_by = "A. Reader, NEC 2023, Table 310.17"
/// "#;
/// assert_eq!(Acceptance::from_toml(text)?.cells().len(), 1);
/// # Ok::<(), loadworthy::code::AcceptanceError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Acceptance {
    least: Grade,
    cells: Vec<CellPlace>,
}

/// What is wrong with a file of accepted cells.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum AcceptanceError {
    /// Not TOML of the documented form.
    #[error("accepted cells: {0}")]
    Form(String),
    /// No such cell.
    #[error("accepted cell {number}: there is no {what} `{found}` in table `{table}`; see `table {table}`")]
    NoSuchCell {
        /// The number of the entry, from 1.
        number: usize,
        /// What was looked for: row or column.
        what: &'static str,
        /// What was written.
        found: String,
        /// The table.
        table: String,
    },
    /// No such table.
    #[error("accepted cell {number}: there is no table `{found}`; see `table`")]
    NoSuchTable {
        /// The number of the entry, from 1.
        number: usize,
        /// What was written.
        found: String,
    },
    /// The book says another value than the table that is carried.
    #[error(
        "accepted cell {number}: the book reads `{read}` where table `{table}` carries `{carried}`; \
         do not use the table and report the difference"
    )]
    Differs {
        /// The number of the entry, from 1.
        number: usize,
        /// The table.
        table: String,
        /// What the user read.
        read: String,
        /// What the table carries.
        carried: String,
    },
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    cell: Vec<Entry>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Entry {
    table: String,
    row: String,
    column: String,
    value: String,
    /// Who read it where: kept in the file for those who come after.
    #[serde(rename = "read_by")]
    _read_by: String,
}

impl Default for Acceptance {
    fn default() -> Self {
        Self { least: Grade::Calculated, cells: Vec::new() }
    }
}

impl Acceptance {
    /// Everything from `least` up, and no single cells.
    #[must_use]
    pub fn of_grade(least: Grade) -> Self {
        Self { least, cells: Vec::new() }
    }

    /// Reads `[[cell]]` entries, each with table, row, column, the value as the book prints it, and who read it where.
    ///
    /// # Errors
    /// The first entry that names no cell of ours, or whose value differs from ours.
    pub fn from_toml(text: &str) -> Result<Self, AcceptanceError> {
        let file: File = toml::from_str(text).map_err(|error| AcceptanceError::Form(error.to_string()))?;
        let mut acceptance = Self::default();
        for (number, entry) in (1..).zip(&file.cell) {
            acceptance.cells.push(entry.place(number)?);
        }
        Ok(acceptance)
    }

    /// The cells accepted one by one.
    #[must_use]
    pub fn cells(&self) -> &[CellPlace] {
        &self.cells
    }

    /// Whether an answer may rest on a cell.
    #[must_use]
    pub fn admits(&self, place: CellPlace, grade: Grade) -> bool {
        grade <= self.least || self.cells.contains(&place)
    }
}

impl Entry {
    fn place(&self, number: usize) -> Result<CellPlace, AcceptanceError> {
        let no_such = |what, found: &str| AcceptanceError::NoSuchCell {
            number,
            what,
            found: found.to_owned(),
            table: self.table.clone(),
        };
        // Two tables may share the last part of their names; then only the whole path says which is meant.
        let named: Vec<&TableId> =
            TableId::ALL.iter().filter(|id| id.name() == self.table || id.path() == self.table).collect();
        let [id] = named[..] else {
            return Err(AcceptanceError::NoSuchTable { number, found: self.table.clone() });
        };
        let table = id.load().map_err(|error| AcceptanceError::Form(error.to_string()))?;
        let column = table.column(&self.column).ok_or_else(|| no_such("column", &self.column))?;
        let row = (0..)
            .zip(&table.rows)
            .find(|(_, row)| row.cell(0) == Some(self.row.as_str()))
            .map(|(index, _)| index)
            .ok_or_else(|| no_such("row", &self.row))?;
        let place = CellPlace { table: *id, row, column };
        if place.text() == self.value {
            Ok(place)
        } else {
            Err(AcceptanceError::Differs {
                number,
                table: self.table.clone(),
                read: self.value.clone(),
                carried: place.text().to_owned(),
            })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(table: &str, row: &str, column: &str, value: &str) -> Result<Acceptance, String> {
        let text = format!(
            "[[cell]]\ntable = \"{table}\"\nrow = \"{row}\"\ncolumn = \"{column}\"\nvalue = \"{value}\"\nread_by = \"me\"\n"
        );
        Acceptance::from_toml(&text).map_err(|error| error.to_string())
    }

    #[test]
    fn a_cell_is_accepted_by_the_value_in_the_book() {
        assert_eq!(file("ampacity-free-air", "10 AWG", "copper_75c_a", "50").unwrap().cells().len(), 1);
        assert_eq!(
            file("ampacity-free-air", "10 AWG", "copper_75c_a", "55").unwrap_err(),
            "accepted cell 1: the book reads `55` where table `ampacity-free-air` carries `50`; \
             do not use the table and report the difference"
        );
        assert_eq!(
            file("ampacity-free-air", "11 AWG", "copper_75c_a", "55").unwrap_err(),
            "accepted cell 1: there is no row `11 AWG` in table `ampacity-free-air`; see `table ampacity-free-air`"
        );
        assert!(file("ampacity-in-space", "10 AWG", "copper_75c_a", "50").unwrap_err().contains("no table"));
        assert!(Acceptance::from_toml("cell = 3").is_err());
    }
}
