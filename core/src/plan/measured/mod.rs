//! What a home was measured to draw: from a CSV of times and watts or amperes, or from a utility's ESPI export.
//!
//! Amounts are exact: power times time in mW·s, current times time in µA·s. Nothing is filled in where the record has
//! gaps; they are listed, and whoever rests on the record sees how much of the time it covers.

mod csv;
mod espi;
mod rows;
mod time;

use crate::quantity::{Amperes, Ratio, Seconds, Watts};

pub use csv::read_csv;
pub use espi::read_espi;

/// A record of intervals in the order of time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Measured {
    kind: Kind,
    intervals: Vec<Interval>,
    /// What was odd about the record.
    pub notices: Vec<Notice>,
}

/// What was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Real power.
    Power,
    /// The current of leg A and of leg B.
    CurrentPerLeg,
}

/// One interval.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Interval {
    /// Its start: seconds since 1970 began in UTC, or on the local clock where the record names no offset.
    pub(crate) start: i64,
    /// The local clock ahead of that, in seconds.
    pub(crate) offset: i32,
    pub(crate) seconds: u32,
    /// Power (mW·s) and 0, or the currents of both legs (µA·s).
    pub(crate) amounts: [i64; 2],
}

/// Something odd about a record, at a line of a CSV or the number of a reading, counted from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, thiserror::Error)]
#[non_exhaustive]
pub enum Notice {
    /// Nothing is recorded for a while before it.
    #[error("{at}: nothing is recorded for {missing} before it")]
    Gap {
        /// Where.
        at: usize,
        /// For how long.
        missing: Seconds,
    },
    /// A local time without offset that comes an hour before the one above it: the clock was set back.
    #[error("{at}: the local time repeats an hour; the clock was taken as set back there")]
    ClockSetBack {
        /// Where.
        at: usize,
    },
    /// A local time without offset an hour late: the clock was set forward, or an hour is missing.
    #[error("{at}: an hour of local time vanishes; either the clock was set forward or an hour is missing")]
    ClockSetForward {
        /// Where.
        at: usize,
    },
    /// The same interval stands twice with the same value; it counts once.
    #[error("{at}: the interval stands twice with the same value; it counts once")]
    Twice {
        /// Where.
        at: usize,
    },
    /// The utility marks the reading as other than plainly measured.
    #[error("{at}: the utility marks the reading as other than measured")]
    Quality {
        /// Where.
        at: usize,
    },
}

/// A record that cannot be understood.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum MeasuredError {
    /// The columns are not those that are read.
    #[error("the columns are `{found}`; write `time` and `watts`, or `time`, `leg_a_amperes` and `leg_b_amperes`")]
    Columns {
        /// The heading as it stands.
        found: String,
    },
    /// A time that is none.
    #[error("{line}: `{found}` is not a time; write one such as `2025-01-31T18:45:00-05:00`")]
    Time {
        /// The line.
        line: usize,
        /// The text.
        found: String,
    },
    /// Some times have an offset and some have none.
    #[error("{line}: times with and without an offset are mixed; write all of them with one")]
    MixedTimes {
        /// The line.
        line: usize,
    },
    /// A value that is none.
    #[error("{at}: `{found}` is not a value from 0 up with at most {decimals} decimals")]
    Value {
        /// The line, or the number of the reading.
        at: usize,
        /// The text.
        found: String,
        /// How many decimals are kept.
        decimals: usize,
    },
    /// An interval before, or inside, the one above it.
    #[error("{at}: the interval begins before the one above it has ended")]
    Order {
        /// The line, or the number of the reading.
        at: usize,
    },
    /// Too few to tell how long an interval is.
    #[error("the record has fewer than two readings, so the length of an interval cannot be told")]
    TooFew,
    /// The XML itself is not well formed.
    #[error("the XML is not well formed: {0}")]
    Xml(String),
    /// The feed does not say what it measures.
    #[error("the feed has no {0}, so its readings cannot be told")]
    NoReadingType(&'static str),
    /// The feed measures something else.
    #[error("the feed gives {what} {found}; read are Wh (72), W (38) of forward flow (1) and no running totals")]
    OtherReadingType {
        /// What.
        what: &'static str,
        /// Its code.
        found: i64,
    },
    /// The feed has readings of different kinds.
    #[error("the feed has readings of several kinds; export the forward flow of one meter alone")]
    SeveralReadingTypes,
    /// A time, an interval or a sum beyond the range.
    #[error(
        "a time is too far away, an interval longer than a month, or the sum of the readings more than can be held"
    )]
    OutOfRange,
}

/// Parts of a unit that a rate is kept in: a multiple of the usual lengths of an interval, so that these are exact.
const FINE: i128 = 3600;

/// The longest interval: a month.
const LONGEST: u32 = 31 * 86_400;

/// The furthest time, some 30,000 years from 1970.
const FURTHEST: i64 = 1_000_000_000_000;

impl Measured {
    /// A record from intervals in order.
    pub(crate) fn new(kind: Kind, intervals: Vec<Interval>, notices: Vec<Notice>) -> Result<Self, MeasuredError> {
        let most = i64::MAX / i64::try_from(intervals.len().max(1)).map_err(|_| MeasuredError::OutOfRange)?;
        let fits = intervals.iter().all(|interval| {
            let amounts = interval.amounts.iter().all(|amount| (0..=most).contains(amount));
            amounts && interval.seconds <= LONGEST && (-FURTHEST..=FURTHEST).contains(&interval.start)
        });
        if fits { Ok(Self { kind, intervals, notices }) } else { Err(MeasuredError::OutOfRange) }
    }

    /// What was measured.
    #[must_use]
    pub const fn kind(&self) -> Kind {
        self.kind
    }

    /// The number of intervals.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.intervals.len()
    }

    /// Whether nothing was measured.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.intervals.is_empty()
    }

    /// How much of the time from the first to the last interval is recorded, rounded down.
    #[must_use]
    pub fn coverage(&self) -> Ratio {
        let recorded: i64 = self.intervals.iter().map(|interval| i64::from(interval.seconds)).sum();
        let span = match (self.intervals.first(), self.intervals.last()) {
            (Some(first), Some(last)) => last.start + i64::from(last.seconds) - first.start,
            _ => 0,
        };
        let millionths = i128::from(recorded) * 1_000_000 / i128::from(span.max(1));
        i64::try_from(millionths).ok().and_then(Ratio::new).unwrap_or(Ratio::MIN)
    }

    /// The energy of the whole record, in mW·s; `None` for currents.
    #[must_use]
    pub fn milliwatt_seconds(&self) -> Option<i64> {
        (self.kind == Kind::Power).then(|| self.intervals.iter().map(|interval| interval.amounts[0]).sum())
    }

    /// The power that is not exceeded for at least `share` of the recorded time, rounded up; `None` for currents and for
    /// an empty record. 5 % is often taken for the base load (common practice, no source), 100 % is the peak.
    #[must_use]
    pub fn percentile(&self, share: Ratio) -> Option<Watts> {
        (self.kind == Kind::Power).then(|| self.at_share(0, share)).flatten().and_then(milliwatts)
    }

    /// The same of the current of leg A and leg B, each for itself; `None` for power and for an empty record.
    #[must_use]
    pub fn current_percentile(&self, share: Ratio) -> Option<[Amperes; 2]> {
        if self.kind == Kind::Power {
            return None;
        }
        Some([Amperes::new(self.at_share(0, share)?)?, Amperes::new(self.at_share(1, share)?)?])
    }

    /// The highest mean of an interval and its start, as seconds since 1970 began; the first of several.
    #[must_use]
    pub fn peak(&self) -> Option<(Watts, i64)> {
        let above = |a: &Interval, b: &Interval| compare(a, b, 0).is_gt();
        let highest =
            self.intervals.iter().reduce(|highest, next| if above(next, highest) { next } else { highest })?;
        (self.kind == Kind::Power).then(|| milliwatts(rate(highest, 0))).flatten().map(|power| (power, highest.start))
    }

    /// The energy of each hour of the local clock in which something is recorded: its start, as seconds since 1970
    /// began, and mW·s. An interval across two hours is shared between them in whole mW·s; empty for currents.
    #[must_use]
    pub fn energy_by_hour(&self) -> Vec<(i64, i64)> {
        let mut hours: Vec<(i64, i64)> = Vec::new();
        let power = self.intervals.iter().filter(|_| self.kind == Kind::Power);
        for interval in power {
            let (mut from, end) = (interval.start, interval.start + i64::from(interval.seconds));
            let mut left = interval.amounts[0];
            while from < end {
                let hour = (from + i64::from(interval.offset)).div_euclid(3600) * 3600 - i64::from(interval.offset);
                let until = (hour + 3600).min(end);
                let part = if until == end {
                    left
                } else {
                    let product = i128::from(interval.amounts[0]) * i128::from(until - from)
                        / i128::from(interval.seconds.max(1));
                    i64::try_from(product).unwrap_or(0)
                };
                left -= part;
                match hours.last_mut() {
                    Some((last, sum)) if *last == hour => *sum += part,
                    _ => hours.push((hour, part)),
                }
                from = until;
            }
        }
        hours
    }

    /// The mean power of each hour of the day on the local clock, rounded up; `None` for an hour that no day recorded.
    #[must_use]
    pub fn mean_by_hour_of_day(&self) -> [Option<Watts>; 24] {
        if self.kind != Kind::Power {
            return [None; 24];
        }
        self.means(0).map(|mean| mean.and_then(milliwatts))
    }

    /// The same of the current of leg A and leg B; `None` for power.
    #[must_use]
    pub fn mean_current_by_hour_of_day(&self) -> [Option<[Amperes; 2]>; 24] {
        if self.kind != Kind::CurrentPerLeg {
            return [None; 24];
        }
        let (a, b) = (self.means(0), self.means(1));
        std::array::from_fn(|hour| {
            let of = |means: &[Option<i64>; 24]| means.get(hour).copied().flatten().and_then(Amperes::new);
            Some([of(&a)?, of(&b)?])
        })
    }

    /// The mean rate of each hour of the day on the local clock, rounded up. Each hour's share of an interval counts
    /// there, so that an interval across several hours counts in all of them.
    fn means(&self, which: usize) -> [Option<i64>; 24] {
        let mut sums = [(0i128, 0i64); 24];
        for interval in &self.intervals {
            // An hour's amount is the rate of the interval for the seconds that it has in that hour, in fine parts so
            // that nothing is lost before the end.
            let seconds = i128::from(interval.seconds.max(1));
            let rate = (i128::from(amount(interval, which)) * FINE + seconds - 1) / seconds;
            let (mut from, end) = (interval.start, interval.start + i64::from(interval.seconds));
            while from < end {
                let local = from + i64::from(interval.offset);
                let until = (local.div_euclid(3600) * 3600 + 3600 - i64::from(interval.offset)).min(end);
                let hour = usize::try_from(local.div_euclid(3600).rem_euclid(24)).ok();
                if let Some((sum, seconds)) = hour.and_then(|hour| sums.get_mut(hour)) {
                    *sum += rate * i128::from(until - from);
                    *seconds += until - from;
                }
                from = until;
            }
        }
        sums.map(|(sum, seconds)| {
            let divisor = i128::from(seconds) * FINE;
            let mean = sum.checked_div(divisor)? + i128::from(sum.checked_rem(divisor)? > 0);
            i64::try_from(mean).ok()
        })
    }

    /// The least rate of which at least `share` of the time is at or below.
    fn at_share(&self, which: usize, share: Ratio) -> Option<i64> {
        let mut sorted: Vec<&Interval> = self.intervals.iter().collect();
        sorted.sort_unstable_by(|a, b| compare(a, b, which));
        let whole: i64 = self.intervals.iter().map(|interval| i64::from(interval.seconds)).sum();
        let wanted = i128::from(whole) * i128::from(share.count_of_millionths().min(1_000_000));
        let mut below = 0i128;
        for interval in sorted {
            below += i128::from(interval.seconds) * 1_000_000;
            if below >= wanted {
                return Some(rate(interval, which));
            }
        }
        None
    }
}

fn amount(interval: &Interval, which: usize) -> i64 {
    interval.amounts.get(which).copied().unwrap_or(0)
}

/// Compares the means of two intervals exactly.
fn compare(a: &Interval, b: &Interval, which: usize) -> std::cmp::Ordering {
    let left = i128::from(amount(a, which)) * i128::from(b.seconds);
    left.cmp(&(i128::from(amount(b, which)) * i128::from(a.seconds)))
}

/// The mean of an interval, rounded up.
fn rate(interval: &Interval, which: usize) -> i64 {
    divide_up(amount(interval, which), i64::from(interval.seconds))
}

fn divide_up(dividend: i64, divisor: i64) -> i64 {
    dividend.checked_div(divisor).map_or(0, |quotient| quotient + i64::from(dividend % divisor > 0))
}

fn milliwatts(count: i64) -> Option<Watts> {
    Watts::new(i128::from(count) * 1_000_000_000_000)
}
