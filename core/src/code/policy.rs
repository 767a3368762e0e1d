//! Policies: how a code decides, as closed enumerations with parameters from its tables.

use super::lookup::{Gap, Lookup};
use crate::published::Cell;
use crate::quantity::{Amperes, CelsiusRise, Meters, Ratio, Volts};
use crate::trade::{Insulation, Usage, WireSize};

/// The temperature that a conductor or a terminal bears, as the ampacity tables know it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum ConductorRating {
    /// 60 °C.
    C60,
    /// 75 °C.
    C75,
    /// 90 °C.
    C90,
}

impl ConductorRating {
    /// Every rating, ascending.
    pub const ALL: [Self; 3] = [Self::C60, Self::C75, Self::C90];

    /// The degrees Celsius.
    #[must_use]
    pub const fn degrees(self) -> u8 {
        match self {
            Self::C60 => 60,
            Self::C75 => 75,
            Self::C90 => 90,
        }
    }

    /// The rating of that many degrees Celsius.
    #[must_use]
    pub fn of_degrees(degrees: i64) -> Option<Self> {
        Self::ALL.into_iter().find(|rating| i64::from(rating.degrees()) == degrees)
    }

    /// The highest rating at or below a temperature: a cord marked 105 °C is read in the 90 °C column.
    #[must_use]
    pub fn at_or_below(degrees: i64) -> Option<Self> {
        Self::ALL.into_iter().rev().find(|rating| i64::from(rating.degrees()) <= degrees)
    }
}

impl std::fmt::Display for ConductorRating {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "{} °C", self.degrees())
    }
}

/// What sunlight close above a roof adds to the outdoor ambient.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RooftopRule {
    /// The addition.
    pub addition: CelsiusRise,
    /// It applies below this clearance.
    pub clearance: Meters,
    /// The insulation that is exempt.
    pub exempt: Option<Insulation>,
}

/// What a code says of an insulation in a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InsulationFacts {
    /// The ampacity column.
    pub rating: ConductorRating,
}

/// What a code says of a cable assembly.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CableRule {
    /// The highest column of the final ampacity; `None` where the conductors inside decide.
    pub final_rating: Option<ConductorRating>,
    /// The column that factors start from; `None` where the conductors inside decide.
    pub factor_rating: Option<ConductorRating>,
    /// The cell that keeps it out of wet places, where one does.
    pub not_in_wet_places: Option<crate::published::CellPlace>,
}

/// How terminals limit ampacity.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Termination {
    /// The ampacity is capped by the terminal's column, without factors: NEC 110.14(C).
    ColumnCap {
        /// Circuits up to this rating take the lower default.
        boundary: Lookup<Amperes>,
        /// Sizes up to this one take the lower default where the rating of the circuit is not known.
        boundary_size: Lookup<WireSize>,
        /// The column of an unmarked terminal at or below the boundary.
        at_or_below: Lookup<ConductorRating>,
        /// The column of an unmarked terminal above the boundary.
        above: Lookup<ConductorRating>,
    },
}

/// How continuous loads count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum ContinuousLoad {
    /// The load counts at a factor: NEC 210.19, 210.20, 215.2, 215.3.
    LoadFactor {
        /// Against a device of a branch circuit.
        device: Lookup<Ratio>,
        /// Against the conductor of a branch circuit, before correction and adjustment.
        conductor: Lookup<Ratio>,
        /// Against either where the whole assembly is listed for 100 %.
        listed: Lookup<Ratio>,
    },
    /// Nothing is added.
    None,
}

/// The limit on the device of a small conductor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SmallConductor {
    /// The greatest device.
    pub device: Amperes,
    /// The greatest continuous load, for the smallest sizes.
    pub continuous: Option<Amperes>,
}

/// When the next standard rating above the ampacity may protect a conductor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum NextSizeUp {
    /// Up to a limit, and not for circuits of several receptacles for portable loads: NEC 240.4(B).
    UpTo {
        /// The greatest rating so permitted.
        limit: Lookup<Amperes>,
        /// Whether circuits of several receptacles are excluded.
        receptacles_excluded: Lookup<bool>,
    },
    /// Never.
    Never,
}

/// The places that a cord may lie in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CordPlace {
    /// Damp places at most.
    Damp,
    /// Wet places and sunlight.
    Wet,
}

/// What a code says of a type of flexible cord.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CordFacts {
    /// The highest voltage.
    pub voltage: Volts,
    /// How hard it may be used.
    pub usage: Usage,
    /// Where it may lie; `None` where the table does not say.
    pub place: Option<CordPlace>,
    /// Its smallest size.
    pub smallest: WireSize,
    /// Its largest size.
    pub largest: WireSize,
}

/// What a code says of voltage drop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum DropAdvice {
    /// Recommendations: a branch circuit, and the whole path.
    Advisory {
        /// For a branch circuit or a feeder alone.
        branch: Cell<Ratio>,
        /// For feeder and branch circuit together.
        total: Cell<Ratio>,
    },
    /// The table does not tell.
    Unknown(Gap),
}
