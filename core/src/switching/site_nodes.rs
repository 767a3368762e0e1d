//! The nodes of a site: which conductors are one, because no switch, no plug and no device divides them.

use crate::site::{
    Circuit, Component, ComponentId, Cord, Inlet, Load, Outlet, OverloadProtection, Panel, Site, Transfer, TransferKind,
};

/// Names nodes for the components that they begin at.
#[derive(Clone, Copy)]
pub(super) struct Nodes<'a> {
    pub(super) site: &'a Site,
}

/// How the source comes into a panel.
#[derive(Clone, Copy)]
pub(super) enum Entry<'a> {
    /// From another panel.
    Panel,
    /// Through a transfer switch, in place of the normal supply.
    Switched(&'a Transfer),
    /// Through a breaker of the panel's own, interlocked or not.
    Backfed(Option<&'a Transfer>),
    /// Not at all.
    Normal,
}

impl<'a> Nodes<'a> {
    /// The node that a component presents to what it feeds.
    pub(super) fn of(self, component: Component<'_>) -> String {
        let own = || component.name().to_owned();
        let above = || self.above(component.id());
        match component {
            Component::Source(_) | Component::Circuit(_) => own(),
            Component::Outlet(outlet) if outlet_protected(outlet) => own(),
            Component::Cord(cord) if cord.load_end.is_male() => format!("end of {}", cord.name),
            Component::Cord(cord) => self.inside(cord),
            Component::Inlet(inlet) if self.is_pushed_on(inlet) => own(),
            Component::Feeder(feeder) if feeder.overcurrent_device.is_some() => own(),
            Component::Transfer(transfer) if transfer.kind != TransferKind::Interlock => own(),
            Component::Panel(panel) => match self.entry(panel) {
                Entry::Panel | Entry::Switched(_) if panel.main_breaker.is_none() => above(),
                _ => own(),
            },
            Component::Load(load) if self.is_plugged_in(load) => own(),
            _ => above(),
        }
    }

    /// The node of what feeds a component; of one that nothing feeds, its own name.
    pub(super) fn above(self, id: ComponentId) -> String {
        match self.site.from(id) {
            Some(from) => self.of(from),
            None => self.site.component(id).map_or("", Component::name).to_owned(),
        }
    }

    /// The conductors of a cord.
    pub(super) fn inside(self, cord: &Cord) -> String {
        if cord.supply_end.contacts().is_some() { cord.name.as_str().to_owned() } else { self.above(cord.id()) }
    }

    pub(super) fn entry(self, panel: &Panel) -> Entry<'a> {
        let above = self.site.upstream(panel.id()).find_map(|component| match component {
            Component::Panel(_) => Some(Entry::Panel),
            Component::Transfer(transfer) if transfer.kind == TransferKind::Interlock => {
                Some(Entry::Backfed(Some(transfer)))
            }
            Component::Transfer(transfer) => Some(Entry::Switched(transfer)),
            _ => None,
        });
        match (above, self.site.from(panel.id())) {
            (Some(entry), _) => entry,
            (None, Some(_)) => Entry::Backfed(None),
            (None, None) => Entry::Normal,
        }
    }

    pub(super) fn circuit_of(self, id: ComponentId) -> Option<&'a Circuit> {
        self.site.upstream(id).find_map(|component| match component {
            Component::Circuit(circuit) => Some(circuit),
            _ => None,
        })
    }

    pub(super) fn on_circuit(self, id: ComponentId) -> bool {
        self.circuit_of(id).is_some()
    }

    fn is_pushed_on(self, inlet: &Inlet) -> bool {
        match self.site.from(inlet.id()) {
            Some(Component::Cord(cord)) => cord.load_end.contacts().is_some(),
            _ => true,
        }
    }

    /// What hangs on a building's circuits stays plugged in; what is plugged into a source or its cords is not yet.
    fn is_plugged_in(self, load: &Load) -> bool {
        load.plug.is_some() && !self.on_circuit(load.id())
    }
}

/// Whether a device that opens protects an outlet; one of which nobody says anything is taken to be there, and asked for.
pub(super) fn outlet_protected(outlet: &Outlet) -> bool {
    outlet.overcurrent_device.is_some() || matches!(outlet.overload_protection, None | Some(OverloadProtection::Device))
}
