//! The scenarios: every one is judged as expected.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use loadworthy::switching::{Detail, Effect, Invariant, KeptBy, Kind, Operation, Outcome, Scenario, scenarios};
use serde_json::Value;
use std::collections::BTreeSet;

const FILE: &str = include_str!("published/switching-scenarios.json");

/// Each scenario with what the file expects of it.
fn all() -> Vec<(Scenario, Value)> {
    let file: Value = serde_json::from_str(FILE).unwrap();
    let written = file["scenarios"].as_array().unwrap().clone();
    scenarios(FILE).unwrap().into_iter().zip(written).collect()
}

#[test]
fn every_scenario_is_judged_as_expected() {
    for (scenario, written) in all() {
        let expected = &written["expected"];
        let judgement = scenario.network.verify(&scenario.start, &scenario.steps).unwrap();
        let id = &scenario.id;
        let outcome = match expected["verdict"].as_str().unwrap() {
            "safe" => Outcome::Holds,
            "unsafe" => Outcome::Fails,
            "cannot tell" => Outcome::CannotTell,
            other => panic!("{id}: unknown verdict `{other}`"),
        };
        let said: Vec<String> = judgement
            .first
            .iter()
            .flat_map(|first| first.breaks.iter().map(|found| scenario.network.explain(found)))
            .collect();
        assert_eq!(judgement.outcome, outcome, "{id}: {said:?}");
        let step = expected["first_unsafe_step"].as_u64().map(|step| usize::try_from(step).unwrap());
        assert_eq!(judgement.first.as_ref().map(|first| first.step), step, "{id}: {said:?}");
        let violated: BTreeSet<String> =
            expected["violated"].as_array().unwrap().iter().map(|name| name.as_str().unwrap().to_owned()).collect();
        let broken: BTreeSet<String> = judgement
            .first
            .iter()
            .flat_map(|first| first.invariants())
            .map(|invariant: Invariant| invariant.to_string())
            .collect();
        assert_eq!(broken, violated, "{id}: {said:?}");
        let refused: Vec<u64> = judgement.refused.iter().map(|(step, _)| *step as u64).collect();
        let expected_refused: Vec<u64> = expected["refused_steps"]
            .as_array()
            .map(|steps| steps.iter().map(|step| step.as_u64().unwrap()).collect())
            .unwrap_or_default();
        assert_eq!(refused, expected_refused, "{id}");
    }
}

#[test]
fn every_invariant_that_the_file_names_is_known() {
    let file: Value = serde_json::from_str(FILE).unwrap();
    for name in file["invariants"].as_object().unwrap().keys() {
        name.parse::<Invariant>().unwrap();
    }
}

#[test]
fn an_unknown_key_is_refused_wherever_it_stands() {
    let good = r#"{"format": "switching-scenarios/1", "scenarios": [{
        "id": "one", "title": "Main", "neutral": {}, "premises_nodes": [], "parallel_approved": [],
        "devices": [{"id": "utility", "kind": "utility", "node": "service"},
                    {"id": "main", "kind": "breaker", "from": "service", "to": "bus"}],
        "initial": {"utility": "dead", "main": "closed"},
        "steps": [{"n": 1, "do": "open", "device": "main"}]}]}"#;
    assert!(scenarios(good).is_ok());
    for (before, after) in [
        (r#""to": "bus""#, r#""to": "bus", "too": "bus""#),
        (r#""neutral": {}"#, r#""neutral": {"bonded": true}"#),
        (r#""do": "open""#, r#""do": "open", "at": 3"#),
        (r#""title""#, r#""titel": "x", "title""#),
        (r#""n": 1"#, r#""n": 2"#),
        (r#""do": "open""#, r#""do": "start""#),
        (r#""main": "closed""#, r#""main": "mated""#),
        (r#""utility": "dead", "#, ""),
    ] {
        assert!(good.contains(before));
        assert!(scenarios(&good.replacen(before, after, 1)).is_err(), "{after}");
    }
}

/// Rules of an arrangement that the exploration decides, each with its invariant.
const ARRANGEMENT: [(&str, Invariant); 4] = [
    ("sources-mutually-excluded", Invariant::SourcesNeverJoined),
    ("one-neutral-ground-bond", Invariant::OneNeutralBond),
    ("single-120v-source-no-shared-neutrals", Invariant::SupplyFitsLoads),
    ("phase-sequence-match", Invariant::SupplyFitsLoads),
];

/// The invariants that a list of rules stands for.
fn stand_for(rules: &Value) -> BTreeSet<String> {
    let rules: Vec<&str> = rules.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    ARRANGEMENT.iter().filter(|(rule, _)| rules.contains(rule)).map(|(_, invariant)| invariant.to_string()).collect()
}

#[test]
fn every_arrangement_is_explored_as_expected() {
    for (scenario, written) in all() {
        let found = scenario.network.explore(&scenario.start).unwrap();
        let decided: BTreeSet<String> = ARRANGEMENT.iter().map(|(_, invariant)| invariant.to_string()).collect();
        let of = |outcome: Outcome| -> BTreeSet<String> {
            let hazards = found.hazards.iter().filter(|hazard| match hazard.kept_by {
                KeptBy::Discipline => hazard.found.outcome() == outcome,
                KeptBy::NotDescribed => outcome == Outcome::CannotTell,
                _ => false,
            });
            hazards.map(|hazard| hazard.found.invariant.to_string()).filter(|name| decided.contains(name)).collect()
        };
        let fails = stand_for(&written["arrangement_findings"]);
        let unknown = stand_for(&written["expected"]["arrangement_unknown"]);
        assert_eq!(of(Outcome::Fails), fails, "{}: {:?}", scenario.id, found.hazards);
        assert_eq!(of(Outcome::CannotTell), unknown, "{}: {:?}", scenario.id, found.hazards);
        let blades = found.hazards.iter().any(|hazard| {
            hazard.found.invariant == Invariant::BareContactsDead && hazard.kept_by == KeptBy::Discipline
        });
        let outcome = match (fails.is_empty() && !blades, unknown.is_empty()) {
            (false, _) => Outcome::Fails,
            (true, false) => Outcome::CannotTell,
            (true, true) => Outcome::Holds,
        };
        assert_eq!(found.outcome, outcome, "{}: {:?}", scenario.id, found.hazards);
    }
}

#[test]
fn the_way_to_a_hazard_leads_to_it() {
    for (scenario, _) in all() {
        let found = scenario.network.explore(&scenario.start).unwrap();
        for hazard in found.hazards {
            // First every supply produces and every load draws, whatever that breaks; a lock may refuse it.
            let mut state = scenario.start;
            for (device, _, kind) in scenario.network.devices() {
                let event = match kind {
                    Kind::Utility => Operation::UtilityReturns(device),
                    Kind::Source(_) => Operation::Start(device),
                    Kind::Load(_) => Operation::On(device),
                    Kind::Cover if hazard.kept_by == KeptBy::Cover => Operation::CoverOff(device),
                    _ => continue,
                };
                if let Effect::Done { state: next, .. } = scenario.network.apply(&state, event).unwrap() {
                    state = next;
                }
            }
            let mut broken = Vec::new();
            for step in &hazard.steps {
                match scenario.network.apply(&state, *step).unwrap() {
                    Effect::Done { state: next, through } => {
                        broken.extend(through.iter().flat_map(|moment| scenario.network.breaks(moment)));
                        state = next;
                    }
                    refused => panic!("{}: {}: {refused:?}", scenario.id, scenario.network.operation(*step)),
                }
            }
            broken.extend(scenario.network.breaks(&state));
            assert!(
                broken.iter().any(|found| match (found.detail, hazard.found.detail) {
                    // A state names one supply of those that make blades live.
                    (Detail::BareContact { joint, .. }, Detail::BareContact { joint: same, .. }) => joint == same,
                    _ => *found == hazard.found,
                }),
                "{}: {:?} not in {broken:?}",
                scenario.id,
                hazard
            );
        }
    }
}

#[test]
fn a_fact_that_is_taken_away_never_turns_into_a_pass() {
    const FACTS: [&str; 11] = [
        "rated_w",
        "surge_w",
        "leg_rated_w",
        "system",
        "neutral_bonded",
        "engine",
        "run_w",
        "start_w",
        "volts",
        "leg",
        "break_before_make",
    ];
    let file: Value = serde_json::from_str(FILE).unwrap();
    let mut tried = 0;
    for written in file["scenarios"].as_array().unwrap() {
        let judge = |scenario: &Value| {
            let alone = serde_json::json!({"format": file["format"], "scenarios": [scenario]});
            let read = scenarios(&alone.to_string()).unwrap().remove(0);
            let explored = read.network.explore(&read.start).unwrap().outcome;
            (read.network.verify(&read.start, &read.steps).unwrap().outcome, explored)
        };
        let (judged, explored) = judge(written);
        let mut poorer = Vec::new();
        for fact in ["service_bonded", "switched_with_source"] {
            let mut without = written.clone();
            without["neutral"].as_object_mut().unwrap().remove(fact);
            for device in without["devices"].as_array_mut().unwrap() {
                device.as_object_mut().unwrap().remove("switches_neutral");
            }
            poorer.push((fact, without));
        }
        for (index, device) in written["devices"].as_array().unwrap().iter().enumerate() {
            for fact in FACTS.into_iter().filter(|fact| device.get(fact).is_some()) {
                let mut without = written.clone();
                without["devices"][index].as_object_mut().unwrap().remove(fact);
                poorer.push((fact, without));
            }
            if device["kind"] == "interlock" {
                let mut without = written.clone();
                without["devices"][index]["described"] = false.into();
                poorer.push(("described", without));
            }
        }
        for (fact, without) in poorer {
            let (judged_without, explored_without) = judge(&without);
            let id = written["id"].as_str().unwrap();
            assert!(judged == Outcome::Holds || judged_without != Outcome::Holds, "{id} without {fact}");
            assert!(explored == Outcome::Holds || explored_without != Outcome::Holds, "{id} without {fact}");
            tried += 1;
        }
    }
    assert!(tried > 1000, "{tried}");
}
