//! What the rules know of a site before they look: the load on every component, and how many legs it has.

use std::cell::{Cell, OnceCell};

use super::demand::{Bounds, Demand};
use super::path::{Drops, Flow, Unknown};
use super::wires::{Known, Run};
use crate::calc::CannotTell;
use crate::calc::ampacity::Ampacity;
use crate::code::Code;
use crate::quantity::{Amperes, Ratio};
use crate::site::{Component, ComponentId, Load, Site};
use crate::trade::{Configuration, System};

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
    weighed: Vec<Cell<Option<Weighed>>>,
    flows: Vec<OnceCell<Flow>>,
    /// What is known of circuits and feeders.
    pub(super) runs: Vec<Option<Known<'a>>>,
    /// The ampacities of their conductors.
    pub(super) ampacities: Vec<OnceCell<Result<Ampacity, CannotTell>>>,
    /// The drops up to loads: from the source, and in the branch circuit alone.
    pub(super) drops: [Vec<OnceCell<Result<Drops, Unknown>>>; 2],
    /// What stretches add to the drops of loads: those that they act on alike together.
    pub(super) parts: [Vec<OnceCell<Result<i128, Unknown>>>; 4],
    /// The loads that are to run, in the order of their names.
    pub(super) running: Vec<&'a Load>,
}

/// A line current with the factor that its continuous part was last weighed by.
type Weighed = (Ratio, Option<Bounds>);

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
            parts: [empty(count), empty(count), empty(count), empty(count)],
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
            let between_lines = self.system(load.id()).is_some_and(|system| {
                system.line_to_line() == Some(*load.voltage) && system.line_to_neutral() != Some(*load.voltage)
            });
            let demand = Demand::of_load(load, between_lines);
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
