//! How the loads that are on are started, what comes on by itself, and an order that somebody else proposes.

use super::SitePlan;
use super::choice::{Refused, Search};
use crate::plan::order::{self, Automatic, Order, Starter, Step};
use crate::plan::{Question, Verdict};
use crate::quantity::{Amperes, Ratio, Seconds, VoltAmperes, Volts};
use crate::trade::Leg;

/// How loads are started.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Starts {
    /// Whether every start holds, and every one that comes by itself, alone or with another.
    pub verdict: Verdict,
    /// The starts in order.
    pub steps: Vec<StartStep>,
    /// Starts that come by themselves beside all others and do not hold.
    pub by_itself: Vec<StartStep>,
    /// All automatic loads at once beside all others, where that does not hold: what then happens.
    pub all_at_once: Option<StartStep>,
    /// All that comes on by itself when power returns, where that does not hold: open these first.
    pub on_return: Option<StartStep>,
}

/// An order that was proposed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JudgedOrder {
    /// The verdict.
    pub verdict: Verdict,
    /// Its starts.
    pub steps: Vec<StartStep>,
    /// The first that fails, counted from 1.
    pub first_failing: Option<usize>,
}

/// One start.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StartStep {
    /// What starts.
    pub loads: Vec<String>,
    /// The current of leg A and of leg B while it starts, rounded up.
    pub current: [Amperes; 2],
    /// The apparent power of the source while it starts, rounded up.
    pub total: VoltAmperes,
    /// The greater leg's running current after the start as a share of what it gives for hours, rounded up.
    pub share: Option<Ratio>,
    /// The voltage at each load that starts, rounded down; empty where it cannot be told.
    pub voltage: Vec<Volts>,
    /// How long to wait before the next; `None` where that is not stated.
    pub wait: Option<Seconds>,
    /// The verdict.
    pub verdict: Verdict,
    /// The limits that it breaks, in words.
    pub broken: Vec<String>,
}

/// Finds the order and judges what comes by itself.
pub(super) fn starts(search: &Search<'_, '_>, on: &[(usize, Leg)], answer: &mut SitePlan) -> Result<Starts, Refused> {
    let starters = search.starters(on);
    let (verdict, steps) = match order::order(search.source, &starters, search.base)? {
        Order::Found(steps) => (Verdict::Holds, steps),
        Order::CannotTell(steps, questions) => {
            ask(answer, questions);
            (Verdict::CannotTell, steps)
        }
        Order::Impossible(steps) => (Verdict::Fails, steps),
    };
    let together = order::automatic(search.source, &starters, search.base)?;
    let alone_and_pairs: Vec<&Step> = together.alone.iter().chain(&together.pairs).collect();
    for step in &alone_and_pairs {
        ask(answer, step.questions.clone());
    }
    let by_itself = alone_and_pairs.iter().map(|step| step.verdict()).fold(Verdict::Holds, Verdict::and);
    let unsaid = unsaid(search, on, &starters, answer)?;
    let show = |step: &Step| shown(step, &starters, search, on);
    let fails = |step: &Option<Step>| step.as_ref().filter(|step| step.verdict() == Verdict::Fails).map(show);
    Ok(Starts {
        verdict: verdict.and(by_itself).and(unsaid),
        steps: steps.iter().map(show).collect(),
        by_itself: alone_and_pairs.into_iter().map(show).collect(),
        all_at_once: fails(&together.all),
        on_return: fails(&pickup(search, on, &starters)?),
    })
}

/// Where it is not said whether a load comes on by itself, it does as far as the verdict goes; where that alone breaks
/// a limit, it is asked.
fn unsaid(
    search: &Search<'_, '_>,
    on: &[(usize, Leg)],
    starters: &[Starter],
    answer: &mut SitePlan,
) -> Result<Verdict, Refused> {
    let load = |index: usize| on.get(index).and_then(|(index, _)| search.candidates.get(*index)).map(|one| one.load);
    let is_unsaid = |index: &usize| load(*index).is_some_and(|load| load.automatic.is_none());
    let unsaid: Vec<usize> = (0..starters.len()).filter(is_unsaid).collect();
    let mut all = starters.to_vec();
    for index in &unsaid {
        if let Some(starter) = all.get_mut(*index) {
            starter.automatic = Automatic::ByItself;
        }
    }
    let together = order::automatic(search.source, &all, search.base)?;
    let failing = together.alone.iter().chain(&together.pairs).filter(|step| step.verdict() == Verdict::Fails);
    let mut verdict = Verdict::Holds;
    for index in failing.flat_map(|step| &step.starting).filter(|index| unsaid.contains(index)) {
        verdict = Verdict::CannotTell;
        if let Some(load) = load(*index) {
            ask(
                answer,
                vec![Question::new(
                    &load.name,
                    "whether it comes on by itself",
                    "whether it may start while all others run",
                )],
            );
        }
    }
    Ok(verdict)
}

/// All that comes on when power returns, while only the base runs.
fn pickup(search: &Search<'_, '_>, on: &[(usize, Leg)], starters: &[Starter]) -> Result<Option<Step>, Refused> {
    let mut all = starters.to_vec();
    for ((index, _), starter) in on.iter().zip(&mut all) {
        if search.candidates.get(*index).is_some_and(|one| one.load.starts_with_power == Some(true)) {
            starter.automatic = Automatic::ByItself;
        }
    }
    Ok(order::automatic(search.source, &all, search.base)?.pickup)
}

/// Judges an order of starts by the names of the loads.
pub(super) fn judged(
    search: &Search<'_, '_>,
    on: &[(usize, Leg)],
    names: &[String],
    answer: &mut SitePlan,
) -> Result<JudgedOrder, Refused> {
    let mut set: Vec<(usize, Leg)> = Vec::new();
    for name in names {
        let named = search.candidates.iter().position(|one| one.load.name.as_str() == name);
        let Some(index) = named else {
            return Err(Refused::NoSuchLoad(format!("`{name}` of the start order is not a load of the source")));
        };
        let leg = on.iter().find(|(other, _)| *other == index).map(|(_, leg)| *leg);
        let leg = leg.or_else(|| search.candidates.get(index).and_then(|one| one.fixed_leg()));
        match leg {
            Some(leg) => set.push((index, leg)),
            None => {
                return Err(Refused::NoSuchLoad(format!(
                    "`{name}` of the start order is not in the plan; state its leg"
                )));
            }
        }
    }
    let starters = search.starters(&set);
    let order: Vec<usize> = (0..starters.len()).collect();
    let mut unique = set.iter().map(|(index, _)| *index).collect::<Vec<_>>();
    unique.sort_unstable();
    unique.dedup();
    if unique.len() < set.len() {
        return Err(Refused::NoSuchLoad("the start order names a load twice".to_owned()));
    }
    let judged = order::judge_order(search.source, &starters, search.base, &order)?;
    for step in &judged.steps {
        ask(answer, step.questions.clone());
    }
    Ok(JudgedOrder {
        verdict: judged.verdict,
        steps: judged.steps.iter().map(|step| shown(step, &starters, search, &set)).collect(),
        first_failing: judged.first_failing.map(|index| index + 1),
    })
}

/// The question of a starting current is asked by the load itself, which knows what would answer it.
fn ask(answer: &mut SitePlan, questions: Vec<Question>) {
    answer.questions.extend(questions.into_iter().filter(|question| question.fact != "the starting current"));
}

fn shown(step: &Step, starters: &[Starter], search: &Search<'_, '_>, on: &[(usize, Leg)]) -> StartStep {
    let load = |index: &usize| on.get(*index).and_then(|(index, _)| search.candidates.get(*index)).map(|one| one.load);
    let waits = step.starting.iter().filter_map(load).map(|load| load.settling_time.map(|time| *time));
    StartStep {
        loads: step.starting.iter().filter_map(|index| starters.get(*index)).map(|one| one.name.clone()).collect(),
        current: step.current,
        total: step.total,
        share: step.share,
        voltage: step.at_load.clone(),
        wait: waits.collect::<Option<Vec<_>>>().and_then(|times| times.into_iter().max()),
        verdict: step.verdict(),
        broken: step.broken.iter().map(ToString::to_string).collect(),
    }
}
