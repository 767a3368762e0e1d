//! Upper bounds on what the rest of the loads can be worth, by dynamic programming over one limit at a time.
//!
//! Leaving out every limit but one (or adding the two legs of one limit together) makes the choice a knapsack, whose
//! exact answers for every remaining capacity stand in a table. Limits at which every load counts alike share one. The
//! least of those answers bounds the choice. Where a limit has more units than a table has cells, draws are rounded
//! down to cells: the bound stays a bound.

use super::problem::{Item, Problem, Way, cell};

/// The answers for one limit: what the items from one on can be worth within so many cells.
pub(super) struct Bound {
    /// The capacities whose sum is limited, one a leg. Of each the least that is left counts, of those beside it at
    /// which no load ever counts for less.
    pub(super) of: Vec<Vec<usize>>,
    /// How many units make one cell.
    cell: i64,
    width: usize,
    /// By item: the least that it takes, in cells rounded down.
    shifts: Vec<usize>,
    table: Table,
}

/// By item, then by cells: 0 where the loads that must be on do not fit, else the worth plus 1.
enum Table {
    /// Worth that fits 32 bits: the usual one, and a quarter of the memory.
    Narrow(Vec<u32>),
    Wide(Vec<u128>),
}

/// Whether a set may have loads that start by themselves, beside those that are decided.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum WithStarts {
    Yes,
    No,
}

impl Bound {
    /// The bounds of every limit that can be reached at all, in tables of `most_cells` cells together.
    pub(super) fn all(problem: &Problem, most_width: usize, most_cells: usize) -> Vec<Self> {
        let takings = Takings::new(problem);
        let reached: Vec<bool> = (0..problem.capacities.len()).map(|at| can_be_reached(problem, at)).collect();
        let reached = |at: usize| reached.get(at).copied().unwrap_or(true);
        let singles: Vec<usize> = (0..problem.capacities.len()).filter(|at| reached(*at)).collect();
        let pairs: Vec<_> = problem.leg_pairs.iter().copied().filter(|(a, b)| reached(*a) || reached(*b)).collect();
        let apart =
            |(index, at): &(usize, &usize)| !singles.iter().take(*index).any(|before| takings.same(*before, **at));
        let single = singles.iter().enumerate().filter(apart).map(|(_, at)| vec![*at]);
        let apart_pair = |(index, (a, b)): &(usize, &(usize, usize))| {
            let before = pairs.iter().take(*index);
            !before.into_iter().any(|(first, second)| takings.same(*first, *a) && takings.same(*second, *b))
        };
        let pairs = pairs.iter().enumerate().filter(apart_pair).map(|(_, (a, b))| vec![*a, *b]);
        let room: Vec<i64> = problem.capacities.iter().map(|capacity| capacity.limit).collect();
        let binding = |bases: Vec<usize>| -> Option<(Vec<Vec<usize>>, i64, Vec<i64>)> {
            let least: Vec<i64> = problem.items.iter().map(|item| least(item, &bases)).collect();
            let of: Vec<Vec<usize>> = bases.into_iter().map(|base| takings.at_least(base)).collect();
            let limit = left(&of, &room);
            (least.iter().sum::<i64>() > limit).then_some((of, limit, least))
        };
        let binding: Vec<_> = pairs.chain(single).filter_map(binding).collect();
        let width = (most_cells / (problem.items.len() + 1) / binding.len().max(1)).clamp(64, most_width);
        let table = |(of, limit, least)| Self::new(problem, of, limit, least, width);
        binding.into_iter().filter_map(table).collect()
    }

    fn new(problem: &Problem, of: Vec<Vec<usize>>, limit: i64, least: Vec<i64>, most_width: usize) -> Option<Self> {
        let cell = cell(limit, least.iter().copied(), i64::try_from(most_width).ok()?);
        let width = usize::try_from(limit / cell + 1).ok()?;
        let mut shifts = Vec::new();
        for takes in least {
            shifts.push(usize::try_from(takes / cell).ok()?);
        }
        let whole = problem.items.iter().map(|item| item.worth).sum::<u128>();
        let table = if whole < u128::from(u32::MAX) {
            Table::Narrow(fill(problem, &shifts, width, |worth| u32::try_from(worth).unwrap_or(u32::MAX)))
        } else {
            Table::Wide(fill(problem, &shifts, width, |worth| worth))
        };
        Some(Self { of, cell, width, shifts, table })
    }

    /// What the items from `item` on can be worth at most, plus 1; 0 where those that must be on do not fit.
    #[inline]
    pub(super) fn worth(&self, item: usize, room: &[i64]) -> u128 {
        let left = left(&self.of, room);
        self.at(item, if self.cell == 1 { left } else { left / self.cell })
    }

    #[inline]
    fn at(&self, item: usize, cell: i64) -> u128 {
        let at = item * self.width + usize::try_from(cell).unwrap_or(0);
        let worth = match &self.table {
            Table::Narrow(table) => table.get(at).map(|worth| u128::from(*worth)),
            Table::Wide(table) => table.get(at).copied(),
        };
        worth.unwrap_or(u128::MAX)
    }

    /// The items from `item` on that are on where this limit is the only one; without those that start by themselves,
    /// unless they must be on, where `starts` says so.
    pub(super) fn set(&self, problem: &Problem, item: usize, room: &[i64], starts: WithStarts) -> Vec<usize> {
        let mut cell = left(&self.of, room) / self.cell;
        let mut on = Vec::new();
        for (index, (one, shift)) in problem.items.iter().zip(&self.shifts).enumerate().skip(item) {
            let starts_by_itself = one.ways.iter().any(|way| !way.surplus.is_empty());
            if starts == WithStarts::No && starts_by_itself && !one.must {
                continue;
            }
            let below = cell - i64::try_from(*shift).unwrap_or(i64::MAX);
            let with = if below < 0 { 0 } else { self.at(index + 1, below) };
            if with != 0 && with + one.worth == self.at(index, cell) {
                on.push(index);
                cell = below;
            }
        }
        on
    }
}

/// Whether all loads together can come above a limit, each in its way that takes the most.
fn can_be_reached(problem: &Problem, at: usize) -> bool {
    let of = |parts: &[(usize, i64)]| parts.iter().find(|(index, _)| *index == at).map_or(0, |(_, count)| *count);
    let most = |item: &Item| item.ways.iter().map(|way| of(&way.takes) + of(&way.surplus)).max().unwrap_or(0);
    let limit = problem.capacities.get(at).map_or(0, |capacity| capacity.limit);
    problem.items.iter().map(most).sum::<i64>() > limit
}

/// What is left: of each leg the least of the capacities that count.
#[inline]
fn left(of: &[Vec<usize>], room: &[i64]) -> i64 {
    let least = |family: &Vec<usize>| family.iter().filter_map(|at| room.get(*at)).min().copied().unwrap_or(0);
    of.iter().map(least).sum()
}

/// What every way of every item takes of each capacity, to be compared.
struct Takings {
    /// By capacity.
    of: Vec<Vec<i64>>,
    groups: Vec<usize>,
}

impl Takings {
    fn new(problem: &Problem) -> Self {
        let mut of = vec![Vec::new(); problem.capacities.len()];
        for way in problem.items.iter().flat_map(|item| &item.ways) {
            of.iter_mut().for_each(|takes| takes.push(0));
            for (at, count) in &way.takes {
                if let Some(last) = of.get_mut(*at).and_then(|takes| takes.last_mut()) {
                    *last = *count;
                }
            }
        }
        Self { of, groups: problem.capacities.iter().map(|capacity| capacity.group).collect() }
    }

    fn same(&self, one: usize, other: usize) -> bool {
        self.groups.get(one) == self.groups.get(other) && self.of.get(one) == self.of.get(other)
    }

    /// The capacities in the same unit at which no item counts for less.
    fn at_least(&self, base: usize) -> Vec<usize> {
        let Some(takes) = self.of.get(base) else { return vec![base] };
        let never_less = |at: &usize| {
            let others = self.of.get(*at).filter(|_| self.groups.get(*at) == self.groups.get(base));
            others.is_some_and(|others| takes.iter().zip(others).all(|(takes, other)| other >= takes))
        };
        (0..self.of.len()).filter(never_less).collect()
    }
}

/// Fills a table from the last item to the first.
fn fill<T>(problem: &Problem, shifts: &[usize], width: usize, narrow: impl Fn(u128) -> T) -> Vec<T>
where
    T: Copy + Ord + Default + std::ops::Add<Output = T>,
{
    let nothing = T::default();
    let items = problem.items.len();
    let mut table = vec![nothing; items * width];
    table.resize((items + 1) * width, narrow(1));
    for (index, (item, shift)) in problem.items.iter().zip(shifts).enumerate().rev() {
        let (head, below) = table.split_at_mut((index + 1) * width);
        let (Some(row), Some(below)) = (head.get_mut(index * width..), below.get(..width)) else { continue };
        let worth = narrow(item.worth);
        if !item.must {
            row.copy_from_slice(below);
        }
        for (cell, with) in row.iter_mut().skip(*shift).zip(below) {
            let with = if *with == nothing { nothing } else { *with + worth };
            *cell = with.max(*cell);
        }
    }
    table
}

/// The least that any way of carrying the item takes of the capacities together.
fn least(item: &Item, of: &[usize]) -> i64 {
    let takes = |way: &Way| -> i64 { way.takes.iter().filter(|(at, _)| of.contains(at)).map(|(_, count)| count).sum() };
    item.ways.iter().map(takes).min().unwrap_or(0)
}
