//! `energy-lasts-long-enough`: fuel or stored energy lasts as long as the source is wanted.

use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::quantity::{Quantity, Seconds, WattHours};
use crate::site::{Source, SourceKind};

rule! {
    /// ## Protects against
    /// Medical and cold-storage plans that fail silently, hours before the utility returns.
    ///
    /// ## Cannot tell when
    /// The time that is wanted is not stated; for a generator how long its fuel lasts; for another source its usable
    /// energy and the average power of the plan.
    ///
    /// ## Remedy
    /// Less load, or more fuel or energy.
    ENERGY_LASTS_LONG_ENOUGH = "energy-lasts-long-enough" {
        severity: Information,
        summary: "fuel or stored energy does not last as long as is wanted",
        topics: [],
        sources: ["own reasoning, no source"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("leave loads off, or have more fuel or energy");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        let Some(wanted) = source.wanted_time else {
            found.ask(source, "wanted_time", "how long it is wanted to run");
            continue;
        };
        if source.kind == SourceKind::Generator {
            let Some(lasts) = source.fuel_lasts else {
                found.ask(source, "fuel_lasts", "how long its fuel lasts");
                continue;
            };
            let said = Said::Compared {
                does: "is wanted for",
                measured: Value::Time(wanted),
                limit_words: "its fuel lasts",
                limit: Value::Time(lasts),
            };
            found.judge(source, "wanted_time", *wanted <= *lasts, said, REMEDY);
        } else {
            stored(found, source, *wanted);
        }
    }
}

fn stored(found: &mut Findings, source: &Source, wanted: Seconds) {
    let Some(energy) = source.usable_energy else { return found.ask(source, "usable_energy", "its usable energy") };
    let Some(power) = source.average_power else {
        return found.ask(source, "average_power", "the average power of the loads that are planned");
    };
    let Some(needed) = *power * wanted else {
        return found.undecided(source, "wanted_time", Said::Plain("is wanted for an energy that does not fit"));
    };
    let said = Said::Compared {
        does: "is to give",
        measured: Value::Energy(up_to_milliwatt_hours(needed)),
        limit_words: "it stores",
        limit: Value::Energy(*energy),
    };
    found.judge(source, "wanted_time", needed <= *energy, said, REMEDY);
}

/// An energy as it is shown: rounded up to a thousandth of a watt-hour.
fn up_to_milliwatt_hours(energy: WattHours) -> WattHours {
    const STEP: i128 = 3_600_000_000_000_000_000;
    let steps = energy.count() / STEP + i128::from(energy.count() % STEP != 0);
    steps.checked_mul(STEP).and_then(WattHours::from_count).unwrap_or(WattHours::MAX)
}
