//! `kept-dry`: a portable source stands dry.

use super::fact::Fact;
use super::{Findings, Survey, rule};

rule! {
    /// ## Protects against
    /// Water in the outlets of a source, and wet hands on them.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the source stands dry, or whether it is portable.
    ///
    /// ## Remedy
    /// Level, dry ground under an open canopy, out of floods and sprinklers; never a closed shed.
    KEPT_DRY = "kept-dry" {
        severity: Violation,
        summary: "a portable source does not stand dry",
        topics: [],
        sources: ["OSHA fact sheet on portable generators", "utility advice"],
        check: check,
    }
}

const DRY: Fact = Fact {
    field: "kept_dry",
    asked: "whether it stands dry on level ground, under an open canopy where it rains",
    well: "stands dry",
    ill: "stands wet, or where water reaches it",
    mend: "set it on dry level ground under an open canopy, not in a closed shed",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        match source.portable {
            Some(false) => {}
            Some(true) => DRY.judge(found, source.id(), source.kept_dry),
            None => found.ask(source, "portable", "whether it is portable"),
        }
    }
}
