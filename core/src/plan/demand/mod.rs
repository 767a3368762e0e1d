//! Demand of a dwelling: what the whole of it is counted to draw at once.
//!
//! Every figure comes from the tables `nec/dwelling-load`, `nec/range-demand` and `nec/dryer-demand`; the code here
//! only multiplies and adds. Loads are apparent power by nameplate.

mod cooking;
mod dwelling;
mod metered;

use crate::plan::exact::Exact;
use crate::published::{Cell, CellPlace, TableId};
use crate::quantity::{Quantity, Ratio, VoltAmperes};

pub use cooking::{RangeDemand, dryer_demand, range_demand};
pub use dwelling::{Climate, Dwelling, DwellingDemand, ElectricHeat, existing_dwelling, optional_dwelling};
pub use metered::{DemandRecord, Metered, Peaks, RecordLength, metered};

/// A demand that cannot be worked out.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum DemandError {
    /// The tables do not go so far.
    #[error("the table of {what} has no row for {count}; work it out by the formula that the code prints there")]
    NoRow {
        /// Of what.
        what: &'static str,
        /// How many.
        count: usize,
    },
    /// A range outside the columns.
    #[error("a cooking appliance of {0} lies outside the columns of Table 220.55")]
    NoColumn(VoltAmperes),
    /// A figure that the tables do not carry.
    #[error("the figure `{0}` is not carried")]
    NoFigure(&'static str),
    /// A sum beyond the range.
    #[error("the loads sum to more than can be held")]
    OutOfRange,
}

/// A part of a demand: what was counted, at which share, and the cell that says so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// What it is.
    pub what: &'static str,
    /// The load.
    pub load: VoltAmperes,
    /// The share that counts.
    pub share: Ratio,
    /// What it comes to, rounded up.
    pub demand: VoltAmperes,
    /// The cell of the share.
    pub place: CellPlace,
}

fn row_text(table: TableId, key: &'static str) -> Result<(Cell<&'static str>, &'static str), DemandError> {
    let missing = || DemandError::NoFigure(key);
    let loaded = table.load().map_err(|_| missing())?;
    let (index, row) = loaded.rows.iter().enumerate().find(|(_, row)| row.cell(0) == Some(key)).ok_or_else(missing)?;
    let column = loaded.column("value").ok_or_else(missing)?;
    let unit = loaded.column("unit").and_then(|unit| row.cell(unit)).ok_or_else(missing)?;
    let value = row.cell(column).ok_or_else(missing)?;
    let place = CellPlace { table, row: u16::try_from(index).map_err(|_| missing())?, column };
    Ok((Cell { value, place, grade: row.grade(column).ok_or_else(missing)? }, unit))
}

/// A figure of `nec/dwelling-load` as a quantity; its unit may have a `per` after it.
fn figure<Q: Quantity + std::str::FromStr>(key: &'static str) -> Result<Cell<Q>, DemandError> {
    let (cell, unit) = row_text(TableId::DwellingLoad, key)?;
    let unit = unit.split('/').next().unwrap_or(unit);
    let value = format!("{} {unit}", cell.value).parse().map_err(|_| DemandError::NoFigure(key))?;
    Ok(cell.map(|_| value))
}

fn part(what: &'static str, load: VoltAmperes, share: Cell<Ratio>) -> Result<Part, DemandError> {
    let demand = (load * share.value).rounded(crate::quantity::Rounding::Up).ok_or(DemandError::OutOfRange)?;
    Ok(Part { what, load, share: share.value, demand, place: share.place })
}

fn sum(loads: impl IntoIterator<Item = VoltAmperes>) -> Result<VoltAmperes, DemandError> {
    loads.into_iter().try_fold(VoltAmperes::MIN, VoltAmperes::checked_add).ok_or(DemandError::OutOfRange)
}

fn times(load: VoltAmperes, count: u32) -> Result<VoltAmperes, DemandError> {
    let product = load.count().checked_mul(i128::from(count)).and_then(VoltAmperes::from_count);
    product.ok_or(DemandError::OutOfRange)
}

/// The current that a demand draws, rounded up.
fn current(demand: VoltAmperes, at: crate::quantity::Volts) -> Option<crate::quantity::Amperes> {
    let exact = Exact::new(demand.count().unsigned_abs(), at.count().unsigned_abs())?;
    Some(exact.rounded(crate::quantity::Rounding::Up, crate::quantity::Amperes::MAX))
}
