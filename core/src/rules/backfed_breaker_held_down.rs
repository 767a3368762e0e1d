//! `backfed-breaker-held-down`: a plug-on breaker that feeds its panel is fastened.

use super::{Findings, Remedy, Said, Survey, Value, premises, rule};
use crate::site::{Fastening, TransferKind};
use crate::trade::Word;

rule! {
    /// ## Protects against
    /// A breaker that is pulled loose and whose stabs stay live from the source.
    ///
    /// ## Cannot tell when
    /// A breaker of the panel is fed from the source, and its fastening is not stated. An interlock always has one, and so
    /// has a panel without transfer equipment.
    ///
    /// ## Remedy
    /// The maker's retaining kit. A listed interactive source may do without it.
    BACKFED_BREAKER_HELD_DOWN = "backfed-breaker-held-down" {
        severity: Violation,
        summary: "a backfed plug-on breaker is not fastened",
        topics: ["backfed-breaker-held-down"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for panel in premises::fed_panels(survey) {
        let transfer = premises::transfer_above(survey, panel.id());
        let stated = panel.supply_breaker.is_some() || panel.supply_breaker_fastening.is_some();
        if !stated && !premises::is_backfed(survey, panel) {
            continue;
        }
        let Some(fastening) = panel.supply_breaker_fastening else {
            found.ask(panel, "supply_breaker_fastening", "what holds the breaker in place that feeds it from the source,");
            continue;
        };
        let listed = transfer
            .is_some_and(|transfer| transfer.kind == TransferKind::Interactive && transfer.listed == Some(true));
        let said = Said::Compared {
            does: "is fed through a breaker whose fastening is:",
            measured: Value::Word(fastening.spelling()),
            limit_words: "it needs",
            limit: Value::Word(if listed { "none, being listed interactive" } else { "a fastener or bolts" }),
        };
        let remedy = Remedy::Do("fit the maker's retaining kit");
        found.judge(panel, "supply_breaker_fastening", listed || fastening != Fastening::PlugOn, said, remedy);
    }
}
