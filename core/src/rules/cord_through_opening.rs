//! `cord-through-opening`: a cord does not pass through a door or a window.

use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::CordRoute;

rule! {
    /// ## Protects against
    /// A door that closes on a cord, and a gap beside it through which exhaust enters. For the time of an outage it
    /// is put up with.
    ///
    /// ## Cannot tell when
    /// The way of the cord is not stated.
    ///
    /// ## Remedy
    /// An inlet on the outside wall.
    CORD_THROUGH_OPENING = "cord-through-opening" {
        severity: Caution,
        summary: "a cord passes through a door or a window",
        topics: ["cord-use-prohibited"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for cord in survey.site.cords() {
        let Some(route) = cord.route else {
            found.ask(cord, "route", "which way it takes");
            continue;
        };
        let holds = route != CordRoute::Opening;
        let said = Said::Plain(if holds {
            "passes through no door or window"
        } else {
            "passes through a door or window, which can close on it and lets exhaust in beside it"
        });
        found.judge(cord, "route", holds, said, Remedy::Do("fit an inlet on the outside wall"));
    }
}
