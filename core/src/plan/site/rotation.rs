//! Loads that cannot all be on: the pairs that must not run at once, and turns in which each gets its time.
//!
//! A turn holds what can also be started, with the loads that must be on.

use super::choice::{Found, Refused, Search};
use crate::plan::choose::{self, NeutralCurrent, Wish};

/// Pairs and turns, as indices of candidates.
pub(super) struct Turns {
    pub(super) apart: Vec<(usize, usize)>,
    /// Empty where one turn holds all that can be on at all.
    pub(super) turns: Vec<Vec<usize>>,
    pub(super) never: Vec<usize>,
}

/// More turns than anybody would keep up with.
const MOST_TURNS: usize = 24;

/// A turn need not be the best; it only has to hold.
const LITTLE_WORK: u64 = 200_000;

pub(super) fn turns(search: &mut Search<'_, '_>, loads: &[choose::Load]) -> Result<Turns, Refused> {
    let wanted = |index: &usize| {
        let load = loads.get(*index);
        load.is_some_and(|load| load.wish == Wish::WouldLike && load.draw.is_some())
    };
    let mut free = Vec::new();
    let mut never = Vec::new();
    for index in (0..search.candidates.len()).filter(wanted) {
        if together(search, loads, &[index])? { free.push(index) } else { never.push(index) }
    }
    let can_be_on = free.clone();
    let mut turns: Vec<Vec<usize>> = Vec::new();
    let mut waiting = loads.to_vec();
    for index in &never {
        off(&mut waiting, *index);
    }
    while turns.len() < MOST_TURNS {
        let Found::Set(chosen) = search.best(&waiting, LITTLE_WORK)? else { break };
        let on: Vec<usize> = search.of_candidates(&chosen).into_iter().map(|(index, _)| index).collect();
        let fresh: Vec<usize> = on.iter().copied().filter(|index| free.contains(index)).collect();
        if fresh.is_empty() {
            break;
        }
        turns.push(filled(search, loads, &fresh, &never)?.unwrap_or(on));
        for index in fresh {
            off(&mut waiting, index);
            free.retain(|other| *other != index);
        }
    }
    let mut apart = Vec::new();
    for (at, &one) in can_be_on.iter().enumerate() {
        for &other in can_be_on.iter().skip(at + 1) {
            // What shares a turn was found to hold together.
            let share = turns.iter().any(|turn| turn.contains(&one) && turn.contains(&other));
            if !share && !together(search, loads, &[one, other])? {
                apart.push((one, other));
            }
        }
    }
    if turns.len() < 2 {
        turns.clear();
    }
    Ok(Turns { apart, turns, never })
}

/// A turn with what else fits beside the loads whose turn it is.
fn filled(
    search: &mut Search<'_, '_>,
    loads: &[choose::Load],
    fresh: &[usize],
    never: &[usize],
) -> Result<Option<Vec<usize>>, Refused> {
    let mut whole = loads.to_vec();
    never.iter().for_each(|index| off(&mut whole, *index));
    for index in fresh {
        if let Some(load) = whole.get_mut(*index) {
            load.wish = Wish::Must;
        }
    }
    Ok(match search.best(&whole, LITTLE_WORK)? {
        Found::Set(chosen) => Some(search.of_candidates(&chosen).into_iter().map(|(index, _)| index).collect()),
        _ => None,
    })
}

/// Whether some set holds these with what must be on, and can be started.
fn together(search: &mut Search<'_, '_>, loads: &[choose::Load], these: &[usize]) -> Result<bool, Refused> {
    let demanded =
        |index: &usize| these.contains(index) || loads.get(*index).is_some_and(|load| load.wish == Wish::Must);
    let candidates = search.candidates.len();
    let demanded: Vec<usize> = (0..candidates).filter(demanded).collect();
    let with_base = demanded.iter().copied().chain(candidates..loads.len());
    let mut only: Vec<choose::Load> = with_base.filter_map(|index| loads.get(index).cloned()).collect();
    only.iter_mut().for_each(|load| load.wish = Wish::Must);
    let alone = matches!(search.among(&demanded).best(&only, LITTLE_WORK)?, Found::Set(_));
    // A limit on the difference of the legs is the one that further loads can help to keep.
    let balance = search.limits.neutral.stated().is_some_and(|limit| limit.current == NeutralCurrent::Difference);
    if alone || !balance {
        return Ok(alone);
    }
    let mut whole = loads.to_vec();
    for index in demanded {
        if let Some(load) = whole.get_mut(index) {
            load.wish = Wish::Must;
        }
    }
    Ok(matches!(search.best(&whole, LITTLE_WORK)?, Found::Set(_)))
}

fn off(loads: &mut [choose::Load], index: usize) {
    if let Some(load) = loads.get_mut(index) {
        load.wish = Wish::Off;
    }
}
