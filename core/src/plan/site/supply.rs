//! The source of a site as the start order takes it, and the load that is always there.

use super::limits::Mapped;
use super::{MeasuredBase, MeasuredDemand};
use crate::plan::choose::{self, Placement, Wish};
use crate::plan::dip::Impedance;
use crate::plan::endurance::Cycle;
use crate::plan::order::{self, Starter};
use crate::plan::{Draw, Known, Question};
use crate::quantity::{Amperes, Fraction, Ohms, PowerFactor, Quantity, Ratio, Rounding, Volts, Watts};
use crate::rules::{Shape, Survey};
use crate::site::Source;
use crate::trade::{Duty, Leg};

/// The source for the order; what is told of its voltage goes into the notes.
pub(super) fn source(
    survey: &Survey<'_>,
    source: &Source,
    mapped: &Mapped,
    trunk: Result<Ohms, Question>,
    notes: &mut Vec<String>,
    questions: &mut Vec<Question>,
) -> order::Source {
    let volts = source.system.line_to_line().or(source.system.line_to_neutral()).unwrap_or(Volts::MIN);
    let apparent = source.starting_apparent_power.map(|power| *power);
    let surge = source.starting_current.map(|current| *current).or_else(|| {
        let current = Fraction::of_apparent_power(apparent?, volts)?.to_current(Rounding::Down);
        notes.push(format!(
            "`{}` gives each leg, while a motor starts, its share of the power that it gives then",
            source.name
        ));
        Some(current)
    });
    let mut no_load = source.no_load_voltage.map_or_else(|| nominal(survey, source), |volts| *volts);
    let trunk = match trunk {
        Ok(ohms) => Some(ohms),
        Err(question) => {
            questions.push(question);
            None
        }
    };
    let mut impedance = trunk.and_then(|trunk| inside(source, trunk));
    if let (None, Some(dip), Some(trunk)) = (impedance, source.greatest_dip, trunk) {
        // While the source gives no more than it can at a start, its terminals hold what is left after the dip.
        no_load = after(no_load, *dip);
        impedance = Some(Impedance::Parts { resistance: trunk, reactance: Ohms::ZERO });
        notes.push(format!(
            "the impedance of `{}` is not stated: its voltage counts as dipped by {dip} all the time",
            source.name
        ));
    }
    let known = |fact| if fact { Known::NotStated } else { Known::DoesNotApply };
    order::Source {
        continuous: mapped.limits.source.leg_a,
        surge: surge.map_or(Known::NotStated, Known::Stated),
        continuous_total: mapped.limits.total,
        surge_total: apparent.map_or(known(mapped.limits.total != Known::DoesNotApply), Known::Stated),
        surge_time: source.starting_time.map_or(Known::NotStated, |time| Known::Stated(*time)),
        impedance: impedance.map_or(Known::NotStated, Known::Stated),
        ..order::Source::new(&source.name, no_load)
    }
}

/// The nominal voltage of a leg.
fn nominal(survey: &Survey<'_>, source: &Source) -> Volts {
    let half = |volts: Volts| Volts::new(volts.millivolts() / 2).unwrap_or(Volts::MIN);
    match survey.shape(source.id()) {
        Some(Shape::TwoLegs) => source.system.line_to_line().map_or(Volts::MIN, half),
        _ => source.system.line_to_neutral().unwrap_or(Volts::MIN),
    }
}

fn after(volts: Volts, dip: Ratio) -> Volts {
    let left = i64::try_from(
        i128::from(volts.millivolts()) * i128::from(1_000_000 - dip.count_of_millionths().min(1_000_000)) / 1_000_000,
    );
    left.ok().and_then(Volts::new).unwrap_or(Volts::MIN)
}

/// The impedance of the source and the trunk.
fn inside(source: &Source, trunk: Ohms) -> Option<Impedance> {
    if let (Some(resistance), Some(reactance)) = (source.internal_resistance, source.internal_reactance) {
        return Some(Impedance::Parts { resistance: resistance.checked_add(trunk)?, reactance: *reactance });
    }
    // The sum of magnitudes is never less than the magnitude of the sum.
    source.internal_impedance.and_then(|magnitude| magnitude.checked_add(trunk)).map(Impedance::Magnitude)
}

/// What the site draws besides its described loads.
pub(super) struct Base {
    pub(super) power: Watts,
    pub(super) from: super::BaseFrom,
    pub(super) loads: Vec<choose::Load>,
    pub(super) starters: Vec<Starter>,
    /// What a meter recorded in each hour of the day; does not apply where there is no record.
    pub(super) by_hour: Known<Cycle>,
}

/// The base load, measured or stated. The legs of a stated one are not known, so that it counts whole on each.
pub(super) fn base(
    survey: &Survey<'_>,
    source: &Source,
    measured: Option<&MeasuredBase>,
    questions: &mut Vec<Question>,
    notes: &mut Vec<String>,
) -> Base {
    let premises = survey.site.premises();
    let factor = premises.base_load_power_factor;
    let split = survey.shape(source.id()) != Some(Shape::OneLeg);
    let leg_volts = nominal(survey, source);
    let by_hour = measured.map_or(Known::DoesNotApply, |measured| {
        let power = |demand: &Option<MeasuredDemand>| demand.and_then(|demand| mean(demand, leg_volts, factor));
        if measured.by_hour.iter().any(Option::is_none) {
            notes.push(
                "some hour of the day is not in the record: the base load counts there as it is shown".to_owned(),
            );
        }
        Known::Stated(Cycle::Measured(Box::new(measured.by_hour.each_ref().map(power))))
    });
    let mut base =
        Base { power: Watts::MIN, from: super::BaseFrom::NotStated, loads: Vec::new(), starters: Vec::new(), by_hour };
    let power = match measured.map(|measured| &measured.demand) {
        Some(MeasuredDemand::Legs(currents)) => {
            base.from = super::BaseFrom::Measured;
            for (leg, current) in [Leg::A, Leg::B].into_iter().zip(currents) {
                let leg = if split { leg } else { Leg::A };
                let draw = Draw::from_current(*current, leg_volts, factor.unwrap_or(PowerFactor::UNITY));
                base.add(draw, leg, leg_volts, factor);
            }
            if factor.is_none() {
                notes.push(
                    "the power factor of the base load is not stated: its watts count as its volt-amperes".to_owned(),
                );
            }
            return base;
        }
        Some(MeasuredDemand::Power(power)) => {
            base.from = super::BaseFrom::Measured;
            *power
        }
        None => match premises.base_load {
            Some(power) => {
                base.from = super::BaseFrom::Stated;
                *power
            }
            None => {
                notes.push("no base load is stated: only the described loads are counted".to_owned());
                return base;
            }
        },
    };
    if power == Watts::MIN {
        return base;
    }
    let Some(factor) = factor else {
        questions.push(Question::new("the site", "the power factor of the base load", super::limits::DECIDES));
        base.power = power;
        return base;
    };
    let between = Volts::new(leg_volts.millivolts().saturating_mul(2)).unwrap_or(Volts::MAX);
    let (at, leg, rated) = match survey.shape(source.id()) {
        Some(Shape::OneLeg) => (leg_volts, Leg::A, leg_volts),
        Some(Shape::TwoLegs) => (between, Leg::Both, between),
        _ => {
            notes.push("the legs of the base load are not stated: it counts whole on each".to_owned());
            (leg_volts, Leg::Both, between)
        }
    };
    if let Some(draw) = Draw::from_power(power, at, factor) {
        base.add(draw, leg, rated, Some(factor));
    }
    base
}

/// The mean power of an hour; of currents at unity where no power factor is stated, which is the most it can be.
fn mean(demand: MeasuredDemand, leg: Volts, factor: Option<PowerFactor>) -> Option<Watts> {
    match demand {
        MeasuredDemand::Power(power) => Some(power),
        MeasuredDemand::Legs([a, b]) => {
            let draw = Draw::from_current(a.checked_add(b)?, leg, factor.unwrap_or(PowerFactor::UNITY));
            Some(draw.power(Rounding::Up))
        }
    }
}

impl Base {
    fn add(&mut self, draw: Draw, leg: Leg, rated: Volts, factor: Option<PowerFactor>) {
        if draw.current(Rounding::Up) == Amperes::ZERO {
            return;
        }
        self.power = self.power.checked_add(draw.power(Rounding::Up)).unwrap_or(Watts::MAX);
        let placement = match leg {
            Leg::A => Placement::A,
            Leg::B => Placement::B,
            _ => Placement::Both,
        };
        let load = choose::Load::new(NAME, draw, placement).wished(Wish::Must);
        self.loads.push(choose::Load { duty: Duty::Continuous, ..load });
        self.starters.push(Starter { factor, ..Starter::without_surge(NAME, leg, rated, draw) });
    }

    /// The currents that it draws on the legs.
    pub(super) fn currents(&self) -> [Amperes; 2] {
        let on = |leg: Leg| {
            let ours = self.starters.iter().filter(|starter| starter.leg == leg || starter.leg == Leg::Both);
            let sum: i128 = ours.map(|starter| starter.running.current(Rounding::Up).count()).sum();
            Amperes::from_count(sum).unwrap_or(Amperes::MAX)
        };
        [on(Leg::A), on(Leg::B)]
    }
}

const NAME: &str = "the base load";
