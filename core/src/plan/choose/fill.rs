//! A first set for the hard cases: each leg filled as well as its own limits allow, then bettered by exchange.
//!
//! Where the surge binds, the two greatest starts on a leg take from what is left to all. So each leg is filled once
//! for every start that may be the greatest on it, as a knapsack of its own, and the best of these fillings is kept.
//! The set holds; how good it is, the bounds say.

use super::problem::{Item, Kind, Problem, Starts, Way, cell};
use super::search::Best;
use crate::trade::Leg;

/// Cells of a filling; a limit of more units is counted in coarser ones, rounded so that what fits in cells fits.
const MOST_CELLS: i64 = 1 << 16;

/// Fillings of one leg at most.
const MOST_FILLINGS: usize = 16;

/// Passes of exchanges at most.
const MOST_PASSES: usize = 8;

/// Of fillings that are worth the same, the one that uses these first.
#[derive(Clone, Copy, PartialEq, Eq)]
enum First {
    /// Few loads fill the first leg, and many are left to fill the second to the last.
    Large,
    Small,
    Given,
}

/// A set that holds; `None` where the loads that must be on find no place this way.
pub(super) fn fill(problem: &Problem) -> Option<Best> {
    let sets = [First::Large, First::Small, First::Given].into_iter().filter_map(|first| fill_with(problem, first));
    sets.reduce(|best, other| if other.worth > best.worth { other } else { best })
}

fn fill_with(problem: &Problem, first: First) -> Option<Best> {
    let mut set = Set { problem, ways: vec![None; problem.items.len()] };
    for (at, item) in problem.items.iter().enumerate().filter(|(_, item)| item.must) {
        (0..item.ways.len()).find(|way| set.put(at, *way))?;
    }
    for leg in [Leg::A, Leg::B] {
        for (at, way) in set.filling(leg, first) {
            set.put(at, way);
        }
    }
    set.top_up();
    for _ in 0..MOST_PASSES {
        if !set.exchange() {
            break;
        }
    }
    set.balanced().then(|| Best { worth: set.worth(), ways: set.ways })
}

struct Set<'p> {
    problem: &'p Problem,
    ways: Vec<Option<usize>>,
}

impl Set<'_> {
    fn on(&self) -> impl Iterator<Item = (&Item, &Way)> {
        self.problem.items.iter().zip(&self.ways).filter_map(|(item, way)| Some((item, item.ways.get((*way)?)?)))
    }

    fn worth(&self) -> u128 {
        self.on().map(|(item, _)| item.worth).sum()
    }

    /// Whether the legs are as even as they must be.
    fn balanced(&self) -> bool {
        let tilt: i64 = self.on().map(|(_, way)| way.tilt).sum();
        self.problem.balance.is_none_or(|balance| tilt.abs() <= balance)
    }

    /// What is left of every capacity, with what starts.
    fn room(&self) -> (Vec<i64>, Starts) {
        let mut room: Vec<i64> = self.problem.capacities.iter().map(|capacity| capacity.limit).collect();
        let mut starts = Starts::new(room.len());
        for (_, way) in self.on() {
            super::complete::take(way, &mut room, &mut starts);
        }
        (room, starts)
    }

    /// Whether every limit but that on the evenness of the legs holds.
    fn holds(&self) -> bool {
        let mut groups: Vec<u16> = self.on().flat_map(|(item, _)| item.groups.iter().copied()).collect();
        let named = groups.len();
        groups.sort_unstable();
        groups.dedup();
        groups.len() == named && self.room().0.iter().all(|left| *left >= 0)
    }

    /// Puts a load on in one of its ways, if all holds.
    fn put(&mut self, at: usize, way: usize) -> bool {
        let Some(place) = self.ways.get_mut(at) else { return false };
        let before = place.replace(way);
        let holds = self.holds();
        if let Some(place) = self.ways.get_mut(at).filter(|_| !holds) {
            *place = before;
        }
        holds
    }

    /// Puts on whatever else fits.
    fn top_up(&mut self) {
        for (at, item) in self.problem.items.iter().enumerate() {
            if self.ways.get(at).is_some_and(Option::is_none) {
                let _ = (0..item.ways.len()).any(|way| self.put(at, way));
            }
        }
    }

    /// Puts loads that are off in the place of those that are worth less; whether any was.
    fn exchange(&mut self) -> bool {
        let before = self.worth();
        for (at, item) in self.problem.items.iter().enumerate() {
            if self.ways.get(at).is_none_or(Option::is_some) {
                continue;
            }
            for (other, its) in self.problem.items.iter().enumerate().filter(|(_, its)| !its.must) {
                let Some(way @ Some(_)) = self.ways.get(other).copied() else { continue };
                if its.worth >= item.worth {
                    continue;
                }
                self.set(other, None);
                if (0..item.ways.len()).any(|way| self.put(at, way)) {
                    break;
                }
                self.set(other, way);
            }
        }
        self.top_up();
        self.worth() > before
    }

    fn set(&mut self, at: usize, way: Option<usize>) {
        if let Some(place) = self.ways.get_mut(at) {
            *place = way;
        }
    }

    /// The loads that fill a leg best, with their ways.
    fn filling(&self, leg: Leg, first: First) -> Vec<(usize, usize)> {
        let (room, starts) = self.room();
        let kinds = self.problem.capacities.iter().enumerate();
        let of = |surge: bool| {
            let ours = move |kind: Kind| match kind {
                Kind::Leg { shared: None, leg: its, .. } => !surge && its == leg,
                Kind::Surge(its) => surge && its == leg,
                _ => false,
            };
            kinds.clone().find(|(_, capacity)| ours(capacity.kind)).map(|(at, _)| at)
        };
        let Some(own) = of(false) else { return Vec::new() };
        let surge = of(true).filter(|surge| {
            let group = |at: usize| self.problem.capacities.get(at).map(|capacity| capacity.group);
            group(*surge) == group(own)
        });
        let left = |at: usize| room.get(at).copied().unwrap_or(0);
        let mut choices = Vec::new();
        for (at, item) in self.problem.items.iter().enumerate() {
            let way = item.ways.iter().position(|way| way.leg == leg);
            if let (Some(index), Some(None)) = (way, self.ways.get(at))
                && let Some(way) = item.ways.get(index)
            {
                let part = |parts: &[(usize, i64)], of| {
                    parts.iter().find(|(at, _)| Some(*at) == of).map_or(0, |(_, count)| *count)
                };
                let (takes, surplus) = (part(&way.takes, Some(own)), part(&way.surplus, surge));
                choices.push(Fillable { at, way: index, takes, surplus, worth: item.worth });
            }
        }
        match first {
            First::Large => choices.sort_by_key(|one| -one.takes),
            First::Small => choices.sort_by_key(|one| one.takes),
            First::Given => {}
        }
        let capacity = |greatest: i64| {
            // Two of the greatest may start at one moment; those that are on already count in what is left.
            let counted = surge.map_or(0, |surge| starts.of(surge));
            let with_surge = surge.map_or(i64::MAX, |surge| left(surge) - (2 * greatest - counted).max(0));
            left(own).min(with_surge)
        };
        let mut greatest: Vec<i64> = choices.iter().map(|one| one.surplus).chain([0]).collect();
        greatest.sort_unstable();
        greatest.dedup();
        greatest.retain(|greatest| capacity(*greatest) >= 0);
        let every = greatest.len() / MOST_FILLINGS + 1;
        let filled = greatest.into_iter().step_by(every).map(|most| {
            let allowed: Vec<&Fillable> = choices.iter().filter(|one| one.surplus <= most).collect();
            knapsack(&allowed, capacity(most))
        });
        // Of equal ones the first: the least starts.
        filled.reduce(|best, other| if other.0 > best.0 { other } else { best }).map_or(Vec::new(), |(_, set)| set)
    }
}

/// A load that may fill a leg.
struct Fillable {
    at: usize,
    way: usize,
    takes: i64,
    surplus: i64,
    worth: u128,
}

/// The best of these within a limit: its worth, and the loads with their ways.
fn knapsack(choices: &[&Fillable], limit: i64) -> (u128, Vec<(usize, usize)>) {
    let cell = cell(limit, choices.iter().map(|one| one.takes), MOST_CELLS);
    let cells = |takes: i64| usize::try_from((takes + cell - 1) / cell).unwrap_or(usize::MAX);
    let width = usize::try_from(limit / cell).unwrap_or(0) + 1;
    let mut best = vec![0_u128; width];
    let mut taken = Vec::with_capacity(choices.len());
    for one in choices {
        let shift = cells(one.takes);
        let mut row = vec![false; width];
        for at in (shift..width).rev() {
            let with = best.get(at - shift).map_or(0, |worth| worth + one.worth);
            if let (Some(worth), Some(mark)) = (best.get_mut(at), row.get_mut(at))
                && with > *worth
            {
                (*worth, *mark) = (with, true);
            }
        }
        taken.push(row);
    }
    let mut at = width - 1;
    let mut set = Vec::new();
    for (one, row) in choices.iter().zip(&taken).rev() {
        if row.get(at).copied().unwrap_or(false) {
            set.push((one.at, one.way));
            at = at.saturating_sub(cells(one.takes));
        }
    }
    (best.last().copied().unwrap_or(0), set)
}
