//! What limits the loads of a site: the source with its derating, its outlets, and every rating on the way.

use crate::plan::choose::{LegLimit, Limits, NeutralCurrent, NeutralLimit};
use crate::plan::endurance::{Derating, Loss, derated};
use crate::plan::{Answer, Known, Question};
use crate::quantity::{Amperes, Celsius, CelsiusRise, Fraction, PowerFactor, Ratio, Rounding, Watts};
use crate::rules::smallest_rating_governs::{gives, link_of};
use crate::rules::{Shape, Survey};
use crate::site::{Component, ComponentId, Outlet, OvercurrentDevice, Source};
use crate::trade::ContinuousRating;

pub(super) const DECIDES: &str = "which loads can be on";

/// The limits of a source and its ways, and which component each shared one belongs to.
pub(super) struct Mapped {
    pub(super) limits: Limits,
    /// The components of `limits.shared`, by index.
    pub(super) of: Vec<ComponentId>,
    /// The power that the source gives where it stands.
    pub(super) power: Option<Watts>,
    pub(super) questions: Vec<Question>,
}

/// Maps the limits of a source.
pub(super) fn limits(survey: &Survey<'_>, source: &Source) -> Mapped {
    let mut mapped =
        Mapped { limits: Limits::per_leg(Amperes::ZERO), of: Vec::new(), power: None, questions: Vec::new() };
    of_source(survey, source, &mut mapped);
    for component in survey.site.below(source.id()) {
        if survey.site.loads_below(component.id()).any(|load| load.running != Some(false)) {
            of_component(survey, source, component, &mut mapped);
        }
    }
    mapped
}

fn of_source(survey: &Survey<'_>, source: &Source, mapped: &mut Mapped) {
    mapped.power = match derating(survey, source) {
        Ok(power) => power,
        Err(questions) => {
            mapped.questions.extend(questions);
            None
        }
    };
    let stated = gives(source);
    let volts = source.system.line_to_line().or(source.system.line_to_neutral());
    let by_power =
        mapped.power.zip(volts).and_then(|(power, volts)| Fraction::of_power(power, volts, PowerFactor::UNITY));
    let leg = [stated, by_power.map(|current| current.to_current(Rounding::Down))].into_iter().flatten().min();
    if leg.is_none() {
        mapped.questions.push(Question::new(&source.name, "the current or power that it gives for hours", DECIDES));
    }
    let leg_b = if survey.shape(source.id()) == Some(Shape::OneLeg) { Some(Amperes::ZERO) } else { leg };
    let known = |current: Option<Amperes>| current.map_or(Known::NotStated, Known::Stated);
    mapped.limits.source = LegLimit {
        name: source.name.as_str().to_owned(),
        leg_a: known(leg),
        leg_b: known(leg_b),
        continuous: Ratio::ONE,
    };
    mapped.limits.total = source.continuous_apparent_power.map_or(Known::DoesNotApply, |power| Known::Stated(*power));
    mapped.limits.power = mapped.power.map_or(Known::DoesNotApply, Known::Stated);
    mapped.limits.neutral = neutral(survey, source);
}

/// What the source gives where it stands: its continuous power, less what altitude and heat take.
fn derating(survey: &Survey<'_>, source: &Source) -> Result<Option<Watts>, Vec<Question>> {
    let Some(losses) = &source.derating else { return Ok(source.continuous_power.map(|power| *power)) };
    let premises = survey.site.premises();
    let missing = [
        (source.continuous_power.is_none(), source.name.as_str(), "the power that it gives for hours"),
        (premises.altitude.is_none(), "the site", "the altitude"),
        (premises.ambient.is_none(), "the site", "the ambient temperature"),
    ];
    let questions: Vec<Question> = missing
        .iter()
        .filter(|(missing, ..)| *missing)
        .map(|(_, about, fact)| Question::new(about, fact, DECIDES))
        .collect();
    let (Some(power), Some(altitude), Some(ambient)) = (source.continuous_power, premises.altitude, premises.ambient)
    else {
        return Err(questions);
    };
    let step = |rise: CelsiusRise| Celsius::new(rise.ninths_of_millidegrees()).unwrap_or(Celsius::MIN);
    let losses = Derating {
        altitude: Known::Stated(Loss {
            share: *losses.altitude_loss,
            per: *losses.altitude_step,
            above: *losses.altitude_above,
        }),
        temperature: Known::Stated(Loss {
            share: *losses.temperature_loss,
            per: step(*losses.temperature_step),
            above: *losses.temperature_above,
        }),
    };
    match derated(&source.name, *power, &losses, *altitude, *ambient) {
        Ok(Answer::Told(power)) => Ok(Some(power)),
        Ok(Answer::CannotTell(questions)) => Err(questions),
        Err(_) => Err(vec![Question::new(&source.name, "a step of its losses above 0", DECIDES)]),
    }
}

/// The neutral of a split phase carries the difference of the legs while all are on, and at most the greater leg's
/// current at any moment, which the limit of the leg covers unless the neutral has a smaller one of its own.
fn neutral(survey: &Survey<'_>, source: &Source) -> Known<NeutralLimit> {
    if survey.shape(source.id()) != Some(Shape::ThreeWire) {
        return Known::DoesNotApply;
    }
    if let Some(limit) = source.greatest_leg_difference {
        return Known::Stated(NeutralLimit { current: NeutralCurrent::Difference, limit: *limit });
    }
    let buses = survey.site.below(source.id()).filter_map(|component| match component {
        Component::Panel(panel) => panel.neutral_bus.map(|bus| *bus),
        _ => None,
    });
    let least = buses.min();
    least
        .map_or(Known::DoesNotApply, |limit| Known::Stated(NeutralLimit { current: NeutralCurrent::GreaterLeg, limit }))
}

fn of_component(survey: &Survey<'_>, source: &Source, component: Component<'_>, mapped: &mut Mapped) {
    match component {
        Component::Outlet(outlet) => of_outlet(outlet, mapped),
        Component::Circuit(circuit) => {
            let one_leg = survey.shape(source.id()) == Some(Shape::OneLeg);
            // Fed from one leg, both halves of a multiwire circuit return through one neutral: it carries their sum.
            let name = match circuit.multiwire {
                Some(true) if one_leg => format!("neutral of {}", circuit.name),
                _ => format!("breaker of {}", circuit.name),
            };
            of_device(component, circuit.overcurrent_device.as_ref(), name, mapped);
        }
        Component::Feeder(feeder) if feeder.overcurrent_device.is_some() => {
            of_device(component, feeder.overcurrent_device.as_ref(), format!("breaker of {}", feeder.name), mapped);
        }
        Component::Panel(panel) => {
            of_links(survey, component, mapped);
            if panel.supply_breaker.is_some() {
                of_device(
                    component,
                    panel.supply_breaker.as_ref(),
                    format!("supply breaker of {}", panel.name),
                    mapped,
                );
            }
        }
        _ => of_links(survey, component, mapped),
    }
}

fn of_outlet(outlet: &Outlet, mapped: &mut Mapped) {
    let configured = outlet.configuration.contacts().map(|contacts| contacts.configuration.rated_current());
    let rated = [configured, outlet.continuous_current.map(|current| *current)].into_iter().flatten().min();
    if let Some(rating) = rated {
        mapped.add(outlet.id(), outlet.name.as_str().to_owned(), rating, Ratio::ONE);
    }
    match outlet.overcurrent_device {
        Some(rating) => {
            let name = format!("breaker of {}", outlet.name);
            mapped.add(outlet.id(), name, *rating, continuous(outlet.continuous_rating));
        }
        None => mapped.ask(&outlet.name, "the rating of its overcurrent device"),
    }
}

fn of_device(of: Component<'_>, device: Option<&OvercurrentDevice>, name: String, mapped: &mut Mapped) {
    match device.and_then(|device| Some((device.rating?, device.continuous_rating))) {
        Some((rating, listed)) => mapped.add(of.id(), name, *rating, continuous(listed)),
        None => mapped.ask(of.name(), "the rating of its overcurrent device"),
    }
}

fn of_links(survey: &Survey<'_>, component: Component<'_>, mapped: &mut Mapped) {
    let mut least: Option<Amperes> = None;
    for link in link_of(survey, component) {
        match link {
            Ok(link) => least = Some(least.map_or(link.rating, |least| least.min(link.rating))),
            Err((at, _, fact)) => mapped.ask(at.name(), fact),
        }
    }
    if let Some(rating) = least {
        mapped.add(component.id(), component.name().to_owned(), rating, Ratio::ONE);
    }
}

/// What a continuous load counts at a device: 125 % unless it is listed for all of its rating (NEC 210.20(A)).
fn continuous(listed: Option<ContinuousRating>) -> Ratio {
    match listed {
        Some(ContinuousRating::Listed100) => Ratio::ONE,
        _ => Ratio::percent(125),
    }
}

impl Mapped {
    fn add(&mut self, of: ComponentId, name: String, rating: Amperes, continuous: Ratio) {
        let limit = Known::Stated(rating);
        self.limits.shared.push(LegLimit { name, leg_a: limit, leg_b: limit, continuous });
        self.of.push(of);
    }

    fn ask(&mut self, about: &str, fact: &'static str) {
        let question = Question::new(about, fact, DECIDES);
        if !self.questions.contains(&question) {
            self.questions.push(question);
        }
    }
}
