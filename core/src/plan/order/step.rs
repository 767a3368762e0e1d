//! One start: the currents, the share of the source and the voltages while it lasts.

use std::fmt;

use super::{OrderError, Source, Starter, check};
use crate::plan::dip::{DipLoad, Legs, Sag};
use crate::plan::exact::Exact;
use crate::plan::{Known, Question, Verdict};
use crate::quantity::{Amperes, Ohms, Ratio, Rounding, Seconds, VoltAmperes, Volts};
use crate::trade::Leg;

/// One start, while it lasts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// The loads that start, by index.
    pub starting: Vec<usize>,
    /// The current of leg A and of leg B, rounded up.
    pub current: [Amperes; 2],
    /// The apparent power in total, rounded up.
    pub total: VoltAmperes,
    /// The greater leg's running current after the start as a share of what it carries for hours, rounded up;
    /// `None` where that is not stated.
    pub share: Option<Ratio>,
    /// The voltage of leg A and of leg B, rounded down; `None` where the impedance is not stated.
    pub voltage: Option<[Volts; 2]>,
    /// The voltage at each load that starts, behind its own way, rounded down; empty where it cannot be told.
    pub at_load: Vec<Volts>,
    /// The limits that are broken.
    pub broken: Vec<LimitBroken>,
    /// What is missing to judge it.
    pub questions: Vec<Question>,
}

/// A limit that a start breaks.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum LimitBroken {
    /// Running current above what a leg carries for hours.
    Continuous {
        /// The leg.
        leg: Leg,
        /// By how much.
        over: Amperes,
    },
    /// Current above what a leg carries for a start.
    Surge {
        /// The leg.
        leg: Leg,
        /// By how much.
        over: Amperes,
    },
    /// Running power above what the source carries for hours.
    ContinuousTotal {
        /// By how much.
        over: VoltAmperes,
    },
    /// Power above what the source carries for a start.
    SurgeTotal {
        /// By how much.
        over: VoltAmperes,
    },
    /// A start that lasts longer than the surge.
    SurgeTime {
        /// The load, by name.
        load: String,
        /// How long its start lasts.
        start: Seconds,
        /// How long the source carries a surge.
        limit: Seconds,
    },
    /// A voltage below what a load bears.
    Dip {
        /// The load, by name.
        load: String,
        /// Its voltage, rounded down.
        voltage: Volts,
        /// How far it may dip.
        limit: Ratio,
    },
}

impl Step {
    /// Whether the start holds.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        match (self.broken.is_empty(), self.questions.is_empty()) {
            (false, _) => Verdict::Fails,
            (true, false) => Verdict::CannotTell,
            (true, true) => Verdict::Holds,
        }
    }
}

impl fmt::Display for LimitBroken {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Continuous { leg, over } => {
                write!(out, "leg {leg} carries {over} more than the source gives for hours")
            }
            Self::Surge { leg, over } => write!(out, "leg {leg} carries {over} more than the source gives for a start"),
            Self::ContinuousTotal { over } => write!(out, "the source gives {over} more than it does for hours"),
            Self::SurgeTotal { over } => write!(out, "the source gives {over} more than it does for a start"),
            Self::SurgeTime { load, start, limit } => {
                write!(out, "`{load}` starts for {start}, the source gives its surge for {limit}")
            }
            Self::Dip { load, voltage, limit } => {
                write!(out, "the voltage of `{load}` dips to {voltage}, more than by {limit}")
            }
        }
    }
}

/// Judges one start: loads that start at the same moment while others, and the base, run.
///
/// # Errors
/// [`OrderError`] for a source or load that cannot be, or an index that is not there.
pub fn judge(
    source: &Source,
    loads: &[Starter],
    base: &[Starter],
    running: &[usize],
    starting: &[usize],
) -> Result<Step, OrderError> {
    check(source, loads, base)?;
    if let Some(&index) = running.iter().chain(starting).find(|index| **index >= loads.len()) {
        return Err(OrderError::NotToStart { index });
    }
    Ok(step(source, loads, base, running, starting))
}

const DECIDES: &str = "whether the start holds";
const LEGS: [Leg; 2] = [Leg::A, Leg::B];

pub(super) fn step(
    source: &Source,
    loads: &[Starter],
    base: &[Starter],
    running: &[usize],
    starting: &[usize],
) -> Step {
    let chosen = |indices: &[usize]| indices.iter().filter_map(|index| loads.get(*index)).collect::<Vec<_>>();
    let starters = chosen(starting);
    let mut runners = chosen(running);
    runners.extend(base);
    let mut found = Step {
        starting: starting.to_vec(),
        current: [Amperes::ZERO; 2],
        total: VoltAmperes::MIN,
        share: None,
        voltage: None,
        at_load: Vec::new(),
        broken: Vec::new(),
        questions: Vec::new(),
    };
    for load in &starters {
        if load.start == Known::NotStated {
            found.questions.push(Question::new(&load.name, "the starting current", DECIDES));
        }
    }
    let mut surges = false;
    for (index, leg) in LEGS.into_iter().enumerate() {
        let on_leg = |load: &&&Starter| load.leg == leg || load.leg == Leg::Both;
        let before = sum(runners.iter().filter(on_leg).map(|load| load.running.current), Amperes::MAX);
        let after = add(before, sum(starters.iter().filter(on_leg).map(|load| load.running.current), Amperes::MAX));
        let during = add(before, sum(starters.iter().filter(on_leg).map(|load| start_current(load)), Amperes::MAX));
        if let Some(current) = found.current.get_mut(index) {
            *current = during.rounded(Rounding::Up, Amperes::MAX);
        }
        let limits = (source.continuous, source.surge);
        let outcome = against(after, during, limits);
        let share = source.continuous.stated().and_then(|most| share(after, most));
        found.share = found.share.max(share);
        outcome.report(&mut found, source, ("the continuous current", "the surge current"), |over, surge| {
            let over = over.rounded(Rounding::Up, Amperes::MAX);
            if surge { LimitBroken::Surge { leg, over } } else { LimitBroken::Continuous { leg, over } }
        });
        surges |= outcome.above_continuous;
    }
    surges |= total(&mut found, source, &runners, &starters);
    if surges {
        surge_time(&mut found, source, &starters);
    }
    voltages(&mut found, source, &runners, &starters);
    found.questions.sort_unstable();
    found.questions.dedup();
    found
}

/// What a start draws in each line: never less than the load runs with.
fn start_current(load: &Starter) -> Exact {
    let running = load.running.current;
    match load.start {
        Known::Stated(start) if Exact::of(start.current).fraction() > running.fraction() => Exact::of(start.current),
        _ => running,
    }
}

/// The same as apparent power: the current at the load's rated voltage, or what it runs with.
fn start_apparent(load: &Starter) -> Exact {
    let running = load.running.apparent;
    match load.start {
        Known::Stated(start) => {
            let apparent = Exact::of(load.rated * start.current);
            if apparent.fraction() > running.fraction() { apparent } else { running }
        }
        Known::DoesNotApply | Known::NotStated => running,
    }
}

fn total(found: &mut Step, source: &Source, runners: &[&Starter], starters: &[&Starter]) -> bool {
    let most = VoltAmperes::MAX;
    let before = sum(runners.iter().map(|load| load.running.apparent), most);
    let after = add(before, sum(starters.iter().map(|load| load.running.apparent), most));
    let during = add(before, sum(starters.iter().map(|load| start_apparent(load)), most));
    found.total = during.rounded(Rounding::Up, most);
    let outcome = against(after, during, (source.continuous_total, source.surge_total));
    outcome.report(found, source, ("the continuous apparent power", "the surge apparent power"), |over, surge| {
        let over = over.rounded(Rounding::Up, most);
        if surge { LimitBroken::SurgeTotal { over } } else { LimitBroken::ContinuousTotal { over } }
    });
    outcome.above_continuous
}

/// What comes of a running and a starting demand against a continuous and a surge limit.
#[derive(Default)]
struct Outcome {
    above_continuous: bool,
    continuous_over: Option<Exact>,
    surge_over: Option<Exact>,
    continuous_missing: bool,
    surge_missing: bool,
}

fn against<Q: crate::quantity::Quantity>(
    after: Exact,
    during: Exact,
    (continuous, surge): (Known<Q>, Known<Q>),
) -> Outcome {
    let mut outcome = Outcome::default();
    let is_over = |demand: Exact, limit: Q| demand.fraction() > Exact::of(limit).fraction();
    let over = |demand: Exact, limit: Q| demand.minus(Exact::of(limit)).unwrap_or(demand);
    match continuous {
        // A limit that does not apply is not broken, and the surge has its own.
        Known::DoesNotApply => {}
        Known::NotStated => outcome.continuous_missing = true,
        Known::Stated(limit) => {
            outcome.continuous_over = is_over(after, limit).then(|| over(after, limit));
            outcome.above_continuous = is_over(during, limit);
            if !outcome.above_continuous {
                return outcome;
            }
            if surge == Known::DoesNotApply {
                outcome.surge_over = Some(over(during, limit));
            }
        }
    }
    match surge {
        Known::Stated(limit) => outcome.surge_over = is_over(during, limit).then(|| over(during, limit)),
        // Nothing says that the start stays below what the source carries for hours.
        Known::NotStated => outcome.surge_missing = true,
        Known::DoesNotApply => {}
    }
    outcome
}

impl Outcome {
    fn report(
        &self,
        found: &mut Step,
        source: &Source,
        facts: (&'static str, &'static str),
        broken: impl Fn(Exact, bool) -> LimitBroken,
    ) {
        found.broken.extend(self.continuous_over.map(|over| broken(over, false)));
        found.broken.extend(self.surge_over.map(|over| broken(over, true)));
        for (missing, fact) in [(self.continuous_missing, facts.0), (self.surge_missing, facts.1)] {
            if missing {
                found.questions.push(Question::new(&source.name, fact, DECIDES));
            }
        }
    }
}

/// A surge above the continuous rating must not last longer than the source gives it.
fn surge_time(found: &mut Step, source: &Source, starters: &[&Starter]) {
    for load in starters {
        let Known::Stated(start) = load.start else { continue };
        match (start.time, source.surge_time) {
            (Known::Stated(time), Known::Stated(limit)) if time > limit => {
                found.broken.push(LimitBroken::SurgeTime { load: load.name.clone(), start: time, limit });
            }
            // A source that gives its surge for as long as it is asked to.
            (_, Known::DoesNotApply) | (Known::Stated(_), Known::Stated(_)) => {}
            (Known::Stated(_), Known::NotStated) => {
                found.questions.push(Question::new(&source.name, "the time that the surge lasts", DECIDES));
            }
            (Known::NotStated | Known::DoesNotApply, _) => {
                found.questions.push(Question::new(&load.name, "the time that the start lasts", DECIDES));
            }
        }
    }
}

fn voltages(found: &mut Step, source: &Source, runners: &[&Starter], starters: &[&Starter]) {
    let all = || runners.iter().chain(starters);
    for load in all().filter(|load| load.dip == Known::NotStated) {
        found.questions.push(Question::new(&load.name, "the dip of voltage that it bears", DECIDES));
    }
    let Known::Stated(impedance) = source.impedance else {
        let judged = all().any(|load| matches!(load.dip, Known::Stated(_)));
        // An impedance that does not apply is a source that holds its voltage.
        if source.impedance == Known::NotStated && judged {
            found.questions.push(Question::new(&source.name, "the internal impedance", DECIDES));
        }
        return;
    };
    let sag_of = |which: Leg| {
        let of_these = |load: &&&Starter| load.leg == which;
        let run = runners.iter().filter(of_these).map(|load| (load, load.running.current, load.factor));
        let start = starters.iter().filter(of_these).map(|load| {
            let factor = load.start.stated().map_or(load.factor, |start| start.factor);
            (load, start_current(load), factor)
        });
        run.chain(start).try_fold(Sag::new(impedance), |sag, (load, current, factor)| {
            let current = current.rounded(Rounding::Up, Amperes::MAX);
            // Seen from one leg, a load between the legs has half its voltage.
            let rated = if load.leg == Leg::Both { half(load.rated) } else { load.rated };
            sag.with(DipLoad { current, rated, factor })
        })
    };
    let (Some(a), Some(b), Some(between)) = (sag_of(Leg::A), sag_of(Leg::B), sag_of(Leg::Both)) else { return };
    let legs = Legs::new(a, b, between);
    let leg_volts = source.no_load;
    let line_volts = leg_volts.checked_add(leg_volts).unwrap_or(Volts::MAX);
    let behind = |load: &Starter| match load.leg {
        Leg::A => (legs.a, leg_volts),
        Leg::B => (legs.b, leg_volts),
        _ => (legs.between, line_volts),
    };
    found.voltage = Some([legs.a.voltage(leg_volts), legs.b.voltage(leg_volts)]);
    let at_load = |load: &Starter, current: Exact| {
        let (sag, no_load) = behind(load);
        let drop = (current.rounded(Rounding::Up, Amperes::MAX) * load.branch).to_volts().unwrap_or(Volts::MAX);
        sag.voltage(no_load).checked_sub(drop).unwrap_or(Volts::MIN)
    };
    found.at_load = starters.iter().map(|load| at_load(load, start_current(load))).collect();
    let running = runners.iter().map(|load| (load, load.running.current));
    for (load, current) in running.chain(starters.iter().map(|load| (load, start_current(load)))) {
        let Known::Stated(limit) = load.dip else { continue };
        let voltage = at_load(load, current);
        // Behind a way of its own the millivolts rounded down decide.
        let holds = if load.branch == Ohms::ZERO {
            let (sag, no_load) = behind(load);
            sag.compare(no_load, load.rated, limit).is_ge()
        } else {
            bears(voltage, load.rated, limit)
        };
        if !holds {
            found.broken.push(LimitBroken::Dip { load: load.name.clone(), voltage, limit });
        }
    }
}

fn bears(voltage: Volts, rated: Volts, dip: Ratio) -> bool {
    let left = 1_000_000 - i128::from(dip.count_of_millionths());
    i128::from(voltage.millivolts()) * 1_000_000 >= i128::from(rated.millivolts()) * left
}

/// Half a voltage, rounded down: a load then counts with slightly more admittance.
fn half(volts: Volts) -> Volts {
    Volts::new(volts.millivolts() / 2).unwrap_or(Volts::MIN)
}

/// The running current as a share, rounded up to a millionth.
fn share(current: Exact, most: Amperes) -> Option<Ratio> {
    let share = current.times(Exact::new(1_000_000, u128::from(most.microamperes().unsigned_abs()))?)?;
    Some(share.rounded(Rounding::Up, Ratio::MAX))
}

/// The sum; where it cannot be held exactly, of draws rounded up.
fn sum<Q: crate::quantity::Quantity>(parts: impl Iterator<Item = Exact> + Clone, most: Q) -> Exact {
    let exact = parts.clone().try_fold(Exact::ZERO, Exact::plus);
    exact.unwrap_or_else(|| parts.fold(Exact::ZERO, |sum, part| add(sum, Exact::of(part.rounded(Rounding::Up, most)))))
}

fn add(a: Exact, b: Exact) -> Exact {
    a.plus(b).unwrap_or_else(|| a.rounded_up().plus(b.rounded_up()).unwrap_or(Exact::GREATEST))
}
