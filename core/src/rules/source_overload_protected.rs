//! `source-overload-protected`: every outlet of a source is protected from overload at the source.

use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::OverloadProtection;

rule! {
    /// ## Protects against
    /// Nothing that limits the current into a cord.
    ///
    /// ## Cannot tell when
    /// Neither the rating of a device nor what else protects the outlet is stated.
    ///
    /// ## Remedy
    /// An overcurrent device at the outlet.
    SOURCE_OVERLOAD_PROTECTED = "source-overload-protected" {
        severity: Violation,
        summary: "an outlet of a source has nothing that protects it from overload",
        topics: ["source-overload-protection", "vehicle-export-receptacle"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("fit an overcurrent device at the outlet");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for outlet in survey.site.outlets() {
        match (outlet.overcurrent_device, outlet.overload_protection) {
            (Some(_), _) => {
                let said = Said::Plain("is protected by an overcurrent device of a stated rating");
                found.judge(outlet, "overcurrent_device", true, said, REMEDY);
            }
            (None, Some(OverloadProtection::Device)) => {
                let said = Said::Plain("is protected by an overcurrent device");
                found.judge(outlet, "overload_protection", true, said, REMEDY);
            }
            (None, Some(OverloadProtection::Inherent)) => {
                let said = Said::Plain("is of a source that cannot be overloaded");
                found.judge(outlet, "overload_protection", true, said, REMEDY);
            }
            (None, Some(OverloadProtection::Nothing)) => {
                let said = Said::Plain("has nothing that protects it from overload");
                found.judge(outlet, "overload_protection", false, said, REMEDY);
            }
            (None, None) => found.ask(outlet, "overload_protection", "what protects it from overload"),
        }
    }
}
