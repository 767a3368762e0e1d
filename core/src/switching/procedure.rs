//! The whole answer: an arrangement proved, an order to connect, an order to return, and what a slip would do.

use super::explore::{Exploration, TooManySwitches};
use super::fault::{Fault, FaultKind};
use super::goal::Goal;
use super::invariant::Invariant;
use super::network::{DeviceId, Kind, Network};
use super::operation::Operation;
use super::search::{FoundOrder, NoOrder, Shortest};
use super::state::State;
use super::transition::{Effect, Refusal};
use crate::rules::Outcome;

/// An order to connect a source and an order to return to the utility, each proved.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Procedure {
    /// What the arrangement makes possible; its outcome holds, but what rests on a cover is listed.
    pub arrangement: Exploration,
    /// From the normal state to the chosen loads on the source.
    pub connect: Order,
    /// From there back to the normal state once the utility has returned.
    pub return_to_utility: Order,
}

/// An order of steps with the reasons for each.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Order {
    /// The state before the first step.
    pub start: State,
    /// The steps.
    pub steps: Vec<Step>,
    /// Whether no order is shorter.
    pub shortest: Shortest,
    /// Every single fault of the order.
    pub faults: Vec<Fault>,
}

/// One step of an order.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Step {
    /// What is done.
    pub operation: Operation,
    /// What to see, read or feel before going on. Common practice; part of it from set manuals, no code section.
    pub verify: &'static str,
    /// Why it comes here.
    pub because: Because,
    /// Where everything stands afterwards.
    pub state: State,
}

/// Why a step comes where it does: what becomes of the order without it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Because {
    /// Without it a later step would break these.
    Prevents {
        /// The later step, from 1.
        step: usize,
        /// What it would break.
        invariants: Vec<Invariant>,
    },
    /// Without it an interlock or a lock would refuse a later step.
    Allows {
        /// The later step, from 1.
        step: usize,
        /// What would refuse it.
        refusal: Refusal,
    },
    /// Without it the goal is not reached.
    Needed,
}

/// Why there is no procedure.
#[derive(Clone, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum Withheld {
    /// The arrangement itself makes a hazard possible, or nobody can tell: no order is given for it.
    #[error("the arrangement itself {}: no order of switching is given for it", arrangement_words(.0))]
    Arrangement(Box<Exploration>),
    /// The arrangement is too large to explore.
    #[error(transparent)]
    TooManySwitches(#[from] TooManySwitches),
    /// No order connects.
    #[error("no order connects the source: {0}")]
    Connect(NoOrder),
    /// No order returns.
    #[error("no order returns to the utility: {0}")]
    Return(NoOrder),
}

fn arrangement_words(found: &Exploration) -> &'static str {
    if found.outcome == Outcome::Fails { "makes a hazard possible" } else { "is not described well enough" }
}

impl Network {
    /// Proves the arrangement, then finds the order to connect and the order to return, and judges every single
    /// fault of both.
    ///
    /// # Errors
    /// The arrangement makes a hazard possible in some order of steps, so that it gets no order at all; or no order
    /// can be proved.
    ///
    /// ```
    /// use loadworthy::switching::{Interlock, Load, Network, Outcome, Position as P, RotationNeed, Source};
    /// let network = Network::builder()
    ///     .utility("utility", "service")
    ///     .breaker("main", "service", "bus")
    ///     .breaker("inlet breaker", "bus", "inlet")
    ///     .interlock("main", "inlet breaker", Interlock::Devices)
    ///     .joint("inlet", "inlet", "cord")
    ///     .breaker("source breaker", "terminals", "cord")
    ///     .source("generator", "terminals", Source::unknown()
    ///         .rated("5500 W".parse()?).surge("7000 W".parse()?).leg_rated("2750 W".parse()?)
    ///         .system("120/240 V".parse()?).neutral_bonded(false).neutral_switched(false).engine(true))
    ///     .breaker("kitchen breaker", "bus", "kitchen")
    ///     .load("fridge", "kitchen", Load::unknown()
    ///         .running("200 W".parse()?).starting("1200 W".parse()?).voltage("120 V".parse()?)
    ///         .leg("A".parse()?).shared_neutral(false).rotation(RotationNeed::Any))
    ///     .premises("bus").service_bonded(true).other_bonds(0)
    ///     .build()?;
    /// let normal = network.state(&[("utility", P::Dead), ("main", P::Closed), ("inlet breaker", P::Open),
    ///     ("inlet", P::Parted), ("source breaker", P::Open), ("generator", P::Stopped),
    ///     ("kitchen breaker", P::Closed), ("fridge", P::On)])?;
    /// let id = |name| network.find(name).ok_or("no such device");
    /// let found = network.procedure(&normal, id("generator")?, &[id("fridge")?])?;
    /// assert_eq!(network.operation(found.connect.steps[0].operation), "open `main`");
    /// assert!(found.connect.faults.iter().all(|fault| fault.outcome == Outcome::Holds));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn procedure(&self, normal: &State, source: DeviceId, loads: &[DeviceId]) -> Result<Procedure, Withheld> {
        let arrangement = self.explore(normal)?;
        if arrangement.outcome != Outcome::Holds {
            return Err(Withheld::Arrangement(Box::new(arrangement)));
        }
        let fed = Goal::Fed { source, loads: loads.to_vec() };
        let connect = self.order(normal, &fed).map_err(Withheld::Connect)?;
        let connected = connect.steps.last().map_or(*normal, |step| step.state);
        let return_to_utility = self.order(&connected, &Goal::Restored(*normal)).map_err(Withheld::Return)?;
        Ok(Procedure { arrangement, connect, return_to_utility })
    }

    /// The shortest order to a goal, with what to verify and why at each step, and every single fault.
    ///
    /// # Errors
    /// There is no order, or none can be proved.
    pub fn order(&self, start: &State, goal: &Goal) -> Result<Order, NoOrder> {
        let FoundOrder { operations, shortest } = self.find_order(start, goal)?;
        self.with_reasons(start, operations, shortest, goal).ok_or(NoOrder::Goal)
    }

    /// Steps with what to verify and why at each, and every single fault; `None` where the goal makes no sense.
    pub(super) fn with_reasons(
        &self,
        start: &State,
        operations: Vec<Operation>,
        shortest: Shortest,
        goal: &Goal,
    ) -> Option<Order> {
        let faults = self.faults(start, &operations, goal)?;
        let mut state = *start;
        let mut steps = Vec::with_capacity(operations.len());
        for (number, operation) in (1..).zip(operations) {
            if let Ok(Effect::Done { state: next, .. }) = self.apply(&state, operation) {
                state = next;
            }
            let verify = self.to_verify(operation);
            steps.push(Step { operation, verify, because: because(&faults, number), state });
        }
        Some(Order { start: *start, steps, shortest, faults })
    }

    /// Why a step comes where it does, in words.
    #[must_use]
    pub fn reason(&self, because: &Because) -> String {
        match because {
            Because::Prevents { step, invariants } => {
                let names: Vec<String> = invariants.iter().map(ToString::to_string).collect();
                format!("without it step {step} would break {}", names.join(", "))
            }
            Because::Allows { step, refusal } => {
                format!("without it step {step} cannot be done: {}", self.refusal(refusal))
            }
            Because::Needed => "without it the goal is not reached".to_owned(),
        }
    }

    fn to_verify(&self, operation: Operation) -> &'static str {
        let kind = operation.device().and_then(|device| self.device(device)).map(|device| device.kind);
        let engine = matches!(kind, Some(Kind::Source(facts)) if facts.engine != Some(false));
        match operation {
            Operation::Open(_) => "the handle indicates open",
            Operation::Close(_) => "the handle indicates closed and stays there",
            Operation::Set(..) => "the handle indicates the new position",
            Operation::Mate(_) => "both halves are dry and whole; the joint is seated to the stop and locked",
            Operation::Part(_) => "the contacts are covered",
            Operation::Start(_) if engine => "the engine runs steadily; voltage and frequency are within their limits",
            Operation::Start(_) => "the output is on; voltage and frequency are within their limits",
            Operation::Stop(_) if engine => "the engine stands still; it has run without load before",
            Operation::Stop(_) => "the output is off",
            Operation::Cool(_) => "the time that its manual gives has passed; the engine is cold",
            Operation::Refuel(_) => "nothing is spilled; the cap is closed, and the can is away from the engine",
            Operation::On(_) => "it runs; the source keeps its voltage",
            _ => "it is as intended",
        }
    }
}

fn because(faults: &[Fault], number: usize) -> Because {
    let fault = faults.iter().find(|fault| fault.step == number && fault.kind == FaultKind::Skipped);
    match fault {
        Some(Fault { first: Some(first), .. }) => {
            Because::Prevents { step: first.step, invariants: first.invariants() }
        }
        Some(fault) => match fault.refused.first() {
            Some((step, refusal)) => Because::Allows { step: *step, refusal: *refusal },
            None => Because::Needed,
        },
        None => Because::Needed,
    }
}
