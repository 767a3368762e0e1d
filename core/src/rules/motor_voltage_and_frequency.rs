//! `motor-voltage-and-frequency`: a motor is off its rating by no more than its voltage and frequency may be together.

use super::path::{Reach, drop_to, running};
use super::voltage_drop_in_branch::ask;
use super::{Findings, Remedy, Said, Survey, Value, capacity, rule};
use crate::calc::CannotTell;
use crate::calc::voltage_drop::VoltageDrop;
use crate::code::guidance;
use crate::published::TableId;
use crate::quantity::{Quantity, Ratio};
use crate::site::Load;

rule! {
    /// ## Protects against
    /// A motor that is weak and hot: each deviation alone may be borne, and both together not. The voltage is what is
    /// left after the drop.
    ///
    /// ## Cannot tell when
    /// The kind of a load, a frequency, or a fact on the way that the drop rests on is not stated.
    ///
    /// ## Remedy
    /// A larger or shorter cord or conductor, or a source nearer to the frequency.
    MOTOR_VOLTAGE_AND_FREQUENCY = "motor-voltage-and-frequency" {
        severity: Violation,
        summary: "voltage and frequency of a motor are too far off together",
        topics: [],
        sources: ["NEMA MG 1 clause 9.9: the amounts of both add up to at most 10 percent"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("use a larger or shorter cord or conductor, or a source nearer to the frequency");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for load in running(survey).filter(|load| survey.site.source_of(load.id()).is_some()) {
        match capacity::is_motor(load) {
            Some(true) => judge(survey, found, load),
            Some(false) => {}
            None => found.ask(load, "kind", "what kind of load it is"),
        }
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, load: &Load) {
    found.afresh();
    let Some(source) = survey.site.source_of(load.id()) else { return };
    let Some(gives) = source.frequency else { return found.ask(source, "frequency", "its frequency") };
    let Some(made_for) = load.frequency else {
        return found.ask(load, "frequency", "the frequency that it is made for");
    };
    let combined: Ratio = match guidance::figure(TableId::MotorTolerances, "combined") {
        Ok(cell) => cell.value,
        Err(gap) => return found.gap(load, "frequency", CannotTell { what: "the tolerance of both together", gap }),
    };
    let drop = match drop_to(survey, load, Reach::FromSource, found) {
        Ok(drop) => drop,
        Err(unknown) => return ask(found, load, unknown),
    };
    let nearest = [Some(made_for), load.other_frequency].into_iter().flatten();
    let off = nearest.filter_map(|own| off(gives.count(), own.count())).min();
    // What the frequency leaves to the voltage; a rise counts as a drop of its amount.
    let left = off.and_then(|off| combined.checked_sub(off));
    let beyond = |drop: &VoltageDrop| {
        let holds = left.is_some_and(|left| drop.drop.compare_share(drop.supply, left).is_le());
        (!holds).then_some(drop.rises)
    };
    let holds = match drop.certain(beyond) {
        Ok(beyond) => beyond.is_none(),
        Err(unknown) => return ask(found, load, unknown),
    };
    let total = off.zip(drop.worst.share()).and_then(|(off, share)| off.checked_add(share));
    let said = Said::Compared {
        does: "is off its rating, by voltage and frequency together, by",
        measured: total.map_or(Value::Word("more than can be shown"), Value::Share),
        limit_words: "a motor bears at most",
        limit: Value::Share(combined),
    };
    found.judge(load, "frequency", holds, said, REMEDY);
}

/// The share by which a frequency is off, rounded up to a millionth; `None` at nought hertz.
fn off(gives: i128, made_for: i128) -> Option<Ratio> {
    let scaled = i128::try_from(gives.abs_diff(made_for)).ok()?.checked_mul(1_000_000)?;
    Ratio::from_count(scaled.checked_add(made_for.checked_sub(1)?)?.checked_div(made_for)?)
}
