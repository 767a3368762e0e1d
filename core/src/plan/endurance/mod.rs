//! How long a charge or a tank lasts, as expected and at worst.
//!
//! *Expected* counts each load by the share of the hour that it is on; *at worst* every load that is on at all in an
//! hour counts as on all of it, for thermostats may call all at once and all night. Powers count in whole µW, rounded
//! up; times are rounded down to the millisecond.

mod battery;
mod derating;
mod fuel;
mod run;

use super::{Known, Question};
use crate::quantity::{Quantity, Ratio, Seconds, Watts};

pub use crate::trade::{FuelAmount, FuelUnit};
pub use battery::{Battery, battery_hours, drop_to_reach};
pub use derating::{Derating, Loss, derated};
pub use fuel::{Engine, FuelHours, FuelPoint, fuel_hours};

/// A load over the day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DayLoad {
    /// Its name, for reports.
    pub name: String,
    /// What it draws while it is on.
    pub power: Watts,
    /// When it is on; [`Known::DoesNotApply`] for a load that is always on.
    pub on: Known<Cycle>,
}

/// When a load is on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cycle {
    /// The same share of every hour, such as a refrigerator's third.
    Share(Ratio),
    /// A share of each hour of the day, from midnight.
    ByHour(Box<[Ratio; 24]>),
    /// The mean power of each hour of the day, from midnight, as a meter recorded it; in an hour without record it is
    /// [`DayLoad::power`], and at worst it is never less than that.
    Measured(Box<[Option<Watts>; 24]>),
}

/// A time, and how it comes about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Endurance {
    /// How long it lasts, rounded down.
    pub time: Seconds,
    /// What ends it.
    pub end: End,
    /// The state hour by hour, at most [`MOST_HOURS`] of them.
    pub hours: Vec<Hour>,
}

/// What ends the supply.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum End {
    /// The reserve is reached.
    Reserve,
    /// The source switches itself off.
    ShutOffTimer,
    /// Nothing within 1000 days, the longest time that is counted.
    BeyondRange,
}

/// The state at the end of an hour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hour {
    /// The hour of the day that was counted, 0 to 23.
    pub of_day: u8,
    /// The mean power of the loads, rounded up.
    pub load: Watts,
    /// What is left of what was there above the reserve, rounded down.
    pub left: Ratio,
}

/// The most hours that are listed.
pub const MOST_HOURS: usize = 240;

/// An input that cannot be.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum EnduranceError {
    /// A share above the whole.
    #[error("{what} of `{of}` is {ratio}; write at most 100 %")]
    AboveWhole {
        /// Whose.
        of: String,
        /// What.
        what: &'static str,
        /// The share.
        ratio: Ratio,
    },
    /// No energy comes through.
    #[error("the efficiency of `{of}` is 0 %")]
    NoEfficiency {
        /// Whose.
        of: String,
    },
    /// An hour that no day has.
    #[error("the day has no hour {0}; write 0 to 23")]
    NoSuchHour(u8),
    /// Points out of order, or a use that falls as the load rises.
    #[error(
        "the fuel points of `{of}` do not rise; list each load once, from the least, with no less fuel than the one before"
    )]
    PointsNotRising {
        /// Whose.
        of: String,
    },
    /// Fuel measured in two units.
    #[error("the tank of `{of}` is given in {tank} and its use in {used}; write both in one unit")]
    TwoUnits {
        /// Whose.
        of: String,
        /// The unit of the tank.
        tank: FuelUnit,
        /// The unit of the use.
        used: FuelUnit,
    },
    /// A rating of nothing.
    #[error("the rated power of `{of}` is 0 W")]
    NoRating {
        /// Whose.
        of: String,
    },
    /// The load is more than the engine gives.
    #[error("the loads draw {load} in some hour, `{of}` gives {most}")]
    Overloaded {
        /// Whose.
        of: String,
        /// The greatest load.
        load: Watts,
        /// What it gives.
        most: Watts,
    },
    /// A loss per nothing.
    #[error("a loss is given per step of nothing")]
    NoStep,
}

/// Which of the two figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Figure {
    /// By the shares of the hours.
    Expected,
    /// Everything that is on in an hour is on all of it.
    Worst,
}

const MILLION: u128 = 1_000_000;
const DECIDES: &str = "how long it lasts";

/// The loads as µW times millionths, hour by hour of the day.
struct Day([u128; 24]);

impl Day {
    fn new(loads: &[DayLoad], figure: Figure) -> Self {
        let mut day = [0; 24];
        for load in loads {
            let microwatts = microwatts(load.power);
            for (hour, sum) in day.iter_mut().enumerate() {
                *sum += match load.measured(hour) {
                    Some(mean) if figure == Figure::Worst => microwatts.max(self::microwatts(mean)) * MILLION,
                    Some(mean) => self::microwatts(mean) * MILLION,
                    None => microwatts * u128::from(load.share(hour, figure).count_of_millionths().unsigned_abs()),
                };
            }
        }
        Self(day)
    }

    /// µW times millionths in an hour counted from midnight of the first day.
    fn at(&self, hour: usize) -> u128 {
        self.0.get(hour % 24).copied().unwrap_or(0)
    }

    /// The greatest of the day, rounded up.
    fn greatest(&self) -> Watts {
        watts(self.0.iter().copied().max().unwrap_or(0).div_ceil(MILLION))
    }
}

impl DayLoad {
    fn measured(&self, hour: usize) -> Option<Watts> {
        match &self.on {
            Known::Stated(Cycle::Measured(hours)) => hours.get(hour).copied().flatten(),
            _ => None,
        }
    }

    fn share(&self, hour: usize, figure: Figure) -> Ratio {
        let share = match &self.on {
            Known::Stated(Cycle::Share(share)) => *share,
            Known::Stated(Cycle::ByHour(hours)) => hours.get(hour).copied().unwrap_or(Ratio::ONE),
            Known::Stated(Cycle::Measured(_)) | Known::DoesNotApply | Known::NotStated => Ratio::ONE,
        };
        if figure == Figure::Worst && share > Ratio::MIN { Ratio::ONE } else { share }
    }
}

/// Errors of the loads and the hour, and what is missing for a figure.
fn check(loads: &[DayLoad], start_hour: u8, figure: Figure) -> Result<Vec<Question>, EnduranceError> {
    if start_hour > 23 {
        return Err(EnduranceError::NoSuchHour(start_hour));
    }
    let mut questions = Vec::new();
    for load in loads {
        let shares: &[Ratio] = match &load.on {
            Known::Stated(Cycle::Share(share)) => std::slice::from_ref(share),
            Known::Stated(Cycle::ByHour(hours)) => hours.as_slice(),
            Known::Stated(Cycle::Measured(_)) | Known::DoesNotApply => &[],
            Known::NotStated => {
                // At worst it is always on, and nothing needs to be asked.
                if figure == Figure::Expected {
                    questions.push(Question::new(&load.name, "the share of the time that it is on", DECIDES));
                }
                &[]
            }
        };
        for share in shares {
            at_most_whole(&load.name, "the share of the time", *share)?;
        }
    }
    Ok(questions)
}

fn at_most_whole(of: &str, what: &'static str, ratio: Ratio) -> Result<(), EnduranceError> {
    if ratio > Ratio::ONE {
        return Err(EnduranceError::AboveWhole { of: of.to_owned(), what, ratio });
    }
    Ok(())
}

/// Whole µW, rounded up.
fn microwatts(power: Watts) -> u128 {
    power.count().unsigned_abs().div_ceil(1_000_000_000)
}

fn watts(microwatts: u128) -> Watts {
    let count = i128::try_from(microwatts).ok().and_then(|count| count.checked_mul(1_000_000_000));
    count.and_then(Watts::new).unwrap_or(Watts::MAX)
}
