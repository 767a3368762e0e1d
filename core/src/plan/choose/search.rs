//! Branch and bound over the loads, most important first, each tried on before off.

use super::bound::{Bound, WithStarts};
use super::complete::{Standing, take};
use super::fill;
use super::problem::{Item, Kind, Problem, Starts, Way};
use crate::interrupt::Interrupt;
use crate::trade::Leg;

/// What a search found.
pub(super) struct Found {
    /// The best set.
    pub(super) best: Option<Best>,
    /// Where the limit of work was reached: no set that was not looked at is worth more.
    pub(super) open: Option<u128>,
    pub(super) nodes: u64,
}

/// A set that fits.
#[derive(Clone)]
pub(super) struct Best {
    pub(super) worth: u128,
    /// For each item of the problem the way that carries it; `None` where it is off.
    pub(super) ways: Vec<Option<usize>>,
}

/// Small tables answer most choices at once; fine ones cost milliseconds to fill and answer the hard ones.
const COARSE_WIDTH: usize = 512;
const COARSE_NODES: u64 = 20_000;
const FINE_WIDTH: usize = 1 << 18;
/// Cells of all tables together: 64 MB where the worth fits 32 bits.
const MOST_CELLS: usize = 1 << 24;

/// A completion takes as long as so many nodes, and one more for so many words.
const COMPLETION_NODES: u64 = 20;
const WORDS_A_NODE: usize = 64;

/// A load that starts counts at so many limits at most: two legs and the total.
const MOST_STARTS: usize = 3;

/// Nodes between two questions whether to go on: about a millisecond.
const BETWEEN_ASKING: u64 = 1 << 12;

pub(super) fn search(problem: &Problem, most_nodes: u64, interrupt: &Interrupt) -> Found {
    let coarse = Search::new(problem, COARSE_WIDTH, most_nodes.min(COARSE_NODES), None, interrupt).run();
    if coarse.open.is_none() || most_nodes <= COARSE_NODES || interrupt.stops() {
        return coarse;
    }
    let known = [fill::fill(problem), coarse.best].into_iter().flatten();
    let known = known.reduce(|one, other| if other.worth >= one.worth { other } else { one });
    let mut fine = Search::new(problem, FINE_WIDTH, most_nodes - coarse.nodes, known, interrupt).run();
    fine.nodes += coarse.nodes;
    fine
}

struct Search<'a> {
    problem: &'a Problem,
    /// The capacities of leg A and of leg B between which loads that may choose are divided.
    legs: Vec<Vec<usize>>,
    bounds: Vec<Bound>,
    /// Whether sets are completed from the bounds.
    completes: bool,
    /// What is left of each capacity, less the starts that count there.
    left: Vec<i64>,
    starts: Starts,
    /// Leg A less leg B.
    tilt: i64,
    /// By item: what it and those after it can change the tilt by.
    tilt_to_come: Vec<i64>,
    taken_groups: Vec<u16>,
    ways: Vec<Option<usize>>,
    /// Exchanging the legs changes nothing, so the first load on a single leg goes to its first.
    mirror: bool,
    on_single_leg: usize,
    best: Option<Best>,
    open: Option<u128>,
    nodes: u64,
    most_nodes: u64,
    interrupt: &'a Interrupt,
    ask_at: u64,
}

impl<'a> Search<'a> {
    fn new(problem: &'a Problem, width: usize, most_nodes: u64, best: Option<Best>, interrupt: &'a Interrupt) -> Self {
        let mut tilt_to_come = vec![0];
        for item in problem.items.iter().rev() {
            let most = item.ways.iter().map(|way| way.tilt.abs()).max().unwrap_or(0);
            tilt_to_come.push(tilt_to_come.last().copied().unwrap_or(0) + most);
        }
        tilt_to_come.reverse();
        let bounds = Bound::all(problem, width, MOST_CELLS);
        let pair = bounds.iter().map(|bound| &bound.of).find(|of| of.len() == 2).cloned();
        let source = || problem.leg_pairs.iter().take(1).flat_map(|(a, b)| [vec![*a], vec![*b]]).collect();
        let legs = pair.unwrap_or_else(source);
        Self {
            problem,
            legs,
            bounds,
            completes: width > COARSE_WIDTH,
            left: problem.capacities.iter().map(|capacity| capacity.limit).collect(),
            starts: Starts::new(problem.capacities.len()),
            tilt: 0,
            tilt_to_come,
            taken_groups: Vec::new(),
            ways: Vec::with_capacity(problem.items.len()),
            mirror: is_mirror(problem),
            on_single_leg: 0,
            best,
            open: None,
            nodes: 0,
            most_nodes,
            interrupt,
            ask_at: BETWEEN_ASKING,
        }
    }

    fn run(mut self) -> Found {
        self.visit(0, true);
        Found { best: self.best, open: self.open, nodes: self.nodes }
    }

    /// Looks at what follows the decisions so far; `anew` where the last of them leaves a load off.
    fn visit(&mut self, worth: u128, anew: bool) {
        let at = self.ways.len();
        let Some(upper) = self.upper(at, worth) else { return };
        if self.best.as_ref().is_some_and(|best| upper <= best.worth) {
            return;
        }
        let problem = self.problem;
        let Some(item) = problem.items.get(at) else {
            self.best = Some(Best { worth, ways: self.ways.clone() });
            return;
        };
        if self.nodes >= self.ask_at {
            self.ask_at = self.nodes + BETWEEN_ASKING;
            if self.interrupt.stops() {
                self.most_nodes = 0;
            }
        }
        if self.nodes >= self.most_nodes {
            self.open = self.open.max(Some(upper));
            return;
        }
        self.nodes += 1;
        if anew && self.completes {
            self.complete(worth);
            if self.best.as_ref().is_some_and(|best| upper <= best.worth) {
                return;
            }
        }
        // Of loads that nothing distinguishes, a later one is never carried in an earlier way.
        let first = match (item.like_previous, self.ways.last()) {
            (true, Some(Some(way))) => *way,
            (true, Some(None)) => item.ways.len(),
            _ => 0,
        };
        let free = !item.groups.iter().any(|group| self.taken_groups.contains(group));
        if free {
            let mut order: [Option<(i64, usize)>; 2] = [None; 2];
            for ((index, way), slot) in item.ways.iter().enumerate().skip(first).zip(&mut order) {
                let room = way.takes.first().and_then(|(at, count)| Some(self.left.get(*at)? - count)).unwrap_or(0);
                *slot = Some((room, index));
            }
            if self.mirror && self.on_single_leg == 0 && item.ways.len() == 2 {
                order = [order.first().copied().flatten(), None];
            }
            // The leg with more room first.
            order.sort_by_key(|slot| slot.map_or((true, 0, 0), |(room, index)| (false, -room, index)));
            for (_, index) in order.into_iter().flatten() {
                self.carry(index, worth + item.worth);
            }
        }
        if !item.must {
            self.ways.push(None);
            self.visit(worth, true);
            self.ways.pop();
        }
    }

    /// Carries the item at hand in one of its ways, looks at what follows, and takes it back.
    fn carry(&mut self, index: usize, worth: u128) {
        let problem = self.problem;
        let Some(item) = problem.items.get(self.ways.len()) else { return };
        let Some(way) = item.ways.get(index) else { return };
        let before: [Option<(usize, i64, [i64; 2])>; MOST_STARTS] = std::array::from_fn(|slot| {
            let (at, _) = way.surplus.get(slot)?;
            Some((*at, self.starts.of(*at), self.starts.kept(*at)))
        });
        take(way, &mut self.left, &mut self.starts);
        let fits = way.takes.iter().all(|(at, _)| self.left.get(*at).is_some_and(|left| *left >= 0));
        if fits {
            self.follow(way, item, index, worth);
        }
        for (at, starts, two) in before.into_iter().flatten() {
            let more = self.starts.of(at) - starts;
            self.starts.put_back(at, two);
            if let Some(left) = self.left.get_mut(at) {
                *left += more;
            }
        }
        for (at, count) in &way.takes {
            if let Some(left) = self.left.get_mut(*at) {
                *left += count;
            }
        }
    }

    fn follow(&mut self, way: &Way, item: &Item, index: usize, worth: u128) {
        self.tilt += way.tilt;
        let single = usize::from(way.leg != Leg::Both);
        self.on_single_leg += single;
        self.taken_groups.extend(&item.groups);
        self.ways.push(Some(index));
        self.visit(worth, false);
        self.ways.pop();
        self.taken_groups.truncate(self.taken_groups.len() - item.groups.len());
        self.on_single_leg -= single;
        self.tilt -= way.tilt;
    }

    /// Completes the set as the least bound says, where that is better than the best so far.
    fn complete(&mut self, worth: u128) {
        let at = self.ways.len();
        let Some(bound) = self.bounds.iter().min_by_key(|bound| bound.worth(at, &self.left)) else { return };
        let standing = Standing {
            problem: self.problem,
            next: at,
            room: &self.left,
            starts: &self.starts,
            taken_groups: &self.taken_groups,
            tilt: self.tilt,
        };
        self.nodes += COMPLETION_NODES;
        // The bound knows nothing of starts: where a set with them does not hold, one without more of them may.
        let with = |starts| standing.complete(bound, &self.legs, starts);
        let Some(completed) = with(WithStarts::Yes).or_else(|| with(WithStarts::No)) else { return };
        self.nodes += u64::try_from(completed.work / WORDS_A_NODE).unwrap_or(0);
        let worth = worth + completed.worth;
        if self.best.as_ref().is_none_or(|best| worth > best.worth) {
            let ways = self.ways.iter().copied().chain(completed.ways).collect();
            self.best = Some(Best { worth, ways });
        }
    }

    /// What a set with these first decisions can be worth at most; `None` where there is no such set.
    fn upper(&self, at: usize, worth: u128) -> Option<u128> {
        if let Some(balance) = self.problem.balance {
            let to_come = self.tilt_to_come.get(at).copied().unwrap_or(0);
            if self.tilt.abs() > balance.saturating_add(to_come) {
                return None;
            }
        }
        let mut least = u128::MAX;
        let floor = self.best.as_ref().map_or(0, |best| best.worth);
        for bound in &self.bounds {
            least = least.min(bound.worth(at, &self.left));
            if least == 0 || worth + (least - 1) <= floor && self.best.is_some() {
                return None;
            }
        }
        if least == u128::MAX {
            let rest = self.problem.items.iter().skip(at).map(|item| item.worth).sum::<u128>();
            return Some(worth + rest);
        }
        Some(worth + least - 1)
    }
}

/// Whether the legs can be exchanged: equal limits, and no load that is bound to one.
fn is_mirror(problem: &Problem) -> bool {
    let limit = |at: usize| problem.capacities.get(at).map(|capacity| capacity.limit);
    let every_leg_paired =
        problem.capacities.iter().filter(|c| matches!(c.kind, Kind::Leg { .. } | Kind::Surge(_))).count()
            == 2 * problem.leg_pairs.len();
    every_leg_paired
        && problem.leg_pairs.iter().all(|(a, b)| limit(*a) == limit(*b))
        && problem.items.iter().all(|item| item.ways.len() == 2 || item.ways.iter().all(|way| way.leg == Leg::Both))
}
