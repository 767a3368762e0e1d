//! Single faults: one device that does not operate, or one step that is left out; the rest is done as written.

use super::goal::{Goal, Target};
use super::network::{DeviceId, Network, Undescribed};
use super::operation::Operation;
use super::state::State;
use super::transition::Refusal;
use super::verify::StepFinding;
use super::walk::Outside;
use crate::rules::Outcome;

/// One thing that goes wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FaultKind {
    /// The step is left out, or its device does not operate that once.
    Skipped,
    /// The device stays as it was from that step on.
    Stuck(DeviceId),
}

/// A single fault, and what follows from it when the operator carries on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// What goes wrong.
    pub kind: FaultKind,
    /// At which step, from 1.
    pub step: usize,
    /// `Holds` where the fault is survived: no invariant breaks, whatever the utility does.
    pub outcome: Outcome,
    /// The later step at which an invariant breaks, which, and the state that shows it.
    pub first: Option<StepFinding>,
    /// The later steps that an interlock refuses because of the fault.
    pub refused: Vec<(usize, Refusal)>,
    /// Whether the goal is reached all the same.
    pub reaches_goal: bool,
}

impl Network {
    /// What follows from each single fault of an order. The operator is taken to notice nothing and to carry on.
    ///
    /// `None` where the goal names a device that does not fit it.
    ///
    /// See [`Network::procedure`] for an example.
    #[must_use]
    pub fn faults(&self, start: &State, steps: &[Operation], goal: &Goal) -> Option<Vec<Fault>> {
        let target = Target::new(self, start, goal)?;
        let numbered: Vec<(usize, Operation)> = (1..).zip(steps.iter().copied()).collect();
        let mut faults = Vec::new();
        for (step, operation) in numbered.iter().copied().filter(|(_, operation)| !operation.is_event()) {
            let left = numbered.iter().copied().filter(|(number, _)| *number != step);
            faults.push(self.fault(start, left, &target, FaultKind::Skipped, step));
            let Some(device) = operation.device() else { continue };
            let again = numbered.iter().any(|(number, other)| *number > step && other.device() == Some(device));
            if again {
                let left =
                    numbered.iter().copied().filter(|(number, other)| *number < step || other.device() != Some(device));
                faults.push(self.fault(start, left, &target, FaultKind::Stuck(device), step));
            }
        }
        Some(faults)
    }

    fn fault(
        &self,
        start: &State,
        steps: impl Iterator<Item = (usize, Operation)>,
        target: &Target,
        kind: FaultKind,
        step: usize,
    ) -> Fault {
        let judged = self.replay(start, steps, Undescribed::Fails, Outside::Any);
        Fault {
            kind,
            step,
            outcome: judged.outcome,
            first: judged.first,
            refused: judged.refused,
            reaches_goal: judged.outcome == Outcome::Holds && target.is_reached(self, &judged.last),
        }
    }
}
