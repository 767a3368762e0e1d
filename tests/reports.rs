//! What people and programs read: the JSON document keeps to its schema, and the text keeps its form.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod corpus;

use std::sync::LazyLock;

use loadworthy::check::{WithWorking, check};
use loadworthy::code::{Edition, Nec};
use loadworthy::report;
use loadworthy::rules::RULES;
use loadworthy::site::{Kind, Site};
use serde_json::Value;

const SCHEMA: &str = include_str!("../core/schema/report.schema.json");

static SCHEMA_READ: LazyLock<Value> = LazyLock::new(|| serde_json::from_str(SCHEMA).expect("the schema is JSON"));

fn document(text: &str, working: WithWorking) -> Value {
    let site = Site::from_toml("site.toml", text).unwrap_or_else(|problems| panic!("{problems}"));
    let found = check(&site, Nec::standard(Edition::Nec2023), working);
    serde_json::to_value(report::json::document(&found)).expect("a report is JSON")
}

fn shown(text: &str) -> String {
    let site = Site::from_toml("cottage-failing.toml", text).unwrap_or_else(|problems| panic!("{problems}"));
    let mut shown = String::new();
    report::text::write(&check(&site, Nec::standard(Edition::Nec2023), WithWorking::No), &mut shown).expect("a string");
    shown
}

/// What of a value does not keep to a schema: the keywords that the schema uses, and no others.
fn wrong(schema: &Value, root: &Value, value: &Value, at: &str, found: &mut Vec<String>) {
    let Some(keywords) = schema.as_object() else { return };
    for (keyword, wanted) in keywords {
        let fits = match keyword.as_str() {
            "$schema" | "title" | "description" | "$defs" | "then" | "else" => true,
            "$ref" => {
                let pointer = wanted.as_str().and_then(|text| text.strip_prefix('#')).expect("a reference inside");
                wrong(root.pointer(pointer).expect("a definition"), root, value, at, found);
                true
            }
            "type" => match wanted {
                Value::Array(any) => any.iter().any(|one| is_of(one, value)),
                one => is_of(one, value),
            },
            "const" => wanted == value,
            "enum" => wanted.as_array().is_some_and(|all| all.contains(value)),
            "required" => {
                let names = wanted.as_array().into_iter().flatten().filter_map(Value::as_str);
                !value.is_object() || names.into_iter().all(|name| value.get(name).is_some())
            }
            "properties" => {
                for (name, schema) in wanted.as_object().into_iter().flatten() {
                    if let Some(value) = value.get(name) {
                        wrong(schema, root, value, &format!("{at}.{name}"), found);
                    }
                }
                true
            }
            "additionalProperties" => {
                let known = keywords.get("properties").and_then(Value::as_object);
                let mut names = value.as_object().into_iter().flatten();
                names.all(|(name, _)| known.is_some_and(|known| known.contains_key(name)))
            }
            "items" => {
                for (index, value) in value.as_array().into_iter().flatten().enumerate() {
                    wrong(wanted, root, value, &format!("{at}[{index}]"), found);
                }
                true
            }
            "minItems" => {
                value.as_array().is_none_or(|all| wanted.as_u64().is_some_and(|least| all.len() as u64 >= least))
            }
            "maxItems" => {
                value.as_array().is_none_or(|all| wanted.as_u64().is_some_and(|most| all.len() as u64 <= most))
            }
            "uniqueItems" => value
                .as_array()
                .is_none_or(|all| (1..).zip(all).all(|(next, one)| !all.iter().skip(next).any(|other| one == other))),
            "minLength" => value
                .as_str()
                .is_none_or(|text| wanted.as_u64().is_some_and(|least| text.chars().count() as u64 >= least)),
            "minimum" => value.as_u64().is_none_or(|number| wanted.as_u64().is_some_and(|least| number >= least)),
            "pattern" => value.as_str().is_none_or(|text| has_form(wanted, text)),
            "if" => {
                let mut unlike = Vec::new();
                wrong(wanted, root, value, at, &mut unlike);
                let branch = keywords.get(if unlike.is_empty() { "then" } else { "else" });
                wrong(branch.unwrap_or(&Value::Null), root, value, at, found);
                true
            }
            other => panic!("the schema uses `{other}`, which this test does not know"),
        };
        if !fits {
            found.push(format!("{at}: {keyword} {wanted} does not fit {value}"));
        }
    }
}

fn is_of(kind: &Value, value: &Value) -> bool {
    match kind.as_str() {
        Some("object") => value.is_object(),
        Some("array") => value.is_array(),
        Some("string") => value.is_string(),
        Some("integer") => value.is_u64() || value.is_i64(),
        Some("boolean") => value.is_boolean(),
        Some("null") => value.is_null(),
        other => panic!("the schema has a type {other:?}, which this test does not know"),
    }
}

/// The two patterns of the schema.
fn has_form(pattern: &Value, text: &str) -> bool {
    match pattern.as_str() {
        Some("\\?$") => text.ends_with('?'),
        Some("^[a-z0-9]+(-[a-z0-9]+)*$") => text.split('-').all(|word| {
            !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit())
        }),
        other => panic!("the schema has a pattern {other:?}, which this test does not know"),
    }
}

fn problems(document: &Value) -> Vec<String> {
    let mut found = Vec::new();
    wrong(&SCHEMA_READ, &SCHEMA_READ, document, "report", &mut found);
    found
}

#[test]
fn every_report_keeps_to_the_schema() {
    for (name, text) in corpus::sites() {
        let found = problems(&document(&text, WithWorking::Yes));
        assert!(found.is_empty(), "{name}: {found:#?}");
    }
    for (name, text) in corpus::examples() {
        let found = problems(&document(text, WithWorking::No));
        assert!(found.is_empty(), "{name}: {found:#?}");
    }
}

#[test]
fn a_report_that_does_not_keep_to_the_schema_is_seen() {
    let good = document(corpus::examples()[1].1, WithWorking::Yes);
    let changes: [(&str, Value); 7] = [
        ("/outcome", "safe".into()),
        ("/version", 2.into()),
        ("/cautions", Value::Array(Vec::new())),
        ("/findings/0/outcome", "cannot tell".into()),
        ("/findings/0/place/line", 0.into()),
        ("/findings/0/rule", "Cord Ampacity".into()),
        ("/findings/0", Value::Object(serde_json::Map::new())),
    ];
    for (pointer, value) in changes {
        let mut bad = good.clone();
        *bad.pointer_mut(pointer).expect("a place in the report") = value;
        assert!(!problems(&bad).is_empty(), "{pointer}");
    }
    let mut fails = good;
    let all = fails.pointer_mut("/findings").and_then(Value::as_array_mut).expect("findings");
    let failing = all.iter_mut().find(|finding| finding["outcome"] == "fails").expect("one that fails");
    failing["remedy"] = Value::Null;
    assert!(!problems(&fails).is_empty(), "a failure without a remedy");
}

#[test]
fn the_schema_knows_every_kind_of_component() {
    let kinds = SCHEMA_READ.pointer("/$defs/kind/enum").and_then(Value::as_array).expect("the kinds");
    let listed: Vec<&str> = kinds.iter().filter_map(Value::as_str).filter(|kind| !kind.is_empty()).collect();
    assert_eq!(listed, Kind::ALL.iter().map(|kind| kind.key()).collect::<Vec<_>>());
}

/// Every rule that is named in a report is one that can be explained.
#[test]
fn a_report_names_only_rules_of_the_list() {
    for (_, text) in corpus::examples() {
        let document = document(text, WithWorking::No);
        for finding in document["findings"].as_array().into_iter().flatten() {
            assert!(RULES.iter().any(|rule| finding["rule"] == rule.slug), "{finding}");
        }
    }
}

/// The form of the text: what stands where, line by line, for the failing cottage. The findings themselves are the
/// business of their cases, and their number grows with the rules.
#[test]
fn the_text_begins_with_the_outcome_and_goes_from_grave_to_slight() {
    let text = shown(corpus::examples()[1].1);
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines.first(), Some(&"Lakeside cottage, as found: not loadworthy"));
    assert_eq!(lines.get(1), Some(&"judged by NFPA 70, National Electrical Code, 2023"));
    let sum = lines.get(2).expect("the sum");
    assert!(sum.ends_with("cannot be told; do not use it before what fails is mended"), "{sum}");
    assert_eq!(lines.get(3..5), Some(&["", "fails"][..]));
    let severities: Vec<usize> = lines
        .iter()
        .skip(5)
        .take_while(|line| !line.is_empty())
        .filter_map(|line| ["(prohibited)", "(violation)", "(caution)"].iter().position(|word| line.ends_with(word)))
        .collect();
    assert!(severities.is_sorted() && severities.len() > 10, "{severities:?}");
    let two_plugs = "  no-cord-with-two-plugs fails (prohibited)\n    \
                     cord `two-plug cord` has blades at both ends: one end is live in the open as soon as the other is seated\n    \
                     at cottage-failing.toml:54:12\n";
    assert!(text.contains(two_plugs), "{text}");
    let cautions = "\ncautions\n  - electricity and engine exhaust kill; an engine runs outdoors only, far from every opening\n  \
                    - local codes and the authority having jurisdiction decide\n  \
                    - connection to premises wiring is work for licensed people\n  \
                    - this report covers only what the description states\n";
    assert!(text.ends_with(cautions), "{text}");
}

/// What nobody may read in a report.
#[test]
fn no_report_calls_anything_safe() {
    for (name, text) in corpus::sites() {
        let document = document(&text, WithWorking::Yes).to_string().to_lowercase();
        assert!(!document.split(|c: char| !c.is_alphabetic()).any(|word| word == "safe"), "{name}");
    }
}

/// The failing cottage, with what its description acknowledges in the line behind its name.
fn acknowledging(slugs: &str) -> String {
    let text = corpus::examples()[1].1;
    let code = text.find("code =").expect("a code");
    [&text[..code], &format!("acknowledged = [{slugs}]\n"), &text[code..]].concat()
}

#[test]
fn an_acknowledged_caution_is_counted_and_quiet() {
    let loud = shown(&acknowledging(""));
    let cautions: Vec<&str> = loud.lines().filter(|line| line.ends_with(" (caution)")).collect();
    let failing = cautions.iter().find_map(|line| line.trim().strip_suffix(" fails (caution)")).expect("a caution");
    let quiet = shown(&acknowledging(&format!("\"{failing}\"")));
    let count = cautions.iter().filter(|line| line.trim().starts_with(&format!("{failing} "))).count();
    let words = if count == 1 { "1 caution is".to_owned() } else { format!("{count} cautions are") };
    assert_eq!(quiet.lines().nth(3), Some(format!("{words} acknowledged and not shown: {failing}").as_str()));
    assert!(!quiet.contains(&format!("  {failing} fails")) && !quiet.contains(&format!("  {failing} cannot tell")));
    // Nothing else is quieter: the same outcome, and one finding more that says what was acknowledged.
    assert_eq!(loud.lines().next(), quiet.lines().next());
    let findings = |text: &str| text.lines().filter(|line| line.ends_with(')') && line.contains(" fails (")).count();
    assert!(findings(&loud) > findings(&quiet) && findings(&loud) - findings(&quiet) <= count);
}

#[test]
fn nothing_but_a_caution_becomes_quiet() {
    let all: Vec<String> = RULES.iter().map(|rule| format!("\"{}\"", rule.slug)).collect();
    for (_, text) in corpus::examples() {
        let code = text.find("code =").expect("a code");
        let quiet = [&text[..code], &format!("acknowledged = [{}]\n", all.join(", ")), &text[code..]].concat();
        let (before, after) = (document(text, WithWorking::No), document(&quiet, WithWorking::No));
        assert_eq!(before["outcome"], after["outcome"]);
        assert!(problems(&after).is_empty());
        let of = |document: &Value| -> Vec<Value> {
            let all = document["findings"].as_array().cloned().unwrap_or_default();
            let own = |finding: &Value| finding["rule"] != "acknowledgements-name-cautions";
            all.into_iter().filter(own).collect()
        };
        let (before, after) = (of(&before), of(&after));
        assert_eq!(before.len(), after.len());
        for (before, after) in before.iter().zip(&after) {
            assert_eq!((&before["rule"], &before["message"]), (&after["rule"], &after["message"]));
            assert_eq!(before["acknowledged"], false);
            let quiet = after["severity"] == "caution" && after["outcome"] != "holds";
            assert_eq!(after["acknowledged"], quiet, "{after}");
        }
    }
}
