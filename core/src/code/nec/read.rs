//! Typed reading of published tables.

use std::str::FromStr;

use crate::code::{Acceptance, Gap, Lookup};
use crate::published::{Cell, CellPlace, Row, Table, TableId};
use crate::quantity::{Amperes, OhmsPerLength, Ratio};
use crate::trade::WireSize;

/// A table that is being read, with the cells that may be rested on.
#[derive(Clone, Copy)]
pub(super) struct Reading<'a> {
    pub(super) id: TableId,
    table: Option<&'static Table>,
    acceptance: &'a Acceptance,
}

impl<'a> Reading<'a> {
    pub(super) fn of(id: TableId, acceptance: &'a Acceptance) -> Self {
        // A file that cannot be read gives no rows, so that every answer is a gap; a test reads every file.
        Self { id, table: id.load().ok(), acceptance }
    }

    /// The rows with their numbers.
    pub(super) fn rows(self) -> impl Iterator<Item = (u16, &'static Row)> {
        (0..).zip(self.table.map(|table| table.rows.as_slice()).unwrap_or_default())
    }

    /// The text of a cell, blank where the table has no such column.
    pub(super) fn text(self, row: &'static Row, column: &str) -> &'static str {
        self.table.and_then(|table| table.column(column)).and_then(|column| row.cell(column)).unwrap_or("")
    }

    /// A cell read by `read`, admitted by its grade.
    pub(super) fn cell<T>(
        self,
        index: u16,
        row: &'static Row,
        column: &str,
        read: impl FnOnce(&str) -> Option<T>,
    ) -> Lookup<T> {
        let Some(column) = self.table.and_then(|table| table.column(column)) else {
            return Err(Gap::Outside(self.id));
        };
        let place = CellPlace { table: self.id, row: index, column };
        let value = row.cell(column).and_then(read).ok_or(Gap::Blank(place))?;
        let grade = row.grade(column).ok_or(Gap::Blank(place))?;
        if self.acceptance.admits(place, grade) {
            Ok(Cell { value, place, grade })
        } else {
            Err(Gap::BelowGrade(place, grade))
        }
    }

    /// The cell of the first row whose first column reads `key`.
    pub(super) fn keyed<T>(self, key: &str, column: &str, read: impl FnOnce(&str) -> Option<T>) -> Lookup<T> {
        match self.rows().find(|(_, row)| row.cell(0) == Some(key)) {
            Some((index, row)) => self.cell(index, row, column, read),
            None => Err(Gap::Outside(self.id)),
        }
    }
}

/// Two lookups that an answer needs together: the first gap, or both values at the first one's place.
pub(super) fn both<A, B>(a: Lookup<A>, b: Lookup<B>) -> Lookup<(A, B)> {
    let (a, b) = (a?, b?);
    Ok(Cell { value: (a.value, b.value), place: a.place, grade: a.grade.max(b.grade) })
}

pub(super) fn whole(text: &str) -> Option<i64> {
    text.parse().ok()
}

pub(super) fn amperes(text: &str) -> Option<Amperes> {
    with_unit(text, "A")
}

pub(super) fn percent(text: &str) -> Option<Ratio> {
    with_unit(text, "%")
}

/// A factor such as `0.91`, printed without a unit.
pub(super) fn factor(text: &str) -> Option<Ratio> {
    let decimal = rust_decimal::Decimal::from_str_exact(text).ok()?;
    with_unit(&decimal.checked_mul(rust_decimal::Decimal::ONE_HUNDRED)?.normalize().to_string(), "%")
}

pub(super) fn ohms_per_kilofoot(text: &str) -> Option<OhmsPerLength> {
    with_unit(text, "ohm/kft")
}

pub(super) fn size(text: &str) -> Option<WireSize> {
    text.parse().ok()
}

fn with_unit<Q: FromStr>(number: &str, unit: &str) -> Option<Q> {
    if number.is_empty() { None } else { format!("{number} {unit}").parse().ok() }
}
