//! `engine-outside-only`: an engine runs in the open air only.

use super::fact::engines;
use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::site::Standing;
use crate::trade::Word;

rule! {
    /// ## Protects against
    /// Carbon monoxide, which kills within minutes in a garage, a shed or a porch, with the doors open as with the
    /// doors shut. The engine of a vehicle is an engine too.
    ///
    /// ## Cannot tell when
    /// It is not stated where the source stands, or whether it has an engine.
    ///
    /// ## Remedy
    /// Move it outdoors, into the open air, far from every opening.
    ENGINE_OUTSIDE_ONLY = "engine-outside-only" {
        severity: Prohibited,
        summary: "an engine runs in an enclosed or partly enclosed place",
        topics: [],
        sources: [
            "CPSC releases of 24 July 2020, 14 December 2021 and December 2022",
            "OSHA fact sheet on portable generators",
        ],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in engines(survey, found) {
        let Some(standing) = source.stands_in else {
            found.ask(source, "stands_in", "where it stands");
            continue;
        };
        let said = Said::Compared {
            does: "stands in:",
            measured: Value::Word(standing.spelling()),
            limit_words: "an engine runs only in:",
            limit: Value::Word(Standing::OpenAir.spelling()),
        };
        let remedy = Remedy::Do("move it outdoors, into the open air, far from every opening");
        found.judge(source, "stands_in", standing == Standing::OpenAir, said, remedy);
    }
}
