//! `voltage-at-load`: the voltage at a load is not below what the source or the load requires.

use super::path::{Reach, drop_to, running};
use super::voltage_drop_in_branch::{ask, said};
use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::site::Load;

rule! {
    /// ## Protects against
    /// Motors that stall and burn, and equipment that drops out, below the voltage they need. A requirement where the
    /// source states the greatest drop or the load its lowest voltage.
    ///
    /// ## Cannot tell when
    /// A length, a wire size, a material or a current on the way is not stated, or a leg where that decides.
    ///
    /// ## Remedy
    /// A larger or shorter cord or conductor, or less load on the way.
    VOLTAGE_AT_LOAD = "voltage-at-load" {
        severity: Violation,
        summary: "the voltage at a load is below what is required",
        topics: ["listed-and-used-as-listed"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("use a larger or shorter cord or conductor on the way, or move a load away");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for load in running(survey) {
        let share = survey.site.source_of(load.id()).and_then(|source| source.greatest_drop.as_deref().copied());
        let lowest = load.lowest_voltage.as_deref().copied();
        if share.is_none() && lowest.is_none() {
            continue;
        }
        judge(survey, found, load, (share, lowest));
    }
}

fn judge(
    survey: &Survey<'_>,
    found: &mut Findings,
    load: &Load,
    (share, lowest): (Option<crate::quantity::Ratio>, Option<crate::quantity::Volts>),
) {
    found.afresh();
    let drop = match drop_to(survey, load, Reach::FromSource, found) {
        Ok(drop) => drop,
        Err(unknown) => return ask(found, load, unknown),
    };
    if let Some(share) = share {
        match drop.certain(|drop| drop.within(share)) {
            Ok(holds) => {
                found.judge(load, "from", holds, said(&drop.worst, "its source requires at most", share), REMEDY);
            }
            Err(unknown) => ask(found, load, unknown),
        }
    }
    if let Some(lowest) = lowest {
        let at_load = drop.worst.at_load();
        let holds = match drop.certain(|drop| drop.at_load() >= lowest) {
            Ok(holds) => holds,
            Err(unknown) => return ask(found, load, unknown),
        };
        let said = Said::Compared {
            does: "gets",
            measured: Value::Voltage(at_load),
            limit_words: "it works from",
            limit: Value::Voltage(lowest),
        };
        found.judge(load, "lowest_voltage", holds, said, REMEDY);
    }
}
