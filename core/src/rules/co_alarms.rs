//! `co-alarms`: tested carbon monoxide alarms with batteries guard where people sleep while an engine runs.

use super::fact::{Fact, engines};
use super::{Findings, Survey, rule};
use crate::site::ComponentId;

rule! {
    /// ## Protects against
    /// Carbon monoxide that nobody smells: the alarm is the last line of defense of people who sleep.
    ///
    /// ## Cannot tell when
    /// It is not stated whether there are such alarms, or whether a source has an engine.
    ///
    /// ## Remedy
    /// Fit alarms with batteries on each level and outside each sleeping area, and test them.
    CO_ALARMS = "co-alarms" {
        severity: Caution,
        summary: "carbon monoxide alarms are missing",
        topics: [],
        sources: ["CPSC releases of 2020 to 2022"],
        check: check,
    }
}

const ALARMS: Fact = Fact {
    field: "carbon_monoxide_alarms",
    asked: "whether tested carbon monoxide alarms with batteries are on each level and outside each sleeping area",
    well: "has tested carbon monoxide alarms with batteries on each level and outside each sleeping area",
    ill: "lacks carbon monoxide alarms on a level or outside a sleeping area",
    mend: "fit alarms with batteries on each level and outside each sleeping area, and test them",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    if !engines(survey, found).is_empty() {
        let stated = survey.site.surroundings().and_then(|place| place.carbon_monoxide_alarms);
        ALARMS.judge(found, ComponentId::SURROUNDINGS, stated);
    }
}
