//! Answers of a table, or why there is none.

use crate::published::{Cell, CellPlace, Grade, TableId};
use crate::trade::WireSize;

/// A cell of a table, or the gap that keeps it from being known.
pub type Lookup<T> = Result<Cell<T>, Gap>;

/// Why a table gives no answer: never the nearest row, never a default.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum Gap {
    /// The key lies outside the table.
    #[error("{} has no row for it", title(*.0))]
    Outside(TableId),
    /// The cell is blank: the combination does not exist or is not permitted.
    #[error("{} is blank", cell(*.0))]
    Blank(CellPlace),
    /// The cell is witnessed too weakly to rest on.
    #[error("{} rests on {}; read it in the book and accept it", cell(*.0), .1.words())]
    BelowGrade(CellPlace, Grade),
    /// The cell says that it is not permitted there.
    #[error("{} reads `{}`: not permitted", cell(*.0), .0.text())]
    NotPermitted(CellPlace),
    /// The edition has no such table or rule.
    #[error("this edition has no {}", title(*.0))]
    NotInEdition(TableId),
}

impl Gap {
    /// The table concerned.
    #[must_use]
    pub const fn table(self) -> TableId {
        match self {
            Self::Outside(table) | Self::NotInEdition(table) => table,
            Self::Blank(place) | Self::BelowGrade(place, _) | Self::NotPermitted(place) => place.table,
        }
    }
}

fn title(table: TableId) -> String {
    format!("table `{}`", table.name())
}

fn cell(place: CellPlace) -> String {
    format!("{}, row `{}`, column `{}`", title(place.table), place.row_heading(), place.column_heading())
}

/// Values by wire size, found without searching.
#[derive(Clone, Debug)]
pub struct SizeTable<T> {
    slots: Vec<Lookup<T>>,
}

/// AWG takes 31 slots; kcmil sizes follow in steps of 50.
const SLOTS: usize = 67;
const FIRST_KCMIL_SLOT: u32 = 31;

impl<T: Copy> SizeTable<T> {
    /// A table in which every size is outside.
    #[must_use]
    pub fn empty(table: TableId) -> Self {
        Self { slots: vec![Err(Gap::Outside(table)); SLOTS] }
    }

    /// Enters the answer for a size.
    pub fn set(&mut self, size: WireSize, answer: Lookup<T>) {
        if let Some(slot) = slot_of(size).and_then(|slot| self.slots.get_mut(slot)) {
            *slot = answer;
        }
    }

    /// The answer for a size.
    ///
    /// # Errors
    /// The gap that stands there, or [`Gap::Outside`] for a size that the table could not list.
    #[inline]
    pub fn get(&self, size: WireSize, table: TableId) -> Lookup<T> {
        slot_of(size).and_then(|slot| self.slots.get(slot)).copied().unwrap_or(Err(Gap::Outside(table)))
    }
}

#[inline]
fn slot_of(size: WireSize) -> Option<usize> {
    if size.system() != crate::trade::SizeSystem::American {
        return None;
    }
    let rank = size.rank();
    let slot = if rank < FIRST_KCMIL_SLOT {
        rank
    } else if rank.is_multiple_of(50) {
        FIRST_KCMIL_SLOT + rank / 50 - 5
    } else {
        return None;
    };
    usize::try_from(slot).ok()
}

/// Values by closed ranges of whole numbers, ascending.
#[derive(Clone, Debug)]
pub struct Bands<T> {
    table: TableId,
    rows: Vec<(i64, T)>,
}

impl<T: Copy> Bands<T> {
    /// From rows of (upper edge, value); the first row is open below.
    #[must_use]
    pub fn new(table: TableId, rows: Vec<(i64, T)>) -> Self {
        Self { table, rows }
    }

    /// The value of the band that a whole number falls in.
    ///
    /// # Errors
    /// [`Gap::Outside`] above the last band.
    #[inline]
    pub fn get(&self, number: i64) -> Result<T, Gap> {
        self.rows.iter().find(|(upper, _)| number <= *upper).map(|(_, value)| *value).ok_or(Gap::Outside(self.table))
    }
}
