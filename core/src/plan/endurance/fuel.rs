//! How long a tank lasts.

use std::fmt;

use super::run::run;
use super::{DECIDES, Day, DayLoad, Endurance, EnduranceError, Figure, MILLION, at_most_whole, check, microwatts};
use crate::plan::{Answer, Known, Question};
use crate::quantity::{Ratio, Watts};
use crate::trade::words;

words! {
    /// What fuel is measured in.
    pub enum FuelUnit: "unit of fuel" {
        /// US gallon.
        Gallon = "gal" | "gallon" | "gallons",
        /// Liter.
        Liter = "L" | "l" | "liter" | "liters",
        /// Pound.
        Pound = "lb" | "pound" | "pounds",
        /// Kilogram.
        Kilogram = "kg" | "kilogram" | "kilograms",
        /// Cubic foot of gas.
        CubicFoot = "ft3" | "ft³" | "cubic feet",
        /// British thermal unit.
        Btu = "Btu" | "BTU",
    }
}

/// An amount of fuel: exact to a millionth of its unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct FuelAmount {
    /// Millionths of the unit.
    pub millionths: u64,
    /// The unit.
    pub unit: FuelUnit,
}

/// A point of the maker's fuel table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FuelPoint {
    /// The load as a share of the rated power.
    pub load: Ratio,
    /// The fuel of one hour at that load.
    pub per_hour: FuelAmount,
}

/// An engine with a tank.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Engine {
    /// Its name, for reports.
    pub name: String,
    /// The power that the points of its fuel table are shares of.
    pub rated: Watts,
    /// What it gives where it stands: see [`super::derated`].
    pub gives: Watts,
    /// The points of its fuel table, from the least load; between two of them fuel use is taken as a straight line.
    pub points: Vec<FuelPoint>,
    /// What the tank holds at the start.
    pub tank: Known<FuelAmount>,
    /// The share of that which must be left; [`Known::DoesNotApply`] for none.
    pub reserve: Known<Ratio>,
}

/// How long a tank lasts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FuelHours {
    /// The time.
    pub endurance: Endurance,
    /// Whether it lasts at least so long: some hour's load is below the least point of the table, whose use was
    /// counted, for an engine never burns more at less load. Nothing is extrapolated.
    pub at_least: bool,
}

/// How long a tank lasts under loads.
///
/// # Errors
/// [`EnduranceError`] for an input that cannot be, also for a load above what the engine gives.
pub fn fuel_hours(
    engine: &Engine,
    loads: &[DayLoad],
    start_hour: u8,
    figure: Figure,
) -> Result<Answer<FuelHours>, EnduranceError> {
    let mut questions = check(loads, start_hour, figure)?;
    engine.check()?;
    for (missing, fact) in [
        (!matches!(engine.tank, Known::Stated(_)), "the fuel in the tank"),
        (engine.reserve == Known::NotStated, "the fuel reserve"),
        (engine.points.is_empty(), "the fuel use at part load"),
    ] {
        if missing {
            questions.push(Question::new(&engine.name, fact, DECIDES));
        }
    }
    let worst = Day::new(loads, Figure::Worst).greatest();
    if worst > engine.gives {
        return Err(EnduranceError::Overloaded { of: engine.name.clone(), load: worst, most: engine.gives });
    }
    let day = Day::new(loads, figure);
    let share = |point: Option<&FuelPoint>| {
        point.map_or(0, |point| u128::from(point.load.count_of_millionths().unsigned_abs()))
    };
    let rated = microwatts(engine.rated);
    // Loads are µW times millionths, so that a share of the rating needs no division.
    if day.0.iter().any(|load| *load > share(engine.points.last()) * rated) && !engine.points.is_empty() {
        questions.push(Question::new(&engine.name, "the fuel use above the greatest load of its table", DECIDES));
    }
    let (Some(tank), true) = (engine.tank.stated(), questions.is_empty()) else {
        return Ok(Answer::CannotTell(questions));
    };
    let kept = engine.reserve.stated().map_or(0, |reserve| u128::from(reserve.count_of_millionths().unsigned_abs()));
    let at_least = day.0.iter().any(|load| *load < share(engine.points.first()) * rated);
    // Fuel in 10⁻¹² of the unit; per millisecond in 10⁻¹⁸ of 1/3.6, so the tank is brought to hours in milliseconds.
    let available = u128::from(tank.millionths) * (MILLION - kept) * 3_600_000 * MILLION;
    let rate = |load: u128| engine.use_of(load, rated);
    let endurance = run(available, &day, start_hour, None, rate);
    Ok(Answer::Told(FuelHours { endurance, at_least }))
}

impl Engine {
    /// The fuel of one hour in 10⁻¹⁸ of the unit, rounded up.
    fn use_of(&self, load: u128, rated: u128) -> u128 {
        let scaled = |point: &FuelPoint| u128::from(point.per_hour.millionths) * MILLION * MILLION;
        let at = |point: &FuelPoint| u128::from(point.load.count_of_millionths().unsigned_abs()) * rated;
        let mut below: Option<&FuelPoint> = None;
        for point in &self.points {
            match below {
                _ if load > at(point) => {}
                None => return scaled(point),
                Some(below) => {
                    let (from, to) = (at(below), at(point));
                    let rise = u128::from(point.per_hour.millionths - below.per_hour.millionths);
                    // Shares of the span in millionths, rounded up, keep the product within 128 bits.
                    let part = ((load - from) * MILLION).div_ceil((to - from).max(1)).min(MILLION);
                    let exact = rise.checked_mul(MILLION * MILLION).and_then(|rise| rise.checked_mul(load - from));
                    let more =
                        exact.map_or_else(|| rise * part * MILLION, |product| product.div_ceil((to - from).max(1)));
                    return scaled(below) + more;
                }
            }
            below = Some(point);
        }
        below.map_or(0, scaled)
    }

    fn check(&self) -> Result<(), EnduranceError> {
        if self.rated == Watts::MIN {
            return Err(EnduranceError::NoRating { of: self.name.clone() });
        }
        if let Known::Stated(reserve) = self.reserve {
            at_most_whole(&self.name, "the fuel reserve", reserve)?;
        }
        let rises = |pair: &[FuelPoint]| match pair {
            [a, b] => {
                a.load < b.load && a.per_hour.millionths <= b.per_hour.millionths && a.per_hour.unit == b.per_hour.unit
            }
            _ => true,
        };
        if !self.points.windows(2).all(rises) {
            return Err(EnduranceError::PointsNotRising { of: self.name.clone() });
        }
        if let (Known::Stated(tank), Some(point)) = (self.tank, self.points.first())
            && tank.unit != point.per_hour.unit
        {
            return Err(EnduranceError::TwoUnits { of: self.name.clone(), tank: tank.unit, used: point.per_hour.unit });
        }
        Ok(())
    }
}

impl FuelAmount {
    /// From thousandths of a unit.
    #[must_use]
    pub const fn thousandths(thousandths: u32, unit: FuelUnit) -> Self {
        Self { millionths: thousandths as u64 * 1000, unit }
    }
}

impl fmt::Display for FuelAmount {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let number = rust_decimal::Decimal::from_i128_with_scale(i128::from(self.millionths), 6).normalize();
        write!(out, "{number} {}", self.unit)
    }
}
