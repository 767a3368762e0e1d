//! What governs a size, and what stands in the way when none passes.

use crate::calc::CannotTell;
use crate::code::{Citation, Code};

/// A requirement that a size must meet, in the order in which they are tested.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Requirement {
    /// The smallest size that the question allows.
    Asked,
    /// The smallest conductor that the code allows.
    SmallestConductor,
    /// The smallest conductor that may be connected in parallel.
    SmallestParallel,
    /// The size is listed, and the cable is made in it.
    Listed,
    /// The insulation bears the place.
    Place,
    /// The insulation bears the ambient temperature.
    Ambient,
    /// So many conductors may lie together.
    Bundling,
    /// The continuous load with its factor, before correction and adjustment.
    ContinuousLoad,
    /// The load, after correction and adjustment and at the terminals.
    Load,
    /// The overcurrent device protects the conductor.
    Protection,
    /// The voltage drop stays within its limit.
    VoltageDrop,
    /// A standard rating exists.
    StandardRating,
    /// Circuits of several receptacles have only ratings that receptacles may be put on.
    ReceptacleRating,
    /// The overcurrent device decides the equipment grounding conductor.
    EquipmentGrounding,
    /// The equipment grounding conductor grows with the circuit conductors.
    EquipmentGroundingIncrease,
    /// The neutral is as large as the ungrounded conductors.
    AsUngrounded,
    /// A feeder's neutral is not smaller than its equipment grounding conductor.
    FeederNeutral,
    /// The share of a raceway that conductors may fill.
    RacewayFill,
    /// The volume of a box.
    BoxFill,
    /// The overcurrent device of a motor opens on faults and lets it start.
    MotorProtection,
    /// The rating of a plug, an inlet or a receptacle.
    Configuration,
}

impl Requirement {
    /// In words that complete `governed by …`.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Asked => "the smallest size that was asked for",
            Self::SmallestConductor => "the smallest conductor that the code allows",
            Self::SmallestParallel => "the smallest conductor that may be connected in parallel",
            Self::Listed => "the sizes that the table lists and the cable is made in",
            Self::Place => "the place",
            Self::Ambient => "the ambient temperature",
            Self::Bundling => "the number of conductors together",
            Self::ContinuousLoad => "the continuous load with its factor, before correction and adjustment",
            Self::Load => "the load, after correction and adjustment and at the terminals",
            Self::Protection => "protection by the overcurrent device",
            Self::VoltageDrop => "the voltage drop",
            Self::StandardRating => "the standard ratings",
            Self::ReceptacleRating => "the ratings that a circuit of several receptacles may have",
            Self::EquipmentGrounding => "the overcurrent device",
            Self::EquipmentGroundingIncrease => "the circuit conductors, which were enlarged",
            Self::AsUngrounded => "the ungrounded conductors",
            Self::FeederNeutral => "the equipment grounding conductor, which a feeder's neutral is not smaller than",
            Self::RacewayFill => "the share of the raceway that conductors may fill",
            Self::BoxFill => "the volume of the box",
            Self::MotorProtection => "the overcurrent device that lets the motor start",
            Self::Configuration => "the rating of the plug and receptacle configuration",
        }
    }

    /// What would have to change where no size meets it.
    #[must_use]
    pub const fn change(self) -> &'static str {
        match self {
            Self::Asked => "ask for a smaller least size",
            Self::SmallestConductor | Self::SmallestParallel | Self::Listed => {
                "another cable, material or wiring method, which is made in larger sizes"
            }
            Self::Place => "an insulation that is rated for the place",
            Self::Ambient => "an insulation of a higher temperature rating, or a cooler way",
            Self::Bundling => "fewer conductors together",
            Self::ContinuousLoad | Self::Load => {
                "less load, more sets in parallel, a higher voltage, terminals of a higher mark, or gentler conditions"
            }
            Self::Protection => "more sets in parallel, gentler conditions, or a load that needs a smaller device",
            Self::VoltageDrop => "a shorter run, less load, more sets in parallel, a higher voltage, or a wider limit",
            Self::StandardRating | Self::ReceptacleRating => "less load on one circuit: divide it among several",
            Self::EquipmentGrounding | Self::EquipmentGroundingIncrease => "a smaller device",
            Self::AsUngrounded | Self::FeederNeutral => "less load on the neutral",
            Self::RacewayFill => "several raceways, or fewer conductors",
            Self::BoxFill => "a box marked with a greater volume, an extension ring, or fewer conductors",
            Self::MotorProtection => "a motor circuit of another design",
            Self::Configuration => "an outlet of a higher rating, or less load",
        }
    }

    /// The topic of its section.
    #[must_use]
    pub const fn topic(self) -> &'static str {
        match self {
            Self::Asked => "",
            Self::SmallestConductor => "smallest-conductor",
            Self::SmallestParallel => "parallel-conductors",
            Self::Listed => "ampacity",
            Self::Place => "insulation-rating",
            Self::Ambient => "ambient-correction",
            Self::Bundling => "more-than-three-conductors",
            Self::ContinuousLoad | Self::Load => "continuous-branch-conductor",
            Self::Protection => "conductor-protection",
            Self::VoltageDrop => "voltage-drop-note",
            Self::StandardRating => "standard-rating",
            Self::ReceptacleRating => "receptacle-rating",
            Self::EquipmentGrounding => "equipment-grounding",
            Self::EquipmentGroundingIncrease => "equipment-grounding-increase",
            Self::AsUngrounded => "neutral-load",
            Self::FeederNeutral => "feeder-neutral",
            Self::RacewayFill => "raceway-fill",
            Self::BoxFill => "box-fill",
            Self::MotorProtection => "motor-overcurrent",
            Self::Configuration => "listed-and-used-as-listed",
        }
    }

    /// Where it stands in the code; `None` for what no section requires.
    #[must_use]
    pub fn citation(self, code: &dyn Code) -> Option<Citation> {
        let citation = code.section(self.topic());
        citation.section.is_some().then_some(citation)
    }
}

impl std::fmt::Display for Requirement {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(self.words())
    }
}

/// A size, and the requirement that keeps it from being smaller.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Chosen<T> {
    /// The size.
    pub value: T,
    /// What governs it.
    pub governed_by: Requirement,
}

/// No standard size passes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("no standard {what} meets {requirement}; it would take {}", .requirement.change())]
pub struct NothingPasses {
    /// What was sought: `conductor`.
    pub what: &'static str,
    /// The requirement that the largest does not meet.
    pub requirement: Requirement,
}

/// Why there is no size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum Unsized {
    /// The tables do not tell.
    #[error(transparent)]
    CannotTell(#[from] CannotTell),
    /// Nothing standard passes.
    #[error(transparent)]
    NothingPasses(#[from] NothingPasses),
}

/// Nothing standard passes, as a result.
pub(super) fn nothing<T>(what: &'static str, requirement: Requirement) -> Result<T, Unsized> {
    Err(Unsized::NothingPasses(NothingPasses { what, requirement }))
}
