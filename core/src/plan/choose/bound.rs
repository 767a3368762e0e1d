//! Upper bounds on what the rest of the loads can be worth, by dynamic programming over one limit at a time.
//!
//! Leaving out every limit but one (or adding the two legs of one limit together) makes the choice a knapsack, whose
//! exact answers for every remaining capacity stand in a table. The least of those answers bounds the choice. Where
//! a limit has more units than a table has cells, draws are rounded down to cells: the bound stays a bound.

use super::problem::{Item, Problem};

/// The answers for one limit: what the items from `item` on can be worth within `cells`.
pub(super) struct Bound {
    /// The capacities whose sum is limited.
    of: Vec<usize>,
    /// How many units make one cell.
    cell: i64,
    width: usize,
    /// By item, then by cells: 0 where the loads that must be on do not fit, else the worth plus 1.
    table: Vec<u128>,
}

impl Bound {
    /// The bounds of every limit that can be reached at all.
    pub(super) fn all(problem: &Problem, most_cells: i64) -> Vec<Self> {
        let single = (0..problem.capacities.len()).map(|index| vec![index]);
        let pairs = problem.leg_pairs.iter().map(|(a, b)| vec![*a, *b]);
        pairs.chain(single).filter_map(|of| Self::new(problem, of, most_cells)).collect()
    }

    fn new(problem: &Problem, of: Vec<usize>, most_cells: i64) -> Option<Self> {
        let limit: i64 = of.iter().filter_map(|at| problem.capacities.get(*at)).map(|capacity| capacity.limit).sum();
        let least: Vec<i64> = problem.items.iter().map(|item| least(item, &of)).collect();
        if least.iter().sum::<i64>() <= limit {
            return None;
        }
        let cell = limit / most_cells + 1;
        let width = usize::try_from(limit / cell + 1).ok()?;
        let mut below = vec![1; width];
        let mut rows = vec![below.clone()];
        for (item, least) in problem.items.iter().zip(&least).rev() {
            let shift = usize::try_from(least / cell).ok()?;
            let with = std::iter::repeat_n(0, shift).chain(below.iter().copied());
            let row = below.iter().zip(with).map(|(&without, with)| {
                let with = if with == 0 { 0 } else { with + item.worth };
                if item.must { with } else { with.max(without) }
            });
            let row: Vec<u128> = row.collect();
            rows.push(row.clone());
            below = row;
        }
        rows.reverse();
        Some(Self { of, cell, width, table: rows.concat() })
    }

    /// What the items from `item` on can be worth at most, plus 1; 0 where those that must be on do not fit.
    #[inline]
    pub(super) fn worth(&self, item: usize, left: &[i64]) -> u128 {
        let left: i64 = self.of.iter().filter_map(|at| left.get(*at)).sum();
        let cells = usize::try_from(left / self.cell).unwrap_or(0);
        self.table.get(item * self.width + cells).copied().unwrap_or(u128::MAX)
    }
}

/// The least that any way of carrying the item takes of the capacities together.
fn least(item: &Item, of: &[usize]) -> i64 {
    let takes = |way: &super::problem::Way| -> i64 {
        way.takes.iter().filter(|(at, _)| of.contains(at)).map(|(_, count)| count).sum()
    };
    item.ways.iter().map(takes).min().unwrap_or(0)
}
