//! `automatic-load-within-source`: where transfer is automatic, the source gives the whole load that is passed to it.

use super::{Findings, Remedy, Said, Survey, Value, capacity, rule};
use crate::quantity::VoltAmperes;
use crate::site::Source;

rule! {
    /// ## Protects against
    /// A source that takes over with nobody there to shed load, and stalls.
    ///
    /// ## Cannot tell when
    /// The load that is passed to the source, calculated as the code has it, or what the source gives for hours is
    /// not stated.
    ///
    /// ## Remedy
    /// A load manager, a smaller panel behind the transfer equipment, or a larger source.
    AUTOMATIC_LOAD_WITHIN_SOURCE = "automatic-load-within-source" {
        severity: Violation,
        summary: "the load that is passed to the source by itself is more than it gives",
        topics: ["automatic-transfer-capacity"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources().iter().filter(|source| capacity::is_automatic(survey, source)) {
        judge(found, source);
    }
}

fn judge(found: &mut Findings, source: &Source) {
    let Some(limit) = capacity::gives(source) else { return capacity::ask_rating(found, source) };
    let managed = source.managed_load.map(|load| *load);
    let calculated = source.calculated_load.map(|load| *load);
    let managed_words = "is passed by its load manager at most";
    let calculated_words = "is passed by its transfer equipment";
    match (managed, calculated) {
        (Some(load), _) if load <= limit => compare(found, source, ("managed_load", managed_words), load, limit),
        (_, Some(load)) => compare(found, source, ("calculated_load", calculated_words), load, limit),
        (_, None) => found.ask(source, "calculated_load", "the load that its transfer equipment passes to it"),
    }
}

fn compare(
    found: &mut Findings,
    source: &Source,
    (field, does): (&'static str, &'static str),
    load: VoltAmperes,
    limit: VoltAmperes,
) {
    let said = Said::Compared {
        does,
        measured: Value::Apparent(load),
        limit_words: "it gives for hours",
        limit: Value::Apparent(limit),
    };
    let remedy = Remedy::Use("use a larger source, or a load manager that connects at most", Value::Apparent(limit));
    found.judge(source, field, load <= limit, said, remedy);
}
