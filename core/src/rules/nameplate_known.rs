//! `nameplate-known`: what stands on the nameplate of a source is known.

use super::{Findings, Remedy, Said, Survey, capacity, rule};

rule! {
    /// ## Protects against
    /// Answers that cannot be given: most checks of a source rest on its nameplate.
    ///
    /// ## Cannot tell when
    /// A figure of the nameplate is not stated; it never fails.
    ///
    /// ## Remedy
    /// Read the plate.
    NAMEPLATE_KNOWN = "nameplate-known" {
        severity: Information,
        summary: "the nameplate of a source is not fully known",
        topics: ["source-marking"],
        sources: ["CSA C22.2 No. 100, marking of the neutral, by a safety notice"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        let facts = [
            (capacity::gives(source).is_some(), "continuous_current", "the current or power that it gives for hours"),
            (source.frequency.is_some(), "frequency", "its frequency"),
            (source.power_factor.is_some(), "power_factor", "the power factor of its rating"),
            (source.rated_ambient.is_some(), "rated_ambient", "the ambient temperature that its ratings hold for"),
            (source.neutral.is_some(), "neutral", "whether its neutral is bonded to its frame"),
        ];
        for (_, field, fact) in facts.iter().filter(|(known, _, _)| !known) {
            found.ask(source, field, fact);
        }
        if facts.iter().all(|(known, _, _)| *known) {
            found.judge(source, "name", true, Said::Plain("has a nameplate that is known"), Remedy::Do("read the plate"));
        }
    }
}
