//! `engine-fire-distance`: a fixed engine keeps its distance from openings and from what burns.

use super::distance::Distance;
use super::fact::engines;
use super::{Findings, Remedy, Said, Survey, rule};
use crate::calc::CannotTell;
use crate::code::guidance;
use crate::published::TableId;
use crate::quantity::Meters;

rule! {
    /// ## Protects against
    /// A fire that an engine sets to a wall, and smoke through an opening. This is a distance for fire alone; carbon
    /// monoxide needs far more.
    ///
    /// ## Cannot tell when
    /// The clear space is not stated, or whether the wall beside it is proved to withstand fire; whether the source
    /// is portable, or has an engine.
    ///
    /// ## Remedy
    /// Move it, or prove the wall or the enclosure.
    ENGINE_FIRE_DISTANCE = "engine-fire-distance" {
        severity: Violation,
        summary: "a fixed engine is too near to an opening or to what burns",
        topics: [],
        sources: ["NFPA 37-2010 4.1.4 as set manuals quote it"],
        check: check,
    }
}

const CLEAR: Distance = Distance {
    field: "clear_space",
    asked: "the clear space on every side of it",
    does: "has a clear space of",
    key: "fire-fixed",
    limit_words: "a fixed engine needs",
    mend: "prove the wall or the enclosure, or clear a space of",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in engines(survey, found) {
        match source.portable {
            Some(true) => continue,
            None => {
                found.ask(source, "portable", "whether it is portable");
                continue;
            }
            Some(false) => {}
        }
        let near = match guidance::figure::<Meters>(TableId::EngineDistances, CLEAR.key) {
            Ok(cell) => source.clear_space.is_some_and(|space| *space < cell.value),
            Err(gap) => {
                found.gap(source, CLEAR.field, CannotTell { what: "the clear space of a fixed engine", gap });
                continue;
            }
        };
        match (near, source.fire_proved_wall) {
            (false, _) | (true, Some(false)) => CLEAR.judge(found, source, source.clear_space),
            (true, Some(true)) => {
                let said = Said::Plain("stands near a wall or in an enclosure that is proved to withstand fire");
                found.judge(source, "fire_proved_wall", true, said, Remedy::Do(CLEAR.mend));
            }
            (true, None) => found.ask(
                source,
                "fire_proved_wall",
                "whether the wall or the enclosure beside it is proved to withstand fire",
            ),
        }
    }
}
