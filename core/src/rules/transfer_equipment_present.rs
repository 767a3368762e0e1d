//! `transfer-equipment-present`: a source reaches wiring that the utility feeds only through transfer equipment.

use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::{Component, NormalSupply, Panel};

rule! {
    /// ## Protects against
    /// A street that is live from a house, and two supplies that meet when the utility returns. Care and an open main
    /// breaker are no substitute: one slip joins them.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the premises are connected to a utility, or what supplies the panel normally.
    ///
    /// ## Remedy
    /// A listed transfer switch, or a listed interlock for that panel; until then cords from the source to appliances only.
    TRANSFER_EQUIPMENT_PRESENT = "transfer-equipment-present" {
        severity: Prohibited,
        summary: "a source is tied to premises wiring without transfer equipment",
        topics: ["transfer-equipment"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for panel in survey.site.panels() {
        if survey.site.source_of(panel.id()).is_none() {
            continue;
        }
        judge(survey, found, panel);
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, panel: &Panel) {
    let through = survey.site.upstream(panel.id()).any(|component| matches!(component, Component::Transfer(_)));
    let connected = survey.site.utility().map(|utility| utility.connected);
    let on_utility = match (connected, on_utility(survey, panel)) {
        (Some(false), _) => Some(false),
        (_, Some(false)) => Some(false),
        (Some(true), Some(true)) => Some(true),
        (None, _) | (_, None) => None,
    };
    let remedy = Remedy::Do("fit a listed transfer switch or a listed interlock for that panel; until then run cords to appliances only");
    match (through, on_utility) {
        (true, _) => {
            found.judge(panel, "from", true, Said::Plain("is reached by the source through transfer equipment"), remedy);
        }
        (false, Some(true)) => {
            let said = Said::Plain("is fed by the utility and by a source with no transfer equipment between them");
            found.judge(panel, "from", false, said, remedy);
        }
        (false, Some(false)) => {
            found.judge(panel, "from", true, Said::Plain("is not fed by a utility"), remedy);
        }
        (false, None) => found.ask(panel, "normal_supply", "what supplies it normally, and whether a utility does,"),
    }
}

/// Whether a panel is fed by the utility, itself or through other panels; `None` where a record on the way does not say.
fn on_utility(survey: &Survey<'_>, panel: &Panel) -> Option<bool> {
    let mut panel = panel;
    // A panel names another at most once on the way: reading refused circles.
    for _ in 0..survey.site.panels().len() {
        match survey.site.normal_supply(panel)? {
            NormalSupply::Utility => return Some(true),
            NormalSupply::Panel(next) => panel = next,
        }
    }
    None
}
