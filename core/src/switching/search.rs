//! Finding an order: the shortest by which every state and every step keeps every invariant, whatever the utility does.
//!
//! The search follows the least number of steps that can still be needed, so the first order found is a shortest
//! one. Then every shortest order is known, and the preferred of them is taken. Branches of single loads are tried
//! in their turn first; where that does not meet the least number of steps, every order of them is tried as well.

use super::device::Throw;
use super::electrical::Electrical;
use super::goal::{Branch, Goal, Target};
use super::invariant::{Break, Detail, Question};
use super::network::{Kind, Network, Undescribed};
use super::operation::Operation;
use super::preference::{Preference, Rank};
use super::state::State;
use super::transition::Effect;
use super::walk::Outside;
use crate::rules::Outcome;
use std::collections::HashMap;

/// The most states that a search looks at.
pub const MAX_SEARCHED: usize = 1 << 16;

/// States that are looked at between two questions whether to go on: a few milliseconds.
const BETWEEN_ASKING: usize = 64;

/// An order that was found.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct FoundOrder {
    /// The operations.
    pub operations: Vec<Operation>,
    /// Whether every shorter order is known to break an invariant.
    pub shortest: Shortest,
}

/// Whether an order is known to be as short as any.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shortest {
    /// No order is shorter.
    Proved,
    /// There were too many to look at. The order itself is proved all the same.
    NotProved,
}

/// Why there is no order.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum NoOrder {
    /// The goal names something that is no local source, or no load.
    #[error("the goal names a device that is not a local source or not a load; correct it")]
    Goal,
    /// The state before the first step already breaks an invariant.
    #[error("the state before the first step breaks an invariant; put that right first")]
    Start(Vec<Break>),
    /// A fact is missing: with it there might be an order.
    #[error("facts are missing without which no step can be proved")]
    CannotTell(Vec<Question>),
    /// Every order breaks an invariant: all were looked at.
    #[error("every order breaks an invariant")]
    None,
    /// More states than are looked at: nothing is proved.
    #[error("more than {MAX_SEARCHED} states; nothing is proved: choose fewer loads, or describe the network in parts")]
    TooLarge,
    /// The search was told to stop: nothing is proved.
    #[error("the search was stopped before it was finished; nothing is proved")]
    Stopped,
}

impl Network {
    /// The shortest order of operations that leads from `start` to `goal` without breaking an invariant on the way.
    ///
    /// Every state is judged with the utility live and with the utility dead. An interlock that was not described
    /// is neither relied upon nor worked against.
    ///
    /// # Errors
    /// There is none, or none can be proved.
    ///
    /// ```
    /// # use loadworthy::switching::{Goal, Interlock, Network, Position, Source};
    /// let network = Network::builder()
    ///     .utility("utility", "service")
    ///     .breaker("main", "service", "bus")
    ///     .breaker("inlet", "bus", "terminals")
    ///     .source("generator", "terminals", Source::unknown())
    ///     .interlock("main", "inlet", Interlock::Devices)
    ///     .build()?;
    /// let start = network.state(&[("utility", Position::Dead), ("main", Position::Open),
    ///     ("inlet", Position::Closed), ("generator", Position::Running)])?;
    /// let normal = network.state(&[("utility", Position::Live), ("main", Position::Closed),
    ///     ("inlet", Position::Open), ("generator", Position::Stopped)])?;
    /// let order = network.find_order(&start, &Goal::Restored(normal))?;
    /// let words: Vec<String> = order.operations.iter().map(|step| network.operation(*step)).collect();
    /// assert_eq!(words, ["open `inlet`", "close `main`", "stop `generator`"]);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn find_order(&self, start: &State, goal: &Goal) -> Result<FoundOrder, NoOrder> {
        let target = Target::new(self, start, goal).ok_or(NoOrder::Goal)?;
        let mut found = Vec::new();
        self.judge(start, Outside::Any, &mut found);
        if found.iter().any(|one| one.outcome() == Outcome::Fails) {
            return Err(NoOrder::Start(found));
        }
        if !found.is_empty() {
            return Err(NoOrder::CannotTell(questions(&found)));
        }
        let chained = Search::new(self, *start, &target, Branches::InTurn, None).run();
        let bound = match &chained {
            Ok(order) => Some(order.len()),
            Err(error @ (NoOrder::TooLarge | NoOrder::Stopped)) => return Err(error.clone()),
            Err(_) => None,
        };
        if let Ok(operations) = &chained
            && operations.len() == target.least_steps(self, start) as usize
        {
            return Ok(FoundOrder { operations: operations.clone(), shortest: Shortest::Proved });
        }
        let proved = |operations| FoundOrder { operations, shortest: Shortest::Proved };
        match (Search::new(self, *start, &target, Branches::Any, bound).run(), chained) {
            (Ok(shorter), _) => Ok(proved(shorter)),
            (Err(NoOrder::TooLarge | NoOrder::Stopped), Ok(operations)) => {
                Ok(FoundOrder { operations, shortest: Shortest::NotProved })
            }
            (Err(_), Ok(operations)) => Ok(proved(operations)),
            (Err(error), Err(_)) => Err(error),
        }
    }
}

/// How the branches of single loads are switched in a search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Branches {
    /// Each in its turn, largest first: far fewer orders, and hardly ever a longer one.
    InTurn,
    /// In any order.
    Any,
}

fn questions(found: &[Break]) -> Vec<Question> {
    let asked = found.iter().filter_map(|one| match one.detail {
        Detail::Missing(question) => Some(question),
        _ => None,
    });
    let mut all: Vec<Question> = asked.collect();
    all.sort();
    all.dedup();
    all
}

struct Node {
    state: State,
    steps: u32,
    done: bool,
}

struct Search<'a> {
    branches: Branches,
    /// Only an order shorter than this is of interest.
    bound: Option<usize>,
    network: &'a Network,
    target: &'a Target,
    nodes: Vec<Node>,
    places: HashMap<u128, usize>,
    /// By least number of steps in all: the nodes to look at.
    open: Vec<Vec<usize>>,
    /// From, to, by what.
    edges: Vec<(usize, usize, Operation)>,
    operations: Vec<(Operation, Rank)>,
    missing: Vec<Break>,
}

impl<'a> Search<'a> {
    fn new(network: &'a Network, start: State, target: &'a Target, branches: Branches, bound: Option<usize>) -> Self {
        let preference = Preference::new(network, target);
        let operations = operations(network, &start, target)
            .into_iter()
            .map(|operation| (operation, preference.rank(operation)))
            .collect();
        let mut search = Self {
            branches,
            bound,
            network,
            target,
            nodes: Vec::new(),
            places: HashMap::new(),
            open: Vec::new(),
            edges: Vec::new(),
            operations,
            missing: Vec::new(),
        };
        search.reach(start, 0);
        search
    }

    fn run(mut self) -> Result<Vec<Operation>, NoOrder> {
        if self.network.interrupt.stops() {
            return Err(NoOrder::Stopped);
        }
        let (mut length, mut looked_at) = (0, 0_usize);
        let mut best = None;
        while length < self.open.len()
            && best.is_none_or(|best| length <= best)
            && self.bound.is_none_or(|bound| length < bound)
        {
            let Some(place) = self.open.get_mut(length).and_then(Vec::pop) else {
                length += 1;
                continue;
            };
            let Some(node) = self.nodes.get_mut(place) else { continue };
            if node.done {
                continue;
            }
            node.done = true;
            let (state, steps) = (node.state, node.steps);
            if self.target.is_reached(self.network, &state) {
                best = Some(length);
            } else {
                self.expand(place, &state, steps);
            }
            if self.nodes.len() > MAX_SEARCHED {
                return Err(NoOrder::TooLarge);
            }
            looked_at += 1;
            if looked_at % BETWEEN_ASKING == 0 && self.network.interrupt.stops() {
                return Err(NoOrder::Stopped);
            }
        }
        match best {
            Some(_) => Ok(self.preferred()),
            None if self.missing.is_empty() => Err(NoOrder::None),
            None => Err(NoOrder::CannotTell(questions(&self.missing))),
        }
    }

    fn reach(&mut self, state: State, steps: u32) -> usize {
        let least = steps.saturating_add(self.target.least_steps(self.network, &state)) as usize;
        let place = match self.places.get(&state.set) {
            Some(place) => *place,
            None => {
                self.nodes.push(Node { state, steps: u32::MAX, done: false });
                self.places.insert(state.set, self.nodes.len() - 1);
                self.nodes.len() - 1
            }
        };
        if let Some(node) = self.nodes.get_mut(place)
            && steps < node.steps
        {
            node.steps = steps;
            if self.open.len() <= least {
                self.open.resize(least + 1, Vec::new());
            }
            if let Some(bucket) = self.open.get_mut(least) {
                bucket.push(place);
            }
        }
        place
    }

    fn expand(&mut self, place: usize, state: &State, steps: u32) {
        let electrical = Electrical::of(self.network, state);
        let mut found = Vec::new();
        let first = self.sheds_first(state);
        for index in 0..self.operations.len() {
            let Some((operation, rank)) = self.operations.get(index).copied() else { continue };
            if first.is_some_and(|first| first != operation) || self.waits(state, operation, rank) {
                continue;
            }
            found.clear();
            let network = self.network;
            // What was not described is taken to work: a step that it might refuse is no step to rely on.
            let before = (state, &electrical);
            let effect = network.attempt(before, operation, Undescribed::Works, Outside::Any, &mut found);
            let Effect::Done { state: next, .. } = effect else { continue };
            if next.set == state.set {
                continue;
            }
            if found.is_empty() && network.has_undescribed() {
                network.attempt(before, operation, Undescribed::Fails, Outside::Any, &mut found);
                if !found.is_empty() {
                    found = network.undescribed().into_iter().map(missing).collect();
                }
            }
            if found.is_empty() {
                let to = self.reach(next, steps + 1);
                self.edges.push((place, to, operation));
            } else if found.iter().all(|one| one.outcome() == Outcome::CannotTell) {
                for one in &found {
                    if !self.missing.contains(one) {
                        self.missing.push(*one);
                    }
                }
            }
        }
    }

    /// The branch to open before anything else is tried: it must be opened in any case, and opening it never hinders.
    fn sheds_first(&self, state: &State) -> Option<Operation> {
        if self.branches == Branches::Any {
            return None;
        }
        let too_many = self.target.too_many_starts(self.network, state) > 0;
        let shed = |branch: &&Branch| {
            let due = self.target.off & branch.contact & state.set != 0;
            let large =
                too_many && self.target.on & branch.contact & state.set != 0 && !self.target.opens_later(state, branch);
            due || large
        };
        let branches = self.target.branches().iter().filter(shed);
        branches.map(|branch| Operation::Open(branch.device)).min_by_key(|operation| operation.device())
    }

    /// Whether a branch is not yet in its turn.
    fn waits(&self, state: &State, operation: Operation, rank: Rank) -> bool {
        if self.branches == Branches::Any {
            return false;
        }
        let Some(device) = operation.device() else { return false };
        let branch = |device| self.target.branches().iter().find(|branch| branch.device == device);
        let Some(own) = branch(device) else { return false };
        let due = |contact: u128| match operation {
            Operation::Close(_) => self.target.on & contact & !state.set != 0,
            _ => self.target.off & contact & state.set != 0,
        };
        if matches!(operation, Operation::Open(_)) && self.target.opens_later(state, own) {
            return true;
        }
        due(own.contact)
            && self.operations.iter().any(|(other, earlier)| {
                std::mem::discriminant(other) == std::mem::discriminant(&operation)
                    && *earlier < rank
                    && other.device().and_then(branch).is_some_and(|other| due(other.contact))
            })
    }

    /// Of all shortest orders the preferred.
    fn preferred(&self) -> Vec<Operation> {
        let steps = |place: usize| self.nodes.get(place).map_or(u32::MAX, |node| node.steps);
        let reached = |node: &Node| node.done && self.target.is_reached(self.network, &node.state);
        let goals: Vec<usize> =
            self.nodes.iter().enumerate().filter(|(_, node)| reached(node)).map(|(place, _)| place).collect();
        let Some(length) = goals.iter().map(|place| steps(*place)).min() else { return Vec::new() };
        let mut leads = vec![false; self.nodes.len()];
        let mark = |leads: &mut Vec<bool>, place: usize| {
            if let Some(found) = leads.get_mut(place) {
                *found = true;
            }
        };
        goals.iter().filter(|place| steps(**place) == length).for_each(|place| mark(&mut leads, *place));
        let mut edges: Vec<&(usize, usize, Operation)> =
            self.edges.iter().filter(|(from, to, _)| steps(*to) == steps(*from).saturating_add(1)).collect();
        edges.sort_by_key(|(from, _, _)| std::cmp::Reverse(steps(*from)));
        for (from, to, _) in &edges {
            if leads.get(*to) == Some(&true) {
                mark(&mut leads, *from);
            }
        }
        let rank =
            |operation: &Operation| self.operations.iter().find(|(other, _)| other == operation).map(|(_, rank)| *rank);
        let mut order = Vec::new();
        let mut place = 0;
        while order.len() < length as usize {
            let next = edges
                .iter()
                .filter(|(from, to, _)| *from == place && leads.get(*to) == Some(&true))
                .min_by_key(|(_, _, operation)| rank(operation));
            let Some((_, to, operation)) = next else { break };
            order.push(*operation);
            place = *to;
        }
        order
    }
}

fn missing(question: Question) -> Break {
    use super::invariant::Invariant;
    Break { invariant: Invariant::SourcesNeverJoined, detail: Detail::Missing(question) }
}

/// What a hand can do here. A load alone behind its own breaker is switched by the breaker.
fn operations(network: &Network, start: &State, target: &Target) -> Vec<Operation> {
    use Operation as O;
    let mut all = Vec::new();
    for (device, _, kind) in network.devices() {
        if start.is_locked(device) {
            continue;
        }
        match kind {
            Kind::Breaker | Kind::IsolatingSwitch => all.extend([O::Open(device), O::Close(device)]),
            Kind::Transfer(facts) => {
                let sides = [Throw::Utility, Throw::Off, Throw::Source].into_iter();
                let sides = sides.filter(|side| facts.rests_off || *side != Throw::Off);
                all.extend(sides.map(|side| O::Set(device, side)));
            }
            Kind::Joint => all.extend([O::Mate(device), O::Part(device)]),
            Kind::Source(_) => all.extend([O::Start(device), O::Stop(device)]),
            Kind::Load(_) => {
                let bit = network.side_bit(device, None);
                let alone = target.branches().iter().any(|branch| branch.load_device == device);
                let (on, off) = (target.on & bit & !start.set != 0, target.off & bit & start.set != 0);
                if !alone || on || off {
                    all.extend([O::On(device), O::Off(device)]);
                }
            }
            Kind::Utility | Kind::Cover => {}
        }
    }
    all
}
