//! One step judged from every side: the moment of it, the state after it, and whatever the utility does.

use super::electrical::Electrical;
use super::invariant::Break;
use super::judge::{Side, judge_state, judge_step};
use super::network::{Network, Undescribed};
use super::operation::Operation;
use super::state::State;
use super::transition::Effect;

/// How the outside world is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Outside {
    /// The utility is live or dead as the state says.
    AsStated,
    /// The utility may be either at every moment, so that no step rests on what the operator knows of the street.
    Any,
}

impl Network {
    /// Judges a state as it stands.
    pub(super) fn judge(&self, state: &State, outside: Outside, found: &mut Vec<Break>) {
        let electrical = Electrical::of(self, state);
        self.in_each_weather(outside, |live| {
            let (state, electrical) = self.weather(state, &electrical, live);
            judge_state(self, Side { state: &state, electrical: &electrical }, found);
        });
        once_each(found);
    }

    /// Does one step and adds what it breaks to `found`. A refused step breaks nothing.
    pub(super) fn attempt(
        &self,
        before: (&State, &Electrical),
        operation: Operation,
        reading: Undescribed,
        outside: Outside,
        found: &mut Vec<Break>,
    ) -> Effect {
        let effect = self.step(before.0, operation, reading);
        let Effect::Done { through, state } = effect else { return effect };
        let after = if state.set == before.0.set { *before.1 } else { Electrical::of(self, &state) };
        self.in_each_weather(outside, |live| {
            let (old_state, old) = self.weather(before.0, before.1, live);
            let (new_state, new) = self.weather(&state, &after, live);
            if let Some(moment) = through {
                let electrical = Electrical::of(self, &moment);
                let (moment, electrical) = self.weather(&moment, &electrical, live);
                judge_state(self, Side { state: &moment, electrical: &electrical }, found);
            }
            let new = Side { state: &new_state, electrical: &new };
            judge_step(self, operation, Side { state: &old_state, electrical: &old }, new, found);
            judge_state(self, new, found);
        });
        once_each(found);
        effect
    }

    fn in_each_weather(&self, outside: Outside, mut judge: impl FnMut(Option<bool>)) {
        let has_utility = self.supplies.iter().any(|supply| supply.source.is_none());
        if outside == Outside::Any && has_utility {
            judge(Some(false));
            judge(Some(true));
        } else {
            judge(None);
        }
    }

    fn weather(&self, state: &State, electrical: &Electrical, live: Option<bool>) -> (State, Electrical) {
        let Some(live) = live else { return (*state, *electrical) };
        let utility = self.supplies.iter().find(|supply| supply.source.is_none()).map_or(0, |supply| supply.bit);
        (state.with(utility, live), electrical.with_utility(self, live))
    }
}

/// In the order of the invariants, each break once.
fn once_each(found: &mut Vec<Break>) {
    if found.len() > 1 {
        let mut seen = Vec::with_capacity(found.len());
        found.retain(|one| {
            !seen.contains(one) && {
                seen.push(*one);
                true
            }
        });
        found.sort_by_key(|one| one.invariant);
    }
}
