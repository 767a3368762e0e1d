//! `motor-start-within-source`: the source starts each motor while everything else runs.

use super::{Findings, Remedy, Said, Survey, Value, capacity, rule};
use crate::quantity::VoltAmperes;
use crate::site::{Load, Source};

rule! {
    /// ## Protects against
    /// A motor that stalls: its locked-rotor current stays, its windings burn and the engine bogs down. Motors start
    /// by themselves, so every other load is taken to run.
    ///
    /// ## Cannot tell when
    /// The kind of a load, the starting current of a motor, the draw of another load, or what the source gives for
    /// moments is not stated.
    ///
    /// ## Remedy
    /// Start the largest first, fit a soft starter, or use a larger source.
    MOTOR_START_WITHIN_SOURCE = "motor-start-within-source" {
        severity: Caution,
        summary: "a motor needs more to start than the source gives for moments",
        topics: ["motor-code-letter", "motor-locked-rotor"],
        sources: ["NEMA MG 1 clause 9.9"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("start it before other loads, fit a soft starter, or use a larger source");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        for load in capacity::loads(survey, source) {
            match capacity::is_motor(load) {
                None => found.ask(load, "kind", "what kind of load it is"),
                Some(false) => {}
                Some(true) => start(survey, found, source, load),
            }
        }
    }
}

fn start(survey: &Survey<'_>, found: &mut Findings, source: &Source, motor: &Load) {
    let Some(starting) = capacity::starting(motor) else {
        return found.ask(motor, "starting_current", "the current that it draws while it starts");
    };
    let Some(limit): Option<VoltAmperes> = source.starting_apparent_power.map(|power| *power) else {
        return found.ask(source, "starting_apparent_power", "what it gives for moments while motors start");
    };
    let others = capacity::loads(survey, source).filter(|load| load.id() != motor.id());
    let sum = capacity::sum(others, capacity::running);
    let total = sum.as_ref().and_then(|sum| sum.known.checked_add(starting));
    let (Some(sum), Some(total)) = (sum, total) else {
        return found.undecided(motor, "starting_current", Said::Plain("starts beside a sum that does not fit"));
    };
    let holds = capacity::within(total, limit);
    if let (Some(load), true) = (sum.missing, holds) {
        return capacity::ask_draw(found, load);
    }
    let said = Said::Compared {
        does: "takes, with all else running while it starts,",
        measured: capacity::shown(total),
        limit_words: "its source gives for moments",
        limit: Value::Apparent(limit),
    };
    found.judge(motor, "starting_current", holds, said, REMEDY);
}
