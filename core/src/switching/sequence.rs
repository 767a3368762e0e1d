//! The order of switching of a described site: refused where something is prohibited, else found and proved.

use super::explore::{Exploration, KeptBy, TooManySwitches};
use super::goal::Goal;
use super::invariant::{Detail, Question};
use super::network::{DeviceId, Kind};
use super::procedure::Order;
use super::search::NoOrder;
use super::site::{Arrangement, Feeding, Open, Unmapped};
use super::state::State;
use super::steps::{StepProblems, Steps};
use super::verify::Judgement;
use crate::check::{Report, Verdict};
use crate::interrupt::Interrupt;
use crate::rules::{Finding, Outcome, Severity, Survey};
use crate::site::Component;

/// The orders of a site, or why there are none.
pub struct Sequence<'a> {
    /// What the rules found.
    pub report: &'a Report<'a>,
    /// What is prohibited: then there are no plans.
    pub prohibited: Vec<&'a Finding>,
    /// Why the site is not laid out as networks, where it is not: then nobody can tell.
    pub unmapped: Option<Unmapped>,
    /// The networks of the site.
    pub arrangements: Vec<Arrangement>,
    /// One plan a source.
    pub plans: Vec<Plan>,
    /// Facts that are missing for an order to be proved, each once.
    pub questions: Vec<Open>,
}

/// The orders of one source.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Plan {
    /// Which of the arrangements it belongs to.
    pub arrangement: usize,
    /// The source.
    pub source: DeviceId,
    /// What the arrangement makes possible; `None` where it could not be explored.
    pub explored: Option<Exploration>,
    /// The orders.
    pub answer: Result<Orders, NoPlan>,
}

/// The orders of one source, each proved.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Orders {
    /// From the normal state to the chosen loads on the source.
    pub connect: Order,
    /// From there to the building on the utility, the source still running without load; `None` where no building is fed.
    pub retransfer: Option<Order>,
    /// From there to the normal state: the source stopped and its cords apart.
    pub disconnect: Order,
    /// From the chosen loads on the source through a pause for fuel, back to them; `None` for a source without an engine,
    /// and where no such order is proved.
    pub refuel: Option<Order>,
}

/// Why a source has no orders.
#[derive(Clone, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum NoPlan {
    /// The arrangement itself makes a hazard possible, whatever order is recommended.
    #[error("the arrangement itself makes a hazard possible: no order of switching is given for it")]
    Arrangement,
    /// Facts are missing.
    #[error("facts are missing without which no order is proved")]
    CannotTell,
    /// No load is described that is to run on it.
    #[error("no load is described that is to run on it")]
    NoLoads,
    /// The arrangement is too large to explore.
    #[error(transparent)]
    TooManySwitches(#[from] TooManySwitches),
    /// Every order breaks an invariant, or none can be proved.
    #[error("no order to {0}: {1}")]
    Order(&'static str, NoOrder),
}

impl NoPlan {
    /// `Fails` where no order exists, `CannotTell` where none can be proved.
    #[must_use]
    pub const fn outcome(&self) -> Outcome {
        match self {
            Self::Arrangement | Self::Order(_, NoOrder::None | NoOrder::Start(_)) => Outcome::Fails,
            _ => Outcome::CannotTell,
        }
    }
}

/// Finds the orders of every source of a site that was checked.
///
/// ```
/// use loadworthy::{check::{WithWorking, check}, code::{Edition, Nec}, rules::Outcome, site::Site, switching::sequence};
/// let site = Site::from_toml("cottage.toml", include_str!("../../examples/cottage.toml"))?;
/// let report = check(&site, Nec::standard(Edition::Nec2023), WithWorking::No);
/// let found = sequence(&report);
/// assert_eq!(found.outcome(), Outcome::Holds);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn sequence<'a>(report: &'a Report<'a>) -> Sequence<'a> {
    sequence_unless(report, &Interrupt::never())
}

/// Finds the orders as [`sequence`] does, unless the search is interrupted: then those that were not found in time are
/// [`NoOrder::Stopped`], and what ends so is never a pass.
#[must_use]
pub fn sequence_unless<'a>(report: &'a Report<'a>, interrupt: &Interrupt) -> Sequence<'a> {
    let mut found = Sequence {
        report,
        prohibited: prohibited(report),
        unmapped: None,
        arrangements: Vec::new(),
        plans: Vec::new(),
        questions: Vec::new(),
    };
    if !found.prohibited.is_empty() {
        return found;
    }
    let survey = Survey::new(report.site, report.code);
    match Arrangement::of_site(&survey) {
        Ok(arrangements) => found.arrangements = arrangements,
        Err(error) => found.unmapped = Some(error),
    }
    for arrangement in &mut found.arrangements {
        arrangement.network.interrupt = interrupt.clone();
    }
    for (index, arrangement) in found.arrangements.iter().enumerate() {
        found.questions.extend(arrangement.questions.iter().cloned());
        let explored = arrangement.network.explore(&arrangement.normal);
        for feeding in &arrangement.feeding {
            let plan = plan(report, index, arrangement, feeding, &explored, &mut found.questions);
            found.plans.push(plan);
        }
    }
    let mut once: Vec<Open> = Vec::new();
    for open in found.questions.drain(..) {
        if !once.iter().any(|known| known.subject == open.subject && known.field == open.field) {
            once.push(open);
        }
    }
    found.questions = once;
    found
}

fn prohibited<'a>(report: &'a Report<'a>) -> Vec<&'a Finding> {
    let fails = |finding: &&Finding| finding.rule.severity == Severity::Prohibited && finding.outcome == Outcome::Fails;
    report.findings.iter().filter(fails).collect()
}

fn plan(
    report: &Report<'_>,
    index: usize,
    arrangement: &Arrangement,
    feeding: &Feeding,
    explored: &Result<Exploration, TooManySwitches>,
    questions: &mut Vec<Open>,
) -> Plan {
    let mut asked = |found: Vec<Question>| questions.extend(found.iter().filter_map(|one| arrangement.open(one)));
    let orders = orders(report, arrangement, feeding);
    // Whatever else stands in the way, everything that is missing is asked for at once.
    if let Err(NoPlan::Order(_, NoOrder::CannotTell(found))) = &orders {
        asked(found.clone());
    }
    if let Ok(explored) = explored {
        asked(explored.questions());
        if explored.hazards.iter().any(|hazard| hazard.kept_by == KeptBy::NotDescribed) {
            asked(arrangement.network.undescribed());
        }
    }
    let answer = match explored {
        Err(error) => Err(NoPlan::TooManySwitches(*error)),
        Ok(explored) if explored.outcome == Outcome::Fails => Err(NoPlan::Arrangement),
        Ok(explored) if explored.outcome == Outcome::CannotTell => Err(NoPlan::CannotTell),
        Ok(_) if !arrangement.questions.is_empty() => Err(NoPlan::CannotTell),
        Ok(_) => orders,
    };
    Plan { arrangement: index, source: feeding.source, explored: explored.clone().ok(), answer }
}

impl Exploration {
    fn questions(&self) -> Vec<Question> {
        // Of a load that is kept off nothing needs to be known.
        let missing = self.hazards.iter().filter_map(|hazard| match hazard.found.detail {
            Detail::Missing(question) if hazard.kept_by != KeptBy::KeptOff => Some(question),
            _ => None,
        });
        missing.collect()
    }
}

fn orders(report: &Report<'_>, arrangement: &Arrangement, feeding: &Feeding) -> Result<Orders, NoPlan> {
    if feeding.loads.is_empty() {
        return Err(NoPlan::NoLoads);
    }
    let (network, normal) = (&arrangement.network, &arrangement.normal);
    let find = |from: &State, goal: &Goal, name| network.order(from, goal).map_err(|error| NoPlan::Order(name, error));
    let last = |order: &Order| order.steps.last().map_or(order.start, |step| step.state);

    let fed = Goal::Fed { source: feeding.source, loads: feeding.loads.clone() };
    let connect = find(normal, &fed, "connect")?;
    let mut from = last(&connect);
    let retransfer = if feeding.building {
        let goal = Goal::Restored(on_utility(report, arrangement, &from));
        let order = find(&from, &goal, "return to the utility")?;
        from = last(&order);
        Some(order)
    } else {
        None
    };
    let disconnect = find(&from, &Goal::Restored(*normal), "disconnect")?;
    let engine = network.devices().any(|(device, _, kind)| {
        device == feeding.source && matches!(kind, Kind::Source(facts) if facts.engine == Some(true))
    });
    let fed = last(&connect);
    let refuel = if engine { network.refuel_order(&fed, feeding.source, &feeding.loads) } else { None };
    Ok(Orders { connect, retransfer, disconnect, refuel })
}

/// The building as it normally is, and what lies between the source and the building as it is now.
fn on_utility(report: &Report<'_>, arrangement: &Arrangement, now: &State) -> State {
    let mut state = arrangement.normal;
    state.hot = now.hot;
    for (device, _, kind) in arrangement.network.devices() {
        let before_building = arrangement.owner(device).is_some_and(|owner| {
            let own = report.site.component(owner);
            let mut way = own.into_iter().chain(report.site.upstream(owner));
            own.is_some() && !way.any(|component| matches!(component, Component::Transfer(_) | Component::Panel(_)))
        });
        if before_building && kind != Kind::Utility {
            let bit = arrangement.network.side_bit(device, None);
            state = state.with(bit, now.has(bit));
        }
    }
    state
}

impl Sequence<'_> {
    /// `Holds` where every source has its orders and the site is loadworthy; `Fails` where something is prohibited,
    /// an order does not exist, or the site is not loadworthy; `CannotTell` else.
    #[must_use]
    pub fn outcome(&self) -> Outcome {
        let of_plan = |plan: &Plan| plan.answer.as_ref().err().map_or(Outcome::Holds, NoPlan::outcome);
        let outcomes: Vec<Outcome> = self.plans.iter().map(of_plan).collect();
        let verdict = self.report.verdict();
        if !self.prohibited.is_empty() || outcomes.contains(&Outcome::Fails) || verdict == Verdict::NotLoadworthy {
            Outcome::Fails
        } else if outcomes.is_empty()
            || outcomes.contains(&Outcome::CannotTell)
            || verdict == Verdict::CannotTell
            || !self.questions.is_empty()
        {
            Outcome::CannotTell
        } else {
            Outcome::Holds
        }
    }
}

/// Somebody's own order, judged.
pub struct Verified<'a> {
    /// What the rules found.
    pub report: &'a Report<'a>,
    /// What is prohibited.
    pub prohibited: Vec<&'a Finding>,
    /// The network that the steps are about.
    pub arrangement: Arrangement,
    /// The steps as they were read.
    pub steps: Steps,
    /// What the arrangement makes possible; `None` where it could not be explored.
    pub explored: Option<Exploration>,
    /// What came of the steps, whatever the utility does meanwhile.
    pub judgement: Judgement,
    /// Facts that are missing, each once.
    pub questions: Vec<Open>,
}

/// Judges somebody's own order of a site that was checked. `file` is how problems of `text` are placed.
///
/// # Errors
/// Everything in the steps that makes no sense, with its place; or a site that cannot be laid out.
pub fn verify_steps<'a>(report: &'a Report<'a>, file: &str, text: &str) -> Result<Verified<'a>, StepProblems> {
    let survey = Survey::new(report.site, report.code);
    let (arrangement, steps) = Steps::read(&survey, file, text)?;
    let network = &arrangement.network;
    let judgement = network
        .verify_whatever_the_utility_does(&steps.start, &steps.operations)
        .map_err(|error| StepProblems::whole(file, &error))?;
    let explored = network.explore(&arrangement.normal).ok();
    let mut asked = judgement.questions.clone();
    if let Some(explored) = &explored {
        asked.extend(explored.questions());
    }
    let mut questions = arrangement.questions.clone();
    for open in asked.iter().filter_map(|question| arrangement.open(question)) {
        if !questions.iter().any(|known| known.subject == open.subject && known.field == open.field) {
            questions.push(open);
        }
    }
    Ok(Verified { report, prohibited: prohibited(report), arrangement, steps, explored, judgement, questions })
}

impl Verified<'_> {
    /// `Holds` where every step keeps every invariant, the arrangement makes no hazard possible and the site is
    /// loadworthy.
    #[must_use]
    pub fn outcome(&self) -> Outcome {
        let explored = self.explored.as_ref().map_or(Outcome::CannotTell, |explored| explored.outcome);
        let verdict = match self.report.verdict() {
            Verdict::Loadworthy => Outcome::Holds,
            Verdict::NotLoadworthy => Outcome::Fails,
            Verdict::CannotTell => Outcome::CannotTell,
        };
        let all = [self.judgement.outcome, explored, verdict];
        if all.contains(&Outcome::Fails) {
            Outcome::Fails
        } else if all.contains(&Outcome::CannotTell) || !self.questions.is_empty() {
            Outcome::CannotTell
        } else {
            Outcome::Holds
        }
    }
}
