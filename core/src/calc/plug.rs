//! Whether a plug fits a receptacle, and what governs the current.

use super::{Step, Working};
use crate::code::Code;
use crate::quantity::Amperes;
use crate::trade::{Configuration, Mating};

/// How a plug and a receptacle go together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fit {
    /// Whether they mate.
    pub mating: Mating,
    /// The current that both bear: the lower of the two ratings, and of what the supply gives where that is known.
    pub governing_current: Amperes,
    /// What governs it.
    pub governed_by: FitGovernor,
}

/// What governs the current through a connection.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum FitGovernor {
    /// The plug.
    Plug,
    /// The receptacle.
    Receptacle,
    /// What the supply gives: a 50 A pattern proves only what the device can carry.
    Supply,
}

/// Whether a plug enters a receptacle, and the current that the pair may carry behind a supply.
///
/// Sections (NEC): 406.8, 210.21(B). Sources of the mating relation: ANSI/NEMA WD 6, IEC 60309-2.
#[must_use]
pub fn fit(
    code: &dyn Code,
    plug: Configuration,
    receptacle: Configuration,
    supply: Option<Amperes>,
    working: &mut impl Working,
) -> Fit {
    let mating = plug.enters(receptacle);
    working.step(|| {
        let result = match mating {
            Mating::Mates(_) => "mates",
            Mating::Conditional(_) => "may mate: some makes of the pair do not",
            Mating::DoesNot => "does not mate",
        };
        Step::new(format!("plug {plug} into receptacle {receptacle}"), result).by(&code.section("plug-mating"))
    });
    let ratings = [(plug.rated_current(), FitGovernor::Plug), (receptacle.rated_current(), FitGovernor::Receptacle)];
    let all = ratings.into_iter().chain(supply.map(|current| (current, FitGovernor::Supply)));
    let (governing_current, governed_by) =
        all.min_by_key(|(current, _)| *current).unwrap_or((plug.rated_current(), FitGovernor::Plug));
    working.step(|| {
        let named = match governed_by {
            FitGovernor::Plug => "the plug",
            FitGovernor::Receptacle => "the receptacle",
            FitGovernor::Supply => "the supply",
        };
        Step::new(format!("the lowest rating governs: {named}"), governing_current.to_string())
    });
    Fit { mating, governing_current, governed_by }
}
