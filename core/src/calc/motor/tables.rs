//! The motor tables of the code: full-load and locked-rotor current, code letters, factors.

use std::sync::OnceLock;

use super::{Horsepower, MotorError, Phase};
use crate::published::{Cell, CellPlace, Row, TableId};
use crate::quantity::{Amperes, Ratio, VoltAmperes, Volts};

/// Why a table does not answer; the nearest row or column never stands in.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum Missing {
    /// No row for the output.
    #[error("no row for {0}")]
    Row(String),
    /// No column for the voltage.
    #[error("no column for {0}")]
    Column(Volts),
    /// The cell is blank: the code gives nothing, or the readings of it disagree.
    #[error("the cell for {0} at {1} is blank")]
    Blank(String, Volts),
}

/// What a table says.
pub type Looked<T> = Result<Cell<T>, Missing>;

/// The full-load current of a motor: NEC Table 430.248 (single-phase) or 430.250 (three-phase).
///
/// The table's current serves conductors and short-circuit protection; overload protection goes by the nameplate
/// (NEC 430.6(A)).
///
/// ```
/// # use loadworthy::calc::motor::{Phase, full_load_current};
/// let pump = full_load_current(Phase::Single, "1/2 hp".parse()?, "115 V".parse()?)?;
/// assert_eq!(pump.value.to_string(), "9.8 A");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`Missing`] where the table has no such row or column.
pub fn full_load_current(phase: Phase, output: Horsepower, at: Volts) -> Looked<Amperes> {
    let table = match phase {
        Phase::Single => TableId::MotorFullLoadSinglePhase,
        _ => TableId::MotorFullLoadThreePhase,
    };
    current(table, output, at)
}

/// The locked-rotor current of a motor: NEC Table 430.251(A) (single-phase) or 430.251(B) (three-phase, Design B, C
/// and D; Design A has no limit).
///
/// # Errors
/// [`Missing`] where the table has no such row or column, or the cell is blank.
pub fn locked_rotor_current(phase: Phase, output: Horsepower, at: Volts) -> Looked<Amperes> {
    let table = match phase {
        Phase::Single => TableId::MotorLockedRotorSinglePhase,
        _ => TableId::MotorLockedRotorThreePhase,
    };
    current(table, output, at)
}

/// A locked-rotor indicating code letter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CodeLetter(char);

impl CodeLetter {
    /// The letter of a nameplate.
    ///
    /// # Errors
    /// [`MotorError::NoSuchCodeLetter`] for what is not a letter of NEC Table 430.7(B).
    pub fn new(letter: char) -> Result<Self, MotorError> {
        let letter = letter.to_ascii_uppercase();
        row(TableId::MotorCodeLetters, &letter.to_string())
            .map(|_| Self(letter))
            .ok_or(MotorError::NoSuchCodeLetter { letter })
    }

    /// The letter.
    #[must_use]
    pub const fn letter(self) -> char {
        self.0
    }

    /// The most apparent power per horsepower with the rotor held; `None` for V, which has no upper bound.
    #[must_use]
    pub fn most_per_horsepower(self) -> Option<Cell<VoltAmperes>> {
        self.column("kva_per_hp_max")
    }

    /// The least apparent power per horsepower with the rotor held.
    #[must_use]
    pub fn least_per_horsepower(self) -> Option<Cell<VoltAmperes>> {
        self.column("kva_per_hp_min")
    }

    fn column(self, name: &str) -> Option<Cell<VoltAmperes>> {
        let (index, row) = row(TableId::MotorCodeLetters, &self.0.to_string())?;
        let cell = cell(TableId::MotorCodeLetters, index, row, name)?;
        let value = format!("{} kVA", cell.value).parse().ok()?;
        Some(cell.map(|_| value))
    }
}

/// A percentage of the motor rules, by its key in `nec/motor-rule-factors`.
pub(crate) fn percent(key: &str) -> Option<Cell<Ratio>> {
    let (index, row) = row(TableId::MotorRuleFactors, key)?;
    let cell = cell(TableId::MotorRuleFactors, index, row, "value")?;
    // A plain factor counts as so many hundred percent.
    let unit = row.cell(TableId::MotorRuleFactors.load().ok()?.column("unit")?)?;
    let value: Ratio = format!("{} %", cell.value).parse().ok()?;
    let value = if unit == "factor" { Ratio::new(value.count_of_millionths().checked_mul(100)?)? } else { value };
    Some(cell.map(|_| value))
}

/// A current of the motor rules, by its key.
pub(super) fn current_of(key: &str) -> Option<Amperes> {
    let (index, row) = row(TableId::MotorRuleFactors, key)?;
    format!("{} A", cell(TableId::MotorRuleFactors, index, row, "value")?.value).parse().ok()
}

/// A current of a table with one row an output and one column a rated voltage.
fn current(table: TableId, output: Horsepower, at: Volts) -> Looked<Amperes> {
    let column = column_of(at).ok_or(Missing::Column(at))?;
    let no_row = || Missing::Row(output.to_string());
    let loaded = table.load().map_err(|_| no_row())?;
    loaded.column(column).ok_or(Missing::Column(at))?;
    let index = outputs(table).iter().position(|own| *own == Some(output)).ok_or_else(no_row)?;
    let row = loaded.rows.get(index).ok_or_else(no_row)?;
    let blank = || Missing::Blank(output.to_string(), at);
    let cell = cell(table, index, row, column).ok_or_else(blank)?;
    let value = format!("{} A", cell.value).parse().map_err(|_| blank())?;
    Ok(cell.map(|_| value))
}

/// The outputs that head the rows of a table, read once.
fn outputs(table: TableId) -> &'static [Option<Horsepower>] {
    static READ: [OnceLock<Vec<Option<Horsepower>>>; TableId::ALL.len()] =
        [const { OnceLock::new() }; TableId::ALL.len()];
    let rows = || table.load().map_or(&[][..], |loaded| &loaded.rows);
    let read = || rows().iter().map(|row| row.cell(0).and_then(Horsepower::of_number)).collect();
    READ.get(table as usize).map_or(&[], |kept| kept.get_or_init(read))
}

/// The column that serves a voltage: the tables say which system voltages a motor voltage serves.
fn column_of(at: Volts) -> Option<&'static str> {
    Some(match at.millivolts() {
        110_000..=120_000 => "volts_115_a",
        200_000 => "volts_200_a",
        208_000 => "volts_208_a",
        220_000..=240_000 => "volts_230_a",
        440_000..=480_000 => "volts_460_a",
        550_000..=600_000 => "volts_575_a",
        2_300_000 => "volts_2300_a",
        _ => return None,
    })
}

pub(super) fn row(table: TableId, heading: &str) -> Option<(usize, &'static Row)> {
    table.load().ok()?.rows.iter().enumerate().find(|(_, row)| row.cell(0) == Some(heading))
}

/// A cell that is not blank.
pub(super) fn cell(table: TableId, index: usize, row: &'static Row, column: &str) -> Option<Cell<&'static str>> {
    let column = table.load().ok()?.column(column)?;
    let place = CellPlace { table, row: u16::try_from(index).ok()?, column };
    let value = row.cell(column).filter(|text| !text.is_empty())?;
    Some(Cell { value, place, grade: row.grade(column)? })
}
