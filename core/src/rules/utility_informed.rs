//! `utility-informed`: the utility was told of the source where it must be.

use super::fact::Fact;
use super::{Findings, Survey, premises, rule};
use crate::site::Notice;

rule! {
    /// ## Protects against
    /// Crews that do not reckon with a source. Whether the law or the tariff asks for notice differs from place to place.
    ///
    /// ## Cannot tell when
    /// A utility is connected, or may be, and it is not stated whether it was told.
    ///
    /// ## Remedy
    /// Notice to the utility.
    UTILITY_INFORMED = "utility-informed" {
        severity: Information,
        summary: "the utility was not told of a source where it must be",
        topics: [],
        sources: ["California Health and Safety Code 119080 and utility pages, for their places only"],
        check: check,
    }
}

const TOLD: Fact = Fact {
    field: "utility_notice",
    asked: "whether the utility was told of it, or need not be",
    well: "has been told of to the utility, or need not be",
    ill: "must be told of to the utility and has not been",
    mend: "tell the utility of the source and its place",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    if survey.site.utility().map(|utility| utility.connected) == Some(false) {
        return;
    }
    for source in premises::building_sources(survey) {
        TOLD.judge(found, source.id(), source.utility_notice.map(|notice| notice != Notice::Omitted));
    }
}
