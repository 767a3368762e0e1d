//! A CSV of times and watts, or of times and the amperes of both legs.

use super::rows::rows;
use super::time;
use super::{Interval, Kind, Measured, MeasuredError, Notice};
use crate::quantity::Seconds;

/// Reads a CSV with a heading: `time` and `watts`, or `time`, `leg_a_amperes` and `leg_b_amperes`, in any order and
/// among other columns.
///
/// A reading is the mean over the interval that begins at its time; the usual interval is the one that stands between
/// most readings. Times should carry their offset from UTC. Local times without one are taken as they come: an hour
/// that repeats or vanishes is told as a [`Notice`], and so is every gap.
///
/// ```
/// # use loadworthy::plan::measured::read_csv;
/// let record = read_csv("time,watts\n2025-01-31T18:00:00-05:00,400\n2025-01-31T18:15:00-05:00,900.5\n")?;
/// assert_eq!(record.peak().map(|(power, _)| power), Some("900.5 W".parse()?));
/// // 400 W and 900.5 W for a quarter of an hour each.
/// assert_eq!(record.milliwatt_seconds(), Some(1_170_450_000));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`MeasuredError`] with the line.
pub fn read_csv(text: &str) -> Result<Measured, MeasuredError> {
    let mut rows = rows(text).into_iter();
    let heading = rows.next().map_or_else(Vec::new, |row| row.cells().to_vec());
    let column = |name: &str| heading.iter().position(|heading| heading.eq_ignore_ascii_case(name));
    let legs = column("leg_a_amperes").zip(column("leg_b_amperes"));
    let (kind, columns) = match (column("watts"), legs) {
        (Some(watts), None) => (Kind::Power, vec![watts]),
        (None, Some((a, b))) => (Kind::CurrentPerLeg, vec![a, b]),
        _ => (Kind::Power, Vec::new()),
    };
    let Some(time_column) = column("time").filter(|_| !columns.is_empty()) else {
        return Err(MeasuredError::Columns { found: heading.join(",") });
    };
    // A power in mW, a current in µA: three and six decimals.
    let decimals = if kind == Kind::Power { 3 } else { 6 };
    let mut readings = Vec::new();
    for row in rows {
        let (line, text) = (row.line, row.cell(time_column));
        let moment = time::parse(text).ok_or_else(|| MeasuredError::Time { line, found: text.to_owned() })?;
        let mut rates = [0; 2];
        for (rate, column) in rates.iter_mut().zip(&columns) {
            let text = row.cell(*column);
            *rate = fixed(text, decimals).ok_or_else(|| MeasuredError::Value {
                at: line,
                found: text.to_owned(),
                decimals,
            })?;
        }
        readings.push((line, moment, rates));
    }
    let has_offset = |of: &&Reading| of.1.offset.is_some();
    if let Some((line, ..)) = readings.iter().find(|reading| !has_offset(reading))
        && readings.iter().any(|reading| has_offset(&reading))
    {
        return Err(MeasuredError::MixedTimes { line: *line });
    }
    intervals(kind, readings)
}

type Reading = (usize, time::Moment, [i64; 2]);

fn intervals(kind: Kind, readings: Vec<Reading>) -> Result<Measured, MeasuredError> {
    let step = usual_step(&readings).ok_or(MeasuredError::TooFew)?;
    let mut notices = Vec::new();
    let mut intervals: Vec<Interval> = Vec::new();
    let mut set_back = 0;
    let mut last: Option<Reading> = None;
    for (line, mut moment, rates) in readings {
        moment.seconds += set_back;
        if let Some((_, above, above_rates)) = last {
            let ahead = moment.seconds - above.seconds;
            let is_local = moment.offset.is_none();
            match ahead {
                0 if rates == above_rates => {
                    notices.push(Notice::Twice { at: line });
                    continue;
                }
                // The clock was set back by an hour after the reading above; the same hour twice with two values is that too.
                _ if is_local && ahead == step - 3600 && step <= 3600 => {
                    notices.push(Notice::ClockSetBack { at: line });
                    set_back += 3600;
                    moment.seconds += 3600;
                }
                _ if ahead < step => {
                    // A reading in between, as monitors write on a change, shortens the one above.
                    let shortened =
                        intervals.last_mut().filter(|_| ahead > 0).ok_or(MeasuredError::Order { at: line })?;
                    shorten(shortened, u32::try_from(ahead).map_err(|_| MeasuredError::Order { at: line })?);
                }
                _ if is_local && ahead == step + 3600 => notices.push(Notice::ClockSetForward { at: line }),
                _ if ahead > step => {
                    let missing = Seconds::new((ahead - step).saturating_mul(1000)).unwrap_or(Seconds::MAX);
                    notices.push(Notice::Gap { at: line, missing });
                }
                _ => {}
            }
        }
        let seconds = u32::try_from(step).map_err(|_| MeasuredError::OutOfRange)?;
        let mut amounts = [0; 2];
        for (amount, rate) in amounts.iter_mut().zip(rates) {
            *amount = rate.checked_mul(step).ok_or(MeasuredError::OutOfRange)?;
        }
        // After the clock was set back it is behind the count of seconds that goes on.
        let offset = moment.offset.unwrap_or_else(|| i32::try_from(-set_back).unwrap_or(0));
        intervals.push(Interval { start: moment.seconds, offset, seconds, amounts });
        last = Some((line, moment, rates));
    }
    Measured::new(kind, intervals, notices)
}

fn shorten(interval: &mut Interval, to: u32) {
    for amount in &mut interval.amounts {
        // The amount is a rate times the seconds, so the quotient is exact.
        *amount = *amount / i64::from(interval.seconds.max(1)) * i64::from(to);
    }
    interval.seconds = to;
}

/// The difference that stands between most readings; the smallest of several.
fn usual_step(readings: &[Reading]) -> Option<i64> {
    let times = readings.iter().map(|(_, moment, _)| moment.seconds);
    let mut steps: Vec<i64> = times.clone().zip(times.skip(1)).map(|(a, b)| b - a).filter(|step| *step > 0).collect();
    steps.sort_unstable();
    steps
        .chunk_by(|a, b| a == b)
        .max_by_key(|chunk| (chunk.len(), std::cmp::Reverse(chunk.first().copied())))?
        .first()
        .copied()
}

/// A plain decimal number from 0 up as an integer of `decimals` decimals; at most a million million of them.
fn fixed(text: &str, decimals: usize) -> Option<i64> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
    let is_number = !whole.is_empty() && whole.len() <= 9 && part.len() <= decimals && digits(whole) && digits(part);
    is_number.then(|| format!("{whole}{part:0<decimals$}").parse().ok())?
}
