//! The best set whose loads can also be started.
//!
//! What a start demands only grows with what else is on, so a set that cannot be started holds a least part that
//! cannot, and no set with that part can. Of one load: it stays off. Of two: only one of them may be on. Of more: each
//! is left out in turn, and the best of the answers is taken.

use super::candidate::Candidate;
use crate::plan::choose::{self, Choice, ChooseError, Chosen, Limits, Proof, Wish};
use crate::plan::endurance::EnduranceError;
use crate::plan::order::{self, LimitBroken, Order, OrderError, Starter};
use crate::plan::{Question, Verdict};
use crate::trade::Leg;

/// So many choices are made before the best set so far is given as not proven.
const MOST_CHOICES: u32 = 200;

/// The parts of a site between which the search goes to and fro.
pub(super) struct Search<'s, 'a> {
    pub(super) candidates: &'s [Candidate<'a>],
    pub(super) limits: &'s Limits,
    pub(super) source: &'s order::Source,
    pub(super) base: &'s [Starter],
    pub(super) next_group: u16,
    pub(super) choices: u32,
    pub(super) exhausted: bool,
}

/// What the search found.
pub(super) enum Found {
    /// A set, and the loads as they were chosen among.
    Set(Chosen, Vec<choose::Load>),
    /// The loads that must be on break these limits.
    Over(Vec<choose::Breach>),
    /// The loads that must be on cannot be started together.
    NoStart(Vec<usize>),
    Unknown(Vec<Question>),
}

/// An input that the engines refuse.
pub(super) enum Refused {
    Choose(ChooseError),
    Order(OrderError),
    Endurance(EnduranceError),
    /// A load of a proposed order that is not there.
    NoSuchLoad(String),
}

impl From<EnduranceError> for Refused {
    fn from(error: EnduranceError) -> Self {
        Self::Endurance(error)
    }
}

impl From<ChooseError> for Refused {
    fn from(error: ChooseError) -> Self {
        Self::Choose(error)
    }
}

impl From<OrderError> for Refused {
    fn from(error: OrderError) -> Self {
        Self::Order(error)
    }
}

impl Search<'_, '_> {
    /// The best set; loads behind the candidates are the base.
    pub(super) fn best(&mut self, loads: &[choose::Load]) -> Result<Found, Refused> {
        (self.choices, self.exhausted) = (0, false);
        self.best_of(loads.to_vec())
    }

    fn best_of(&mut self, mut loads: Vec<choose::Load>) -> Result<Found, Refused> {
        loop {
            self.choices += 1;
            let chosen = match choose::choose(&loads, self.limits)? {
                Choice::Found(chosen) => chosen,
                Choice::Impossible(breaches) => return Ok(Found::Over(breaches)),
                Choice::CannotTell(questions) => return Ok(Found::Unknown(questions)),
            };
            let on: Vec<(usize, Leg)> = self.of_candidates(&chosen);
            if self.can_start(&on)? {
                return Ok(Found::Set(chosen, loads));
            }
            let least = self.least_part(on)?;
            let mut part: Vec<usize> = least.iter().map(|(index, _)| *index).collect();
            part.sort_unstable();
            let free: Vec<usize> =
                part.iter().copied().filter(|index| wish(&loads, *index) != Some(Wish::Must)).collect();
            match free.as_slice() {
                [] => return Ok(Found::NoStart(part)),
                [one] => leave_out(&mut loads, *one),
                // The others of the part must be on anyway.
                [_, _] => self.put_apart(&mut loads, &free),
                _ => return self.branch(&loads, &free),
            }
        }
    }

    fn branch(&mut self, loads: &[choose::Load], free: &[usize]) -> Result<Found, Refused> {
        let mut best: Option<(Chosen, Vec<choose::Load>)> = None;
        let mut other = None;
        for index in free {
            if self.choices > MOST_CHOICES && best.is_some() {
                self.exhausted = true;
                break;
            }
            let mut without = loads.to_vec();
            leave_out(&mut without, *index);
            match self.best_of(without)? {
                Found::Set(chosen, loads) => {
                    let better = best.as_ref().is_none_or(|(known, with)| worth(&chosen, &loads) > worth(known, with));
                    if better {
                        best = Some((chosen, loads));
                    }
                }
                found => other = other.or(Some(found)),
            }
        }
        Ok(match (best, other) {
            (Some((chosen, loads)), _) => Found::Set(chosen, loads),
            (None, Some(other)) => other,
            (None, None) => Found::NoStart(free.to_vec()),
        })
    }

    pub(super) fn of_candidates(&self, chosen: &Chosen) -> Vec<(usize, Leg)> {
        chosen.on.iter().copied().filter(|(index, _)| *index < self.candidates.len()).collect()
    }

    pub(super) fn starters(&self, on: &[(usize, Leg)]) -> Vec<Starter> {
        on.iter().filter_map(|(index, leg)| self.candidates.get(*index).map(|one| one.starter(*leg))).collect()
    }

    /// Whether no order is known to fail, and no automatic load that comes on beside all others, alone or with one more.
    pub(super) fn can_start(&self, on: &[(usize, Leg)]) -> Result<bool, Refused> {
        let starters = self.starters(on);
        if matches!(order::order(self.source, &starters, self.base)?, Order::Impossible(_)) {
            return Ok(false);
        }
        let together = order::automatic(self.source, &starters, self.base)?;
        Ok(together.alone.iter().chain(&together.pairs).all(|step| step.verdict() != Verdict::Fails))
    }

    /// A part of a set that cannot be started, of which every smaller part can.
    fn least_part(&self, mut on: Vec<(usize, Leg)>) -> Result<Vec<(usize, Leg)>, Refused> {
        let mut at = 0;
        while at < on.len() {
            let mut without = on.clone();
            without.remove(at);
            if self.can_start(&without)? { at += 1 } else { on = without }
        }
        Ok(on)
    }

    fn put_apart(&mut self, loads: &mut [choose::Load], part: &[usize]) {
        for index in part {
            if let Some(load) = loads.get_mut(*index) {
                load.groups.push(self.next_group);
            }
        }
        self.next_group = self.next_group.saturating_add(1);
    }

    /// What a load would break if it came on last beside those that are on, or with an automatic one of them.
    pub(super) fn broken(&self, on: &[(usize, Leg)], index: usize, leg: Leg) -> Result<Vec<LimitBroken>, Refused> {
        let mut with = on.to_vec();
        with.push((index, leg));
        let starters = self.starters(&with);
        let last = starters.len().saturating_sub(1);
        let running: Vec<usize> = (0..last).collect();
        let step = order::judge(self.source, &starters, self.base, &running, &[last])?;
        if !step.broken.is_empty() {
            return Ok(step.broken);
        }
        let together = order::automatic(self.source, &starters, self.base)?;
        let steps = together.alone.into_iter().chain(together.pairs);
        Ok(steps.map(|step| step.broken).find(|broken| !broken.is_empty()).unwrap_or_default())
    }

    /// Whether the answer is the best for sure.
    pub(super) fn proven(&self, chosen: &Chosen) -> bool {
        !self.exhausted && chosen.proof == Proof::Best
    }
}

fn wish(loads: &[choose::Load], index: usize) -> Option<Wish> {
    loads.get(index).map(|load| load.wish)
}

fn leave_out(loads: &mut [choose::Load], index: usize) {
    if let Some(load) = loads.get_mut(index) {
        load.wish = Wish::Off;
    }
}

/// The weights that are on, class by class, most important first; every class has its place.
fn worth(chosen: &Chosen, loads: &[choose::Load]) -> Vec<u64> {
    let mut classes: Vec<u8> = loads.iter().map(|load| load.class).collect();
    classes.sort_unstable();
    classes.dedup();
    let of = |class: u8| {
        let ours = chosen.on.iter().filter_map(|(index, _)| loads.get(*index)).filter(|load| load.class == class);
        ours.map(|load| u64::from(load.weight.get())).sum()
    };
    classes.into_iter().map(of).collect()
}
