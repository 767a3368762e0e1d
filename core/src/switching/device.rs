//! The devices of a network and the facts about them. A fact that nobody stated stays unknown.

use crate::quantity::{Volts, Watts};
use crate::trade::{Leg, System, words};

words! {
    /// The order in which three phases follow each other.
    pub enum Rotation: "phase sequence" {
        /// A, then B, then C.
        Abc = "ABC",
        /// A, then C, then B.
        Acb = "ACB",
    }
}

words! {
    /// A side of a transfer switch, or the position between.
    pub enum Throw: "transfer position" {
        /// To the utility.
        Utility = "utility",
        /// To neither.
        Off = "off",
        /// To the local source.
        Source = "source",
    }
}

/// Whether a load must be turned in one phase sequence.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RotationNeed {
    /// It runs on either, or on one phase.
    Any,
    /// It needs this one.
    Only(Rotation),
}

/// What is known of a local source. Everything starts unknown, and an unknown fact never counts as a good one.
///
/// ```
/// use loadworthy::switching::Source;
/// let set = Source::unknown().rated("5500 W".parse()?).surge("7000 W".parse()?).neutral_bonded(false);
/// assert_eq!(set.system, None);
/// # Ok::<(), loadworthy::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[non_exhaustive]
pub struct Source {
    /// What it can carry for as long as it runs.
    pub rated: Option<Watts>,
    /// What it can carry for the moment of a start.
    pub surge: Option<Watts>,
    /// What one leg can carry, for a source with two legs.
    pub leg_rated: Option<Watts>,
    /// The supply system at its terminals.
    pub system: Option<System>,
    /// Whether its neutral is bonded to its frame.
    pub neutral_bonded: Option<bool>,
    /// Whether the transfer equipment takes the building's neutral off the service when this source feeds it.
    pub neutral_switched: Option<bool>,
    /// Whether an engine drives it: it must warm up before it is loaded, and cool before it is refueled.
    pub engine: Option<bool>,
    /// Its phase sequence, for a source with three phases.
    pub rotation: Option<Rotation>,
}

/// What is known of a load. Everything starts unknown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[non_exhaustive]
pub struct Load {
    /// What it draws once it runs.
    pub running: Option<Watts>,
    /// The whole of what it draws while it starts (not an addition to `running`).
    pub starting: Option<Watts>,
    /// The voltage it is made for.
    pub voltage: Option<Volts>,
    /// The leg it hangs on.
    pub leg: Option<Leg>,
    /// Whether it stands for circuits that share one neutral (a multiwire branch circuit).
    pub shared_neutral: Option<bool>,
    /// The phase sequence it needs.
    pub rotation: Option<RotationNeed>,
    /// Whether its branch is meant to stay off on every local source.
    pub kept_off: bool,
}

/// What is known of a transfer switch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Transfer {
    /// Whether it can rest between its two sides.
    pub rests_off: bool,
    /// Whether it leaves one side wholly before it touches the other.
    pub breaks_before_it_makes: Option<bool>,
}

impl Transfer {
    /// A switch with two sides and a position between, or only two sides; how it moves is not known yet.
    #[must_use]
    pub const fn resting_off(rests_off: bool) -> Self {
        Self { rests_off, breaks_before_it_makes: None }
    }

    /// States whether it leaves one side before it touches the other.
    #[must_use]
    pub const fn breaks_before_it_makes(mut self, value: bool) -> Self {
        self.breaks_before_it_makes = Some(value);
        self
    }
}

/// What carries an interlock, and so when it works.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Interlock {
    /// The devices themselves: it always works.
    Devices,
    /// The cover with this name: it works only while the cover is on.
    Cover(String),
    /// Nobody has described it: it is never relied upon, and never ruled out.
    NotDescribed,
}

/// Names one contact: a device, or one side of a transfer switch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ContactName {
    pub(super) device: String,
    pub(super) side: Option<Throw>,
}

impl From<&str> for ContactName {
    fn from(device: &str) -> Self {
        Self { device: device.to_owned(), side: None }
    }
}

impl From<(&str, Throw)> for ContactName {
    fn from((device, side): (&str, Throw)) -> Self {
        Self { device: device.to_owned(), side: Some(side) }
    }
}

macro_rules! stated {
    ($owner:ident { $($(#[$doc:meta])* $name:ident: $kind:ty),+ $(,)? }) => {
        impl $owner {
            /// Nothing is known yet.
            #[must_use]
            pub fn unknown() -> Self {
                Self::default()
            }

            $($(#[$doc])*
            #[must_use]
            pub const fn $name(mut self, value: $kind) -> Self {
                self.$name = Some(value);
                self
            })+
        }
    };
}

stated!(Source {
    /// States what it carries for as long as it runs.
    rated: Watts,
    /// States what it carries while something starts.
    surge: Watts,
    /// States what one leg carries.
    leg_rated: Watts,
    /// States its supply system.
    system: System,
    /// States whether its neutral is bonded to its frame.
    neutral_bonded: bool,
    /// States whether the transfer equipment takes the service's neutral off.
    neutral_switched: bool,
    /// States whether an engine drives it.
    engine: bool,
    /// States its phase sequence.
    rotation: Rotation,
});

stated!(Load {
    /// States what it draws once it runs.
    running: Watts,
    /// States all that it draws while it starts.
    starting: Watts,
    /// States its voltage.
    voltage: Volts,
    /// States its leg.
    leg: Leg,
    /// States whether it shares a neutral.
    shared_neutral: bool,
    /// States the phase sequence it needs.
    rotation: RotationNeed,
});
