//! The voltage drop from a source to a load, stretch by stretch.

use super::Survey;
use crate::calc::voltage_drop::{Currents, Method, Segment, VoltageDrop, Wire, voltage_drop};
use crate::calc::{CannotTell, Silent, Working};
use crate::quantity::{Amperes, Celsius, Meters, Rounding, Volts};
use crate::rules::Shape;
use crate::site::{Component, ComponentId, Cord, Load, Wiring};
use crate::trade::{Material, WireSize};

/// The temperature of the conductors by which drops are reckoned: that of the table of resistances.
const CONDUCTOR: Celsius = Celsius::from_whole(75);

/// Why the drop of a path is not known.
pub(super) enum Unknown<'a> {
    /// A fact is not stated: of what, which field, in words.
    Fact(Component<'a>, &'static str, &'static str),
    /// A table does not tell.
    Gap(CannotTell),
    /// The system is one whose drops are not reckoned here.
    System,
}

/// The drop up to a load, as far as it is known: which legs some loads are on may not be.
pub(super) struct Drops<'a> {
    /// The greatest that it can be.
    pub(super) worst: VoltageDrop,
    /// The least that it can be, with a load whose leg would tell more; `None` where all that counts is known.
    best: Option<(VoltageDrop, Component<'a>)>,
}

impl<'a> Drops<'a> {
    /// What a judgement says of the drop, the same at its greatest and its least; else asks for the leg that decides.
    pub(super) fn certain<T: PartialEq>(&self, judge: impl Fn(&VoltageDrop) -> T) -> Result<T, Unknown<'a>> {
        let worst = judge(&self.worst);
        match &self.best {
            Some((best, load)) if judge(best) != worst => Err(Unknown::Fact(*load, "leg", "its leg")),
            _ => Ok(worst),
        }
    }
}

/// Which stretches of the way count.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Reach {
    /// Everything from the source.
    FromSource,
    /// The branch circuit alone.
    Branch,
}

/// The drop up to a load, with all loads running that are to run.
pub(super) fn drop_to<'a>(
    survey: &Survey<'a>,
    load: &'a Load,
    reach: Reach,
    working: &mut impl Working,
) -> Result<Drops<'a>, Unknown<'a>> {
    let voltage: Volts = *load.voltage;
    let mut worst = Path::EMPTY;
    let mut best = Path::EMPTY;
    let mut leg = None;
    for component in survey.site.upstream(load.id()) {
        let stretch = match component {
            Component::Circuit(circuit) => Some(fixed(component, circuit.wiring.as_ref())?),
            Component::Feeder(feeder) if reach == Reach::FromSource => Some(fixed(component, feeder.wiring.as_ref())?),
            Component::Cord(cord) if reach == Reach::FromSource => Some(flexible(cord)?),
            _ => None,
        };
        let Some((wire, length)) = stretch else { continue };
        let flows = currents(survey, component, load)?;
        worst.push(Segment { wire, neutral: None, length, currents: flows.worst })?;
        best.push(Segment { wire, neutral: None, length, currents: flows.best.unwrap_or(flows.worst) })?;
        leg = leg.or(flows.best.and(if load.leg.is_none() { Some(load.id()) } else { flows.leg }));
    }
    let method = Method::DirectCurrent { temperature: CONDUCTOR };
    let best = match leg.and_then(|leg| survey.site.component(leg)) {
        Some(load) => {
            let drop =
                voltage_drop(survey.code, voltage, best.segments(), method, &mut Silent).map_err(Unknown::Gap)?;
            Some((drop, load))
        }
        None => None,
    };
    let worst = voltage_drop(survey.code, voltage, worst.segments(), method, working).map_err(Unknown::Gap)?;
    Ok(Drops { worst, best })
}

/// The stretches of a way, from the load on.
struct Path {
    segments: [Segment; 8],
    count: usize,
}

impl Path {
    const EMPTY: Self = Self {
        segments: [Segment {
            wire: ZERO,
            neutral: None,
            length: Meters::ZERO,
            currents: Currents::TwoWire(Amperes::ZERO),
        }; 8],
        count: 0,
    };

    fn push<'a>(&mut self, segment: Segment) -> Result<(), Unknown<'a>> {
        *self.segments.get_mut(self.count).ok_or(Unknown::System)? = segment;
        self.count += 1;
        Ok(())
    }

    fn segments(&self) -> &[Segment] {
        self.segments.get(..self.count).unwrap_or_default()
    }
}

const ZERO: Wire =
    Wire::Stated { resistance: crate::quantity::OhmsPerLength::MIN, reactance: crate::quantity::OhmsPerLength::MIN };

fn fixed<'a>(of: Component<'a>, wiring: Option<&Wiring>) -> Result<(Wire, Meters), Unknown<'a>> {
    let missing = |fact| Unknown::Fact(of, "wiring", fact);
    let wiring = wiring.ok_or(missing("its wiring"))?;
    let material = wiring.material.ok_or(missing("the material of its conductors"))?;
    let size = wiring.size.ok_or(missing("its wire size"))?;
    let length = wiring.length.ok_or(missing("its length"))?;
    Ok((Wire::Sized(material, size), *length))
}

fn flexible(cord: &Cord) -> Result<(Wire, Meters), Unknown<'_>> {
    let size: WireSize = cord.size.ok_or(Unknown::Fact(cord.into(), "size", "its wire size"))?;
    let length = cord.length.ok_or(Unknown::Fact(cord.into(), "length", "its length"))?;
    // Flexible cords are of copper: Tables 400.5(A)(1) and (A)(2).
    Ok((Wire::Sized(Material::Copper, size), *length))
}

/// The currents of a stretch as they act on a load.
struct Flows {
    /// Where they let its voltage drop most.
    worst: Currents,
    /// Where they let it drop least, if the legs of some loads are not stated.
    best: Option<Currents>,
    /// One of those loads.
    leg: Option<ComponentId>,
}

impl From<Amperes> for Flows {
    fn from(current: Amperes) -> Self {
        Self { worst: Currents::TwoWire(current), best: None, leg: None }
    }
}

/// The currents of a stretch: over its two conductors, or over its leg and the neutral.
fn currents<'a>(survey: &Survey<'a>, of: Component<'a>, load: &Load) -> Result<Flows, Unknown<'a>> {
    let demand = survey.demand(of.id());
    if let Some(missing) = demand.without_draw {
        return Err(asked(survey, missing, of, "current", "its current, or its power and power factor,"));
    }
    let system = survey.system(of.id());
    let between_lines = system.and_then(crate::trade::System::line_to_line) == Some(*load.voltage);
    match survey.shape(of.id()) {
        Some(Shape::OneLeg | Shape::TwoLegs) => {
            let bounds = demand.line_current(Shape::OneLeg, crate::quantity::Ratio::ONE).ok_or(Unknown::System)?;
            Ok(bounds.greatest.to_current(Rounding::Up).into())
        }
        // Between lines each line drops its own current's share: together twice the mean, whatever leg a load is on.
        Some(Shape::ThreeWire) if between_lines => Ok(demand.mean_of_lines().ok_or(Unknown::System)?.into()),
        Some(Shape::ThreeWire) => {
            let (this, other) = demand.leg_currents(load.leg).ok_or(Unknown::System)?;
            let worst = Currents::Legs { this, other };
            if demand.without_leg.is_none() {
                return Ok(Flows { worst, best: None, leg: None });
            }
            let (this, other) = survey.lightest_leg(of.id(), load).ok_or(Unknown::System)?;
            Ok(Flows { worst, best: Some(Currents::Legs { this, other }), leg: demand.without_leg })
        }
        Some(Shape::ThreePhase) => Err(Unknown::System),
        None => Err(Unknown::Fact(of, "voltage", "its voltage")),
    }
}

fn asked<'a>(
    survey: &Survey<'a>,
    id: ComponentId,
    or: Component<'a>,
    field: &'static str,
    fact: &'static str,
) -> Unknown<'a> {
    Unknown::Fact(survey.site.component(id).unwrap_or(or), field, fact)
}

/// The loads whose drop is judged: those that are to run.
pub(super) fn running<'a>(survey: &Survey<'a>) -> impl Iterator<Item = &'a Load> {
    survey.site.loads().iter().filter(|load| load.running != Some(false))
}
