//! `parallel-busbar-sum`: a busbar that a source and the utility feed together is not over-fed.

use super::{Findings, Remedy, Said, Survey, Value, premises, rule};
use crate::calc::CannotTell;
use crate::code::guidance;
use crate::published::TableId;
use crate::quantity::{Amperes, Ratio, Scaled};
use crate::site::Panel;

rule! {
    /// ## Protects against
    /// Two supplies that together load a busbar above its rating while no breaker trips. One of three sums must hold: 125 %
    /// of the source and the main breaker within the busbar; the same within 120 % of it with the source's breaker at the far
    /// end; or all breakers but the main within it. Supplies that exclude each other are not judged.
    ///
    /// ## Cannot tell when
    /// A rating or the place of the source's breaker is not stated, or whether the source is to run in parallel.
    ///
    /// ## Remedy
    /// A smaller main breaker, a tap of the feeder, or supplies that exclude each other.
    PARALLEL_BUSBAR_SUM = "parallel-busbar-sum" {
        severity: Violation,
        summary: "a busbar is over-fed by a source in parallel with the utility",
        topics: ["parallel-busbar"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for panel in premises::fed_panels(survey) {
        let Some(transfer) = premises::transfer_above(survey, panel.id()) else { continue };
        match transfer.parallel {
            Some(true) => judge(survey, found, panel),
            Some(false) => {}
            None => found.ask(transfer, "parallel", "whether a source is meant to run joined with the utility through it"),
        }
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, panel: &Panel) {
    let Some(busbar) = panel.busbar.as_deref().copied() else {
        return found.ask(panel, "busbar", "the rating of its busbar");
    };
    let remedy = Remedy::Do("use a smaller main breaker, tap the feeder, or let the supplies exclude each other");
    let sum = panel.sum_of_breakers.as_deref().copied();
    if let Some(sum) = sum.filter(|sum| *sum <= busbar) {
        let said = Said::Compared {
            does: "has breakers but the main whose ratings sum to",
            measured: Value::Current(sum),
            limit_words: "its busbar is rated",
            limit: Value::Current(busbar),
        };
        return found.judge(panel, "sum_of_breakers", true, said, remedy);
    }
    let Some(source) = survey.site.source_of(panel.id()) else { return };
    let Some(output) = source.continuous_current.as_deref().copied() else {
        return found.ask(source, "continuous_current", "the current or power that it gives for hours");
    };
    let Some(main) = panel.main_breaker.as_deref().copied() else {
        return found.ask(panel, "main_breaker", "the rating of its main breaker");
    };
    match by_the_main(panel, (output, main, busbar)) {
        Err(gap) => found.gap(panel, "busbar", gap),
        Ok(Some(true)) => {
            found.judge(panel, "busbar", true, Said::Plain("has a busbar that bears its main and its source"), remedy);
        }
        Ok(None) => {
            let fact = "whether the breaker of the source sits at the end of the busbar opposite the main";
            found.ask(panel, "supply_breaker_at_far_end", fact);
        }
        Ok(Some(false)) if sum.is_none() => {
            found.ask(panel, "sum_of_breakers", "the sum of the ratings of all its breakers but the main");
        }
        Ok(Some(false)) => {
            let said = Said::Plain("has a busbar that its main and its source over-feed by every sum that is allowed");
            found.judge(panel, "busbar", false, said, remedy);
        }
    }
}

/// The sums with the main breaker; `None` where the place of the source's breaker decides and is not stated.
fn by_the_main(panel: &Panel, (output, main, busbar): (Amperes, Amperes, Amperes)) -> Result<Option<bool>, CannotTell> {
    let percent = |key| {
        guidance::figure::<Ratio>(TableId::ConnectionLimits, key)
            .map(|cell| cell.value)
            .map_err(|gap| CannotTell { what: "how much a busbar may be fed", gap })
    };
    let (of_source, of_busbar) = (percent("parallel-source-share")?, percent("parallel-busbar-share")?);
    let fed = output * of_source + Scaled::whole(main);
    if fed <= Scaled::whole(busbar) {
        return Ok(Some(true));
    }
    if fed > busbar * of_busbar {
        return Ok(Some(false));
    }
    Ok(panel.supply_breaker_at_far_end)
}
