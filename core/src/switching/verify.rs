//! Judging somebody's own order: accepted, or the first step that breaks an invariant.

use super::electrical::Electrical;
use super::invariant::{Break, Invariant, Question};
use super::network::{Condition, Kind, Network, Undescribed, id};
use super::operation::{NoSuchOperation, Operation};
use super::state::State;
use super::transition::{Effect, Refusal};
use super::walk::Outside;
use crate::rules::Outcome;

/// What came of somebody's own order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judgement {
    /// `Holds` where every step keeps every invariant; `Fails` where a step breaks one.
    pub outcome: Outcome,
    /// The first step that breaks an invariant; where none does, the first of which nobody can tell.
    pub first: Option<StepFinding>,
    /// The steps that could not be done, by number, and why. Nothing changes there, and nothing breaks.
    pub refused: Vec<(usize, Refusal)>,
    /// The facts that would decide.
    pub questions: Vec<Question>,
    /// Where everything stands after the last step.
    pub last: State,
}

/// A step that breaks an invariant, or of which nobody can tell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepFinding {
    /// The number of the step, from 1; 0 is the state before the first.
    pub step: usize,
    /// What it breaks, in the order of the invariants.
    pub breaks: Vec<Break>,
    /// The state that shows it: the one after the step.
    pub state: State,
}

impl StepFinding {
    /// The invariants, each once.
    #[must_use]
    pub fn invariants(&self) -> Vec<Invariant> {
        let mut all: Vec<Invariant> = self.breaks.iter().map(|found| found.invariant).collect();
        all.dedup();
        all
    }
}

impl Network {
    /// Judges an order of steps from a state, with the utility doing exactly what the steps say.
    ///
    /// # Errors
    /// A step names a device that has no such operation.
    ///
    /// ```
    /// use loadworthy::switching::{Network, Operation, Outcome, Position, Source};
    /// let network = Network::builder()
    ///     .utility("utility", "service")
    ///     .breaker("main", "service", "bus")
    ///     .breaker("inlet", "bus", "terminals")
    ///     .source("generator", "terminals", Source::unknown())
    ///     .build()?;
    /// let start = network.state(&[
    ///     ("utility", Position::Dead), ("main", Position::Closed),
    ///     ("inlet", Position::Open), ("generator", Position::Stopped),
    /// ])?;
    /// let inlet = network.find("inlet").ok_or("no inlet")?;
    /// let judgement = network.verify(&start, &[Operation::Close(inlet)])?;
    /// assert_eq!(judgement.outcome, Outcome::Fails);
    /// assert_eq!(judgement.first.map(|first| first.step), Some(1));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn verify(&self, start: &State, steps: &[Operation]) -> Result<Judgement, NoSuchOperation> {
        self.verify_in(start, steps, Outside::AsStated)
    }

    /// Judges an order of steps from a state, whatever the utility does meanwhile.
    ///
    /// # Errors
    /// A step names a device that has no such operation.
    pub fn verify_whatever_the_utility_does(
        &self,
        start: &State,
        steps: &[Operation],
    ) -> Result<Judgement, NoSuchOperation> {
        self.verify_in(start, steps, Outside::Any)
    }

    fn verify_in(&self, start: &State, steps: &[Operation], outside: Outside) -> Result<Judgement, NoSuchOperation> {
        for step in steps {
            self.check_fits(*step)?;
        }
        let numbered = || (1..).zip(steps.iter().copied());
        let feared = self.replay(start, numbered(), Undescribed::Fails, outside);
        if !self.has_undescribed() {
            return Ok(feared);
        }
        let hoped = self.replay(start, numbered(), Undescribed::Works, outside);
        if hoped.outcome == feared.outcome {
            return Ok(Judgement { questions: feared.questions, ..hoped });
        }
        let mut questions = feared.questions;
        questions.extend(self.undescribed());
        Ok(Judgement { outcome: Outcome::CannotTell, questions, ..feared })
    }

    /// Follows numbered steps to the first that fails, or to the end.
    pub(super) fn replay(
        &self,
        start: &State,
        steps: impl Iterator<Item = (usize, Operation)>,
        reading: Undescribed,
        outside: Outside,
    ) -> Judgement {
        let mut judgement = Judgement {
            outcome: Outcome::Holds,
            first: None,
            refused: Vec::new(),
            questions: Vec::new(),
            last: *start,
        };
        let mut found = Vec::new();
        self.judge(start, outside, &mut found);
        judgement.take(0, &found);
        for (number, step) in steps {
            if judgement.outcome == Outcome::Fails {
                break;
            }
            found.clear();
            let state = judgement.last;
            let electrical = Electrical::of(self, &state);
            match self.attempt((&state, &electrical), step, reading, outside, &mut found) {
                Effect::Refused(refusal) => judgement.refused.push((number, refusal)),
                Effect::Done { state, .. } => judgement.last = state,
            }
            judgement.take(number, &found);
        }
        judgement
    }

    /// What the description leaves open about the moves themselves.
    pub(super) fn undescribed(&self) -> Vec<Question> {
        let interlocks = self.exclusions.iter().filter(|pair| pair.condition == Condition::NotDescribed);
        let transfers = self.devices.iter().enumerate().filter(
            |(_, device)| matches!(device.kind, Kind::Transfer(facts) if facts.breaks_before_it_makes.is_none()),
        );
        interlocks
            .map(|pair| Question::Interlock(pair.first.0, pair.second.0))
            .chain(transfers.map(|(index, _)| Question::Transition(id(index))))
            .collect()
    }
}

impl Judgement {
    fn take(&mut self, step: usize, found: &[Break]) {
        use super::invariant::Detail;
        for one in found {
            if let Detail::Missing(question) = one.detail
                && !self.questions.contains(&question)
            {
                self.questions.push(question);
            }
        }
        let worst = found.iter().map(Break::outcome).max_by_key(|outcome| *outcome == Outcome::Fails);
        let Some(worst) = worst else { return };
        if worst == Outcome::Fails || self.outcome == Outcome::Holds {
            self.outcome = worst;
            let breaks = found.iter().filter(|one| one.outcome() == worst).copied().collect();
            self.first = Some(StepFinding { step, breaks, state: self.last });
        }
    }
}
