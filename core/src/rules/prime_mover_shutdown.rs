//! `prime-mover-shutdown`: the engine of a generator can be stopped, and stays stopped, as the edition asks.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, premises, rule};
use crate::calc::CannotTell;
use crate::code::guidance::{self, Duty};
use crate::site::{Occupancy, Source, SourceKind};

rule! {
    /// ## Protects against
    /// An engine that restarts on somebody, and a source that responders cannot make dead from outside. The duties, from
    /// which power they hold, and for which buildings, stand in `generator-shutdown.csv`, edition by edition.
    ///
    /// ## Cannot tell when
    /// Whether the generator has an engine, a means that a duty asks for, or the power, the portability or the kind of
    /// building that decides whether it does, is not stated; or the code's duties are not carried.
    ///
    /// ## Remedy
    /// The stop that is missing, labeled.
    PRIME_MOVER_SHUTDOWN = "prime-mover-shutdown" {
        severity: Violation,
        summary: "the engine of a generator lacks a means to stop it",
        topics: ["generator-shutdown"],
        check: check,
    }
}

const RESTART: Fact = Fact {
    field: "restart_prevented",
    asked: "whether its stopping means keep its engine from starting until it is reset by hand",
    well: "has stopping means that keep its engine from starting until it is reset by hand",
    ill: "has no stopping means that keep its engine from starting until it is reset by hand",
    mend: "add stopping means that keep the engine from starting until it is reset by hand",
};

const REMOTE: Fact = Fact {
    field: "remote_stop",
    asked: "whether its engine can be stopped from outside its room or enclosure",
    well: "has an engine that can be stopped from outside its room or enclosure",
    ill: "has an engine that cannot be stopped from outside its room or enclosure",
    mend: "add a stop outside its room or enclosure, and label it",
};

const EMERGENCY: Fact = Fact {
    field: "emergency_stop_outside",
    asked: "whether a labeled emergency stop for it is outside the dwelling",
    well: "has a labeled emergency stop outside the dwelling",
    ill: "has no labeled emergency stop outside the dwelling",
    mend: "add a labeled emergency stop outside the dwelling",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in premises::building_sources(survey).filter(|source| source.kind == SourceKind::Generator) {
        match source.engine {
            Some(true) => judge(survey, found, source),
            Some(false) => {}
            None => found.ask(source, "engine", "whether a fuel engine drives it"),
        }
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, source: &Source) {
    let duties = match guidance::shutdown_duties(survey.code.id()) {
        Ok(duties) => duties,
        Err(gap) => {
            return found.gap(source, "engine", CannotTell { what: "how its engine must be stopped", gap });
        }
    };
    for duty in duties {
        let fact = match duty.means {
            "restart-prevented" => (&RESTART, source.restart_prevented),
            "remote-stop" => (&REMOTE, source.remote_stop),
            _ => (&EMERGENCY, source.emergency_stop_outside),
        };
        match applies(survey, source, &duty) {
            // What is there needs no fact to say that it must be.
            _ if fact.1 == Some(true) => fact.0.judge(found, source.id(), fact.1),
            Ok(true) => fact.0.judge(found, source.id(), fact.1),
            Ok(false) => {
                let said = Said::Plain(match duty.means {
                    "remote-stop" => "is not asked for a stop outside its room or enclosure",
                    "restart-prevented" => "is not asked for stopping means that prevent a restart",
                    _ => "is not asked for an emergency stop outside the dwelling",
                });
                found.judge(source, fact.0.field, true, said, Remedy::Do(fact.0.mend));
            }
            Err((field, words)) => found.ask(source, field, words),
        }
    }
}

/// Whether a duty holds for a source, or the fact that decides it: a field and its words.
fn applies(survey: &Survey<'_>, source: &Source, duty: &Duty) -> Result<bool, (&'static str, &'static str)> {
    let dwelling = survey.site.premises().occupancy.map(|occupancy| occupancy == Occupancy::OneOrTwoFamilyDwelling);
    let conditions = [
        (
            duty.dwelling.map(|wanted| dwelling.map(|dwelling| dwelling == wanted)),
            ("occupancy", "whether its building is a dwelling of one or two families"),
        ),
        (
            duty.above.map(|above| source.continuous_power.map(|power| *power > above)),
            ("continuous_power", "the power that it gives for hours"),
        ),
        (
            (duty.portable_exempt && premises::cord_and_plug(source)).then(|| source.portable.map(|portable| !portable)),
            ("portable", "whether it is portable"),
        ),
    ];
    // One condition that is not met settles it, whatever is not known of the others.
    if conditions.iter().any(|(met, _)| *met == Some(Some(false))) {
        return Ok(false);
    }
    let missing = conditions.into_iter().find(|(met, _)| *met == Some(None));
    missing.map_or(Ok(true), |(_, fact)| Err(fact))
}
