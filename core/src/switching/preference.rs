//! Which of two equally short orders is better: isolate first, loads last, and the largest start first.

use super::device::Throw;
use super::goal::Target;
use super::network::{DeviceId, Kind, Network};
use super::operation::Operation;
use crate::quantity::{Quantity, Watts};
use std::cmp::Reverse;
use std::collections::HashMap;

/// Lower comes first. Where two orders are equally short, this decides, so that the same network always gives the
/// same order.
pub(super) type Rank = (u8, Reverse<i128>, i16, u8);

pub(super) struct Preference<'a> {
    network: &'a Network,
    target: &'a Target,
    /// By device: how many contacts lie between it and the nearest local source.
    distance: HashMap<DeviceId, i16>,
    /// Devices on a source's own side, before any plug, transfer switch or building.
    at_source: u128,
}

impl<'a> Preference<'a> {
    pub(super) fn new(network: &'a Network, target: &'a Target) -> Self {
        let mut near: u128 = network
            .supplies
            .iter()
            .filter(|supply| supply.source.is_some())
            .fold(0, |nodes, supply| nodes | supply.terminal.mask());
        let mut own = near;
        let mut at_source = 0;
        let mut distance = HashMap::new();
        for step in 0..i16::MAX {
            let (mut next, mut next_own) = (near, own);
            for edge in network.edges.iter().filter(|edge| near & edge.ends != 0) {
                distance.entry(edge.device).or_insert(step);
                next |= edge.ends;
                let kind = network.device(edge.device).map(|device| device.kind);
                let plain = matches!(kind, Some(Kind::Breaker | Kind::IsolatingSwitch));
                if plain && own & edge.ends & !network.premises != 0 {
                    at_source |= edge.device.mask();
                    next_own |= edge.ends;
                }
            }
            if next == near && next_own == own {
                break;
            }
            (near, own) = (next, next_own);
        }
        Self { network, target, distance, at_source }
    }

    pub(super) fn rank(&self, operation: Operation) -> Rank {
        let Some(device) = operation.device() else { return (u8::MAX, Reverse(0), 0, 0) };
        let near = self.distance.get(&device).copied().unwrap_or(i16::MAX);
        let far = near.checked_neg().unwrap_or(i16::MIN);
        let branch = self.target.branches().iter().any(|branch| branch.device == device);
        let at_source = self.at_source & device.mask() != 0;
        let start = Reverse(self.starting(device));
        use Operation as O;
        let (class, start, near) = match operation {
            O::Off(_) => (0, Reverse(0), 0),
            O::Open(_) if branch => (0, Reverse(0), 0),
            O::Open(_) if at_source => (7, Reverse(0), far),
            O::Open(_) | O::Set(_, Throw::Off) => (1, Reverse(0), far),
            O::Mate(_) => (2, Reverse(0), far),
            O::Start(_) => (3, Reverse(0), 0),
            O::Close(_) if branch => (6, start, 0),
            O::On(_) => (6, start, 0),
            O::Close(_) if at_source => (4, Reverse(0), near),
            O::Close(_) | O::Set(..) => (5, Reverse(0), near),
            O::Stop(_) => (8, Reverse(0), 0),
            _ => (9, Reverse(0), near),
        };
        (class, start, near, device.0)
    }

    /// What starts when the device closes, beyond what then runs on. The largest goes first: then the sum of what
    /// runs and what starts stays within the source if it does so in any order at all.
    fn starting(&self, device: DeviceId) -> i128 {
        let branch = self.target.branches().iter().find(|branch| branch.device == device);
        let load = branch.map_or(device, |branch| branch.load_device);
        let found = self.network.loads.iter().find(|found| found.device == load);
        let count = |power: Option<Watts>| power.map_or(0, Quantity::count);
        found.map_or(0, |found| count(found.facts.starting) - count(found.facts.running))
    }
}
