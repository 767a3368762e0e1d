//! A load against a limit, with what is not known of it: the comparison that most rules share.

use super::{Findings, Remedy, Said, Survey, Value};
use crate::quantity::{Amperes, Ratio};
use crate::site::Component;

/// What is compared, in words.
pub(super) struct Against {
    /// The field of the subject that decides.
    pub(super) field: &'static str,
    /// What the subject does: `carries`.
    pub(super) does: &'static str,
    /// What the limit is: `its ampacity is`.
    pub(super) limit_words: &'static str,
    /// The limit.
    pub(super) limit: Amperes,
    /// How the continuous part counts.
    pub(super) factor: Ratio,
    /// What would mend it.
    pub(super) remedy: Remedy,
}

/// Judges the line current through a component against a limit.
///
/// It fails when the least that the current can be is above the limit, holds when the greatest is within it, and
/// otherwise asks for the fact that decides: the draw, the duty or the leg of a load.
pub(super) fn load_against(survey: &Survey<'_>, found: &mut Findings, of: Component<'_>, against: Against) {
    let Against { field, does, limit_words, limit, factor, remedy } = against;
    let demand = survey.demand(of.id());
    let Some(shape) = survey.shape(of.id()) else {
        return found.ask(of, field, "its voltage");
    };
    let Some(bounds) = survey.line_current(of.id(), factor) else {
        return found.undecided(of, field, Said::Plain("is on a system whose line currents are not summed here"));
    };
    // Loads of unknown duty are counted as continuous above; as non-continuous they might fit.
    let lightest = match demand.without_duty {
        Some(_) => demand.lightest().line_current(shape, factor).unwrap_or(bounds),
        None => bounds,
    };
    let said =
        Said::Compared { does, measured: Value::Current(bounds.shown()), limit_words, limit: Value::Current(limit) };
    if lightest.within(limit) == Some(false) {
        return found.judge(of, field, false, said, remedy);
    }
    let ask = |found: &mut Findings, id, field, fact| match survey.site.component(id) {
        Some(load) => found.ask(load, field, fact),
        None => found.ask(of, field, fact),
    };
    if let Some(load) = demand.without_draw {
        return ask(found, load, "current", "its current, or its power and power factor,");
    }
    match (bounds.within(limit), demand.without_duty, demand.without_leg) {
        (Some(true), _, _) => found.judge(of, field, true, said, remedy),
        (_, Some(load), _) => ask(found, load, "duty", "whether it runs for three hours or more"),
        (None, None, Some(load)) => ask(found, load, "leg", "its leg"),
        _ => found.judge(of, field, false, said, remedy),
    }
}
