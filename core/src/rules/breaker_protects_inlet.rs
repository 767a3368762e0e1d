//! `breaker-protects-inlet`: the device that feeds an inlet is no larger than the inlet's rating.

use super::wires::{ahead, rating_ahead};
use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::site::Component;

rule! {
    /// ## Protects against
    /// Contacts of an inlet that overheat because the device of the source lets through more than they bear.
    ///
    /// ## Cannot tell when
    /// The rating of the device of the source is not stated.
    ///
    /// ## Remedy
    /// An inlet of a higher rating, or an outlet with a smaller device.
    BREAKER_PROTECTS_INLET = "breaker-protects-inlet" {
        severity: Violation,
        summary: "an overcurrent device is too large for the inlet behind it",
        topics: ["listed-and-used-as-listed"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for inlet in survey.site.inlets() {
        let of = Component::Inlet(inlet);
        let Some(device) = rating_ahead(ahead(survey, of), of, found) else { continue };
        let configured = inlet.configuration.configuration.rated_current();
        let rated = inlet.rated_current.as_deref().map_or(configured, |stated| (*stated).min(configured));
        let said = Said::Compared {
            does: "is protected at",
            measured: Value::Current(device),
            limit_words: "its rating is",
            limit: Value::Current(rated),
        };
        let remedy = Remedy::Use("use an inlet of a higher rating, or a device of at most", Value::Current(rated));
        found.judge(inlet, "configuration", device <= rated, said, remedy);
    }
}
