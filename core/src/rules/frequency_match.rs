//! `frequency-match`: the frequency of a source is one that each load is made for.

use super::{Findings, Remedy, Said, Survey, Value, capacity, rule};
use crate::calc::CannotTell;
use crate::code::{Lookup, guidance};
use crate::published::TableId;
use crate::quantity::{Hertz, Quantity, Ratio};
use crate::site::Load;

rule! {
    /// ## Protects against
    /// Motors at the wrong speed, clocks that run away, and transformers that saturate and burn at too low a
    /// frequency.
    ///
    /// ## Cannot tell when
    /// The frequency of the source, or the one that a load is made for, is not stated.
    ///
    /// ## Remedy
    /// A source of the frequency of its loads.
    FREQUENCY_MATCH = "frequency-match" {
        severity: Violation,
        summary: "a load is fed at a frequency that it is not made for",
        topics: ["source-marking"],
        sources: ["NEMA MG 1 clause 9.9: 5 percent for motors, here used for every load"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    let tolerance = guidance::figure(TableId::MotorTolerances, "frequency");
    for source in survey.site.sources() {
        let Some(gives) = source.frequency else {
            found.ask(source, "frequency", "its frequency");
            continue;
        };
        for load in capacity::loads(survey, source) {
            judge(found, load, *gives, tolerance);
        }
    }
}

fn judge(found: &mut Findings, load: &Load, gives: Hertz, tolerance: Lookup<Ratio>) {
    let Some(made_for) = load.frequency else {
        return found.ask(load, "frequency", "the frequency that it is made for");
    };
    let tolerance: Ratio = match tolerance {
        Ok(cell) => cell.value,
        Err(gap) => return found.gap(load, "frequency", CannotTell { what: "the tolerance of frequency", gap }),
    };
    let mut fitting = [Some(made_for), load.other_frequency].into_iter().flatten().filter(|own| within(gives, **own, tolerance));
    let fits = fitting.next();
    let said = Said::Compared {
        does: "is made for",
        measured: Value::Frequency(*fits.unwrap_or(made_for)),
        limit_words: "its source gives",
        limit: Value::Frequency(gives),
    };
    let remedy = Remedy::Do("use a source of the frequency of the load, or leave the load off");
    found.judge(load, "frequency", fits.is_some(), said, remedy);
}

fn within(gives: Hertz, made_for: Hertz, tolerance: Ratio) -> bool {
    let off = gives.count().abs_diff(made_for.count());
    off * 1_000_000 <= made_for.count().unsigned_abs() * u128::from(tolerance.count_of_millionths().unsigned_abs())
}
