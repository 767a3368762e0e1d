//! `voltage-window`: the voltage at the source and at each load stays in the band that equipment is made for.

use super::path::{Reach, drop_to, running};
use super::voltage_drop_in_branch::ask;
use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::calc::CannotTell;
use crate::calc::voltage_drop::VoltageDrop;
use crate::code::{Gap, Lookup, guidance};
use crate::quantity::{Quantity, Volts};
use crate::site::{Load, Source};

rule! {
    /// ## Protects against
    /// Electronics that shut down and motors that stall at too low a voltage, and insulation that fails at too high a
    /// one.
    ///
    /// ## Cannot tell when
    /// The voltage at the outlets of the source was not measured; for a load, a fact on the way that the drop rests
    /// on is not stated; or the system has no base of 120 V.
    ///
    /// ## Remedy
    /// Adjust the source, or shorten or enlarge the cord.
    VOLTAGE_WINDOW = "voltage-window" {
        severity: Caution,
        summary: "a voltage is outside the band that equipment is made for",
        topics: [],
        sources: ["ANSI C84.1-2020, range B, as an instrument maker and a trade magazine summarize it"],
        check: check,
    }
}

/// The lowest and the highest voltage.
type Band = Lookup<(Volts, Volts)>;

const REMEDY: Remedy = Remedy::Do("adjust the source, or shorten or enlarge the cord or the conductors");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        at_source(found, source);
    }
    let base = guidance::voltage_band("utilization-b");
    for load in running(survey).filter(|load| survey.site.source_of(load.id()).is_some()) {
        at_load(survey, found, load, base);
    }
}

/// A band on the base of 120 V for a nominal voltage; `None` for one that the bands are not for.
fn band(base: Band, nominal: Volts) -> Option<Result<(Volts, Volts), Gap>> {
    let times = match nominal.count().checked_div(Volts::from_whole(120).count())? {
        1 if nominal == Volts::from_whole(120) => 1,
        2 if nominal == Volts::from_whole(240) => 2,
        _ => return None,
    };
    let scale = |volts: Volts| Volts::from_count(volts.count() * times).unwrap_or(Volts::MAX);
    Some(base.map(|cell| (scale(cell.value.0), scale(cell.value.1))))
}

fn at_source(found: &mut Findings, source: &Source) {
    let Some(measured) = source.measured_voltage else {
        return found.ask(source, "measured_voltage", "the voltage at its outlets");
    };
    let nominal = source.system.line_to_neutral().or(source.system.line_to_line());
    match nominal.and_then(|nominal| band(guidance::voltage_band("service-b"), nominal)) {
        None => found.undecided(source, "system", Said::Plain("gives a system whose voltage band is not carried")),
        Some(Err(gap)) => found.gap(source, "measured_voltage", CannotTell { what: "the voltage band", gap }),
        Some(Ok((lowest, highest))) => {
            let low = *measured < lowest;
            let said = compared("gives", *measured, low, if low { lowest } else { highest });
            let holds = !low && *measured <= highest;
            found.judge(source, "measured_voltage", holds, said, REMEDY);
        }
    }
}

fn at_load(survey: &Survey<'_>, found: &mut Findings, load: &Load, base: Band) {
    found.afresh();
    let (lowest, highest) = match band(base, *load.voltage) {
        // The bands say nothing of other voltages; the voltage that the load requires is judged elsewhere.
        None => return,
        Some(Err(gap)) => return found.gap(load, "voltage", CannotTell { what: "the voltage band", gap }),
        Some(Ok(band)) => band,
    };
    match drop_to(survey, load, Reach::FromSource, found) {
        Err(unknown) => ask(found, load, unknown),
        Ok(drop) => {
            let side = |drop: &VoltageDrop| (drop.at_load() < lowest, drop.at_load() > highest);
            let (low, high) = match drop.certain(side) {
                Ok(side) => side,
                Err(unknown) => return ask(found, load, unknown),
            };
            let at_load = drop.worst.at_load();
            let said = compared("gets", at_load, !high, if high { highest } else { lowest });
            found.judge(load, "voltage", !high && !low, said, REMEDY);
        }
    }
}

fn compared(does: &'static str, measured: Volts, low: bool, limit: Volts) -> Said {
    Said::Compared {
        does,
        measured: Value::Voltage(measured),
        limit_words: if low { "the band begins at" } else { "the band ends at" },
        limit: Value::Voltage(limit),
    }
}
