//! The cases of every rule: a site, and exactly what the rule must find on it.
//!
//! `tests/cases/<slug>.toml` holds the cases of one rule. The file's `site` is the one that its cases share; a case
//! says what differs by `change`, pairs of a text that stands there once and what stands in its place, or brings a
//! `site` of its own. `expect` lists all findings of that rule, in order. Each number in a file has a comment that says
//! from which table, section or sum it comes, for none of them is taken from this program's output.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod corpus;

use std::collections::BTreeSet;

use corpus::{Case, Expected, File, cases, folder, site_text};
use loadworthy::check::{WithWorking, check};
use loadworthy::code::{Edition, Nec};
use loadworthy::report;
use loadworthy::rules::{Outcome, RULES, Rule};
use loadworthy::site::Site;

/// The cases that every rule has.
const REQUIRED: [&str; 3] = ["holds", "fails", "cannot-tell"];

/// Rules that compare with no number, or with one that no description can meet exactly, and why.
const WITHOUT_A_LIMIT: &[(&str, &str)] = &[
    ("backfed-breaker-held-down", "a breaker is fastened or it is not"),
    ("backfed-breaker-not-one-way", "a mark is there or it is not"),
    ("bare-contacts-never-live", "contacts can be live or they cannot"),
    ("bond-marking-known", "a mark says one thing or the other"),
    ("bond-matches-transfer-poles", "a matrix of four fields"),
    ("conductor-suits-place", "a size is in the table or it is not"),
    ("cord-suits-place", "no supply system has exactly the 300 V or 600 V of a cord"),
    ("electrode-when-feeding-building", "a connection is there or it is not"),
    ("grounding-path-whole", "a contact is there or it is not"),
    ("inlet-neutral-sign", "a sign says one thing or the other"),
    ("inlet-of-right-kind", "a fact is stated one way or the other; its rating is judged by breaker-protects-inlet"),
    ("neutral-never-opens-first", "an order is one or another"),
    ("no-cord-with-two-plugs", "an end has blades or it has none"),
    ("plug-enters-receptacle", "a pair mates or it does not"),
    ("portable-set-30ma", "the description says whether the device has 30 mA or less"),
    ("receptacle-not-a-way-in", "a way in is a receptacle or it is not"),
    ("sources-mutually-excluded", "two supplies can be joined or they cannot"),
    ("transfer-equipment-present", "it is there or it is not"),
    ("vehicle-export-listed", "a listing fits or it does not"),
    ("waveform-suits-loads", "a load takes the waveform or it does not"),
];

/// Rules of places, people, cords and procedures that rest on facts in words and compare no numbers.
const OF_FACTS: &[&str] = &[
    "acknowledgements-name-cautions",
    "backfeed-warning-at-switches",
    "breaks-before-it-makes",
    "co-alarms",
    "cord-connections-off-ground",
    "cord-not-fixed-wiring",
    "cord-sound",
    "cord-through-opening",
    "cord-unrolled",
    "engine-outside-only",
    "floating-source-on-its-own",
    "frame-may-be-the-electrode",
    "generator-disconnect",
    "instructions-posted",
    "interlock-works-with-cover-on",
    "island-supply-has-own-earth",
    "kept-dry",
    "largest-start-first",
    "loads-kept-off",
    "lock-and-tag-all-sources",
    "main-open-and-proved",
    "medical-equipment-has-own-plan",
    "meter-mounted-switch-agreed",
    "nameplate-known",
    "no-backfeed-through-charger",
    "no-cut-ground-to-stop-tripping",
    "no-plug-under-load",
    "no-series-cords",
    "no-unattended-automatic-on-portable",
    "parallel-only-if-built-for-it",
    "phase-sequence-match",
    "protective-electronics-on-source",
    "refuel-cool",
    "refuel-stopped",
    "return-in-order",
    "single-120v-source-no-shared-neutrals",
    "single-pole-connectors-in-order",
    "source-instructions-allow-building-supply",
    "source-not-feeding-its-own-charger",
    "source-opened-before-utility",
    "source-overload-protected",
    "source-signs-at-service",
    "surge-and-electronics",
    "temporary-source-under-exception",
    "test-before-touch",
    "transfer-equipment-suited",
    "utility-informed",
    "vehicle-cannot-drive-off",
    "vehicle-frame-bonded",
    "wet-receptacle-covered",
];

/// Rules that ask and never fail.
const NEVER_FAIL: &[&str] = &["nameplate-known"];

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
            citation: Some(report::citation(&judged, finding)),
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
        && same(&expected.citation, &found.citation)
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

/// Without the working, what several rules ask is reckoned once; with it, each time.
#[test]
fn the_working_changes_no_finding() {
    for rule in RULES {
        let file = cases(rule);
        for case in &file.case {
            let site = Site::from_toml("site.toml", &site_text(&file, case).unwrap()).unwrap();
            let code = Nec::standard(edition(case.edition.as_deref().unwrap_or(&site.premises().code)).unwrap());
            let mut shown = check(&site, code, WithWorking::Yes).findings.into_owned();
            shown.iter_mut().for_each(|finding| finding.working.clear());
            assert_eq!(check(&site, code, WithWorking::No).findings, shown, "{} {}", rule.slug, case.name);
        }
    }
}

#[test]
fn every_rule_has_the_cases_that_it_must_have() {
    let mut missing = Vec::new();
    for rule in RULES {
        let file = cases(rule);
        let names: BTreeSet<&str> = file.case.iter().map(|case| case.name.as_str()).collect();
        assert_eq!(names.len(), file.case.len(), "{}: two cases of one name", rule.slug);
        let never_open = rule.page().contains("## Cannot tell when\nNever:");
        let limitless = WITHOUT_A_LIMIT.iter().any(|(slug, _)| *slug == rule.slug) || OF_FACTS.contains(&rule.slug);
        let never_fails = NEVER_FAIL.contains(&rule.slug);
        let required = REQUIRED
            .into_iter()
            .filter(|name| !(never_open && *name == "cannot-tell" || never_fails && *name == "fails"));
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
