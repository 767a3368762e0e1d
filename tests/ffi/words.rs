//! Every word of the trade's vocabulary has its number at the border, and each constant is named as its word is spelled.

#![allow(missing_docs, clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use loadworthy::trade::{Configuration, Word};
use loadworthy_ffi::choices::Choices;
use loadworthy_ffi::choices::configuration::DESIGNATIONS;
use loadworthy_ffi::choices::words::*;

const SOURCE: &str = include_str!("../../ffi/src/choices/words.rs");
const CONFIGURATIONS: &str = include_str!("../../ffi/src/choices/configuration.rs");

/// A spelling as a constant spells it: `XHHW-2` is `XHHW_2`.
fn constant(prefix: &str, spelling: &str) -> String {
    let mut name = prefix.to_owned();
    for part in spelling.split(|c: char| !c.is_ascii_alphanumeric()).filter(|part| !part.is_empty()) {
        name.push('_');
        name.push_str(&part.to_ascii_uppercase());
    }
    name
}

/// The number that the source gives a constant.
fn number_of(source: &str, name: &str) -> Option<i32> {
    let line = source.lines().find(|line| line.starts_with(&format!("pub const {name}:")))?;
    line.rsplit_once("= ")?.1.trim_end_matches(';').parse().ok()
}

fn agree<W: Word + PartialEq>(choices: &Choices<W>, prefix: &str, renamed: &[(&str, &str)]) {
    let mut known: Vec<W> = Vec::new();
    for (_, word) in W::all() {
        if !known.contains(&word) {
            known.push(word);
        }
    }
    assert_eq!(known.len(), choices.words.len(), "a {} has no number yet, or one too many", W::KIND);
    for (number, word) in (1..).zip(choices.words) {
        let spelling = word.spelling();
        let name = match renamed.iter().find(|(from, _)| *from == spelling) {
            Some((_, name)) => (*name).to_owned(),
            None => constant(prefix, spelling),
        };
        assert_eq!(number_of(SOURCE, &name), Some(number), "{name} for `{spelling}`");
    }
}

#[test]
fn every_word_has_its_number() {
    agree(&MATERIALS, "LW_MATERIAL", &[]);
    agree(&INSULATIONS, "LW_INSULATION", &[]);
    agree(&CABLES, "LW_CABLE", &[]);
    agree(&INSTALLATIONS, "LW_INSTALLATION", &[]);
    agree(&PLACES, "LW_PLACE", &[]);
    agree(&CONDUITS, "LW_CONDUIT", &[]);
    agree(&DEVICE_KINDS, "LW_DEVICE_KIND", &[]);
    agree(&CORDS, "LW_CORD", &[]);
    agree(&USAGES, "LW_USAGE", &[]);
    agree(&RACEWAYS, "LW_RACEWAY", &[]);
    agree(&STRANDINGS, "LW_STRANDING", &[]);
    agree(&TRADE_SIZES, "LW_TRADE_SIZE", &[]);
    let terminals = [("60 °C", "LW_TERMINALS_60C"), ("75 °C", "LW_TERMINALS_75C"), ("90 °C", "LW_TERMINALS_90C")];
    agree(&TERMINAL_MARKS, "LW_TERMINALS", &terminals);
    let ratings = [("80 %", "LW_CONTINUOUS_RATING_80_PERCENT"), ("100 %", "LW_CONTINUOUS_RATING_100_PERCENT")];
    agree(&CONTINUOUS_RATINGS, "LW_CONTINUOUS_RATING", &ratings);
}

#[test]
fn every_configuration_has_its_number() {
    assert_eq!(Configuration::all().count(), DESIGNATIONS.len(), "a configuration has no number yet, or one too many");
    for (number, designation) in (1..).zip(DESIGNATIONS) {
        assert!(designation.parse::<Configuration>().is_ok(), "{designation}");
        let name = constant("LW_CONFIGURATION", designation);
        assert_eq!(number_of(CONFIGURATIONS, &name), Some(number), "{name} for `{designation}`");
    }
}
