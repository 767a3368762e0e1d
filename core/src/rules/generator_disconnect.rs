//! `generator-disconnect`: a generator that is wired in can be disconnected and locked off.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, premises, rule};
use crate::site::{Disconnect, SourceKind};

rule! {
    /// ## Protects against
    /// Work on a set that nobody can isolate. A portable set that is plugged in is disconnected by its plug.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the set is portable, or what disconnects it.
    ///
    /// ## Remedy
    /// A disconnect that opens all ungrounded conductors at once and locks open, placed and labeled as the edition asks.
    GENERATOR_DISCONNECT = "generator-disconnect" {
        severity: Violation,
        summary: "a generator has no disconnect that locks open",
        topics: ["generator-disconnect", "portable-generator-inlet"],
        check: check,
    }
}

const LOCKABLE: Fact = Fact {
    field: "disconnect",
    asked: "what disconnects it, and whether that locks open,",
    well: "has a disconnect that locks open",
    ill: "has no disconnect that opens all ungrounded conductors at once and locks open",
    mend: "add a disconnect that locks open, or label the one that there is",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in premises::building_sources(survey).filter(|source| source.kind == SourceKind::Generator) {
        if premises::cord_and_plug(source) && source.disconnect != Some(Disconnect::Lockable) {
            match source.portable {
                Some(true) => {
                    let said = Said::Plain("is portable and plugged in, so that its plug disconnects it");
                    found.judge(source, "portable", true, said, Remedy::Do(LOCKABLE.mend));
                    continue;
                }
                None => {
                    found.ask(source, "portable", "whether it is portable");
                    continue;
                }
                Some(false) => {}
            }
        }
        LOCKABLE.judge(found, source.id(), source.disconnect.map(|disconnect| disconnect == Disconnect::Lockable));
    }
}
