//! `inlet-of-right-kind`: an inlet is listed, and covered where it is outdoors.

use super::fact::Fact;
use super::{Findings, Survey, rule, wires};

rule! {
    /// ## Protects against
    /// Overheated contacts, exposed parts and water in an improvised inlet. Whether its rating bears the device ahead of it
    /// is judged by `breaker-protects-inlet`, and whether its blades fit the cord by `plug-enters-receptacle`.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the inlet is listed, whether it is outdoors, or whether a cover closes over it there.
    ///
    /// ## Remedy
    /// A listed inlet of the matching configuration, in a box whose cover closes.
    INLET_OF_RIGHT_KIND = "inlet-of-right-kind" {
        severity: Violation,
        summary: "an inlet is not listed, or open to the weather",
        topics: ["inlet-listed", "inlet-not-live", "portable-generator-inlet"],
        check: check,
    }
}

const LISTED: Fact = Fact {
    field: "listed",
    asked: "whether it is listed",
    well: "is listed",
    ill: "is not listed",
    mend: "use a listed inlet of the matching configuration",
};

const COVER: Fact = Fact {
    field: "cover",
    asked: "whether a cover closes over its blades while nothing is plugged in",
    well: "has a cover that closes over its blades",
    ill: "is open to the weather while nothing is plugged in",
    mend: "use an inlet box whose cover closes",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for inlet in survey.site.inlets() {
        LISTED.judge(found, inlet.id(), inlet.listed);
        match (inlet.outdoors.or_else(|| wires::is_wet(inlet.place_kind, None)), inlet.cover) {
            (Some(false), _) => {}
            (None, None) => found.ask(inlet, "outdoors", "whether it is outdoors"),
            (Some(true) | None, cover) => COVER.judge(found, inlet.id(), cover),
        }
    }
}
