//! A pause to refuel: the source off its loads and stopped, cold before fuel goes in, and then back to the same loads.

use super::device::Throw;
use super::goal::Goal;
use super::network::{DeviceId, Kind, Network};
use super::operation::Operation;
use super::procedure::Order;
use super::search::Shortest;
use super::state::State;
use crate::rules::Outcome;

impl Network {
    /// An order to refuel a source that feeds `loads` in `start`: its loads taken off, the engine stopped and left to
    /// cool, fuel put in, and the shortest order back to the loads. Every step is proved as in any order; whether fewer
    /// would do is not asked. `None` where no single contact and no row of loads takes the loads off it.
    ///
    /// The pause itself is common practice of set manuals, no code section.
    ///
    /// ```
    /// use loadworthy::switching::{Load, Network, Operation, Position as P, RotationNeed, Source};
    /// let network = Network::builder()
    ///     .breaker("source breaker", "terminals", "cord")
    ///     .source("generator", "terminals", Source::unknown()
    ///         .rated("5500 W".parse()?).surge("7000 W".parse()?).leg_rated("2750 W".parse()?)
    ///         .system("120/240 V".parse()?).neutral_bonded(false).neutral_switched(false).engine(true))
    ///     .load("fridge", "cord", Load::unknown()
    ///         .running("200 W".parse()?).starting("1200 W".parse()?).voltage("120 V".parse()?)
    ///         .leg("A".parse()?).shared_neutral(false).rotation(RotationNeed::Any))
    ///     .build()?;
    /// let feeding = network.state(&[("source breaker", P::Closed), ("generator", P::Running), ("fridge", P::On)])?;
    /// let id = |name| network.find(name).ok_or("no such device");
    /// let order = network.refuel_order(&feeding, id("generator")?, &[id("fridge")?]).ok_or("no order")?;
    /// let words: Vec<String> = order.steps.iter().map(|step| network.operation(step.operation)).collect();
    /// assert_eq!(words, ["open `source breaker`", "stop `generator`", "let cool `generator`", "refuel `generator`",
    ///     "start `generator`", "close `source breaker`"]);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn refuel_order(&self, start: &State, source: DeviceId, loads: &[DeviceId]) -> Option<Order> {
        let goal = Goal::Fed { source, loads: loads.to_vec() };
        let pause = [Operation::Stop(source), Operation::Cool(source), Operation::Refuel(source)];
        // Of all that would do, the one with the fewest steps; of those, the one nearest the source.
        let mut best: Option<Vec<Operation>> = None;
        for unload in self.ways_to_unload(start, source, loads) {
            let mut steps: Vec<Operation> = unload.into_iter().chain(pause).collect();
            let Ok(judged) = self.verify_whatever_the_utility_does(start, &steps) else { continue };
            if judged.outcome != Outcome::Holds || !judged.refused.is_empty() {
                continue;
            }
            let Ok(back) = self.find_order(&judged.last, &goal) else { continue };
            steps.extend(back.operations);
            if best.as_ref().is_none_or(|best| steps.len() < best.len()) {
                best = Some(steps);
            }
        }
        let mut order = self.with_reasons(start, best?, Shortest::NotProved, &goal)?;
        // Without fuel the loads are fed all the same, for a while: that is no order that survives.
        let fuels =
            |step: usize| step.checked_sub(1).and_then(|index| order.steps.get(index)).map(|step| step.operation);
        order.faults =
            order.faults.iter().filter(|fault| fuels(fault.step) != Some(Operation::Refuel(source))).cloned().collect();
        Some(order)
    }

    /// Single contacts that may take the loads off, those nearest the source first, then the loads one by one.
    fn ways_to_unload(&self, start: &State, source: DeviceId, loads: &[DeviceId]) -> Vec<Vec<Operation>> {
        let mut ways = Vec::new();
        let mut seen = Vec::new();
        let mut nodes: Vec<_> = self.supply_of(source).map(|(_, supply)| supply.terminal).into_iter().collect();
        let mut next = 0;
        // Breadth first over the contacts that are closed.
        while let Some(node) = nodes.get(next).copied() {
            next += 1;
            for edge in self.edges.iter().filter(|edge| start.has(edge.bit) && (edge.from == node || edge.to == node)) {
                let far = if edge.from == node { edge.to } else { edge.from };
                if !nodes.contains(&far) {
                    nodes.push(far);
                }
                if seen.contains(&edge.device) {
                    continue;
                }
                seen.push(edge.device);
                match self.device(edge.device).map(|device| device.kind) {
                    Some(Kind::Breaker | Kind::IsolatingSwitch) => ways.push(vec![Operation::Open(edge.device)]),
                    Some(Kind::Transfer(facts)) => {
                        let to = if facts.rests_off { Throw::Off } else { Throw::Utility };
                        ways.push(vec![Operation::Set(edge.device, to)]);
                    }
                    _ => {}
                }
            }
        }
        ways.push(loads.iter().map(|load| Operation::Off(*load)).collect());
        ways
    }
}
