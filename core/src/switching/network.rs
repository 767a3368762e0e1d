//! A network: devices, the nodes they join, and what keeps two of them from being closed together.

use super::builder::Builder;
use super::device::{Load, Source, Throw, Transfer};
use crate::interrupt::Interrupt;

/// The most supplies (the utility and local sources) of one network.
pub const MAX_SUPPLIES: usize = 8;

/// The most nodes, and the most positions (a transfer switch counts two), of one network.
pub const MAX_BITS: usize = 128;

/// A device of one network.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct DeviceId(pub(super) u8);

/// A node of one network: everything that is one conductor with no switch in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct NodeId(pub(super) u8);

/// What a device is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Kind {
    /// The utility: live or dead, and nobody here decides which.
    Utility,
    /// A local source.
    Source(Source),
    /// A breaker: it switches and protects.
    Breaker,
    /// A switch without protection.
    IsolatingSwitch,
    /// A transfer switch.
    Transfer(Transfer),
    /// A plug and its receptacle, or an inlet and its connector.
    Joint,
    /// A load.
    Load(Load),
    /// A cover that carries an interlock.
    Cover,
}

#[derive(Clone, Debug)]
pub(super) struct Device {
    pub(super) name: String,
    pub(super) kind: Kind,
    /// The device's bits in a state: for a transfer switch the utility's side, then the source's.
    pub(super) bit: u128,
    pub(super) source_bit: u128,
}

/// Two nodes that are one while a bit is set.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge {
    pub(super) device: DeviceId,
    pub(super) from: NodeId,
    pub(super) to: NodeId,
    pub(super) bit: u128,
    pub(super) ends: u128,
    pub(super) protects: bool,
}

/// The utility or a local source, with the node of its terminal.
#[derive(Clone, Copy, Debug)]
pub(super) struct Supply {
    pub(super) device: DeviceId,
    pub(super) terminal: NodeId,
    pub(super) bit: u128,
    /// `None` for the utility.
    pub(super) source: Option<Source>,
    /// The supplies, by their place in the list, that may run joined with this one.
    pub(super) approved: u8,
}

#[derive(Clone, Copy, Debug)]
pub(super) struct LoadAt {
    pub(super) device: DeviceId,
    pub(super) node: NodeId,
    pub(super) bit: u128,
    pub(super) facts: Load,
}

#[derive(Clone, Copy, Debug)]
pub(super) struct JointAt {
    pub(super) device: DeviceId,
    pub(super) male: NodeId,
    pub(super) bit: u128,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Condition {
    Always,
    CoverOn(u128),
    NotDescribed,
}

#[derive(Clone, Copy, Debug)]
pub(super) struct Exclusion {
    pub(super) first: (DeviceId, u128),
    pub(super) second: (DeviceId, u128),
    pub(super) condition: Condition,
}

/// How what was not described is taken: both readings are followed, and where they differ nobody can tell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Undescribed {
    /// An interlock that was not described blocks; a transfer that was not described breaks before it makes.
    Works,
    /// It does neither.
    Fails,
}

/// Devices, nodes and interlocks, checked for sense when it was built.
///
/// ```
/// use loadworthy::switching::{Interlock, Load, Network, Source};
/// let network = Network::builder()
///     .utility("utility", "service")
///     .breaker("main", "service", "bus")
///     .breaker("inlet breaker", "inlet", "bus")
///     .interlock("main", "inlet breaker", Interlock::Devices)
///     .joint("inlet joint", "inlet", "cord")
///     .breaker("source breaker", "terminals", "cord")
///     .source("generator", "terminals", Source::unknown())
///     .breaker("kitchen", "bus", "kitchen wire")
///     .load("fridge", "kitchen wire", Load::unknown())
///     .premises("bus")
///     .build()?;
/// assert_eq!(network.devices().count(), 8);
/// # Ok::<(), loadworthy::switching::NetworkErrors>(())
/// ```
#[derive(Clone, Debug)]
pub struct Network {
    pub(super) devices: Vec<Device>,
    pub(super) nodes: Vec<String>,
    pub(super) edges: Vec<Edge>,
    pub(super) supplies: Vec<Supply>,
    pub(super) loads: Vec<LoadAt>,
    pub(super) joints: Vec<JointAt>,
    pub(super) exclusions: Vec<Exclusion>,
    pub(super) premises: u128,
    pub(super) service_bonded: Option<bool>,
    pub(super) other_bonds: Option<u8>,
    /// What may end a search for an order.
    pub(super) interrupt: Interrupt,
}

impl Network {
    /// Begins a description.
    #[must_use]
    pub fn builder() -> Builder {
        Builder::default()
    }

    /// The devices in the order in which they were described.
    pub fn devices(&self) -> impl Iterator<Item = (DeviceId, &str, Kind)> {
        self.devices.iter().enumerate().map(|(index, device)| (id(index), device.name.as_str(), device.kind))
    }

    /// The device of that name.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<DeviceId> {
        self.devices.iter().position(|device| device.name == name).map(id)
    }

    /// The node of that name.
    #[must_use]
    pub fn node(&self, name: &str) -> Option<NodeId> {
        self.nodes.iter().position(|node| node == name).map(|index| NodeId(id(index).0))
    }

    pub(super) fn node_ids(&self) -> impl Iterator<Item = NodeId> {
        (0..self.nodes.len()).map(|index| NodeId(id(index).0))
    }

    /// The name of a device; of another network's device, `?`.
    #[must_use]
    pub fn name(&self, device: DeviceId) -> &str {
        self.device(device).map_or("?", |device| device.name.as_str())
    }

    /// The name of a node; of another network's node, `?`.
    #[must_use]
    pub fn node_name(&self, node: NodeId) -> &str {
        self.nodes.get(usize::from(node.0)).map_or("?", String::as_str)
    }

    pub(super) fn device(&self, device: DeviceId) -> Option<&Device> {
        self.devices.get(usize::from(device.0))
    }

    pub(super) fn supply_of(&self, device: DeviceId) -> Option<(usize, &Supply)> {
        self.supplies.iter().enumerate().find(|(_, supply)| supply.device == device)
    }

    /// The bit of each side of a transfer switch; of another device, its own bit for any side.
    pub(super) fn side_bit(&self, device: DeviceId, side: Option<Throw>) -> u128 {
        self.device(device).map_or(0, |found| match side {
            Some(Throw::Source) => found.source_bit,
            Some(Throw::Off) => 0,
            _ => found.bit,
        })
    }

    /// Whether anything that decides which moves are possible was left undescribed.
    pub(super) fn has_undescribed(&self) -> bool {
        self.exclusions.iter().any(|pair| pair.condition == Condition::NotDescribed)
            || self
                .devices
                .iter()
                .any(|device| matches!(device.kind, Kind::Transfer(facts) if facts.breaks_before_it_makes.is_none()))
    }
}

/// `MAX_BITS` keeps every index inside a byte.
pub(super) fn id(index: usize) -> DeviceId {
    DeviceId(u8::try_from(index).unwrap_or(u8::MAX))
}

impl NodeId {
    pub(super) fn mask(self) -> u128 {
        1u128.checked_shl(u32::from(self.0)).unwrap_or(0)
    }
}

impl DeviceId {
    pub(super) fn mask(self) -> u128 {
        1u128.checked_shl(u32::from(self.0)).unwrap_or(0)
    }
}
