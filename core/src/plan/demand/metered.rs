//! The load of a dwelling that stands, from its meter.

use super::{DemandError, figure, sum};
use crate::plan::{Known, Question, Verdict};
use crate::quantity::{Ratio, Rounding, VoltAmperes};

/// A record of demand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DemandRecord {
    /// The highest demand in it, averaged over 15 minutes or by the utility's own meter of demand.
    pub highest: VoltAmperes,
    /// How long it is.
    pub length: Known<RecordLength>,
    /// Whether a source or a peak shaver hides part of the load.
    pub peaks: Known<Peaks>,
}

/// How long a record is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RecordLength {
    /// A year or more.
    Year,
    /// 30 days without a gap, by 15 minutes, at a time of highest use (the exception).
    ThirtyDays,
    /// Less, with gaps, or by longer intervals.
    Less,
}

/// Whether all of the load is seen by the meter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Peaks {
    /// It is.
    Seen,
    /// Solar, wind or peak shaving takes part of it off the meter.
    Hidden,
}

/// What comes of a record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Metered {
    /// The counted load: 125 % of the highest demand, and the new load.
    pub load: VoltAmperes,
    /// The share of the highest demand that counts.
    pub share: Ratio,
    /// Whether it fits.
    pub verdict: Verdict,
    /// What is missing.
    pub questions: Vec<Question>,
}

/// Whether a new load fits beside the existing one by its meter: 125 % of the highest demand of a year, and the new
/// load, may not exceed the service or feeder.
///
/// Section: NEC 220.87 (2020, 2023). Where solar, wind or peak shaving hides part of the load, 2020 bars the method
/// and 2023 bars the record of 30 days; both are refused here.
///
/// # Errors
/// [`DemandError`] for sums beyond the range.
pub fn metered(record: &DemandRecord, new: VoltAmperes, capacity: VoltAmperes) -> Result<Metered, DemandError> {
    const DECIDES: &str = "whether the new load fits";
    let factor = figure::<Ratio>("metered-factor")?.value;
    let existing = (record.highest * factor).rounded(Rounding::Up).ok_or(DemandError::OutOfRange)?;
    let load = sum([existing, new])?;
    let mut questions = Vec::new();
    match record.length {
        Known::Stated(RecordLength::Year | RecordLength::ThirtyDays) => {}
        _ => questions.push(Question::new("the record", "a year of demand, or 30 days by 15 minutes,", DECIDES)),
    }
    match record.peaks {
        Known::Stated(Peaks::Seen) | Known::DoesNotApply => {}
        _ => questions.push(Question::new("the record", "the load without solar, wind and peak shaving", DECIDES)),
    }
    let verdict = match (load <= capacity, questions.is_empty()) {
        (false, _) => Verdict::Fails,
        (true, false) => Verdict::CannotTell,
        (true, true) => Verdict::Holds,
    };
    Ok(Metered { load, share: factor, verdict, questions })
}
