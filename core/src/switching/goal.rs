//! Where an order of switching is to lead, and the fewest steps that can still be needed from a state.

use super::electrical::Electrical;
use super::network::{DeviceId, Kind, Network, NodeId, Supply};
use super::state::State;
use crate::quantity::Quantity;

/// Where an order of switching is to lead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Goal {
    /// The source feeds these loads, and no others.
    Fed {
        /// The source.
        source: DeviceId,
        /// The loads.
        loads: Vec<DeviceId>,
    },
    /// Every device but the utility stands as in this state.
    Restored(State),
}

/// A goal as bits, with what every state that reaches it has in common.
#[derive(Clone, Debug)]
pub(super) struct Target {
    /// The place of the source among the supplies, and the bits of the chosen loads; none for a restored state.
    fed: Option<(usize, u128)>,
    /// Bits that are set in every state that reaches the goal.
    pub(super) on: u128,
    /// Bits that are clear in every such state, none of a transfer switch.
    pub(super) off: u128,
    /// The bits of one device each: where they must be exactly as in the restored state.
    restored: Option<(u128, Vec<u128>)>,
    /// What the source carries while something starts, in counts of the smallest unit.
    surge: Option<i128>,
    /// The branch of one load: a contact that leads to nothing else, and the load's bit.
    branches: Vec<Branch>,
}

/// A load alone behind one contact.
#[derive(Clone, Copy, Debug)]
pub(super) struct Branch {
    pub(super) device: DeviceId,
    pub(super) contact: u128,
    /// The node on the far side of the contact.
    root: NodeId,
    pub(super) load: u128,
    pub(super) load_device: DeviceId,
    /// All that the load draws while it starts; nothing where that is not known, since a bound may be too low.
    pub(super) starting: i128,
}

impl Target {
    pub(super) fn new(network: &Network, start: &State, goal: &Goal) -> Option<Self> {
        let branches = branches(network, start);
        match goal {
            Goal::Restored(state) => {
                let devices = network.devices.iter().filter(|device| !matches!(device.kind, Kind::Utility));
                let bits: Vec<u128> = devices.map(|device| device.bit | device.source_bit).collect();
                let all = bits.iter().fold(0, |all, bits| all | bits);
                let (on, off) = (state.set & all, !state.set & all);
                Some(Self { fed: None, on, off, restored: Some((state.set, bits)), surge: None, branches })
            }
            Goal::Fed { source, loads } => {
                let (place, supply) = network.supply_of(*source)?;
                supply.source?;
                let mut chosen = 0;
                for load in loads {
                    chosen |= network.loads.iter().find(|found| found.device == *load)?.bit;
                }
                let on = needed(network, supply, chosen, loads);
                let mut off = ruled_out(network, on);
                let fed = Electrical::of(network, &State { set: on, locked: 0, tested: 0, hot: 0 });
                for branch in &branches {
                    if chosen & branch.load == 0 && start.has(branch.load) && fed.joins(place, branch.root) {
                        off |= branch.contact;
                    }
                }
                let surge = supply.source.and_then(|facts| facts.surge).map(Quantity::count);
                Some(Self { fed: Some((place, chosen)), on, off: off & !on, restored: None, surge, branches })
            }
        }
    }

    pub(super) fn branches(&self) -> &[Branch] {
        &self.branches
    }

    /// Whether some other branch on the same node, wanted like this one and still closed, starts more: of those that
    /// must be opened for a while, the largest come first.
    pub(super) fn opens_later(&self, state: &State, branch: &Branch) -> bool {
        self.fed.is_some()
            && self.on & branch.contact != 0
            && self.branches.iter().any(|other| {
                let larger = (other.starting, std::cmp::Reverse(other.device));
                self.on & other.contact != 0
                    && other.root == branch.root
                    && state.has(other.contact)
                    && larger > (branch.starting, std::cmp::Reverse(branch.device))
            })
    }

    pub(super) fn is_reached(&self, network: &Network, state: &State) -> bool {
        match (&self.restored, self.fed) {
            (Some((set, bits)), _) => bits.iter().all(|bits| (state.set ^ set) & bits == 0),
            (None, Some((place, chosen))) => {
                let electrical = Electrical::of(network, state);
                network.loads.iter().all(|load| electrical.feeds(place, state, load) == (chosen & load.bit != 0))
            }
            (None, None) => false,
        }
    }

    /// A bound that no order beats: one operation changes one device.
    pub(super) fn least_steps(&self, network: &Network, state: &State) -> u32 {
        match &self.restored {
            Some((set, bits)) => {
                let differ = bits.iter().filter(|bits| (state.set ^ set) & **bits != 0).count();
                u32::try_from(differ).unwrap_or(u32::MAX)
            }
            None => {
                let single = (self.on & !state.set).count_ones() + (self.off & state.set).count_ones();
                single + 2 * self.too_many_starts(network, state)
            }
        }
    }

    /// The branches that must be opened, and closed again later, because the source cannot start them all at once:
    /// what hangs closed on one node starts together once the source comes to that node.
    pub(super) fn too_many_starts(&self, network: &Network, state: &State) -> u32 {
        let (Some(surge), Some((place, _))) = (self.surge, self.fed) else { return 0 };
        let wanted =
            |branch: &&Branch| self.on & branch.contact != 0 && state.has(branch.contact) && state.has(branch.load);
        if self.branches.iter().filter(wanted).map(|branch| branch.starting).sum::<i128>() <= surge {
            return 0;
        }
        let electrical = Electrical::of(network, state);
        let mut many = 0;
        for root in network.node_ids() {
            if electrical.produces(place) && electrical.joins(place, root) {
                continue;
            }
            let here = self.branches.iter().filter(wanted).filter(|branch| branch.root == root);
            let mut starts: Vec<i128> = here.map(|branch| branch.starting).collect();
            starts.sort_unstable();
            let mut sum: i128 = starts.iter().sum();
            while sum > surge
                && let Some(most) = starts.pop()
            {
                sum -= most;
                many += 1;
            }
        }
        many
    }
}

/// The source, the chosen loads, and every contact without which one of them cannot be reached.
fn needed(network: &Network, supply: &Supply, chosen: u128, loads: &[DeviceId]) -> u128 {
    let mut on = supply.bit | chosen;
    let all = network.edges.iter().fold(0, |all, edge| all | edge.bit);
    for edge in &network.edges {
        let without = State { set: all & !edge.bit, locked: 0, tested: 0, hot: 0 };
        let electrical = Electrical::of(network, &without);
        let Some((place, _)) = network.supply_of(supply.device) else { continue };
        let lost = |load: &&super::network::LoadAt| loads.contains(&load.device) && !electrical.joins(place, load.node);
        if network.loads.iter().any(|load| lost(&load)) {
            on |= edge.bit;
        }
    }
    on
}

/// The contacts that would join two supplies once everything needed is closed. A transfer switch is left out: the
/// operation that sets one side clears the other.
fn ruled_out(network: &Network, on: u128) -> u128 {
    let mut off = 0;
    for edge in &network.edges {
        let single = network.device(edge.device).is_some_and(|device| !matches!(device.kind, Kind::Transfer(_)));
        let state = State { set: on | edge.bit, locked: 0, tested: 0, hot: 0 };
        let electrical = Electrical::of(network, &state);
        if single && super::judge::joined_pairs(network, &electrical).next().is_some() {
            off |= edge.bit;
        }
    }
    off
}

/// The loads that stand alone behind one contact that nothing holds.
fn branches(network: &Network, start: &State) -> Vec<Branch> {
    let branch = |load: &super::network::LoadAt| {
        let mut contacts = network.edges.iter().filter(|edge| edge.from == load.node || edge.to == load.node);
        let (contact, None) = (contacts.next()?, contacts.next()) else { return None };
        let kind = network.device(contact.device)?.kind;
        let held = network.exclusions.iter().any(|pair| pair.first.1 == contact.bit || pair.second.1 == contact.bit);
        let alone = network.loads.iter().filter(|other| other.node == load.node).count() == 1
            && network.supplies.iter().all(|supply| supply.terminal != load.node);
        let plain = matches!(kind, Kind::Breaker | Kind::IsolatingSwitch) && !held && !start.is_locked(contact.device);
        (alone && plain).then_some(Branch {
            device: contact.device,
            contact: contact.bit,
            root: if contact.from == load.node { contact.to } else { contact.from },
            load: load.bit,
            load_device: load.device,
            starting: load.facts.starting.map_or(0, Quantity::count),
        })
    };
    network.loads.iter().filter_map(branch).collect()
}
