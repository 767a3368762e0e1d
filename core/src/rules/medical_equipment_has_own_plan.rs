//! `medical-equipment-has-own-plan`: medical equipment that needs electricity does not rest on the source alone.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::{ComponentId, LoadKind};

rule! {
    /// ## Protects against
    /// A source that fails and a life that depends on it. Optional standby rules cover only systems on which no life
    /// depends.
    ///
    /// ## Cannot tell when
    /// It is not stated whether anybody depends on such equipment, or whether there is a plan for it.
    ///
    /// ## Remedy
    /// A written plan, a charged battery of the equipment's own, another place to go, and a word to the utility.
    MEDICAL_EQUIPMENT_HAS_OWN_PLAN = "medical-equipment-has-own-plan" {
        severity: Caution,
        summary: "medical equipment rests on the source alone",
        topics: ["optional-standby-scope"],
        sources: ["FDA booklet on home-use devices and outages"],
        check: check,
    }
}

const PLAN: Fact = Fact {
    field: "medical_plan",
    asked: "whether there is a written plan for medical equipment that does not rest on the source alone",
    well: "has a plan for medical equipment that does not rest on the source alone",
    ill: "has medical equipment that rests on the source alone",
    mend: "write a plan with a battery of the equipment's own and another place to go, and tell the utility",
};

const EQUIPMENT: &str = "whether anybody depends on medical equipment that needs electricity";

fn check(survey: &Survey<'_>, found: &mut Findings) {
    if survey.site.sources().is_empty() {
        return;
    }
    let place = survey.site.surroundings();
    let described = survey.site.loads().iter().any(|load| load.kind == Some(LoadKind::Medical));
    match place.and_then(|place| place.medical_equipment) {
        Some(false) if !described => {
            let said = Said::Plain("has nobody who depends on medical equipment");
            found.judge_part(ComponentId::SURROUNDINGS, "medical_equipment", true, said, Remedy::Do(PLAN.mend));
        }
        None if !described => found.ask_part(ComponentId::SURROUNDINGS, "medical_equipment", EQUIPMENT),
        _ => PLAN.judge(found, ComponentId::SURROUNDINGS, place.and_then(|place| place.medical_plan)),
    }
}
