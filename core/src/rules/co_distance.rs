//! `co-distance`: an engine stands far from every building, its exhaust away, the openings shut.

use super::distance::Distance;
use super::fact::{Fact, engines};
use super::{Findings, Survey, rule};
use crate::site::ComponentId;

rule! {
    /// ## Protects against
    /// Exhaust that drifts through a window, a door or a vent to people who sleep. A distance of 20 ft is the least
    /// that is advised by the agency that counts the deaths; shorter figures are met and are not used.
    ///
    /// ## Cannot tell when
    /// The distance to the nearest building, the direction of the exhaust or the state of the openings is not stated,
    /// or whether the source has an engine.
    ///
    /// ## Remedy
    /// Move it away, by a longer cord whose drop is checked again; turn its exhaust away and shut what it could
    /// reach.
    CO_DISTANCE = "co-distance" {
        severity: Violation,
        summary: "an engine is too near to a building, or its exhaust can enter one",
        topics: [],
        sources: [
            "CPSC releases of 24 July 2020, 14 December 2021 and December 2022",
            "health pages that follow the CDC",
        ],
        check: check,
    }
}

const BUILDING: Distance = Distance {
    field: "distance_to_building",
    asked: "its distance to the nearest building that people may enter",
    does: "stands away from the nearest building by",
    key: "carbon-monoxide",
    limit_words: "the least is",
    mend: "move it away from every building by at least",
};

const EXHAUST: Fact = Fact {
    field: "exhaust_away",
    asked: "whether its exhaust points away from every building",
    well: "points its exhaust away from every building",
    ill: "points its exhaust at a building",
    mend: "turn it so that its exhaust points away from every building",
};

const OPENINGS: Fact = Fact {
    field: "openings_closed",
    asked: "whether the openings that exhaust could reach are closed while an engine runs",
    well: "has the openings closed that exhaust could reach",
    ill: "has openings open that exhaust can reach",
    mend: "close every door, window and vent that exhaust could reach",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    let engines = engines(survey, found);
    for source in &engines {
        BUILDING.judge(found, source, source.distance_to_building);
        EXHAUST.judge(found, source.id(), source.exhaust_away);
    }
    if !engines.is_empty() {
        let stated = survey.site.surroundings().and_then(|place| place.openings_closed);
        OPENINGS.judge(found, ComponentId::SURROUNDINGS, stated);
    }
}
