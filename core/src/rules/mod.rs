//! The rules: one file each, and the list of them.
//!
//! A rule looks at a site by a code and says, for each thing that it examines, whether it holds, fails, or cannot be
//! told. Its page, which people read, is the doc comment of its file's `rule!`.

mod capacity;
mod compare;
mod cord;
mod fact;
mod finding;
mod path;
mod rule;
mod survey;
mod wires;

pub use finding::{Finding, Findings, Outcome, Remedy, Said, Value};
pub use rule::{Rule, Severity};
pub use survey::{Bounds, Demand, Shape, Survey};

use rule::rule;

macro_rules! rules {
    ($($module:ident :: $name:ident),+ $(,)?) => {
        $(pub mod $module;)+

        /// Every rule, in the order of their slugs.
        pub static RULES: &[&Rule] = &[$(&$module::$name),+];
    };
}

rules! {
    breaker_protects_conductor::BREAKER_PROTECTS_CONDUCTOR,
    breaker_protects_cord::BREAKER_PROTECTS_CORD,
    breaker_protects_inlet::BREAKER_PROTECTS_INLET,
    conductor_ampacity::CONDUCTOR_AMPACITY,
    conductor_suits_place::CONDUCTOR_SUITS_PLACE,
    continuous_load_on_conductor::CONTINUOUS_LOAD_ON_CONDUCTOR,
    continuous_load_on_device::CONTINUOUS_LOAD_ON_DEVICE,
    cord_ampacity::CORD_AMPACITY,
    cord_suits_place::CORD_SUITS_PLACE,
    equipment_grounding_conductor::EQUIPMENT_GROUNDING_CONDUCTOR,
    no_cord_with_two_plugs::NO_CORD_WITH_TWO_PLUGS,
    plug_enters_receptacle::PLUG_ENTERS_RECEPTACLE,
    receptacle_load::RECEPTACLE_LOAD,
    receptacle_suits_circuit::RECEPTACLE_SUITS_CIRCUIT,
    smallest_rating_governs::SMALLEST_RATING_GOVERNS,
    transfer_equipment_present::TRANSFER_EQUIPMENT_PRESENT,
    voltage_and_poles_match::VOLTAGE_AND_POLES_MATCH,
    voltage_at_load::VOLTAGE_AT_LOAD,
    voltage_drop_in_branch::VOLTAGE_DROP_IN_BRANCH,
    voltage_drop_on_path::VOLTAGE_DROP_ON_PATH,
}

/// The rule of a slug.
#[must_use]
pub fn find(slug: &str) -> Option<&'static Rule> {
    RULES.iter().copied().find(|rule| rule.slug == slug)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rules_are_sorted_by_slug_and_their_pages_are_whole() {
        assert!(RULES.is_sorted_by(|a, b| a.slug < b.slug));
        for rule in RULES {
            for heading in ["## Protects against", "## Cannot tell when", "## Remedy"] {
                assert!(rule.page().contains(heading), "{} lacks {heading}", rule.slug);
            }
            assert!(!rule.summary.is_empty() && !(rule.topics.is_empty() && rule.sources.is_empty()), "{}", rule.slug);
        }
    }

    #[test]
    fn every_topic_has_a_section_in_every_edition() {
        use crate::code::{Code, Edition, Nec};
        for edition in Edition::ALL {
            for rule in RULES {
                for topic in rule.topics {
                    let citation = Nec::standard(edition).section(topic);
                    assert!(citation.section.is_some(), "{}: {topic} in {}", rule.slug, edition.id());
                }
            }
        }
    }
}
