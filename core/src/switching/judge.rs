//! The invariants applied: to a state, and to a step between two states.

use super::demand;
use super::device::RotationNeed;
use super::electrical::Electrical;
use super::invariant::{Break, Detail, Fact, Invariant, Need, Question};
use super::network::{LoadAt, MAX_SUPPLIES, Network, NodeId, Supply};
use super::operation::{Isolators, Operation};
use super::state::State;
use crate::rules::Outcome;
use crate::trade::System;

/// What a state is, electrically: one side of a step.
#[derive(Clone, Copy)]
pub(super) struct Side<'a> {
    pub(super) state: &'a State,
    pub(super) electrical: &'a Electrical,
}

impl Network {
    /// What the state breaks, and what nobody can tell of it; empty when every invariant of states holds.
    ///
    /// ```
    /// use loadworthy::switching::{Invariant, Network, Position, Source};
    /// let network = Network::builder()
    ///     .utility("utility", "service")
    ///     .breaker("main", "service", "bus")
    ///     .breaker("inlet", "bus", "terminals")
    ///     .source("generator", "terminals", Source::unknown())
    ///     .build()?;
    /// let state = network.state(&[
    ///     ("utility", Position::Dead), ("main", Position::Closed),
    ///     ("inlet", Position::Closed), ("generator", Position::Stopped),
    /// ])?;
    /// let found = network.breaks(&state);
    /// assert_eq!(found[0].invariant, Invariant::SourcesNeverJoined);
    /// assert_eq!(network.explain(&found[0]),
    ///     "sources-never-joined fails: a closed path joins `utility` and `generator`");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn breaks(&self, state: &State) -> Vec<Break> {
        let mut found = Vec::new();
        judge_state(self, Side { state, electrical: &Electrical::of(self, state) }, &mut found);
        found
    }
}

/// Everything that the state itself breaks.
pub(super) fn judge_state(network: &Network, at: Side<'_>, found: &mut Vec<Break>) {
    bare_contacts(network, at, found);
    joined(network, at, found);
    for (index, supply) in network.supplies.iter().enumerate() {
        if !at.electrical.produces(index) {
            continue;
        }
        for load in network.loads.iter().filter(|load| at.electrical.feeds(index, at.state, load)) {
            if at.electrical.joins_unprotected(index, load.node) {
                let detail = Detail::Unprotected { load: load.device, supply: supply.device };
                found.push(Break { invariant: Invariant::ProtectedPath, detail });
            }
            supply_fits(supply, load, found);
        }
        demand::settled(network, at, index, supply, found);
        if at.electrical.reaches_any(index, network.premises) {
            bonds(network, supply, found);
        }
    }
}

/// Everything that the step breaks, beyond what the state after it breaks.
pub(super) fn judge_step(
    network: &Network,
    operation: Operation,
    before: Side<'_>,
    after: Side<'_>,
    found: &mut Vec<Break>,
) {
    for (index, supply) in network.supplies.iter().enumerate() {
        if after.electrical.produces(index) {
            demand::pick_up(network, before, after, index, supply, found);
        }
    }
    match operation {
        Operation::Mate(joint) | Operation::Part(joint) => {
            let moved =
                |load: &&LoadAt| before.electrical.fed(before.state, load) != after.electrical.fed(after.state, load);
            if let Some(load) = network.loads.iter().find(moved) {
                let detail = Detail::PlugUnderLoad { joint, load: load.device };
                found.push(Break { invariant: Invariant::NoPlugUnderLoad, detail });
            }
        }
        Operation::Start(device) => engine_unloaded(network, device, before, after, found),
        Operation::Stop(device) => engine_unloaded(network, device, after, before, found),
        Operation::Touch(place, isolators) => touch(network, place, isolators, after, found),
        Operation::Refuel(source) => {
            let engine = network.supply_of(source).and_then(|(_, supply)| supply.source).and_then(|facts| facts.engine);
            let detail = if after.state.has(network.side_bit(source, None)) {
                Detail::FuelWhileRunning { source }
            } else if after.state.hot & source.mask() == 0 {
                return;
            } else if engine == Some(true) {
                Detail::FuelWhileHot { source }
            } else {
                Detail::Missing(Question::Fact(source, Fact::Engine))
            };
            found.push(Break { invariant: Invariant::FuelOnlyWhenCold, detail });
        }
        _ => {}
    }
}

fn bare_contacts(network: &Network, at: Side<'_>, found: &mut Vec<Break>) {
    for joint in network.joints.iter().filter(|joint| !at.state.has(joint.bit)) {
        if let Some(supply) = at.electrical.live_from(joint.male).and_then(|index| network.supplies.get(index)) {
            let detail = Detail::BareContact { joint: joint.device, supply: supply.device };
            found.push(Break { invariant: Invariant::BareContactsDead, detail });
        }
    }
}

/// The pairs of supplies that a closed path joins, though nobody approved it, by their places.
pub(super) fn joined_pairs<'a>(
    network: &'a Network,
    electrical: &'a Electrical,
) -> impl Iterator<Item = ((usize, &'a Supply), (usize, &'a Supply))> {
    network.supplies.iter().enumerate().flat_map(move |first| {
        let later = network.supplies.iter().enumerate().skip(first.0 + 1);
        later
            .filter(move |second| {
                first.1.approved & super::builder::supply_mask(second.0) == 0
                    && electrical.joins(first.0, second.1.terminal)
            })
            .map(move |second| (first, second))
    })
}

fn joined(network: &Network, at: Side<'_>, found: &mut Vec<Break>) {
    for ((first, one), (second, other)) in joined_pairs(network, at.electrical) {
        let detail = Detail::Joined { first: one.device, second: other.device };
        found.push(Break { invariant: Invariant::SourcesNeverJoined, detail });
        let local = match (one.source, other.source) {
            (None, Some(_)) => second,
            (Some(_), None) => first,
            _ => continue,
        };
        if at.electrical.produces(local) {
            found.push(Break { invariant: Invariant::UtilitySideUntouched, detail });
        }
    }
}

/// Whether a local source gives a load what it is made for. The utility gives the building what it was wired for.
pub(super) fn supply_fits(supply: &Supply, load: &LoadAt, found: &mut Vec<Break>) {
    let Some(facts) = supply.source else { return };
    let mut add = |detail| found.push(Break { invariant: Invariant::SupplyFitsLoads, detail });
    let mut judge = |outcome, lacks, (device, fact)| match outcome {
        Outcome::Holds => {}
        Outcome::Fails => add(Detail::Misfit { load: load.device, source: supply.device, lacks }),
        Outcome::CannotTell => add(Detail::Missing(Question::Fact(device, fact))),
    };
    let (source, load_device) = (supply.device, load.device);
    let system = (source, Fact::System);

    match (load.facts.voltage, facts.system) {
        (None, _) => judge(Outcome::CannotTell, Need::Voltage, (load_device, Fact::Voltage)),
        (_, None) => judge(Outcome::CannotTell, Need::Voltage, system),
        (Some(voltage), Some(given)) => judge(holds(given.gives(voltage)), Need::Voltage, system),
    }
    match (load.facts.shared_neutral, facts.system.map(legs_oppose)) {
        (Some(false), _) | (_, Some(true)) => {}
        (Some(true), Some(false)) => judge(Outcome::Fails, Need::OpposedLegs, system),
        (Some(true), None) => judge(Outcome::CannotTell, Need::OpposedLegs, system),
        (None, _) => judge(Outcome::CannotTell, Need::OpposedLegs, (load_device, Fact::SharedNeutral)),
    }
    match (load.facts.rotation, facts.rotation) {
        (Some(RotationNeed::Any), _) => {}
        (None, _) => judge(Outcome::CannotTell, Need::Rotation, (load_device, Fact::Rotation)),
        (Some(RotationNeed::Only(_)), None) => judge(Outcome::CannotTell, Need::Rotation, (source, Fact::Rotation)),
        (Some(RotationNeed::Only(need)), Some(given)) => judge(holds(need == given), Need::Rotation, system),
    }
}

const fn holds(value: bool) -> Outcome {
    if value { Outcome::Holds } else { Outcome::Fails }
}

/// Whether the currents of two legs subtract in a neutral that they share, instead of adding up.
const fn legs_oppose(system: System) -> bool {
    matches!(system, System::V120V240 | System::V208Y120 | System::V480Y277 | System::V400Y230)
}

/// Counts the bonds of the system that a source feeds; a count that is already too great needs no further fact.
pub(super) fn bonds(network: &Network, supply: &Supply, found: &mut Vec<Break>) {
    let Some(facts) = supply.source else { return };
    let device = supply.device;
    let mut missing = None;
    let mut count = 0u16;
    let mut add = |bonds: Option<u16>, question| match bonds {
        Some(bonds) => count += bonds,
        None => missing = missing.or(Some(question)),
    };
    add(facts.neutral_bonded.map(u16::from), Question::Fact(device, Fact::NeutralBond));
    match (network.service_bonded, facts.neutral_switched) {
        (Some(false), _) | (_, Some(true)) => {}
        (Some(true), Some(false)) => add(Some(1), Question::ServiceBond),
        (None, _) => add(None, Question::ServiceBond),
        (_, None) => add(None, Question::Fact(device, Fact::NeutralSwitching)),
    }
    add(network.other_bonds.map(u16::from), Question::OtherBonds);
    let detail = match missing {
        Some(question) if count < 2 => Detail::Missing(question),
        None if count == 1 => return,
        _ => Detail::Bonds { source: device, count },
    };
    found.push(Break { invariant: Invariant::OneNeutralBond, detail });
}

/// `running` is the side of the step on which the source runs.
fn engine_unloaded(
    network: &Network,
    source: super::network::DeviceId,
    other: Side<'_>,
    running: Side<'_>,
    found: &mut Vec<Break>,
) {
    let Some((index, supply)) = network.supply_of(source) else { return };
    // Starting what already runs, or stopping what does not, changes nothing.
    if other.state.has(supply.bit) || !running.state.has(supply.bit) {
        return;
    }
    let Some(load) = network.loads.iter().find(|load| running.electrical.feeds(index, running.state, load)) else {
        return;
    };
    let detail = match supply.source.and_then(|facts| facts.engine) {
        Some(false) => return,
        Some(true) => Detail::EngineLoaded { source, load: load.device },
        None => Detail::Missing(Question::Fact(source, Fact::Engine)),
    };
    found.push(Break { invariant: Invariant::EngineUnloadedAtStartAndStop, detail });
}

fn touch(network: &Network, place: NodeId, isolators: Isolators, at: Side<'_>, found: &mut Vec<Break>) {
    let mut add = |detail| found.push(Break { invariant: Invariant::DeadProvedBeforeTouch, detail });
    if let Some(supply) = at.electrical.live_from(place).and_then(|index| network.supplies.get(index)) {
        add(Detail::TouchLive { place, supply: supply.device });
    }
    if !at.state.is_tested(place) {
        add(Detail::TouchUntested { place });
    }
    for (isolator, _, _) in network.devices() {
        if isolators.0 & isolator.mask() != 0 && !at.state.is_locked(isolator) {
            add(Detail::TouchUnlocked { place, isolator });
        }
    }
    // Whatever is not locked may be moved by somebody else, and an interlock is no substitute for a lock.
    let mut worst = *at.state;
    for edge in network.edges.iter().filter(|edge| !at.state.is_locked(edge.device)) {
        worst.set |= edge.bit;
    }
    let reach = Electrical::of(network, &worst);
    for (index, supply) in network.supplies.iter().enumerate().take(MAX_SUPPLIES) {
        let stopped = at.state.is_locked(supply.device) && !at.state.has(supply.bit);
        if !stopped && reach.joins(index, place) {
            add(Detail::TouchReachable { place, supply: supply.device });
        }
    }
}
