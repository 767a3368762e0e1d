//! Fixed wiring as several rules see it: the conditions of its conductors, and the device that protects them.

use super::{Findings, Survey};
use crate::calc::CannotTell;
use crate::calc::ampacity::{Ampacity, Conditions, Covering, ampacity};
use crate::code::Termination;
use crate::quantity::{Amperes, Celsius};
use crate::site::{Circuit, Component, Feeder, Outlet, OvercurrentDevice, Wiring};
use crate::trade::{ContinuousRating, DeviceKind, Installation, Place, TerminalMark};

/// A circuit or a feeder.
#[derive(Clone, Copy)]
pub(super) enum Run<'a> {
    Circuit(&'a Circuit),
    Feeder(&'a Feeder),
}

/// What several rules ask of a run.
#[derive(Clone, Copy)]
pub(super) struct Known<'a> {
    /// Its device.
    pub(super) device: Option<Device<'a>>,
    /// The conditions of its conductors behind that device, or the first fact that is missing: a field and its words.
    pub(super) conditions: Result<Conditions, (&'static str, &'static str)>,
}

/// A device ahead of something, wherever it stands.
#[derive(Clone, Copy)]
pub(super) struct Device<'a> {
    pub(super) rating: Option<Amperes>,
    pub(super) kind: DeviceKind,
    pub(super) continuous: Option<ContinuousRating>,
    pub(super) at: Component<'a>,
    pub(super) field: &'static str,
}

impl<'a> Run<'a> {
    /// Every circuit and feeder of a site, with its wiring where that is described.
    pub(super) fn all(survey: &Survey<'a>) -> impl Iterator<Item = Self> {
        let circuits = survey.site.circuits().iter().map(Run::Circuit);
        circuits.chain(survey.site.feeders().iter().map(Run::Feeder))
    }

    /// The circuit or feeder that a component is.
    pub(super) fn of(component: Component<'a>) -> Option<Self> {
        match component {
            Component::Circuit(circuit) => Some(Self::Circuit(circuit)),
            Component::Feeder(feeder) => Some(Self::Feeder(feeder)),
            _ => None,
        }
    }

    pub(super) fn component(self) -> Component<'a> {
        match self {
            Self::Circuit(circuit) => Component::Circuit(circuit),
            Self::Feeder(feeder) => Component::Feeder(feeder),
        }
    }

    pub(super) fn wiring(self) -> Option<&'a Wiring> {
        match self {
            Self::Circuit(circuit) => circuit.wiring.as_ref(),
            Self::Feeder(feeder) => feeder.wiring.as_ref(),
        }
    }

    /// Its own device; a feeder without one is protected by the nearest device on the way to the source, unless it
    /// begins at a panel, where it has one that is not described.
    fn device(self, survey: &Survey<'a>) -> Option<Device<'a>> {
        let own = match self {
            Self::Circuit(circuit) => {
                return circuit.overcurrent_device.as_ref().map(|own| Device::own(own, self.component()));
            }
            Self::Feeder(feeder) => feeder.overcurrent_device.as_ref(),
        };
        if own.is_none() && begins_at_panel(survey, self.component()) {
            return None;
        }
        own.map(|own| Device::own(own, self.component())).or_else(|| ahead(survey, self.component()))
    }

    /// What several rules ask of it.
    pub(super) fn known(self, survey: &Survey<'a>) -> Known<'a> {
        let kept = survey.runs.get(self.component().id().index()).copied().flatten();
        kept.unwrap_or_else(|| Known::of(self, survey))
    }

    /// The ampacity of its conductors in the conditions that are known of it.
    pub(super) fn ampacity(
        self,
        survey: &Survey<'a>,
        known: &Conditions,
        found: &mut Findings,
    ) -> Result<Ampacity, CannotTell> {
        let kept = survey.ampacities.get(self.component().id().index());
        found.once(kept, |found| ampacity(survey.code, known, found))
    }

    /// The conditions of its conductors, or the first fact that is missing: a field and its words.
    pub(super) fn conditions(
        self,
        survey: &Survey<'a>,
        rating: Option<Amperes>,
    ) -> Result<Conditions, (&'static str, &'static str)> {
        let wiring = self.wiring().ok_or(("wiring", "its wiring"))?;
        if marks_decide(survey, wiring, rating) {
            return Err(("wiring", "the temperature mark of the terminals at both ends"));
        }
        let covering = match (wiring.cable, wiring.insulation) {
            (Some(cable), insulation) => Covering::Cable(cable, insulation),
            (None, Some(insulation)) => Covering::Insulation(insulation),
            (None, None) => return Err(("wiring", "its insulation or cable")),
        };
        let installation = match (wiring.installation, covering) {
            (Some(installation), _) => installation,
            (None, Covering::Cable(..)) => Installation::Cable,
            (None, Covering::Insulation(_)) => return Err(("wiring", "how its conductors are installed")),
        };
        Ok(Conditions {
            material: wiring.material.ok_or(("wiring", "the material of its conductors"))?,
            size: wiring.size.ok_or(("wiring", "its wire size"))?,
            covering,
            installation,
            place: wiring.place_kind.ok_or(("wiring", "whether the place of its conductors is dry, damp or wet"))?,
            ambient: ambient(wiring.ambient.as_deref(), survey)
                .ok_or(("wiring", "the ambient temperature of its conductors"))?,
            rooftop_clearance: wiring.rooftop_clearance.as_deref().copied(),
            current_carrying: wiring
                .current_carrying
                .ok_or(("wiring", "how many conductors carry current in its raceway, cable or bundle"))?,
            thermal_insulation: self.thermal_insulation(wiring)?,
            terminals: lower_mark(wiring),
            circuit_rating: rating,
        })
    }

    /// Thermal insulation matters for cables only, and there it must be known.
    fn thermal_insulation(self, wiring: &Wiring) -> Result<bool, (&'static str, &'static str)> {
        match (wiring.thermal_insulation, wiring.cable) {
            (Some(inside), _) => Ok(inside),
            (None, None) => Ok(false),
            (None, Some(_)) => Err(("wiring", "whether its cable lies in thermal insulation")),
        }
    }
}

impl<'a> Known<'a> {
    pub(super) fn of(run: Run<'a>, survey: &Survey<'a>) -> Self {
        let device = run.device(survey);
        Self { device, conditions: run.conditions(survey, device.and_then(|device| device.rating)) }
    }
}

impl<'a> Device<'a> {
    pub(super) fn own(device: &'a OvercurrentDevice, at: Component<'a>) -> Self {
        Self {
            rating: device.rating.as_deref().copied(),
            kind: device.kind.unwrap_or(DeviceKind::Breaker),
            continuous: device.continuous_rating,
            at,
            field: "overcurrent_device",
        }
    }

    /// A device that is there and not described.
    fn unknown(at: Component<'a>) -> Self {
        Self { rating: None, kind: DeviceKind::Breaker, continuous: None, at, field: "overcurrent_device" }
    }

    pub(super) fn of_outlet(outlet: &'a Outlet) -> Self {
        Self {
            rating: outlet.overcurrent_device.as_deref().copied(),
            kind: DeviceKind::Breaker,
            continuous: outlet.continuous_rating,
            at: Component::Outlet(outlet),
            field: "overcurrent_device",
        }
    }
}

fn begins_at_panel(survey: &Survey<'_>, of: Component<'_>) -> bool {
    matches!(survey.from(of.id()), Some(Component::Panel(_)))
}

/// The nearest device on the way from a component to its source.
pub(super) fn ahead<'a>(survey: &Survey<'a>, of: Component<'a>) -> Option<Device<'a>> {
    survey.upstream(of.id()).find_map(|component| match component {
        Component::Circuit(circuit) => match circuit.overcurrent_device.as_ref() {
            Some(device) => Some(Device::own(device, component)),
            // A circuit whose device is not described has one all the same; it is not the one further ahead.
            None => Some(Device::unknown(component)),
        },
        Component::Feeder(feeder) => match feeder.overcurrent_device.as_ref() {
            Some(device) => Some(Device::own(device, component)),
            None => begins_at_panel(survey, component).then_some(Device::unknown(component)),
        },
        Component::Outlet(outlet) => Some(Device::of_outlet(outlet)),
        Component::Panel(panel) => panel
            .supply_breaker
            .as_ref()
            .map(|device| Device { field: "supply_breaker", ..Device::own(device, component) }),
        _ => None,
    })
}

/// The rating of the device ahead of a component; where it is not stated, asks for it at the device itself.
pub(super) fn rating_ahead(device: Option<Device<'_>>, of: Component<'_>, found: &mut Findings) -> Option<Amperes> {
    match device {
        Some(device) if device.rating.is_some() => return device.rating,
        Some(device) => found.ask(device.at, device.field, "the rating of its overcurrent device"),
        None => found.ask(of, "from", "the overcurrent device ahead of it"),
    }
    None
}

/// The ambient temperature of a component: its own, else the site's.
pub(super) fn ambient(own: Option<&Celsius>, survey: &Survey<'_>) -> Option<Celsius> {
    own.copied().or_else(|| survey.site.premises().ambient.as_deref().copied())
}

/// Whether the mark of an end is not stated and decides: up to the boundary an unmarked terminal is the lowest there is,
/// above it an end that is not described could be lower than an unmarked one.
fn marks_decide(survey: &Survey<'_>, wiring: &Wiring, rating: Option<Amperes>) -> bool {
    let Termination::ColumnCap { boundary, .. } = survey.code.termination();
    let above = match (rating, boundary) {
        (Some(rating), Ok(boundary)) => rating > boundary.value,
        _ => false,
    };
    above && (wiring.supply_terminals.is_none() || wiring.load_terminals.is_none())
}

/// The lower of the marks at both ends; an end whose mark is not stated counts as unmarked.
fn lower_mark(wiring: &Wiring) -> TerminalMark {
    match (wiring.supply_terminals, wiring.load_terminals) {
        (Some(TerminalMark::C60), _) | (_, Some(TerminalMark::C60)) => TerminalMark::C60,
        (None | Some(TerminalMark::Unmarked), _) | (_, None | Some(TerminalMark::Unmarked)) => TerminalMark::Unmarked,
        (Some(supply), Some(load)) => supply.min(load),
    }
}

/// Whether a place is wet. Outdoors is wet, whatever is said of the place; elsewhere both must be known.
pub(super) fn is_wet(place: Option<Place>, outdoors: Option<bool>) -> Option<bool> {
    match (place, outdoors) {
        (Some(Place::Wet), _) | (_, Some(true)) => Some(true),
        (Some(_), Some(false)) => Some(false),
        (Some(_), None) | (None, _) => None,
    }
}
