//! Loads that cannot all be on: the pairs that must not run at once, and turns in which each gets its time.

use super::{Choice, ChooseError, Limits, Load, Wish, choose};
use crate::trade::Leg;

/// Turns one after the other; in each the loads that must be on are on too.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rotation {
    /// The loads of each turn, by index, with their legs.
    pub turns: Vec<Vec<(usize, Leg)>>,
    /// Loads that no turn can hold, not even alone beside those that must be on, or that exclude one of them.
    pub never: Vec<usize>,
}

/// The pairs of loads that must not run at once, beside the loads that must be on.
///
/// Loads whose draw is not stated are left out: of them nothing is told.
///
/// # Errors
/// An input that cannot be: see [`ChooseError`].
pub fn pairs_apart(loads: &[Load], limits: &Limits) -> Result<Vec<(usize, usize)>, ChooseError> {
    let wished = |index: &usize| loads.get(*index).is_some_and(|load| load.wish != Wish::Off && load.draw.is_some());
    let candidates: Vec<usize> = (0..loads.len()).filter(wished).collect();
    let must = |index: usize| loads.get(index).is_some_and(|load| load.wish == Wish::Must);
    let mut apart = Vec::new();
    for (at, &first) in candidates.iter().enumerate() {
        for &second in candidates.iter().skip(at + 1) {
            let both_must = must(first) && must(second);
            if !both_must && !together(loads, limits, &[first, second])? {
                apart.push((first, second));
            }
        }
    }
    Ok(apart)
}

/// Whether these loads can be on together beside those that must be on.
fn together(loads: &[Load], limits: &Limits, these: &[usize]) -> Result<bool, ChooseError> {
    let only = loads.iter().enumerate().map(|(index, load)| {
        let mut load = load.clone();
        load.wish = match load.wish {
            Wish::Must => Wish::Must,
            _ if these.contains(&index) => Wish::Must,
            _ => Wish::Off,
        };
        load
    });
    let only: Vec<Load> = only.collect();
    Ok(matches!(choose(&only, limits)?, Choice::Found(_)))
}

/// Turns that hold every load that can be on at all: the best set first, then the best of those that had no turn yet.
///
/// `None` where even the loads that must be on do not fit, or a limit is not stated.
///
/// # Errors
/// An input that cannot be: see [`ChooseError`].
pub fn rotation(loads: &[Load], limits: &Limits) -> Result<Option<Rotation>, ChooseError> {
    let mut waiting = loads.to_vec();
    let mut turns = Vec::new();
    loop {
        let Choice::Found(chosen) = choose(&waiting, limits)? else { return Ok(None) };
        let fresh = |index: usize| waiting.get(index).is_some_and(|load| load.wish == Wish::WouldLike);
        if !chosen.on.iter().any(|(index, _)| fresh(*index)) {
            if turns.is_empty() {
                turns.push(chosen.on);
            }
            let never = (0..loads.len()).filter(|index| fresh(*index)).collect();
            return Ok(Some(Rotation { turns, never }));
        }
        for (index, _) in &chosen.on {
            if let Some(load) = waiting.get_mut(*index).filter(|load| load.wish == Wish::WouldLike) {
                load.wish = Wish::Off;
            }
        }
        turns.push(chosen.on);
    }
}
