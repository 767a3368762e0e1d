//! The order of switching of described sites: found, printed, judged, and refused where it must be.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use std::path::PathBuf;
use std::process::{Command, Output};

const COTTAGE: &str = include_str!("../core/examples/cottage.toml");

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_loadworthy")).args(arguments).output().expect("the command runs")
}

fn example(name: &str) -> String {
    format!("{}/examples/{name}", env!("CARGO_MANIFEST_DIR"))
}

fn write(name: &str, text: &str) -> String {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, text).unwrap();
    path.display().to_string()
}

/// The cottage with some of its text replaced; each must be there.
fn cottage(name: &str, changes: &[(&str, &str)]) -> String {
    let mut text = COTTAGE.to_owned();
    for (before, after) in changes {
        assert!(text.contains(before), "{before}");
        text = text.replacen(before, after, 1);
    }
    write(name, &text)
}

fn json(arguments: &[&str], status: i32) -> serde_json::Value {
    let output = run(&[arguments, &["--format", "json"]].concat());
    assert_eq!(output.status.code(), Some(status), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

fn steps_of(order: &serde_json::Value) -> Vec<String> {
    order["steps"].as_array().unwrap().iter().map(|step| step["step"].as_str().unwrap().to_owned()).collect()
}

fn orders(document: &serde_json::Value) -> &Vec<serde_json::Value> {
    document["sources"][0]["orders"].as_array().unwrap()
}

/// Steps as they are printed, as a file of steps: ``set `x` to source``.
fn toml(steps: &[impl AsRef<str>]) -> String {
    let one = |step: &str| {
        let parts: Vec<&str> = step.split('`').collect();
        let to = parts[2].strip_prefix(" to ").map_or_else(String::new, |to| format!("to = \"{to}\"\n"));
        format!("[[step]]\ndo = \"{}\"\ndevice = \"{}\"\n{to}", parts[0].trim(), parts[1])
    };
    steps.iter().map(|step| one(step.as_ref())).collect()
}

fn verify(site: &str, name: &str, steps: &str, status: i32) -> serde_json::Value {
    json(&["sequence", site, "--verify", &write(name, steps)], status)
}

fn words(list: &serde_json::Value) -> Vec<&str> {
    list.as_array().unwrap().iter().map(|word| word.as_str().unwrap()).collect()
}

fn keys(value: &serde_json::Value) -> Vec<&str> {
    value.as_object().unwrap().keys().map(String::as_str).collect()
}

/// The order of the trade (isolate, join dead, start, join, then loads): part 4 of the rules of connection, with the
/// pump off first because 12.9 kVA would start at once on 12 kVA.
const CONNECT: [&str; 8] = [
    "open `breaker of well pump circuit`",
    "open `main breaker of main panel`",
    "mate `connector of generator cord`",
    "mate `plug of generator cord`",
    "start `generator`",
    "close `breaker of generator outlet`",
    "close `supply breaker of main panel`",
    "close `breaker of well pump circuit`",
];

#[test]
fn the_cottage_has_its_orders_and_they_are_accepted_step_by_step() {
    let site = example("cottage.toml");
    let found = json(&["sequence", &site], 0);
    let all = orders(&found);
    assert_eq!(steps_of(&all[0]), CONNECT);
    assert_eq!(steps_of(&all[1]), ["open `supply breaker of main panel`", "close `main breaker of main panel`"]);
    assert_eq!(
        steps_of(&all[2]),
        [
            "open `breaker of generator outlet`",
            "stop `generator`",
            "part `plug of generator cord`",
            "part `connector of generator cord`"
        ]
    );
    assert!(all[..3].iter().all(|order| order["shortest_proved"] == true));
    // There and back in one file: at the end everything stands as it did.
    let there_and_back: Vec<String> = all[..3].iter().flat_map(steps_of).collect();
    let judged = verify(&site, "there-and-back.toml", &toml(&there_and_back), 0);
    assert_eq!(judged["accepted"], "holds");
    assert_eq!(judged["refused"].as_array().unwrap().len(), 0);
    assert!(judged["last"].as_str().unwrap().contains("main breaker of main panel closed"));
    assert!(judged["last"].as_str().unwrap().contains("plug of generator cord parted"));
}

#[test]
fn an_interlock_survives_a_skipped_main_and_a_start_of_everything_is_not_survived() {
    let found = json(&["sequence", &example("cottage.toml")], 0);
    let faults = orders(&found)[0]["faults"].as_array().unwrap();
    let skipped = |step: u64| faults.iter().find(|fault| fault["step"] == step && fault["kind"] == "skipped").unwrap();
    assert_eq!(skipped(1)["outcome"], "fails");
    assert_eq!(words(&skipped(1)["invariants"]), ["source-not-overloaded"]);
    assert_eq!(skipped(1)["breaks_at"], 7);
    assert_eq!(skipped(2)["outcome"], "holds");
    assert_eq!(skipped(2)["refused"], serde_json::json!([7]));
}

#[test]
fn the_source_that_just_starts_everything_needs_no_breaker_opened() {
    // By hand, in VA: 120 x 20 + 1200 + 300 / 0.95 + 120 x 15 + 240 x 30 = 12,915.789 473 684 2...
    let surge = "starting_apparent_power = \"12 kVA\"";
    for (power, count) in [("12915.789473685 VA", 6), ("12915.789473684 VA", 8), ("12915.789473686 VA", 6)] {
        let site = cottage("surge.toml", &[(surge, &format!("starting_apparent_power = \"{power}\""))]);
        let found = json(&["sequence", &site], 0);
        assert_eq!(steps_of(&orders(&found)[0]).len(), count, "{power}");
    }
}

#[test]
fn a_critical_step_in_the_wrong_place_is_refused_with_its_invariant() {
    let site = example("cottage.toml");
    let judge = |order: [usize; 8]| {
        let steps: Vec<&str> = order.iter().map(|step| CONNECT[step - 1]).collect();
        verify(&site, "moved.toml", &toml(&steps), 1)["first"].clone()
    };
    // The set started behind closed breakers.
    let first = judge([1, 2, 3, 4, 6, 7, 5, 8]);
    assert_eq!(first["step"], 7);
    assert_eq!(words(&first["invariants"]), ["engine-unloaded-at-start-and-stop"]);
    // Everything started at once.
    let first = judge([2, 3, 4, 5, 6, 7, 1, 8]);
    assert_eq!(first["step"], 6);
    assert_eq!(words(&first["invariants"]), ["source-not-overloaded"]);
    // The way to the inlet closed last but one, the connector pushed on under load.
    let first = judge([1, 2, 4, 5, 6, 7, 3, 8]);
    assert_eq!(first["step"], 7);
    assert_eq!(words(&first["invariants"]), ["no-plug-under-load"]);
    assert!(first["state"].as_str().unwrap().contains("generator running"));
}

#[test]
fn what_the_interlock_refuses_is_listed_and_breaks_nothing() {
    let judged = verify(&example("cottage.toml"), "refused.toml", &toml(&CONNECT[2..7]), 0);
    assert_eq!(judged["accepted"], "holds");
    assert_eq!(judged["refused"][0]["step"], 5);
    assert_eq!(
        judged["refused"][0]["message"],
        "the interlock holds `supply breaker of main panel` open while `main breaker of main panel` is closed"
    );
}

#[test]
fn without_an_interlock_the_right_order_is_discipline_only_and_a_swap_joins_the_supplies() {
    let site = cottage("discipline.toml", &[("joins_two_supplies = false", "joins_two_supplies = true")]);
    // Nobody gets an order for it.
    let found = json(&["sequence", &site], 1);
    assert!(found["sources"].as_array().unwrap().is_empty());
    let prohibited = found["prohibited"].as_array().unwrap();
    assert!(prohibited.iter().any(|finding| finding["rule"] == "sources-mutually-excluded"), "{prohibited:?}");
    let judged = verify(&site, "right.toml", &toml(&CONNECT), 1);
    assert_eq!(judged["accepted"], "holds");
    let hazards = judged["arrangement"]["hazards"].as_array().unwrap();
    let joined = hazards.iter().find(|hazard| hazard["invariant"] == "sources-never-joined").unwrap();
    assert_eq!(joined["kept_by"], "discipline");
    let swapped: Vec<&str> = [1, 7, 3, 4, 5, 6, 2, 8].map(|step: usize| CONNECT[step - 1]).to_vec();
    let first = verify(&site, "swapped.toml", &toml(&swapped), 1)["first"].clone();
    // The inlet's blades are bare while the main still feeds the bus.
    assert_eq!(first["step"], 2);
    assert_eq!(words(&first["invariants"]), ["bare-contacts-dead"]);
    let last: Vec<&str> = [1, 3, 4, 5, 7, 6, 2, 8].map(|step: usize| CONNECT[step - 1]).to_vec();
    let first = verify(&site, "joined.toml", &toml(&last), 1)["first"].clone();
    assert_eq!(first["step"], 6);
    assert!(words(&first["invariants"]).starts_with(&["sources-never-joined", "utility-side-untouched"]), "{first}");
}

#[test]
fn a_prohibited_site_gets_the_finding_and_the_remedy_and_no_step() {
    let output = run(&["sequence", &example("cottage-failing.toml")]);
    assert_eq!(output.status.code(), Some(1));
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.contains("no-cord-with-two-plugs fails (prohibited)"));
    assert!(text.contains("mend: fit a listed transfer switch or a listed interlock for that panel"));
    for word in ["see:", "why:", "start `", "close `", "mate `"] {
        assert!(!text.contains(word), "{word}");
    }
    assert_eq!(text.matches("cautions\n").count(), 1);
    let page = run(&["sequence", &example("cottage-failing.toml"), "--format", "checklist"]);
    assert!(!String::from_utf8(page.stdout).unwrap().contains("[ ]"));
}

#[test]
fn what_is_not_known_is_asked_for_with_its_place() {
    let found = json(&["sequence", &example("cottage-unknown.toml")], 2);
    assert!(found["sources"].as_array().unwrap().iter().all(|source| source["orders"].as_array().unwrap().is_empty()));
    let asks = |field: &str| {
        let questions = found["questions"].as_array().unwrap();
        questions.iter().find(|question| question["field"] == field).unwrap_or_else(|| panic!("{field}")).clone()
    };
    assert_eq!(asks("normal_supply")["component"], "main panel");
    assert_eq!(asks("normal_supply")["place"]["line"], 53);
    assert_eq!(asks("overcurrent_device")["component"], "generator outlet");
}

#[test]
fn each_missing_fact_of_the_cottage_withholds_the_order() {
    for (line, field, invariant) in [
        ("starting_apparent_power = \"12 kVA\"\n", "starting_apparent_power", "source-not-overloaded"),
        ("neutral = \"floating\"\n", "neutral", "one-neutral-bond"),
        ("mounting = \"breakers\"\n", "mounting", "sources-never-joined"),
        ("joins_two_supplies = false\n", "joins_two_supplies", "sources-never-joined"),
        ("neutral_bonded = true\n", "neutral_bonded", "one-neutral-bond"),
        ("starting_current = \"20 A\"\n", "starting_current", "source-not-overloaded"),
        ("normal_supply = \"utility\"\n", "normal_supply", "sources-never-joined"),
    ] {
        let site = cottage("missing.toml", &[(line, "")]);
        let found = json(&["sequence", &site], 2);
        let sources = found["sources"].as_array().unwrap();
        assert!(sources.iter().all(|source| source["orders"].as_array().unwrap().is_empty()), "{field}");
        let questions = found["questions"].as_array().unwrap();
        let asked = questions.iter().find(|question| question["field"] == field);
        let asked = asked.unwrap_or_else(|| panic!("{field}: {questions:?}"));
        assert!(words(&asked["decides"]).contains(&invariant), "{field}: {asked}");
        assert!(asked["place"]["line"].as_u64().unwrap() > 1, "{field}");
    }
}

/// A switch in place of the interlock; the service's bond ahead of it.
fn switched(name: &str, neutral: &str, changes: &[(&str, &str)]) -> String {
    let own = format!("neutral = \"{neutral}\"\nneutral_mark = \"{neutral}\"");
    let mut all = vec![
        ("kind = \"interlock\"", "kind = \"manual transfer switch\""),
        ("neutral = \"solid\"", "neutral = \"switched\"\nneutral_opens = \"together\""),
        ("neutral_bonded = true", "neutral_bonded = false"),
        ("neutral_bonded_ahead = false", "neutral_bonded_ahead = true"),
        ("neutral = \"floating\"\nneutral_mark = \"floating\"", own.as_str()),
    ];
    all.extend(changes);
    cottage(name, &all)
}

#[test]
fn a_floating_source_behind_a_switched_neutral_has_no_bond() {
    let found = json(&["sequence", &switched("floating.toml", "floating", &[])], 1);
    let source = &found["sources"][0];
    assert_eq!(source["outcome"], "fails");
    assert!(source["orders"].as_array().unwrap().is_empty());
    let hazards = source["arrangement"]["hazards"].as_array().unwrap();
    let bond = hazards.iter().find(|hazard| hazard["invariant"] == "one-neutral-bond").unwrap();
    assert_eq!(bond["outcome"], "fails");
    assert!(bond["message"].as_str().unwrap().contains("bonded 0 times"), "{bond}");
}

#[test]
fn a_bonded_source_behind_a_switched_neutral_is_transferred() {
    let site = switched("bonded.toml", "bonded", &[]);
    let output = run(&["sequence", &site, "--format", "json"]);
    let found: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(found["sources"][0]["outcome"], "holds", "{}", found["sources"][0]["reason"]);
    let all: Vec<String> = orders(&found).iter().flat_map(steps_of).collect();
    assert!(all.contains(&"set `panel interlock` to source".to_owned()), "{all:?}");
    assert!(all.contains(&"set `panel interlock` to utility".to_owned()), "{all:?}");
    let path = write("bonded-steps.toml", &toml(&all));
    let output = run(&["sequence", &site, "--verify", &path, "--format", "json"]);
    let judged: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(judged["accepted"], "holds");
    // A switch that rests between its sides: steps that use that position say so.
    let rests = "[[step]]\ndo = \"set\"\ndevice = \"panel interlock\"\nto = \"off\"\n";
    let path = write("bonded-rests.toml", rests);
    let output = run(&["sequence", &site, "--verify", &path, "--format", "json"]);
    let judged: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(judged["accepted"], "holds");
    assert!(judged["last"].as_str().unwrap().contains("panel interlock off"), "{judged}");
}

#[test]
fn an_interlock_on_a_cover_is_a_caution() {
    let site = cottage("cover.toml", &[("mounting = \"breakers\"", "mounting = \"cover\"\ncover_stays_on = true")]);
    let found = json(&["sequence", &site], 0);
    let hazards = found["sources"][0]["arrangement"]["hazards"].as_array().unwrap();
    assert!(!hazards.is_empty());
    assert!(hazards.iter().all(|hazard| hazard["kept_by"] == "cover"));
}

#[test]
fn steps_that_are_no_steps_are_refused_with_their_places() {
    let file = write(
        "typing.toml",
        "[strat]\n[[step]]\ndo = \"opn\"\ndevice = \"main breaker of main panel\"\n\
         [[step]]\ndo = \"open\"\ndevice = \"main braker of main panel\"\n\
         [[step]]\ndo = \"start\"\ndevice = \"main breaker of main panel\"\n\
         [[step]]\ndo = \"open\"\ndevise = \"generator\"\n",
    );
    let output = run(&["sequence", &example("cottage.toml"), "--verify", &file]);
    assert_eq!(output.status.code(), Some(3));
    assert!(output.stdout.is_empty());
    let text = String::from_utf8(output.stderr).unwrap().replace(&file, "steps.toml");
    let lines: Vec<&str> = text.lines().collect();
    for expected in [
        "loadworthy: steps.toml:1:2: `strat` is not a field of a file of steps; did you mean `start`?",
        "loadworthy: steps.toml:13:1: `devise` is not a field of a step; did you mean `device`?",
        "loadworthy: steps.toml:3:6: `opn` is not a known step; did you mean `open`?",
        "loadworthy: steps.toml:7:10: no device is called `main braker of main panel`; did you mean `main breaker of main panel`?",
        "loadworthy: steps.toml:9:6: `main breaker of main panel` has nothing to start; correct the device or the operation",
        "loadworthy: steps.toml:11:1: a step needs `device`; write the name of a device",
    ] {
        assert!(lines.contains(&expected), "{expected}\n{text}");
    }
    assert_eq!(lines.len(), 6, "{text}");
}

#[test]
fn steps_may_begin_elsewhere_than_at_the_normal_state() {
    let start = "[start]\n\"main breaker of main panel\" = \"open\"\n\"connector of generator cord\" = \"mated\"\n\
                 \"plug of generator cord\" = \"mated\"\n\"generator\" = \"running\"\n\
                 \"breaker of generator outlet\" = \"closed\"\n\"supply breaker of main panel\" = \"closed\"\n";
    let part = "[[step]]\ndo = \"part\"\ndevice = \"plug of generator cord\"\n";
    let judged = verify(&example("cottage.toml"), "start.toml", &format!("{start}{part}"), 1);
    assert_eq!(judged["first"]["step"], 1);
    assert!(words(&judged["first"]["invariants"]).contains(&"no-plug-under-load"), "{judged}");
}

#[test]
fn a_battery_that_feeds_cords_alone_has_an_order_without_a_building() {
    let text = r#"
[site]
name = "Camp"
code = "nec-2023"
[[source]]
name = "battery"
kind = "battery"
system = "120 V"
engine = false
neutral = "floating"
continuous_current = "15 A"
starting_apparent_power = "3 kVA"
[[source.outlet]]
name = "battery outlet"
configuration = "5-15R"
overcurrent_device = "15 A"
[[load]]
name = "radio"
from = "battery outlet"
apparent_power = "60 VA"
voltage = "120 V"
plug = "5-15P"
kind = "electronics"
"#;
    let output = run(&["sequence", &write("camp.toml", text), "--format", "json"]);
    let found: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(found["sources"][0]["outcome"], "holds", "{found}");
    let all = orders(&found);
    assert_eq!(all.len(), 2, "there is no utility to return to");
    assert_eq!(steps_of(&all[0]), ["mate `plug of radio`", "start `battery`", "close `breaker of battery outlet`"]);
}

#[test]
fn the_checklist_has_a_box_a_number_and_a_place_for_initials_for_each_step() {
    let output = run(&["sequence", &example("cottage.toml"), "--format", "checklist"]);
    assert_eq!(output.status.code(), Some(0));
    let text = String::from_utf8(output.stdout).unwrap();
    let boxes: Vec<&str> = text.lines().filter(|line| line.starts_with("[ ]")).collect();
    assert_eq!(boxes.len(), 8 + 2 + 4 + 8);
    assert!(boxes.iter().all(|line| line.ends_with("______")));
    assert!(boxes[0].starts_with("[ ]  1. open `breaker of well pump circuit`"));
    assert!(text.contains("! electricity and engine exhaust kill"));
}

#[test]
fn the_fields_of_the_documents_are_fixed() {
    let found = json(&["sequence", &example("cottage.toml")], 0);
    assert_eq!(found["format"], "loadworthy-sequence");
    let mut of_site = vec![
        "format",
        "version",
        "site",
        "code",
        "check",
        "outcome",
        "prohibited",
        "unmapped",
        "sources",
        "notes",
        "questions",
        "cautions",
    ];
    of_site.sort_unstable();
    let sorted = |value: &serde_json::Value| {
        let mut all: Vec<String> = keys(value).into_iter().map(str::to_owned).collect();
        all.sort();
        all
    };
    assert_eq!(sorted(&found), of_site);
    let source = &found["sources"][0];
    assert_eq!(sorted(source), ["arrangement", "orders", "outcome", "reason", "source"]);
    assert_eq!(sorted(&source["arrangement"]), ["hazards", "reached", "switches"]);
    let order = &source["orders"][0];
    assert_eq!(sorted(order), ["faults", "purpose", "shortest_proved", "steps"]);
    assert_eq!(sorted(&order["steps"][0]), ["because", "number", "state", "step", "verify"]);
    assert_eq!(
        sorted(&order["faults"][0]),
        ["breaks_at", "invariants", "kind", "message", "outcome", "reaches_goal", "refused", "step"]
    );
    let judged = verify(&example("cottage.toml"), "fields.toml", &toml(&CONNECT), 0);
    assert_eq!(judged["format"], "loadworthy-judgement");
    let mut of_judgement = vec![
        "format",
        "version",
        "site",
        "code",
        "check",
        "outcome",
        "prohibited",
        "steps",
        "accepted",
        "first",
        "refused",
        "last",
        "arrangement",
        "notes",
        "questions",
        "cautions",
    ];
    of_judgement.sort_unstable();
    assert_eq!(sorted(&judged), of_judgement);
}

#[test]
fn scenarios_are_judged_as_they_expect() {
    let path = format!("{}/../tests/published/switching-scenarios.json", env!("CARGO_MANIFEST_DIR"));
    let output = run(&["sequence", "--verify", &path, "--format", "json"]);
    assert_eq!(output.status.code(), Some(1));
    let written: serde_json::Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    let found: Vec<serde_json::Value> = text.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    let expected = written["scenarios"].as_array().unwrap();
    assert_eq!(found.len(), expected.len());
    for (found, written) in found.iter().zip(expected) {
        assert_eq!(found["scenario"], written["id"]);
        let expected = &written["expected"];
        let outcome = match expected["verdict"].as_str().unwrap() {
            "safe" => "holds",
            "unsafe" => "fails",
            _ => "cannot-tell",
        };
        assert_eq!(found["outcome"], outcome, "{}", written["id"]);
        let step = expected.get("first_unsafe_step").filter(|step| !step.is_null());
        assert_eq!(found["first"].get("step"), step, "{}", written["id"]);
    }
}

#[test]
fn no_case_of_a_rule_gets_an_order_that_its_own_judge_refuses_or_that_a_prohibition_forbids() {
    use loadworthy::check::{WithWorking, check};
    use loadworthy::code::{Edition, Nec};
    use loadworthy::rules::Outcome;
    use loadworthy::switching::{Operation, sequence};
    let mut sites = 0;
    for entry in std::fs::read_dir(format!("{}/../tests/cases", env!("CARGO_MANIFEST_DIR"))).unwrap() {
        let path = entry.unwrap().path();
        let case: toml::Table = std::fs::read_to_string(&path).unwrap().parse().unwrap();
        let Some(text) = case.get("site").and_then(toml::Value::as_str) else { continue };
        let Ok(site) = loadworthy::site::Site::from_toml("case.toml", text) else { continue };
        let report = check(&site, Nec::standard(Edition::Nec2023), WithWorking::No);
        let found = sequence(&report);
        sites += 1;
        assert!(found.prohibited.is_empty() || found.plans.is_empty(), "{}", path.display());
        if found.unmapped.is_some() {
            assert_ne!(found.outcome(), Outcome::Holds);
        }
        for plan in &found.plans {
            let Ok(orders) = &plan.answer else { continue };
            let network = &found.arrangements[plan.arrangement].network;
            for order in
                [Some(&orders.connect), orders.retransfer.as_ref(), Some(&orders.disconnect), orders.refuel.as_ref()]
                    .into_iter()
                    .flatten()
            {
                let steps: Vec<Operation> = order.steps.iter().map(|step| step.operation).collect();
                let judged = network.verify_whatever_the_utility_does(&order.start, &steps).unwrap();
                assert_eq!(judged.outcome, Outcome::Holds, "{}", path.display());
            }
        }
    }
    assert!(sites > 100, "{sites}");
}

#[test]
fn a_site_that_makes_no_network_is_not_told_and_says_why() {
    // Terminals with nothing on them: there is nothing to switch.
    let text = "[site]\nname = \"bare\"\ncode = \"nec-2023\"\n[[source]]\nname = \"set\"\nkind = \"battery\"\n\
                system = \"120 V\"\n[[source.outlet]]\nname = \"terminals\"\nconfiguration = \"hardwired\"\n\
                overload_protection = \"inherent\"\n";
    let found = json(&["sequence", &write("bare.toml", text)], 2);
    assert!(found["unmapped"].as_str().unwrap().contains("nothing joins `set`"), "{found}");
}

#[test]
fn the_loads_of_one_branch_are_one_to_the_order_and_their_starts_add_up() {
    // A second load on the kettle's circuit: 1200 VA more start at once, so that the surge that just sufficed does not.
    let second = "\n[[load]]\nname = \"toaster\"\nfrom = \"kitchen receptacles\"\napparent_power = \"1200 VA\"\n\
                  voltage = \"120 V\"\nleg = \"B\"\nkind = \"other\"\n\n[surroundings]";
    let power = |power: &str| format!("starting_apparent_power = \"{power} VA\"");
    for (surge, count) in [("14115.789473685", 6), ("14115.789473684", 8)] {
        let changes = [("starting_apparent_power = \"12 kVA\"", power(surge)), ("\n[surroundings]", second.to_owned())];
        let changes: Vec<(&str, &str)> = changes.iter().map(|(before, after)| (*before, after.as_str())).collect();
        let output = run(&["sequence", &cottage("two-loads.toml", &changes), "--format", "json"]);
        let found: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
        let first = &orders(&found)[0];
        assert_eq!(steps_of(first).len(), count, "{surge}");
        assert!(first["steps"][0]["state"].as_str().unwrap().contains("kettle + toaster on"));
    }
}

/// One 120 V line joined to both legs: the pump between the legs gets nothing that it is made for, so that its circuit
/// stays off, which NEC 702.5 (a single 120 V supply) allows. Its breaker is opened first and never closed.
#[test]
fn a_240_v_load_that_is_kept_off_does_not_withhold_the_order_on_a_120_v_source() {
    let line = [
        ("system = \"120/240 V\"\ncontinuous_current = \"40 A\"", "system = \"120 V\"\ncontinuous_current = \"80 A\""),
        ("name = \"main panel\"", "name = \"main panel\"\nlegs_joined = true\nsingle_supply_mark = true"),
    ];
    let off = [("name = \"well pump circuit\"", "name = \"well pump circuit\"\noff_on_source = true")];
    let hazards = |site: &str| {
        let found = json(&["sequence", site], 1);
        let source = found["sources"][0].clone();
        let all = source["arrangement"]["hazards"].as_array().unwrap().clone();
        let misfits: Vec<_> = all.into_iter().filter(|hazard| hazard["invariant"] == "supply-fits-loads").collect();
        assert!(misfits.iter().all(|hazard| hazard["message"].as_str().unwrap().contains("well pump")), "{misfits:?}");
        let kept: Vec<String> = misfits.iter().map(|hazard| hazard["kept_by"].as_str().unwrap().to_owned()).collect();
        (kept, source["orders"].as_array().unwrap().iter().map(steps_of).collect::<Vec<_>>())
    };
    let (kept, orders) = hazards(&cottage("one-line.toml", &line));
    assert_eq!(kept, ["discipline"]);
    assert!(orders.is_empty());
    let (kept, orders) = hazards(&cottage("one-line-off.toml", &[line.as_slice(), &off].concat()));
    assert_eq!(kept, ["kept-off"]);
    let pump = |step: &&String| step.contains("well pump");
    assert_eq!(orders[0].iter().filter(pump).collect::<Vec<_>>(), ["open `breaker of well pump circuit`"]);
    // Back on the utility it is as it was.
    assert_eq!(orders[1].iter().filter(pump).collect::<Vec<_>>(), ["close `breaker of well pump circuit`"]);
}

#[test]
fn a_generator_is_refueled_cold_and_off_its_loads_and_feeds_them_again() {
    let site = example("cottage.toml");
    let found = json(&["sequence", &site], 0);
    let refuel = &orders(&found)[3];
    assert_eq!(refuel["purpose"], "refuel");
    let steps = steps_of(refuel);
    // The pump waits again: all loads together start above what the set gives, as when it is connected.
    assert_eq!(
        steps,
        [
            "open `breaker of generator outlet`",
            "stop `generator`",
            "let cool `generator`",
            "refuel `generator`",
            "open `breaker of well pump circuit`",
            "start `generator`",
            "close `breaker of generator outlet`",
            "close `breaker of well pump circuit`",
        ]
    );
    let why = |step: usize| refuel["steps"][step - 1]["because"].as_str().unwrap();
    assert!(why(3).starts_with("without it step 4 would break fuel-only-when-cold"), "{}", why(3));
    // Behind the order to connect it is accepted as somebody's own.
    let all: Vec<String> = steps_of(&orders(&found)[0]).into_iter().chain(steps.clone()).collect();
    assert_eq!(verify(&site, "refuel.toml", &toml(&all), 0)["accepted"], "holds");
    // Nothing but fuel can be left out.
    for left_out in (0..steps.len()).filter(|step| !steps[*step].starts_with("refuel")) {
        let fault = refuel["faults"]
            .as_array()
            .unwrap()
            .iter()
            .find(|fault| fault["step"] == left_out + 1 && fault["kind"] == "skipped");
        assert_eq!(fault.unwrap()["reaches_goal"], false, "{}", steps[left_out]);
    }
}
