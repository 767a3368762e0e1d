//! The scenarios: every one is judged as expected.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use loadworthy::switching::{Invariant, KeptBy, Outcome, Scenario, scenarios};
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
const ARRANGEMENT: [(&str, Invariant); 3] = [
    ("sources-mutually-excluded", Invariant::SourcesNeverJoined),
    ("one-neutral-ground-bond", Invariant::OneNeutralBond),
    ("single-120v-source-no-shared-neutrals", Invariant::SupplyFitsLoads),
];

#[test]
fn every_arrangement_is_explored_as_expected() {
    for (scenario, written) in all() {
        let found = scenario.network.explore(&scenario.start).unwrap();
        let rules: Vec<&str> =
            written["arrangement_findings"].as_array().unwrap().iter().map(|rule| rule.as_str().unwrap()).collect();
        for (rule, invariant) in ARRANGEMENT {
            let hazard = found.hazards.iter().find(|hazard| {
                hazard.found.invariant == invariant
                    && hazard.kept_by == KeptBy::Discipline
                    && hazard.found.outcome() == Outcome::Fails
            });
            assert_eq!(hazard.is_some(), rules.contains(&rule), "{}: {rule}: {hazard:?}", scenario.id);
        }
        let clean = !ARRANGEMENT.iter().any(|(rule, _)| rules.contains(rule));
        assert_eq!(found.outcome == Outcome::Holds, clean, "{}: {:?}", scenario.id, found.hazards);
    }
}

#[test]
fn the_way_to_a_hazard_leads_to_it() {
    for (scenario, _) in all() {
        let found = scenario.network.explore(&scenario.start).unwrap();
        for hazard in found.hazards {
            let mut steps = hazard.steps.clone();
            // Then every supply produces and every load draws.
            for (device, _, kind) in scenario.network.devices() {
                use loadworthy::switching::{Kind, Operation};
                match kind {
                    Kind::Utility => steps.push(Operation::UtilityReturns(device)),
                    Kind::Source(_) => steps.push(Operation::Start(device)),
                    Kind::Load(_) => steps.push(Operation::On(device)),
                    _ => {}
                }
            }
            let mut state = scenario.start;
            for step in steps {
                match scenario.network.apply(&state, step).unwrap() {
                    loadworthy::switching::Effect::Done { state: next, .. } => state = next,
                    refused => panic!("{}: {}: {refused:?}", scenario.id, scenario.network.operation(step)),
                }
            }
            let broken = scenario.network.breaks(&state);
            assert!(
                broken.iter().any(|found| found.invariant == hazard.found.invariant),
                "{}: {:?} not in {broken:?}",
                scenario.id,
                hazard
            );
        }
    }
}
