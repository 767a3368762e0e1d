//! The invariants: what must hold in every state, and what must hold for a step.

use super::network::{DeviceId, NodeId};
use crate::quantity::Watts;
use crate::rules::Outcome;
use crate::trade::words;

/// Defines the invariants: the doc comment of each is the page that people read.
macro_rules! invariants {
    ($($(#[doc = $page:literal])+ $name:ident = $slug:literal),+ $(,)?) => {
        words! {
            /// Something that no state or no step may break.
            pub enum Invariant: "invariant" {
                $($(#[doc = $page])+ $name = $slug),+
            }
        }

        impl Invariant {
            /// Every invariant, in the order in which breaks are listed.
            pub const ALL: &'static [Self] = &[$(Self::$name),+];

            /// The page about it: what it says, what it protects against, where it comes from.
            ///
            /// ```
            /// use loadworthy::switching::Invariant;
            /// assert!(Invariant::BareContactsDead.page().contains("Protects against"));
            /// ```
            #[must_use]
            pub const fn page(self) -> &'static str {
                match self { $(Self::$name => concat!($($page, "\n"),+)),+ }
            }
        }
    };
}

invariants! {
    /// Bare male contacts are never live: whatever is parted has no supply on its blades.
    ///
    /// Protects against a hand on live blades. Sources: NEC 406.7(B) and 406.7(D) (2023).
    BareContactsDead = "bare-contacts-dead",

    /// No closed path joins two supplies, live or not, unless the pair is approved to run in parallel.
    ///
    /// Protects against two supplies out of step on one conductor. It is about paths and not about voltage: the
    /// utility can return at any moment, and anybody can start a source that is stopped.
    /// Sources: NEC 702.5, 700.5, 701.5, 705 (2017).
    SourcesNeverJoined = "sources-never-joined",

    /// No local source that produces has a closed path to the utility, unless it is approved for it.
    ///
    /// Protects against line workers and neighbours killed through a transformer fed from the house.
    /// Source: NEC 702.5 (2017).
    UtilitySideUntouched = "utility-side-untouched",

    /// A plug goes in or out only when no load gains or loses its supply by it.
    ///
    /// Protects against an arc at the hand. Sources: NEC 406.13(D) (2023) for single-pole connectors; for others
    /// OSHA 1910.334(b)(1), from memory.
    NoPlugUnderLoad = "no-plug-under-load",

    /// What runs, what starts, and what hangs on one leg stay within what the source can carry.
    ///
    /// Protects against a source that stalls, sags or trips. A load that a step takes from one supply to another
    /// starts anew. Sources: NEC 702.4(B) for the running load; for starts, manufacturers' practice, no code section.
    SourceNotOverloaded = "source-not-overloaded",

    /// While a local source feeds the building's wiring, the neutral is bonded to ground exactly once.
    ///
    /// Protects against neutral current on frames and grounding conductors (two bonds), and against a fault to
    /// metal that trips nothing (no bond). Sources: NEC 250.24(B), 250.30(A)(1) (2023).
    OneNeutralBond = "one-neutral-bond",

    /// A place is touched only when it is dead, tested since the last switching, and locked off from every supply.
    ///
    /// Protects against the second way in: the supply that nobody locked. The named devices must be locked, and the
    /// locked devices together must cut off every supply, interlocks not counted. A source that is locked while
    /// stopped is cut off. Sources: OSHA 1910.333(b)(2), NFPA 70E 120.5.
    DeadProvedBeforeTouch = "dead-proved-before-touch",

    /// Fuel goes in only when the engine is stopped and has cooled.
    ///
    /// Protects against fire. Source: common practice of set manuals, no code section.
    FuelOnlyWhenCold = "fuel-only-when-cold",

    /// No load gets a supply that it is not made for: its voltage, opposed legs for a shared neutral, its sequence.
    ///
    /// Protects against burnt appliances, motors that turn backward, and a shared neutral that carries the sum of
    /// two legs instead of their difference. Sources: NEC 702.5 and 702.12 for the equipment, 210.4 for the shared
    /// neutral.
    SupplyFitsLoads = "supply-fits-loads",

    /// An engine is started and stopped while it carries no load.
    ///
    /// Protects against loads that see the voltage and frequency of an engine that is speeding up or running down.
    /// Source: common practice of set manuals, no code section.
    EngineUnloadedAtStartAndStop = "engine-unloaded-at-start-and-stop",

    /// Every path from a supply to a load that draws passes a breaker.
    ///
    /// Protects against a conductor that nothing disconnects on overload. Source: NEC 240.21.
    ProtectedPath = "protected-path",
}

/// Which invariant a state or a step breaks, or which fact is missing to say that it does not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Break {
    /// The invariant.
    pub invariant: Invariant,
    /// What breaks it, or the missing fact.
    pub detail: Detail,
}

impl Break {
    /// `Fails`, or `CannotTell` where the detail is a missing fact.
    #[must_use]
    pub const fn outcome(&self) -> Outcome {
        if matches!(self.detail, Detail::Missing(_)) { Outcome::CannotTell } else { Outcome::Fails }
    }
}

/// What breaks an invariant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Detail {
    /// The parted joint's male contacts are live from the supply.
    BareContact {
        /// The parted joint.
        joint: DeviceId,
        /// What makes it live.
        supply: DeviceId,
    },
    /// A closed path joins the two.
    Joined {
        /// The first.
        first: DeviceId,
        /// The second.
        second: DeviceId,
    },
    /// The plug went in or out while the load gained or lost its supply.
    PlugUnderLoad {
        /// The joint.
        joint: DeviceId,
        /// A load whose supply changed.
        load: DeviceId,
    },
    /// The source would carry more than it can.
    Overload {
        /// The source.
        source: DeviceId,
        /// Which of its limits.
        limit: Limit,
        /// What it would carry.
        demand: Watts,
        /// What it can carry.
        rating: Watts,
    },
    /// The neutral is bonded this many times.
    Bonds {
        /// The source that feeds the building.
        source: DeviceId,
        /// The bonds counted.
        count: u16,
    },
    /// The place is live.
    TouchLive {
        /// The place.
        place: NodeId,
        /// What makes it live.
        supply: DeviceId,
    },
    /// The place was not tested since the last switching.
    TouchUntested {
        /// The place.
        place: NodeId,
    },
    /// A named isolator is not locked.
    TouchUnlocked {
        /// The place.
        place: NodeId,
        /// The isolator.
        isolator: DeviceId,
    },
    /// No lock keeps the supply from the place.
    TouchReachable {
        /// The place.
        place: NodeId,
        /// The supply that can reach it.
        supply: DeviceId,
    },
    /// Fuel near a source that runs.
    FuelWhileRunning {
        /// The source.
        source: DeviceId,
    },
    /// Fuel near a source that is hot.
    FuelWhileHot {
        /// The source.
        source: DeviceId,
    },
    /// The source does not give the load what it is made for.
    Misfit {
        /// The load.
        load: DeviceId,
        /// The source that feeds it.
        source: DeviceId,
        /// What it lacks.
        lacks: Need,
    },
    /// The engine was started or stopped while it carried the load.
    EngineLoaded {
        /// The source.
        source: DeviceId,
        /// The load.
        load: DeviceId,
    },
    /// No breaker stands between the supply and the load.
    Unprotected {
        /// The load.
        load: DeviceId,
        /// The supply.
        supply: DeviceId,
    },
    /// A fact is missing.
    Missing(Question),
}

words! {
    /// A limit of a source.
    pub enum Limit: "limit of a source" {
        /// What it carries for as long as it runs.
        Rated = "rated power",
        /// What it carries while something starts.
        Surge = "surge power",
        /// What one leg carries.
        Leg = "rated power of one leg",
    }
}

words! {
    /// What a load needs of a supply.
    pub enum Need: "need of a load" {
        /// Its voltage.
        Voltage = "its voltage",
        /// Two legs that oppose each other.
        OpposedLegs = "opposed legs for its shared neutral",
        /// Its phase sequence.
        Rotation = "its phase sequence",
    }
}

/// A fact that would decide.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum Question {
    /// What the device is rated for, draws, or is made for.
    Fact(DeviceId, Fact),
    /// Whether the service bonds neutral and ground.
    ServiceBond,
    /// How many other bonds the building has.
    OtherBonds,
    /// Whether an interlock keeps the two apart.
    Interlock(DeviceId, DeviceId),
    /// Whether the transfer switch breaks before it makes.
    Transition(DeviceId),
}

words! {
    /// A fact about one device.
    pub enum Fact: "fact" {
        /// Rated power of a source.
        RatedPower = "rated power",
        /// Surge power of a source.
        SurgePower = "surge power",
        /// Rated power of one leg of a source.
        LegPower = "rated power of one leg",
        /// The supply system of a source.
        System = "supply system",
        /// Whether a source's neutral is bonded.
        NeutralBond = "bond of its neutral",
        /// Whether the neutral is switched.
        NeutralSwitching = "switching of the neutral",
        /// Whether an engine drives a source.
        Engine = "engine or none",
        /// Phase sequence of a source, or need of a load.
        Rotation = "phase sequence",
        /// What a load draws.
        RunningPower = "running power",
        /// What a load draws while it starts.
        StartingPower = "starting power",
        /// The voltage of a load.
        Voltage = "voltage",
        /// The leg of a load.
        Leg = "leg",
        /// Whether a load shares a neutral.
        SharedNeutral = "shared neutral or none",
    }
}
