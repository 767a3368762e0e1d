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

fn text(arguments: &[&str]) -> String {
    String::from_utf8(run(arguments).stdout).expect("UTF-8")
}

/// An answer without its working: what is found, what is assumed.
fn without_working(text: &str) -> String {
    let kept = text.lines().filter(|line| !line.starts_with(' ') && !line.starts_with("working"));
    kept.map(|line| format!("{line}\n")).collect()
}

fn complaint(arguments: &[&str]) -> String {
    let output = run(arguments);
    assert_eq!(output.status.code(), Some(3));
    String::from_utf8(output.stderr).expect("UTF-8")
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

const CAUTION: &str = "caution: electricity kills; the local code and the authority having jurisdiction decide; the \
                       answer covers only what was stated\n";

/// Chapter 9 Tables 1, 4 and 5: 3 x 0.0507 + 0.0211 in² is 0.1732 in² (111.741712 mm²), more than 40 % of the 0.304 in²
/// of 1/2 in tubing (0.1216) and within 40 % of the 0.533 in² of 3/4 in tubing (0.2132).
#[test]
fn a_raceway_is_sized() {
    let arguments =
        ["size", "raceway", "--kind", "EMT", "--conductor", "3 x 6 AWG THWN-2", "--conductor", "1 x 10 AWG THWN-2"];
    let expected = "3/4 in EMT: for 3 x 6 AWG THWN-2, 1 x 10 AWG THWN-2\n\
                    governed by: raceway fill\n\
                    whole area: 343.87028 mm2\n\
                    taken: 111.741712 mm2\n\
                    share that may be taken: 40 %\n\
                    assumed: a run longer than a nipple\n\
                    assumed: strands not compact where that is not said\n\
                    assumed: edition nec-2023, the newest that is carried\n";
    assert_eq!(without_working(&text(&arguments)), format!("{expected}{CAUTION}"));
    // A nipple takes 60 %: 0.1824 in² of 1/2 in tubing.
    let (status, answer) = json(&[&arguments[..], &["--extent", "nipple"]].concat());
    assert_eq!((status, &answer["answer"]["text"]), (Some(0), &"1/2 in EMT".into()));
    let message = complaint(&["size", "raceway", "--kind", "EMT", "--conductor", "3 x 6 AWG"]);
    assert!(message.contains("what covers it is missing and decides the answer"), "{message}");
    let message = complaint(&["size", "raceway", "--kind", "EMT", "--conductor", "6 AWG THWN-2"]);
    assert!(message.contains("`6 AWG THWN-2` is not a count and a size"), "{message}");
    // 900 of 6 AWG take 45.63 in², more than 40 % of any trade size.
    let (status, answer) = json(&["size", "raceway", "--kind", "EMT", "--conductor", "900 x 6 AWG THWN-2"]);
    assert_eq!((status, &answer["governed_by"]), (Some(1), &"raceway-fill".into()));
}

/// 314.16(B): 4 x 2.00, clamps 2.00, a device 2 x 2.00, two grounding conductors 2.00: 16 in³. Of the device boxes that
/// of 14.0 in³ is too small, that of 18.0 in³ is not.
#[test]
fn a_box_is_sized() {
    let contents = ["--conductor", "4 x 14 AWG", "--device", "1 x 14 AWG", "--grounding", "2 x 14 AWG"];
    let arguments = [&["size", "box"], &contents[..], &["--clamps", "internal", "--fittings", "0"]].concat();
    let chosen = [&arguments[..], &["--shape", "device"]].concat();
    let expected = "3 x 2 x 3-1/2 in device: smallest standard metal box for 4 conductors and what lies with them\n\
                    governed by: box fill\n\
                    least volume rounded up: 16 in3\n\
                    volume: 18 in3\n\
                    assumed: no terminal blocks; no volume of plaster rings, extension rings or domed covers\n\
                    assumed: edition nec-2023, the newest that is carried\n";
    assert_eq!(without_working(&text(&chosen)), format!("{expected}{CAUTION}"));
    let (status, answer) = json(&arguments);
    assert_eq!((status, &answer["answer"]["text"]), (Some(0), &"16 in3".into()));
    // One conductor more: exactly 18 in³; two more: 20 in³, more than any device box.
    for (conductors, status) in [("5 x 14 AWG", 0), ("6 x 14 AWG", 1)] {
        let more = chosen.iter().map(|word| if *word == "4 x 14 AWG" { conductors } else { *word });
        assert_eq!(json(&more.collect::<Vec<_>>()).0, Some(status), "{conductors}");
    }
    let message = complaint(&[&["size", "box", "--clamps", "none", "--fittings", "0"], &contents[..4]].concat());
    assert!(message.contains("--grounding is missing and decides the answer"), "{message}");
}

/// `mo-7.5hp-230v-3ph`, an examination question, NEC 430.22 and 430.52: 22 A at 125 % is 27.5 A, 10 AWG at 60 °C; at
/// 250 % it is 55 A, and the next standard breaker is 60 A. Table 250.122: 10 AWG.
#[test]
fn a_motor_circuit_is_sized() {
    let kind = "squirrel-cage-other-than-design-b-energy-or-premium-efficient";
    let motor = ["size", "motor", "--output", "7-1/2 hp", "--voltage", "230 V", "--phases", "three-phase"];
    let wires = ["--terminals", "60 °C", "--material", "copper", "--insulation", "THWN-2"];
    let expected = "10 AWG copper, inverse-time breaker of at most 60 A: for a motor of 7-1/2 hp, 230 V, three-phase\n\
                    governed by: load\n\
                    full load current of the table: 22 A\n\
                    required ampacity rounded up: 27.5 A\n\
                    largest overcurrent device: 60 A\n\
                    ungrounded conductor: 10 AWG\n\
                    equipment grounding conductor: 10 AWG\n\
                    equipment grounding conductor governed by: the overcurrent device\n\
                    assumed: an inverse-time breaker\n";
    let shown = without_working(&text(&[&motor[..], &["--motor-kind", kind], &wires[..]].concat()));
    assert!(shown.starts_with(expected), "{shown}");
    assert!(shown.contains("assumed: overload protection, 430.32, is not sized here"), "{shown}");
    let message = complaint(&[&motor[..], &wires[..]].concat());
    assert!(message.contains("--motor-kind is missing and decides the answer"), "{message}");
    // The table has no row for 8 hp, and the next one never stands in.
    let odd = ["size", "motor", "--output", "8 hp", "--voltage", "230 V", "--phases", "single-phase"];
    let (status, answer) = json(&[&odd[..], &wires[..]].concat());
    assert_eq!((status, &answer["gap"]["why"]), (Some(2), &"no row for 8 hp".into()));
}
