//! The base load of a meter's record: what is not exceeded for a share of the time that the user names.

use super::{MeasuredBase, MeasuredDemand};
use crate::plan::measured::{Kind, Measured, MeasuredError, read_csv, read_espi};
use crate::quantity::Ratio;

/// The most that is said of what is odd about a record.
const MOST_NOTICES: usize = 10;

/// Why a record gives no base load.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum RecordError {
    /// A share above 100 %.
    #[error("`{0}` is more than all of the time")]
    Share(Ratio),
    /// The record could not be read.
    #[error("{name}: {error}")]
    Unread {
        /// What the caller calls it.
        name: String,
        /// Why.
        error: MeasuredError,
    },
    /// No interval was measured.
    #[error("{0}: nothing is recorded")]
    Nothing(String),
}

impl MeasuredBase {
    /// The base load of a record, CSV or a utility's ESPI export in XML, which messages call `name`: what is not exceeded
    /// for `share` of the recorded time. `stands_for` are the described loads that it holds already. With it comes what is
    /// to be noted about the record.
    ///
    /// ```
    /// use loadworthy::{plan::site::{MeasuredBase, MeasuredDemand}, quantity::Ratio};
    /// let record = "time,watts\n2025-03-10T00:00:00,400\n2025-03-10T01:00:00,700\n2025-03-10T02:00:00,500\n";
    /// let (base, notices) = MeasuredBase::of_record("march.csv", record, Ratio::percent(100), Vec::new())?;
    /// assert_eq!(base.demand, MeasuredDemand::Power("700 W".parse()?));
    /// assert_eq!(notices[0], "march.csv: 100 % of its time is recorded");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// A share of more than 100 %, or a record that cannot be read or is empty.
    pub fn of_record(
        name: &str,
        text: &str,
        share: Ratio,
        stands_for: Vec<String>,
    ) -> Result<(Self, Vec<String>), RecordError> {
        if share > Ratio::ONE {
            return Err(RecordError::Share(share));
        }
        let read = if text.trim_start().starts_with('<') { read_espi(text.as_bytes()) } else { read_csv(text) };
        let record = read.map_err(|error| RecordError::Unread { name: name.to_owned(), error })?;
        let demand = match record.kind() {
            Kind::Power => record.percentile(share).map(MeasuredDemand::Power),
            Kind::CurrentPerLeg => record.current_percentile(share).map(MeasuredDemand::Legs),
        };
        let demand = demand.ok_or_else(|| RecordError::Nothing(name.to_owned()))?;
        let by_hour = match record.kind() {
            Kind::Power => record.mean_by_hour_of_day().map(|mean| mean.map(MeasuredDemand::Power)),
            Kind::CurrentPerLeg => record.mean_current_by_hour_of_day().map(|mean| mean.map(MeasuredDemand::Legs)),
        };
        Ok((Self { demand, by_hour: Box::new(by_hour), stands_for }, notices(name, &record)))
    }
}

fn notices(name: &str, record: &Measured) -> Vec<String> {
    let mut notices = vec![format!("{name}: {} of its time is recorded", record.coverage())];
    if let (Some(half), Some(most), Some((peak, _))) =
        (record.percentile(Ratio::percent(50)), record.percentile(Ratio::percent(95)), record.peak())
    {
        let said = format!("at most {half} half of the time, {most} for 95 % of it; the highest interval {peak}");
        notices.push(format!("{name}: {said}"));
    }
    notices.extend(record.notices.iter().take(MOST_NOTICES).map(|notice| format!("{name}:{notice}")));
    if let Some(more) = record.notices.len().checked_sub(MOST_NOTICES).filter(|more| *more > 0) {
        notices.push(format!("{name}: and {more} more such places"));
    }
    notices
}
