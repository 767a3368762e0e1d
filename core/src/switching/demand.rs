//! What a source carries: settled, at the moment of a step, and on each leg.

use super::invariant::{Break, Detail, Fact, Invariant, Limit, Question};
use super::judge::Side;
use super::network::{DeviceId, LoadAt, Network, Supply};
use crate::quantity::{Quantity, Watts};
use crate::trade::{Leg, System};

/// A sum in which some terms may be unknown.
#[derive(Clone, Copy, Default)]
struct Sum {
    /// The known part, in counts of the smallest unit of power.
    count: i128,
    missing: Option<Question>,
}

impl Sum {
    fn add(&mut self, power: Option<Watts>, device: DeviceId, fact: Fact) {
        match power {
            // At most 128 loads, each far below the range of the sum: it cannot overflow.
            Some(power) => self.count += power.count(),
            None => self.missing = self.missing.or(Some(Question::Fact(device, fact))),
        }
    }

    /// Compares `parts` of the sum with as many parts of the rating: half a load on each leg stays a whole number.
    fn within(self, rating: Option<Watts>, parts: i128, source: DeviceId, limit: Limit, found: &mut Vec<Break>) {
        let mut add = |detail| found.push(Break { invariant: Invariant::SourceNotOverloaded, detail });
        let Some(rating) = rating else {
            if self.count > 0 || self.missing.is_some() {
                let fact = match limit {
                    Limit::Rated => Fact::RatedPower,
                    Limit::Surge => Fact::SurgePower,
                    Limit::Leg => Fact::LegPower,
                };
                add(Detail::Missing(Question::Fact(source, fact)));
            }
            return;
        };
        if self.count > rating.count().saturating_mul(parts) {
            // Shown only; a part too small to show is dropped after the verdict.
            let demand = Watts::from_count(self.count / parts).unwrap_or(Watts::MAX);
            add(Detail::Overload { source, limit, demand, rating });
        } else if let Some(question) = self.missing {
            add(Detail::Missing(question));
        }
    }
}

/// The settled load of a producing source, and of its legs.
pub(super) fn settled(network: &Network, at: Side<'_>, index: usize, supply: &Supply, found: &mut Vec<Break>) {
    let Some(facts) = supply.source else { return };
    let fed = || network.loads.iter().filter(move |load| at.electrical.feeds(index, at.state, load));
    let mut whole = Sum::default();
    for load in fed() {
        whole.add(load.facts.running, load.device, Fact::RunningPower);
    }
    whole.within(facts.rated, 1, supply.device, Limit::Rated, found);
    match facts.system {
        Some(System::V120 | System::V240 | System::V230) => {}
        Some(System::V120V240) => {
            for leg in [Leg::A, Leg::B] {
                on_leg(leg, fed()).within(facts.leg_rated, 2, supply.device, Limit::Leg, found);
            }
        }
        // How three phases share a load is not described by two legs.
        Some(_) => Sum { missing: Some(Question::Fact(supply.device, Fact::LegPower)), ..whole }
            .within_nothing(found, fed().next().is_some()),
        None => Sum { missing: Some(Question::Fact(supply.device, Fact::System)), ..whole }
            .within_nothing(found, fed().next().is_some()),
    }
}

impl Sum {
    fn within_nothing(self, found: &mut Vec<Break>, loaded: bool) {
        if let (Some(question), true) = (self.missing, loaded) {
            found.push(Break { invariant: Invariant::SourceNotOverloaded, detail: Detail::Missing(question) });
        }
    }
}

/// Twice the load of one leg.
fn on_leg<'a>(leg: Leg, loads: impl Iterator<Item = &'a LoadAt>) -> Sum {
    let mut sum = Sum::default();
    for load in loads {
        let (power, device) = (load.facts.running, load.device);
        match load.facts.leg {
            Some(Leg::Both) => sum.add(power, device, Fact::RunningPower),
            Some(on) if on == leg => {
                sum.add(power, device, Fact::RunningPower);
                sum.add(power, device, Fact::RunningPower);
            }
            Some(_) => {}
            None => sum.add(None, device, Fact::Leg),
        }
    }
    sum
}

/// The load at the moment of a step: what this source already fed runs, what it newly feeds starts.
pub(super) fn pick_up(
    network: &Network,
    before: Side<'_>,
    after: Side<'_>,
    index: usize,
    supply: &Supply,
    found: &mut Vec<Break>,
) {
    let Some(facts) = supply.source else { return };
    let mut sum = Sum::default();
    let mut starts = false;
    for load in network.loads.iter().filter(|load| after.electrical.feeds(index, after.state, load)) {
        if before.electrical.feeds(index, before.state, load) {
            sum.add(load.facts.running, load.device, Fact::RunningPower);
        } else {
            starts = true;
            sum.add(load.facts.starting, load.device, Fact::StartingPower);
        }
    }
    // Where nothing starts, an unknown surge power decides nothing.
    if starts || facts.surge.is_some() {
        sum.within(facts.surge, 1, supply.device, Limit::Surge, found);
    }
}
