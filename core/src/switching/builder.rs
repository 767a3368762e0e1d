//! Building a network: one line a device; every problem is reported, not only the first.

use super::device::{ContactName, Interlock, Load, Source, Throw, Transfer};
use super::network::{
    Condition, Device, DeviceId, Edge, Exclusion, JointAt, Kind, LoadAt, MAX_BITS, MAX_SUPPLIES, Network, NodeId,
    Supply, id,
};
use crate::interrupt::Interrupt;

/// One thing wrong with a description.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum NetworkError {
    /// Two devices with one name.
    #[error("`{0}` is described twice; give each device its own name")]
    Duplicate(String),
    /// A name that no device has.
    #[error("no device is called `{0}`; describe it or correct the name")]
    UnknownDevice(String),
    /// A node that nothing touches.
    #[error("no device touches node `{0}`; describe what joins it or correct the name")]
    UnknownNode(String),
    /// A source, a load or the utility on a node of its own.
    #[error("nothing joins `{device}`: no other device touches its node `{node}`")]
    Dangling {
        /// The device.
        device: String,
        /// Its node.
        node: String,
    },
    /// A device from a node to the same node.
    #[error("`{0}` joins a node with itself; name two nodes")]
    Loop(String),
    /// An interlock of something that does not open and close.
    #[error("`{0}` cannot be interlocked; name a breaker, a switch, a joint or one side of a transfer switch")]
    NotInterlockable(String),
    /// An interlock carried by something that is not a cover.
    #[error("`{0}` is not a cover; name the cover that carries the interlock")]
    NotACover(String),
    /// A parallel approval for something that does not supply.
    #[error("`{0}` is neither the utility nor a source; only supplies run in parallel")]
    NotASupply(String),
    /// Two utilities.
    #[error("`{0}` is a second utility; one network has at most one")]
    SecondUtility(String),
    /// More than one network can hold.
    #[error("{what}: {found} are more than the {limit} that one network holds; describe it in parts")]
    TooMany {
        /// What there is too much of.
        what: &'static str,
        /// How many there are.
        found: usize,
        /// How many there may be.
        limit: usize,
    },
}

/// Everything wrong with a description.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))]
pub struct NetworkErrors(pub Vec<NetworkError>);

#[derive(Clone, Debug)]
enum Ends {
    Cover,
    At(String),
    Between(String, String),
    /// Common, utility's side, source's side.
    Three(String, String, String),
}

/// A description in the making. Order matters only where two shortest orders of switching are equally good.
#[derive(Clone, Debug, Default)]
pub struct Builder {
    devices: Vec<(String, Kind, Ends)>,
    interlocks: Vec<(ContactName, ContactName, Interlock)>,
    premises: Vec<String>,
    approved: Vec<(String, String)>,
    service_bonded: Option<bool>,
    other_bonds: Option<u8>,
}

impl Builder {
    fn add(mut self, name: &str, kind: Kind, ends: Ends) -> Self {
        self.devices.push((name.to_owned(), kind, ends));
        self
    }

    fn between(self, name: &str, kind: Kind, from: &str, to: &str) -> Self {
        self.add(name, kind, Ends::Between(from.to_owned(), to.to_owned()))
    }

    /// The utility, with the node of the service conductors.
    #[must_use]
    pub fn utility(self, name: &str, node: &str) -> Self {
        self.add(name, Kind::Utility, Ends::At(node.to_owned()))
    }

    /// A local source, with the node of its terminals.
    #[must_use]
    pub fn source(self, name: &str, node: &str, facts: Source) -> Self {
        self.add(name, Kind::Source(facts), Ends::At(node.to_owned()))
    }

    /// A breaker between two nodes.
    #[must_use]
    pub fn breaker(self, name: &str, from: &str, to: &str) -> Self {
        self.between(name, Kind::Breaker, from, to)
    }

    /// A switch without overcurrent protection between two nodes.
    #[must_use]
    pub fn isolating_switch(self, name: &str, from: &str, to: &str) -> Self {
        self.between(name, Kind::IsolatingSwitch, from, to)
    }

    /// A transfer switch: the node it feeds, the node of its utility side, the node of its source side.
    #[must_use]
    pub fn transfer(self, name: &str, common: &str, utility: &str, source: &str, facts: Transfer) -> Self {
        let ends = Ends::Three(common.to_owned(), utility.to_owned(), source.to_owned());
        self.add(name, Kind::Transfer(facts), ends)
    }

    /// A plug or inlet (the male node) and its receptacle or connector (the female node).
    #[must_use]
    pub fn joint(self, name: &str, male: &str, female: &str) -> Self {
        self.between(name, Kind::Joint, male, female)
    }

    /// A load at a node.
    #[must_use]
    pub fn load(self, name: &str, node: &str, facts: Load) -> Self {
        self.add(name, Kind::Load(facts), Ends::At(node.to_owned()))
    }

    /// A cover.
    #[must_use]
    pub fn cover(self, name: &str) -> Self {
        self.add(name, Kind::Cover, Ends::Cover)
    }

    /// Two contacts that an interlock keeps from being closed together.
    #[must_use]
    pub fn interlock(
        mut self,
        first: impl Into<ContactName>,
        second: impl Into<ContactName>,
        carried_by: Interlock,
    ) -> Self {
        self.interlocks.push((first.into(), second.into(), carried_by));
        self
    }

    /// A node that belongs to the building's wiring.
    #[must_use]
    pub fn premises(mut self, node: &str) -> Self {
        self.premises.push(node.to_owned());
        self
    }

    /// Two supplies that are built and approved to run in parallel.
    #[must_use]
    pub fn approved_in_parallel(mut self, first: &str, second: &str) -> Self {
        self.approved.push((first.to_owned(), second.to_owned()));
        self
    }

    /// Whether the neutral is bonded to ground at the service.
    #[must_use]
    pub fn service_bonded(mut self, bonded: bool) -> Self {
        self.service_bonded = Some(bonded);
        self
    }

    /// How many further bonds of neutral and ground the building has (each one in a subpanel is a fault of its own).
    #[must_use]
    pub fn other_bonds(mut self, bonds: u8) -> Self {
        self.other_bonds = Some(bonds);
        self
    }

    /// The network.
    ///
    /// # Errors
    /// Everything that makes no sense: a name used twice, a name that nobody has, a dangling node, too many devices.
    pub fn build(self) -> Result<Network, NetworkErrors> {
        let mut errors = Vec::new();
        let mut network = Network {
            devices: Vec::new(),
            nodes: Vec::new(),
            edges: Vec::new(),
            supplies: Vec::new(),
            loads: Vec::new(),
            joints: Vec::new(),
            exclusions: Vec::new(),
            premises: 0,
            service_bonded: self.service_bonded,
            other_bonds: self.other_bonds,
            interrupt: Interrupt::never(),
        };
        let bits = self.devices.iter().map(|(_, kind, _)| width(*kind)).sum::<usize>();
        within("positions", bits, MAX_BITS, &mut errors);
        let mut next = 0;
        for (name, kind, ends) in &self.devices {
            if network.find(name).is_some() {
                errors.push(NetworkError::Duplicate(name.clone()));
            }
            network.place(name, *kind, ends, &mut next, &mut errors);
        }
        within("nodes", network.nodes.len(), MAX_BITS, &mut errors);
        within("supplies", network.supplies.len(), MAX_SUPPLIES, &mut errors);
        network.find_dangling(&mut errors);
        for node in &self.premises {
            match network.node(node) {
                Some(found) => network.premises |= found.mask(),
                None => errors.push(NetworkError::UnknownNode(node.clone())),
            }
        }
        for pair in &self.interlocks {
            network.exclude(pair, &mut errors);
        }
        for (first, second) in &self.approved {
            network.approve(first, second, &mut errors);
        }
        if errors.is_empty() { Ok(network) } else { Err(NetworkErrors(errors)) }
    }
}

fn width(kind: Kind) -> usize {
    if matches!(kind, Kind::Transfer(_)) { 2 } else { 1 }
}

fn within(what: &'static str, found: usize, limit: usize, errors: &mut Vec<NetworkError>) {
    if found > limit {
        errors.push(NetworkError::TooMany { what, found, limit });
    }
}

impl Network {
    fn touch(&mut self, name: &str) -> NodeId {
        self.node(name).unwrap_or_else(|| {
            self.nodes.push(name.to_owned());
            NodeId(id(self.nodes.len() - 1).0)
        })
    }

    fn place(&mut self, name: &str, kind: Kind, ends: &Ends, next: &mut u32, errors: &mut Vec<NetworkError>) {
        let device = id(self.devices.len());
        let mut take = || {
            let bit = 1u128.checked_shl(*next).unwrap_or(0);
            *next += 1;
            bit
        };
        let bit = take();
        let source_bit = if matches!(kind, Kind::Transfer(_)) { take() } else { bit };
        self.devices.push(Device { name: name.to_owned(), kind, bit, source_bit });
        match ends {
            Ends::Cover => {}
            Ends::At(node) => {
                let node = self.touch(node);
                match kind {
                    Kind::Load(facts) => self.loads.push(LoadAt { device, node, bit, facts }),
                    Kind::Source(facts) => self.supply(device, node, bit, Some(facts)),
                    _ => {
                        if self.supplies.iter().any(|supply| supply.source.is_none()) {
                            errors.push(NetworkError::SecondUtility(name.to_owned()));
                        }
                        self.supply(device, node, bit, None);
                    }
                }
            }
            Ends::Between(from, to) => {
                let (from_node, to_node) = (self.touch(from), self.touch(to));
                self.join(device, from_node, to_node, bit, kind == Kind::Breaker, errors);
                if kind == Kind::Joint {
                    self.joints.push(JointAt { device, male: from_node, bit });
                }
            }
            Ends::Three(common, utility, source) => {
                let common = self.touch(common);
                let (utility, source) = (self.touch(utility), self.touch(source));
                self.join(device, common, utility, bit, false, errors);
                self.join(device, common, source, source_bit, false, errors);
            }
        }
    }

    fn supply(&mut self, device: DeviceId, terminal: NodeId, bit: u128, source: Option<Source>) {
        self.supplies.push(Supply { device, terminal, bit, source, approved: 0 });
    }

    fn join(
        &mut self,
        device: DeviceId,
        from: NodeId,
        to: NodeId,
        bit: u128,
        protects: bool,
        errors: &mut Vec<NetworkError>,
    ) {
        if from == to {
            errors.push(NetworkError::Loop(self.name(device).to_owned()));
        }
        self.edges.push(Edge { device, from, to, bit, ends: from.mask() | to.mask(), protects });
    }

    fn find_dangling(&self, errors: &mut Vec<NetworkError>) {
        let ends = self.supplies.iter().map(|supply| (supply.device, supply.terminal));
        for (device, node) in ends.chain(self.loads.iter().map(|load| (load.device, load.node))) {
            if !self.edges.iter().any(|edge| edge.from == node || edge.to == node) {
                let (device, node) = (self.name(device).to_owned(), self.node_name(node).to_owned());
                errors.push(NetworkError::Dangling { device, node });
            }
        }
    }

    fn exclude(&mut self, pair: &(ContactName, ContactName, Interlock), errors: &mut Vec<NetworkError>) {
        let condition = match &pair.2 {
            Interlock::Devices => Some(Condition::Always),
            Interlock::NotDescribed => Some(Condition::NotDescribed),
            Interlock::Cover(cover) => match self.find(cover).and_then(|found| self.device(found)) {
                Some(found) if found.kind == Kind::Cover => Some(Condition::CoverOn(found.bit)),
                Some(_) => refuse(errors, NetworkError::NotACover(cover.clone())),
                None => refuse(errors, NetworkError::UnknownDevice(cover.clone())),
            },
        };
        let (first, second) = (self.contact(&pair.0, errors), self.contact(&pair.1, errors));
        if let (Some(first), Some(second), Some(condition)) = (first, second, condition) {
            if first == second {
                errors.push(NetworkError::NotInterlockable(pair.0.device.clone()));
            }
            self.exclusions.push(Exclusion { first, second, condition });
        }
    }

    fn contact(&self, name: &ContactName, errors: &mut Vec<NetworkError>) -> Option<(DeviceId, u128)> {
        let Some(device) = self.find(&name.device) else {
            return refuse(errors, NetworkError::UnknownDevice(name.device.clone()));
        };
        let kind = self.device(device).map(|found| found.kind);
        let fits = match (kind, name.side) {
            (Some(Kind::Breaker | Kind::IsolatingSwitch | Kind::Joint), None) => true,
            (Some(Kind::Transfer(_)), Some(side)) => side != Throw::Off,
            _ => false,
        };
        if fits {
            Some((device, self.side_bit(device, name.side)))
        } else {
            refuse(errors, NetworkError::NotInterlockable(name.device.clone()))
        }
    }

    fn approve(&mut self, first: &str, second: &str, errors: &mut Vec<NetworkError>) {
        let mut place = |name: &str| match self.find(name) {
            None => refuse(errors, NetworkError::UnknownDevice(name.to_owned())),
            Some(device) => match self.supply_of(device) {
                Some((index, _)) => Some(index),
                None => refuse(errors, NetworkError::NotASupply(name.to_owned())),
            },
        };
        if let (Some(first), Some(second)) = (place(first), place(second)) {
            for (one, other) in [(first, second), (second, first)] {
                if let Some(supply) = self.supplies.get_mut(one) {
                    supply.approved |= supply_mask(other);
                }
            }
        }
    }
}

fn refuse<T>(errors: &mut Vec<NetworkError>, error: NetworkError) -> Option<T> {
    errors.push(error);
    None
}

/// `MAX_SUPPLIES` keeps every supply inside a byte of bits.
pub(super) fn supply_mask(index: usize) -> u8 {
    u32::try_from(index).ok().and_then(|index| 1u8.checked_shl(index)).unwrap_or(0)
}
