//! What the rules know of a site before they look: the load on every component, and how many legs it has.

use std::cell::{Cell, OnceCell};

use super::path::{Drops, Flow, Unknown};
use super::wires::{Known, Run};
use crate::calc::ampacity::Ampacity;
use crate::calc::{CannotTell, continuous};
use crate::code::Code;
use crate::quantity::{Amperes, Fraction, PowerFactor, Ratio, Rounding, Volts};
use crate::site::{Component, ComponentId, Load, Site};
use crate::trade::{Configuration, Duty, Leg, System};

/// A site and a code, with what follows from both for every component. What several rules ask is reckoned when the first
/// of them does.
pub struct Survey<'a> {
    /// The site.
    pub site: &'a Site,
    /// The code.
    pub code: &'a dyn Code,
    components: Vec<Component<'a>>,
    demands: Vec<Demand>,
    shapes: Vec<Option<Shape>>,
    lines: Vec<OnceCell<Option<Bounds>>>,
    weighed: Vec<Cell<Option<(Ratio, Option<Bounds>)>>>,
    flows: Vec<OnceCell<Flow>>,
    /// What is known of circuits and feeders.
    pub(super) runs: Vec<Option<Known<'a>>>,
    /// The ampacities of their conductors.
    pub(super) ampacities: Vec<OnceCell<Result<Ampacity, CannotTell>>>,
    /// The drops up to loads: from the source, and in the branch circuit alone.
    pub(super) drops: [Vec<OnceCell<Result<Drops, Unknown>>>; 2],
    /// The loads that are to run, in the order of their names.
    pub(super) running: Vec<&'a Load>,
}

/// How the ungrounded conductors of a component share its load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// One ungrounded conductor and a neutral: every current adds up.
    OneLeg,
    /// Two ungrounded conductors without a neutral: loads lie between them.
    TwoLegs,
    /// Two legs with a neutral between them: each leg carries its own.
    ThreeWire,
    /// A three-phase system, which the demand below does not describe.
    ThreePhase,
}

/// What loads draw through a component, exactly. A load of unknown leg is kept apart, since it may be on either.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Demand {
    leg_a: Part,
    leg_b: Part,
    either_leg: Part,
    both_legs: Part,
    /// A load whose draw is not stated.
    pub without_draw: Option<ComponentId>,
    /// A load whose duty is not stated.
    pub without_duty: Option<ComponentId>,
    /// A load whose leg is not stated.
    pub without_leg: Option<ComponentId>,
    /// A sum that does not fit: no answer may rest on it.
    pub overflow: bool,
}

/// The continuous and the other part of a current, in microamperes, and what may be either.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Part {
    continuous: Fraction,
    other: Fraction,
    unknown: Fraction,
}

impl Part {
    const NOTHING: Self = Self { continuous: Fraction::ZERO, other: Fraction::ZERO, unknown: Fraction::ZERO };

    /// All of it, however long it lasts.
    fn whole(&self) -> Option<Fraction> {
        self.continuous.checked_add(self.other)?.checked_add(self.unknown)
    }

    fn is_zero(&self) -> bool {
        self.continuous.is_zero() && self.other.is_zero() && self.unknown.is_zero()
    }
}

/// The least and the greatest that a line current can be, as the legs of some loads are not known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bounds {
    /// If loads of unknown leg lie where they help most.
    pub least: Fraction,
    /// If they all lie on the heavier leg.
    pub greatest: Fraction,
}

impl<'a> Survey<'a> {
    /// Surveys a site.
    #[must_use]
    pub fn new(site: &'a Site, code: &'a dyn Code) -> Self {
        let components: Vec<Component<'a>> = site.components().collect();
        let count = components.len();
        let mut survey = Self {
            site,
            code,
            components,
            demands: vec![Demand::NOTHING; count],
            shapes: vec![None; count],
            lines: empty(count),
            weighed: empty(count),
            flows: empty(count),
            runs: Vec::new(),
            ampacities: empty(count),
            drops: [empty(count), empty(count)],
            running: running(site),
        };
        survey.add_shapes();
        survey.add_demands();
        let known = |component| Run::of(component).map(|run| Known::of(run, &survey));
        survey.runs = survey.components().map(known).collect();
        survey
    }

    /// Every component, each behind the one that feeds it: as the site has them, at hand.
    pub(crate) fn components(&self) -> impl DoubleEndedIterator<Item = Component<'a>> + Clone + use<'_, 'a> {
        self.components.iter().copied()
    }

    /// All components that are fed through this one, each behind the one that feeds it.
    pub(crate) fn below(&self, id: ComponentId) -> impl Iterator<Item = Component<'a>> + Clone + use<'_, 'a> {
        self.components.get(self.site.numbers_below(id)).unwrap_or_default().iter().copied()
    }

    /// The components that feed this one: the nearest first, the source last.
    pub(super) fn upstream(&self, id: ComponentId) -> impl Iterator<Item = Component<'a>> + use<'_, 'a> {
        self.site.upstream_ids(id).filter_map(|id| self.components.get(id.index()).copied())
    }

    /// The component that feeds this one.
    pub(super) fn from(&self, id: ComponentId) -> Option<Component<'a>> {
        self.upstream(id).next()
    }

    /// What is drawn through a component.
    #[must_use]
    pub fn demand(&self, id: ComponentId) -> &Demand {
        self.demands.get(id.index()).unwrap_or(&Demand::NOTHING)
    }

    /// The shape of a component; `None` where neither it nor anything above says.
    #[must_use]
    pub fn shape(&self, id: ComponentId) -> Option<Shape> {
        self.shapes.get(id.index()).copied().flatten()
    }

    /// The bounds of the line current through a component, its continuous part weighed by `factor`; `None` where the
    /// shape is not one that the demand describes, or the sum does not fit.
    #[must_use]
    pub fn line_current(&self, id: ComponentId, factor: Ratio) -> Option<Bounds> {
        let reckon = || self.demand(id).line_current(self.shape(id)?, factor);
        if factor == Ratio::ONE {
            return *self.lines.get(id.index())?.get_or_init(reckon);
        }
        // Device and conductor of a run mostly count a continuous load alike.
        let last = self.weighed.get(id.index())?;
        match last.get() {
            Some((known, bounds)) if known == factor => bounds,
            _ => {
                let bounds = reckon();
                last.set(Some((factor, bounds)));
                bounds
            }
        }
    }

    /// The currents of the legs of a component as they act on loads.
    pub(super) fn flow(&self, id: ComponentId) -> Option<&Flow> {
        Some(self.flows.get(id.index())?.get_or_init(|| Flow::of(self.demand(id))))
    }

    /// The currents through a component that let the voltage of a load below it drop least: (its own leg, the other).
    pub(super) fn lightest_leg(&self, id: ComponentId, load: &Load) -> Option<(Amperes, Amperes)> {
        self.demand(id).lightest_leg(load)
    }

    /// The supply system at a component: the nearest panel's, else the source's.
    #[must_use]
    pub fn system(&self, id: ComponentId) -> Option<System> {
        let panel = self.site.panel_of(id).map(|panel| panel.system);
        panel.or_else(|| self.site.source_of(id).map(|source| source.system))
    }

    /// Components stand behind what feeds them, whose shape theirs may be.
    fn add_shapes(&mut self) {
        for (index, component) in self.components.iter().copied().enumerate() {
            // A circuit of unknown voltage is not of the shape of its panel: its loads may share one conductor.
            let inherits = !matches!(component, Component::Circuit(_));
            let above = self.site.upstream_ids(component.id()).next().filter(|_| inherits);
            let shape = own_shape(self.site, component).or_else(|| self.shape(above?));
            if let Some(slot) = self.shapes.get_mut(index) {
                *slot = shape;
            }
        }
    }

    /// Components in reverse order stand before what feeds them, so one pass adds every subtree up.
    fn add_demands(&mut self) {
        for load in self.site.loads() {
            let demand = self.of_load(load);
            if let Some(slot) = self.demands.get_mut(load.id().index()) {
                *slot = demand;
            }
        }
        // Of several loads that lack a fact, the first by name is asked for, wherever it stands in the document.
        let name = |id: ComponentId| self.site.component(id).map(Component::name);
        let first = |one: Option<ComponentId>, other: Option<ComponentId>| match (one, other) {
            (Some(one), Some(other)) => Some(if name(other) < name(one) { other } else { one }),
            (one, other) => one.or(other),
        };
        let mut left = self.demands.as_mut_slice();
        for component in self.components.iter().rev() {
            // What feeds a component stands before it.
            let Some((below, above)) = left.split_last_mut() else { break };
            let from = self.site.upstream_ids(component.id()).next();
            if let Some(from) = from.and_then(|from| above.get_mut(from.index())) {
                from.add(below, first);
            }
            left = above;
        }
    }

    fn of_load(&self, load: &Load) -> Demand {
        let mut demand = Demand::default();
        if load.running == Some(false) {
            return demand;
        }
        let Some(draw) = draw(load) else {
            demand.without_draw = Some(load.id());
            return demand;
        };
        let part = match load.duty {
            Some(Duty::NonContinuous) => Part { other: draw, ..Part::NOTHING },
            Some(Duty::Continuous) => Part { continuous: draw, ..Part::NOTHING },
            None => Part { unknown: draw, ..Part::NOTHING },
        };
        if load.duty.is_none() {
            demand.without_duty = Some(load.id());
        }
        let between_lines = self.system(load.id()).is_some_and(|system| {
            system.line_to_line() == Some(*load.voltage) && system.line_to_neutral() != Some(*load.voltage)
        });
        match (between_lines, load.leg) {
            (true, _) | (false, Some(Leg::Both)) => demand.both_legs = part,
            (false, Some(Leg::A)) => demand.leg_a = part,
            (false, Some(Leg::B)) => demand.leg_b = part,
            (false, None) => {
                demand.either_leg = part;
                demand.without_leg = Some(load.id());
            }
        }
        demand
    }
}

/// The current that a load draws, in microamperes; `None` where its draw, or the power factor of its power, is not stated.
fn draw(load: &Load) -> Option<Fraction> {
    let voltage: Volts = *load.voltage;
    if let Some(current) = load.current {
        return Some(Fraction::of_current(*current));
    }
    if let Some(power) = load.apparent_power {
        return Fraction::of_apparent_power(*power, voltage);
    }
    let factor: PowerFactor = load.power_factor?;
    load.power.and_then(|power| Fraction::of_power(*power, voltage, factor))
}

fn own_shape(site: &Site, component: Component<'_>) -> Option<Shape> {
    match component {
        Component::Source(source) => Some(of_system(source.system)),
        Component::Panel(panel) => {
            // A panel for two legs on a one-leg source carries everything on one.
            let source = site.source_of(panel.id()).map(|source| of_system(source.system));
            Some(source.filter(|shape| *shape == Shape::OneLeg).unwrap_or(of_system(panel.system)))
        }
        Component::Circuit(circuit) => {
            let system = site.panel_of(circuit.id())?.system;
            let voltage = *circuit.voltage.as_ref()?;
            if circuit.multiwire == Some(true) {
                Some(Shape::ThreeWire)
            } else if system.line_to_neutral() == Some(*voltage) {
                Some(Shape::OneLeg)
            } else if system.line_to_line() == Some(*voltage) {
                Some(Shape::TwoLegs)
            } else {
                None
            }
        }
        Component::Outlet(outlet) => {
            outlet.configuration.contacts().map(|contacts| of_configuration(contacts.configuration))
        }
        Component::Cord(cord) => {
            let contacts = cord.supply_end.contacts().or_else(|| cord.load_end.contacts());
            contacts.map(|contacts| of_configuration(contacts.configuration))
        }
        Component::Inlet(inlet) => Some(of_configuration(inlet.configuration.configuration)),
        Component::Receptacle(receptacle) => Some(of_configuration(receptacle.configuration.configuration)),
        Component::Feeder(_) | Component::Transfer(_) | Component::Load(_) => None,
    }
}

const fn of_system(system: System) -> Shape {
    match system {
        System::V120 | System::V230 => Shape::OneLeg,
        System::V240 => Shape::TwoLegs,
        System::V120V240 => Shape::ThreeWire,
        System::V208Y120 | System::V480Y277 | System::V400Y230 => Shape::ThreePhase,
    }
}

fn of_configuration(configuration: Configuration) -> Shape {
    match (configuration.phases(), configuration.poles(), configuration.neutral()) {
        (1, 2, true) => Shape::OneLeg,
        (1, 2, false) => Shape::TwoLegs,
        (1, 3, true) => Shape::ThreeWire,
        _ => Shape::ThreePhase,
    }
}

fn running(site: &Site) -> Vec<&Load> {
    let mut loads: Vec<&Load> = site.loads().iter().filter(|load| load.running != Some(false)).collect();
    loads.sort_by(|one, other| one.name.cmp(&other.name));
    loads
}

/// A place for what will be known of each component.
fn empty<T: Default>(count: usize) -> Vec<T> {
    (0..count).map(|_| T::default()).collect()
}

impl Default for Demand {
    fn default() -> Self {
        Self::NOTHING
    }
}

impl Demand {
    const NOTHING: Self = Self {
        leg_a: Part::NOTHING,
        leg_b: Part::NOTHING,
        either_leg: Part::NOTHING,
        both_legs: Part::NOTHING,
        without_draw: None,
        without_duty: None,
        without_leg: None,
        overflow: false,
    };

    fn add(&mut self, below: &Self, first: impl Fn(Option<ComponentId>, Option<ComponentId>) -> Option<ComponentId>) {
        let sum = |into: &mut Part, part: &Part, overflow: &mut bool| {
            let parts = [
                (&mut into.continuous, part.continuous),
                (&mut into.other, part.other),
                (&mut into.unknown, part.unknown),
            ];
            for (sum, value) in parts {
                if value.is_zero() {
                    continue;
                }
                match sum.checked_add(value) {
                    Some(total) => *sum = total,
                    None => *overflow = true,
                }
            }
        };
        sum(&mut self.leg_a, &below.leg_a, &mut self.overflow);
        sum(&mut self.leg_b, &below.leg_b, &mut self.overflow);
        sum(&mut self.either_leg, &below.either_leg, &mut self.overflow);
        sum(&mut self.both_legs, &below.both_legs, &mut self.overflow);
        self.without_draw = first(self.without_draw, below.without_draw);
        self.without_duty = first(self.without_duty, below.without_duty);
        self.without_leg = first(self.without_leg, below.without_leg);
        self.overflow |= below.overflow;
    }

    /// The same load with what is of unknown duty as non-continuous: the lightest that it can be.
    #[must_use]
    pub fn lightest(mut self) -> Self {
        for part in [&mut self.leg_a, &mut self.leg_b, &mut self.either_leg, &mut self.both_legs] {
            if part.unknown.is_zero() {
                continue;
            }
            match part.other.checked_add(part.unknown) {
                Some(other) => *part = Part { other, unknown: Fraction::ZERO, ..*part },
                None => self.overflow = true,
            }
        }
        self
    }

    /// The bounds of the line current in a conductor of that shape, the continuous part weighed by `factor`, and with it
    /// what is of unknown duty: continuous is the graver.
    #[must_use]
    pub fn line_current(&self, shape: Shape, factor: Ratio) -> Option<Bounds> {
        if self.overflow {
            return None;
        }
        let weigh = |part: &Part| {
            if part.is_zero() {
                Some(Fraction::ZERO)
            } else if factor == Ratio::ONE {
                part.whole()
            } else {
                continuous::weighed(part.continuous.checked_add(part.unknown)?, part.other, factor).ok()
            }
        };
        let (a, b) = (weigh(&self.leg_a)?, weigh(&self.leg_b)?);
        let (either, both) = (weigh(&self.either_leg)?, weigh(&self.both_legs)?);
        match shape {
            Shape::OneLeg | Shape::TwoLegs => {
                let sum = a.checked_add(b)?.checked_add(either)?.checked_add(both)?;
                Some(Bounds { least: sum, greatest: sum })
            }
            Shape::ThreeWire => {
                let greatest = a.max(b).checked_add(both)?.checked_add(either)?;
                // Loads of unknown leg fill the lighter leg first, then share.
                let total = a.checked_add(b)?.checked_add(either)?;
                let even = total.checked_scale(1, 2)?;
                let least = a.max(b).max(even).checked_add(both)?;
                Some(Bounds { least, greatest })
            }
            Shape::ThreePhase => None,
        }
    }

    /// The currents of both legs as shown, loads of unknown leg on this one: (the heavier, the other).
    #[must_use]
    pub fn leg_currents(&self, this: Option<Leg>) -> Option<(Amperes, Amperes)> {
        let both = self.both_legs.whole()?;
        let a = self.leg_a.whole()?.checked_add(both)?;
        let b = self.leg_b.whole()?.checked_add(both)?;
        let either = self.either_leg.whole()?;
        let (this, other) = match this {
            Some(Leg::A) => (a, b),
            Some(Leg::B) => (b, a),
            Some(Leg::Both) | None => (a.max(b), a.min(b)),
        };
        Some((this.checked_add(either)?.to_current(Rounding::Up), other.to_current(Rounding::Down)))
    }

    /// The mean of the currents of both lines, rounded up: a load of unknown leg adds the same to it on either.
    pub(super) fn mean_of_lines(&self) -> Option<Amperes> {
        let legs = self.leg_a.whole()?.checked_add(self.leg_b.whole()?)?.checked_add(self.either_leg.whole()?)?;
        Some(legs.checked_scale(1, 2)?.checked_add(self.both_legs.whole()?)?.to_current(Rounding::Up))
    }

    /// The currents that let the voltage of `load` drop least: on its own leg as little as can be, on the other as much.
    fn lightest_leg(&self, load: &Load) -> Option<(Amperes, Amperes)> {
        let (a, b) = (self.leg_a.whole()?, self.leg_b.whole()?);
        let either = self.either_leg.whole()?;
        let (this, other) = match load.leg {
            Some(Leg::A) => (a, b.checked_add(either)?),
            Some(Leg::B) => (b, a.checked_add(either)?),
            Some(Leg::Both) => (a.max(b), a.min(b).checked_add(either)?),
            None => {
                // Wherever it is, its own current is on its own leg.
                let own = draw(load)?;
                (a.min(b).checked_add(own)?, a.max(b).checked_add(either.absolute_difference(own)?)?)
            }
        };
        let both = self.both_legs.whole()?;
        Some((this.checked_add(both)?.to_current(Rounding::Down), other.checked_add(both)?.to_current(Rounding::Up)))
    }

    /// The bounds of the current in a neutral that both legs share: their difference on opposed legs, their sum where one
    /// line feeds both. Loads between the lines do not load it.
    #[must_use]
    pub fn neutral_current(&self, opposed: bool) -> Option<Bounds> {
        if self.overflow {
            return None;
        }
        let (a, b, either) = (self.leg_a.whole()?, self.leg_b.whole()?, self.either_leg.whole()?);
        if !opposed {
            let sum = a.checked_add(b)?.checked_add(either)?;
            return Some(Bounds { least: sum, greatest: sum });
        }
        let difference = a.absolute_difference(b)?;
        let least = if either >= difference { Fraction::ZERO } else { difference.absolute_difference(either)? };
        Some(Bounds { least, greatest: difference.checked_add(either)? })
    }

    /// Whether nothing is drawn.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        [self.leg_a, self.leg_b, self.either_leg, self.both_legs].iter().all(Part::is_zero)
    }
}

impl Bounds {
    /// How the current compares with a limit: whether it is within it, or cannot be told.
    #[must_use]
    pub fn within(&self, limit: Amperes) -> Option<bool> {
        let limit = Fraction::of_current(limit);
        if self.greatest <= limit {
            Some(true)
        } else if self.least > limit {
            Some(false)
        } else {
            None
        }
    }

    /// The greatest, rounded up to the milliampere for showing.
    #[must_use]
    pub fn shown(&self) -> Amperes {
        let exact = self.greatest.to_current(Rounding::Up);
        let milliamperes = exact.microamperes().div_euclid(1000) + i64::from(exact.microamperes() % 1000 != 0);
        milliamperes.checked_mul(1000).and_then(Amperes::new).unwrap_or(Amperes::MAX)
    }
}
