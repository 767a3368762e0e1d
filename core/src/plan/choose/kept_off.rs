//! Why a load is off: which limit it would break, and by how much.

use std::fmt;

use super::problem::{Capacity, Kind, Problem, Way};
use super::{LimitName, Load, Wish};
use crate::plan::exact::Exact;
use crate::quantity::{Amperes, Rounding, VoltAmperes, Watts};
use crate::trade::Leg;

/// A load that is off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptOff {
    /// Its index.
    pub load: usize,
    /// Why.
    pub reason: Reason,
}

/// Why a load is off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reason {
    /// The user wants it off.
    Wished,
    /// Nobody has said what it draws.
    DrawNotStated,
    /// A member of one of its groups is on.
    Excluded {
        /// The index of that member.
        by: usize,
    },
    /// With the others as they are, it would break these limits, on the leg where it breaks the fewest.
    Breaks(Vec<Breach>),
}

/// A limit that would be broken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Breach {
    /// Which.
    pub limit: LimitName,
    /// By how much, rounded up.
    pub over: Amount,
}

/// A current or a power.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Amount {
    /// A current.
    Current(Amperes),
    /// Apparent power.
    Apparent(VoltAmperes),
    /// Real power.
    Power(Watts),
}

impl fmt::Display for Amount {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Current(current) => current.fmt(out),
            Self::Apparent(power) => power.fmt(out),
            Self::Power(power) => power.fmt(out),
        }
    }
}

/// The loads that are on, with their legs, and those that are off, with the reason.
pub(super) fn explain(loads: &[Load], problem: &Problem, ways: &[Option<usize>]) -> (Vec<(usize, Leg)>, Vec<KeptOff>) {
    let mut on = Vec::new();
    let mut used = vec![0; problem.capacities.len()];
    let mut tilt = 0;
    let mut carried = Vec::new();
    let mut add = |way: &Way, on: &mut Vec<(usize, Leg)>, load: usize| {
        on.push((load, way.leg));
        tilt += way.tilt;
        for (at, count) in &way.takes {
            if let Some(used) = used.get_mut(*at) {
                *used += count;
            }
        }
    };
    for (item, way) in problem.items.iter().zip(ways) {
        if let Some(way) = way.and_then(|index| item.ways.get(index)) {
            add(way, &mut on, item.load);
            carried.push((item.load, way));
        }
    }
    on.sort_unstable_by_key(|(load, _)| *load);
    let mut off = Vec::new();
    for (index, load) in loads.iter().enumerate() {
        if on.iter().any(|(load, _)| *load == index) {
            continue;
        }
        let shares = |other: &Load| other.groups.iter().any(|group| load.groups.contains(group));
        let excluded = on.iter().map(|(other, _)| *other).find(|other| loads.get(*other).is_some_and(shares));
        let reason = match (load.wish, excluded) {
            (Wish::Off, _) => Reason::Wished,
            _ if load.draw.is_none() => Reason::DrawNotStated,
            (_, Some(by)) => Reason::Excluded { by },
            _ => {
                let beside = Beside { loads, capacities: &problem.capacities, used: &used, carried: &carried, tilt };
                let ways = problem.takings.get(index).map_or(&[][..], Vec::as_slice);
                let of = |way: &Way| beside.breaches(index, way);
                Reason::Breaks(ways.iter().map(of).min_by_key(Vec::len).unwrap_or_default())
            }
        };
        off.push(KeptOff { load: index, reason });
    }
    (on, off)
}

/// What is on, beside which one more load is looked at.
struct Beside<'s> {
    loads: &'s [Load],
    capacities: &'s [Capacity],
    used: &'s [i64],
    carried: &'s [(usize, &'s Way)],
    tilt: i64,
}

impl Beside<'_> {
    /// What one more load would break.
    fn breaches(&self, load: usize, way: &Way) -> Vec<Breach> {
        let mut breaches = Vec::new();
        for (index, capacity) in self.capacities.iter().enumerate() {
            let taken = way.takes.iter().find(|(at, _)| *at == index).map_or(0, |(_, count)| *count);
            let starts = self.starts(index, load, way);
            let sum = match capacity.kind {
                Kind::Balance if way.tilt != 0 => (self.tilt + way.tilt).abs(),
                Kind::Balance => continue,
                _ if taken == 0 => continue,
                _ => {
                    self.used.get(index).copied().unwrap_or(0)
                        + taken
                        + starts.iter().map(|(more, _)| more).sum::<i64>()
                }
            };
            if sum > capacity.limit {
                let limit = self.named(&capacity.name, &starts);
                breaches.push(Breach { limit, over: capacity.over(sum) });
            }
        }
        breaches
    }

    /// The two greatest starts that count at a capacity, with the loads.
    fn starts(&self, capacity: usize, load: usize, way: &Way) -> Vec<(i64, usize)> {
        let more = |(load, way): (usize, &Way)| {
            way.surplus.iter().find(|(at, _)| *at == capacity).map(|(_, more)| (*more, load))
        };
        let mut starts: Vec<_> = self.carried.iter().copied().chain([(load, way)]).filter_map(more).collect();
        starts.sort_by_key(|(more, load)| (std::cmp::Reverse(*more), *load));
        starts.truncate(2);
        starts
    }

    fn named(&self, name: &LimitName, starts: &[(i64, usize)]) -> LimitName {
        let names =
            || starts.iter().filter_map(|(_, load)| self.loads.get(*load)).map(|load| load.name.clone()).collect();
        match name {
            LimitName::Surge { leg, .. } => LimitName::Surge { leg: *leg, starting: names() },
            LimitName::SurgeTotal { .. } => LimitName::SurgeTotal { starting: names() },
            other => other.clone(),
        }
    }
}

/// By how much the loads that must be on exceed each limit at least.
pub(super) fn musts(problem: &Problem) -> Vec<Breach> {
    let mut breaches = Vec::new();
    for (index, capacity) in problem.capacities.iter().enumerate() {
        let takes = |way: &Way| way.takes.iter().find(|(at, _)| *at == index).map_or(0, |(_, count)| *count);
        // Ways that cannot be used were already left out of the items, so the takings are asked.
        let least = |load: usize| problem.takings.get(load).and_then(|ways| ways.iter().map(takes).min()).unwrap_or(0);
        let sum: i64 = problem.items.iter().filter(|item| item.must).map(|item| least(item.load)).sum();
        if sum > capacity.limit {
            breaches.push(Breach { limit: capacity.name.clone(), over: capacity.over(sum) });
        }
    }
    breaches
}

impl Capacity {
    /// By how much a sum of units is over the limit.
    fn over(&self, sum: i64) -> Amount {
        let exact = self.unit.amount(sum).and_then(|sum| sum.minus(self.stated)).unwrap_or(Exact::ZERO);
        match self.kind {
            Kind::Total | Kind::SurgeTotal => Amount::Apparent(exact.rounded(Rounding::Up, VoltAmperes::MAX)),
            Kind::Power => Amount::Power(exact.rounded(Rounding::Up, Watts::MAX)),
            Kind::Leg { .. } | Kind::Surge(_) | Kind::Neutral(_) | Kind::Balance => {
                Amount::Current(exact.rounded(Rounding::Up, Amperes::MAX))
            }
        }
    }
}
