//! `neutral-bus-above-source`: the neutral busbar of a joined-leg panel is rated above its source.

use super::{Findings, Remedy, Said, Survey, Value, premises, rule};
use crate::quantity::{Amperes, Fraction, PowerFactor, Rounding};
use crate::site::{Panel, Source};

rule! {
    /// ## Protects against
    /// A neutral busbar that carries all the current of both legs back to a 120 V source.
    ///
    /// ## Cannot tell when
    /// The rating of the source or of the neutral busbar is not stated, or whether the legs are joined.
    ///
    /// ## Remedy
    /// A panel with a larger neutral busbar, or a smaller source.
    NEUTRAL_BUS_ABOVE_SOURCE = "neutral-bus-above-source" {
        severity: Violation,
        summary: "the neutral busbar of a panel is not rated above its source",
        topics: ["single-120-v-supply"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for panel in premises::on_one_line(survey) {
        match panel.legs_joined {
            None => found.ask(panel, "legs_joined", "whether one line of the source is joined to both of its legs"),
            Some(false) => {
                let said = Said::Plain("has one of its legs fed only");
                found.judge(panel, "legs_joined", true, said, Remedy::Do("feed one leg only"));
            }
            Some(true) => {
                if let Some(source) = survey.site.source_of(panel.id()) {
                    judge(found, panel, source);
                }
            }
        }
    }
}

fn judge(found: &mut Findings, panel: &Panel, source: &Source) {
    let Some(rating) = rating(source) else {
        return found.ask(source, "continuous_current", "the current or power that it gives for hours");
    };
    let Some(bus) = panel.neutral_bus.as_deref().copied() else {
        return found.ask(panel, "neutral_bus", "the rating of its neutral busbar");
    };
    let said = Said::Compared {
        does: "has a neutral busbar rated",
        measured: Value::Current(bus),
        limit_words: "it must be above its source's",
        limit: Value::Current(rating),
    };
    let remedy = Remedy::Use("use a panel with a neutral busbar rated above", Value::Current(rating));
    found.judge(panel, "neutral_bus", bus > rating, said, remedy);
}

/// The greatest current that a source states for hours, by whichever of its ratings.
fn rating(source: &Source) -> Option<Amperes> {
    let volts = source.system.line_to_neutral()?;
    let apparent = source.continuous_apparent_power.and_then(|power| Fraction::of_apparent_power(*power, volts));
    let real = source.continuous_power.and_then(|power| Fraction::of_power(*power, volts, PowerFactor::UNITY));
    let by_power = [apparent, real].into_iter().flatten().map(|current| current.to_current(Rounding::Up)).max();
    source.continuous_current.map(|current| *current).max(by_power)
}
