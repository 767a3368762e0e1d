//! What several rules ask of a cord.

use super::Survey;
use super::wires::ambient;
use crate::calc::cord::CordConditions;
use crate::quantity::Celsius;
use crate::site::{Component, Cord};
use crate::trade::{Contacts, System};

/// The ambient temperature that the ampacity table of cords is for: 400.5(A).
const TABLE_AMBIENT: Celsius = Celsius::from_whole(30);

/// The conditions of a cord's ampacity, or the first fact that is missing: a field and its words.
pub(super) fn conditions(survey: &Survey<'_>, cord: &Cord) -> Result<CordConditions, (&'static str, &'static str)> {
    let marked = cord.temperature_rating.as_deref().copied();
    let around = ambient(cord.ambient.as_deref(), survey);
    Ok(CordConditions {
        cord: cord.cord_type.ok_or(("type", "its type"))?,
        size: cord.size.ok_or(("size", "its wire size"))?,
        current_carrying: current_carrying(survey, cord)
            .ok_or(("current_carrying", "how many of its conductors carry current"))?,
        // The lower its rating, the more a cord gains from the cold: one that is not stated gains nothing.
        ambient: around
            .map(|around| if marked.is_none() { around.max(TABLE_AMBIENT) } else { around })
            .ok_or(("ambient", "the ambient temperature of the cord"))?,
        marked,
    })
}

/// The conductors that carry current: as stated, else by the contacts of its ends. A neutral that carries only the
/// unbalance of 120/240 V does not count: 400.5(A).
fn current_carrying(survey: &Survey<'_>, cord: &Cord) -> Option<u16> {
    if let Some(stated) = cord.current_carrying {
        return Some(stated);
    }
    let contacts = cord.supply_end.contacts().or_else(|| cord.load_end.contacts())?;
    let configuration = contacts.configuration;
    match (configuration.phases(), configuration.poles(), configuration.neutral()) {
        (1, 2, _) => Some(2),
        (1, 3, true) => (survey.site.source_of(cord.id())?.system == System::V120V240).then_some(2),
        _ => None,
    }
}

/// The contacts that feed a component, as the component ahead of it presents them.
pub(super) fn contacts_ahead(ahead: Component<'_>) -> Option<Contacts> {
    match ahead {
        Component::Outlet(outlet) => outlet.configuration.contacts(),
        Component::Receptacle(receptacle) => Some(receptacle.configuration),
        Component::Cord(cord) => cord.load_end.contacts(),
        _ => None,
    }
}
