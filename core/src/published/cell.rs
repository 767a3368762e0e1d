//! A value taken from a table, together with where it stands.

use super::{Grade, Table, TableId};

/// The place of a cell: small enough to travel with a value for nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CellPlace {
    /// The table.
    pub table: TableId,
    /// The row, counted from 0 below the heading.
    pub row: u16,
    /// The column, counted from 0.
    pub column: u16,
}

/// A value with its place and its grade.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell<T> {
    /// What the cell says.
    pub value: T,
    /// Where it stands.
    pub place: CellPlace,
    /// How well it is witnessed.
    pub grade: Grade,
}

impl<T> Cell<T> {
    /// The same place with another reading of the value.
    pub fn map<U>(self, read: impl FnOnce(T) -> U) -> Cell<U> {
        Cell { value: read(self.value), place: self.place, grade: self.grade }
    }
}

impl CellPlace {
    /// The table that the cell stands in.
    #[must_use]
    pub fn table(self) -> Option<&'static Table> {
        self.table.load().ok()
    }

    /// The text of the cell.
    #[must_use]
    pub fn text(self) -> &'static str {
        self.table().and_then(|table| table.cell(self.row, self.column)).unwrap_or("")
    }

    /// The heading of the row: its first column.
    #[must_use]
    pub fn row_heading(self) -> &'static str {
        self.table().and_then(|table| table.cell(self.row, 0)).unwrap_or("")
    }

    /// The heading of the column, in words.
    #[must_use]
    pub fn column_heading(self) -> String {
        let name = self.table().and_then(|table| table.columns.get(usize::from(self.column)));
        name.map_or_else(String::new, |name| name.replace('_', " "))
    }
}
