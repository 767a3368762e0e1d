//! The switches that can matter to an arrangement, and the moves between their positions.
//!
//! Whether a supply produces and whether a load draws hinders no move, so neither is a switch here: a supply is
//! taken to produce wherever it can. A dead end (a branch breaker with a load behind it) joins nothing with
//! anything: it is folded into the node that feeds it, and closed last where somebody wants to see the hazard.

use super::device::Throw;
use super::lanes::Move;
use super::network::{Condition, DeviceId, Kind, Network, NodeId, Undescribed};
use super::operation::Operation;
use super::state::State;

/// What is taken to work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Regime {
    pub(super) undescribed: Undescribed,
    pub(super) covers_on: bool,
}

#[derive(Clone, Copy, Debug)]
pub(super) struct Wire {
    pub(super) from: u8,
    pub(super) to: u8,
    /// The switch that must be closed; none for a contact that is locked closed.
    pub(super) switch: Option<usize>,
}

/// A node, or the node that it was folded into, with what must be closed between the two.
#[derive(Clone, Debug)]
pub(super) struct Folded {
    pub(super) node: u8,
    pub(super) closing: Vec<Operation>,
}

#[derive(Clone, Debug)]
pub(super) struct Board {
    pub(super) switches: usize,
    pub(super) wires: Vec<Wire>,
    pub(super) moves: Vec<(Move, Operation)>,
    pub(super) start: u32,
    /// The bit in a [`State`] of each switch.
    pub(super) bits: Vec<u128>,
    /// By node: where it is found on the board.
    pub(super) folded: Vec<Folded>,
}

/// A contact while the board is laid out.
#[derive(Clone, Copy)]
struct Contact {
    device: DeviceId,
    from: NodeId,
    to: NodeId,
    bit: u128,
    locked: bool,
    /// May be folded away when it leads nowhere.
    loose: bool,
}

impl Board {
    /// Lays out the board; with `fold` false every contact stays a switch.
    pub(super) fn new(network: &Network, start: &State, regime: Regime, fold: bool) -> Self {
        let mut contacts: Vec<Contact> = network
            .edges
            .iter()
            .map(|edge| Contact {
                device: edge.device,
                from: edge.from,
                to: edge.to,
                bit: edge.bit,
                locked: start.is_locked(edge.device),
                loose: fold && !is_held(network, edge.bit, edge.device),
            })
            .filter(|contact| !contact.locked || start.has(contact.bit))
            .collect();
        let mut folded: Vec<Folded> =
            network.node_ids().map(|node| Folded { node: node.0, closing: Vec::new() }).collect();
        while let Some((index, leaf)) = contacts
            .iter()
            .enumerate()
            .find_map(|(index, contact)| Some((index, dead_end(network, &contacts, contact)?)))
        {
            let contact = contacts.remove(index);
            fold_away(network, start, &contact, leaf, &mut folded);
        }
        Self::wire(network, start, regime, &contacts, folded)
    }

    fn wire(network: &Network, start: &State, regime: Regime, contacts: &[Contact], folded: Vec<Folded>) -> Self {
        let bits: Vec<u128> = contacts.iter().filter(|contact| !contact.locked).map(|contact| contact.bit).collect();
        let switch_of = |bit: u128| bits.iter().position(|other| *other == bit);
        let wires = contacts
            .iter()
            .map(|contact| Wire { from: contact.from.0, to: contact.to.0, switch: switch_of(contact.bit) })
            .collect();
        let mut board = Self { switches: bits.len(), wires, moves: Vec::new(), start: 0, bits: bits.clone(), folded };
        for (switch, bit) in bits.iter().enumerate() {
            if start.has(*bit) {
                board.start |= mask(switch);
            }
        }
        for (index, device) in network.devices.iter().enumerate() {
            let device_id = super::network::id(index);
            let (Some(first), second) = (switch_of(device.bit), switch_of(device.source_bit)) else { continue };
            match (device.kind, second) {
                (Kind::Transfer(facts), Some(second)) => {
                    let breaks = facts.breaks_before_it_makes.unwrap_or(regime.undescribed == Undescribed::Works);
                    board.throw(network, start, regime, device_id, (first, second), facts.rests_off, breaks);
                }
                (Kind::Breaker | Kind::IsolatingSwitch | Kind::Joint, _) => {
                    let (close, open) = closing(device.kind, device_id);
                    let held = board.held_by(network, start, regime, device.bit);
                    if let Some(held) = held {
                        board.add(0, mask(first) | held, mask(first), close);
                    }
                    board.add(mask(first), 0, mask(first), open);
                }
                _ => {}
            }
        }
        board
    }

    fn add(&mut self, set: u32, clear: u32, toggle: u32, operation: Operation) {
        self.moves.push((Move { set, clear, toggle }, operation));
    }

    /// The moves of a transfer switch; a momentary position counts as a position.
    #[expect(clippy::too_many_arguments, reason = "what a transfer switch is")]
    fn throw(
        &mut self,
        network: &Network,
        start: &State,
        regime: Regime,
        device: DeviceId,
        (utility, source): (usize, usize),
        rests_off: bool,
        breaks: bool,
    ) {
        let sides = [(utility, source, Throw::Utility), (source, utility, Throw::Source)];
        for (to, from, throw) in sides {
            let (to, from) = (mask(to), mask(from));
            if rests_off {
                self.add(from, to, from, Operation::Set(device, Throw::Off));
            }
            let bit = network.side_bit(device, Some(throw));
            let Some(held) = self.held_by(network, start, regime, bit) else { continue };
            // A switch stands between its sides, at rest or for a moment, before it takes the other side.
            if rests_off {
                self.add(0, to | from | held, to, Operation::Set(device, throw));
            }
            if !breaks {
                self.add(from, to | held, to, Operation::Set(device, throw));
                self.add(to | from, 0, from, Operation::Set(device, throw));
            } else {
                self.add(from, to | held, to | from, Operation::Set(device, throw));
            }
        }
    }

    /// The switches that must be open before the contact can close; `None` where a locked one holds it for good.
    fn held_by(&self, network: &Network, start: &State, regime: Regime, bit: u128) -> Option<u32> {
        let mut held = 0;
        for pair in &network.exclusions {
            let works = match pair.condition {
                Condition::Always => true,
                Condition::CoverOn(_) => regime.covers_on,
                Condition::NotDescribed => regime.undescribed == Undescribed::Works,
            };
            let other = match (pair.first.1 == bit, pair.second.1 == bit) {
                (true, _) => pair.second,
                (_, true) => pair.first,
                _ => continue,
            };
            if !works {
                continue;
            }
            match self.bits.iter().position(|found| *found == other.1) {
                Some(switch) => held |= mask(switch),
                None if start.has(other.1) => return None,
                None => {}
            }
        }
        Some(held)
    }
}

pub(super) fn mask(switch: usize) -> u32 {
    u32::try_from(switch).ok().and_then(|switch| 1u32.checked_shl(switch)).unwrap_or(0)
}

fn closing(kind: Kind, device: DeviceId) -> (Operation, Operation) {
    if kind == Kind::Joint {
        (Operation::Mate(device), Operation::Part(device))
    } else {
        (Operation::Close(device), Operation::Open(device))
    }
}

/// Whether something else decides if the contact can close.
fn is_held(network: &Network, bit: u128, device: DeviceId) -> bool {
    network.exclusions.iter().any(|pair| pair.first.1 == bit || pair.second.1 == bit)
        || network.device(device).is_some_and(|found| matches!(found.kind, Kind::Transfer(_)))
}

/// The end of a contact that leads nowhere: no supply, no other contact, and no blades that could be live.
fn dead_end(network: &Network, contacts: &[Contact], contact: &Contact) -> Option<NodeId> {
    if !contact.loose {
        return None;
    }
    let joint = network.joints.iter().find(|joint| joint.device == contact.device);
    [contact.from, contact.to].into_iter().find(|end| {
        let alone = contacts.iter().filter(|other| other.from == *end || other.to == *end).count() == 1;
        let supplied = network.supplies.iter().any(|supply| supply.terminal == *end);
        alone && !supplied && joint.is_none_or(|joint| joint.male == *end)
    })
}

fn fold_away(network: &Network, start: &State, contact: &Contact, leaf: NodeId, folded: &mut [Folded]) {
    let root = if contact.from == leaf { contact.to } else { contact.from };
    let kind = network.device(contact.device).map_or(Kind::Breaker, |found| found.kind);
    for place in folded.iter_mut().filter(|place| place.node == leaf.0) {
        place.node = root.0;
        if !start.has(contact.bit) {
            place.closing.push(closing(kind, contact.device).0);
        }
    }
}
