//! Each load of a site as the engines take it: its draw, its legs, its start, what it bears and what it is worth.

use std::num::NonZeroU32;

use super::limits::{DECIDES, Mapped};
use super::way;
use crate::plan::choose::{self, Placement, Wish};
use crate::plan::motor::{Basis, CodeLetter, Method, Motor, MotorKind, full_load_current, starting_current};
use crate::plan::order::{Automatic, Start, Starter};
use crate::plan::{Answer, Draw, Known, Question};
use crate::published::Grade;
use crate::quantity::{Ohms, PowerFactor, Quantity, Ratio, Rounding};
use crate::rules::{Shape, Survey};
use crate::site::{ComponentId, Load, LoadKind, LoadWish, Source};
use crate::trade::{Duty, Leg, Phase, StartingMethod, Word};

/// A load with all that is known of it.
pub(super) struct Candidate<'a> {
    pub(super) load: &'a Load,
    pub(super) draw: Option<Draw>,
    pub(super) factor: Option<PowerFactor>,
    pub(super) placement: Option<Placement>,
    pub(super) start: Known<Start>,
    pub(super) basis: Option<Basis>,
    pub(super) dip: Known<Ratio>,
    pub(super) branch: Ohms,
    pub(super) wish: Wish,
    pub(super) class: u8,
    pub(super) weight: NonZeroU32,
    /// Whether its voltage is one that its source gives.
    pub(super) fed: bool,
    /// What keeps it off until it is answered.
    pub(super) questions: Vec<Question>,
    /// What is asked where it is on.
    pub(super) when_on: Vec<Question>,
    pub(super) notes: Vec<String>,
}

/// The candidates of a source, in the order of the document.
pub(super) fn candidates<'a>(survey: &Survey<'a>, source: &'a Source, trunk: &[ComponentId]) -> Vec<Candidate<'a>> {
    survey.site.loads_below(source.id()).map(|load| candidate(survey, source, load, trunk)).collect()
}

fn candidate<'a>(survey: &Survey<'a>, source: &Source, load: &'a Load, trunk: &[ComponentId]) -> Candidate<'a> {
    let mut one = Candidate {
        load,
        draw: None,
        factor: load.power_factor,
        placement: None,
        start: Known::DoesNotApply,
        basis: None,
        dip: dip(load),
        branch: Ohms::ZERO,
        wish: wish(load),
        // Behind every class that a description can name.
        class: load.priority.map_or(u8::MAX, |priority| u8::try_from(priority.saturating_sub(1)).unwrap_or(u8::MAX)),
        weight: load.weight.and_then(|weight| NonZeroU32::new(weight.into())).unwrap_or(NonZeroU32::MIN),
        fed: source.system.gives(*load.voltage),
        questions: Vec::new(),
        when_on: Vec::new(),
        notes: Vec::new(),
    };
    one.draw = draw(&mut one);
    one.placement = placement(survey, source, &mut one);
    (one.start, one.basis) = start(&mut one);
    match way::branch(survey, load, trunk) {
        Ok(ohms) => one.branch = ohms,
        Err(question) => one.when_on.push(question),
    }
    if load.duty.is_none() && one.wish != Wish::Off {
        one.notes.push(format!("the duty of `{}` is not stated: it counts as continuous", load.name));
    }
    one
}

/// A load that is off stays off; otherwise what is wished, and what nobody has spoken of is on if it can be.
fn wish(load: &Load) -> Wish {
    match (load.running, load.wish) {
        (Some(false), _) | (_, Some(LoadWish::Off)) => Wish::Off,
        (_, Some(LoadWish::Must)) => Wish::Must,
        _ => Wish::WouldLike,
    }
}

fn draw(one: &mut Candidate<'_>) -> Option<Draw> {
    let load = one.load;
    let volts = *load.voltage;
    // Volt-amperes are the most that the watts can be.
    let cautious = load.power_factor.unwrap_or(PowerFactor::UNITY);
    let mut ask = |fact| {
        one.questions.push(Question::new(&load.name, fact, DECIDES));
        None
    };
    let draw = if let Some(current) = load.current {
        Some(Draw::from_current(*current, volts, cautious))
    } else if let Some(power) = load.apparent_power {
        Draw::from_apparent(*power, volts, cautious)
    } else if let Some(power) = load.power {
        let Some(factor) = load.power_factor else { return ask("the power factor") };
        return Draw::from_power(*power, volts, factor);
    } else if let Some(output) = load.motor_output {
        match full_load_current(phase(load), output, volts) {
            Ok(cell) if cell.grade != Grade::Memory => Some(Draw::from_current(cell.value, volts, cautious)),
            _ => return ask("the running current"),
        }
    } else {
        return ask("the current, or the power and power factor");
    };
    if load.power_factor.is_none() && one.wish != Wish::Off {
        one.notes
            .push(format!("the power factor of `{}` is not stated: its watts count as its volt-amperes", load.name));
    }
    draw
}

/// The systems that are planned have one phase, so that a motor of which nothing is said has one too.
fn phase(load: &Load) -> Phase {
    load.phases.unwrap_or(Phase::Single)
}

/// The legs that a load may use. Loads behind one line share its leg.
fn placement(survey: &Survey<'_>, source: &Source, one: &mut Candidate<'_>) -> Option<Placement> {
    let load = one.load;
    match survey.shape(source.id()) {
        Some(Shape::OneLeg) => return Some(Placement::A),
        Some(Shape::TwoLegs) => return Some(Placement::Both),
        _ if source.system.line_to_line() == Some(*load.voltage) => return Some(Placement::Both),
        _ => {}
    }
    let one_line = |component: &crate::site::Component<'_>| survey.shape(component.id()) == Some(Shape::OneLeg);
    let line = survey.site.upstream(load.id()).filter(one_line).last();
    let mates: Vec<&Load> = line.map_or_else(|| vec![load], |line| survey.site.loads_below(line.id()).collect());
    let stated: Vec<Leg> = mates.iter().filter_map(|mate| mate.leg).collect();
    match stated.first() {
        Some(leg) if stated.iter().any(|other| other != leg) => {
            one.questions.push(Question::new(&load.name, "one leg for all that its line feeds", DECIDES));
            None
        }
        Some(Leg::A) => Some(Placement::A),
        Some(Leg::B) => Some(Placement::B),
        None if mates.len() == 1 && load.may_choose_leg == Some(true) => Some(Placement::Either),
        _ => {
            one.questions.push(Question::new(&load.name, "the leg", DECIDES));
            None
        }
    }
}

/// How far its voltage may dip: as stated, or down to the lowest voltage that it works at.
fn dip(load: &Load) -> Known<Ratio> {
    if let Some(dip) = load.greatest_dip {
        return Known::Stated(*dip);
    }
    let (Some(lowest), rated) = (load.lowest_voltage, load.voltage.count()) else { return Known::NotStated };
    let millionths = (rated - lowest.count()).max(0).saturating_mul(1_000_000).checked_div(rated).unwrap_or(0);
    i64::try_from(millionths).ok().and_then(Ratio::new).map_or(Known::NotStated, Known::Stated)
}

fn start(one: &mut Candidate<'_>) -> (Known<Start>, Option<Basis>) {
    use LoadKind::{CentralCooling, Dryer, Medical, Motor as AnyMotor};
    let load = one.load;
    let stated = load.starting_current.is_some()
        || load.motor_output.is_some()
        || load.code_letter.is_some()
        || load.hermetic.is_some()
        || load.starting_method.is_some();
    match load.kind {
        _ if stated => {}
        // These have motors, or may have.
        Some(AnyMotor | CentralCooling | Dryer | Medical) => {}
        Some(_) => return (Known::DoesNotApply, None),
        None => {
            one.when_on.push(Question::new(&load.name, "whether it has a motor (its kind)", START));
            return (Known::NotStated, None);
        }
    }
    let method = match (load.starting_method, load.starting_ratio) {
        (None | Some(StartingMethod::AcrossTheLine), _) => Method::AcrossTheLine,
        (Some(StartingMethod::Inverter), _) => Method::InverterDriven,
        (Some(_), Some(ratio)) => Method::SoftStarter(*ratio),
        (Some(_), None) => {
            one.when_on.push(Question::new(&load.name, "the ratio of its soft starter", START));
            return (Known::NotStated, None);
        }
    };
    if load.starting_method.is_none() {
        one.notes
            .push(format!("the starting method of `{}` is not stated: full voltage, which draws the most", load.name));
    }
    let motor = Motor {
        kind: if load.hermetic == Some(true) { MotorKind::Hermetic } else { MotorKind::Ordinary },
        output: load.motor_output,
        running: load.current.map(|current| *current).or_else(|| one.draw.map(|draw| draw.current(Rounding::Up))),
        locked_rotor: load.starting_current.map(|current| *current),
        code_letter: load.code_letter.and_then(|letter| CodeLetter::new(letter.spelling().chars().next()?).ok()),
        method: Some(method),
        ..Motor::new(&load.name, phase(load), *load.voltage)
    };
    match starting_current(&motor) {
        Ok(Answer::Told(told)) => {
            let time = load.starting_time.map_or(Known::NotStated, |time| Known::Stated(*time));
            let start = Start { current: told.current, time, factor: load.starting_power_factor };
            (Known::Stated(start), Some(told.basis))
        }
        Ok(Answer::CannotTell(questions)) => {
            one.when_on.extend(questions);
            (Known::NotStated, None)
        }
        // What cannot be was refused before; whatever is left is not known.
        Err(_) => {
            one.when_on.push(Question::new(&load.name, "a starting current that can be", START));
            (Known::NotStated, None)
        }
    }
}

const START: &str = "whether the source can start it";

impl Candidate<'_> {
    /// As the choice takes it.
    pub(super) fn choice(&self, mapped: &Mapped, survey: &Survey<'_>, groups: &mut Vec<String>) -> choose::Load {
        let above: Vec<ComponentId> = survey.site.upstream(self.load.id()).map(|component| component.id()).collect();
        let through = mapped.of.iter().enumerate().filter(|(_, of)| above.contains(of)).map(|(index, _)| index);
        let number = |name: &str, groups: &mut Vec<String>| {
            let index = groups.iter().position(|known| known == name).unwrap_or_else(|| {
                groups.push(name.to_owned());
                groups.len() - 1
            });
            u16::try_from(index).unwrap_or(u16::MAX)
        };
        choose::Load {
            name: self.load.name.as_str().to_owned(),
            draw: self.draw.filter(|_| self.placement.is_some()),
            placement: self.placement.unwrap_or(Placement::Both),
            duty: self.load.duty.unwrap_or(Duty::Continuous),
            class: self.class,
            weight: self.weight,
            wish: if self.fed { self.wish } else { Wish::Off },
            groups: self.load.exclusion_groups.iter().map(|name| number(name, groups)).collect(),
            through: through.collect(),
            start: self
                .start
                .stated()
                .filter(|_| self.load.automatic == Some(true))
                .map(|start| Draw::from_current(start.current, *self.load.voltage, PowerFactor::UNITY)),
        }
    }

    /// Its leg, where it has no choice.
    pub(super) fn fixed_leg(&self) -> Option<Leg> {
        match self.placement? {
            Placement::A => Some(Leg::A),
            Placement::B => Some(Leg::B),
            Placement::Both => Some(Leg::Both),
            Placement::Either => None,
        }
    }

    /// As the order takes it, on its leg.
    pub(super) fn starter(&self, leg: Leg) -> Starter {
        Starter {
            name: self.load.name.as_str().to_owned(),
            leg,
            rated: *self.load.voltage,
            running: self.draw.unwrap_or(Draw::NONE),
            factor: self.factor,
            start: self.start,
            dip: self.dip,
            automatic: if self.load.automatic == Some(true) { Automatic::ByItself } else { Automatic::ByHand },
            branch: self.branch,
        }
    }
}
