//! What a hand can do, and what the outside world does.

use super::device::Throw;
use super::network::{DeviceId, Kind, Network, NodeId};

/// One step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Operation {
    /// Close a breaker or switch.
    Close(DeviceId),
    /// Open a breaker or switch.
    Open(DeviceId),
    /// Set a transfer switch.
    Set(DeviceId, Throw),
    /// Put the halves of a joint together.
    Mate(DeviceId),
    /// Take them apart.
    Part(DeviceId),
    /// Start a source, or switch its output on.
    Start(DeviceId),
    /// Stop it.
    Stop(DeviceId),
    /// Switch a load on.
    On(DeviceId),
    /// Switch it off.
    Off(DeviceId),
    /// Lock a device where it stands.
    Lock(DeviceId),
    /// Take the lock off.
    Unlock(DeviceId),
    /// Test that a node is dead.
    Test(NodeId),
    /// Touch a node, with the devices that are said to isolate it.
    Touch(NodeId, Isolators),
    /// Wait until a source is cold.
    Cool(DeviceId),
    /// Put fuel into a source.
    Refuel(DeviceId),
    /// Take a cover off.
    CoverOff(DeviceId),
    /// Fit it.
    CoverOn(DeviceId),
    /// The utility comes back. Nobody here decides it.
    UtilityReturns(DeviceId),
    /// The utility goes away. Nobody here decides it.
    UtilityFails(DeviceId),
}

/// A set of devices that are said to isolate a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub struct Isolators(pub(super) u128);

impl FromIterator<DeviceId> for Isolators {
    fn from_iter<T: IntoIterator<Item = DeviceId>>(devices: T) -> Self {
        Self(devices.into_iter().fold(0, |mask, device| mask | device.mask()))
    }
}

/// An operation on a device that has no such operation.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{device}` has nothing to {verb}; correct the device or the operation")]
pub struct NoSuchOperation {
    /// The device.
    pub device: String,
    /// What was to be done.
    pub verb: &'static str,
}

impl Operation {
    /// The word for it.
    #[must_use]
    pub const fn verb(self) -> &'static str {
        match self {
            Self::Close(_) => "close",
            Self::Open(_) => "open",
            Self::Set(..) => "set",
            Self::Mate(_) => "mate",
            Self::Part(_) => "part",
            Self::Start(_) => "start",
            Self::Stop(_) => "stop",
            Self::On(_) => "switch on",
            Self::Off(_) => "switch off",
            Self::Lock(_) => "lock",
            Self::Unlock(_) => "unlock",
            Self::Test(_) => "test",
            Self::Touch(..) => "touch",
            Self::Cool(_) => "let cool",
            Self::Refuel(_) => "refuel",
            Self::CoverOff(_) => "take off",
            Self::CoverOn(_) => "fit",
            Self::UtilityReturns(_) | Self::UtilityFails(_) => "event",
        }
    }

    /// The device it moves or marks; `None` for a test or a touch.
    #[must_use]
    pub const fn device(self) -> Option<DeviceId> {
        match self {
            Self::Test(_) | Self::Touch(..) => None,
            Self::Close(device)
            | Self::Open(device)
            | Self::Set(device, _)
            | Self::Mate(device)
            | Self::Part(device)
            | Self::Start(device)
            | Self::Stop(device)
            | Self::On(device)
            | Self::Off(device)
            | Self::Lock(device)
            | Self::Unlock(device)
            | Self::Cool(device)
            | Self::Refuel(device)
            | Self::CoverOff(device)
            | Self::CoverOn(device)
            | Self::UtilityReturns(device)
            | Self::UtilityFails(device) => Some(device),
        }
    }

    /// Whether it happens to the operator instead of being done.
    #[must_use]
    pub const fn is_event(self) -> bool {
        matches!(self, Self::UtilityReturns(_) | Self::UtilityFails(_))
    }

    fn fits(self, kind: Kind) -> bool {
        match self {
            Self::Close(_) | Self::Open(_) => matches!(kind, Kind::Breaker | Kind::IsolatingSwitch),
            Self::Set(_, to) => {
                matches!(kind, Kind::Transfer(facts) if to != Throw::Off || facts.rests_off)
            }
            Self::Mate(_) | Self::Part(_) => kind == Kind::Joint,
            Self::Start(_) | Self::Stop(_) => matches!(kind, Kind::Source(_)),
            // What has no engine has neither heat nor fuel; what may have one keeps both.
            Self::Cool(_) | Self::Refuel(_) => {
                matches!(kind, Kind::Source(facts) if facts.engine != Some(false))
            }
            Self::On(_) | Self::Off(_) => matches!(kind, Kind::Load(_)),
            Self::Lock(_) | Self::Unlock(_) => !matches!(kind, Kind::Utility | Kind::Cover),
            Self::CoverOff(_) | Self::CoverOn(_) => kind == Kind::Cover,
            Self::UtilityReturns(_) | Self::UtilityFails(_) => kind == Kind::Utility,
            Self::Test(_) | Self::Touch(..) => true,
        }
    }
}

impl Network {
    /// The operation in words: ``close `main` ``.
    #[must_use]
    pub fn operation(&self, operation: Operation) -> String {
        match operation {
            Operation::Set(device, to) => format!("set `{}` to {to}", self.name(device)),
            Operation::Test(node) | Operation::Touch(node, _) => {
                format!("{} `{}`", operation.verb(), self.node_name(node))
            }
            Operation::UtilityReturns(device) => format!("`{}` returns", self.name(device)),
            Operation::UtilityFails(device) => format!("`{}` fails", self.name(device)),
            other => format!("{} `{}`", other.verb(), other.device().map_or("?", |device| self.name(device))),
        }
    }

    pub(super) fn check_fits(&self, operation: Operation) -> Result<(), NoSuchOperation> {
        let (fits, name) = match (operation, operation.device()) {
            (_, Some(device)) => {
                (self.device(device).is_some_and(|found| operation.fits(found.kind)), self.name(device))
            }
            (Operation::Test(node) | Operation::Touch(node, _), None) => {
                (usize::from(node.0) < self.nodes.len(), self.node_name(node))
            }
            _ => (false, "?"),
        };
        if fits { Ok(()) } else { Err(NoSuchOperation { device: name.to_owned(), verb: operation.verb() }) }
    }
}
