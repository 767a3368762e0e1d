//! The building as the connection rules see it: what a source reaches, and what else feeds it.

use super::Survey;
use crate::site::{
    Component, ComponentId, Inlet, KeptOff, NormalSupply, Occupancy, Outlet, Panel, Source, Transfer, TransferKind,
};
use crate::trade::System;

/// The panels that a source reaches.
pub(crate) fn fed_panels<'a>(survey: &Survey<'a>) -> impl Iterator<Item = &'a Panel> {
    let site = survey.site;
    site.panels().iter().filter(move |panel| site.source_of(panel.id()).is_some())
}

/// The sources that feed fixed wiring of a building: a feeder, transfer equipment or a panel.
pub(crate) fn building_sources<'a>(survey: &Survey<'a>) -> impl Iterator<Item = &'a Source> {
    survey.site.sources().iter().filter(move |source| reaches_building(survey, source.id()))
}

/// The sources that feed cords and what is plugged into them, and nothing fixed.
pub(crate) fn sources_on_their_own<'a>(survey: &Survey<'a>) -> impl Iterator<Item = &'a Source> {
    survey.site.sources().iter().filter(move |source| !reaches_building(survey, source.id()))
}

/// The outlets through which a building is fed.
pub(crate) fn building_outlets<'a>(survey: &Survey<'a>) -> impl Iterator<Item = &'a Outlet> {
    survey.site.outlets().filter(move |outlet| reaches_building(survey, outlet.id()))
}

fn reaches_building(survey: &Survey<'_>, id: ComponentId) -> bool {
    survey
        .below(id)
        .any(|component| matches!(component, Component::Feeder(_) | Component::Transfer(_) | Component::Panel(_)))
}

/// The transfer equipment that a component feeds.
pub(crate) fn transfers_below<'a>(survey: &Survey<'a>, id: ComponentId) -> impl Iterator<Item = &'a Transfer> {
    survey.below(id).filter_map(|component| match component {
        Component::Transfer(transfer) => Some(transfer),
        _ => None,
    })
}

/// The inlets of a building: those that feed more than loads of their own.
pub(crate) fn building_inlets<'a>(survey: &Survey<'a>) -> impl Iterator<Item = &'a Inlet> {
    survey.site.inlets().iter().filter(move |inlet| reaches_building(survey, inlet.id()))
}

/// The nearest transfer equipment on the way from a source to a component.
pub(crate) fn transfer_above<'a>(survey: &Survey<'a>, id: ComponentId) -> Option<&'a Transfer> {
    survey.upstream(id).find_map(|component| match component {
        Component::Transfer(transfer) => Some(transfer),
        _ => None,
    })
}

/// Whether a source can be fed through a plug: at least one outlet, and none of them terminals.
pub(crate) fn cord_and_plug(source: &Source) -> bool {
    !source.outlets.is_empty() && source.outlets.iter().all(|outlet| outlet.configuration.contacts().is_some())
}

/// Whether the utility feeds a panel, itself or through other panels; `None` where the description does not say.
pub(crate) fn on_utility(survey: &Survey<'_>, panel: &Panel) -> Option<bool> {
    if survey.site.utility().map(|utility| utility.connected) == Some(false) {
        return Some(false);
    }
    let mut panel = panel;
    // A panel names another at most once on the way: reading refused circles.
    for _ in 0..survey.site.panels().len() {
        match survey.site.normal_supply(panel)? {
            NormalSupply::Utility => return survey.site.utility().map(|utility| utility.connected),
            NormalSupply::Panel(next) => panel = next,
        }
    }
    None
}

/// Whether the exception for a temporary portable source holds for a panel: 702.5 Exception. It needs qualified persons
/// alone, and the normal supply locked off or its conductors removed.
pub(crate) fn excepted(survey: &Survey<'_>, panel: &Panel) -> Option<bool> {
    let household = survey.site.premises().occupancy.map(|occupancy| occupancy == Occupancy::OneOrTwoFamilyDwelling);
    if panel.temporary != Some(true) || household == Some(true) {
        return Some(false);
    }
    match (panel.qualified_persons_only, panel.normal_supply_kept_off, household) {
        (Some(false), ..) | (_, Some(KeptOff::MerelyOpen), _) => Some(false),
        (Some(true), Some(KeptOff::Locked | KeptOff::Removed), Some(_)) => Some(true),
        (None, ..) | (_, None, _) | (.., None) => None,
    }
}

/// Whether a panel is fed through a breaker of its own: always by an interlock and without transfer equipment; a switch
/// feeds it in place of its normal supply.
pub(crate) fn is_backfed(survey: &Survey<'_>, panel: &Panel) -> bool {
    transfer_above(survey, panel.id()).is_none_or(|transfer| transfer.kind == TransferKind::Interlock)
}

/// Whether a component leads into a building and what it feeds there is not described.
pub(crate) fn ends_nowhere(survey: &Survey<'_>, component: Component<'_>) -> bool {
    matches!(component, Component::Inlet(_) | Component::Feeder(_) | Component::Transfer(_))
        && survey.site.downstream(component.id()).next().is_none()
}

/// How what such a component feeds is asked for.
pub(crate) const WHAT_IT_FEEDS: &str = "what it feeds";

/// Whether running in parallel through transfer equipment is approved: listed interactive equipment, agreed with the
/// utility, installed by a qualified person.
pub(crate) fn approved_parallel(transfer: &Transfer) -> Option<bool> {
    let facts = [transfer.listed, transfer.utility_agreed, transfer.qualified_installer];
    if transfer.kind != TransferKind::Interactive || facts.contains(&Some(false)) {
        return Some(false);
    }
    if facts.contains(&None) { None } else { Some(true) }
}

/// Whether the site is judged by a code that is not the NEC: then what only IEC 60364 asks is asked.
pub(crate) fn asked_by_iec(survey: &Survey<'_>) -> bool {
    !survey.code.id().starts_with("nec-")
}

/// The panels for two legs that a source of one 120 V line feeds.
pub(crate) fn on_one_line<'a>(survey: &Survey<'a>) -> impl Iterator<Item = &'a Panel> {
    let site = survey.site;
    fed_panels(survey).filter(move |panel| {
        let source = site.source_of(panel.id()).map(|source| source.system);
        source == Some(System::V120) && panel.system == System::V120V240
    })
}
