//! What a state means: which nodes are joined to which supply, and what is live from where.

use super::network::{LoadAt, MAX_SUPPLIES, Network, NodeId};
use super::state::State;

/// The nodes that each supply is joined to, and the supplies that produce.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Electrical {
    /// By supply: the mask of nodes that a closed path joins to its terminal, whether it produces or not.
    joined: [u128; MAX_SUPPLIES],
    /// By supply: the same, without passing a breaker.
    unprotected: [u128; MAX_SUPPLIES],
    producing: u8,
}

impl Electrical {
    pub(super) fn of(network: &Network, state: &State) -> Self {
        let mut found = Self { joined: [0; MAX_SUPPLIES], unprotected: [0; MAX_SUPPLIES], producing: 0 };
        let places = found.joined.iter_mut().zip(found.unprotected.iter_mut());
        for (index, (supply, (joined, unprotected))) in network.supplies.iter().zip(places).enumerate() {
            let terminal = supply.terminal.mask();
            *joined = flood(network, state, terminal, false);
            *unprotected = flood(network, state, terminal, true);
            if state.has(supply.bit) {
                found.producing |= super::builder::supply_mask(index);
            }
        }
        found
    }

    /// The same joints, with the utility live or dead.
    pub(super) fn with_utility(mut self, network: &Network, live: bool) -> Self {
        for (index, supply) in network.supplies.iter().enumerate() {
            if supply.source.is_none() {
                let mask = super::builder::supply_mask(index);
                self.producing = if live { self.producing | mask } else { self.producing & !mask };
            }
        }
        self
    }

    pub(super) fn produces(&self, supply: usize) -> bool {
        self.producing & super::builder::supply_mask(supply) != 0
    }

    pub(super) fn joins(&self, supply: usize, node: NodeId) -> bool {
        self.joined.get(supply).is_some_and(|nodes| nodes & node.mask() != 0)
    }

    pub(super) fn reaches_any(&self, supply: usize, nodes: u128) -> bool {
        self.joined.get(supply).is_some_and(|joined| joined & nodes != 0)
    }

    pub(super) fn joins_unprotected(&self, supply: usize, node: NodeId) -> bool {
        self.unprotected.get(supply).is_some_and(|nodes| nodes & node.mask() != 0)
    }

    /// The first producing supply that makes a node live.
    pub(super) fn live_from(&self, node: NodeId) -> Option<usize> {
        (0..MAX_SUPPLIES).find(|supply| self.produces(*supply) && self.joins(*supply, node))
    }

    pub(super) fn feeds(&self, supply: usize, state: &State, load: &LoadAt) -> bool {
        state.has(load.bit) && self.produces(supply) && self.joins(supply, load.node)
    }

    pub(super) fn fed(&self, state: &State, load: &LoadAt) -> bool {
        state.has(load.bit) && self.live_from(load.node).is_some()
    }
}

/// The nodes that closed paths join to those in `nodes`.
fn flood(network: &Network, state: &State, mut nodes: u128, without_breakers: bool) -> u128 {
    loop {
        let before = nodes;
        for edge in &network.edges {
            if state.set & edge.bit != 0 && nodes & edge.ends != 0 && !(without_breakers && edge.protects) {
                nodes |= edge.ends;
            }
        }
        if nodes == before {
            return nodes;
        }
    }
}
