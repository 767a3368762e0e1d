//! `no-series-cords`: no cord is plugged into another cord.

use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::Component;

rule! {
    /// ## Protects against
    /// Contacts that heat, one more with each cord, and a length that nobody adds up. Ratings and drops are reckoned
    /// over the whole chain all the same.
    ///
    /// ## Cannot tell when
    /// Never: a description says what each cord is plugged into.
    ///
    /// ## Remedy
    /// One cord of the whole length.
    NO_SERIES_CORDS = "no-series-cords" {
        severity: Caution,
        summary: "a cord is plugged into another cord",
        topics: ["listed-and-used-as-listed"],
        sources: ["UL 817, instructions of use, from memory"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for cord in survey.site.cords() {
        // An outlet at the end of a cord is part of that cord.
        let ahead = survey.upstream(cord.id()).find(|component| !matches!(component, Component::Receptacle(_)));
        let chained = matches!(ahead, Some(Component::Cord(_)));
        let said = Said::Plain(if chained { "is plugged into another cord" } else { "is plugged into no other cord" });
        found.judge(cord, "from", !chained, said, Remedy::Do("use one cord of the whole length"));
    }
}
