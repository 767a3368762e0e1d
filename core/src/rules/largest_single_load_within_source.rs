//! `largest-single-load-within-source`: a supply that stands alone gives at least its largest load.

use super::{Findings, Remedy, Said, Survey, Value, capacity, rule};
use crate::quantity::Fraction;
use crate::site::{Load, Source};

rule! {
    /// ## Protects against
    /// An appliance that can never run, however much else is left off.
    ///
    /// ## Cannot tell when
    /// Whether a utility serves the site, the draw of a load, or what the source gives for hours is not stated.
    ///
    /// ## Remedy
    /// A larger source, or take the appliance off.
    LARGEST_SINGLE_LOAD_WITHIN_SOURCE = "largest-single-load-within-source" {
        severity: Violation,
        summary: "the largest load is more than the source gives",
        topics: ["stand-alone-source-capacity"],
        sources: [
            "whether this section or 702.4 rules a battery system that also runs with the utility is disputed: there only 702.4 is judged",
        ],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    // With a utility the supply does not stand alone; where that is not known, the rule may apply.
    if survey.site.utility().is_some_and(|utility| utility.connected) {
        return;
    }
    for source in survey.site.sources() {
        judge(survey, found, source);
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, source: &Source) {
    let Some(limit) = capacity::gives(source) else { return capacity::ask_rating(found, source) };
    let mut largest: Option<(&Load, Fraction)> = None;
    let mut missing = None;
    for load in capacity::loads(survey, source) {
        match capacity::running(load) {
            Some(draw) if largest.is_none_or(|(_, known)| draw > known) => largest = Some((load, draw)),
            Some(_) => {}
            None => missing = missing.or(Some(load)),
        }
    }
    let Some((load, draw)) = largest else {
        return missing.into_iter().for_each(|load| capacity::ask_draw(found, load));
    };
    let holds = capacity::within(draw, limit);
    if let (Some(load), true) = (missing, holds) {
        return capacity::ask_draw(found, load);
    }
    if !holds && survey.site.utility().is_none() {
        return found.ask(source, "system", "whether a utility serves the site");
    }
    let said = Said::Compared {
        does: "draws",
        measured: capacity::shown(draw),
        limit_words: "its source gives for hours",
        limit: Value::Apparent(limit),
    };
    found.judge(load, "current", holds, said, Remedy::Do("use a larger source, or take the load off"));
}
