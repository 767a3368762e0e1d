//! `cord-connections-off-ground`: connections of cords outdoors are off the ground and covered.

use super::fact::Fact;
use super::{Findings, Survey, rule};

rule! {
    /// ## Protects against
    /// Water that creeps into a connection that lies in wet grass: shock, and tracking that burns.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the cord lies outdoors, or how its connections are kept.
    ///
    /// ## Remedy
    /// Raise the connections off the ground and put them in covers made for it.
    CORD_CONNECTIONS_OFF_GROUND = "cord-connections-off-ground" {
        severity: Caution,
        summary: "a connection of a cord lies on the ground or uncovered outdoors",
        topics: ["wet-receptacle"],
        sources: ["common practice for loose connections, no source read"],
        check: check,
    }
}

const FACT: Fact = Fact {
    field: "connections_off_ground",
    asked: "whether its connections outdoors are off the ground and in covers",
    well: "has its connections off the ground and in covers",
    ill: "has connections outdoors that lie on the ground or uncovered",
    mend: "raise the connections off the ground and put them in covers",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for cord in survey.site.cords() {
        match cord.outdoors {
            Some(true) => {}
            Some(false) => continue,
            None => {
                found.ask(cord, "outdoors", "whether any part of it lies outdoors");
                continue;
            }
        }
        FACT.judge(found, cord.id(), cord.connections_off_ground);
    }
}
