//! `transfer-equipment-present`: a source reaches wiring that the utility feeds only through transfer equipment.

use super::{Findings, Remedy, Said, Survey, premises, rule};
use crate::site::Panel;

rule! {
    /// ## Protects against
    /// A street that is live from a house, and two supplies that meet when the utility returns. Care and an open main
    /// breaker are no substitute: one slip joins them.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the premises are connected to a utility, what supplies the panel normally, or what an inlet,
    /// a feeder or transfer equipment feeds; or a temporary source stands under an exception that is not evidenced.
    ///
    /// ## Remedy
    /// A listed transfer switch, or a listed interlock for that panel; until then cords from the source to appliances only.
    TRANSFER_EQUIPMENT_PRESENT = "transfer-equipment-present" {
        severity: Prohibited,
        summary: "a source is tied to premises wiring without transfer equipment",
        topics: ["transfer-equipment", "transfer-exception"],
        sources: ["California Health and Safety Code 119075(b) and (c), on a mirror"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do(
    "fit a listed transfer switch or a listed interlock for that panel; until then run cords to appliances only",
);

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for panel in premises::fed_panels(survey) {
        judge(survey, found, panel);
    }
    // A way in that ends nowhere ends at something that is not described.
    for component in survey.components().filter(|component| premises::ends_nowhere(survey, *component)) {
        found.ask(component, "name", premises::WHAT_IT_FEEDS);
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, panel: &Panel) {
    if premises::transfer_above(survey, panel.id()).is_some() {
        let said = Said::Plain("is reached by the source through transfer equipment");
        return found.judge(panel, "from", true, said, REMEDY);
    }
    match premises::on_utility(survey, panel) {
        Some(false) => found.judge(panel, "from", true, Said::Plain("is not fed by a utility"), REMEDY),
        Some(true) => match premises::excepted(survey, panel) {
            Some(true) => {
                let said = Said::Plain("has a temporary source and its normal supply kept off under the exception");
                found.judge(panel, "from", true, said, REMEDY);
            }
            Some(false) => {
                let said = Said::Plain("is fed by the utility and by a source with no transfer equipment between them");
                found.judge(panel, "from", false, said, REMEDY);
            }
            None => {
                found.ask(panel, "temporary", "whether the exception for temporary sources under qualified persons holds");
            }
        },
        None => found.ask(panel, "normal_supply", "what supplies it normally, and whether a utility does,"),
    }
}
