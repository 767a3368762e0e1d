//! `unload-before-transfer`: the loads are off when a source is joined or removed.

use super::fact::{Fact, joins_utility};
use super::{Findings, Remedy, Said, Survey, Value, capacity, rule};
use crate::site::{ComponentId, Source};

rule! {
    /// ## Protects against
    /// A source that stalls under everything that starts at once, and motors that meet a supply out of step with
    /// their own turning.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the branch circuits are off; where they are not, the starting current of a motor, the
    /// draw of a load or what the source gives for moments.
    ///
    /// ## Remedy
    /// Open the branch breakers first, and close them one at a time afterwards.
    UNLOAD_BEFORE_TRANSFER = "unload-before-transfer" {
        severity: Violation,
        summary: "a source is joined or removed with more load on than it can start",
        topics: ["manual-transfer-capacity"],
        sources: ["utility advice and set manuals"],
        check: check,
    }
}

const OFF: Fact = Fact {
    field: "loads_off_at_transfer",
    asked: "whether the branch circuits are off when a source is joined or removed",
    well: "has the branch circuits off when a source is joined or removed",
    ill: "joins or removes a source with branch circuits on",
    mend: "open the branch breakers before a source is joined or removed",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    if !joins_utility(survey) {
        return;
    }
    match survey.site.procedure().and_then(|procedure| procedure.loads_off_at_transfer) {
        Some(false) => {
            for source in survey.site.sources() {
                pick_up(survey, found, source);
            }
        }
        stated => OFF.judge(found, ComponentId::PROCEDURE, stated),
    }
}

/// What a source picks up at once: every motor starting, everything else running.
fn pick_up(survey: &Survey<'_>, found: &mut Findings, source: &Source) {
    let Some(limit) = source.starting_apparent_power.map(|power| *power) else {
        return found.ask(source, "starting_apparent_power", "what it gives for moments while motors start");
    };
    let loads = capacity::loads(survey, source);
    if let Some(load) = loads.clone().find(|load| load.kind.is_none()) {
        return found.ask(load, "kind", "what kind of load it is");
    }
    let draw = |load: &crate::site::Load| {
        if capacity::is_motor(load) == Some(true) { capacity::starting(load) } else { capacity::running(load) }
    };
    let Some(sum) = capacity::sum(loads, draw) else {
        return found.undecided(source, "starting_apparent_power", Said::Plain("picks up a sum that does not fit"));
    };
    let holds = capacity::within(sum.known, limit);
    if let (Some(load), true) = (sum.missing, holds) {
        return match capacity::is_motor(load) {
            Some(true) => found.ask(load, "starting_current", "the current that it draws while it starts"),
            _ => capacity::ask_draw(found, load),
        };
    }
    let said = Said::Compared {
        does: "picks up at once",
        measured: capacity::shown(sum.known),
        limit_words: "it gives for moments",
        limit: Value::Apparent(limit),
    };
    found.judge(source, "starting_apparent_power", holds, said, Remedy::Do(OFF.mend));
}
