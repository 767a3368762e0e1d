//! A connection kit: what it takes to carry loads of a building on a source, in several lawful ways side by side.
//!
//! Every part names the rule that asks for it. An arrangement that is prohibited gets the finding and the lawful
//! alternative, never a size.

mod arrangement;
mod configuration;
mod parts;

use super::requirement::Unsized;
use crate::calc::Working;
use crate::calc::ampacity::Conditions;
use crate::code::Code;
use crate::quantity::{Amperes, Meters, Ratio, Volts};
use crate::site::{LoadWish, SourceNeutral, TransferKind, TransferNeutral};
use crate::trade::{Configuration, ContinuousRating, Leg, Place, System};

pub use configuration::inlet_for;
pub use parts::{Amount, Cost, Part, Price};

/// A source and a building.
#[derive(Clone, Debug)]
pub struct Question<'a> {
    /// The source.
    pub source: Source<'a>,
    /// The panel.
    pub panel: Panel,
    /// What one would like to run. Where not all of it fits, it is taken by [`Importance`], and what is equally
    /// important as it stands here: one after the other where it fits, which need not be the best choice. `plan` makes
    /// the exact one.
    pub wanted: &'a [Wanted<'a>],
    /// From the outlet of the source to the inlet, or to an appliance.
    pub cord_length: Meters,
    /// From the inlet to the panel.
    pub feeder_length: Meters,
    /// How the conductors from the inlet to the panel lie; their size is the smallest to consider.
    pub feeder: Conditions,
    /// The share of the voltage that the cord may drop, and again the feeder.
    pub drop: Option<Ratio>,
    /// The place of the cords.
    pub cord_place: Place,
    /// What parts cost, where that is known.
    pub prices: &'a [Price<'a>],
}

/// A source with its outlets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Source<'a> {
    /// What it gives.
    pub system: System,
    /// The current that it gives for hours on each line.
    pub current: Amperes,
    /// Its outlets.
    pub outlets: &'a [Outlet],
    /// Whether its neutral is bonded to its frame; `None` where that is not known.
    pub neutral: Option<SourceNeutral>,
}

/// An outlet of a source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Outlet {
    /// Its configuration.
    pub configuration: Configuration,
    /// The rating of the device that protects it.
    pub device: Amperes,
    /// How much of its rating that device carries for hours.
    pub continuous_rating: ContinuousRating,
}

/// The panel of the building.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Panel {
    /// Its system.
    pub system: System,
    /// The rating of its busbar, or of its main breaker where that is less.
    pub rating: Amperes,
}

/// Something that one would like to run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wanted<'a> {
    /// Its name.
    pub name: &'a str,
    /// Its voltage.
    pub voltage: Volts,
    /// Its current.
    pub current: Amperes,
    /// Its plug; `None` where it is wired to the building.
    pub plug: Option<Configuration>,
    /// Its leg in the panel, where that is known.
    pub leg: Option<Leg>,
    /// How much it matters.
    pub importance: Importance,
}

/// How much a load matters beside others, in the words of a site's loads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Importance {
    /// Whether it must be on, is on if it can be, or stays off.
    pub wish: LoadWish,
    /// Its class, 1 before all others; after all classes where it has none.
    pub priority: Option<u16>,
    /// What it is worth beside others of its class.
    pub weight: u16,
}

impl Default for Importance {
    fn default() -> Self {
        Self { wish: LoadWish::WouldLike, priority: None, weight: 1 }
    }
}

impl Importance {
    /// The least comes first.
    fn rank(self) -> (bool, u16, std::cmp::Reverse<u16>) {
        (self.wish != LoadWish::Must, self.priority.unwrap_or(u16::MAX), std::cmp::Reverse(self.weight))
    }
}

/// A lawful way to connect.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Arrangement {
    /// Cords from the source straight to appliances.
    CordsToAppliances,
    /// An inlet and a manual transfer switch for some circuits.
    ManualTransfer,
    /// An inlet and an interlocked breaker for the whole panel.
    InterlockedInlet,
    /// Equipment listed to exchange power both ways, fixed to the building.
    FixedBidirectional,
}

/// An arrangement with its parts, or the reason why it is not to be had.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Alternative<'a> {
    /// Which.
    pub arrangement: Arrangement,
    /// What it carries and what it takes; or what stands in the way.
    pub kit: Result<Kit<'a>, Obstacle>,
}

/// What stands in the way of an arrangement.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Obstacle {
    /// A rule forbids it: its slug, and why.
    Rule(&'static str, &'static str),
    /// A fact is missing.
    NotStated(&'static str),
    /// A part cannot be sized.
    Unsized(String),
}

/// An arrangement, sized.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Kit<'a> {
    /// The current that it carries for hours on each line.
    pub carries: Amperes,
    /// What runs, of what is wanted.
    pub runs: Vec<&'a str>,
    /// What stays off, and why.
    pub stays_off: Vec<(&'a str, &'static str)>,
    /// Whether its transfer equipment switches the neutral; `None` where no transfer equipment is part of it.
    pub neutral: Option<TransferNeutral>,
    /// The parts, each with the rule that asks for it.
    pub parts: Vec<Part>,
    /// What they cost together, where prices are given.
    pub cost: Cost,
}

/// What somebody may ask for that is prohibited everywhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Prohibited {
    /// A cord with blades at both ends.
    CordWithTwoPlugs,
    /// A source tied to a panel that the utility feeds, without transfer equipment.
    NoTransferEquipment,
}

impl Prohibited {
    /// The rule that forbids it.
    #[must_use]
    pub const fn rule(self) -> &'static str {
        match self {
            Self::CordWithTwoPlugs => "no-cord-with-two-plugs",
            Self::NoTransferEquipment => "transfer-equipment-present",
        }
    }

    /// What to do instead.
    #[must_use]
    pub const fn lawful(self) -> &'static str {
        match self {
            Self::CordWithTwoPlugs => {
                "a cord with two plugs is never sized: blades would be live in the open; fit an inlet with transfer \
                 equipment, or run appliances straight from the source"
            }
            Self::NoTransferEquipment => {
                "a source tied to a panel without transfer equipment is never sized: it would energize the utility; fit a \
                 listed transfer switch or a listed interlock, or run appliances straight from the source"
            }
        }
    }
}

/// Every arrangement with its parts, or with what stands in its way.
///
/// Loads are taken in the order in which they are wanted, each where it still fits beside those before it; a load of
/// unknown leg counts on both. For the best choice among loads see the plan.
///
/// ```
/// # use loadworthy::{calc::{Silent, ampacity::{Conditions, Covering}}, code::{Edition, Nec}, size::kit::*, trade::*};
/// # use loadworthy::site::SourceNeutral;
/// let question = Question {
///     source: Source {
///         system: System::V120V240,
///         current: "40 A".parse()?,
///         outlets: &[Outlet {
///             configuration: "14-50".parse()?,
///             device: "40 A".parse()?,
///             continuous_rating: ContinuousRating::Standard,
///         }],
///         neutral: Some(SourceNeutral::Floating),
///     },
///     panel: Panel { system: System::V120V240, rating: "100 A".parse()? },
///     wanted: &[Wanted {
///         name: "well pump",
///         voltage: "240 V".parse()?,
///         current: "8 A".parse()?,
///         plug: None,
///         leg: Some(Leg::Both),
///         importance: Importance::default(),
///     }],
///     cord_length: "25 ft".parse()?,
///     feeder_length: "20 ft".parse()?,
///     feeder: Conditions {
///         terminals: TerminalMark::C75,
///         place: Place::Wet,
///         ..Conditions::base(Material::Copper, "14 AWG".parse()?, Covering::Insulation(Insulation::Thwn2))
///     },
///     drop: None,
///     cord_place: Place::Wet,
///     prices: &[],
/// };
/// let all = alternatives(Nec::standard(Edition::Nec2023), &question, &mut Silent);
/// let interlocked = all[2].kit.as_ref().expect("the interlocked inlet can be had");
/// let parts: Vec<&str> = interlocked.parts.iter().map(|part| part.name.as_str()).collect();
/// assert_eq!(parts, [
///     "cord set STW, 8 AWG, 4 conductors, 14-50P to CS-50-125/250R",
///     "flanged inlet CS-50-125/250P, 50 A",
///     "ungrounded conductor 8 AWG copper THWN-2",
///     "neutral 8 AWG copper THWN-2",
///     "equipment grounding conductor 10 AWG copper",
///     "breaker 40 A, 2 poles, with a retainer where it is plugged on",
///     "listed interlock for the panel, 100 A",
///     "sign at the service: type and place of the source",
///     "sign at the inlet: whether the source's neutral is bonded",
/// ]);
/// assert!(all[0].kit.as_ref().is_ok_and(|kit| kit.stays_off == [("well pump", "it has no plug")]));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn alternatives<'a>(code: &dyn Code, question: &Question<'a>, working: &mut impl Working) -> Vec<Alternative<'a>> {
    let mut all = Vec::with_capacity(4);
    for arrangement in [
        Arrangement::CordsToAppliances,
        Arrangement::ManualTransfer,
        Arrangement::InterlockedInlet,
        Arrangement::FixedBidirectional,
    ] {
        all.push(Alternative { arrangement, kit: arrangement::kit(code, question, arrangement, working) });
    }
    all
}

impl From<Unsized> for Obstacle {
    fn from(error: Unsized) -> Self {
        Self::Unsized(error.to_string())
    }
}

impl std::fmt::Display for Obstacle {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Rule(slug, why) => write!(out, "{slug}: {why}"),
            Self::NotStated(fact) => write!(out, "cannot tell: {fact} is not stated"),
            Self::Unsized(why) => out.write_str(why),
        }
    }
}

impl Arrangement {
    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::CordsToAppliances => "cords from the source to appliances",
            Self::ManualTransfer => "inlet and manual transfer switch for some circuits",
            Self::InterlockedInlet => "inlet and interlocked breaker for the whole panel",
            Self::FixedBidirectional => "fixed equipment listed to exchange power both ways",
        }
    }

    /// The kind of transfer equipment in it.
    #[must_use]
    pub const fn transfer(self) -> Option<TransferKind> {
        match self {
            Self::CordsToAppliances => None,
            Self::ManualTransfer => Some(TransferKind::Manual),
            Self::InterlockedInlet => Some(TransferKind::Interlock),
            Self::FixedBidirectional => Some(TransferKind::Interactive),
        }
    }
}
