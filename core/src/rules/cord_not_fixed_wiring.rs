//! `cord-not-fixed-wiring`: a cord does not stand in for the wiring of a building.

use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::site::{Cord, CordRoute};
use crate::trade::Word;

rule! {
    /// ## Protects against
    /// Damage and heat that nobody sees: a cord inside a wall, under a floor, stapled to a beam or pulled into a
    /// raceway.
    ///
    /// ## Cannot tell when
    /// The way of the cord is not stated; where it passes a door or a window, whether it is there only while the
    /// utility is out and is protected from pinching.
    ///
    /// ## Remedy
    /// An inlet and fixed wiring, or a cord that lies loose and in sight.
    CORD_NOT_FIXED_WIRING = "cord-not-fixed-wiring" {
        severity: Violation,
        summary: "a cord is used as the wiring of a building",
        topics: ["cord-use-prohibited", "cord-use"],
        sources: ["OSHA 1910.305(g)(1)(iv), from memory"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("fit an inlet and fixed wiring, or lay the cord loose and in sight");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for cord in survey.site.cords() {
        match cord.route {
            None => found.ask(cord, "route", "which way it takes"),
            Some(CordRoute::Opening) => opening(found, cord),
            Some(route) => {
                let said = Said::Compared {
                    does: "runs",
                    measured: Value::Word(route.spelling()),
                    limit_words: "a cord may run",
                    limit: Value::Word("in the open"),
                };
                found.judge(cord, "route", route == CordRoute::Open, said, REMEDY);
            }
        }
    }
}

/// Through a door or a window it may run for the time of an outage, where nothing pinches it.
fn opening(found: &mut Findings, cord: &Cord) {
    match (cord.outage_only, cord.pinch_protected) {
        (Some(false), _) => {
            let said = Said::Plain("runs through a door or window for good");
            found.judge(cord, "outage_only", false, said, REMEDY);
        }
        (_, Some(false)) => {
            let said = Said::Plain("runs through a door or window that can pinch it");
            found.judge(cord, "pinch_protected", false, said, Remedy::Do("protect it where it passes the door or window"));
        }
        (Some(true), Some(true)) => {
            let said = Said::Plain("runs through a door or window only during an outage, protected from pinching");
            found.judge(cord, "route", true, said, REMEDY);
        }
        (None, _) => found.ask(cord, "outage_only", "whether it is there only while the utility is out"),
        (_, None) => found.ask(cord, "pinch_protected", "whether it is protected from pinching"),
    }
}
