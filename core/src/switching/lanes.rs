//! Sets of states as bits, sixty-four states at a time.
//!
//! State `n` of up to [`MAX_SWITCHES`] switches is bit `n % 64` of word `n / 64`: the low six switches alternate
//! inside a word, the others are constant in it.

/// The most switches whose states are explored together: 2²⁴ states are 2 MB for each step of distance.
pub(super) const MAX_SWITCHES: usize = 24;

/// Which bits of a word have each of the low six switches closed.
const LOW: [u64; 6] = [
    0xAAAA_AAAA_AAAA_AAAA,
    0xCCCC_CCCC_CCCC_CCCC,
    0xF0F0_F0F0_F0F0_F0F0,
    0xFF00_FF00_FF00_FF00,
    0xFFFF_0000_FFFF_0000,
    0xFFFF_FFFF_0000_0000,
];

/// A move between states: from where the `set` switches are closed and the `clear` ones open, `toggle` changes.
/// Every switch that toggles stands in `set` or in `clear`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Move {
    pub(super) set: u32,
    pub(super) clear: u32,
    pub(super) toggle: u32,
}

impl Move {
    pub(super) const fn from(self, state: u32) -> Option<u32> {
        if state & self.set == self.set && state & self.clear == 0 { Some(state ^ self.toggle) } else { None }
    }
}

/// The states, among the sixty-four of a word, in which a switch is closed.
pub(super) fn closed_in(word: usize, switch: usize) -> u64 {
    match LOW.get(switch) {
        Some(pattern) => *pattern,
        None if word >> (switch - LOW.len()) & 1 == 1 => u64::MAX,
        None => 0,
    }
}

/// The states that moves lead to, by their distance from the start.
#[derive(Debug)]
pub(super) struct Reached {
    seen: Vec<u64>,
    levels: Vec<Vec<u64>>,
}

/// Finds every state that moves lead to from `start`, nearest first.
pub(super) fn reach(switches: usize, start: u32, moves: &[Move]) -> Reached {
    let words = 1usize << switches.saturating_sub(LOW.len());
    let moves: Vec<LaneMove> = moves.iter().copied().map(LaneMove::new).collect();
    let mut seen = vec![0u64; words];
    let mut level = vec![0u64; words];
    if let Some(word) = level.get_mut(start as usize / 64) {
        *word |= 1 << (start % 64);
    }
    let mut levels = Vec::new();
    while level.iter().any(|lanes| *lanes != 0) {
        let mut next = vec![0u64; words];
        for (word, lanes) in level.iter().enumerate().filter(|(_, lanes)| **lanes != 0) {
            if let Some(seen) = seen.get_mut(word) {
                *seen |= lanes;
            }
            for one in &moves {
                one.spread(word, *lanes, &mut next);
            }
        }
        for (lanes, seen) in next.iter_mut().zip(&seen) {
            *lanes &= !seen;
        }
        levels.push(std::mem::replace(&mut level, next));
    }
    Reached { seen, levels }
}

impl Reached {
    /// How many states are reached.
    pub(super) fn count(&self) -> u64 {
        self.seen.iter().map(|lanes| u64::from(lanes.count_ones())).sum()
    }

    /// Each word in which a state is reached, with those states.
    pub(super) fn words(&self) -> impl Iterator<Item = (usize, u64)> {
        self.seen.iter().copied().enumerate().filter(|(_, lanes)| *lanes != 0)
    }

    /// The nearest of some states of a word with its distance, where that is less than `bound`.
    pub(super) fn nearest(&self, word: usize, lanes: u64, bound: usize) -> Option<(usize, u32)> {
        self.levels.iter().take(bound).enumerate().find_map(|(distance, level)| {
            let found = level.get(word).map_or(0, |level| level & lanes);
            let state = u32::try_from(word).ok()?.checked_mul(64)? | found.trailing_zeros();
            (found != 0).then_some((distance, state))
        })
    }

    /// The places, in `moves`, of a shortest way from the start to a state at that distance.
    pub(super) fn way(&self, (distance, mut state): (usize, u32), moves: &[Move]) -> Vec<usize> {
        let at = |level: &Vec<u64>, state: u32| {
            level.get(state as usize / 64).is_some_and(|word| word >> (state % 64) & 1 == 1)
        };
        let mut way = Vec::with_capacity(distance);
        for nearer in self.levels.iter().take(distance).rev() {
            let back = moves.iter().enumerate().find_map(|(place, one)| {
                let before = state ^ one.toggle;
                (one.from(before) == Some(state) && at(nearer, before)).then_some((place, before))
            });
            let Some((place, before)) = back else { break };
            way.push(place);
            state = before;
        }
        way.reverse();
        way
    }
}

/// A move of sixty-four states at a time: between words by `toggle`, inside a word by shifts.
struct LaneMove {
    set: usize,
    clear: usize,
    toggle: usize,
    lanes: u64,
    up: u32,
    down: u32,
}

impl LaneMove {
    fn new(one: Move) -> Self {
        let high = |mask: u32| mask as usize >> LOW.len();
        let (set, clear, toggle) = (high(one.set), high(one.clear), high(one.toggle));
        let mut found = Self { set, clear, toggle, lanes: u64::MAX, up: 0, down: 0 };
        for (switch, pattern) in LOW.iter().enumerate() {
            let bit = 1u32 << switch;
            if one.set & bit != 0 {
                found.lanes &= pattern;
            }
            if one.clear & bit != 0 {
                found.lanes &= !pattern;
            }
            if one.toggle & bit != 0 {
                if one.set & bit != 0 { found.down += bit } else { found.up += bit }
            }
        }
        found
    }

    /// Adds to `next` what this move reaches from the states of one word.
    fn spread(&self, word: usize, lanes: u64, next: &mut [u64]) {
        let from = lanes & self.lanes;
        if from != 0
            && word & self.set == self.set
            && word & self.clear == 0
            && let Some(to) = next.get_mut(word ^ self.toggle)
        {
            *to |= (from << self.up) >> self.down;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::collections::{BTreeMap, VecDeque};

    /// One state at a time, as anybody would write it: each state with its distance.
    fn plainly(start: u32, moves: &[Move]) -> BTreeMap<u32, usize> {
        let mut seen = BTreeMap::from([(start, 0)]);
        let mut open = VecDeque::from([start]);
        while let Some(state) = open.pop_front() {
            let distance = seen[&state] + 1;
            for next in moves.iter().filter_map(|one| one.from(state)) {
                if let std::collections::btree_map::Entry::Vacant(place) = seen.entry(next) {
                    place.insert(distance);
                    open.push_back(next);
                }
            }
        }
        seen
    }

    proptest! {
        #[test]
        fn lanes_reach_what_single_states_reach(
            switches in 1usize..10,
            start in any::<u32>(),
            raw in prop::collection::vec((any::<u32>(), any::<u32>(), any::<u32>()), 0..12),
        ) {
            let all = (1u32 << switches) - 1;
            let moves: Vec<Move> = raw
                .iter()
                .map(|(set, clear, toggle)| {
                    let set = set & all;
                    let clear = clear & all & !set;
                    Move { set, clear, toggle: toggle & (set | clear) }
                })
                .collect();
            let start = start & all;
            let found = reach(switches, start, &moves);
            let expected = plainly(start, &moves);
            prop_assert_eq!(found.count(), expected.len() as u64);
            for (state, distance) in expected {
                let lanes = 1 << (state % 64);
                prop_assert_eq!(found.nearest(state as usize / 64, lanes, distance), None);
                let nearest = found.nearest(state as usize / 64, lanes, distance + 1);
                prop_assert_eq!(nearest, Some((distance, state)));
                let way = found.way((distance, state), &moves);
                prop_assert_eq!(way.len(), distance);
                let end = way.iter().try_fold(start, |state, place| moves[*place].from(state));
                prop_assert_eq!(end, Some(state));
            }
        }
    }

    #[test]
    fn a_closed_switch_is_the_bit_of_its_number() {
        for state in 0..1usize << 8 {
            for switch in 0..8 {
                assert_eq!(closed_in(state / 64, switch) >> (state % 64) & 1 == 1, state >> switch & 1 == 1);
            }
        }
    }
}
