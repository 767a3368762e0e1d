//! Ranges and dryers by their demand tables.

use super::{DemandError, figure, sum, times};
use crate::published::{Cell, CellPlace, TableId};
use crate::quantity::{Quantity, Ratio, Rounding, VoltAmperes};

/// The demand of household ranges of one rating.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RangeDemand {
    /// By Column C, with what note 1 adds above 12 kW.
    pub column_c: VoltAmperes,
    /// By Column A or B, which note 3 permits instead from 1.75 kW to 8.75 kW, with the cell; `None` for other ratings.
    pub column_a_or_b: Option<(VoltAmperes, CellPlace)>,
}

impl RangeDemand {
    /// The least that the table permits.
    #[must_use]
    pub fn least(&self) -> VoltAmperes {
        self.column_a_or_b.map_or(self.column_c, |(demand, _)| demand.min(self.column_c))
    }
}

/// The edges of the columns as the table's heading prints them, in VA: 1.75, 3.5, 8.75, 12 and 27 kW.
const EDGES: [i128; 5] = [1_750, 3_500, 8_750, 12_000, 27_000];
const VOLT_AMPERE: i128 = 1_000_000_000;

/// The demand of `count` household cooking appliances of one rating, above 1.75 kW and up to 27 kW; kVA count as kW.
///
/// Section: NEC 220.55 and Table 220.55 with notes 1 and 3 (2020, 2023); up to 25 appliances.
///
/// # Errors
/// [`DemandError::NoRow`] for no or more than 25 appliances, [`DemandError::NoColumn`] outside the columns.
pub fn range_demand(count: usize, rating: VoltAmperes) -> Result<RangeDemand, DemandError> {
    let [least, a_below, b_through, c_through, most] = EDGES.map(|edge| edge * VOLT_AMPERE);
    let size = rating.count();
    // 1.75 kW itself is no appliance "over 1.75 kW".
    if size <= least || size > most {
        return Err(DemandError::NoColumn(rating));
    }
    let no_row = DemandError::NoRow { what: "ranges", count };
    let cell = |column| cell(TableId::RangeDemand, column, |low, _| low == count).ok_or(no_row.clone());
    let kilowatts = cell("column_c_kw")?;
    let plain: VoltAmperes = format!("{} kVA", kilowatts.value).parse().map_err(|_| no_row.clone())?;
    // Each kilowatt or major fraction above 12 kW: half a kilowatt and more counts as one.
    let steps = ((size - c_through).max(0) + 500 * VOLT_AMPERE) / (1000 * VOLT_AMPERE);
    let more = figure::<Ratio>("range-over-12")?.value.count_of_millionths();
    let share = Ratio::new(1_000_000 + more * i64::try_from(steps).unwrap_or(0)).ok_or(DemandError::OutOfRange)?;
    let column_c = (plain * share).rounded(Rounding::Up).ok_or(DemandError::OutOfRange)?;
    let column = if size < a_below {
        Some("column_a_percent")
    } else if size <= b_through {
        Some("column_b_percent")
    } else {
        None
    };
    let column_a_or_b = match column {
        Some(column) => {
            let percent = cell(column)?;
            let share: Ratio = format!("{} %", percent.value).parse().map_err(|_| no_row.clone())?;
            let load = times(rating, u32::try_from(count).map_err(|_| no_row.clone())?)?;
            Some(((load * share).rounded(Rounding::Up).ok_or(DemandError::OutOfRange)?, percent.place))
        }
        None => None,
    };
    Ok(RangeDemand { column_c, column_a_or_b })
}

/// The demand of household electric clothes dryers: each 5000 VA or its nameplate, whichever is larger, times the
/// table's share.
///
/// Section: NEC 220.54 and Table 220.54 (2020, 2023); up to 11 dryers.
///
/// # Errors
/// [`DemandError::NoRow`] for more than 11 dryers.
pub fn dryer_demand(nameplates: &[VoltAmperes]) -> Result<VoltAmperes, DemandError> {
    let count = nameplates.len();
    if count == 0 {
        return Ok(VoltAmperes::MIN);
    }
    let no_row = || DemandError::NoRow { what: "dryers", count };
    let least = figure::<VoltAmperes>("dryer-min")?.value;
    let cell = cell(TableId::DryerDemand, "percent", |low, high| (low..=high).contains(&count)).ok_or_else(no_row)?;
    let share: Ratio = format!("{} %", cell.value).parse().map_err(|_| no_row())?;
    let load = sum(nameplates.iter().map(|nameplate| (*nameplate).max(least)))?;
    (load * share).rounded(Rounding::Up).ok_or(DemandError::OutOfRange)
}

/// The cell of a column in the row whose first two cells, as counts, are the ones.
fn cell(table: TableId, column: &str, is_it: impl Fn(usize, usize) -> bool) -> Option<Cell<&'static str>> {
    let loaded = table.load().ok()?;
    let column = loaded.column(column)?;
    let count = |row: &crate::published::Row, at| row.cell(at).and_then(|text| text.parse::<usize>().ok());
    let is_row =
        |row: &crate::published::Row| count(row, 0).is_some_and(|low| is_it(low, count(row, 1).unwrap_or(low)));
    let (index, row) = loaded.rows.iter().enumerate().find(|(_, row)| is_row(row))?;
    let place = CellPlace { table, row: u16::try_from(index).ok()?, column };
    Some(Cell { value: row.cell(column)?, place, grade: row.grade(column)? })
}
