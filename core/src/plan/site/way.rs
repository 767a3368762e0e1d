//! The resistance of the way to the loads: of the trunk that all share, and of each load's own branch.
//!
//! Direct-current resistance at 75 °C (NEC Chapter 9, Table 8), there and back; the reactance of the wires is left out.

use crate::calc::Silent;
use crate::calc::voltage_drop::{Currents, Method, Segment, Wire, voltage_drop};
use crate::plan::Question;
use crate::quantity::{Amperes, Celsius, Meters, Ohms, Quantity};
use crate::rules::Survey;
use crate::site::{Component, ComponentId, Load, Source, Wiring};
use crate::trade::{Material, WireSize};

const DECIDES: &str = "the voltage at the loads";
const ONE_AMPERE: Amperes = Amperes::from_whole(1);
const CONDUCTOR: Celsius = Celsius::from_whole(75);

/// The cords and feeders that every load of a source is fed through.
pub(super) fn trunk(survey: &Survey<'_>, source: &Source) -> Vec<ComponentId> {
    let wanted = |id: ComponentId| survey.site.loads_below(id).filter(|load| load.running != Some(false)).count();
    let all = wanted(source.id());
    let is_stretch = |component: &Component<'_>| matches!(component, Component::Cord(_) | Component::Feeder(_));
    survey
        .site
        .below(source.id())
        .filter(|component| is_stretch(component) && wanted(component.id()) == all)
        .map(Component::id)
        .collect()
}

/// The resistance of the trunk.
pub(super) fn shared(survey: &Survey<'_>, trunk: &[ComponentId]) -> Result<Ohms, Question> {
    sum(survey, trunk.iter().filter_map(|id| survey.site.component(*id)))
}

/// The resistance of the way of one load behind the trunk.
pub(super) fn branch(survey: &Survey<'_>, load: &Load, trunk: &[ComponentId]) -> Result<Ohms, Question> {
    sum(survey, survey.site.upstream(load.id()).filter(|component| !trunk.contains(&component.id())))
}

fn sum<'a>(survey: &Survey<'_>, way: impl Iterator<Item = Component<'a>>) -> Result<Ohms, Question> {
    let mut total = Ohms::ZERO;
    for component in way {
        let Some(stretch) = stretch(component)? else { continue };
        let ask = |fact| Question::new(component.name(), fact, DECIDES);
        let method = Method::DirectCurrent { temperature: CONDUCTOR };
        let supply = crate::quantity::Volts::from_whole(120);
        let drop = voltage_drop(survey.code, supply, &[stretch], method, &mut Silent)
            .map_err(|_| ask("a resistance that the tables give"))?;
        // One ampere drops as many volts as there are ohms: microamperes times ohms are a million counts each.
        let ohms = Ohms::from_count(drop.drop.count() / ONE_AMPERE.count());
        let more = ohms.and_then(|ohms| total.checked_add(ohms));
        total = more.ok_or_else(|| ask("a resistance within range"))?;
    }
    Ok(total)
}

fn stretch(component: Component<'_>) -> Result<Option<Segment>, Question> {
    let ask = |fact| Question::new(component.name(), fact, DECIDES);
    let (wire, length) = match component {
        // Flexible cords are of copper: Tables 400.5(A)(1) and (A)(2).
        Component::Cord(cord) => {
            let size: WireSize = cord.size.ok_or_else(|| ask("the wire size"))?;
            (Wire::Sized(Material::Copper, size), *cord.length.ok_or_else(|| ask("the length"))?)
        }
        Component::Feeder(feeder) => fixed(feeder.wiring.as_ref(), ask)?,
        Component::Circuit(circuit) => fixed(circuit.wiring.as_ref(), ask)?,
        _ => return Ok(None),
    };
    Ok(Some(Segment { wire, neutral: None, length, currents: Currents::TwoWire(ONE_AMPERE) }))
}

fn fixed(wiring: Option<&Wiring>, ask: impl Fn(&'static str) -> Question) -> Result<(Wire, Meters), Question> {
    let wiring = wiring.ok_or_else(|| ask("the wiring"))?;
    let material = wiring.material.ok_or_else(|| ask("the material of the conductors"))?;
    let size = wiring.size.ok_or_else(|| ask("the wire size"))?;
    Ok((Wire::Sized(material, size), *wiring.length.ok_or_else(|| ask("the length"))?))
}
