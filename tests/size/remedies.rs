//! A remedy makes its finding hold and breaks no other, and nothing smaller does: on the cottage, spoiled at random.

use crate::corpus;
use loadworthy::check::{Report, WithWorking, check};
use loadworthy::code::{Code, Edition, Nec};
use loadworthy::rules::{Finding, Outcome};
use loadworthy::site::Site;
use loadworthy::size::remedy::{Change, Mend, remedy};
use proptest::prelude::*;

const COTTAGE: &str = include_str!("../../core/examples/cottage.toml");

/// The cottage with the values of some lines replaced: sizes, ratings, lengths and currents.
fn spoiled(spoils: &[(usize, usize)]) -> String {
    const SIZES: [&str; 6] = ["14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG"];
    const RATINGS: [&str; 5] = ["15 A", "20 A", "25 A", "30 A", "40 A"];
    const LENGTHS: [&str; 5] = ["10 ft", "60 ft", "150 ft", "300 ft", "600 ft"];
    const CURRENTS: [&str; 6] = ["3 A", "12 A", "13 A", "16 A", "17 A", "24 A"];
    let kinds: [(&str, &[&str]); 5] = [
        ("size = ", &SIZES),
        ("grounding_size = ", &SIZES),
        ("overcurrent_device = { rating = ", &RATINGS),
        ("length = ", &LENGTHS),
        ("current = ", &CURRENTS),
    ];
    let mut lines: Vec<String> = COTTAGE.lines().map(str::to_owned).collect();
    let places: Vec<(usize, usize)> = (0..lines.len())
        .flat_map(|line| (0..kinds.len()).map(move |kind| (line, kind)))
        .filter(|(line, kind)| lines[*line].starts_with(kinds[*kind].0))
        .collect();
    for (place, value) in spoils {
        let (line, kind) = places[place % places.len()];
        let (start, values) = kinds[kind];
        let after = lines[line][start.len()..].trim_start_matches('"');
        let rest = after.split_once('"').map_or("", |(_, rest)| rest).to_owned();
        lines[line] = format!("{start}\"{}\"{rest}", values[value % values.len()]);
    }
    lines.join("\n")
}

fn nec() -> &'static Nec {
    Nec::standard(Edition::Nec2023)
}

fn faults<'a>(report: &'a Report<'_>) -> impl Iterator<Item = &'a Finding> {
    report.findings.iter().filter(|finding| finding.outcome != Outcome::Holds)
}

fn same(a: &Finding, b: &Finding) -> bool {
    a.rule == b.rule && a.subject == b.subject && a.field == b.field
}

/// Whether a mend does what it should, judged on the written document read again.
fn mends(report: &Report<'_>, finding: &Finding, mend: &Mend) -> bool {
    let written = mend.applied(report.site).to_toml().unwrap();
    let site = Site::from_toml("mended.toml", &written).unwrap();
    let after = check(&site, nec(), WithWorking::No);
    let of_it = || after.findings.iter().filter(|other| other.rule == finding.rule && other.subject == finding.subject);
    let recurs = of_it().any(|other| same(other, finding));
    let mut judged = of_it().filter(|other| !recurs || same(other, finding));
    let holds = of_it().count() > 0 && judged.all(|other| other.outcome == Outcome::Holds);
    // What failed and now asks for a fact behind the fault is no worse.
    let no_worse = |old: &Finding, new: &Finding| {
        let asks = old.outcome == Outcome::Fails && new.outcome == Outcome::CannotTell;
        same(old, new) && old.outcome == new.outcome || old.rule == new.rule && old.subject == new.subject && asks
    };
    let breaks = faults(&after).any(|new| !faults(report).any(|old| no_worse(old, new)));
    holds && !breaks
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn a_remedy_mends_and_the_next_smaller_does_not(spoils in prop::collection::vec((0_usize..100, 0_usize..6), 1..5)) {
        let site = Site::from_toml("cottage.toml", &spoiled(&spoils)).unwrap();
        let report = check(&site, nec(), WithWorking::No);
        for finding in report.findings.iter().filter(|finding| finding.outcome == Outcome::Fails) {
            let Some(mend) = remedy(&report, finding) else { continue };
            prop_assert!(mends(&report, finding, &mend), "{}: {}", finding.rule.slug, mend.text(&site));
            // The last size one step smaller.
            let mut smaller = mend.clone();
            let change = smaller.changes.last_mut().unwrap();
            let (Change::Conductors { size, .. } | Change::Grounding { size, .. } | Change::Cord { size, .. }) = change
            else { continue };
            if let Some(less) = nec().sizes().iter().rev().find(|other| **other < *size) {
                *size = *less;
                prop_assert!(!mends(&report, finding, &smaller), "{}: {}", finding.rule.slug, smaller.text(&site));
            }
        }
    }
}

#[test]
fn each_kind_of_fault_has_its_remedy() {
    for (replace, with, slug, text) in [
        (
            "rating = \"15 A\"",
            "rating = \"20 A\"",
            "breaker-protects-conductor",
            // Its grounding conductor fails of its own, and has its own remedy.
            "replace the conductors of `lighting circuit` with 12 AWG",
        ),
        (
            "grounding_size = \"8 AWG\"",
            "grounding_size = \"12 AWG\"",
            "equipment-grounding-conductor",
            // 10 AWG for 40 A. Whether 6 AWG was an enlargement of 8 AWG is not stated; if it was, 10380 x 26240 / 16510 is
            // 16497 cmil, below the 16510 of 8 AWG, so that 8 AWG does in either case.
            "replace the equipment grounding conductor of `inlet feeder` with 8 AWG",
        ),
        (
            "size = \"6 AWG\"\nconductors",
            "size = \"10 AWG\"\nconductors",
            "breaker-protects-cord",
            // 40 A ahead of three conductors that carry current: 8 AWG is 35 A, 6 AWG 45 A, by Table 400.5(A)(1).
            "replace `generator cord` with a cord of 6 AWG",
        ),
        (
            "length = \"50 ft\"",
            "length = \"500 ft\"",
            "voltage-drop-in-branch",
            // 2.64 A over 2 x 500 ft: 5.2 V on 12 AWG, 3.3 V on 10 AWG, of 3.6 V; grounding 4110 x 10380 / 4110 cmil.
            "replace the conductors of `lighting circuit` with 10 AWG; replace the equipment grounding conductor of \
             `lighting circuit` with 10 AWG",
        ),
    ] {
        let changed = COTTAGE.replacen(replace, with, 1);
        assert_ne!(changed, COTTAGE);
        let site = Site::from_toml("cottage.toml", &changed).unwrap();
        let report = check(&site, nec(), WithWorking::No);
        let finding =
            report.findings.iter().find(|finding| finding.outcome == Outcome::Fails && finding.rule.slug == slug);
        let finding = finding.unwrap_or_else(|| panic!("{slug} does not fail"));
        assert_eq!(remedy(&report, finding).map(|mend| mend.text(&site)).as_deref(), Some(text), "{slug}");
    }
}

#[test]
fn nothing_is_sized_where_something_is_prohibited() {
    let tied = COTTAGE.replacen("rating = \"15 A\"", "rating = \"20 A\"", 1).replacen(
        "load_end = \"CS-50-125/250R\"",
        "load_end = \"CS-50-125/250P\"",
        1,
    );
    let site = Site::from_toml("cottage.toml", &tied).unwrap();
    let report = check(&site, nec(), WithWorking::No);
    assert!(report.prohibited());
    for finding in &*report.findings {
        assert_eq!(remedy(&report, finding), None);
    }
}

/// The rules whose remedy is a size.
const BY_SIZE: [&str; 14] = [
    "breaker-protects-conductor",
    "breaker-protects-cord",
    "conductor-ampacity",
    "conductor-suits-place",
    "continuous-load-on-conductor",
    "continuous-load-on-device",
    "cord-ampacity",
    "cord-set-length-limit",
    "equipment-grounding-conductor",
    "motor-voltage-and-frequency",
    "source-conductor-ampacity",
    "voltage-at-load",
    "voltage-drop-in-branch",
    "voltage-drop-on-path",
];

/// Findings that no size mends, each with the reason.
const NO_SIZE_MENDS: &[(&str, &str)] = &[
    ("conductor-ampacity a-load-of-unknown-current-does-not-cure-the-others", "no size holds for a current not stated"),
    ("conductor-suits-place THHN-in-a-wet-raceway", "the insulation does not suit, whatever its size"),
    ("conductor-suits-place NM-B-in-a-wet-place", "the cable does not suit, whatever its size"),
    (
        "continuous-load-on-device an-unknown-leg-does-not-decide-where-no-leg-bears-it",
        "the device is that of the source's own outlet",
    ),
];

#[test]
fn every_failure_with_a_remedy_by_size_carries_one_that_mends_it_and_breaks_nothing() {
    let mut wrong = Vec::new();
    let mut mended = 0;
    let mut idle: Vec<&str> = NO_SIZE_MENDS.iter().map(|(name, _)| *name).collect();
    for (name, text) in corpus::sites() {
        let site = Site::from_toml("site.toml", &text).unwrap_or_else(|problems| panic!("{name}: {problems}"));
        let report = check(&site, nec(), WithWorking::No);
        for finding in report.findings.iter().filter(|finding| finding.outcome == Outcome::Fails) {
            let by_size = BY_SIZE.contains(&finding.rule.slug);
            match remedy(&report, finding) {
                Some(mend) if !mends(&report, finding, &mend) => {
                    wrong.push(format!("{name}: {} does not mend {}", mend.text(&site), finding.rule.slug))
                }
                Some(_) => mended += 1,
                None if by_size && idle.contains(&name.as_str()) => idle.retain(|known| *known != name),
                None if by_size && !report.prohibited() && !NO_SIZE_MENDS.iter().any(|(known, _)| *known == name) => {
                    wrong.push(format!("{name}: {} has no remedy", finding.rule.slug));
                }
                None => {}
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(idle.is_empty(), "a size mends these, or they do not fail any more: {idle:?}");
    assert!(mended > 30, "{mended}");
}
