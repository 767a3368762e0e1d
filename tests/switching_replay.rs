//! Orders that are found, replayed one step at a time by an interpreter of the definitions in the file of scenarios. It
//! is written here, plainly, over the words of a scenario, and shares nothing with the engine.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use std::cell::Cell;
use std::collections::{BTreeMap, BTreeSet};

use loadworthy::switching::{Goal, Network, Operation, Shortest, Throw, scenarios};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use serde_json::{Value, json};

/// The position of each device, in the words of a scenario.
type Positions = BTreeMap<String, String>;

/// What a step does, to which device, and for a transfer switch which way.
type Step = (&'static str, String, &'static str);

struct Interpreter<'a>(&'a Value);

impl Interpreter<'_> {
    fn of_kind(&self, kinds: &[&str]) -> impl Iterator<Item = &Value> {
        let kinds: Vec<String> = kinds.iter().map(|kind| (*kind).to_owned()).collect();
        self.0["devices"]
            .as_array()
            .unwrap()
            .iter()
            .filter(move |device| kinds.iter().any(|kind| device["kind"] == **kind))
    }

    /// All nodes that are one with `node`: everything that closed contacts lead to, until nothing is added.
    fn joined(&self, at: &Positions, node: &str, through_breakers: bool) -> BTreeSet<String> {
        let mut whole = BTreeSet::from([node.to_owned()]);
        loop {
            let before = whole.len();
            for device in self.of_kind(&["breaker", "joint", "transfer"]) {
                let position = at[word(&device["id"])].as_str();
                let ends = match (word(&device["kind"]), position) {
                    ("breaker", "closed") if through_breakers => [word(&device["from"]), word(&device["to"])],
                    ("joint", "mated") => [word(&device["male_node"]), word(&device["female_node"])],
                    ("transfer", "utility") => [word(&device["common"]), word(&device["utility_node"])],
                    ("transfer", "source") => [word(&device["common"]), word(&device["source_node"])],
                    _ => continue,
                };
                if ends.iter().any(|end| whole.contains(*end)) {
                    whole.extend(ends.map(str::to_owned));
                }
            }
            if whole.len() == before {
                return whole;
            }
        }
    }

    fn producing(at: &Positions, supply: &Value) -> bool {
        ["live", "running"].contains(&at[word(&supply["id"])].as_str())
    }

    /// The loads that a supply feeds.
    fn fed(&self, at: &Positions, supply: &Value) -> Vec<&Value> {
        let reached = self.joined(at, word(&supply["node"]), true);
        let fed = self.of_kind(&["load"]).filter(|load| {
            Self::producing(at, supply) && at[word(&load["id"])] == "on" && reached.contains(word(&load["node"]))
        });
        fed.collect()
    }

    fn state_breaks(&self, at: &Positions) -> Vec<&'static str> {
        let mut broken = Vec::new();
        let supplies: Vec<&Value> = self.of_kind(&["utility", "source"]).collect();
        for supply in &supplies {
            let reached = self.joined(at, word(&supply["node"]), true);
            let live = Self::producing(at, supply);
            let bare =
                |joint: &Value| at[word(&joint["id"])] == "parted" && reached.contains(word(&joint["male_node"]));
            if live && self.of_kind(&["joint"]).any(bare) {
                broken.push("bare-contacts-dead");
            }
            if supplies.iter().any(|other| other["id"] != supply["id"] && reached.contains(word(&other["node"]))) {
                broken.push("sources-never-joined");
            }
            let unprotected = self.joined(at, word(&supply["node"]), false);
            let load_on = |load: &Value| at[word(&load["id"])] == "on" && unprotected.contains(word(&load["node"]));
            if live && self.of_kind(&["load"]).any(load_on) {
                broken.push("protected-path");
            }
            if supply["kind"] == "utility" || !live {
                continue;
            }
            let neutral = &self.0["neutral"];
            let of_service = neutral["service_bonded"] == true && neutral["switched_with_source"] == false;
            let bonds = u8::from(supply["neutral_bonded"] == true) + u8::from(of_service);
            if reached.contains("bus") && bonds != 1 {
                broken.push("one-neutral-bond");
            }
            let fed = self.fed(at, supply);
            let two_legs = supply["system"] == "120/240";
            if fed.iter().any(|load| load["volts"] == 240 && !two_legs) {
                broken.push("supply-fits-loads");
            }
            let sum: u64 = fed.iter().map(|load| watts(&load["run_w"])).sum();
            if sum > watts(&supply["rated_w"]) {
                broken.push("source-not-overloaded");
            }
            // Twice the watts of a leg, so that half of a load on both legs stays whole.
            let doubled = |leg: char| -> u64 {
                let on_it = fed.iter().filter(|load| word(&load["leg"]).contains(leg));
                on_it.map(|load| 2 * watts(&load["run_w"]) / word(&load["leg"]).len() as u64).sum()
            };
            if two_legs && ['A', 'B'].into_iter().any(|leg| doubled(leg) > 2 * watts(&supply["leg_rated_w"])) {
                broken.push("source-not-overloaded");
            }
        }
        broken
    }

    /// The positions after a step, and what the step itself breaks; `None` where an interlock refuses it.
    fn done(&self, before: &Positions, (verb, device, side): &Step) -> Option<(Positions, Vec<&'static str>)> {
        let becomes = match *verb {
            "open" => "open",
            "close" => "closed",
            "mate" => "mated",
            "part" => "parted",
            "start" => "running",
            "stop" => "stopped",
            "set" => side,
            other => other,
        };
        for lock in self.of_kind(&["interlock"]).filter(|_| *verb == "close") {
            let pair: Vec<&str> = lock["between"].as_array().unwrap().iter().map(word).collect();
            if pair.contains(&device.as_str()) && pair.iter().any(|one| one != device && before[*one] == "closed") {
                return None;
            }
        }
        let mut after = before.clone();
        after.insert(device.clone(), becomes.to_owned());
        let mut broken = Vec::new();
        for source in self.of_kind(&["source"]) {
            let (was, is) = (self.fed(before, source), self.fed(&after, source));
            let picked_up: u64 =
                is.iter().map(|load| watts(&load[if was.contains(load) { "run_w" } else { "start_w" }])).sum();
            if picked_up > watts(&source["surge_w"]) {
                broken.push("source-not-overloaded");
            }
            let moved = before[word(&source["id"])] != after[word(&source["id"])];
            if moved && source["engine"] == true && !(was.is_empty() && is.is_empty()) {
                broken.push("engine-unloaded-at-start-and-stop");
            }
        }
        let all_fed = |at: &Positions| -> BTreeSet<String> {
            let supplies = self.of_kind(&["utility", "source"]);
            supplies.flat_map(|supply| self.fed(at, supply)).map(|load| word(&load["id"]).to_owned()).collect()
        };
        if ["mate", "part"].contains(verb) && all_fed(before) != all_fed(&after) {
            broken.push("no-plug-under-load");
        }
        Some((after, broken))
    }

    /// Follows steps, the utility live and dead at every moment: where they lead, or what they break. A step that is
    /// refused is passed over.
    fn replay<'s>(&self, steps: impl IntoIterator<Item = &'s Step>) -> Result<Positions, String> {
        let initial = self.0["initial"].as_object().unwrap();
        let mut at: Positions = initial.iter().map(|(id, position)| (id.clone(), word(position).to_owned())).collect();
        let in_weather = |at: &Positions, utility: &str| -> Positions {
            let mut at = at.clone();
            at.insert("utility".to_owned(), utility.to_owned());
            at
        };
        for (number, step) in (1..).zip(steps) {
            let mut next = None;
            for utility in ["dead", "live"] {
                let Some((after, mut broken)) = self.done(&in_weather(&at, utility), step) else { continue };
                broken.extend(self.state_breaks(&after));
                if !broken.is_empty() {
                    return Err(format!("step {number}, {step:?}, the utility {utility}: {broken:?}"));
                }
                next = Some(after);
            }
            at = next.unwrap_or(at);
        }
        Ok(at)
    }

    /// Whether the generator feeds these loads and no others.
    fn feeds(&self, at: &Positions, loads: &[String]) -> bool {
        let generator = self.of_kind(&["source"]).next().unwrap();
        let fed: BTreeSet<&str> = self.fed(at, generator).iter().map(|load| word(&load["id"])).collect();
        fed == loads.iter().map(String::as_str).collect()
    }
}

fn word(value: &Value) -> &str {
    value.as_str().unwrap()
}

fn watts(value: &Value) -> u64 {
    value.as_u64().unwrap()
}

/// The steps of an order as they would be written.
fn written(network: &Network, operations: &[Operation]) -> Vec<Step> {
    let one = |operation: &Operation| {
        let (verb, device, side) = match *operation {
            Operation::Close(device) => ("close", device, ""),
            Operation::Open(device) => ("open", device, ""),
            Operation::Mate(device) => ("mate", device, ""),
            Operation::Part(device) => ("part", device, ""),
            Operation::Start(device) => ("start", device, ""),
            Operation::Stop(device) => ("stop", device, ""),
            Operation::On(device) => ("on", device, ""),
            Operation::Off(device) => ("off", device, ""),
            Operation::Set(device, Throw::Utility) => ("set", device, "utility"),
            Operation::Set(device, Throw::Source) => ("set", device, "source"),
            Operation::Set(device, Throw::Off) => ("set", device, "off"),
            other => panic!("no order has {other:?}"),
        };
        (verb, network.name(device).to_owned(), side)
    };
    operations.iter().map(one).collect()
}

/// A branch: running watts, starting watts, leg, whether its breaker is closed, whether it is on, whether it is wanted.
type Branch = (u64, u64, &'static str, bool, bool, bool);

#[derive(Clone, Debug)]
struct Drawn {
    /// 0: breakers and discipline; 1: an interlock; 2, 3: a transfer switch without and with a position off.
    transfer: u8,
    two_legs: bool,
    bonded: bool,
    switched: bool,
    engine: bool,
    rated: u64,
    surge: u64,
    breaker_at_the_source: bool,
    branches: Vec<Branch>,
}

fn drawn() -> impl Strategy<Value = Drawn> {
    let leg = prop::sample::select(vec!["A", "A", "B", "B", "AB"]);
    let any = any::<bool>;
    let branch = (1_u64..8, 0_u64..12, leg, any(), any(), any());
    let branch = branch.prop_map(|(run, more, leg, closed, on, wanted)| {
        (run * 100, (run + more) * 100, leg, closed, on || wanted, wanted)
    });
    let facts = (0_u8..4, prop::bool::weighted(0.8), prop::bool::weighted(0.2), prop::bool::weighted(0.2));
    let source = (any(), 10_u64..30, 0_u64..15, any());
    (facts, source, prop::collection::vec(branch, 1..4)).prop_map(
        |((transfer, two_legs, bonded, switched), (engine, rated, more, breaker_at_the_source), branches)| Drawn {
            transfer,
            two_legs,
            bonded,
            switched,
            engine,
            rated: rated * 100,
            surge: (rated + more) * 100,
            breaker_at_the_source,
            branches,
        },
    )
}

fn scenario(drawn: &Drawn) -> Value {
    let mut devices = vec![json!({"id": "utility", "kind": "utility", "node": "service"})];
    let mut initial = json!({"utility": "dead", "inlet": "parted", "generator": "stopped"});
    if drawn.transfer < 2 {
        devices.push(json!({"id": "main", "kind": "breaker", "from": "service", "to": "bus"}));
        devices.push(json!({"id": "way_in", "kind": "breaker", "from": "bus", "to": "inlet_wire"}));
        initial["main"] = "closed".into();
        initial["way_in"] = "open".into();
    } else {
        devices.push(json!({"id": "switch", "kind": "transfer", "common": "bus", "utility_node": "service",
            "source_node": "inlet_wire", "has_off": drawn.transfer == 3, "break_before_make": true,
            "switches_neutral": drawn.switched}));
        initial["switch"] = "utility".into();
    }
    if drawn.transfer == 1 {
        devices.push(json!({"id": "interlock", "kind": "interlock", "between": ["main", "way_in"]}));
    }
    devices.push(json!({"id": "inlet", "kind": "joint", "male_node": "inlet_wire", "female_node": "cord"}));
    let system = if drawn.two_legs { "120/240" } else { "120" };
    let terminals = if drawn.breaker_at_the_source { "terminals" } else { "cord" };
    if drawn.breaker_at_the_source {
        devices.push(json!({"id": "outlet", "kind": "breaker", "from": "terminals", "to": "cord"}));
        initial["outlet"] = "open".into();
    }
    devices.push(json!({"id": "generator", "kind": "source", "node": terminals, "rated_w": drawn.rated,
        "surge_w": drawn.surge, "leg_rated_w": drawn.rated / 2, "system": system, "neutral_bonded": drawn.bonded,
        "engine": drawn.engine}));
    for (index, (run, start, leg, closed, on, _)) in drawn.branches.iter().enumerate() {
        let (branch, wire, load) = (format!("branch_{index}"), format!("wire_{index}"), format!("load_{index}"));
        devices.push(json!({"id": branch, "kind": "breaker", "from": "bus", "to": wire}));
        devices.push(json!({"id": load, "kind": "load", "node": wire, "run_w": run, "start_w": start,
            "volts": if *leg == "AB" { 240 } else { 120 }, "leg": leg}));
        initial[branch] = if *closed { "closed" } else { "open" }.into();
        initial[load] = if *on { "on" } else { "off" }.into();
    }
    json!({"id": "drawn", "title": "Drawn", "neutral": {"service_bonded": true,
        "switched_with_source": drawn.switched && drawn.transfer >= 2}, "premises_nodes": ["bus"],
        "parallel_approved": [], "devices": devices, "initial": initial, "steps": []})
}

#[test]
fn a_found_order_is_kept_by_the_interpreter_and_no_step_of_it_can_be_left_out() {
    let (found, left_out) = (Cell::new(0), Cell::new(0));
    let mut runner = TestRunner::new(Config { failure_persistence: None, ..Config::with_cases(400) });
    let held = runner.run(&drawn(), |drawn| {
        let written_down = scenario(&drawn);
        let file = json!({"format": "switching-scenarios/1", "scenarios": [written_down]});
        let read = scenarios(&file.to_string()).unwrap().remove(0);
        let network = &read.network;
        let chosen: Vec<String> = (0..drawn.branches.len())
            .filter(|index| drawn.branches[*index].5)
            .map(|index| format!("load_{index}"))
            .collect();
        let loads = chosen.iter().map(|name| network.find(name).unwrap()).collect();
        let goal = Goal::Fed { source: network.find("generator").unwrap(), loads };
        let Ok(order) = network.find_order(&read.start, &goal) else { return Ok(()) };
        found.set(found.get() + 1);
        let interpreter = Interpreter(&written_down);
        let steps = written(network, &order.operations);
        let end = interpreter.replay(&steps).map_err(TestCaseError::fail)?;
        prop_assert!(interpreter.feeds(&end, &chosen), "{steps:?} lead to {end:?}");
        if order.shortest != Shortest::Proved {
            return Ok(());
        }
        for omitted in 0..steps.len() {
            left_out.set(left_out.get() + 1);
            let fewer = steps.iter().enumerate().filter(|(place, _)| *place != omitted).map(|(_, step)| step);
            let reached = interpreter.replay(fewer).is_ok_and(|end| interpreter.feeds(&end, &chosen));
            prop_assert!(!reached, "{steps:?} without {:?}", steps[omitted]);
        }
        Ok(())
    });
    held.unwrap_or_else(|why| panic!("{why}"));
    // So many that the test tests something.
    assert!(found.get() > 100 && left_out.get() > 500, "{found:?} orders, {left_out:?} steps left out");
}

/// The interpreter itself: it judges the scenarios whose devices and steps it knows as the file expects.
#[test]
fn the_interpreter_breaks_where_the_file_of_scenarios_says() {
    let file: Value = serde_json::from_str(include_str!("published/switching-scenarios.json")).unwrap();
    let mut judged = 0;
    for written_down in file["scenarios"].as_array().unwrap().iter().filter(|scenario| is_plain(scenario)) {
        let steps: Option<Vec<Step>> = written_down["steps"].as_array().unwrap().iter().map(step).collect();
        let Some(steps) = steps else { continue };
        judged += 1;
        let replayed = Interpreter(written_down).replay(&steps);
        let safe = written_down["expected"]["verdict"] == "safe";
        assert_eq!(replayed.is_ok(), safe, "{}: {replayed:?}", written_down["id"]);
    }
    assert!(judged >= 10, "{judged}");
}

/// Whether the interpreter knows all that a scenario describes.
fn is_plain(scenario: &Value) -> bool {
    let known = ["utility", "source", "breaker", "joint", "transfer", "load", "interlock"];
    let has = |value: &Value, keys: &[&str]| keys.iter().all(|key| value.get(*key).is_some());
    let lacks = |value: &Value, keys: &[&str]| keys.iter().all(|key| value.get(*key).is_none());
    let devices = scenario["devices"].as_array().unwrap().iter().all(|device| {
        known.iter().any(|kind| device["kind"] == *kind)
            && lacks(device, &["needs", "described", "shared_neutral", "sequence"])
            && device["break_before_make"] != false
            && (device["kind"] != "source" || has(device, &["surge_w", "neutral_bonded", "leg_rated_w"]))
    });
    devices
        && lacks(scenario, &["locked"])
        && lacks(&scenario["neutral"], &["other_bonds"])
        && scenario["parallel_approved"] == json!([])
        && scenario["premises_nodes"] == json!(["bus"])
}

/// A step of a scenario; `None` for one that the interpreter does not know.
fn step(written: &Value) -> Option<Step> {
    let verbs = ["open", "close", "mate", "part", "start", "stop", "on", "off", "set"];
    let verb = verbs.into_iter().find(|verb| written["do"] == *verb)?;
    let sides = ["utility", "source", "off"];
    let side = sides.into_iter().find(|side| written["to"] == *side).unwrap_or("");
    Some((verb, word(&written["device"]).to_owned(), side))
}
