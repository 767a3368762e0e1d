//! `co-distance-advised`: an engine stands farther from a building than the least distance.

use super::distance::Distance;
use super::fact::engines;
use super::{Findings, Survey, rule};

rule! {
    /// ## Protects against
    /// Exhaust on a day when the wind and the house draw it in: modeled houses called for more than the least
    /// distance.
    ///
    /// ## Cannot tell when
    /// The distance to the nearest building is not stated, or whether the source has an engine.
    ///
    /// ## Remedy
    /// Move it farther away where the cord and its drop allow it.
    CO_DISTANCE_ADVISED = "co-distance-advised" {
        severity: Information,
        summary: "an engine keeps the least distance and little more",
        topics: [],
        sources: ["NIST, a finding as a Red Cross text reports it"],
        check: check,
    }
}

const ADVISED: Distance = Distance {
    field: "distance_to_building",
    asked: "its distance to the nearest building that people may enter",
    does: "stands away from the nearest building by",
    key: "carbon-monoxide-advised",
    limit_words: "advised is",
    mend: "move it away from every building by",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in engines(survey, found) {
        ADVISED.judge(found, source, source.distance_to_building);
    }
}
