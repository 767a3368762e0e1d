//! `source-instructions-allow-building-supply`: the maker lets the source feed premises wiring.

use super::fact::Fact;
use super::{Findings, Survey, premises, rule};

rule! {
    /// ## Protects against
    /// A source whose inner bond and protection are made for appliances and not for a building.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the instructions and the listing allow it.
    ///
    /// ## Remedy
    /// Cords to appliances, or equipment that is listed for export.
    SOURCE_INSTRUCTIONS_ALLOW_BUILDING_SUPPLY = "source-instructions-allow-building-supply" {
        severity: Violation,
        summary: "the maker does not let a source feed premises wiring",
        topics: ["listed-and-used-as-listed", "vehicle-export"],
        check: check,
    }
}

const ALLOWED: Fact = Fact {
    field: "building_supply_allowed",
    asked: "whether its maker's instructions and its listing let it feed premises wiring",
    well: "may feed premises wiring by its instructions and its listing",
    ill: "may not feed premises wiring by its instructions or its listing",
    mend: "run cords to appliances only, or use equipment that is listed for export",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in premises::building_sources(survey) {
        ALLOWED.judge(found, source.id(), source.building_supply_allowed);
    }
}
