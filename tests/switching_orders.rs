//! Orders that are found: accepted step by step, shortest, and there and back on every arrangement that allows it.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use loadworthy::switching::{
    Goal, Kind, Network, NoOrder, Operation, Outcome, Position, Scenario, State, Withheld, scenarios,
};

const FILE: &str = include_str!("published/switching-scenarios.json");

fn scenario(id: &str) -> Scenario {
    scenarios(FILE).unwrap().into_iter().find(|scenario| scenario.id == id).unwrap()
}

fn words(network: &Network, steps: impl IntoIterator<Item = Operation>) -> Vec<String> {
    steps.into_iter().map(|step| network.operation(step)).collect()
}

fn loads(network: &Network) -> Vec<loadworthy::switching::DeviceId> {
    network.devices().filter(|(_, _, kind)| matches!(kind, Kind::Load(_))).map(|(device, _, _)| device).collect()
}

#[test]
fn an_interlocked_panel_is_connected_in_the_order_of_the_trade() {
    let found = scenario("safe-interlocked-connect");
    let network = &found.network;
    let source = network.find("generator").unwrap();
    let procedure = network.procedure(&found.start, source, &loads(network)).unwrap();
    let steps = words(network, procedure.connect.steps.iter().map(|step| step.operation));
    assert_eq!(
        steps,
        [
            "open `main`",
            "mate `inlet_joint`",
            "mate `source_joint`",
            "start `generator`",
            "close `source_breaker`",
            "close `inlet_breaker`",
            "close `br_pump`",
            "close `br_furnace_fan`",
            "close `br_fridge`",
            "close `br_lights`",
        ]
    );
    // The very steps that the scenario takes.
    let its_own = words(network, found.steps.iter().copied());
    assert_eq!(steps, its_own);
    let back = words(network, procedure.return_to_utility.steps.iter().map(|step| step.operation));
    assert_eq!(
        back,
        [
            "open `br_pump`",
            "open `br_fridge`",
            "open `br_furnace_fan`",
            "open `br_lights`",
            "open `inlet_breaker`",
            "close `main`",
            "open `source_breaker`",
            "stop `generator`",
            "part `source_joint`",
            "part `inlet_joint`",
        ]
    );
    // An interlock forgives every single slip.
    assert!(
        procedure.connect.faults.iter().all(|fault| fault.outcome == Outcome::Holds),
        "{:#?}",
        procedure.connect.faults
    );
}

#[test]
fn arrangements_that_make_a_hazard_possible_get_no_order() {
    for found in scenarios(FILE).unwrap() {
        let network = &found.network;
        let fails = network.explore(&found.start).unwrap().outcome != Outcome::Holds;
        let source = network.devices().find(|(_, _, kind)| matches!(kind, Kind::Source(_))).unwrap().0;
        let outcome = network.procedure(&found.start, source, &[]);
        assert_eq!(matches!(outcome, Err(Withheld::Arrangement(_))), fails, "{}", found.id);
    }
}

#[test]
fn what_is_found_is_accepted_and_every_step_of_it_is_needed() {
    let mut found_any = 0;
    for found in scenarios(FILE).unwrap() {
        let network = &found.network;
        let sources: Vec<_> =
            network.devices().filter(|(_, _, kind)| matches!(kind, Kind::Source(_))).map(|(id, _, _)| id).collect();
        for source in sources {
            let goal = Goal::Fed { source, loads: loads(network) };
            let Ok(order) = network.order(&found.start, &goal) else { continue };
            found_any += 1;
            let steps: Vec<Operation> = order.steps.iter().map(|step| step.operation).collect();
            let judged = network.verify(&found.start, &steps).unwrap();
            assert_eq!(judged.outcome, Outcome::Holds, "{}", found.id);
            assert!(judged.refused.is_empty(), "{}", found.id);
            for fault in &order.faults {
                assert!(!fault.reaches_goal, "{}: step {} is not needed", found.id, fault.step);
            }
        }
    }
    assert!(found_any >= 10, "{found_any}");
}

#[test]
fn without_an_interlock_a_skipped_step_joins_the_supplies() {
    let found = scenario("hazard-main-left-closed");
    let network = &found.network;
    let source = network.find("generator").unwrap();
    let order = network.order(&found.start, &Goal::Fed { source, loads: loads(network) }).unwrap();
    let first = &order.faults[0];
    assert_eq!(network.operation(order.steps[0].operation), "open `main`");
    assert_eq!(first.outcome, Outcome::Fails);
    assert_eq!(
        network.reason(&order.steps[0].because),
        "without it step 6 would break sources-never-joined, utility-side-untouched"
    );
}

#[test]
fn a_double_throw_switch_goes_there_and_back() {
    let found = scenario("safe-double-throw-there-and-back");
    let network = &found.network;
    let source = network.find("generator").unwrap();
    let procedure = network.procedure(&found.start, source, &[network.find("pump").unwrap()]).unwrap();
    assert_eq!(
        words(network, procedure.connect.steps.iter().map(|step| step.operation)),
        [
            "mate `inlet_joint`",
            "mate `source_joint`",
            "start `generator`",
            "close `source_breaker`",
            "set `transfer` to source",
            "close `br_pump`",
        ]
    );
}

/// Breadth first over every operation there is, judged by `verify` alone, with the utility live and dead.
fn shortest_by_force(network: &Network, start: &State, reached: impl Fn(&State) -> bool) -> Option<usize> {
    use std::collections::BTreeSet;
    let mut operations = Vec::new();
    for (device, _, kind) in network.devices() {
        use loadworthy::switching::Throw;
        match kind {
            Kind::Breaker | Kind::IsolatingSwitch => {
                operations.extend([Operation::Close(device), Operation::Open(device)]);
            }
            Kind::Joint => operations.extend([Operation::Mate(device), Operation::Part(device)]),
            Kind::Source(_) => operations.extend([Operation::Start(device), Operation::Stop(device)]),
            Kind::Load(_) => operations.extend([Operation::On(device), Operation::Off(device)]),
            Kind::Transfer(facts) => {
                operations.extend([Throw::Utility, Throw::Source].map(|side| Operation::Set(device, side)));
                if facts.rests_off {
                    operations.push(Operation::Set(device, Throw::Off));
                }
            }
            _ => {}
        }
    }
    let utility = network.devices().find(|(_, _, kind)| *kind == Kind::Utility).map(|(device, _, _)| device);
    let mut seen = BTreeSet::new();
    let mut level = vec![*start];
    for length in 0..12 {
        if level.iter().any(&reached) {
            return Some(length);
        }
        let mut next = Vec::new();
        for state in &level {
            for operation in &operations {
                let mut good = true;
                let mut end = *state;
                for event in [Operation::UtilityFails as fn(_) -> _, Operation::UtilityReturns as fn(_) -> _] {
                    let mut steps: Vec<Operation> = utility.into_iter().map(event).collect();
                    steps.push(*operation);
                    let judged = network.verify(state, &steps).unwrap();
                    good &= judged.outcome == Outcome::Holds;
                    end = judged.last;
                }
                if good && seen.insert(network.describe(&end)) {
                    next.push(end);
                }
            }
        }
        level = next;
    }
    None
}

#[test]
fn no_order_is_shorter_than_the_one_found() {
    use loadworthy::switching::{Interlock, Load, RotationNeed, Source};
    let watts = |power: u32| format!("{power} W").parse().unwrap();
    let load = |running, starting| {
        Load::unknown()
            .running(watts(running))
            .starting(watts(starting))
            .voltage("120 V".parse().unwrap())
            .leg("A".parse().unwrap())
            .shared_neutral(false)
            .rotation(RotationNeed::Any)
    };
    let build = |surge| {
        Network::builder()
            .utility("utility", "service")
            .breaker("main", "service", "bus")
            .breaker("inlet breaker", "bus", "inlet")
            .interlock("main", "inlet breaker", Interlock::Devices)
            .joint("inlet", "inlet", "cord")
            .source(
                "generator",
                "cord",
                Source::unknown()
                    .rated(watts(2000))
                    .surge(watts(surge))
                    .system("120 V".parse().unwrap())
                    .neutral_bonded(false)
                    .neutral_switched(false)
                    .engine(true),
            )
            .breaker("fridge breaker", "bus", "fridge wire")
            .load("fridge", "fridge wire", load(200, 1200))
            .breaker("freezer breaker", "bus", "freezer wire")
            .load("freezer", "freezer wire", load(300, 1250))
            .premises("bus")
            .service_bonded(true)
            .other_bonds(0)
            .build()
            .unwrap()
    };
    use Position as P;
    for (surge, closed, chosen) in [
        (3000, P::Closed, vec!["fridge", "freezer"]),
        (2400, P::Closed, vec!["fridge", "freezer"]),
        (2400, P::Open, vec!["fridge", "freezer"]),
        (1500, P::Closed, vec!["fridge", "freezer"]),
        (1450, P::Closed, vec!["fridge", "freezer"]),
        (1449, P::Closed, vec!["fridge", "freezer"]),
        (2400, P::Closed, vec!["fridge"]),
        (1199, P::Closed, vec!["fridge"]),
    ] {
        let network = build(surge);
        let start = network
            .state(&[
                ("utility", P::Dead),
                ("main", P::Closed),
                ("inlet breaker", P::Open),
                ("inlet", P::Parted),
                ("generator", P::Stopped),
                ("fridge breaker", closed),
                ("fridge", P::On),
                ("freezer breaker", closed),
                ("freezer", P::On),
            ])
            .unwrap();
        let id = |name: &str| network.find(name).unwrap();
        let source = id("generator");
        let goal = Goal::Fed { source, loads: chosen.iter().map(|name| id(name)).collect() };
        let found = network.find_order(&start, &goal).ok().map(|order| order.operations.len());
        let at = |state: &State, name: &str| network.position(state, id(name)).unwrap();
        let feeds = |state: &State, load: &str| {
            at(state, "generator") == P::Running
                && at(state, "inlet") == P::Mated
                && at(state, "inlet breaker") == P::Closed
                && at(state, &format!("{load} breaker")) == P::Closed
                && at(state, load) == P::On
        };
        let forced = shortest_by_force(&network, &start, |state| {
            ["fridge", "freezer"].iter().all(|load| feeds(state, load) == chosen.contains(load))
        });
        assert_eq!(found, forced, "surge {surge}, branches {closed}, {chosen:?}");
    }
}

#[test]
fn no_order_rests_on_a_dark_street() {
    let found = scenario("hazard-utility-returns-onto-bare-blades");
    let network = &found.network;
    let closed = network.verify(&found.start, &found.steps[..1]).unwrap();
    // Dark, the blades are dead and nothing breaks; but the utility may return at any moment.
    assert_eq!(closed.outcome, Outcome::Holds);
    let source = network.find("generator").unwrap();
    let order = network.find_order(&closed.last, &Goal::Fed { source, loads: loads(network) });
    assert!(matches!(order, Err(NoOrder::Start(_))), "{order:?}");
    // A slip that leaves the same state is not survived either.
    let steps = ["open main", "close inlet_breaker"].map(|words| {
        let (verb, name) = words.split_once(' ').unwrap();
        let device = network.find(name).unwrap();
        if verb == "open" { Operation::Open(device) } else { Operation::Close(device) }
    });
    let faults = network.faults(&found.start, &steps, &Goal::Restored(closed.last)).unwrap();
    assert_eq!(faults[0].outcome, Outcome::Fails);
}
