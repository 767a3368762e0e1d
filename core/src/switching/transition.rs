//! From a state to the next: what moves, what a lock or an interlock refuses.

use super::device::Throw;
use super::network::{Condition, DeviceId, Kind, Network, Undescribed};
use super::operation::{NoSuchOperation, Operation};
use super::state::State;

/// What came of an operation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effect {
    /// It was done. A transfer switch that makes before it breaks passes `through` a state with both sides closed.
    Done {
        /// The momentary state, where there is one.
        through: Option<State>,
        /// The state afterwards.
        state: State,
    },
    /// It could not be done; nothing changed.
    Refused(Refusal),
}

/// Why an operation could not be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The device is locked.
    Locked(DeviceId),
    /// An interlock holds the device while the other one is closed.
    Interlocked {
        /// The device that was to be closed.
        device: DeviceId,
        /// The one that is closed.
        by: DeviceId,
    },
}

impl Network {
    /// Does one operation. An interlock that was not described is taken not to block.
    ///
    /// # Errors
    /// The device has no such operation.
    ///
    /// ```
    /// use loadworthy::switching::{Effect, Interlock, Network, Operation, Position};
    /// let network = Network::builder()
    ///     .breaker("main", "service", "bus")
    ///     .breaker("inlet", "cord", "bus")
    ///     .interlock("main", "inlet", Interlock::Devices)
    ///     .build()?;
    /// let state = network.state(&[("main", Position::Closed), ("inlet", Position::Open)])?;
    /// let inlet = network.find("inlet").ok_or("no inlet")?;
    /// assert!(matches!(network.apply(&state, Operation::Close(inlet))?, Effect::Refused(_)));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn apply(&self, state: &State, operation: Operation) -> Result<Effect, NoSuchOperation> {
        self.check_fits(operation)?;
        Ok(self.step(state, operation, Undescribed::Fails))
    }

    /// Does an operation that fits its device.
    pub(super) fn step(&self, state: &State, operation: Operation, reading: Undescribed) -> Effect {
        use Operation as O;
        let mut next = *state;
        let mut through = None;
        if moves(operation)
            && let Some(device) = operation.device()
        {
            if state.is_locked(device) {
                return Effect::Refused(Refusal::Locked(device));
            }
            let wanted = self.closes(operation);
            if let Some(by) = self.held_open(state, wanted, reading) {
                return Effect::Refused(Refusal::Interlocked { device, by });
            }
            let old = self.side_bit(device, None) | self.side_bit(device, Some(Throw::Source));
            next.set = (state.set & !old) | wanted;
            if let O::Set(_, to) = operation
                && to != Throw::Off
                && state.has(old & !wanted)
                && !self.breaks_first(device, reading)
            {
                through = Some(State { set: state.set | wanted, ..next });
            }
            next.tested = 0;
        }
        match operation {
            // Running heats, so that a source that stops is hot; only waiting cools it.
            O::Start(device) | O::Stop(device) => next.hot |= device.mask(),
            O::Cool(device) if !state.has(self.side_bit(device, None)) => next.hot &= !device.mask(),
            O::Lock(device) => next.locked |= device.mask(),
            O::Unlock(device) => next.locked &= !device.mask(),
            O::Test(node) => next.tested |= node.mask(),
            O::CoverOff(device) | O::UtilityFails(device) => next.set &= !self.side_bit(device, None),
            O::CoverOn(device) | O::UtilityReturns(device) => next.set |= self.side_bit(device, None),
            _ => {}
        }
        Effect::Done { through, state: next }
    }

    /// The bits that are set once the operation is done.
    fn closes(&self, operation: Operation) -> u128 {
        match operation {
            Operation::Close(device) | Operation::Mate(device) | Operation::Start(device) | Operation::On(device) => {
                self.side_bit(device, None)
            }
            Operation::Set(device, to) => self.side_bit(device, Some(to)),
            _ => 0,
        }
    }

    /// The closed device whose interlock keeps `wanted` from closing.
    fn held_open(&self, state: &State, wanted: u128, reading: Undescribed) -> Option<DeviceId> {
        if wanted == 0 {
            return None;
        }
        self.exclusions.iter().find_map(|pair| {
            let works = match pair.condition {
                Condition::Always => true,
                Condition::CoverOn(cover) => state.has(cover),
                Condition::NotDescribed => reading == Undescribed::Works,
            };
            let (first, second) = (pair.first, pair.second);
            if !works {
                None
            } else if first.1 == wanted && state.has(second.1) {
                Some(second.0)
            } else if second.1 == wanted && state.has(first.1) {
                Some(first.0)
            } else {
                None
            }
        })
    }

    fn breaks_first(&self, device: DeviceId, reading: Undescribed) -> bool {
        match self.device(device).map(|found| found.kind) {
            Some(Kind::Transfer(facts)) => facts.breaks_before_it_makes.unwrap_or(reading == Undescribed::Works),
            _ => true,
        }
    }
}

/// Whether a hand moves a device, so that a lock refuses it and an earlier test no longer counts.
const fn moves(operation: Operation) -> bool {
    use Operation as O;
    matches!(
        operation,
        O::Close(_)
            | O::Open(_)
            | O::Set(..)
            | O::Mate(_)
            | O::Part(_)
            | O::Start(_)
            | O::Stop(_)
            | O::On(_)
            | O::Off(_)
    )
}
