//! What the engine asks of a source and of a load, from their records. What a record leaves out stays unknown.

use super::device::{Load as LoadFacts, RotationNeed, Source as SourceFacts};
use super::site::WATT_COUNTS;
use crate::quantity::{Fraction, Quantity, Rounding, VoltAmperes, Watts};
use crate::rules::{Survey, capacity, premises};
use crate::site::{Load, PhaseSequence, Source, SourceKind, SourceNeutral, TransferNeutral};
use crate::switching::Rotation;
use crate::trade::{Leg, System};

pub(super) fn of_source(survey: &Survey<'_>, source: &Source) -> SourceFacts {
    let mut facts = SourceFacts::unknown().system(source.system);
    facts.rated = capacity::gives(source).and_then(watts);
    facts.surge = source.starting_apparent_power.and_then(|power| watts(*power));
    facts.leg_rated = leg_rated(source);
    facts.neutral_bonded = source.neutral.map(|neutral| neutral == SourceNeutral::Bonded);
    facts.neutral_switched = premises::transfers_below(survey, source.id())
        .next()
        .and_then(|transfer| transfer.neutral)
        .map(|neutral| neutral == TransferNeutral::Switched);
    // A generator is an engine with a generator, whatever else its record says.
    facts.engine = if source.kind == SourceKind::Generator { Some(true) } else { source.engine };
    facts.rotation = source.phase_sequence.map(|sequence| match sequence {
        PhaseSequence::Clockwise => Rotation::Abc,
        PhaseSequence::Counterclockwise => Rotation::Acb,
    });
    facts
}

/// What one leg gives: the current of each leg at the voltage from line to neutral. Half of a power that is stated for
/// both legs is no rating of a leg.
fn leg_rated(source: &Source) -> Option<Watts> {
    let (current, volts) = (*source.continuous_current?, source.system.line_to_neutral()?);
    watts(volts * current)
}

/// `multiwire` is that of the load's circuit; a load without one shares no neutral.
pub(super) fn of_load(survey: &Survey<'_>, load: &Load, shared_neutral: Option<bool>) -> LoadFacts {
    let mut facts = LoadFacts::unknown().voltage(*load.voltage);
    let running = capacity::running(load);
    let starting = match (capacity::starting(load), capacity::is_motor(load)) {
        (Some(starting), _) => Some(running.map_or(starting, |running| starting.max(running))),
        // Only a motor draws more while it starts; of a load of unknown kind it is asked.
        (None, Some(false)) => running,
        (None, _) => None,
    };
    facts.running = running.and_then(up);
    facts.starting = starting.and_then(up);
    facts.shared_neutral = shared_neutral;
    let system = survey.site.source_of(load.id()).map(|source| source.system).or(survey.system(load.id()));
    let between_lines = system.is_some_and(|system| {
        system.line_to_line() == Some(*load.voltage) && system.line_to_neutral() != Some(*load.voltage)
    });
    facts.leg = if between_lines { Some(Leg::Both) } else { load.leg };
    let one_phase =
        system.is_some_and(|system| matches!(system, System::V120 | System::V240 | System::V120V240 | System::V230));
    facts.rotation = one_phase.then_some(RotationNeed::Any);
    facts
}

fn watts(power: VoltAmperes) -> Option<Watts> {
    power.count().checked_mul(WATT_COUNTS).and_then(Watts::from_count)
}

/// Rounded up to the billionth of a volt-ampere: never less than is drawn.
fn up(power: Fraction) -> Option<Watts> {
    let count = power.to_count(Rounding::Up)?;
    count.checked_mul(WATT_COUNTS).and_then(Watts::from_count)
}
