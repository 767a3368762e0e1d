//! The choice as integers: what each way of carrying a load takes from each limit, and what the load is worth.

use super::limits::{LegLimit, LimitName, Limits, NeutralCurrent};
use super::{ChooseError, ClassWorth, Load, Wish};
use crate::plan::exact::{CommonUnit, Draw, Exact};
use crate::quantity::{Amperes, Ratio};
use crate::trade::{Duty, Leg};

/// A choice to be searched.
pub(super) struct Problem {
    pub(super) capacities: Vec<Capacity>,
    /// Pairs of capacities in one unit, the two legs of one limit: their sum bounds loads that may use either.
    pub(super) leg_pairs: Vec<(usize, usize)>,
    /// In the order of the search.
    pub(super) items: Vec<Item>,
    pub(super) classes: Classes,
    pub(super) rounded: bool,
    /// What the difference of the legs may be, in units of the capacity of `Balance`.
    pub(super) balance: Option<i64>,
    /// Every load's takings, also of those that are not searched.
    pub(super) takings: Vec<Vec<Way>>,
}

/// One limit.
pub(super) struct Capacity {
    pub(super) name: LimitName,
    pub(super) kind: Kind,
    /// Capacities with the same number count in the same unit.
    pub(super) group: usize,
    pub(super) unit: CommonUnit,
    /// In whole units, rounded down.
    pub(super) limit: i64,
    /// As it was stated.
    pub(super) stated: Exact,
}

/// What a capacity counts.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// The current of a leg: of the source (`None`) or of a shared limit.
    Leg {
        shared: Option<usize>,
        leg: Leg,
        continuous: Ratio,
    },
    Total,
    Power,
    /// The neutral current that loads on these legs cause.
    Neutral(Leg),
    /// The difference of the legs; not a sum, so its takings are kept apart.
    Balance,
    /// The current of a leg with the two greatest starts of loads that come on by themselves.
    Surge(Leg),
    /// The same as apparent power.
    SurgeTotal,
}

/// A load in the search.
pub(super) struct Item {
    pub(super) load: usize,
    pub(super) worth: u128,
    pub(super) must: bool,
    pub(super) ways: Vec<Way>,
    pub(super) groups: Vec<u16>,
    /// Nothing distinguishes it from the item before.
    pub(super) like_previous: bool,
}

/// One way of carrying a load.
#[derive(Clone, PartialEq, Eq)]
pub(super) struct Way {
    pub(super) leg: Leg,
    /// What it takes of each capacity, by index.
    pub(super) takes: Vec<(usize, i64)>,
    /// What it takes more while it starts by itself, by index; only the two greatest count.
    pub(super) surplus: Vec<(usize, i64)>,
    /// What it adds to leg A less leg B.
    pub(super) tilt: i64,
}

/// The two greatest starts that count at each capacity.
#[derive(Clone)]
pub(super) struct Starts(Vec<[i64; 2]>);

impl Starts {
    pub(super) fn new(capacities: usize) -> Self {
        Self(vec![[0; 2]; capacities])
    }

    /// One more load that may start by itself.
    pub(super) fn add(&mut self, way: &Way) {
        for (at, more) in &way.surplus {
            if let Some(two) = self.0.get_mut(*at) {
                let [first, second] = *two;
                *two = if *more > first { [*more, first] } else { [first, second.max(*more)] };
            }
        }
    }

    /// What they take of a capacity.
    pub(super) fn of(&self, capacity: usize) -> i64 {
        self.0.get(capacity).map_or(0, |[first, second]| first + second)
    }

    /// The two, to be put back with [`Self::put_back`].
    pub(super) fn kept(&self, capacity: usize) -> [i64; 2] {
        self.0.get(capacity).copied().unwrap_or_default()
    }

    pub(super) fn put_back(&mut self, capacity: usize, two: [i64; 2]) {
        if let Some(place) = self.0.get_mut(capacity) {
            *place = two;
        }
    }
}

/// The worth of classes as digits of one number, the most important first.
pub(super) struct Classes(Vec<ClassDigit>);

struct ClassDigit {
    class: u8,
    /// The greatest common divisor of the weights.
    step: u64,
    /// The place value.
    place: u128,
}

impl Problem {
    pub(super) fn new(loads: &[Load], limits: &Limits) -> Result<Self, ChooseError> {
        for load in loads {
            if let Some(&index) = load.through.iter().find(|index| **index >= limits.shared.len()) {
                return Err(ChooseError::NoSuchLimit { load: load.name.clone(), index, count: limits.shared.len() });
            }
        }
        let classes = Classes::new(loads)?;
        let (capacities, leg_pairs, balance) = capacities(loads, limits)?;
        let mut takings = Vec::new();
        for load in loads {
            takings.push(if load.wish == Wish::Off { Vec::new() } else { takes_of(load, &capacities)? });
        }
        let mut items = items(loads, &takings, &capacities, &classes);
        items.sort_by(|a, b| order(a, b, loads, &capacities));
        mark_alike(&mut items);
        let rounded = capacities.iter().any(|capacity| !capacity.unit.exact);
        Ok(Self { capacities, leg_pairs, items, classes, rounded, balance, takings })
    }
}

type Named = (LimitName, Kind, Exact);
type Capacities = (Vec<Capacity>, Vec<(usize, usize)>, Option<i64>);

fn capacities(loads: &[Load], limits: &Limits) -> Result<Capacities, ChooseError> {
    let mut capacities = Vec::new();
    let reached = |(index, limit): &(usize, &LegLimit)| can_be_reached(loads, *index, limit);
    let shared = (0..).zip(&limits.shared).filter(reached).map(|(index, limit)| (Some(index), limit));
    let with_leg = std::iter::once((None, &limits.source)).chain(shared);
    let mut legs: Vec<Vec<_>> = with_leg.map(|(shared, limit)| leg_kinds(shared, limit)).collect();
    let any_start = loads.iter().any(|load| load.wish != Wish::Off && load.start.is_some());
    if let Some(surge) = limits.surge.leg.filter(|_| any_start) {
        let kind = |leg| (LimitName::Surge { leg, starting: Vec::new() }, Kind::Surge(leg), Exact::of(surge));
        legs.push(vec![kind(Leg::A), kind(Leg::B)]);
    }
    let pairs = add_legs(&mut capacities, loads, &legs)?;
    let total = limits.total.stated().map(|total| (LimitName::Total, Kind::Total, Exact::of(total)));
    let surge = limits.surge.total.filter(|_| any_start);
    let surge = surge.map(|surge| (LimitName::SurgeTotal { starting: Vec::new() }, Kind::SurgeTotal, Exact::of(surge)));
    let totals: Vec<_> = total.into_iter().chain(surge).collect();
    add(&mut capacities, loads, &totals)?;
    if let Some(power) = limits.power.stated() {
        add(&mut capacities, loads, &[(LimitName::Power, Kind::Power, Exact::of(power))])?;
    }
    let mut balance = None;
    if let Some(neutral) = limits.neutral.stated() {
        let limit = Exact::of(neutral.limit);
        let kinds: &[Kind] = match neutral.current {
            NeutralCurrent::GreaterLeg => &[Kind::Neutral(Leg::A), Kind::Neutral(Leg::B)],
            NeutralCurrent::Sum => &[Kind::Neutral(Leg::Both)],
            NeutralCurrent::Difference => &[Kind::Balance],
        };
        let named: Vec<_> = kinds.iter().map(|kind| (LimitName::Neutral, *kind, limit)).collect();
        add(&mut capacities, loads, &named)?;
        if kinds == [Kind::Balance] {
            balance = capacities.last().map(|capacity| capacity.limit);
        }
    }
    Ok((capacities, pairs, balance))
}

/// Adds the legs of every limit, all in one unit where one is fine enough, so that what is left of them compares.
fn add_legs(to: &mut Vec<Capacity>, loads: &[Load], legs: &[Vec<Named>]) -> Result<Vec<(usize, usize)>, ChooseError> {
    let first = to.len();
    add(to, loads, &legs.concat())?;
    if to.iter().skip(first).any(|capacity| !capacity.unit.exact) {
        to.truncate(first);
        for of_one in legs {
            add(to, loads, of_one)?;
        }
    }
    let mut at = first;
    let mut pairs = Vec::new();
    for of_one in legs {
        if of_one.len() == 2 {
            pairs.push((at, at + 1));
        }
        at += of_one.len();
    }
    Ok(pairs)
}

/// Whether the loads that pass through a shared limit can exceed it; where they cannot, it limits nothing.
fn can_be_reached(loads: &[Load], index: usize, limit: &LegLimit) -> bool {
    let passing = || loads.iter().filter(|load| load.wish != Wish::Off && load.through.contains(&index));
    if passing().next().is_none() {
        return false;
    }
    let mut currents = passing().filter_map(|load| Some(counted(load.draw?.current, load.duty, limit.continuous)));
    let Some(sum) = currents.try_fold(Exact::ZERO, |sum, current| sum.plus(current?)) else { return true };
    let above = |most: Amperes| sum.fraction() > Exact::of(most).fraction();
    [limit.leg_a, limit.leg_b].into_iter().filter_map(super::Known::stated).any(above)
}

/// What a current counts against a limit; `None` where that cannot be held.
fn counted(current: Exact, duty: Duty, continuous: Ratio) -> Option<Exact> {
    if duty == Duty::Continuous && continuous != Ratio::ONE { current.scaled(continuous) } else { Some(current) }
}

fn leg_kinds(shared: Option<usize>, limit: &LegLimit) -> Vec<Named> {
    let kind = |leg, most: Amperes| {
        let name = LimitName::Leg { of: limit.name.clone(), leg };
        (name, Kind::Leg { shared, leg, continuous: limit.continuous }, Exact::of(most))
    };
    let legs = [(Leg::A, limit.leg_a), (Leg::B, limit.leg_b)];
    legs.into_iter().filter_map(|(leg, most)| Some(kind(leg, most.stated()?))).collect()
}

/// Adds limits of one kind, in one unit.
fn add(to: &mut Vec<Capacity>, loads: &[Load], named: &[Named]) -> Result<(), ChooseError> {
    let group = to.len();
    let mut draws = Vec::new();
    for load in loads.iter().filter(|load| load.wish != Wish::Off) {
        for (_, kind, _) in named {
            for leg in load.placement.ways() {
                draws.extend(taken(load, *kind, *leg)?);
                draws.extend(started(load, *kind, *leg));
            }
        }
    }
    let greatest = named.iter().map(|(_, _, limit)| *limit).max_by(|a, b| a.fraction().cmp(&b.fraction()));
    let Some(greatest) = greatest else { return Ok(()) };
    let too_fine =
        || ChooseError::TooFine { load: loads.iter().map(|load| load.name.as_str()).collect::<Vec<_>>().join("`, `") };
    let unit = CommonUnit::of(&draws, greatest).ok_or_else(too_fine)?;
    for (name, kind, limit) in named {
        let whole = if greatest == Exact::ZERO { 0 } else { unit.limit(*limit).ok_or_else(too_fine)? };
        to.push(Capacity { name: name.clone(), kind: *kind, group, unit, limit: whole, stated: *limit });
    }
    Ok(())
}

/// What a load carried on `leg` takes of a capacity, in the smallest unit of its quantity.
fn taken(load: &Load, kind: Kind, leg: Leg) -> Result<Option<Exact>, ChooseError> {
    let Some(Draw { current, apparent, power }) = load.draw else { return Ok(None) };
    let on = |side: Leg| leg == side || leg == Leg::Both;
    Ok(match kind {
        Kind::Leg { shared, leg: side, continuous } => {
            if !on(side) || shared.is_some_and(|index| !load.through.contains(&index)) {
                return Ok(None);
            }
            let counted = counted(current, load.duty, continuous);
            Some(counted.ok_or_else(|| ChooseError::TooFine { load: load.name.clone() })?)
        }
        Kind::Surge(side) => on(side).then_some(current),
        Kind::Total | Kind::SurgeTotal => Some(apparent),
        Kind::Power => Some(power),
        // A load between the legs has no neutral current.
        Kind::Neutral(side) => (leg != Leg::Both && (side == Leg::Both || side == leg)).then_some(current),
        Kind::Balance => (leg != Leg::Both).then_some(current),
    })
}

/// What it draws while it starts; never less than while it runs.
fn started(load: &Load, kind: Kind, leg: Leg) -> Option<Exact> {
    let (running, start) = (load.draw?, load.start?);
    let greater = |a: Exact, b: Exact| if a.fraction() > b.fraction() { a } else { b };
    match kind {
        Kind::Surge(side) => (leg == side || leg == Leg::Both).then(|| greater(start.current, running.current)),
        Kind::SurgeTotal => Some(greater(start.apparent, running.apparent)),
        _ => None,
    }
}

fn takes_of(load: &Load, capacities: &[Capacity]) -> Result<Vec<Way>, ChooseError> {
    let mut ways = Vec::new();
    for &leg in load.placement.ways() {
        let mut way = Way { leg, takes: Vec::new(), surplus: Vec::new(), tilt: 0 };
        for (index, capacity) in capacities.iter().enumerate() {
            let Some(draw) = taken(load, capacity.kind, leg)? else { continue };
            let count = capacity.unit.count(draw);
            match capacity.kind {
                Kind::Balance => way.tilt = if leg == Leg::A { count } else { -count },
                _ if count > 0 => way.takes.push((index, count)),
                _ => {}
            }
            let surplus = started(load, capacity.kind, leg).map_or(0, |start| capacity.unit.count(start) - count);
            if surplus > 0 {
                way.surplus.push((index, surplus));
            }
        }
        ways.push(way);
    }
    Ok(ways)
}

fn items(loads: &[Load], takings: &[Vec<Way>], capacities: &[Capacity], classes: &Classes) -> Vec<Item> {
    let mut items = Vec::new();
    for (index, (load, takes)) in loads.iter().zip(takings).enumerate() {
        let fits = |way: &&Way| {
            way.takes.iter().all(|(at, count)| {
                let start = way.surplus.iter().find(|(of, _)| of == at).map_or(0, |(_, surplus)| *surplus);
                capacities.get(*at).is_some_and(|capacity| count + start <= capacity.limit)
            })
        };
        let ways: Vec<Way> = takes.iter().filter(fits).cloned().collect();
        let must = load.wish == Wish::Must;
        if load.wish == Wish::Off || load.draw.is_none() || ways.is_empty() && !must {
            continue;
        }
        let worth = classes.worth(load);
        items.push(Item { load: index, worth, must, ways, groups: load.groups.clone(), like_previous: false });
    }
    items
}

/// Loads that must be on come first, then by class, then those with the greatest starts, for these decide how much is
/// left to the others, then by worth for what they take.
fn order(a: &Item, b: &Item, loads: &[Load], capacities: &[Capacity]) -> std::cmp::Ordering {
    let class = |item: &Item| loads.get(item.load).map_or(u8::MAX, |load| load.class);
    let share = |item: &Item| -> u128 {
        let of = |(at, count): &(usize, i64)| {
            let limit = capacities.get(*at).map_or(1, |capacity| capacity.limit.max(1));
            (u128::from(count.unsigned_abs()) << 20) / u128::from(limit.unsigned_abs())
        };
        1 + item.ways.first().map_or(0, |way| way.takes.iter().map(of).sum())
    };
    // Worth within a class is far below 2^64 times the share, or the order is merely less good.
    let density = a.worth.saturating_mul(share(b)).cmp(&b.worth.saturating_mul(share(a)));
    let surplus =
        |item: &Item| item.ways.first().map_or(0, |way| way.surplus.iter().map(|(_, more)| *more).sum::<i64>());
    let starts = surplus(b).cmp(&surplus(a));
    b.must.cmp(&a.must).then(class(a).cmp(&class(b))).then(starts).then(density.reverse()).then(a.load.cmp(&b.load))
}

fn mark_alike(items: &mut [Item]) {
    for pair in items.chunk_by_mut(|a, b| {
        a.worth == b.worth && a.must == b.must && a.ways == b.ways && a.groups.is_empty() && b.groups.is_empty()
    }) {
        pair.iter_mut().skip(1).for_each(|item| item.like_previous = true);
    }
}

impl Classes {
    fn new(loads: &[Load]) -> Result<Self, ChooseError> {
        let counted = || loads.iter().filter(|load| load.wish != Wish::Off && load.draw.is_some());
        let mut names: Vec<u8> = counted().map(|load| load.class).collect();
        names.sort_unstable();
        names.dedup();
        let mut digits = Vec::new();
        let mut place: u128 = 1;
        for &class in names.iter().rev() {
            let of_class = || counted().filter(|load| load.class == class).map(|load| u64::from(load.weight.get()));
            let step = of_class().fold(0, common_divisor);
            digits.push(ClassDigit { class, step, place });
            let values = of_class().map(|weight| u128::from(weight / step)).sum::<u128>() + 1;
            // One bit is left for the bound, which marks what cannot be with 0.
            place = place
                .checked_mul(values)
                .filter(|place| *place < 1 << 126)
                .ok_or(ChooseError::WorthTooWide { classes: names.len() })?;
        }
        digits.reverse();
        Ok(Self(digits))
    }

    fn worth(&self, load: &Load) -> u128 {
        let digit = self.0.iter().find(|digit| digit.class == load.class);
        digit.map_or(0, |digit| u128::from(u64::from(load.weight.get()) / digit.step) * digit.place)
    }

    /// The weights of each class that a worth stands for.
    pub(super) fn weights(&self, mut worth: u128) -> Vec<ClassWorth> {
        let mut weights = Vec::new();
        for digit in &self.0 {
            let count = u64::try_from(worth / digit.place).unwrap_or(u64::MAX);
            weights.push(ClassWorth { class: digit.class, weight: count.saturating_mul(digit.step) });
            worth %= digit.place;
        }
        weights
    }
}

/// How many units make one cell, so that a limit has `most` cells at most; no finer than the draws are.
pub(super) fn cell(limit: i64, takes: impl Iterator<Item = i64>, most: i64) -> i64 {
    let step = takes.filter(|takes| *takes != 0).map(i64::unsigned_abs).fold(0, common_divisor).max(1);
    let step = i64::try_from(step).unwrap_or(i64::MAX);
    (limit / step / most + 1).saturating_mul(step)
}

fn common_divisor(mut a: u64, mut b: u64) -> u64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a.max(1)
}
