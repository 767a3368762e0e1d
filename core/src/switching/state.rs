//! One state of a network: every position in one word, every mark (lock, test, heat) in another.

use super::device::Throw;
use super::network::{DeviceId, Kind, Network, NodeId};
use crate::trade::words;

words! {
    /// The position of a device.
    pub enum Position: "position" {
        /// A breaker or switch that joins its nodes.
        Closed = "closed",
        /// A breaker or switch that does not.
        Open = "open",
        /// A joint whose halves are together.
        Mated = "mated",
        /// A joint whose male contacts are bare.
        Parted = "parted",
        /// A source whose terminals are live.
        Running = "running",
        /// A source that is stopped, and cold where it has an engine.
        Stopped = "stopped",
        /// A source that is stopped but still hot.
        StoppedHot = "stopped hot",
        /// A load that draws, or a cover that is fitted.
        On = "on",
        /// A load that does not draw, a cover that is not fitted, or a transfer switch on neither side.
        Off = "off",
        /// A transfer switch on its utility side.
        Utility = "utility",
        /// A transfer switch on its source side.
        Source = "source",
        /// A utility that supplies.
        Live = "live",
        /// A utility that does not.
        Dead = "dead",
    }
}

/// Why a list of positions is not a state.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum StateError {
    /// A name that no device has.
    #[error("no device is called `{0}`; correct the name")]
    UnknownDevice(String),
    /// A position that such a device cannot take.
    #[error("`{device}` cannot be `{position}`; write one of: {choices}")]
    NoSuchPosition {
        /// The device.
        device: String,
        /// The position that was stated.
        position: Position,
        /// The positions that it has.
        choices: String,
    },
    /// A device stated twice.
    #[error("the position of `{0}` is stated twice; state it once")]
    Twice(String),
    /// A device without a position.
    #[error("the position of `{0}` is not stated; no position is assumed")]
    NotStated(String),
}

/// Where everything stands. Made by [`Network::state`], changed by [`Network::apply`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct State {
    /// One bit a position: closed, mated, running, live, on; a transfer switch has one for each side.
    pub(super) set: u128,
    /// One bit a device.
    pub(super) locked: u128,
    /// One bit a node.
    pub(super) tested: u128,
    /// One bit a device.
    pub(super) hot: u128,
}

impl State {
    pub(super) const fn has(&self, bit: u128) -> bool {
        self.set & bit != 0
    }

    /// Whether the device is locked where it stands.
    #[must_use]
    pub fn is_locked(&self, device: DeviceId) -> bool {
        self.locked & device.mask() != 0
    }

    /// Whether the node was tested since the last switching.
    #[must_use]
    pub fn is_tested(&self, node: NodeId) -> bool {
        self.tested & node.mask() != 0
    }

    /// The same state with the device locked where it stands.
    #[must_use]
    pub fn with_lock(mut self, device: DeviceId) -> Self {
        self.locked |= device.mask();
        self
    }

    pub(super) const fn with(mut self, bit: u128, value: bool) -> Self {
        if value {
            self.set |= bit;
        } else {
            self.set &= !bit;
        }
        self
    }
}

impl Network {
    /// The state with these positions, nothing locked and nothing tested. Every device must be listed.
    ///
    /// # Errors
    /// The first position that makes no sense, or the first device that is missing.
    ///
    /// ```
    /// use loadworthy::switching::{Network, Position};
    /// let network = Network::builder().utility("utility", "service").breaker("main", "service", "bus").build()?;
    /// let state = network.state(&[("utility", Position::Dead), ("main", Position::Closed)])?;
    /// assert_eq!(network.describe(&state), "utility dead, main closed");
    /// assert!(network.state(&[("main", Position::Closed)]).is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn state(&self, positions: &[(&str, Position)]) -> Result<State, StateError> {
        let mut state = State { set: 0, locked: 0, tested: 0, hot: 0 };
        let mut stated = 0u128;
        for (name, position) in positions {
            let device = self.find(name).ok_or_else(|| StateError::UnknownDevice((*name).to_owned()))?;
            if stated & device.mask() != 0 {
                return Err(StateError::Twice((*name).to_owned()));
            }
            stated |= device.mask();
            state = self.stand(state, device, *position)?;
        }
        match self.devices().find(|(device, _, _)| stated & device.mask() == 0) {
            Some((_, name, _)) => Err(StateError::NotStated(name.to_owned())),
            None => Ok(state),
        }
    }

    /// The same state with one device where it is said to stand.
    pub(super) fn moved(&self, state: State, device: DeviceId, position: Position) -> Result<State, StateError> {
        let sides = self.side_bit(device, None) | self.side_bit(device, Some(Throw::Source));
        let mut state = state.with(sides, false);
        state.hot &= !device.mask();
        self.stand(state, device, position)
    }

    fn stand(&self, mut state: State, device: DeviceId, position: Position) -> Result<State, StateError> {
        let choices = self.positions_of(device);
        if !choices.contains(&position) {
            return Err(StateError::NoSuchPosition {
                device: self.name(device).to_owned(),
                position,
                choices: choices.iter().map(ToString::to_string).collect::<Vec<_>>().join(", "),
            });
        }
        use Position as P;
        let bit = match position {
            P::Open | P::Parted | P::Stopped | P::StoppedHot | P::Off | P::Dead => 0,
            P::Source => self.side_bit(device, Some(Throw::Source)),
            P::Closed | P::Mated | P::Running | P::On | P::Utility | P::Live => self.side_bit(device, None),
        };
        if matches!(position, P::StoppedHot | P::Running) {
            state.hot |= device.mask();
        }
        Ok(state.with(bit, true))
    }

    fn positions_of(&self, device: DeviceId) -> &'static [Position] {
        use Position as P;
        match self.device(device).map(|found| found.kind) {
            Some(Kind::Utility) => &[P::Live, P::Dead],
            Some(Kind::Source(_)) => &[P::Running, P::Stopped, P::StoppedHot],
            Some(Kind::Breaker | Kind::IsolatingSwitch) => &[P::Closed, P::Open],
            Some(Kind::Transfer(facts)) if facts.rests_off => &[P::Utility, P::Off, P::Source],
            Some(Kind::Transfer(_)) => &[P::Utility, P::Source],
            Some(Kind::Joint) => &[P::Mated, P::Parted],
            Some(Kind::Load(_) | Kind::Cover) => &[P::On, P::Off],
            None => &[],
        }
    }

    /// The position of a device in a state; `None` for another network's device.
    #[must_use]
    pub fn position(&self, state: &State, device: DeviceId) -> Option<Position> {
        use Position as P;
        let found = self.device(device)?;
        let on = state.has(found.bit);
        let choose = |yes, no| if on { yes } else { no };
        Some(match found.kind {
            Kind::Utility => choose(P::Live, P::Dead),
            Kind::Source(_) if !on && state.hot & device.mask() != 0 => P::StoppedHot,
            Kind::Source(_) => choose(P::Running, P::Stopped),
            Kind::Breaker | Kind::IsolatingSwitch => choose(P::Closed, P::Open),
            Kind::Transfer(_) if state.has(found.source_bit) => P::Source,
            Kind::Transfer(_) => choose(P::Utility, P::Off),
            Kind::Joint => choose(P::Mated, P::Parted),
            Kind::Load(_) | Kind::Cover => choose(P::On, P::Off),
        })
    }

    /// Every device with its position, in the order of the description.
    #[must_use]
    pub fn describe(&self, state: &State) -> String {
        let word = |(device, name, _): (DeviceId, &str, Kind)| {
            let position = self.position(state, device)?;
            let locked = if state.is_locked(device) { " and locked" } else { "" };
            Some(format!("{name} {position}{locked}"))
        };
        self.devices().filter_map(word).collect::<Vec<_>>().join(", ")
    }
}
