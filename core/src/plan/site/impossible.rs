//! What a description states and that cannot be: each with its place, all at once.

use crate::quantity::{Ratio, Volts, Written};
use crate::site::{Load, Place, Site, Source};
use crate::trade::StartingMethod;

/// Something stated that cannot be.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{at}: {what}")]
pub struct Impossible {
    /// Where it stands.
    pub at: Place,
    /// What is wrong, and what to do.
    pub what: String,
}

/// Everything that cannot be about a source and the loads that it feeds.
pub(super) fn check(site: &Site, source: &Source) -> Vec<Impossible> {
    let mut found = Vec::new();
    of_source(source, &mut found);
    for load in site.loads_below(source.id()) {
        of_load(load, &mut found);
    }
    found
}

fn of_source(source: &Source, found: &mut Vec<Impossible>) {
    let mut note = |field: &str, what: String| found.push(Impossible { at: source.place_of(field), what });
    if let (Some(surge), Some(continuous)) = (source.starting_current, source.continuous_current)
        && *surge < *continuous
    {
        note("starting_current", below("starting_current", surge, continuous));
    }
    if let (Some(surge), Some(continuous)) = (source.starting_apparent_power, source.continuous_apparent_power)
        && *surge < *continuous
    {
        note("starting_apparent_power", below("starting_apparent_power", surge, continuous));
    }
    for (field, share) in [
        ("greatest_dip", source.greatest_dip),
        ("state_of_charge", source.state_of_charge),
        ("reserve", source.reserve),
        ("shut_off_charge", source.shut_off_charge),
        ("efficiency", source.efficiency),
    ] {
        if let Some(share) = share.filter(|share| **share > Ratio::ONE) {
            note(field, above_all(field, share));
        }
    }
    if source.efficiency.is_some_and(|share| *share == Ratio::MIN) {
        note("efficiency", "an efficiency of `0 %` lets nothing through; write what reaches the outlets".to_owned());
    }
}

fn of_load(load: &Load, found: &mut Vec<Impossible>) {
    let mut note = |field: &str, what: String| found.push(Impossible { at: load.place_of(field), what });
    if *load.voltage == Volts::MIN {
        note("voltage", "a load of `0 V` draws nothing; write its rated voltage".to_owned());
    }
    if let Some(lowest) = load.lowest_voltage.filter(|lowest| **lowest > *load.voltage) {
        let rated = load.voltage;
        note("lowest_voltage", format!("the lowest voltage `{lowest}` is above the rated voltage `{rated}`"));
    }
    if let (Some(start), Some(running)) = (load.starting_current, load.current)
        && *start < *running
    {
        note(
            "starting_current",
            format!("with its rotor held it draws `{start}` and running `{running}`; the first cannot be less"),
        );
    }
    let shares =
        [("greatest_dip", load.greatest_dip), ("duty_cycle", load.duty_cycle), ("starting_ratio", load.starting_ratio)];
    for (field, share) in shares {
        if let Some(share) = share.filter(|share| **share > Ratio::ONE) {
            note(field, above_all(field, share));
        }
    }
    if load.starting_method == Some(StartingMethod::SoftStarter)
        && load.starting_ratio.is_some_and(|ratio| *ratio == Ratio::MIN)
    {
        note("starting_ratio", "a soft starter that lets `0 %` through starts nothing; write its ratio".to_owned());
    }
    if let Some(share) = load.profile.iter().map(|part| part.share).find(|share| **share > Ratio::ONE) {
        note("profile", above_all("share", share));
    }
    let twice = |index: usize, hour| load.profile.iter().take(index).any(|part| part.hour == hour);
    if let Some((_, part)) = load.profile.iter().enumerate().find(|(index, part)| twice(*index, part.hour)) {
        note("profile", format!("`{}` stands twice in the profile; keep one of them", part.hour));
    }
    if load.duty_cycle.is_some() && !load.profile.is_empty() {
        note(
            "profile",
            "a load gives `duty_cycle` and `profile`, which exclude each other; keep one of them".to_owned(),
        );
    }
    if let Some(priority) = load.priority.filter(|priority| *priority > 255) {
        note("priority", format!("`{priority}` is out of range; write a whole number from 1 to 255"));
    }
}

fn below<Q: crate::quantity::Quantity>(field: &str, surge: Written<Q>, continuous: Written<Q>) -> String {
    format!("`{field}` is `{surge}` and what it gives for hours `{continuous}`; the first cannot be less")
}

fn above_all(field: &str, share: Written<Ratio>) -> String {
    format!("`{field}` is `{share}`; write at most 100 %")
}
