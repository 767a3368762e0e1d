//! The order in which loads are started, so that no start exceeds the source's surge or sags a running load.
//!
//! What a start demands only grows with what already runs: currents add up, and more load never raises the voltage.
//! So if any order holds, an order holds that ends with any load that can start last; taking such loads away one by
//! one finds an order, and being stuck proves that there is none.

mod automatic;
mod step;

use super::dip::Impedance;
use super::{Draw, Known, Question, Verdict};
use crate::quantity::{Amperes, Ohms, PowerFactor, Ratio, Seconds, VoltAmperes, Volts};
use crate::trade::Leg;

pub use automatic::{Together, automatic};
pub use step::{LimitBroken, Step, judge};

/// What is known of the source.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// Its name, for reports.
    pub name: String,
    /// What each leg carries for hours.
    pub continuous: Known<Amperes>,
    /// What each leg carries while a motor starts; [`Known::DoesNotApply`] where it carries no more than for hours.
    pub surge: Known<Amperes>,
    /// What it carries in total for hours.
    pub continuous_total: Known<VoltAmperes>,
    /// What it carries in total while a motor starts.
    pub surge_total: Known<VoltAmperes>,
    /// For how long it carries a surge.
    pub surge_time: Known<Seconds>,
    /// The voltage of a leg with nothing connected.
    pub no_load: Volts,
    /// The impedance of each leg, to the loads and back.
    pub impedance: Known<Impedance>,
}

/// A load that is to be started.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Starter {
    /// Its name, for reports.
    pub name: String,
    /// The leg that carries it.
    pub leg: Leg,
    /// Its rated voltage.
    pub rated: Volts,
    /// What it draws while it runs.
    pub running: Draw,
    /// Its power factor while it runs.
    pub factor: Option<PowerFactor>,
    /// What it draws while it starts; [`Known::DoesNotApply`] for a load without a starting current of its own.
    pub start: Known<Start>,
    /// How far its voltage may dip, as a share of its rated voltage; [`Known::DoesNotApply`] where no dip matters.
    pub dip: Known<Ratio>,
    /// Whether it comes on by itself: a thermostat, a float switch.
    pub automatic: Automatic,
    /// The resistance of its own way from where the source's impedance ends, there and back.
    pub branch: Ohms,
}

/// What a load draws while it starts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Start {
    /// The current in each line that it uses.
    pub current: Amperes,
    /// For how long.
    pub time: Known<Seconds>,
    /// Its power factor while it starts.
    pub factor: Option<PowerFactor>,
}

/// Whether a load comes on by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Automatic {
    /// Somebody switches it.
    ByHand,
    /// It cycles on by itself, at any time, also when power returns.
    ByItself,
}

/// The answer to the search for an order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Order {
    /// Each start in turn; every one holds.
    Found(Vec<Step>),
    /// An order in which no start is known to fail, and what must be known before it can be relied on.
    CannotTell(Vec<Step>, Vec<Question>),
    /// There is no order: none of these loads can be the last of them to start, each for its reasons.
    Impossible(Vec<Step>),
}

/// What comes of an order that somebody else proposes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judged {
    /// Every start in turn.
    pub steps: Vec<Step>,
    /// The verdict over all.
    pub verdict: Verdict,
    /// The first start that fails, as an index of `steps`.
    pub first_failing: Option<usize>,
}

/// A start that cannot be.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum OrderError {
    /// A surge below what it carries for hours.
    #[error("source `{source_name}` carries {surge} for a start and {continuous} for hours; the first cannot be less")]
    SurgeBelowContinuous {
        /// The source.
        source_name: String,
        /// What it carries for a start.
        surge: Amperes,
        /// What it carries for hours.
        continuous: Amperes,
    },
    /// The same in total.
    #[error("source `{source_name}` carries {surge} for a start and {continuous} for hours; the first cannot be less")]
    TotalSurgeBelowContinuous {
        /// The source.
        source_name: String,
        /// What it carries for a start.
        surge: VoltAmperes,
        /// What it carries for hours.
        continuous: VoltAmperes,
    },
    /// A load or a source without voltage.
    #[error("`{name}` has a voltage of 0 V")]
    NoVoltage {
        /// Its name.
        name: String,
    },
    /// A dip of more than everything.
    #[error("the voltage of `{load}` may dip by {dip}; write at most 100 %")]
    DipAboveAll {
        /// The load.
        load: String,
        /// The dip.
        dip: Ratio,
    },
    /// An order that names a load twice, or one that is not there.
    #[error("the order names load {index}, which is not there or was started before")]
    NotToStart {
        /// Its index.
        index: usize,
    },
}

/// Finds an order in which to start `loads` while `base` already runs, or shows that there is none.
///
/// ```
/// use loadworthy::plan::{Draw, Known, order::*};
/// use loadworthy::quantity::PowerFactor;
/// use loadworthy::trade::Leg;
///
/// let source = Source {
///     continuous: Known::Stated("25 A".parse()?),
///     surge: Known::Stated("40 A".parse()?),
///     surge_time: Known::Stated("5 s".parse()?),
///     ..Source::new("generator", "120 V".parse()?)
/// };
/// let heater = Starter::without_surge("heater", Leg::A, "120 V".parse()?, Draw::from_current("12 A".parse()?, "120 V".parse()?, PowerFactor::UNITY));
/// let pump = Starter {
///     start: Known::Stated(Start { current: "40 A".parse()?, time: Known::Stated("1 s".parse()?), factor: None }),
///     ..Starter::without_surge("pump", Leg::A, "120 V".parse()?, Draw::from_current("8 A".parse()?, "120 V".parse()?, PowerFactor::UNITY))
/// };
/// // The pump takes the whole surge, so it goes first, whatever the order of the list.
/// let Order::Found(steps) = order(&source, &[heater, pump], &[])? else { return Err("no order".into()) };
/// assert_eq!(steps.iter().map(|step| step.starting[0]).collect::<Vec<_>>(), [1, 0]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`OrderError`] for a source or load that cannot be.
pub fn order(source: &Source, loads: &[Starter], base: &[Starter]) -> Result<Order, OrderError> {
    check(source, loads, base)?;
    let mut stuck = Vec::new();
    for at_worst in [Verdict::Holds, Verdict::CannotTell] {
        match search(source, loads, base, at_worst) {
            Ok(steps) if at_worst == Verdict::Holds => return Ok(Order::Found(steps)),
            Ok(steps) => {
                let mut questions: Vec<_> = steps.iter().flat_map(|step| step.questions.clone()).collect();
                questions.sort_unstable();
                questions.dedup();
                return Ok(Order::CannotTell(steps, questions));
            }
            Err(steps) => stuck = steps,
        }
    }
    Ok(Order::Impossible(stuck))
}

/// Takes away, one by one, a load that can start last; the starts in order, or those that are all stuck.
fn search(source: &Source, loads: &[Starter], base: &[Starter], at_worst: Verdict) -> Result<Vec<Step>, Vec<Step>> {
    let mut left: Vec<usize> = (0..loads.len()).collect();
    let mut steps = Vec::new();
    while !left.is_empty() {
        let last = |index: &usize| {
            let running: Vec<usize> = left.iter().copied().filter(|other| other != index).collect();
            step::step(source, loads, base, &running, &[*index])
        };
        let candidates: Vec<Step> = left.iter().map(last).collect();
        // Of those that can be last the one with the least starting current, and then the last listed, so that large
        // motors tend to come first and equal loads keep the order of the list.
        let current =
            |step: &Step| step.starting.first().and_then(|index| loads.get(*index)).map(Starter::starting_current);
        let able = candidates.iter().rev().filter(|step| step.verdict() <= at_worst).min_by_key(|step| current(step));
        let Some(step) = able else { return Err(candidates) };
        left.retain(|index| !step.starting.contains(index));
        steps.push(step.clone());
    }
    steps.reverse();
    Ok(steps)
}

/// Whether [`order`] finds an order in which no start is known to fail; without saying which, so sooner.
///
/// # Errors
/// [`OrderError`] for a source or load that cannot be.
pub fn has_order(source: &Source, loads: &[Starter], base: &[Starter]) -> Result<bool, OrderError> {
    check(source, loads, base)?;
    let mut left: Vec<usize> = (0..loads.len()).collect();
    // A load that can start last can still do so when others are taken away, so each is taken away where it is met.
    while !left.is_empty() {
        let (before, mut at) = (left.len(), 0);
        while let Some(&index) = left.get(at) {
            left.remove(at);
            if step::step(source, loads, base, &left, &[index]).verdict() == Verdict::Fails {
                left.insert(at, index);
                at += 1;
            }
        }
        if left.len() == before {
            return Ok(false);
        }
    }
    Ok(true)
}

/// Judges an order that somebody else proposes: the loads by their indices.
///
/// # Errors
/// [`OrderError`] for a source or load that cannot be, and for an order that names a load twice or one that is not
/// there.
pub fn judge_order(
    source: &Source,
    loads: &[Starter],
    base: &[Starter],
    order: &[usize],
) -> Result<Judged, OrderError> {
    check(source, loads, base)?;
    let mut running = Vec::new();
    let mut steps = Vec::new();
    for &index in order {
        if index >= loads.len() || running.contains(&index) {
            return Err(OrderError::NotToStart { index });
        }
        steps.push(step::step(source, loads, base, &running, &[index]));
        running.push(index);
    }
    let verdict = steps.iter().map(Step::verdict).fold(Verdict::Holds, Verdict::and);
    let first_failing = steps.iter().position(|step| step.verdict() == Verdict::Fails);
    Ok(Judged { steps, verdict, first_failing })
}

pub(super) fn check(source: &Source, loads: &[Starter], base: &[Starter]) -> Result<(), OrderError> {
    let name = || source.name.clone();
    if let (Known::Stated(surge), Known::Stated(continuous)) = (source.surge, source.continuous)
        && surge < continuous
    {
        return Err(OrderError::SurgeBelowContinuous { source_name: name(), surge, continuous });
    }
    if let (Known::Stated(surge), Known::Stated(continuous)) = (source.surge_total, source.continuous_total)
        && surge < continuous
    {
        return Err(OrderError::TotalSurgeBelowContinuous { source_name: name(), surge, continuous });
    }
    let voltages = std::iter::once((&source.name, source.no_load))
        .chain(loads.iter().chain(base).map(|load| (&load.name, load.rated)));
    for (name, volts) in voltages {
        if volts == Volts::MIN {
            return Err(OrderError::NoVoltage { name: name.clone() });
        }
    }
    for load in loads.iter().chain(base) {
        if let Known::Stated(dip) = load.dip
            && dip > Ratio::ONE
        {
            return Err(OrderError::DipAboveAll { load: load.name.clone(), dip });
        }
    }
    Ok(())
}

impl Source {
    /// A source of which nothing else is known yet.
    #[must_use]
    pub fn new(name: &str, no_load: Volts) -> Self {
        Self {
            name: name.to_owned(),
            continuous: Known::NotStated,
            surge: Known::NotStated,
            continuous_total: Known::DoesNotApply,
            surge_total: Known::DoesNotApply,
            surge_time: Known::NotStated,
            no_load,
            impedance: Known::NotStated,
        }
    }
}

impl Starter {
    /// A load that somebody switches, without a starting current of its own, whose voltage may dip.
    #[must_use]
    pub fn without_surge(name: &str, leg: Leg, rated: Volts, running: Draw) -> Self {
        Self {
            name: name.to_owned(),
            leg,
            rated,
            running,
            factor: None,
            start: Known::DoesNotApply,
            dip: Known::DoesNotApply,
            automatic: Automatic::ByHand,
            branch: Ohms::ZERO,
        }
    }

    /// What it is known to draw while it starts, rounded up.
    fn starting_current(&self) -> Amperes {
        let running = self.running.current(crate::quantity::Rounding::Up);
        self.start.stated().map_or(running, |start| start.current.max(running))
    }
}
