//! Properties over random networks, against evaluators that share no code with the engine.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use loadworthy::switching::{
    Effect, Interlock, Invariant, KeptBy, Kind, Load, Network, Operation, Position, RotationNeed, Source, State, Throw,
    Transfer,
};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

const NODES: [&str; 6] = ["a", "b", "c", "d", "e", "f"];

#[derive(Clone, Debug)]
struct Drawn {
    joins: Vec<(u8, usize, usize, usize, bool)>,
    sources: Vec<usize>,
    load: usize,
    interlocks: Vec<(usize, usize, u8)>,
    positions: Vec<bool>,
    bonded: bool,
}

fn drawn() -> impl Strategy<Value = Drawn> {
    (
        prop::collection::vec((0u8..4, 0usize..6, 0usize..6, 0usize..6, any::<bool>()), 2..6),
        prop::collection::vec(0usize..6, 1..3),
        0usize..6,
        prop::collection::vec((0usize..6, 0usize..6, 0u8..3), 0..3),
        prop::collection::vec(any::<bool>(), 12),
        any::<bool>(),
    )
        .prop_map(|(joins, sources, load, interlocks, positions, bonded)| Drawn {
            joins,
            sources,
            load,
            interlocks,
            positions,
            bonded,
        })
}

/// A network and a state from what was drawn; `None` where it makes no sense.
fn build(drawn: &Drawn, leave_out: Option<usize>) -> Option<(Network, State)> {
    let mut builder = Network::builder().cover("cover").utility("utility", "a");
    let mut positions = vec![("cover".to_owned(), Position::On), ("utility".to_owned(), Position::Dead)];
    let mut names: Vec<(String, bool)> = Vec::new();
    for (index, (kind, from, to, third, flag)) in drawn.joins.iter().enumerate() {
        let on = drawn.positions[index];
        let (from, to) = (NODES[*from], NODES[*to]);
        let name = format!("device {index}");
        let choose = |yes, no| if on { yes } else { no };
        let position = match kind {
            0 => {
                builder = builder.breaker(&name, from, to);
                choose(Position::Closed, Position::Open)
            }
            1 => {
                builder = builder.joint(&name, from, to);
                choose(Position::Mated, Position::Parted)
            }
            2 => {
                builder = builder.isolating_switch(&name, from, to);
                choose(Position::Closed, Position::Open)
            }
            _ => {
                let facts = Transfer::resting_off(*flag).breaks_before_it_makes(index % 3 != 0);
                builder = builder.transfer(&name, from, to, NODES[*third], facts);
                choose(Position::Utility, Position::Source)
            }
        };
        positions.push((name.clone(), position));
        names.push((name, *kind == 3));
    }
    for (index, node) in drawn.sources.iter().enumerate() {
        let facts = Source::unknown()
            .system("120 V".parse().unwrap())
            .neutral_bonded(drawn.bonded)
            .neutral_switched(false)
            .engine(false);
        let name = format!("source {index}");
        builder = builder.source(&name, NODES[*node], facts);
        positions.push((name, Position::Stopped));
    }
    let load = Load::unknown().voltage("240 V".parse().unwrap()).shared_neutral(false).rotation(RotationNeed::Any);
    builder = builder.load("load", NODES[drawn.load], load).premises(NODES[drawn.load]);
    positions.push(("load".to_owned(), Position::Off));
    for (index, (first, second, carried)) in drawn.interlocks.iter().enumerate() {
        let contact = |at: usize| {
            let (name, transfer) = names.get(at % names.len())?;
            Some((name.clone(), *transfer, if at.is_multiple_of(2) { Throw::Utility } else { Throw::Source }))
        };
        let (first, second) = (contact(*first)?, contact(*second)?);
        if leave_out == Some(index) || first.0 == second.0 {
            continue;
        }
        let carried = if *carried == 0 { Interlock::Cover("cover".to_owned()) } else { Interlock::Devices };
        builder = match (first.1, second.1) {
            (false, false) => builder.interlock(first.0.as_str(), second.0.as_str(), carried),
            (true, false) => builder.interlock((first.0.as_str(), first.2), second.0.as_str(), carried),
            (false, true) => builder.interlock(first.0.as_str(), (second.0.as_str(), second.2), carried),
            (true, true) => builder.interlock((first.0.as_str(), first.2), (second.0.as_str(), second.2), carried),
        };
    }
    let network = builder.service_bonded(true).other_bonds(0).build().ok()?;
    let listed: Vec<(&str, Position)> = positions.iter().map(|(name, position)| (name.as_str(), *position)).collect();
    let state = network.state(&listed).unwrap();
    Some((network, state))
}

fn every_operation(network: &Network) -> Vec<Operation> {
    let mut all = Vec::new();
    for (device, _, kind) in network.devices() {
        match kind {
            Kind::Breaker | Kind::IsolatingSwitch => all.extend([Operation::Close(device), Operation::Open(device)]),
            Kind::Joint => all.extend([Operation::Mate(device), Operation::Part(device)]),
            Kind::Source(_) => all.extend([Operation::Start(device), Operation::Stop(device)]),
            Kind::Load(_) => all.extend([Operation::On(device), Operation::Off(device)]),
            Kind::Utility => all.extend([Operation::UtilityReturns(device), Operation::UtilityFails(device)]),
            Kind::Transfer(facts) => {
                all.extend([Throw::Utility, Throw::Source].map(|side| Operation::Set(device, side)));
                if facts.rests_off {
                    all.push(Operation::Set(device, Throw::Off));
                }
            }
            _ => {}
        }
    }
    all
}

/// Every state that `apply` reaches, momentary ones too, one at a time.
fn plainly_reached(network: &Network, start: &State) -> BTreeMap<String, State> {
    let mut seen = BTreeMap::from([(network.describe(start), *start)]);
    let mut moments = BTreeMap::new();
    let mut open = vec![*start];
    let operations = every_operation(network);
    while let Some(state) = open.pop() {
        for operation in &operations {
            if let Effect::Done { through, state: next } = network.apply(&state, *operation).unwrap() {
                if let Some(moment) = through {
                    moments.insert(format!("{} through {operation:?}", network.describe(&state)), moment);
                }
                if seen.insert(network.describe(&next), next).is_none() {
                    open.push(next);
                }
            }
        }
    }
    seen.append(&mut moments);
    seen
}

/// The invariants that an exploration looks at.
const EXPLORED: [Invariant; 5] = [
    Invariant::BareContactsDead,
    Invariant::SourcesNeverJoined,
    Invariant::UtilitySideUntouched,
    Invariant::OneNeutralBond,
    Invariant::SupplyFitsLoads,
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn exploration_finds_exactly_what_single_states_show(drawn in drawn()) {
        let Some((network, start)) = build(&drawn, None) else { return Ok(()) };
        let mut expected = BTreeSet::new();
        for state in plainly_reached(&network, &start).values() {
            for found in network.breaks(state) {
                if EXPLORED.contains(&found.invariant) {
                    expected.insert(network.explain(&found));
                }
            }
        }
        let found: BTreeSet<String> = network
            .explore(&start)
            .unwrap()
            .hazards
            .iter()
            .filter(|hazard| hazard.kept_by == KeptBy::Discipline)
            .map(|hazard| network.explain(&hazard.found))
            .collect();
        // A state names one supply that makes blades live, the exploration every one that can.
        let blades = |text: &&String| !text.starts_with("bare-contacts-dead");
        prop_assert_eq!(
            found.iter().filter(blades).collect::<Vec<_>>(),
            expected.iter().filter(blades).collect::<Vec<_>>()
        );
        prop_assert!(expected.is_subset(&found));
        let joints = |texts: &BTreeSet<String>| -> BTreeSet<String> {
            texts.iter().filter_map(|text| text.split(" are live").next().map(str::to_owned))
                .filter(|text| text.starts_with("bare")).collect()
        };
        prop_assert_eq!(joints(&found), joints(&expected));
    }

    #[test]
    fn taking_an_interlock_away_never_takes_a_state_away(drawn in drawn(), which in 0usize..3) {
        let (Some(with), Some(without)) = (build(&drawn, None), build(&drawn, Some(which))) else { return Ok(()) };
        let with: BTreeSet<String> = plainly_reached(&with.0, &with.1).into_keys().collect();
        let without: BTreeSet<String> = plainly_reached(&without.0, &without.1).into_keys().collect();
        prop_assert!(with.is_subset(&without));
    }
}
