//! A described site as a network: its breakers, plugs, transfer equipment, sources and loads.
//!
//! Conductors that no switch divides are one node, named for the component that they belong to. Loads and ratings are
//! carried as apparent power: where the engine reads a power, a volt-ampere stands for a watt.

use super::invariant::{Break, Detail, Fact, Invariant, Question};
use super::network::{DeviceId, Network};
use super::site_draft::Draft;
use super::state::State;
use crate::quantity::{Quantity, VoltAmperes, Watts};
use crate::rules::Survey;
use crate::rules::premises;
use crate::site::{ComponentId, Source};
use crate::trade::Word;

/// The most components of a site that are laid out as networks.
pub const MAX_COMPONENTS: usize = 1000;

/// A fact of the description: of which component, in which field, in words.
pub(super) type Missing = (ComponentId, &'static str, &'static str);

/// A part of a site as a network, with what leads back to the description.
///
/// ```
/// use loadworthy::{code::{Edition, Nec}, rules::Survey, site::Site, switching::Arrangement};
/// let site = Site::from_toml("cottage.toml", include_str!("../../examples/cottage.toml"))?;
/// let survey = Survey::new(&site, Nec::standard(Edition::Nec2023));
/// let found = Arrangement::of_site(&survey)?;
/// assert!(found[0].network.find("main breaker of main panel").is_some());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Arrangement {
    /// The devices.
    pub network: Network,
    /// The normal state: the utility's side closed, cords apart, every source stopped.
    pub normal: State,
    /// Each source with the loads that are to run on it.
    pub feeding: Vec<Feeding>,
    /// Facts that are missing and that the network has no place for.
    pub questions: Vec<Open>,
    /// What was taken so, and what no network describes.
    pub notes: Vec<String>,
    /// By device: the component that it is part of.
    pub(super) owners: Vec<ComponentId>,
    /// What is missing to count the bonds.
    pub(super) bonds: Option<Missing>,
    /// What is missing of the interlock of a panel.
    pub(super) interlocks: Vec<(ComponentId, Missing)>,
    /// By load: what is missing of the sharing of its neutral.
    pub(super) neutrals: Vec<(ComponentId, Missing)>,
}

/// A source and the loads that are to run on it.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Feeding {
    /// The source.
    pub source: DeviceId,
    /// The loads.
    pub loads: Vec<DeviceId>,
    /// Whether the source reaches the wiring of a building.
    pub building: bool,
}

/// A missing fact with its place in the description, and what it would decide.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Open {
    /// Of what.
    pub subject: ComponentId,
    /// Its field.
    pub field: &'static str,
    /// The fact, in words.
    pub fact: &'static str,
    /// The invariant that waits for it.
    pub decides: Invariant,
}

/// Why a site is not laid out.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum Unmapped {
    /// Too many components.
    #[error("the site has {found} components, more than the {MAX_COMPONENTS} that are laid out; divide it")]
    TooManyComponents {
        /// How many there are.
        found: usize,
    },
    /// The devices make no network.
    #[error("the devices make no network: {0}")]
    Network(#[from] super::builder::NetworkErrors),
    /// The positions make no state.
    #[error("the devices have no normal state: {0}")]
    State(#[from] super::state::StateError),
}

impl Arrangement {
    /// Lays a site out: what the building and its sources are, then each source that feeds cords alone.
    ///
    /// # Errors
    /// More than one network holds, or names that leave two devices with one name.
    pub fn of_site(survey: &Survey<'_>) -> Result<Vec<Self>, Unmapped> {
        Self::with_rest(survey, false)
    }

    /// The same, and whether transfer switches rest between their sides, which a description does not say.
    pub(super) fn with_rest(survey: &Survey<'_>, rests_off: bool) -> Result<Vec<Self>, Unmapped> {
        let found = survey.site.components().count();
        if found > MAX_COMPONENTS {
            return Err(Unmapped::TooManyComponents { found });
        }
        let building: Vec<&Source> = premises::building_sources(survey).collect();
        let mut all = Vec::new();
        if !building.is_empty() {
            all.push(Draft::new(survey, &building, true, rests_off).finish()?);
        }
        for source in premises::sources_on_their_own(survey) {
            all.push(Draft::new(survey, &[source], false, rests_off).finish()?);
        }
        Ok(all)
    }

    /// The component that a device is part of.
    #[must_use]
    pub fn owner(&self, device: DeviceId) -> Option<ComponentId> {
        self.owners.get(usize::from(device.0)).copied()
    }

    /// One line about a break, with powers as the apparent powers that they are.
    #[must_use]
    pub fn explain(&self, found: &Break) -> String {
        match found.detail {
            Detail::Overload { source, limit, demand, rating } => format!(
                "{} {}: `{}` would carry {}, its {limit} is {}",
                found.invariant,
                found.outcome().verb(),
                self.network.name(source),
                shown(demand),
                apparent(rating)
            ),
            _ => self.network.explain(found),
        }
    }

    /// Where a missing fact belongs in the description.
    #[must_use]
    pub fn open(&self, question: &Question) -> Option<Open> {
        let (subject, field, fact) = self.missing(question)?;
        Some(Open { subject, field, fact, decides: decides(question) })
    }

    fn missing(&self, question: &Question) -> Option<Missing> {
        let of = |device| self.owner(device);
        match *question {
            Question::Fact(device, Fact::SharedNeutral) => {
                let load = of(device)?;
                self.neutrals.iter().find(|(id, _)| *id == load).map(|(_, missing)| *missing)
            }
            Question::Fact(device, fact) => {
                let (field, words) = field_of(fact);
                Some((of(device)?, field, words))
            }
            Question::ServiceBond | Question::OtherBonds => self.bonds,
            Question::Interlock(first, second) => {
                let panels = [of(first), of(second)];
                self.interlocks.iter().find(|(id, _)| panels.contains(&Some(*id))).map(|(_, missing)| *missing)
            }
            Question::Transition(device) => {
                Some((of(device)?, "transition", "how it passes from one supply to the other,"))
            }
        }
    }
}

impl Open {
    /// The word for the invariant that waits for the fact.
    #[must_use]
    pub fn invariant(&self) -> &'static str {
        self.decides.spelling()
    }
}

fn field_of(fact: Fact) -> (&'static str, &'static str) {
    match fact {
        Fact::RatedPower => ("continuous_current", "the current or power that it gives for hours"),
        Fact::SurgePower => ("starting_apparent_power", "what it gives for moments while motors start"),
        Fact::LegPower => ("continuous_current", "the current that it gives for hours on each leg"),
        Fact::System => ("system", "its supply system"),
        Fact::NeutralBond => ("neutral", "whether its neutral is bonded to its frame"),
        Fact::NeutralSwitching => ("neutral", "whether the transfer equipment switches its neutral"),
        Fact::Engine => ("engine", "whether a fuel engine drives it"),
        Fact::Rotation => ("phase_sequence", "its phase sequence"),
        Fact::RunningPower => ("current", "its current, or its power and power factor,"),
        Fact::StartingPower => ("starting_current", "the current that it draws while it starts"),
        Fact::Voltage => ("voltage", "its voltage"),
        Fact::Leg => ("leg", "the leg that it is connected to"),
        Fact::SharedNeutral => ("multiwire", "whether it shares its neutral with another leg"),
    }
}

/// The invariant for which a question is asked.
fn decides(question: &Question) -> Invariant {
    match question {
        Question::Fact(_, fact) => match fact {
            Fact::RatedPower | Fact::SurgePower | Fact::LegPower | Fact::RunningPower | Fact::StartingPower => {
                Invariant::SourceNotOverloaded
            }
            Fact::Leg => Invariant::SourceNotOverloaded,
            Fact::NeutralBond | Fact::NeutralSwitching => Invariant::OneNeutralBond,
            Fact::Engine => Invariant::FuelOnlyWhenCold,
            Fact::System | Fact::Rotation | Fact::Voltage | Fact::SharedNeutral => Invariant::SupplyFitsLoads,
        },
        Question::ServiceBond | Question::OtherBonds => Invariant::OneNeutralBond,
        Question::Interlock(..) | Question::Transition(_) => Invariant::SourcesNeverJoined,
    }
}

/// How many counts of a watt are one count of a volt-ampere.
pub(super) const WATT_COUNTS: i128 = 1_000_000;

fn apparent(power: Watts) -> VoltAmperes {
    VoltAmperes::from_count(power.count() / WATT_COUNTS).unwrap_or(VoltAmperes::MAX)
}

/// A demand as it is shown: rounded up to the thousandth of a volt-ampere, after the verdict.
fn shown(power: Watts) -> VoltAmperes {
    const SHOWN: i128 = 1_000_000;
    let counts = apparent(power).count();
    let up = counts.checked_add(SHOWN - 1).map(|sum| sum / SHOWN * SHOWN);
    up.and_then(VoltAmperes::from_count).unwrap_or(VoltAmperes::MAX)
}
