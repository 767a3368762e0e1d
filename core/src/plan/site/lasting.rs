//! How long the source lasts under the loads that are on, and what to drop to reach a wished time.

use super::candidate::Candidate;
use super::supply::Base;
use crate::plan::endurance::{
    Battery, Cycle, DayLoad, Endurance, EnduranceError, Engine, Figure, FuelPoint, battery_hours, fuel_hours,
};
use crate::plan::{Answer, Known, Question, Verdict};
use crate::quantity::{Ratio, Rounding, Seconds, Watts};
use crate::site::{Load, Source, SourceKind};

/// How long the source lasts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lasting {
    /// With the duty cycles and profiles that are stated.
    pub expected: Answer<Lasts>,
    /// With every load that is on at all in an hour on all of it.
    pub worst: Answer<Lasts>,
    /// The share that is left at the end; `None` where it is not stated.
    pub reserve: Option<Ratio>,
    /// What becomes of the time that is wished.
    pub wished: Option<Wished>,
}

/// A time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lasts {
    /// The time, what ends it, and the state hour by hour.
    pub endurance: Endurance,
    /// Whether it lasts at least so long: a load lies below the least point of the fuel table.
    pub at_least: bool,
}

/// Whether a wished time is reached, and what to drop where it is not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wished {
    /// The time.
    pub time: Seconds,
    /// Holds where it is reached even at worst, fails where not even as expected.
    pub verdict: Verdict,
    /// What to drop so that it is reached as expected, least important first; `None` where nothing that may be
    /// dropped helps.
    pub drop_expected: Option<Vec<String>>,
    /// The same at worst.
    pub drop_worst: Option<Vec<String>>,
}

/// What a source draws its energy from.
enum Store {
    Battery(Box<Battery>),
    Engine(Box<Engine>),
}

/// The time that the loads which are on may last.
pub(super) fn lasting(
    source: &Source,
    gives: Option<Watts>,
    on: &[&Candidate<'_>],
    base: &Base,
    (start_hour, wish): (u8, Option<Seconds>),
) -> Result<Lasting, EnduranceError> {
    let store = store(source, gives);
    let loads = |on: &[&Candidate<'_>]| -> Vec<DayLoad> {
        let own = on.iter().map(|one| day_load(one));
        own.chain(std::iter::once(base_load(base))).collect()
    };
    let time = |on: &[&Candidate<'_>], figure| match &store {
        Ok(Store::Battery(battery)) => Ok(match battery_hours(battery, &loads(on), start_hour, figure)? {
            Answer::Told(endurance) => Answer::Told(Lasts { endurance, at_least: false }),
            Answer::CannotTell(questions) => Answer::CannotTell(questions),
        }),
        Ok(Store::Engine(engine)) => Ok(match fuel_hours(engine, &loads(on), start_hour, figure)? {
            Answer::Told(told) => Answer::Told(Lasts { endurance: told.endurance, at_least: told.at_least }),
            Answer::CannotTell(questions) => Answer::CannotTell(questions),
        }),
        Err(question) => Ok(Answer::CannotTell(vec![question.clone()])),
    };
    let (expected, worst) = (time(on, Figure::Expected)?, time(on, Figure::Worst)?);
    let wished = match wish {
        None => None,
        Some(wish) => Some(Wished {
            time: wish,
            verdict: verdict(&expected, &worst, wish),
            drop_expected: drop(on, wish, |on| time(on, Figure::Expected))?,
            drop_worst: drop(on, wish, |on| time(on, Figure::Worst))?,
        }),
    };
    Ok(Lasting { expected, worst, reserve: source.reserve.map(|reserve| *reserve), wished })
}

fn reaches(answer: &Answer<Lasts>, wish: Seconds) -> Option<bool> {
    match answer {
        Answer::Told(told) => Some(told.endurance.time >= wish),
        Answer::CannotTell(_) => None,
    }
}

fn verdict(expected: &Answer<Lasts>, worst: &Answer<Lasts>, wish: Seconds) -> Verdict {
    match (reaches(expected, wish), reaches(worst, wish)) {
        (_, Some(true)) => Verdict::Holds,
        (Some(false), _) => Verdict::Fails,
        // As expected it is reached and at worst it is not, or a fact is missing.
        _ => Verdict::CannotTell,
    }
}

/// Drops the least important load that need not be on, until the time is reached.
fn drop(
    on: &[&Candidate<'_>],
    wish: Seconds,
    time: impl Fn(&[&Candidate<'_>]) -> Result<Answer<Lasts>, EnduranceError>,
) -> Result<Option<Vec<String>>, EnduranceError> {
    let mut left = on.to_vec();
    let mut dropped = Vec::new();
    while reaches(&time(&left)?, wish) != Some(true) {
        let free = left.iter().enumerate().filter(|(_, one)| one.wish != crate::plan::choose::Wish::Must);
        // Of equals the last listed goes first.
        let least = free.max_by_key(|(index, one)| (one.class, std::cmp::Reverse(one.weight), *index));
        let Some((index, one)) = least else { return Ok(None) };
        dropped.push(one.load.name.as_str().to_owned());
        left.remove(index);
    }
    Ok(Some(dropped))
}

fn day_load(one: &Candidate<'_>) -> DayLoad {
    let power = one.draw.map_or(Watts::MIN, |draw| draw.power(Rounding::Up));
    DayLoad { name: one.load.name.as_str().to_owned(), power, on: cycle(one.load) }
}

/// When a load draws. One that comes on by itself is asked for; one that people switch counts as on all the time.
fn cycle(load: &Load) -> Known<Cycle> {
    if let Some(share) = load.duty_cycle {
        return Known::Stated(Cycle::Share(*share));
    }
    if load.profile.is_empty() {
        return if load.automatic == Some(true) { Known::NotStated } else { Known::DoesNotApply };
    }
    let at = |hour: usize| {
        let begun = load.profile.iter().filter(|part| usize::from(part.hour.hour()) <= hour);
        // Before the first part of the day the last one of the day before still lasts.
        let part = begun.max_by_key(|part| part.hour).or_else(|| load.profile.iter().max_by_key(|part| part.hour));
        part.map_or(Ratio::ONE, |part| *part.share)
    };
    Known::Stated(Cycle::ByHour(Box::new(std::array::from_fn(at))))
}

fn base_load(base: &Base) -> DayLoad {
    DayLoad { name: "the base load".to_owned(), power: base.power, on: base.by_hour.clone() }
}

fn store(source: &Source, gives: Option<Watts>) -> Result<Store, Question> {
    let name = source.name.as_str().to_owned();
    let share =
        |share: Option<crate::quantity::Written<Ratio>>| share.map_or(Known::NotStated, |share| Known::Stated(*share));
    if source.kind == SourceKind::Generator {
        let (Some(rated), Some(gives)) = (source.continuous_power, gives) else {
            return Err(Question::new(&name, "the power that it gives for hours", "how long it lasts"));
        };
        let point = |point: &crate::site::FuelUse| FuelPoint { load: *point.load, per_hour: point.per_hour };
        return Ok(Store::Engine(Box::new(Engine {
            name,
            rated: *rated,
            gives,
            points: source.fuel_points.iter().map(point).collect(),
            tank: source.tank.map_or(Known::NotStated, Known::Stated),
            reserve: share(source.reserve),
        })));
    }
    let never = source.shuts_off_by_itself == Some(false);
    let capacity = source.energy_capacity.or(source.usable_energy);
    let charge = match (source.state_of_charge, source.energy_capacity) {
        (Some(charge), _) => Known::Stated(*charge),
        // What can be used is what is there now.
        (None, None) if capacity.is_some() => Known::Stated(Ratio::ONE),
        (None, _) => Known::NotStated,
    };
    let unstated = || if never { Known::DoesNotApply } else { Known::NotStated };
    Ok(Store::Battery(Box::new(Battery {
        name,
        capacity: capacity.map_or(Known::NotStated, |energy| Known::Stated(*energy)),
        charge,
        reserve: share(source.reserve),
        shut_off_charge: source.shut_off_charge.map_or_else(unstated, |charge| Known::Stated(*charge)),
        efficiency: share(source.efficiency),
        idle: source.idle_draw.map_or(Known::NotStated, |power| Known::Stated(*power)),
        timer: source
            .shut_off_time
            .map_or_else(|| if never { Known::DoesNotApply } else { Known::NotStated }, |time| Known::Stated(*time)),
    })))
}
