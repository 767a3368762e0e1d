//! `engine-clear-all-round`: a portable engine has clear space on every side.

use super::distance::Distance;
use super::fact::engines;
use super::{Findings, Survey, rule};

rule! {
    /// ## Protects against
    /// An engine that overheats because its air is cut off, and sets fire to what stands beside it. This is a
    /// distance for cooling air alone; carbon monoxide needs far more.
    ///
    /// ## Cannot tell when
    /// The clear space is not stated, or whether the source is portable, or has an engine.
    ///
    /// ## Remedy
    /// Clear a space on every side of it and above.
    ENGINE_CLEAR_ALL_ROUND = "engine-clear-all-round" {
        severity: Caution,
        summary: "a portable engine has too little clear space",
        topics: [],
        sources: ["OSHA fact sheet on portable generators: 3 to 4 ft, of which the greater is used"],
        check: check,
    }
}

const CLEAR: Distance = Distance {
    field: "clear_space",
    asked: "the clear space on every side of it",
    does: "has a clear space of",
    key: "clear-portable",
    limit_words: "a portable engine needs",
    mend: "clear a space on every side of it of",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in engines(survey, found) {
        match source.portable {
            Some(true) => CLEAR.judge(found, source, source.clear_space),
            Some(false) => {}
            None => found.ask(source, "portable", "whether it is portable"),
        }
    }
}
