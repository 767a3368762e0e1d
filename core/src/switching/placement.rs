//! Why a step stands where it does in an order: what it would break if it came earlier or later.

use super::invariant::Invariant;
use super::network::{Kind, Network};
use super::operation::Operation;
use super::procedure::Order;
use crate::rules::Outcome;

/// The steps that an order does not let a step pass, each tried.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub struct Placement {
    /// The nearest earlier step before which it must not come, and what it would break there; nothing where an interlock
    /// or the positions refuse it there.
    pub after: Option<(usize, Vec<Invariant>)>,
    /// The nearest later step after which it must not come, and what would break.
    pub before: Option<(usize, Vec<Invariant>)>,
}

impl Network {
    /// Tries a step of an order at every other place. `number` counts from 1.
    #[must_use]
    pub fn placement(&self, order: &Order, number: usize) -> Placement {
        let earlier = (1..number).rev();
        let later = number + 1..=order.steps.len();
        Placement {
            after: earlier.into_iter().find_map(|to| Some((to, self.broken_at(order, number, to)?))),
            before: later.into_iter().find_map(|to| Some((to, self.broken_at(order, number, to)?))),
        }
    }

    /// What breaks when a step is moved to the place of another; `None` where nothing does and the end is the same.
    fn broken_at(&self, order: &Order, number: usize, to: usize) -> Option<Vec<Invariant>> {
        let mut steps: Vec<Operation> = order.steps.iter().map(|step| step.operation).collect();
        let (from, to) = (number.checked_sub(1)?, to.checked_sub(1)?);
        if from >= steps.len() || to >= steps.len() {
            return None;
        }
        let moved = steps.remove(from);
        steps.insert(to, moved);
        let judged = self.verify_whatever_the_utility_does(&order.start, &steps).ok()?;
        let same_end = order.steps.last().is_some_and(|last| last.state.set == judged.last.set);
        match judged.first {
            Some(first) if judged.outcome != Outcome::Holds => Some(first.invariants()),
            _ if judged.refused.is_empty() && same_end => None,
            _ => Some(Vec::new()),
        }
    }

    /// Where nothing decides the place of a step, what custom says of it. Practice of set and transfer-switch manuals, no
    /// code section.
    #[must_use]
    pub fn custom(&self, operation: Operation) -> &'static str {
        match operation {
            Operation::Mate(_) => {
                "by custom both halves are dead while they are handled, the end at the building first"
            }
            Operation::Part(_) => "by custom the source is stopped before hands come to the plugs, its own end first",
            Operation::Start(_) => "by custom the source runs steadily before anything is joined to it",
            Operation::Stop(_) => "by custom the source runs a while without load before it stops",
            Operation::Close(device) | Operation::Open(device) => match self.device(device).map(|found| found.kind) {
                Some(Kind::Breaker) => "by custom what isolates is opened first and closed last, loads one at a time",
                _ => "its place is free",
            },
            _ => "its place is free",
        }
    }
}
