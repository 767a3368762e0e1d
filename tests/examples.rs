//! Published worked examples: each is claimed by name, or listed by name with the reason why not.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "examples/ampacity.rs"]
mod ampacity;
#[path = "examples/circuits.rs"]
mod circuits;
#[path = "examples/harness.rs"]
mod harness;
#[path = "examples/lines.rs"]
mod lines;
#[path = "examples/phasors.rs"]
mod phasors;
#[path = "examples/planning.rs"]
mod planning;
#[path = "examples/voltage_drop.rs"]
mod voltage_drop;

use std::collections::{BTreeMap, BTreeSet};

use harness::{Claim, Example};
use loadworthy::code::{Edition, Nec};

fn claims() -> BTreeMap<&'static str, Claim> {
    let all =
        [ampacity::CLAIMS, circuits::CLAIMS, lines::CLAIMS, phasors::CLAIMS, planning::CLAIMS, voltage_drop::CLAIMS]
            .concat();
    let by_id: BTreeMap<_, _> = all.iter().copied().collect();
    assert_eq!(by_id.len(), all.len(), "an example is claimed twice");
    by_id
}

/// What is not claimed, and why: a whole example, or one of its figures as `id/key`.
fn not_yet_claimed() -> BTreeMap<String, String> {
    let mut listed = BTreeMap::new();
    let mut reason = String::new();
    for line in include_str!("published/not_yet_claimed.txt").lines().filter(|line| !line.starts_with('#')) {
        match line.strip_prefix("    ") {
            Some(id) => {
                assert!(!reason.is_empty(), "{id} has no reason");
                assert!(listed.insert(id.to_owned(), reason.clone()).is_none(), "{id} is listed twice");
            }
            None => reason = line.to_owned(),
        }
    }
    listed
}

#[test]
fn every_example_is_claimed_or_listed() {
    let (examples, claims, listed) = (Example::all(), claims(), not_yet_claimed());
    assert_eq!(examples.len(), 164 + 15);
    let mut known = BTreeSet::new();
    for example in &examples {
        let id = example.id();
        assert!(known.insert(id.to_owned()), "{id} stands twice");
        assert_ne!(claims.contains_key(id), listed.contains_key(id), "{id}: claimed and listed, or neither");
        known.extend(example.expected().keys().map(|key| format!("{id}/{key}")));
    }
    for id in claims.keys().map(|id| (*id).to_owned()).chain(listed.keys().cloned()) {
        assert!(known.contains(&id), "{id}: there is no such example, or no such figure in it");
    }
    for (id, _) in listed.keys().filter_map(|figure| figure.split_once('/')) {
        assert!(claims.contains_key(id), "{id}: a figure of an example that nobody claims");
    }
}

#[test]
fn every_claimed_example_agrees_in_every_edition() {
    let (claims, listed) = (claims(), not_yet_claimed());
    let mut problems = Vec::new();
    for example in Example::all() {
        let Some(claim) = claims.get(example.id()) else { continue };
        for edition in Edition::ALL {
            let answers = claim(&example, Nec::standard(edition));
            let differences =
                example.differences(&answers, |key| listed.contains_key(&format!("{}/{key}", example.id())));
            problems.extend(differences.into_iter().map(|what| format!("{} {}: {what}", edition.id(), example.id())));
        }
    }
    assert!(problems.is_empty(), "\n{}", problems.join("\n"));
}
