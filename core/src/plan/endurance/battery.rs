//! How long a charge lasts.

use super::run::run;
use super::{DECIDES, Day, DayLoad, Endurance, EnduranceError, Figure, MILLION, at_most_whole, check, microwatts};
use crate::plan::{Answer, Known, Question};
use crate::quantity::{Quantity, Ratio, Seconds, WattHours, Watts};

/// A battery with its inverter, or a vehicle that gives power.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Battery {
    /// Its name, for reports.
    pub name: String,
    /// The energy from full to empty.
    pub capacity: Known<WattHours>,
    /// The state of charge at the start.
    pub charge: Known<Ratio>,
    /// The state of charge that must be left; [`Known::DoesNotApply`] for none.
    pub reserve: Known<Ratio>,
    /// The state of charge at which the source switches itself off; [`Known::DoesNotApply`] for none.
    pub shut_off_charge: Known<Ratio>,
    /// What of the battery's energy reaches the loads; [`Known::DoesNotApply`] where the capacity is given at the
    /// outlet.
    pub efficiency: Known<Ratio>,
    /// What the battery gives all the time, loads or not; [`Known::DoesNotApply`] for nothing.
    pub idle: Known<Watts>,
    /// The time after which the source switches itself off; [`Known::DoesNotApply`] for none.
    pub timer: Known<Seconds>,
}

/// How long a charge lasts: available energy times efficiency, over the loads plus the idle draw times efficiency.
///
/// Available is capacity times charge above the reserve or above the source's own shut-off, whichever is higher. The
/// Peukert effect, ageing and cold are left out: state a smaller capacity for them.
///
/// ```
/// use loadworthy::plan::{Answer, Known, endurance::*};
/// // 12 V and 100 Ah, half of it usable, 50 W: 12 hours.
/// let battery = Battery {
///     capacity: Known::Stated("1200 Wh".parse()?),
///     charge: Known::Stated("100 %".parse()?),
///     reserve: Known::Stated("50 %".parse()?),
///     shut_off_charge: Known::DoesNotApply,
///     efficiency: Known::DoesNotApply,
///     idle: Known::DoesNotApply,
///     timer: Known::DoesNotApply,
///     name: "battery".to_owned(),
/// };
/// let light = DayLoad { name: "light".to_owned(), power: "50 W".parse()?, on: Known::DoesNotApply };
/// let Answer::Told(told) = battery_hours(&battery, &[light], 18, Figure::Worst)? else { return Err("asked".into()) };
/// assert_eq!((told.time, told.end), ("12 h".parse()?, End::Reserve));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`EnduranceError`] for an input that cannot be.
pub fn battery_hours(
    battery: &Battery,
    loads: &[DayLoad],
    start_hour: u8,
    figure: Figure,
) -> Result<Answer<Endurance>, EnduranceError> {
    let mut questions = check(loads, start_hour, figure)?;
    questions.extend(battery.questions());
    battery.check()?;
    let (Some(capacity), Some(charge), true) =
        (battery.capacity.stated(), battery.charge.stated(), questions.is_empty())
    else {
        return Ok(Answer::CannotTell(questions));
    };
    let millionths = |ratio: Ratio| u128::from(ratio.count_of_millionths().unsigned_abs());
    let floor = battery.reserve.stated().max(battery.shut_off_charge.stated()).map_or(0, millionths);
    let efficiency = battery.efficiency.stated().map_or(MILLION, millionths);
    let idle = battery.idle.stated().map_or(0, microwatts);
    // Energy in nJ, rounded down; with charge and efficiency in millionths it fits: 10²⁶ · 10⁶ · 10⁶.
    let nanojoules = capacity.count().unsigned_abs() / 1_000_000_000;
    let available = nanojoules * millionths(charge).saturating_sub(floor) * efficiency;
    let day = Day::new(loads, figure);
    // µW for one ms is one nJ; the loads carry their share in millionths, the idle draw the efficiency.
    let rate = |load: u128| load * MILLION + idle * efficiency * MILLION;
    Ok(Answer::Told(run(available, &day, start_hour, battery.timer.stated(), rate)))
}

/// The loads to drop, from the last of the list on, so that the rest lasts `wish`; `None` where not even no load does.
///
/// List the loads from the most to the least important.
///
/// # Errors
/// [`EnduranceError`] for an input that cannot be.
pub fn drop_to_reach(
    battery: &Battery,
    loads: &[DayLoad],
    start_hour: u8,
    figure: Figure,
    wish: Seconds,
) -> Result<Answer<Option<Vec<usize>>>, EnduranceError> {
    for kept in (0..=loads.len()).rev() {
        match battery_hours(battery, loads.get(..kept).unwrap_or(loads), start_hour, figure)? {
            Answer::CannotTell(questions) => return Ok(Answer::CannotTell(questions)),
            Answer::Told(told) if told.time >= wish => return Ok(Answer::Told(Some((kept..loads.len()).collect()))),
            Answer::Told(_) => {}
        }
    }
    Ok(Answer::Told(None))
}

impl Battery {
    fn questions(&self) -> Vec<Question> {
        let missing = [
            (!matches!(self.capacity, Known::Stated(_)), "the capacity"),
            (!matches!(self.charge, Known::Stated(_)), "the state of charge"),
            (self.reserve == Known::NotStated, "the reserve"),
            (self.shut_off_charge == Known::NotStated, "the charge at which it switches itself off"),
            (self.efficiency == Known::NotStated, "the efficiency"),
            (self.idle == Known::NotStated, "the idle draw"),
            (self.timer == Known::NotStated, "the time after which it switches itself off"),
        ];
        let missing = missing.into_iter().filter(|(missing, _)| *missing);
        missing.map(|(_, fact)| Question::new(&self.name, fact, DECIDES)).collect()
    }

    fn check(&self) -> Result<(), EnduranceError> {
        for (ratio, what) in [
            (self.charge, "the state of charge"),
            (self.reserve, "the reserve"),
            (self.shut_off_charge, "the charge at which it switches itself off"),
            (self.efficiency, "the efficiency"),
        ] {
            if let Known::Stated(ratio) = ratio {
                at_most_whole(&self.name, what, ratio)?;
            }
        }
        if self.efficiency == Known::Stated(Ratio::MIN) {
            return Err(EnduranceError::NoEfficiency { of: self.name.clone() });
        }
        Ok(())
    }
}
