//! The command as its users meet it: exact text, documents, exit statuses, messages, a reader that leaves early.

#![allow(clippy::expect_used, clippy::indexing_slicing)]

use std::io::Write;
use std::process::{Command, Output, Stdio};

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_loadworthy")).args(arguments).output().expect("the command runs")
}

fn questions(lines: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_loadworthy"))
        .args(["calc", "--questions", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the command runs");
    child.stdin.take().expect("a pipe").write_all(lines.as_bytes()).expect("the questions are read");
    child.wait_with_output().expect("the command ends")
}

fn text(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("UTF-8")
}

/// The status, and what the error stream says.
fn refused(arguments: &[&str]) -> String {
    let output = run(arguments);
    assert_eq!(output.status.code(), Some(3), "{arguments:?}");
    assert!(output.stdout.is_empty(), "{arguments:?}");
    let message = String::from_utf8(output.stderr).expect("UTF-8");
    assert_eq!(message.lines().count(), 1, "{message}");
    message.trim_end().to_owned()
}

fn json(arguments: &[&str]) -> serde_json::Value {
    let output = run(&[arguments, &["--format", "json"]].concat());
    serde_json::from_slice(&output.stdout).expect("JSON")
}

const EIGHT_GAUGE: [&str; 12] = [
    "calc",
    "ampacity",
    "--size",
    "8 AWG",
    "--material",
    "copper",
    "--insulation",
    "THHN",
    "--ambient",
    "40 °C",
    "--terminals",
    "75 °C",
];

#[test]
fn an_ampacity_reads_answer_first_then_working() {
    // Published example `am-8awg-thhn-40c-75c-terminals`, an electricians' discussion of 110.14: 55 A at 90 °C times
    // 0.91 is 50.05 A, and the 75 °C terminals limit it to 50 A.
    let output = run(&EIGHT_GAUGE);
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(
        text(&output),
        "\
50 A: ampacity of 8 AWG copper, THHN
governed by: terminals
corrected and adjusted: 50.05 A
terminal limit: 50 A
working, by NFPA 70, National Electrical Code, 2023:
  1. 8 AWG copper at 90 °C, raceway: 55 A
     NEC 2023 Table 310.16; row 8 AWG, column copper 90c a; two or more published sources
  2. ambient 40 °C: times 91 %: 50.05 A
     NEC 2023 Table 310.15(B)(1)(1); row 36, column factor 90c; two or more published sources
  3. terminals at 75 °C: no more, without factors: 50 A
     NEC 2023 110.14(C)(1); row 8 AWG, column copper 75c a; two or more published sources
  4. the least governs: the terminals: 50 A
assumed: installation: raceway
assumed: place: dry
assumed: not above a roof in sunlight
assumed: three conductors carry current, the base of the table
assumed: edition nec-2023, the newest that is carried
caution: electricity kills; the local code and the authority having jurisdiction decide; the answer covers only what was stated
"
    );
}

#[test]
fn a_voltage_drop_reads_answer_first_then_working() {
    // Published example `vd-dc-16awg-100ft`, a voltage-drop lesson of an electrician's course: 4.99 ohm per 1000 ft,
    // 200 ft of wire, 4 A: 3.992 V of 24 V.
    let output = run(&[
        "calc",
        "voltage-drop",
        "--method",
        "dc",
        "--circuit",
        "two-wire",
        "--supply",
        "24 V",
        "--segment",
        "16 AWG copper, 100 ft, 4 A",
        "--edition",
        "nec-2020",
    ]);
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(
        text(&output),
        "\
3.992 V, 16.6334 % of 24 V: voltage drop of 24 V by direct-current resistance, to the load at the end
governed by: direct current resistance
direction: drop
at load rounded down: 20.008 V
share rounded up: 16.6334 %
working, by NFPA 70, National Electrical Code, 2020:
  1. 16 AWG copper, direct-current resistance: 4.99 ohm/kft
     NEC 2020 Chapter 9 Table 8; row 16 AWG, column copper uncoated ohm per kft; one published source
  2. 100 ft, two conductors: 4 A
  3. voltage drop by direct-current resistance: 3.992 V, 16.6334 % of 24 V
  4. recommended for a branch circuit or a feeder alone: at most 3 %: more than that
     NEC 2020 210.19(A) informational note
  5. recommended for feeder and branch circuit: at most 5 %: more than that
     NEC 2020 210.19(A) informational note
assumed: conductors at 75 °C, the base of the table
assumed: the return conductor is like the other one
caution: electricity kills; the local code and the authority having jurisdiction decide; the answer covers only what was stated
"
    );
}

#[test]
fn the_document_has_every_field_in_every_outcome() {
    let fields = [
        "question",
        "edition",
        "outcome",
        "subject",
        "answer",
        "governed_by",
        "figures",
        "working",
        "assumed",
        "gap",
        "caution",
    ];
    let no = ["calc", "plug", "--plug", "14-50", "--receptacle", "14-30"];
    let cannot = ["calc", "cord", "--cord", "SJTW", "--size", "2 AWG"];
    for (arguments, outcome) in [(EIGHT_GAUGE.as_slice(), "answered"), (&no, "no"), (&cannot, "cannot-tell")] {
        let document = json(arguments);
        let object = document.as_object().expect("an object");
        assert!(fields.iter().all(|field| object.contains_key(*field)) && object.len() == fields.len(), "{document}");
        assert_eq!(document["outcome"], outcome);
        assert_eq!(document["gap"].is_null(), outcome != "cannot-tell");
    }
    let answer = &json(&EIGHT_GAUGE)["answer"];
    assert_eq!(*answer, serde_json::json!({"value": "50", "unit": "A", "text": "50 A"}));
}

#[test]
fn the_exit_status_tells_the_outcome() {
    let plug = |plug, receptacle| run(&["calc", "plug", "--plug", plug, "--receptacle", receptacle]).status.code();
    assert_eq!(plug("5-15", "5-20"), Some(0));
    assert_eq!(plug("5-20", "5-15"), Some(1));
    assert_eq!(plug("SS2-50", "CS-50-125/250"), Some(2));
    assert_eq!(plug("14-50", "14-5O"), Some(3));
}

#[test]
fn a_cell_below_the_grade_is_a_gap_until_it_is_accepted() {
    let free_air = [
        "calc",
        "ampacity",
        "--size",
        "10 AWG",
        "--material",
        "copper",
        "--insulation",
        "THWN",
        "--installation",
        "free air",
    ];
    let output = run(&free_air);
    assert_eq!(output.status.code(), Some(2));
    let first = "cannot tell the ampacity: table `ampacity-free-air`, row `10 AWG`, column `copper 75c a` rests on memory \
                 only; read it in the book and accept it\n";
    assert!(text(&output).starts_with(first), "{}", text(&output));

    let accept = |value: &str| {
        let file = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("accept-{value}.toml"));
        let cell = format!(
            "[[cell]]\ntable = \"ampacity-free-air\"\nrow = \"10 AWG\"\ncolumn = \"copper_75c_a\"\nvalue = \"{value}\"\n\
             read_by = \"A. Reader\"\n"
        );
        std::fs::write(&file, cell).expect("the file is written");
        run(&[&free_air[..], &["--accept", file.to_str().expect("UTF-8"), "--format", "json"]].concat())
    };
    let document: serde_json::Value = serde_json::from_slice(&accept("50").stdout).expect("JSON");
    assert_eq!(document["figures"]["corrected_and_adjusted"], "50 A");
    let refused = accept("55");
    assert_eq!(refused.status.code(), Some(3));
    let message = String::from_utf8_lossy(&refused.stderr).into_owned();
    assert!(message.contains("the book reads `55` where table `ampacity-free-air` carries `50`"), "{message}");
}

#[test]
fn problems_are_one_line_and_say_what_to_do() {
    let ampacity = |more: &[&'static str]| refused(&[&["calc", "ampacity"], more].concat());
    assert_eq!(
        ampacity(&["--size", "6", "--material", "copper", "--insulation", "THHN"]),
        "loadworthy: --size: `6` has no unit; write a wire size such as `6 AWG`"
    );
    assert_eq!(
        ampacity(&["--size", "6 AWG", "--material", "coper", "--insulation", "THHN"]),
        "loadworthy: --material: `coper` is not a known conductor material; did you mean `copper`?"
    );
    assert_eq!(
        ampacity(&["--size", "6 AWG", "--material", "copper"]),
        "loadworthy: --insulation or --cable is missing and decides the answer; write one, as in `--insulation THHN` or \
         `--cable NM-B`"
    );
    let whole = ["--size", "6 AWG", "--material", "copper", "--insulation", "THHN"];
    assert_eq!(
        ampacity(&[&whole[..], &["--ambient", "-10"]].concat()),
        "loadworthy: --ambient: `-10` has no unit; write a temperature such as `-10 °C`"
    );
    assert_eq!(
        ampacity(&[&whole[..], &["--ambient", "95 ft"]].concat()),
        "loadworthy: --ambient: `95 ft` is a length; write a temperature such as `95 °C`"
    );
    assert_eq!(
        ampacity(&[&whole[..], &["--ungrounded", "2"]].concat()),
        "loadworthy: --neutral is missing and decides the answer; write it, as in `--neutral \"unbalance-only\"`"
    );
    assert_eq!(
        ampacity(&[&whole[..], &["--current-carrying", "0"]].concat()),
        "loadworthy: --current-carrying: `0` is not a count of conductors; write a whole number from 1 to 999"
    );
    assert_eq!(
        ampacity(&[&whole[..], &["--edition", "nec-2O23"]].concat()),
        "loadworthy: --edition: `nec-2O23` is not an edition that is carried; did you mean `nec-2023`?"
    );
    assert_eq!(
        ampacity(&["--sze", "6 AWG"]),
        "loadworthy: unexpected argument `--sze` found; a similar argument exists: `--size`; see `--help`"
    );
    assert_eq!(refused(&["calc"]), "loadworthy: nothing is asked; see `--help`");
    assert_eq!(refused(&[]), "loadworthy: nothing is asked; see `--help`");
    assert_eq!(
        refused(&["table", "smal-conductor"]),
        "loadworthy: there is no table `smal-conductor`; did you mean `small-conductor`?"
    );
    assert_eq!(
        refused(&["calc", "plug", "--plug", "14-50R", "--receptacle", "14-50"]),
        "loadworthy: --plug: `14-50R` has openings; a plug ends in P"
    );
    assert_eq!(
        refused(&[
            "calc",
            "voltage-drop",
            "--method",
            "dc",
            "--circuit",
            "two-wire",
            "--supply",
            "120 V",
            "--segment",
            "12 AWG copper, 50, 16 A",
        ]),
        "loadworthy: --segment: 1: `50` is no part of a segment; write parts such as `12 AWG copper`, \
         `resistance 0.2 ohm/kft`, `reactance 0.05 ohm/kft`, `50 ft`, `16 A`, `other leg 10 A`, `neutral 12 AWG copper`"
    );
}

#[test]
fn what_does_not_decide_is_not_asked_for() {
    // 77 A: the next size up, 80 A, is permitted unless the circuit supplies several receptacles.
    let device = ["calc", "overcurrent-device", "--size", "4 AWG", "--material", "copper", "--ampacity", "77 A"];
    assert!(refused(&device).contains("--supplies is missing and decides the answer"));
    let several = json(&[&device[..], &["--supplies", "several-receptacles"]].concat());
    assert_eq!(several["answer"]["text"], "70 A");
    let other = json(&[&device[..], &["--supplies", "other"]].concat());
    assert_eq!((&other["answer"]["text"], &other["governed_by"]), (&"80 A".into(), &"next-size-up".into()));
    // Exactly at a standard rating nothing further decides.
    let at_rating = ["calc", "overcurrent-device", "--size", "4 AWG", "--material", "copper", "--ampacity", "70 A"];
    assert_eq!(json(&at_rating)["answer"]["text"], "70 A");
    // Neither does the kind of device, but where only fuses have the rating.
    let least = |required| ["calc", "overcurrent-device", "--required", required];
    assert_eq!(json(&least("20 A"))["answer"]["text"], "20 A");
    assert_eq!(json(&least("20.1 A"))["answer"]["text"], "25 A");
    assert!(refused(&least("600.5 A")).contains("--kind is missing"));
}

#[test]
fn a_neutral_is_counted_by_what_it_carries() {
    let cord = |more: &[&'static str]| {
        json(&[&["calc", "cord", "--cord", "SOOW", "--size", "6 AWG"], more].concat())["answer"]["text"].clone()
    };
    assert_eq!(cord(&["--ungrounded", "2", "--neutral", "unbalance-only"]), "55 A");
    assert_eq!(cord(&["--ungrounded", "2", "--neutral", "counted"]), "45 A");
    assert_eq!(cord(&["--current-carrying", "3"]), "45 A");
}

#[test]
fn many_questions_are_answered_line_by_line() {
    let output = questions(concat!(
        r#"{"question": "cord", "cord": "SOOW", "size": "6 AWG", "current-carrying": 2}"#,
        "\n\n",
        r#"{"question": "cord", "cord": "SOOW", "size": 6}"#,
        "\n",
        r#"{"question": "voltage-drop", "power-factor": 0.85}"#,
        "\nnot json\n",
        r#"{"question": "cord", "edition": "nec-2017", "cord": "SOOW", "size": "6 AWG"}"#,
    ));
    assert_eq!(output.status.code(), Some(3));
    let text = text(&output);
    let answers: Vec<serde_json::Value> = text.lines().map(|line| serde_json::from_str(line).expect("JSON")).collect();
    assert_eq!(answers.len(), 5);
    assert_eq!(answers[0]["answer"]["text"], "55 A");
    assert_eq!(
        answers[1],
        serde_json::json!({
            "outcome": "not-read", "line": 3,
            "problem": "--size: `6` has no unit; write a wire size such as `6 AWG`"
        })
    );
    assert_eq!(answers[2]["problem"], "--power-factor: `0.85` is not text; write it in quotes");
    assert_eq!(answers[3]["line"], 5);
    assert_eq!(answers[4]["edition"], "nec-2017");
}

#[test]
fn tables_are_listed_and_printed() {
    let list = text(&run(&["table"]));
    assert!(list.contains("Table 310.16; cells: "), "{list}");
    let page = text(&run(&["table", "small-conductor"]));
    assert!(page.contains("12 AWG  copper                20 [2]"), "{page}");
    assert!(page.contains("grades: [2] two or more published sources"), "{page}");
    let file = run(&["table", "small-conductor", "--format", "csv"]).stdout;
    assert_eq!(file, include_bytes!("../core/data/nec/small-conductor.csv"));
    let document: serde_json::Value =
        serde_json::from_slice(&run(&["table", "small-conductor", "--edition", "nec-2017", "--format", "json"]).stdout)
            .expect("JSON");
    assert_eq!((&document["number"], &document["edition"]), (&"240.4(D)".into(), &"nec-2017".into()));
    assert_eq!(document["rows"][6]["cells"][2], "20");
    assert_eq!(document["rows"][6]["grades"][2], "2");
    // No line of the widest table is wider than a page.
    let wide = text(&run(&["table", "ac-impedance"]));
    let rows = wide.lines().filter(|line| !line.contains(": "));
    assert!(rows.map(|line| line.chars().count()).max() < Some(120));
}

#[test]
fn a_reader_that_leaves_early_is_no_error() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_loadworthy"))
        .args(["calc", "--questions", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the command runs");
    drop(child.stdout.take());
    let line = r#"{"question": "plug", "plug": "5-15", "receptacle": "5-20"}"#;
    let mut stdin = child.stdin.take().expect("a pipe");
    for _ in 0..2000 {
        // The command may stop reading as soon as it notices.
        if writeln!(stdin, "{line}").is_err() {
            break;
        }
    }
    drop(stdin);
    let output = child.wait_with_output().expect("the command ends");
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
}

#[test]
fn what_is_beyond_the_range_is_never_shown_smaller_than_it_is() {
    // 18 AWG copper has 7.95 ohm/kft, Chapter 9 Table 8: 2 x 7.95 x 32 x 90,000.
    let far = ["--length", "32000 ft", "--current", "90000 A", "--supply", "120 V", "--circuit", "two-wire"];
    let wire = ["calc", "voltage-drop", "--method", "dc", "--size", "18 AWG", "--material", "copper"];
    let answer = json(&[&wire[..], &far].concat());
    assert_eq!(answer["answer"]["value"], "45792000");
    assert_eq!(answer["answer"]["text"], "45792000 V");
    // 125 % of 80,000 A is the greatest current that is kept.
    let load = |continuous| ["calc", "continuous-load", "--continuous", continuous, "--non-continuous", "0 A"];
    assert_eq!(json(&load("80000 A"))["answer"]["text"], "100000 A");
    let beyond = "--continuous: with its factor, and the other load, out of range: above 100000 A";
    assert!(refused(&load("80000.000001 A")).contains(beyond));
    let device = ["calc", "overcurrent-device", "--continuous", "90000 A", "--non-continuous", "0 A", "--kind", "fuse"];
    assert!(refused(&device).contains(beyond));
}
