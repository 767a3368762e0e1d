//! What an exploration looks out for, and the flood that finds it in sixty-four states at a time.

use super::board::{Board, Folded, Wire};
use super::builder::supply_mask;
use super::invariant::{Break, Detail, Invariant};
use super::judge;
use super::network::{Network, NodeId, Supply};
use super::operation::Operation;
use super::state::State;

/// A break that is there wherever a supply is joined to a node (and a joint is parted).
#[derive(Clone, Debug)]
pub(super) struct Watch {
    pub(super) supply: usize,
    pub(super) node: u8,
    pub(super) parted: Option<usize>,
    pub(super) found: Break,
    /// What must be closed besides, from the far end.
    pub(super) closing: Vec<Operation>,
}

/// From one terminal along closed wires.
#[derive(Clone, Debug)]
pub(super) struct Flood {
    terminal: usize,
    /// Nearest first, so that one pass usually reaches everything.
    wires: Vec<Wire>,
    nodes: Vec<u64>,
}

impl Flood {
    pub(super) fn new(terminal: NodeId, all: &[Wire], nodes: usize) -> Self {
        let mut left: Vec<Wire> = all.to_vec();
        let mut wires = Vec::with_capacity(left.len());
        let mut near = vec![terminal.0];
        while let Some(index) = left.iter().position(|wire| near.contains(&wire.from) || near.contains(&wire.to)) {
            let wire = left.remove(index);
            near.extend([wire.from, wire.to]);
            wires.push(wire);
        }
        Self { terminal: usize::from(terminal.0), wires, nodes: vec![0; nodes] }
    }

    /// Whether any position joins the node.
    fn can_reach(&self, node: u8) -> bool {
        self.terminal == usize::from(node) || self.wires.iter().any(|wire| wire.from == node || wire.to == node)
    }

    /// Fills the nodes; `closed` says in which of the sixty-four states a switch is closed.
    pub(super) fn fill(&mut self, closed: impl Fn(usize) -> u64) {
        self.nodes.fill(0);
        if let Some(terminal) = self.nodes.get_mut(self.terminal) {
            *terminal = u64::MAX;
        }
        loop {
            let mut grown = false;
            for wire in &self.wires {
                let (from, to) = (usize::from(wire.from), usize::from(wire.to));
                let (one, other) = (self.at(wire.from), self.at(wire.to));
                let both = (one | other) & wire.switch.map_or(u64::MAX, &closed);
                if both & !(one & other) != 0 {
                    grown = true;
                    for end in [from, to] {
                        if let Some(place) = self.nodes.get_mut(end) {
                            *place |= both;
                        }
                    }
                }
            }
            if !grown {
                return;
            }
        }
    }

    /// The states in which the node is joined.
    pub(super) fn at(&self, node: u8) -> u64 {
        self.nodes.get(usize::from(node)).copied().unwrap_or(0)
    }
}

impl Network {
    /// Everything to look out for on a board.
    pub(super) fn watches(&self, start: &State, board: &Board, floods: &[Flood]) -> Vec<Watch> {
        let mut list = List { board, floods, watches: Vec::new() };
        for (index, supply) in self.supplies.iter().enumerate() {
            self.watch_pairs(start, index, supply, &mut list);
            if can_produce(start, supply) {
                self.watch_blades(start, index, supply, &mut list);
                self.watch_feeding(start, index, supply, &mut list);
            }
        }
        list.watches
    }

    fn watch_pairs(&self, start: &State, index: usize, supply: &Supply, list: &mut List<'_>) {
        for (second, other) in self.supplies.iter().enumerate().skip(index + 1) {
            if supply.approved & supply_mask(second) != 0 {
                continue;
            }
            let detail = Detail::Joined { first: supply.device, second: other.device };
            list.add(index, other.terminal, None, Break { invariant: Invariant::SourcesNeverJoined, detail });
            let local = match (supply.source, other.source) {
                (None, Some(_)) => other,
                (Some(_), None) => supply,
                _ => continue,
            };
            if can_produce(start, local) {
                list.add(index, other.terminal, None, Break { invariant: Invariant::UtilitySideUntouched, detail });
            }
        }
    }

    fn watch_blades(&self, start: &State, index: usize, supply: &Supply, list: &mut List<'_>) {
        for joint in &self.joints {
            let switch = list.board.bits.iter().position(|bit| *bit == joint.bit);
            // Locked together it is never bare; folded away it has no supply but through itself.
            if switch.is_none() && (start.has(joint.bit) || !start.is_locked(joint.device)) {
                continue;
            }
            let detail = Detail::BareContact { joint: joint.device, supply: supply.device };
            list.add(index, joint.male, switch, Break { invariant: Invariant::BareContactsDead, detail });
        }
    }

    fn watch_feeding(&self, start: &State, index: usize, supply: &Supply, list: &mut List<'_>) {
        let mut bonds = Vec::new();
        judge::bonds(self, supply, &mut bonds);
        for node in self.node_ids().filter(|node| self.premises & node.mask() != 0) {
            for found in &bonds {
                list.add(index, node, None, *found);
            }
        }
        for load in &self.loads {
            if start.is_locked(load.device) && !start.has(load.bit) {
                continue;
            }
            let mut misfits = Vec::new();
            judge::supply_fits(supply, load, &mut misfits);
            for found in misfits {
                list.add(index, load.node, None, found);
            }
        }
    }
}

struct List<'a> {
    board: &'a Board,
    floods: &'a [Flood],
    watches: Vec<Watch>,
}

impl List<'_> {
    fn add(&mut self, supply: usize, node: NodeId, parted: Option<usize>, found: Break) {
        let place: Option<Folded> = self.board.folded.get(usize::from(node.0)).cloned();
        let (Some(place), Some(flood)) = (place, self.floods.get(supply)) else { return };
        if flood.can_reach(place.node) {
            self.watches.push(Watch { supply, node: place.node, parted, found, closing: place.closing });
        }
    }
}

/// The utility can always return; a source can be started unless it is locked while stopped.
fn can_produce(start: &State, supply: &Supply) -> bool {
    supply.source.is_none() || start.has(supply.bit) || !start.is_locked(supply.device)
}
