//! The cases of every rule: a site, and exactly what the rule must find on it.
//!
//! `tests/cases/<slug>.toml` holds the cases of one rule. The file's `site` is the one that its cases share; a case
//! says what differs by `change`, pairs of a text that stands there once and what stands in its place, or brings a
//! `site` of its own. `expect` lists all findings of that rule, in order. Each number in a file has a comment that says
//! from which table, section or sum it comes, for none of them is taken from this program's output.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::collections::BTreeSet;
use std::path::Path;

use loadworthy::check::{WithWorking, check};
use loadworthy::code::{Edition, Nec};
use loadworthy::report;
use loadworthy::rules::{Outcome, RULES, Rule};
use loadworthy::site::Site;
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    site: Option<String>,
    case: Vec<Case>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    /// The edition by which it is judged, where that is not the site's own.
    edition: Option<String>,
    site: Option<String>,
    #[serde(default)]
    change: Vec<(String, String)>,
    expect: Vec<Expected>,
}

#[derive(Debug, Deserialize, PartialEq, Eq)]
#[serde(deny_unknown_fields)]
struct Expected {
    component: String,
    outcome: String,
    message: String,
    /// `line:column` of what decided.
    place: Option<String>,
    remedy: Option<String>,
}

/// The cases that every rule has.
const REQUIRED: [&str; 3] = ["holds", "fails", "cannot-tell"];

/// Rules that compare with no number, or with one that no description can meet exactly, and why.
const WITHOUT_A_LIMIT: &[(&str, &str)] = &[
    ("backfed-breaker-held-down", "a breaker is fastened or it is not"),
    ("backfed-breaker-not-one-way", "a mark is there or it is not"),
    ("backfeed-warning-at-switches", "a fact is stated one way or the other"),
    ("bare-contacts-never-live", "contacts can be live or they cannot"),
    ("bond-marking-known", "a mark says one thing or the other"),
    ("bond-matches-transfer-poles", "a matrix of four fields"),
    ("breaks-before-it-makes", "a fact is stated one way or the other"),
    ("conductor-suits-place", "a size is in the table or it is not"),
    ("cord-suits-place", "no supply system has exactly the 300 V or 600 V of a cord"),
    ("electrode-when-feeding-building", "a connection is there or it is not"),
    ("floating-source-on-its-own", "a fact is stated one way or the other"),
    ("frame-may-be-the-electrode", "a fact is stated one way or the other"),
    ("generator-disconnect", "a fact is stated one way or the other"),
    ("grounding-path-whole", "a contact is there or it is not"),
    ("inlet-neutral-sign", "a sign says one thing or the other"),
    ("inlet-of-right-kind", "a fact is stated one way or the other; its rating is judged by breaker-protects-inlet"),
    ("interlock-works-with-cover-on", "a fact is stated one way or the other"),
    ("island-supply-has-own-earth", "a fact is stated one way or the other"),
    ("meter-mounted-switch-agreed", "a fact is stated one way or the other"),
    ("neutral-never-opens-first", "an order is one or another"),
    ("no-backfeed-through-charger", "a fact is stated one way or the other"),
    ("no-cord-with-two-plugs", "an end has blades or it has none"),
    ("no-cut-ground-to-stop-tripping", "a fact is stated one way or the other"),
    ("parallel-only-if-built-for-it", "a fact is stated one way or the other"),
    ("plug-enters-receptacle", "a pair mates or it does not"),
    ("portable-set-30ma", "the description says whether the device has 30 mA or less"),
    ("receptacle-not-a-way-in", "a way in is a receptacle or it is not"),
    ("single-120v-source-no-shared-neutrals", "a fact is stated one way or the other"),
    ("single-pole-connectors-in-order", "a fact is stated one way or the other"),
    ("source-instructions-allow-building-supply", "a fact is stated one way or the other"),
    ("source-signs-at-service", "a fact is stated one way or the other"),
    ("sources-mutually-excluded", "two supplies can be joined or they cannot"),
    ("temporary-source-under-exception", "a fact is stated one way or the other"),
    ("transfer-equipment-present", "it is there or it is not"),
    ("transfer-equipment-suited", "a fact is stated one way or the other"),
    ("utility-informed", "a fact is stated one way or the other"),
    ("vehicle-cannot-drive-off", "a fact is stated one way or the other"),
    ("vehicle-export-listed", "a listing fits or it does not"),
    ("vehicle-frame-bonded", "a fact is stated one way or the other"),
    ("waveform-suits-loads", "a load takes the waveform or it does not"),
];

/// Rules of places, people, cords and procedures that rest on facts in words and compare no numbers.
const OF_FACTS: &[&str] = &[
    "co-alarms",
    "cord-connections-off-ground",
    "cord-not-fixed-wiring",
    "cord-sound",
    "cord-through-opening",
    "cord-unrolled",
    "engine-outside-only",
    "instructions-posted",
    "kept-dry",
    "largest-start-first",
    "loads-kept-off",
    "lock-and-tag-all-sources",
    "main-open-and-proved",
    "medical-equipment-has-own-plan",
    "nameplate-known",
    "no-plug-under-load",
    "no-series-cords",
    "no-unattended-automatic-on-portable",
    "phase-sequence-match",
    "protective-electronics-on-source",
    "refuel-cool",
    "refuel-stopped",
    "return-in-order",
    "source-not-feeding-its-own-charger",
    "source-opened-before-utility",
    "source-overload-protected",
    "surge-and-electronics",
    "test-before-touch",
    "wet-receptacle-covered",
];

/// Rules that ask and never fail.
const NEVER_FAIL: &[&str] = &["nameplate-known"];

fn folder() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/cases"))
}

fn cases(rule: &Rule) -> File {
    let path = folder().join(format!("{}.toml", rule.slug));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    toml::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The text of a case's site, or what is wrong with the case.
fn site_text(file: &File, case: &Case) -> Result<String, String> {
    let shared = case.site.as_ref().or(file.site.as_ref()).ok_or("has no site")?;
    let mut text = shared.clone();
    for (from, to) in &case.change {
        match text.matches(from.as_str()).count() {
            1 => text = text.replacen(from.as_str(), to, 1),
            count => return Err(format!("`{from}` stands in its site {count} times, not once")),
        }
    }
    Ok(text)
}

fn edition(id: &str) -> Result<Edition, String> {
    Edition::ALL.into_iter().find(|edition| edition.id() == id).ok_or(format!("no edition `{id}`"))
}

/// What a rule finds on the site of a case.
fn found(rule: &Rule, file: &File, case: &Case) -> Result<Vec<Expected>, String> {
    let site = Site::from_toml("site.toml", &site_text(file, case)?).map_err(|problems| problems.to_string())?;
    let code = Nec::standard(edition(case.edition.as_deref().unwrap_or(&site.premises().code))?);
    let judged = check(&site, code, WithWorking::Yes);
    let own = judged.findings.iter().filter(|finding| finding.rule == rule);
    own.map(|finding| {
        let remedy = finding.remedy.map(|remedy| remedy.to_string());
        if (finding.outcome == Outcome::Fails) != remedy.as_ref().is_some_and(|remedy| !remedy.is_empty()) {
            return Err(format!("{}, with remedy {remedy:?}", finding.outcome.verb()));
        }
        Ok(Expected {
            component: site.component(finding.subject).map_or("", |component| component.name()).to_owned(),
            outcome: finding.outcome.verb().to_owned(),
            message: report::sentence(&judged, finding),
            place: report::place(&judged, finding).map(|place| format!("{}:{}", place.line(), place.column())),
            remedy,
        })
    })
    .collect()
}

/// Whether a finding is the one that was expected; what a case leaves out is not compared.
fn agrees(expected: &Expected, found: &Expected) -> bool {
    let same = |expected: &Option<String>, found| expected.is_none() || expected == found;
    expected.component == found.component
        && expected.outcome == found.outcome
        && expected.message == found.message
        && same(&expected.place, &found.place)
        && same(&expected.remedy, &found.remedy)
}

/// What is wrong with a case; `None` where all is as expected.
fn wrong(rule: &Rule, file: &File, case: &Case) -> Option<String> {
    let found = match found(rule, file, case) {
        Ok(found) => found,
        Err(why) => return Some(why),
    };
    let all = found.len() == case.expect.len() && case.expect.iter().zip(&found).all(|(one, other)| agrees(one, other));
    let lines =
        |findings: &[Expected]| -> String { findings.iter().map(|finding| format!("\n    {finding:?}")).collect() };
    (!all).then(|| format!("\n  expected{}\n  found{}", lines(&case.expect), lines(&found)))
}

#[test]
fn every_rule_finds_what_its_cases_expect() {
    let mut wrongs = Vec::new();
    let mut count = 0;
    for rule in RULES {
        let file = cases(rule);
        for case in &file.case {
            count += 1;
            wrongs.extend(wrong(rule, &file, case).map(|why| format!("{} {}: {why}", rule.slug, case.name)));
        }
    }
    assert!(wrongs.is_empty(), "{} of {count} cases are wrong:\n{}", wrongs.len(), wrongs.join("\n"));
}

#[test]
fn every_rule_has_the_cases_that_it_must_have() {
    let mut missing = Vec::new();
    for rule in RULES {
        let file = cases(rule);
        let names: BTreeSet<&str> = file.case.iter().map(|case| case.name.as_str()).collect();
        assert_eq!(names.len(), file.case.len(), "{}: two cases of one name", rule.slug);
        let never_open = rule.page().contains("## Cannot tell when\nNever:");
        let limitless =
            WITHOUT_A_LIMIT.iter().any(|(slug, _)| *slug == rule.slug) || OF_FACTS.contains(&rule.slug);
        let never_fails = NEVER_FAIL.contains(&rule.slug);
        let required = REQUIRED
            .into_iter()
            .filter(|name| !(never_open && *name == "cannot-tell") && !(never_fails && *name == "fails"));
        for name in required.chain((!limitless).then_some("at-the-limit")) {
            if !names.contains(name) {
                missing.push(format!("{}: {name}", rule.slug));
            }
        }
    }
    assert!(missing.is_empty(), "missing cases: {missing:#?}");
}

/// A case that is named for an outcome has a finding of that outcome, so that the names cannot lie.
#[test]
fn a_case_ends_as_its_name_says() {
    for rule in RULES {
        for case in cases(rule).case {
            let outcome = match case.name.as_str() {
                "holds" | "at-the-limit" => Outcome::Holds,
                "fails" | "one-step-over" => Outcome::Fails,
                "cannot-tell" => Outcome::CannotTell,
                _ => continue,
            };
            let ends = case.expect.iter().any(|expected| expected.outcome == outcome.verb());
            assert!(ends, "{}: case `{}` expects no finding that {}", rule.slug, case.name, outcome.verb());
        }
    }
}

#[test]
fn every_file_of_cases_belongs_to_a_rule() {
    for entry in std::fs::read_dir(folder()).expect("the folder of cases") {
        let name = entry.expect("an entry").file_name().into_string().expect("a name in UTF-8");
        let slug = name.strip_suffix(".toml").unwrap_or_else(|| panic!("`{name}` is not a .toml file"));
        assert!(RULES.iter().any(|rule| rule.slug == slug), "`{name}`: there is no rule `{slug}`");
    }
    let named = WITHOUT_A_LIMIT.iter().map(|(slug, _)| slug).chain(OF_FACTS).chain(NEVER_FAIL);
    for slug in named {
        assert!(RULES.iter().any(|rule| rule.slug == *slug), "there is no rule `{slug}`");
    }
}
