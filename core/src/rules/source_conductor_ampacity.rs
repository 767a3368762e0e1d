//! `source-conductor-ampacity`: conductors from a source to the first overcurrent device bear its nameplate current and more.

use super::wires::Run;
use super::{Findings, Remedy, Said, Survey, Value, capacity, rule};
use crate::calc::{self, CannotTell};
use crate::code::guidance;
use crate::published::TableId;
use crate::quantity::{Amperes, Fraction, Quantity, Ratio, Rounding};
use crate::site::{Component, Feeder, Outlet, OverloadProtection, Source};

rule! {
    /// ## Protects against
    /// Leads that overheat ahead of every device that could open: what the source can give above its nameplate goes
    /// through them.
    ///
    /// ## Cannot tell when
    /// What protects the terminals from overload, the nameplate current, or a condition of the conductors is not
    /// stated, or the table cell is witnessed too weakly.
    ///
    /// ## Remedy
    /// Larger conductors, or an overcurrent device on the source.
    SOURCE_CONDUCTOR_AMPACITY = "source-conductor-ampacity" {
        severity: Violation,
        summary: "conductors ahead of the first device are too small for their source",
        topics: ["generator-conductors"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("use larger conductors, or an overcurrent device on the source");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        for outlet in source.outlets.iter().filter(|outlet| outlet.configuration.contacts().is_none()) {
            for component in survey.site.downstream(outlet.id()) {
                if let Component::Feeder(feeder) = component {
                    judge(survey, found, (source, outlet, feeder));
                }
            }
        }
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, (source, outlet, feeder): (&Source, &Outlet, &Feeder)) {
    let key = match (outlet.overcurrent_device, outlet.overload_protection) {
        (Some(_), _) | (None, Some(OverloadProtection::Device)) => {
            let said = Said::Plain("begins behind an overcurrent device of the source");
            return found.judge(feeder, "from", true, said, REMEDY);
        }
        (None, Some(OverloadProtection::Inherent)) => "source-conductor-inherent",
        (None, Some(OverloadProtection::Nothing)) => "source-conductor",
        (None, None) => return found.ask(outlet, "overload_protection", "what protects it from overload"),
    };
    let factor: Ratio = match guidance::figure(TableId::ConnectionLimits, key) {
        Ok(cell) => cell.value,
        Err(gap) => return found.gap(feeder, "wiring", CannotTell { what: "what source conductors must bear", gap }),
    };
    let Some(current) = nameplate(source) else { return capacity::ask_rating(found, source) };
    let run = Run::Feeder(feeder);
    let conditions = match run.conditions(survey, None) {
        Ok(conditions) => conditions,
        Err((field, fact)) => return found.ask(feeder, field, fact),
    };
    match calc::ampacity::ampacity(survey.code, &conditions, found) {
        Err(gap) => found.gap(feeder, "wiring", gap),
        Ok(ampacity) => {
            let needed = current * factor;
            let shown = needed.rounded(Rounding::Up).unwrap_or(Amperes::MAX);
            let said = Said::Compared {
                does: "must bear, ahead of every device,",
                measured: Value::Current(shown),
                limit_words: "its ampacity is",
                limit: Value::Current(ampacity.usable),
            };
            found.judge(feeder, "wiring", needed <= ampacity.usable, said, REMEDY);
        }
    }
}

/// The current of the nameplate: as stated, else that of its power.
fn nameplate(source: &Source) -> Option<Amperes> {
    let stated = source.continuous_current.map(|current| *current);
    stated.or_else(|| {
        let voltage = source.system.line_to_line().or(source.system.line_to_neutral())?;
        let power = capacity::gives(source)?.count().unsigned_abs();
        Fraction::new(power, voltage.count().unsigned_abs()).map(|current| current.to_current(Rounding::Up))
    })
}
