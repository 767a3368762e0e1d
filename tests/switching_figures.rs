//! Figures: `cargo test --release --test switching_figures -- --ignored --nocapture`.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use loadworthy::switching::{Goal, Interlock, Load, Network, Outcome, Position, RotationNeed, Source, State};
use std::time::Instant;

/// A ring of switches with two sources and a utility: nothing in it can be folded away.
fn ring(switches: usize) -> (Network, State) {
    let node = |index: usize| format!("node {}", index % switches);
    let mut builder = Network::builder();
    let mut positions = Vec::new();
    for index in 0..switches {
        builder = builder.breaker(&format!("breaker {index}"), &node(index), &node(index + 1));
        positions.push((format!("breaker {index}"), Position::Open));
    }
    builder = builder.utility("utility", &node(0)).source("one", &node(switches / 3), Source::unknown()).source(
        "two",
        &node(2 * switches / 3),
        Source::unknown(),
    );
    for name in ["one", "two"] {
        positions.push((name.to_owned(), Position::Stopped));
    }
    positions.push(("utility".to_owned(), Position::Dead));
    builder = builder.interlock("breaker 0", "breaker 1", Interlock::Devices);
    let network = builder.build().unwrap();
    let listed: Vec<(&str, Position)> = positions.iter().map(|(name, position)| (name.as_str(), *position)).collect();
    let state = network.state(&listed).unwrap();
    (network, state)
}

/// An interlocked panel with so many branches, all closed.
fn panel(branches: usize) -> (Network, State, Vec<String>) {
    use Position as P;
    let watts = |power: u32| format!("{power} W").parse().unwrap();
    let mut builder = Network::builder()
        .utility("utility", "service")
        .breaker("main", "service", "bus")
        .breaker("inlet breaker", "bus", "inlet")
        .interlock("main", "inlet breaker", Interlock::Devices)
        .joint("inlet", "inlet", "cord")
        .joint("outlet", "cord", "face")
        .breaker("source breaker", "terminals", "face")
        .source(
            "generator",
            "terminals",
            Source::unknown()
                .rated(watts(7200))
                .surge(watts(9000))
                .leg_rated(watts(3600))
                .system("120/240 V".parse().unwrap())
                .neutral_bonded(false)
                .neutral_switched(false)
                .engine(true),
        );
    let mut positions: Vec<(String, P)> = [
        ("utility", P::Dead),
        ("main", P::Closed),
        ("inlet breaker", P::Open),
        ("inlet", P::Parted),
        ("outlet", P::Parted),
        ("source breaker", P::Open),
        ("generator", P::Stopped),
    ]
    .map(|(name, position)| (name.to_owned(), position))
    .into();
    let mut loads = Vec::new();
    for index in 0..branches {
        let (name, wire) = (format!("load {index}"), format!("wire {index}"));
        let facts = Load::unknown()
            .running(watts(200))
            .starting(watts(1500 + u32::try_from(index).unwrap()))
            .voltage("120 V".parse().unwrap())
            .leg(if index % 2 == 0 { "A" } else { "B" }.parse().unwrap())
            .shared_neutral(false)
            .rotation(RotationNeed::Any);
        builder = builder.breaker(&format!("branch {index}"), "bus", &wire).load(&name, &wire, facts);
        positions.push((format!("branch {index}"), P::Closed));
        positions.push((name.clone(), P::On));
        loads.push(name);
    }
    let network = builder.premises("bus").service_bonded(true).other_bonds(0).build().unwrap();
    let listed: Vec<(&str, P)> = positions.iter().map(|(name, position)| (name.as_str(), *position)).collect();
    let state = network.state(&listed).unwrap();
    (network, state, loads)
}

#[test]
#[ignore = "figures, to be read and not to be judged"]
fn figures() {
    for switches in [12, 16, 20, 22, 24] {
        let (network, start) = ring(switches);
        let before = Instant::now();
        let found = network.explore(&start).unwrap();
        println!(
            "explore {switches} switches: {} states, {} hazards, {:?}",
            found.reached,
            found.hazards.len(),
            before.elapsed()
        );
        assert_eq!(found.outcome, Outcome::Fails);
    }
    for (branches, chosen) in [(4, 4), (8, 8), (12, 12), (16, 4), (16, 16), (24, 12), (40, 8)] {
        let (network, start, loads) = panel(branches);
        let before = Instant::now();
        let found = network.explore(&start).unwrap();
        let explored = before.elapsed();
        assert_eq!(found.outcome, Outcome::Holds);
        let source = network.find("generator").unwrap();
        let loads = loads.iter().take(chosen).map(|name| network.find(name).unwrap()).collect();
        let before = Instant::now();
        let order = network.find_order(&start, &Goal::Fed { source, loads });
        println!(
            "panel of {branches} branches, {chosen} chosen: explored in {explored:?}; order of {:?} in {:?}",
            order.map(|order| (order.operations.len(), order.shortest)).map_err(|error| error.to_string()),
            before.elapsed()
        );
    }
}
