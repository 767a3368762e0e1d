//! The walk over a site: each component adds its devices; what it leaves open becomes a question or a note.

use super::builder::Builder;
use super::device::{Interlock, Transfer as TransferFacts};
use super::invariant::Invariant;
use super::network::Network;
use super::site::{Arrangement, Feeding, Missing, Open, Unmapped};
use super::site_nodes::{Entry, Nodes, outlet_protected};
use super::state::Position;
use super::{site_facts, site_loads};
use crate::rules::{Survey, bonds, premises};
use crate::site::{
    Circuit, Component, ComponentId, Cord, Feeder, Inlet, InterlockMounting, Load, NormalSupply, Outlet,
    OvercurrentDevice, Panel, Source, Transfer, TransferKind, Transition,
};
use crate::trade::DeviceKind;
use std::collections::BTreeSet;

/// A network in the making.
pub(super) struct Draft<'a> {
    survey: &'a Survey<'a>,
    nodes: Nodes<'a>,
    sources: Vec<&'a Source>,
    rests_off: bool,
    builder: Builder,
    positions: Vec<(String, Position)>,
    owners: Vec<ComponentId>,
    locked: Vec<String>,
    touched: BTreeSet<String>,
    questions: Vec<Open>,
    notes: Vec<String>,
    bonds: Option<Missing>,
    interlocks: Vec<(ComponentId, Missing)>,
    neutrals: Vec<(ComponentId, Missing)>,
}

impl<'a> Draft<'a> {
    pub(super) fn new(survey: &'a Survey<'a>, sources: &[&'a Source], building: bool, rests_off: bool) -> Self {
        let mut draft = Self {
            survey,
            nodes: Nodes { site: survey.site },
            sources: sources.to_vec(),
            rests_off,
            builder: Network::builder(),
            positions: Vec::new(),
            owners: Vec::new(),
            locked: Vec::new(),
            touched: BTreeSet::new(),
            questions: Vec::new(),
            notes: Vec::new(),
            bonds: None,
            interlocks: Vec::new(),
            neutrals: Vec::new(),
        };
        let site = survey.site;
        if building {
            draft.utility();
        }
        for component in site.components() {
            let source = site.source_of(component.id());
            let mine = source.map_or(building, |own| sources.iter().any(|other| other.id() == own.id()));
            if mine {
                draft.component(component);
            }
        }
        draft.bonds();
        draft
    }

    pub(super) fn finish(self) -> Result<Arrangement, Unmapped> {
        let site = self.survey.site;
        let network = self.builder.build()?;
        let positions: Vec<(&str, Position)> =
            self.positions.iter().map(|(name, position)| (name.as_str(), *position)).collect();
        let mut normal = network.state(&positions)?;
        for device in self.locked.iter().filter_map(|name| network.find(name)) {
            normal = normal.with_lock(device);
        }
        let mut feeding = Vec::new();
        for source in &self.sources {
            let mut loads = Vec::new();
            for load in site.loads_below(source.id()).filter(|load| site_loads::runs(self.survey, load)) {
                let name = site_loads::name(&site_loads::together(self.survey, load));
                loads.extend(network.find(&name).filter(|device| !loads.contains(device)));
            }
            let building = premises::building_sources(self.survey).any(|other| other.id() == source.id());
            feeding.extend(network.find(&source.name).map(|source| Feeding { source, loads, building }));
        }
        Ok(Arrangement {
            network,
            normal,
            feeding,
            questions: self.questions,
            notes: self.notes,
            owners: self.owners,
            bonds: self.bonds,
            interlocks: self.interlocks,
            neutrals: self.neutrals,
        })
    }

    fn build(&mut self, name: &str, owner: ComponentId, position: Position, add: impl FnOnce(Builder) -> Builder) {
        self.builder = add(std::mem::take(&mut self.builder));
        self.positions.push((name.to_owned(), position));
        self.owners.push(owner);
    }

    fn touch(&mut self, nodes: &[&str]) {
        self.touched.extend(nodes.iter().map(|node| (*node).to_owned()));
    }

    fn ask(&mut self, subject: ComponentId, field: &'static str, fact: &'static str, decides: Invariant) {
        self.questions.push(Open { subject, field, fact, decides });
    }

    /// A breaker; fuses are a breaker that nobody moves.
    fn breaker(
        &mut self,
        name: &str,
        owner: ComponentId,
        device: Option<&OvercurrentDevice>,
        between: (&str, &str),
        position: Position,
    ) {
        let fuse = device.and_then(|device| device.kind) == Some(DeviceKind::Fuse);
        let position = if fuse { Position::Closed } else { position };
        self.build(name, owner, position, |builder| builder.breaker(name, between.0, between.1));
        self.touch(&[between.0, between.1]);
        if fuse {
            self.locked.push(name.to_owned());
            self.notes.push(format!("`{name}` is a fuse: it protects, and no step moves it"));
        } else if device.is_some_and(|device| device.kind.is_none()) {
            self.notes.push(format!("`{name}` is taken for a breaker: whether it is a fuse is not stated"));
        }
    }

    fn joint(&mut self, name: &str, owner: ComponentId, (male, female): (&str, &str), position: Position) {
        self.build(name, owner, position, |builder| builder.joint(name, male, female));
        self.touch(&[male, female]);
    }

    fn utility(&mut self) {
        let stated = self.survey.site.utility().map(|utility| utility.connected);
        if stated.is_none() {
            let fact = "whether a utility service is connected,";
            self.ask(ComponentId::SITE, "utility", fact, Invariant::UtilitySideUntouched);
        }
        let needed = self.survey.site.panels().iter().any(|panel| self.normal_node(panel).as_deref() == Some(UTILITY));
        if stated != Some(false) && needed {
            self.build(UTILITY, ComponentId::SITE, Position::Live, |builder| builder.utility(UTILITY, UTILITY));
        }
    }

    fn component(&mut self, component: Component<'a>) {
        if premises::ends_nowhere(self.survey, component) {
            self.ask(component.id(), "name", premises::WHAT_IT_FEEDS, Invariant::SourcesNeverJoined);
        }
        match component {
            Component::Source(source) => self.source(source),
            Component::Outlet(outlet) => self.outlet(outlet),
            Component::Cord(cord) => self.cord(cord),
            Component::Inlet(inlet) => self.inlet(inlet),
            Component::Feeder(feeder) => self.feeder(feeder),
            Component::Transfer(transfer) => self.transfer(transfer),
            Component::Panel(panel) => self.panel(panel),
            Component::Circuit(circuit) => self.circuit(circuit),
            Component::Load(load) => self.load(load),
            _ => {}
        }
    }

    fn source(&mut self, source: &Source) {
        let facts = site_facts::of_source(self.survey, source);
        let name = source.name.as_str();
        self.build(name, source.id(), Position::Stopped, |builder| builder.source(name, name, facts));
    }

    fn outlet(&mut self, outlet: &Outlet) {
        if outlet.overcurrent_device.is_none() && outlet.overload_protection.is_none() {
            let fact = "the rating of the device that protects it";
            self.ask(outlet.id(), "overcurrent_device", fact, Invariant::ProtectedPath);
        }
        if outlet_protected(outlet) {
            let source = self.nodes.above(outlet.id());
            let name = format!("breaker of {}", outlet.name);
            self.breaker(&name, outlet.id(), None, (&source, &outlet.name), Position::Open);
        }
    }

    fn cord(&mut self, cord: &Cord) {
        let above = self.nodes.above(cord.id());
        // The cords of a building's circuits are in use; those on the way from a source are put away.
        let position = if self.nodes.on_circuit(cord.id()) { Position::Mated } else { Position::Parted };
        if cord.supply_end.contacts().is_some() {
            let own = cord.name.as_str();
            let ends = if cord.supply_end.is_male() { (own, above.as_str()) } else { (above.as_str(), own) };
            self.joint(&format!("plug of {own}"), cord.id(), ends, position);
        }
        if cord.load_end.is_male() {
            let inner = self.nodes.inside(cord);
            let end = self.nodes.of(cord.into());
            self.joint(&format!("second plug of {}", cord.name), cord.id(), (&inner, &end), position);
        }
    }

    fn inlet(&mut self, inlet: &Inlet) {
        let above = self.nodes.above(inlet.id());
        if above != self.nodes.of(inlet.into())
            && let Some(Component::Cord(cord)) = self.survey.site.from(inlet.id())
        {
            let name = format!("connector of {}", cord.name);
            self.joint(&name, inlet.id(), (&inlet.name, &above), Position::Parted);
        }
    }

    fn feeder(&mut self, feeder: &Feeder) {
        if let Some(device) = &feeder.overcurrent_device {
            let above = self.nodes.above(feeder.id());
            let name = format!("breaker of {}", feeder.name);
            self.breaker(&name, feeder.id(), Some(device), (&above, &feeder.name), Position::Closed);
        }
    }

    fn transfer(&mut self, transfer: &Transfer) {
        if transfer.kind == TransferKind::Interlock {
            return;
        }
        let site = self.survey.site;
        let mut normal: Vec<Option<String>> = Vec::new();
        for panel in site.panels() {
            if matches!(self.nodes.entry(panel), Entry::Switched(found) if found.id() == transfer.id()) {
                normal.push(self.normal_node(panel));
            }
        }
        if normal.windows(2).any(|pair| pair.first() != pair.last()) {
            let words = "supplies panels of different normal supplies: only the first is laid out";
            self.notes.push(format!("`{}` {words}", transfer.name));
        }
        let normal = normal.first().cloned().flatten().unwrap_or_else(|| format!("supply of {}", transfer.name));
        let utility_side = if transfer.normal_device.is_some() {
            let side = format!("normal side of {}", transfer.name);
            let name = format!("normal supply breaker of {}", transfer.name);
            self.breaker(&name, transfer.id(), None, (&normal, &side), Position::Closed);
            side
        } else {
            normal
        };
        let source_side = self.nodes.above(transfer.id());
        let mut facts = TransferFacts::resting_off(self.rests_off);
        facts.breaks_before_it_makes = match (transfer.joins_two_supplies, transfer.transition) {
            (Some(true), _) | (_, Some(Transition::Closed)) => Some(false),
            (_, Some(Transition::Open)) => Some(true),
            (_, None) => None,
        };
        let name = transfer.name.as_str();
        self.build(name, transfer.id(), Position::Utility, |builder| {
            builder.transfer(name, name, &utility_side, &source_side, facts)
        });
        self.touch(&[name, &utility_side, &source_side]);
        if matches!(transfer.kind, TransferKind::Automatic | TransferKind::Interactive) {
            self.notes.push(format!("`{name}` works by itself: the steps are those by hand"));
        }
        let approved = premises::approved_parallel(transfer) == Some(true) && transfer.parallel == Some(true);
        if let (true, Some(source), true) =
            (approved, site.source_of(transfer.id()), self.positions.iter().any(|(name, _)| name == UTILITY))
        {
            self.builder = std::mem::take(&mut self.builder).approved_in_parallel(UTILITY, &source.name);
        }
    }

    /// The node of what supplies a panel when no source runs; `None` where nothing does. Where nobody says, the utility
    /// is feared.
    fn normal_node(&self, panel: &Panel) -> Option<String> {
        let absent = self.survey.site.utility().map(|utility| utility.connected) == Some(false);
        match self.survey.site.normal_supply(panel) {
            Some(NormalSupply::Panel(next)) => Some(self.nodes.of(next.into())),
            Some(NormalSupply::Utility) | None if absent => None,
            Some(NormalSupply::Utility) | None => Some(UTILITY.to_owned()),
        }
    }

    fn panel(&mut self, panel: &Panel) {
        let entry = self.nodes.entry(panel);
        let (id, bus) = (panel.id(), self.nodes.of(panel.into()));
        let main = format!("main breaker of {}", panel.name);
        if self.survey.site.normal_supply(panel).is_none() && !matches!(entry, Entry::Panel) {
            let fact = "what supplies it normally, and whether a utility does,";
            self.ask(id, "normal_supply", fact, Invariant::SourcesNeverJoined);
        }
        let on_utility = self.survey.site.normal_supply(panel) == Some(NormalSupply::Utility);
        if matches!(entry, Entry::Panel) && on_utility {
            let fact = "which of the utility and the panel before it supplies it normally,";
            self.ask(id, "normal_supply", fact, Invariant::SourcesNeverJoined);
        }
        if panel.other_supplies != Some(false) {
            let words = "further supplies, if it has any, are not described: the order says nothing of them";
            self.notes.push(format!("`{}`: {words}", panel.name));
        }
        match entry {
            Entry::Panel | Entry::Switched(_) => {
                let above = self.nodes.above(id);
                if panel.main_breaker.is_some() {
                    self.breaker(&main, id, None, (&above, &bus), Position::Closed);
                }
            }
            Entry::Backfed(_) | Entry::Normal => {
                let normal = self.normal_node(panel);
                if let Some(normal) = &normal {
                    self.breaker(&main, id, None, (normal, &bus), Position::Closed);
                    if panel.main_breaker.is_none() {
                        self.notes
                            .push(format!("`{main}` is not described; that there is one is taken from the panel"));
                    }
                }
                if let Entry::Backfed(interlock) = entry {
                    self.backfed(panel, interlock, &bus, normal.is_some());
                }
            }
        }
    }

    fn backfed(&mut self, panel: &Panel, interlock: Option<&Transfer>, bus: &str, has_main: bool) {
        let above = self.nodes.above(panel.id());
        let main = format!("main breaker of {}", panel.name);
        let name = format!("supply breaker of {}", panel.name);
        self.breaker(&name, panel.id(), panel.supply_breaker.as_ref(), (&above, bus), Position::Open);
        if panel.supply_breaker.is_none() {
            self.notes.push(format!("`{name}` is not described; that there is one is taken from the panel"));
        }
        let Some(interlock) = interlock.filter(|_| has_main) else { return };
        let carried_by = match (interlock.joins_two_supplies, interlock.mounting) {
            // What lets both close is no interlock.
            (Some(true), _) => return,
            (Some(false), Some(InterlockMounting::Breakers)) => Interlock::Devices,
            (Some(false), Some(InterlockMounting::Cover)) => {
                let cover = format!("cover of {}", panel.name);
                self.build(&cover, panel.id(), Position::On, |builder| builder.cover(&cover));
                Interlock::Cover(cover)
            }
            (Some(false), None) => {
                let missing = (interlock.id(), "mounting", "what it is fastened to");
                self.interlocks.push((panel.id(), missing));
                Interlock::NotDescribed
            }
            (None, _) => {
                let fact = "whether any position of its handles joins two of its supplies";
                self.interlocks.push((panel.id(), (interlock.id(), "joins_two_supplies", fact)));
                Interlock::NotDescribed
            }
        };
        self.builder = std::mem::take(&mut self.builder).interlock(main.as_str(), name.as_str(), carried_by);
    }

    fn circuit(&mut self, circuit: &Circuit) {
        let (id, above) = (circuit.id(), self.nodes.above(circuit.id()));
        let name = format!("breaker of {}", circuit.name);
        if circuit.overcurrent_device.is_none() {
            self.ask(id, "overcurrent_device", "the device that protects it", Invariant::ProtectedPath);
        }
        self.breaker(&name, id, circuit.overcurrent_device.as_ref(), (&above, &circuit.name), Position::Closed);
        if self.survey.site.loads_below(id).next().is_none() {
            self.notes.push(format!("`{name}` leads to no load that is described; keep it open on a source"));
        }
    }

    fn load(&mut self, load: &Load) {
        let together = site_loads::together(self.survey, load);
        if together.first().is_none_or(|first| first.id() != load.id()) {
            return;
        }
        let (id, name) = (load.id(), site_loads::name(&together));
        let circuit = self.nodes.circuit_of(id);
        let shared = circuit.map_or(Some(false), |circuit| circuit.multiwire);
        if let (Some(circuit), None) = (circuit, shared) {
            let fact = "whether it shares its neutral with another leg";
            self.neutrals.push((id, (circuit.id(), "multiwire", fact)));
        }
        let mut facts = site_loads::facts(self.survey, &together, shared);
        facts.kept_off = circuit.and_then(|circuit| circuit.off_on_source) == Some(true);
        let (node, above) = (self.nodes.of(load.into()), self.nodes.above(id));
        if node != above {
            self.joint(&format!("plug of {name}"), id, (&node, &above), Position::Parted);
        }
        self.touch(&[&node]);
        self.build(&name, id, Position::On, |builder| builder.load(&name, &node, facts));
    }

    /// The bonds other than a source's own, counted by the rule for them.
    fn bonds(&mut self) {
        let mut others: Option<Option<u8>> = None;
        let mut without_neutral = false;
        let sources = self.sources.clone();
        for source in &sources {
            if source.system.line_to_neutral().is_none() {
                without_neutral = true;
                continue;
            }
            let counted = bonds::of_source(self.survey, source);
            let own = u16::from(source.neutral == Some(crate::site::SourceNeutral::Bonded));
            let unsure = u16::from(source.neutral.is_none());
            let (least, greatest) =
                (counted.least - own.min(counted.least), counted.greatest - (own + unsure).min(counted.greatest));
            let decided = least == greatest || least >= 2;
            let count = if decided { u8::try_from(least).ok() } else { None };
            if count.is_none() {
                self.bonds = self.bonds.or(counted.missing);
            }
            if others.is_some_and(|known| known != count) {
                let words = "their neutrals join different bonds: describe each on a site of its own";
                self.notes.push(format!("several sources: {words}"));
                self.bonds = self.bonds.or(Some((source.id(), "neutral", "which bonds its neutral joins")));
                others = Some(None);
            } else {
                others = Some(count);
            }
        }
        self.builder = std::mem::take(&mut self.builder).service_bonded(false);
        if let Some(Some(count)) = others {
            self.builder = std::mem::take(&mut self.builder).other_bonds(count);
        }
        if without_neutral {
            self.notes.push("a source without a neutral has none to bond: its bonds are not counted".to_owned());
            return;
        }
        let panels: Vec<String> = self.survey.site.panels().iter().map(|panel| self.nodes.of(panel.into())).collect();
        for node in panels {
            if self.touched.contains(&node) {
                self.builder = std::mem::take(&mut self.builder).premises(&node);
            }
        }
    }
}

/// The node and the device of the utility.
const UTILITY: &str = "utility";
