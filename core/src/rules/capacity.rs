//! Apparent power: what loads draw together, and what a source gives.

use super::{Findings, Survey, Value};
use crate::quantity::{Fraction, Quantity, Rounding, VoltAmperes};
use crate::site::{Component, Load, LoadKind, Source, TransferKind};
use crate::trade::System;

/// The sum of what loads draw, in billionths of a volt-ampere, with the first load whose draw is not stated.
pub(crate) struct Sum<'a> {
    pub(crate) known: Fraction,
    pub(crate) missing: Option<&'a Load>,
}

/// What a load draws while it runs; `None` where its draw, or the power factor of its power, is not stated.
pub(crate) fn running(load: &Load) -> Option<Fraction> {
    if let Some(current) = load.current {
        return Fraction::of_current(*current).checked_scale(load.voltage.count().unsigned_abs(), 1);
    }
    if let Some(power) = load.apparent_power {
        return Some(Fraction::of_count(power.count().unsigned_abs()));
    }
    // 10^-15 W over 10^-6 is 10^-9 VA.
    let factor = load.power_factor?.count_of_millionths();
    Fraction::new(load.power?.count().unsigned_abs(), u128::from(factor.unsigned_abs()))
}

/// What a load draws while it starts; `None` where its starting current is not stated.
pub(crate) fn starting(load: &Load) -> Option<Fraction> {
    Fraction::of_current(*load.starting_current?).checked_scale(load.voltage.count().unsigned_abs(), 1)
}

/// Whether a load has a motor that starts; `None` where its kind is not stated.
pub(crate) fn is_motor(load: &Load) -> Option<bool> {
    load.kind.map(|kind| matches!(kind, LoadKind::Motor | LoadKind::CentralCooling))
}

/// What loads draw together; `None` where the sum does not fit.
pub(crate) fn sum<'a>(
    loads: impl Iterator<Item = &'a Load>,
    draw: impl Fn(&Load) -> Option<Fraction>,
) -> Option<Sum<'a>> {
    let mut sum = Sum { known: Fraction::ZERO, missing: None };
    for load in loads {
        match draw(load) {
            Some(draw) => sum.known = sum.known.checked_add(draw)?,
            None => sum.missing = sum.missing.or(Some(load)),
        }
    }
    Some(sum)
}

/// Whether transfer equipment that passes over by itself stands behind a source.
pub(crate) fn is_automatic(survey: &Survey<'_>, source: &Source) -> bool {
    survey.below(source.id()).any(|component| match component {
        Component::Transfer(transfer) => matches!(transfer.kind, TransferKind::Automatic | TransferKind::Interactive),
        _ => false,
    })
}

/// The loads of a source that are to run, in the order of their names.
pub(crate) fn loads<'s, 'a>(
    survey: &'s Survey<'a>,
    source: &Source,
) -> impl Iterator<Item = &'a Load> + Clone + use<'s, 'a> {
    let source = source.id();
    let of_source = move |load: &&Load| survey.site.source_of(load.id()).map(Source::id) == Some(source);
    survey.running.iter().copied().filter(of_source)
}

/// The apparent power that a source gives for hours: the least of what its record states. A power in watts counts as
/// that many volt-amperes, which is the cautious reading.
pub(crate) fn gives(source: &Source) -> Option<VoltAmperes> {
    let volts = match source.system {
        System::V208Y120 | System::V480Y277 | System::V400Y230 => None,
        system => system.line_to_line().or(system.line_to_neutral()),
    };
    let by_current = source.continuous_current.zip(volts).map(|(current, volts)| volts * *current);
    let by_power = source.continuous_power.and_then(|power| VoltAmperes::from_count(power.count() / 1_000_000));
    [by_current, by_power, source.continuous_apparent_power.map(|power| *power)].into_iter().flatten().min()
}

/// Whether a draw is within a rating.
pub(crate) fn within(draw: Fraction, rating: VoltAmperes) -> bool {
    draw <= Fraction::of_count(rating.count().unsigned_abs())
}

/// A draw as it is shown: rounded up to the volt-ampere.
pub(crate) fn shown(draw: Fraction) -> Value {
    const VOLT_AMPERE: i128 = 1_000_000_000;
    let whole = draw.checked_scale(1, VOLT_AMPERE.unsigned_abs()).and_then(|draw| draw.to_count(Rounding::Up));
    let count = whole.and_then(|whole| whole.checked_mul(VOLT_AMPERE));
    Value::Apparent(count.and_then(VoltAmperes::from_count).unwrap_or(VoltAmperes::MAX))
}

/// Asks what a source gives.
pub(crate) fn ask_rating(found: &mut Findings, source: &Source) {
    found.ask(source, "continuous_current", "the current or power that it gives for hours");
}

/// Asks what a load draws.
pub(crate) fn ask_draw(found: &mut Findings, load: &Load) {
    found.ask(load, "current", "its current, or its power and power factor,");
}
