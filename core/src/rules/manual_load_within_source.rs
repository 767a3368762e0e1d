//! `manual-load-within-source`: where people choose the loads, the source gives all that is to run together.

use super::{Findings, Remedy, Said, Survey, Value, capacity, rule};
use crate::site::Source;

rule! {
    /// ## Protects against
    /// A source that is overloaded by what somebody meant to run at once: low voltage, stalled motors, and cords that
    /// heat until a device opens.
    ///
    /// ## Cannot tell when
    /// The current or power that the source gives for hours, or the draw of a load, is not stated.
    ///
    /// ## Remedy
    /// Leave loads off, or use a larger source.
    MANUAL_LOAD_WITHIN_SOURCE = "manual-load-within-source" {
        severity: Violation,
        summary: "the loads that are to run together are more than the source gives",
        topics: ["manual-transfer-capacity"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources().iter().filter(|source| !capacity::is_automatic(survey, source)) {
        judge(survey, found, source);
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, source: &Source) {
    let Some(limit) = capacity::gives(source) else { return capacity::ask_rating(found, source) };
    let Some(sum) = capacity::sum(capacity::loads(survey, source), capacity::running) else {
        return found.undecided(source, "system", Said::Plain("feeds loads whose sum does not fit"));
    };
    let holds = capacity::within(sum.known, limit);
    if let (Some(load), true) = (sum.missing, holds) {
        return capacity::ask_draw(found, load);
    }
    let said = Said::Compared {
        does: "is to feed together",
        measured: capacity::shown(sum.known),
        limit_words: "it gives for hours",
        limit: Value::Apparent(limit),
    };
    let remedy = Remedy::Use("use a larger source, or leave loads off until they take at most", Value::Apparent(limit));
    found.judge(source, "system", holds, said, remedy);
}
