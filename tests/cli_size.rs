//! `size` as its users meet it: answers, documents, refusals, exit statuses.

#![allow(clippy::expect_used, clippy::indexing_slicing)]

use std::process::{Command, Output};

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_loadworthy")).args(arguments).output().expect("the command runs")
}

fn json(arguments: &[&str]) -> (Option<i32>, serde_json::Value) {
    let output = run(&[arguments, &["--format", "json"]].concat());
    (output.status.code(), serde_json::from_slice(&output.stdout).expect("JSON"))
}

const CIRCUIT: [&str; 16] = [
    "--continuous",
    "16 A",
    "--non-continuous",
    "0 A",
    "--conductors",
    "line-and-neutral",
    "--voltage",
    "120 V",
    "--drop-limit",
    "3 %",
    "--material",
    "copper",
    "--insulation",
    "THWN-2",
    "--supplies",
    "other",
];

#[test]
fn a_circuit_is_sized_with_what_governs_it() {
    let (status, answer) =
        json(&[&["size", "circuit", "--length", "100 ft", "--raceway", "EMT"], &CIRCUIT[..]].concat());
    assert_eq!(status, Some(0));
    assert_eq!(answer["answer"]["text"], "8 AWG copper behind a breaker of 20 A");
    assert_eq!(answer["governed_by"], "voltage-drop");
    let figures = &answer["figures"];
    assert_eq!(figures["overcurrent_device"], "20 A");
    assert_eq!(figures["needed_for_ampacity"], "12 AWG");
    assert_eq!(figures["equipment_grounding_conductor"], "8 AWG");
    assert_eq!(figures["raceway"], "1/2 in EMT"); // 3 x 0.0366 in² of 0.1216 in²
}

#[test]
fn what_is_not_stated_and_decides_is_asked_for() {
    let output = run(&[&["size", "circuit"], &CIRCUIT[..]].concat());
    assert_eq!(output.status.code(), Some(3));
    let message = String::from_utf8(output.stderr).expect("UTF-8");
    assert!(message.contains("--length is missing and decides the answer"), "{message}");
}

#[test]
fn a_cord_with_two_plugs_is_refused() {
    let (status, answer) = json(&["size", "cord", "--outlet", "14-50", "--connector", "14-50P"]);
    assert_eq!((status, &answer["governed_by"]), (Some(1), &"no-cord-with-two-plugs".into()));
    assert!(answer["figures"].as_object().expect("figures").is_empty());
}

#[test]
fn a_connection_without_transfer_equipment_is_refused() {
    let (status, answer) = json(&["size", "kit", "--transfer", "none"]);
    assert_eq!((status, &answer["prohibited"]["rule"]), (Some(1), &"transfer-equipment-present".into()));
    assert_eq!(answer["alternatives"], serde_json::json!([]));
}

#[test]
fn the_longest_run_is_solved() {
    let built = ["size", "solve", "--unknown", "length", "--device-rating", "20 A", "--built-size", "12 AWG"];
    let (status, answer) = json(&[&built[..], &CIRCUIT[..]].concat());
    assert_eq!(status, Some(0));
    assert_eq!(answer["figures"]["in_feet"], "56.8 ft"); // 3.6 V / (2 x 16 A x 1.98 ohm/kft) is 56.818 ft
}

#[test]
fn kits_stand_side_by_side() {
    let arguments = [
        "size",
        "kit",
        "--source-system",
        "120/240 V",
        "--source-current",
        "40 A",
        "--source-neutral",
        "floating",
        "--outlet",
        "14-50 = 40 A",
        "--outlet",
        "5-20 = 20 A",
        "--panel-system",
        "120/240 V",
        "--panel-rating",
        "100 A",
        "--want",
        "well pump = 240 V, 8 A",
        "--want",
        "refrigerator = 120 V, 6 A, plug 5-15",
        "--cord-length",
        "25 ft",
        "--cord-place",
        "wet",
        "--feeder-length",
        "20 ft",
        "--material",
        "copper",
        "--insulation",
        "THWN-2",
        "--place",
        "wet",
        "--terminals",
        "75 °C",
    ];
    let (status, answer) = json(&arguments);
    assert_eq!(status, Some(0));
    let kinds: Vec<&str> = answer["alternatives"]
        .as_array()
        .expect("alternatives")
        .iter()
        .map(|alternative| alternative["arrangement"].as_str().expect("a word"))
        .collect();
    assert_eq!(kinds, ["cords-to-appliances", "manual-transfer", "interlocked-inlet", "fixed-bidirectional"]);
    let text = String::from_utf8(run(&arguments).stdout).expect("UTF-8");
    assert!(text.contains("part: 1 x flanged inlet CS-50-125/250P, 50 A (breaker-protects-inlet)"), "{text}");
    assert!(text.contains("stays off: well pump: it has no plug"), "{text}");
}
