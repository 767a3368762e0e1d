//! `temporary-source-under-exception`: a temporary source without transfer equipment meets the written exception.

use super::{Findings, Remedy, Said, Survey, premises, rule};
use crate::site::ComponentId;

rule! {
    /// ## Protects against
    /// Somebody who closes the main breaker. Without transfer equipment, a temporary connection is accepted only where
    /// qualified persons alone service the place, and the normal supply is locked off or its conductors are removed. A
    /// household never meets that.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the connection is temporary, who services the place, whether it is a household, or how the normal supply is kept off.
    ///
    /// ## Remedy
    /// Transfer equipment.
    TEMPORARY_SOURCE_UNDER_EXCEPTION = "temporary-source-under-exception" {
        severity: Prohibited,
        summary: "a temporary source has no transfer equipment and does not meet the exception",
        topics: ["transfer-exception"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for panel in premises::fed_panels(survey).filter(|panel| panel.temporary != Some(false)) {
        let excluded = premises::transfer_above(survey, panel.id()).is_some();
        if excluded || premises::on_utility(survey, panel) == Some(false) {
            continue;
        }
        if panel.temporary.is_none() {
            found.ask(panel, "temporary", "whether the source's connection to it is temporary");
            continue;
        }
        let remedy = Remedy::Do("fit transfer equipment");
        match premises::excepted(survey, panel) {
            Some(true) => {
                let said = Said::Plain("is fed by qualified persons alone, with its normal supply locked off or removed");
                found.judge(panel, "temporary", true, said, remedy);
            }
            Some(false) => {
                let said = Said::Plain("is fed by a temporary source outside the conditions of the exception");
                found.judge(panel, "temporary", false, said, remedy);
            }
            None if panel.qualified_persons_only.is_none() => {
                found.ask(panel, "qualified_persons_only", "whether only qualified persons service it");
            }
            None if panel.normal_supply_kept_off.is_none() => {
                found.ask(panel, "normal_supply_kept_off", "how its normal supply is kept off");
            }
            None => found.ask_part(ComponentId::SITE, "occupancy", "what kind of building it is"),
        }
    }
}
