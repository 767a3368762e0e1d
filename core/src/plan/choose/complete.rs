//! A whole set from a bound: the set that is best where one limit is the only one, with legs that suit the others.
//!
//! Where all loads that may choose their leg find one, the bound is reached and nothing better lies below. Which sums
//! leg A can reach is told by subset sums, one bit a sum.

use super::bound::{Bound, WithStarts};
use super::problem::{Item, Problem, Starts, Way, cell};

/// Sums that one row of bits can tell apart.
const MOST_SUMS: i64 = 1 << 18;

/// A set that fits: its worth, and for each item from the first asked the way that carries it.
pub(super) struct Completed {
    pub(super) worth: u128,
    pub(super) ways: Vec<Option<usize>>,
    /// The words of bits that were written.
    pub(super) work: usize,
}

/// Where a search stands.
pub(super) struct Standing<'s> {
    pub(super) problem: &'s Problem,
    /// The item that comes next.
    pub(super) next: usize,
    pub(super) room: &'s [i64],
    pub(super) starts: &'s Starts,
    pub(super) taken_groups: &'s [u16],
    pub(super) tilt: i64,
}

impl Standing<'_> {
    /// The set of a bound with legs; `None` where some limit is broken.
    pub(super) fn complete(&self, bound: &Bound, legs: &[Vec<usize>], with: WithStarts) -> Option<Completed> {
        let mut groups = self.taken_groups.to_vec();
        let mut room = self.room.to_vec();
        let mut starts = self.starts.clone();
        let mut tilt = self.tilt;
        let mut ways = vec![None; self.problem.items.len() - self.next];
        let mut worth = 0;
        let mut choosers = Vec::new();
        for index in bound.set(self.problem, self.next, self.room, with) {
            let item = self.problem.items.get(index)?;
            if item.groups.iter().any(|group| groups.contains(group)) {
                continue;
            }
            groups.extend(&item.groups);
            worth += item.worth;
            match item.ways.as_slice() {
                [only] => {
                    carry(only, &mut room, &mut starts, &mut tilt)?;
                    *ways.get_mut(index - self.next)? = Some(0);
                }
                _ => choosers.push((index, item)),
            }
        }
        let (first, work) = split(&choosers, legs, &room)?;
        for ((index, item), way) in choosers.iter().zip(first) {
            let Some(way) = way else {
                worth -= item.worth;
                continue;
            };
            carry(item.ways.get(way)?, &mut room, &mut starts, &mut tilt)?;
            *ways.get_mut(index - self.next)? = Some(way);
        }
        let must = self.problem.items.iter().skip(self.next).zip(&ways).all(|(item, way)| way.is_some() || !item.must);
        let balanced = self.problem.balance.is_none_or(|balance| tilt.abs() <= balance);
        (must && balanced).then_some(Completed { worth, ways, work })
    }
}

/// Takes what a way takes, if it fits.
fn carry(way: &Way, room: &mut [i64], starts: &mut Starts, tilt: &mut i64) -> Option<()> {
    take(way, room, starts);
    *tilt += way.tilt;
    let fits = |(at, _): &(usize, i64)| room.get(*at).is_some_and(|left| *left >= 0);
    way.takes.iter().all(fits).then_some(())
}

/// Takes what a way takes, whether or not it fits.
pub(super) fn take(way: &Way, room: &mut [i64], starts: &mut Starts) {
    for (at, _) in &way.surplus {
        if let Some(left) = room.get_mut(*at) {
            *left += starts.of(*at);
        }
    }
    starts.add(way);
    for (at, _) in &way.surplus {
        if let Some(left) = room.get_mut(*at) {
            *left -= starts.of(*at);
        }
    }
    for (at, count) in &way.takes {
        if let Some(left) = room.get_mut(*at) {
            *left -= count;
        }
    }
}

/// The ways of the items, so that both legs hold, with the work that it took. What overflows the second leg is left
/// out, the least worthy first.
fn split(items: &[(usize, &Item)], legs: &[Vec<usize>], room: &[i64]) -> Option<(Vec<Option<usize>>, usize)> {
    if items.is_empty() {
        return Some((Vec::new(), 0));
    }
    let [leg_a, leg_b] = legs else { return None };
    let least = |family: &[usize]| family.iter().filter_map(|at| room.get(*at)).min().copied();
    let (on_a, on_b) = (least(leg_a)?, least(leg_b)?);
    // Rounded up, so that what fits in cells fits.
    let takes = |way: &Way| way.takes.iter().find(|(at, _)| leg_a.contains(at)).map_or(0, |(_, count)| *count);
    let draws: Vec<i64> = items.iter().map(|(_, item)| item.ways.first().map_or(0, takes)).collect();
    let cell = cell(on_a, draws.iter().copied(), MOST_SUMS);
    let cells = |draw: &i64| usize::try_from((draw + cell - 1) / cell).ok();
    let cells: Vec<usize> = draws.iter().map(cells).collect::<Option<_>>()?;
    let width = usize::try_from(on_a / cell).ok()? / 64 + 1;
    let mut rows = vec![vec![0_u64; width]];
    if let Some(zero) = rows.first_mut().and_then(|row| row.first_mut()) {
        *zero = 1;
    }
    for shift in &cells {
        let row = shifted(rows.last()?, *shift);
        rows.push(row);
    }
    let whole = i64::try_from(cells.iter().sum::<usize>()).ok()?;
    // The greatest sum on leg A that it holds: it leaves the least to leg B.
    let mut sum = usize::try_from((on_a / cell).min(whole)).ok()?;
    while !bit(rows.last()?, sum) {
        sum = sum.checked_sub(1)?;
    }
    let mut first = vec![false; items.len()];
    for ((place, shift), before) in first.iter_mut().zip(&cells).zip(&rows).rev() {
        if !bit(before, sum) {
            *place = true;
            sum = sum.checked_sub(*shift)?;
        }
    }
    let mut ways: Vec<Option<usize>> = first.iter().map(|first| Some(usize::from(!first))).collect();
    let mut left: i64 = draws.iter().zip(&first).filter(|(_, first)| !**first).map(|(draw, _)| draw).sum();
    while left > on_b {
        let on_second = items.iter().zip(&draws).zip(&mut ways).filter(|(_, way)| **way == Some(1));
        let (draw, way) = on_second
            .filter(|(((_, item), _), _)| !item.must)
            .map(|(((_, item), draw), way)| (item.worth, draw, way))
            .min_by_key(|(worth, ..)| *worth)
            .map(|(_, draw, way)| (draw, way))?;
        *way = None;
        left -= draw;
    }
    Some((ways, width * items.len()))
}

/// The sums without and with one more item.
fn shifted(row: &[u64], shift: usize) -> Vec<u64> {
    let (words, bits) = (shift / 64, shift % 64);
    let mut next = row.to_vec();
    for (word, from) in next.iter_mut().skip(words).zip(row) {
        *word |= from << bits;
    }
    if bits > 0 {
        for (word, from) in next.iter_mut().skip(words + 1).zip(row) {
            *word |= from >> (64 - bits);
        }
    }
    next
}

fn bit(row: &[u64], at: usize) -> bool {
    row.get(at / 64).is_some_and(|word| word >> (at % 64) & 1 == 1)
}
