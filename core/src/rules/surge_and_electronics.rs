//! `surge-and-electronics`: sensitive electronics go on last and off first, behind surge protection.

use super::fact::Fact;
use super::{Findings, Survey, capacity, rule};
use crate::site::{ComponentId, LoadKind};

rule! {
    /// ## Protects against
    /// The dip when a motor starts, and the overspeed when a load drops off.
    ///
    /// ## Cannot tell when
    /// It is not stated when electronics go on and off, or what kind of load something is.
    ///
    /// ## Remedy
    /// Motors first, then lights, then electronics through a surge protector.
    SURGE_AND_ELECTRONICS = "surge-and-electronics" {
        severity: Information,
        summary: "sensitive electronics are not kept from starts and surges",
        topics: [],
        sources: ["set manuals: motors, then lights, then electronics through a surge protector"],
        check: check,
    }
}

const LAST: Fact = Fact {
    field: "electronics_last",
    asked: "whether sensitive electronics go on last and off first, behind surge protection",
    well: "puts sensitive electronics on last and off first, behind surge protection",
    ill: "does not keep sensitive electronics from starts and surges",
    mend: "put electronics on last and off first, behind surge protection",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    let mut loads = survey.site.sources().iter().flat_map(|source| capacity::loads(survey, source));
    if loads.clone().any(|load| load.kind == Some(LoadKind::Electronics)) {
        let stated = survey.site.procedure().and_then(|procedure| procedure.electronics_last);
        LAST.judge(found, ComponentId::PROCEDURE, stated);
    } else if let Some(load) = loads.find(|load| load.kind.is_none()) {
        found.ask(load, "kind", "what kind of load it is");
    }
}
