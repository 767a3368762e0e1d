//! Loads that come on by themselves, and may do so at the same moment.

use super::{Automatic, OrderError, Source, Starter, Step, check, step::step};
use crate::plan::Verdict;

/// What happens when loads come on by themselves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Together {
    /// Each automatic load comes on while all others run; only those that do not hold are listed.
    pub alone: Vec<Step>,
    /// Two come on at the same moment while all others run; only those that do not hold are listed. These pairs must
    /// be kept apart, by a rotation or a device.
    pub pairs: Vec<Step>,
    /// All come on at the same moment while all others run.
    pub all: Option<Step>,
    /// All come on at the same moment while only the base runs: power returns, and every thermostat calls.
    pub pickup: Option<Step>,
}

impl Together {
    /// The verdict over every start that can happen by itself.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        let steps = self.alone.iter().chain(&self.pairs).chain(&self.all).chain(&self.pickup);
        steps.map(Step::verdict).fold(Verdict::Holds, Verdict::and)
    }
}

/// Judges the automatic loads of a set that is on: alone, in pairs, all at once, and when power returns.
///
/// # Errors
/// [`OrderError`] for a source or load that cannot be.
pub fn automatic(source: &Source, loads: &[Starter], base: &[Starter]) -> Result<Together, OrderError> {
    check(source, loads, base)?;
    let by_itself = |index: &usize| loads.get(*index).is_some_and(|load| load.automatic == Automatic::ByItself);
    let automatic: Vec<usize> = (0..loads.len()).filter(by_itself).collect();
    let start = |starting: &[usize]| {
        let running: Vec<usize> = (0..loads.len()).filter(|index| !starting.contains(index)).collect();
        step(source, loads, base, &running, starting)
    };
    let not_holding = |step: &Step| step.verdict() != Verdict::Holds;
    let mut pairs = Vec::new();
    for (at, first) in automatic.iter().enumerate() {
        let seconds = automatic.iter().skip(at + 1);
        pairs.extend(seconds.map(|second| start(&[*first, *second])).filter(not_holding));
    }
    let any = !automatic.is_empty();
    Ok(Together {
        alone: automatic.iter().map(|index| start(&[*index])).filter(not_holding).collect(),
        pairs,
        all: any.then(|| start(&automatic)),
        pickup: any.then(|| step(source, loads, base, &[], &automatic)),
    })
}
