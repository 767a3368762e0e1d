//! `return-in-order`: on return, loads go off first, and the source cools and stops before its cords are parted.

use super::fact::{Fact, joins_utility};
use super::{Findings, Survey, rule};
use crate::site::ComponentId;

rule! {
    /// ## Protects against
    /// Arcs at a connector that is parted live, and a voltage that collapses under electronics when a loaded source
    /// stops.
    ///
    /// ## Cannot tell when
    /// The order of the return is not stated.
    ///
    /// ## Remedy
    /// Loads off, way of the source open, way of the utility closed, loads on; let the source cool and stop, and only
    /// then part the cords.
    RETURN_IN_ORDER = "return-in-order" {
        severity: Violation,
        summary: "the return to the utility is out of order",
        topics: ["transfer-equipment"],
        sources: ["set and transfer-switch instructions", "electric-cooperative advice"],
        check: check,
    }
}

const ORDER: Fact = Fact {
    field: "returned_in_order",
    asked: "whether on return loads go off first, and the source cools and stops before its cords are parted",
    well: "takes loads off first, and stops the source before its cords are parted",
    ill: "stops the source under load, or parts its cords before it stands",
    mend: "take the loads off, change over, let the source cool and stop, and only then part the cords",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    if joins_utility(survey) {
        let stated = survey.site.procedure().and_then(|procedure| procedure.returned_in_order);
        ORDER.judge(found, ComponentId::PROCEDURE, stated);
    }
}
