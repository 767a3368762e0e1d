//! Figures that stand outside the ampacity tables: advice of agencies, standards of equipment, single limits.
//!
//! They do not differ between the editions that are carried. A figure that is witnessed too weakly is a gap.

use std::str::FromStr;

use super::{Acceptance, Gap, Lookup};
use crate::published::{Cell, CellPlace, Row, Table, TableId};
use crate::quantity::{Amperes, Meters, Volts, Watts};
use crate::trade::WireSize;

/// The value of a key in a table of the columns `key,value,unit`.
///
/// ```
/// use loadworthy::{code::guidance, published::TableId, quantity::Meters};
/// let distance = guidance::figure::<Meters>(TableId::EngineDistances, "carbon-monoxide").map(|cell| cell.value);
/// assert_eq!(distance, Ok("20 ft".parse()?));
/// # Ok::<(), loadworthy::quantity::QuantityError>(())
/// ```
///
/// # Errors
/// [`Gap`] where the table has no such key, or its cell is witnessed too weakly.
pub fn figure<Q: FromStr>(table: TableId, key: &str) -> Lookup<Q> {
    let (index, row, carried) = rows(table).find(|(_, row, _)| row.cell(0) == Some(key)).ok_or(Gap::Outside(table))?;
    let unit = text(carried, row, "unit");
    cell(table, (index, row, carried), "value", |number| format!("{number} {unit}").parse().ok())
}

/// The lowest and the highest voltage of a band on the base of 120 V.
///
/// # Errors
/// [`Gap`] where the table has no such band, or its cells are witnessed too weakly.
pub fn voltage_band(band: &str) -> Lookup<(Volts, Volts)> {
    let table = TableId::VoltageBands;
    let found = rows(table).find(|(_, row, _)| row.cell(0) == Some(band)).ok_or(Gap::Outside(table))?;
    let volts = |number: &str| format!("{number} V").parse().ok();
    let lowest: Cell<Volts> = cell(table, found, "lowest_v", volts)?;
    let highest: Cell<Volts> = cell(table, found, "highest_v", volts)?;
    Ok(lowest.map(|lowest| (lowest, highest.value)))
}

/// The current that a listed extension set of a size and a length may carry.
///
/// # Errors
/// [`Gap`] where the table has no row for that size and length.
pub fn cord_set_current(size: WireSize, length: Meters) -> Lookup<Amperes> {
    let table = TableId::CordSetLengths;
    let fits = |row: &'static Row, carried: &'static Table| {
        let own: Option<WireSize> = row.cell(0).and_then(|size| size.parse().ok());
        let longest = text(carried, row, "longest_ft");
        let reaches =
            longest.is_empty() || format!("{longest} ft").parse::<Meters>().is_ok_and(|longest| length <= longest);
        own == Some(size) && reaches
    };
    let found = rows(table).find(|(_, row, carried)| fits(row, carried)).ok_or(Gap::Outside(table))?;
    cell(table, found, "current_a", |number| format!("{number} A").parse().ok())
}

/// Whether the table of extension sets lists a size at all.
#[must_use]
pub fn is_cord_set_size(size: WireSize) -> bool {
    rows(TableId::CordSetLengths).any(|(_, row, _)| row.cell(0).and_then(|own| own.parse().ok()) == Some(size))
}

/// A means to stop the engine of a generator, and where an edition asks for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Duty {
    /// Which: `restart-prevented`, `remote-stop` or `emergency-stop`.
    pub means: &'static str,
    /// The power above which it is asked for; `None` for any.
    pub above: Option<Watts>,
    /// For dwellings of one or two families only, or for all other buildings only; `None` for any.
    pub dwelling: Option<bool>,
    /// Whether a portable set that is plugged in is exempt.
    pub portable_exempt: bool,
}

/// The duties that an edition lays on the engine of a generator.
///
/// # Errors
/// [`Gap`] where the table has no row of that edition, or a row is witnessed too weakly.
pub fn shutdown_duties(edition: &str) -> Result<Vec<Duty>, Gap> {
    let table = TableId::GeneratorShutdown;
    let mut duties = Vec::new();
    for found in rows(table).filter(|(_, row, _)| row.cell(0) == Some(edition)) {
        let above: Cell<Watts> = cell(table, found, "above_kw", |number| format!("{number} kW").parse().ok())?;
        let (_, row, carried) = found;
        duties.push(Duty {
            means: text(carried, row, "means"),
            above: Some(above.value).filter(|above| *above > Watts::MIN),
            dwelling: match text(carried, row, "occupancy") {
                "dwelling" => Some(true),
                "other" => Some(false),
                _ => None,
            },
            portable_exempt: text(carried, row, "portable_exempt") == "yes",
        });
    }
    if duties.is_empty() { Err(Gap::Outside(table)) } else { Ok(duties) }
}

type Found = (u16, &'static Row, &'static Table);

fn rows(table: TableId) -> impl Iterator<Item = Found> {
    let carried = table.load().ok();
    carried.into_iter().flat_map(|carried| (0..).zip(&carried.rows).map(move |(index, row)| (index, row, carried)))
}

fn text(carried: &Table, row: &'static Row, column: &str) -> &'static str {
    carried.column(column).and_then(|column| row.cell(column)).unwrap_or("")
}

fn cell<T>(table: TableId, (row, cells, carried): Found, column: &str, read: impl Fn(&str) -> Option<T>) -> Lookup<T> {
    let column = carried.column(column).ok_or(Gap::Outside(table))?;
    let place = CellPlace { table, row, column };
    let value = cells.cell(column).and_then(read).ok_or(Gap::Blank(place))?;
    let grade = cells.grade(column).ok_or(Gap::Blank(place))?;
    if Acceptance::default().admits(place, grade) {
        Ok(Cell { value, place, grade })
    } else {
        Err(Gap::BelowGrade(place, grade))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_extension_set_has_the_row_of_its_length() {
        let current = |size: &str, length: &str| {
            let (size, length) = (size.parse().unwrap(), length.parse().unwrap());
            cord_set_current(size, length).map(|cell| cell.value.to_string())
        };
        // UL 817 as quoted: 16 AWG bears 13 A up to 50 ft, 10 A beyond.
        assert_eq!(current("16 AWG", "50 ft"), Ok("13 A".to_owned()));
        assert_eq!(current("16 AWG", "51 ft"), Ok("10 A".to_owned()));
        assert_eq!(current("10 AWG", "25 ft"), Ok("20 A".to_owned()));
        assert_eq!(current("14 AWG", "51 ft"), Err(Gap::Outside(TableId::CordSetLengths)));
    }

    #[test]
    fn the_bands_and_limits_are_read() {
        assert_eq!(
            voltage_band("utilization-b").map(|cell| cell.value),
            Ok((Volts::from_whole(104), Volts::from_whole(127)))
        );
        assert_eq!(
            figure::<Meters>(TableId::ConnectionLimits, "working-space-height").map(|cell| cell.value.to_string()),
            Ok("6.5 ft".to_owned())
        );
    }
}
