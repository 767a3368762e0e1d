//! The voltage drop from a source to a load, stretch by stretch.

use super::Survey;
use crate::calc::CannotTell;
use crate::calc::Working;
use crate::calc::voltage_drop::{Currents, Method, Segment, VoltageDrop, Wire, voltage_drop};
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
) -> Result<VoltageDrop, Unknown<'a>> {
    let voltage: Volts = *load.voltage;
    let mut segments: [Option<Segment>; 8] = [None; 8];
    let mut used = segments.iter_mut();
    for component in survey.site.upstream(load.id()) {
        let stretch = match component {
            Component::Circuit(circuit) => Some(fixed(component, circuit.wiring.as_ref())?),
            Component::Feeder(feeder) if reach == Reach::FromSource => Some(fixed(component, feeder.wiring.as_ref())?),
            Component::Cord(cord) if reach == Reach::FromSource => Some(flexible(cord)?),
            _ => None,
        };
        let Some((wire, length)) = stretch else { continue };
        let currents = currents(survey, component, load)?;
        match used.next() {
            Some(slot) => *slot = Some(Segment { wire, neutral: None, length, currents }),
            None => return Err(Unknown::System),
        }
    }
    let mut path =
        [Segment { wire: ZERO, neutral: None, length: Meters::ZERO, currents: Currents::TwoWire(Amperes::ZERO) }; 8];
    let mut count = 0;
    for (slot, segment) in path.iter_mut().zip(segments.into_iter().flatten()) {
        *slot = segment;
        count += 1;
    }
    let path = path.get(..count).unwrap_or_default();
    voltage_drop(survey.code, voltage, path, Method::DirectCurrent { temperature: CONDUCTOR }, working)
        .map_err(Unknown::Gap)
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

/// The currents of a stretch as they act on a load: over its two conductors, or over its leg and the neutral.
fn currents<'a>(survey: &Survey<'a>, of: Component<'a>, load: &Load) -> Result<Currents, Unknown<'a>> {
    let demand = survey.demand(of.id());
    if let Some(missing) = demand.without_draw {
        return Err(asked(survey, missing, of, "current", "its current, or its power and power factor,"));
    }
    let system = survey.system(of.id());
    let between_lines = system.and_then(crate::trade::System::line_to_line) == Some(*load.voltage);
    match survey.shape(of.id()) {
        Some(Shape::OneLeg | Shape::TwoLegs) => {
            let bounds = demand.line_current(Shape::OneLeg, crate::quantity::Ratio::ONE).ok_or(Unknown::System)?;
            Ok(Currents::TwoWire(bounds.greatest.to_current(Rounding::Up)))
        }
        Some(Shape::ThreeWire) if between_lines => {
            // Between lines both legs count: half of each side's drop, which no more than the heavier leg's twice exceeds.
            let bounds = demand.line_current(Shape::ThreeWire, crate::quantity::Ratio::ONE).ok_or(Unknown::System)?;
            Ok(Currents::TwoWire(bounds.greatest.to_current(Rounding::Up)))
        }
        Some(Shape::ThreeWire) => {
            let (this, other) = demand.leg_currents(load.leg).ok_or(Unknown::System)?;
            Ok(Currents::Legs { this, other })
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
