//! `leg-imbalance-noted`: how far the legs of a source are from each other, against a limit that somebody has set.

use super::{Findings, Remedy, Said, Shape, Survey, Value, capacity, rule};
use crate::quantity::Amperes;
use crate::site::Source;

rule! {
    /// ## Protects against
    /// Legs of unequal voltage, and a regulator that senses only one of them. No published limit was found, so none
    /// is made up.
    ///
    /// ## Cannot tell when
    /// No greatest difference is set, or the draw or the leg of a load is not stated.
    ///
    /// ## Remedy
    /// Move loads from one leg to the other.
    LEG_IMBALANCE_NOTED = "leg-imbalance-noted" {
        severity: Information,
        summary: "the legs of a source differ by more than the limit that is set",
        topics: [],
        sources: ["set manuals: balance the loads; no published limit was found"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        if survey.shape(source.id()) == Some(Shape::ThreeWire) {
            judge(survey, found, source);
        }
    }
}

/// Rounded up to the milliampere.
fn to_milliamperes(current: Amperes) -> Option<Amperes> {
    let up = current.microamperes().checked_add(999)?;
    Amperes::new(up.checked_sub(up.checked_rem(1000)?)?)
}

fn judge(survey: &Survey<'_>, found: &mut Findings, source: &Source) {
    let demand = survey.demand(source.id());
    let load = |id: Option<crate::site::ComponentId>| {
        survey.site.loads().iter().find(|load| Some(load.id()) == id)
    };
    if let Some(load) = load(demand.without_draw) {
        return capacity::ask_draw(found, load);
    }
    if let Some(load) = load(demand.without_leg) {
        return found.ask(load, "leg", "its leg");
    }
    // The heavier is rounded up and the lighter down, so that the difference is never shown smaller than it is.
    let difference = demand.leg_currents(None).and_then(|(heavier, lighter)| heavier.checked_sub(lighter));
    let Some(difference) = difference.and_then(to_milliamperes) else {
        return found.undecided(source, "system", Said::Plain("feeds legs whose sums do not fit"));
    };
    let limit = source.greatest_leg_difference.map(|limit| *limit);
    let said = Said::Compared {
        does: "gives on its legs currents that differ by",
        measured: Value::Current(difference),
        limit_words: "the greatest difference is",
        limit: limit.map_or(Value::Word("not set"), Value::Current),
    };
    match limit {
        None => found.undecided(source, "greatest_leg_difference", said),
        Some(limit) => {
            let remedy = Remedy::Do("move loads from one leg to the other");
            found.judge(source, "greatest_leg_difference", difference <= limit, said, remedy);
        }
    }
}
