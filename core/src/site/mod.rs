//! The description of an installation: what there is, what feeds what, and where each fact was written.
//!
//! A description is a TOML or JSON document. Reading it reports every problem at once, each with its place:
//!
//! ```
//! use loadworthy::site::Site;
//! let problems = Site::from_toml("site.toml", "[site]\nname = \"shed\"\ncode = \"nec-2023\"\nambient = 25\n").unwrap_err();
//! assert_eq!(
//!     problems.to_string(),
//!     "site.toml:4:11: `25` has no unit; write a temperature such as `25 °C`"
//! );
//! ```
//!
//! A fact that a document leaves out stays unknown: nothing here assumes one.

mod change;
mod component;
mod document;
mod form;
mod joining;
mod names;
mod place;
mod problem;
#[cfg(test)]
mod random;
mod read;
mod reader;
mod record;
mod records;
mod reference;
mod value;
mod words;
mod write;

pub use change::ChangeError;
pub use component::{Component, ComponentId, Kind};
pub use document::{DEEPEST, Language, MOST_BYTES, MOST_TABLES};
pub use joining::{
    BreakerMarking, Charging, Disconnect, Earthing, Electrode, ExportListing, Fastening, GroundingPath,
    InterlockMounting, KeptOff, NeutralMark, NeutralOpens, Notice, Occupancy, SinglePole,
};
pub use place::Place;
pub use problem::{Problem, Problems};
pub use reader::MOST_PROBLEMS;
pub use records::{
    Appliance, Circuit, Cord, DayPart, Document, Dwelling, Feeder, FuelUse, Inlet, Load, Losses, Outlet,
    OvercurrentDevice, Panel, Premises, Procedure, Receptacle, Source, Surroundings, Transfer, Utility, Wiring,
};
pub use reference::reference;
pub use value::{DayHour, End, Name};
pub use words::{
    Assembly, CordRoute, DemandMethod, DemandRecordLength, Fuel, LoadKind, LoadWish, OverloadProtection, PhaseSequence,
    SourceKind, SourceNeutral, Standing, Supplies, TransferKind, TransferNeutral, Transition, Waveform,
};
pub use write::WriteError;

/// A site whose description was understood: every reference in it leads somewhere, and nothing feeds itself.
///
/// Two sites are equal when their documents say the same, wherever it stands in them.
///
/// ```
/// # use loadworthy::site::Site;
/// let site = Site::from_toml("cottage.toml", include_str!("../../examples/cottage.toml"))?;
/// let cord = &site.cords()[0];
/// // What feeds it, and what it feeds.
/// assert_eq!(site.source_of(cord.id()).map(|source| source.name.as_str()), Some("generator"));
/// assert_eq!(site.loads_below(cord.id()).count(), 5);
/// // Where its size was written.
/// assert_eq!(cord.place_of("size").path(), "cord[0].size");
/// # Ok::<(), loadworthy::site::Problems>(())
/// ```
#[derive(Clone, Debug)]
pub struct Site {
    document: Document,
    /// In an order in which all that a component feeds stands right behind it.
    entries: Vec<Entry>,
}

/// What a panel is supplied by when no source runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NormalSupply<'a> {
    /// The utility.
    Utility,
    /// Another panel.
    Panel(&'a Panel),
}

#[derive(Clone, Copy, Debug)]
struct Entry {
    kind: Kind,
    /// Which of its kind; for an outlet, which of its source.
    index: u32,
    from: Option<ComponentId>,
    /// Which source is at the beginning of its path.
    source: Option<u32>,
    /// Which panel it is fed through, the nearest.
    panel: Option<u32>,
    /// Which circuit it is fed through, the nearest.
    circuit: Option<u32>,
    normal_supply: Option<Supply>,
    /// The first id behind all that it feeds.
    end: u32,
}

#[derive(Clone, Copy, Debug)]
enum Supply {
    Utility,
    Panel(ComponentId),
}

/// The parts of a component that have a size.
#[derive(Default)]
pub(crate) struct PartsMut<'a> {
    pub(crate) wiring: Option<&'a mut Wiring>,
    pub(crate) device: Option<&'a mut OvercurrentDevice>,
    pub(crate) cord: Option<&'a mut Cord>,
}

impl PartialEq for Site {
    fn eq(&self, other: &Self) -> bool {
        self.document == other.document
    }
}

impl Eq for Site {}

impl Site {
    /// Everything that the document says, record by record.
    #[must_use]
    pub const fn document(&self) -> &Document {
        &self.document
    }

    /// The site as a whole.
    #[must_use]
    pub const fn premises(&self) -> &Premises {
        &self.document.site
    }

    /// The utility service; `None` where the document does not say whether there is one.
    #[must_use]
    pub const fn utility(&self) -> Option<&Utility> {
        self.document.utility.as_ref()
    }

    /// The sources, in the order of the document.
    #[must_use]
    pub fn sources(&self) -> &[Source] {
        &self.document.sources
    }

    /// The outlets of all sources.
    pub fn outlets(&self) -> impl Iterator<Item = &Outlet> + Clone {
        self.document.sources.iter().flat_map(|source| &source.outlets)
    }

    /// The cords, in the order of the document.
    #[must_use]
    pub fn cords(&self) -> &[Cord] {
        &self.document.cords
    }

    /// The inlets, in the order of the document.
    #[must_use]
    pub fn inlets(&self) -> &[Inlet] {
        &self.document.inlets
    }

    /// The feeders, in the order of the document.
    #[must_use]
    pub fn feeders(&self) -> &[Feeder] {
        &self.document.feeders
    }

    /// The transfer equipment, in the order of the document.
    #[must_use]
    pub fn transfers(&self) -> &[Transfer] {
        &self.document.transfers
    }

    /// The panels, in the order of the document.
    #[must_use]
    pub fn panels(&self) -> &[Panel] {
        &self.document.panels
    }

    /// The circuits, in the order of the document.
    #[must_use]
    pub fn circuits(&self) -> &[Circuit] {
        &self.document.circuits
    }

    /// The receptacles, in the order of the document.
    #[must_use]
    pub fn receptacles(&self) -> &[Receptacle] {
        &self.document.receptacles
    }

    /// The loads, in the order of the document.
    #[must_use]
    pub fn loads(&self) -> &[Load] {
        &self.document.loads
    }

    /// Every component, each behind the one that feeds it.
    pub fn components(&self) -> impl DoubleEndedIterator<Item = Component<'_>> + Clone {
        self.entries.iter().filter_map(|entry| self.at(entry))
    }

    /// The component of an id; `None` for an id of another site.
    #[must_use]
    pub fn component(&self, id: ComponentId) -> Option<Component<'_>> {
        self.entry(id).and_then(|entry| self.at(entry))
    }

    /// The component that feeds this one; `None` for a source, and for a panel that no source reaches.
    #[must_use]
    pub fn from(&self, id: ComponentId) -> Option<Component<'_>> {
        self.entry(id)?.from.and_then(|from| self.component(from))
    }

    /// The components that feed this one: the nearest first, the source last.
    pub fn upstream(&self, id: ComponentId) -> impl Iterator<Item = Component<'_>> + Clone {
        self.upstream_ids(id).filter_map(|id| self.component(id))
    }

    /// The components that this one feeds directly.
    pub fn downstream(&self, id: ComponentId) -> impl Iterator<Item = Component<'_>> + Clone {
        let fed = move |entry: &&Entry| entry.from == Some(id);
        self.entries_below(id).iter().filter(fed).filter_map(|entry| self.at(entry))
    }

    /// All components that are fed through this one, each behind the one that feeds it.
    pub fn below(&self, id: ComponentId) -> impl Iterator<Item = Component<'_>> + Clone {
        self.entries_below(id).iter().filter_map(|entry| self.at(entry))
    }

    /// All loads that are fed through this component; a load itself feeds none.
    pub fn loads_below(&self, id: ComponentId) -> impl Iterator<Item = &Load> + Clone {
        let loads = self.entries_below(id).iter().filter(|entry| entry.kind == Kind::Load);
        loads.filter_map(|entry| self.document.loads.get(entry.index as usize))
    }

    /// The source at the beginning of the path to this component; a source is its own. `None` where no source reaches it.
    #[must_use]
    pub fn source_of(&self, id: ComponentId) -> Option<&Source> {
        self.document.sources.get(self.entry(id)?.source? as usize)
    }

    /// The panel that this component is fed through, the nearest; a panel is its own.
    #[must_use]
    pub fn panel_of(&self, id: ComponentId) -> Option<&Panel> {
        self.document.panels.get(self.entry(id)?.panel? as usize)
    }

    /// The circuit that this component is fed through; a circuit is its own.
    #[must_use]
    pub fn circuit_of(&self, id: ComponentId) -> Option<&Circuit> {
        self.document.circuits.get(self.entry(id)?.circuit? as usize)
    }

    /// What a panel is supplied by when no source runs; `None` where its record does not say.
    #[must_use]
    pub fn normal_supply(&self, panel: &Panel) -> Option<NormalSupply<'_>> {
        match self.entry(panel.id())?.normal_supply? {
            Supply::Utility => Some(NormalSupply::Utility),
            Supply::Panel(id) => match self.component(id)? {
                Component::Panel(panel) => Some(NormalSupply::Panel(panel)),
                _ => None,
            },
        }
    }

    /// The surroundings; `None` where the document does not describe them.
    #[must_use]
    pub const fn surroundings(&self) -> Option<&Surroundings> {
        self.document.surroundings.as_ref()
    }

    /// The dwelling as a whole; `None` where the document does not describe it.
    #[must_use]
    pub const fn dwelling(&self) -> Option<&Dwelling> {
        self.document.dwelling.as_ref()
    }

    /// The procedure; `None` where the document does not describe it.
    #[must_use]
    pub const fn procedure(&self) -> Option<&Procedure> {
        self.document.procedure.as_ref()
    }

    /// Where a field stands: of a component, or of one of the parts of a description that are none. A part that the
    /// document leaves out is asked for at the site as a whole.
    #[must_use]
    pub fn place_of(&self, id: ComponentId, field: &str) -> Option<Place> {
        if let Some(component) = self.component(id) {
            return Some(component.place_of(field));
        }
        match id {
            ComponentId::SURROUNDINGS => self.surroundings().map(|surroundings| surroundings.place_of(field)),
            ComponentId::PROCEDURE => self.procedure().map(|procedure| procedure.place_of(field)),
            ComponentId::SITE => Some(self.premises().place_of(field)),
            _ => return None,
        }
        .or_else(|| Some(self.premises().place()))
    }

    /// The parts of a component whose sizes may be changed. Names and references stay, so that the order does.
    pub(crate) fn parts_mut(&mut self, id: ComponentId) -> PartsMut<'_> {
        let Some(Entry { kind, index, .. }) = self.entry(id).copied() else { return PartsMut::default() };
        let index = index as usize;
        let document = &mut self.document;
        match kind {
            Kind::Circuit => document.circuits.get_mut(index).map_or_else(PartsMut::default, |circuit| PartsMut {
                wiring: circuit.wiring.as_mut(),
                device: circuit.overcurrent_device.as_mut(),
                cord: None,
            }),
            Kind::Feeder => document.feeders.get_mut(index).map_or_else(PartsMut::default, |feeder| PartsMut {
                wiring: feeder.wiring.as_mut(),
                device: feeder.overcurrent_device.as_mut(),
                cord: None,
            }),
            Kind::Panel => PartsMut {
                device: document.panels.get_mut(index).and_then(|panel| panel.supply_breaker.as_mut()),
                ..PartsMut::default()
            },
            Kind::Cord => PartsMut { cord: document.cords.get_mut(index), ..PartsMut::default() },
            _ => PartsMut::default(),
        }
    }

    /// The loads, whose wishes and legs a plan settles. Names and references stay, so that the order does.
    pub(crate) fn loads_mut(&mut self) -> &mut [Load] {
        &mut self.document.loads
    }

    /// The components that feed this one by their ids: the nearest first.
    pub(crate) fn upstream_ids(&self, id: ComponentId) -> impl Iterator<Item = ComponentId> + Clone {
        let above = |id: ComponentId| self.entry(id)?.from;
        std::iter::successors(above(id), move |id| above(*id))
    }

    /// Which components are fed through this one, by their numbers.
    pub(crate) fn numbers_below(&self, id: ComponentId) -> std::ops::Range<usize> {
        let end = self.entry(id).map_or(0, |entry| entry.end);
        id.index() + 1..end as usize
    }

    fn entry(&self, id: ComponentId) -> Option<&Entry> {
        self.entries.get(id.0 as usize)
    }

    fn entries_below(&self, id: ComponentId) -> &[Entry] {
        self.entries.get(self.numbers_below(id)).unwrap_or_default()
    }

    fn at(&self, entry: &Entry) -> Option<Component<'_>> {
        let document = &self.document;
        let index = entry.index as usize;
        match entry.kind {
            Kind::Source => document.sources.get(index).map(Component::Source),
            Kind::Outlet => match self.component(entry.from?)? {
                Component::Source(source) => source.outlets.get(index).map(Component::Outlet),
                _ => None,
            },
            Kind::Cord => document.cords.get(index).map(Component::Cord),
            Kind::Inlet => document.inlets.get(index).map(Component::Inlet),
            Kind::Feeder => document.feeders.get(index).map(Component::Feeder),
            Kind::Transfer => document.transfers.get(index).map(Component::Transfer),
            Kind::Panel => document.panels.get(index).map(Component::Panel),
            Kind::Circuit => document.circuits.get(index).map(Component::Circuit),
            Kind::Receptacle => document.receptacles.get(index).map(Component::Receptacle),
            Kind::Load => document.loads.get(index).map(Component::Load),
        }
    }
}
