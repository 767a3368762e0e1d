//! `breaker-protects-cord`: the device that feeds a cord protects it.

use super::wires::{ahead, rating_ahead};
use super::{Findings, Remedy, Said, Survey, Value, cord, rule};
use crate::calc;
use crate::site::{Assembly, Component};

rule! {
    /// ## Protects against
    /// A shorted or overloaded cord that burns before the device ahead of it opens. A smaller device at the far end does
    /// not protect the cord against a fault in it.
    ///
    /// ## Cannot tell when
    /// The rating of the device, or a condition that the ampacity of the cord depends on, is not stated.
    ///
    /// ## Remedy
    /// A smaller device or a larger cord. The supply cord of a listed appliance counts as protected; a listed cord set, or
    /// one assembled in the field from listed parts, counts on a circuit of 20 A from 16 AWG, and its length is judged by
    /// `cord-set-length-limit`. On a larger circuit either is judged by its ampacity.
    BREAKER_PROTECTS_CORD = "breaker-protects-cord" {
        severity: Violation,
        summary: "an overcurrent device is too large for the cord behind it",
        topics: ["cord-protection", "cord-ampacity"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for cord in survey.site.cords() {
        let of = Component::Cord(cord);
        let Some(rating) = rating_ahead(ahead(survey, of), of, found) else { continue };
        if cord.assembly == Some(Assembly::Appliance) {
            let said = Said::Plain("is the supply cord of an appliance, which its listing protects");
            found.judge(cord, "assembly", true, said, Remedy::Do(""));
            continue;
        }
        let conditions = match cord::conditions(survey, cord) {
            Ok(conditions) => conditions,
            Err((field, fact)) => {
                found.ask(cord, field, fact);
                continue;
            }
        };
        if matches!(cord.assembly, Some(Assembly::FieldAssembled | Assembly::Listed))
            && let Ok(permitted) = survey.code.field_assembled_cord()
            && rating <= permitted.value.0
            && conditions.size >= permitted.value.1
        {
            let said = Said::Compared {
                does: "is an extension set of",
                measured: Value::Size(conditions.size),
                limit_words: "on this circuit it may be as small as",
                limit: Value::Size(permitted.value.1),
            };
            found.judge(cord, "assembly", true, said, Remedy::Do(""));
            continue;
        }
        match calc::cord::ampacity(survey.code, &conditions, found) {
            Err(gap) => found.gap(cord, "size", gap),
            Ok(ampacity) => {
                let said = Said::Compared {
                    does: "is protected at",
                    measured: Value::Current(rating),
                    limit_words: "its ampacity is",
                    limit: Value::Current(ampacity),
                };
                let remedy = Remedy::Use("use a larger cord, or a device of at most", Value::Current(ampacity));
                found.judge(cord, "size", rating <= ampacity, said, remedy);
            }
        }
    }
}
