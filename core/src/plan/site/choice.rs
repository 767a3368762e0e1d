//! The best set whose loads can also be started.
//!
//! What a start demands only grows with what else is on, so a set that cannot be started holds a least part that
//! cannot, and no set with that part on those legs can. One of the part must get out of it: to the other leg where it
//! may choose, or off. Each way out is searched, and what cannot become better than the best so far is passed over.

use super::candidate::Candidate;
use crate::interrupt::Interrupt;
use crate::plan::choose::{self, Choice, ChooseError, Chosen, ClassWorth, Limits, Placement, Proof, Wish};
use crate::plan::endurance::EnduranceError;
use crate::plan::order::{self, LimitBroken, OrderError, Starter};
use crate::plan::{Question, Verdict};
use crate::trade::Leg;

/// The work after which the best set so far is given as not proven: about a second.
pub(super) const MOST_WORK: u64 = choose::MOST_NODES;

/// What one choice may take of it, and what it takes at least beside its nodes.
const MOST_NODES: u64 = MOST_WORK / 2;
const LEAST_NODES: u64 = 20_000;

/// The parts of a site between which the search goes to and fro.
pub(super) struct Search<'s, 'a> {
    pub(super) candidates: Vec<&'s Candidate<'a>>,
    pub(super) limits: &'s Limits,
    pub(super) source: &'s order::Source,
    pub(super) base: &'s [Starter],
    pub(super) next_group: u16,
    /// The work that is left.
    pub(super) left: u64,
    /// Where something was left unsearched, what that can be worth at most: the answer is then not proven to be the
    /// best.
    pub(super) open: Option<Vec<u64>>,
    /// The best so far, with what it is worth.
    pub(super) found: Option<(Vec<u64>, Chosen)>,
    pub(super) interrupt: &'s Interrupt,
}

/// What the search found.
pub(super) enum Found {
    /// A set.
    Set(Chosen),
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
    /// The search was told to stop.
    Stopped,
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

impl<'s, 'a> Search<'s, 'a> {
    pub(super) fn new(
        candidates: Vec<&'s Candidate<'a>>,
        limits: &'s Limits,
        source: &'s order::Source,
        base: &'s [Starter],
        next_group: u16,
        interrupt: &'s Interrupt,
    ) -> Self {
        Self { candidates, limits, source, base, next_group, left: 0, open: None, found: None, interrupt }
    }

    /// A search among some of the candidates only: as few as there are, it is as short.
    pub(super) fn among(&self, these: &[usize]) -> Self {
        let candidates = these.iter().filter_map(|index| self.candidates.get(*index).copied()).collect();
        Self::new(candidates, self.limits, self.source, self.base, self.next_group, self.interrupt)
    }

    /// The best set; loads behind the candidates are the base.
    pub(super) fn best(&mut self, loads: &[choose::Load], work: u64) -> Result<Found, Refused> {
        (self.left, self.open, self.found) = (work, None, None);
        let without = self.below(loads.to_vec(), None)?;
        Ok(match (self.found.take(), without) {
            (Some((_, chosen)), _) => Found::Set(chosen),
            (None, Some(reason)) => reason,
            (None, None) => Found::NoStart(Vec::new()),
        })
    }

    /// Searches below one set of loads, which is worth no more than `most`; why there is nothing, where there is.
    fn below(&mut self, mut loads: Vec<choose::Load>, most: Option<Vec<u64>>) -> Result<Option<Found>, Refused> {
        let mut most = most;
        loop {
            if self.interrupt.stops() {
                return Err(Refused::Stopped);
            }
            let known = self.found.as_ref().map(|(worth, _)| worth.clone());
            // A first answer is always sought; a better one only as long as there is work left.
            if self.left == 0 && known.is_some() {
                self.open = self.open.take().max(most);
                return Ok(None);
            }
            let nodes = self.left.clamp(LEAST_NODES, MOST_NODES);
            self.left = self.left.saturating_sub(LEAST_NODES);
            let chosen = match choose::choose_unless(&loads, self.limits, nodes, self.interrupt)? {
                Choice::Found(chosen) => chosen,
                Choice::Impossible(breaches) => return Ok(Some(Found::Over(breaches))),
                Choice::CannotTell(questions) => return Ok(Some(Found::Unknown(questions))),
            };
            self.left = self.left.saturating_sub(chosen.nodes);
            // Whatever lies below is worth no more than this.
            let worth = worth(&chosen, &loads);
            let above = match &chosen.proof {
                Proof::Best => worth.clone(),
                Proof::NotProven { at_most } => by_class(at_most, &loads),
            };
            most = Some(most.map_or_else(|| above.clone(), |most| most.min(above.clone())));
            let better = known.is_none_or(|known| worth > known);
            if chosen.proof == Proof::Best && !better {
                return Ok(None);
            }
            let on = self.of_candidates(&chosen);
            if self.can_start(&on)? {
                if chosen.proof != Proof::Best {
                    self.open = self.open.take().max(most);
                }
                if better {
                    self.found = Some((worth, chosen));
                }
                return Ok(None);
            }
            let part = self.least_part(on)?;
            let ways: Vec<(usize, WayOut)> =
                part.iter().filter_map(|(index, leg)| Some((*index, way_out(loads.get(*index)?, *leg)?))).collect();
            match ways.as_slice() {
                [] => {
                    let mut part: Vec<usize> = part.iter().map(|(index, _)| *index).collect();
                    part.sort_unstable();
                    return Ok(Some(Found::NoStart(part)));
                }
                [(index, way)] => apply(&mut loads, *index, *way),
                [(one, WayOut::Off), (other, WayOut::Off)] => self.put_apart(&mut loads, [*one, *other]),
                _ => return self.branch(&loads, ways, most),
            }
        }
    }

    fn branch(
        &mut self,
        loads: &[choose::Load],
        mut ways: Vec<(usize, WayOut)>,
        most: Option<Vec<u64>>,
    ) -> Result<Option<Found>, Refused> {
        // Another leg costs nothing, and of loads the least important costs the least.
        let cost = |(index, way): &(usize, WayOut)| {
            let load = loads.get(*index);
            let least_first = load.map(|load| (std::cmp::Reverse(load.class), load.weight));
            (*way == WayOut::Off, least_first, *index)
        };
        ways.sort_by_key(cost);
        let mut reason = None;
        for (index, way) in ways {
            let mut changed = loads.to_vec();
            apply(&mut changed, index, way);
            reason = reason.or(self.below(changed, most.clone())?);
        }
        Ok(reason)
    }

    /// What a set is worth, and whether that is the most.
    pub(super) fn proof(&self, chosen: &Chosen, loads: &[choose::Load]) -> (Vec<ClassWorth>, Proof) {
        let worth = worth(chosen, loads);
        let shown = |weights: &[u64]| shown(weights, loads, self.candidates.len());
        let proof = match &self.open {
            Some(open) if *open > worth => Proof::NotProven { at_most: shown(open) },
            _ => Proof::Best,
        };
        (shown(&worth), proof)
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
        let together = order::automatic(self.source, &starters, self.base)?;
        if together.alone.iter().chain(&together.pairs).any(|step| step.verdict() == Verdict::Fails) {
            return Ok(false);
        }
        Ok(order::has_order(self.source, &starters, self.base)?)
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

    fn put_apart(&mut self, loads: &mut [choose::Load], pair: [usize; 2]) {
        for index in pair {
            if let Some(load) = loads.get_mut(index) {
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
}

/// How a load gets out of a part that cannot be started.
#[derive(Clone, Copy, PartialEq, Eq)]
enum WayOut {
    /// It is on this leg, if it is on.
    Moved(Placement),
    /// It is off.
    Off,
}

/// A load that may choose goes to the other leg; another one goes off, unless it must be on.
fn way_out(load: &choose::Load, leg: Leg) -> Option<WayOut> {
    match (load.placement, leg, load.wish) {
        (Placement::Either, Leg::A, _) => Some(WayOut::Moved(Placement::B)),
        (Placement::Either, _, _) => Some(WayOut::Moved(Placement::A)),
        (_, _, Wish::Must) => None,
        _ => Some(WayOut::Off),
    }
}

fn apply(loads: &mut [choose::Load], index: usize, way: WayOut) {
    if let Some(load) = loads.get_mut(index) {
        match way {
            WayOut::Moved(placement) => load.placement = placement,
            WayOut::Off => load.wish = Wish::Off,
        }
    }
}

/// The weights that are on, class by class, most important first; every class has its place.
fn worth(chosen: &Chosen, loads: &[choose::Load]) -> Vec<u64> {
    let of = |class: u8| {
        let ours = chosen.on.iter().filter_map(|(index, _)| loads.get(*index)).filter(|load| load.class == class);
        ours.map(|load| u64::from(load.weight.get())).sum()
    };
    classes(loads).into_iter().map(of).collect()
}

/// The same of weights by class, which are listed for the classes that can be on.
fn by_class(weights: &[ClassWorth], loads: &[choose::Load]) -> Vec<u64> {
    let of = |class: u8| weights.iter().find(|of| of.class == class).map_or(0, |of| of.weight);
    classes(loads).into_iter().map(of).collect()
}

fn classes(loads: &[choose::Load]) -> Vec<u8> {
    let mut classes: Vec<u8> = loads.iter().map(|load| load.class).collect();
    classes.sort_unstable();
    classes.dedup();
    classes
}

/// Weights class by class as a report says them: those of the base load, which is always on, are left out.
fn shown(weights: &[u64], loads: &[choose::Load], candidates: usize) -> Vec<ClassWorth> {
    let base = |class: u8| -> u64 {
        let ours = loads.iter().skip(candidates).filter(|load| load.class == class);
        ours.map(|load| u64::from(load.weight.get())).sum()
    };
    let described = |class: &u8| loads.iter().take(candidates).any(|load| load.class == *class);
    let both = classes(loads).into_iter().zip(weights).filter(|(class, _)| described(class));
    both.map(|(class, weight)| ClassWorth { class, weight: weight.saturating_sub(base(class)) }).collect()
}
