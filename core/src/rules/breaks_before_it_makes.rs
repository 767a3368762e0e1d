//! `breaks-before-it-makes`: transfer equipment leaves one supply wholly before it takes the other.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::Transition;

rule! {
    /// ## Protects against
    /// The instant in which two supplies that are not in step meet.
    ///
    /// ## Cannot tell when
    /// The transition is not stated, or, where both supplies meet for a moment, whether they are brought into step first.
    ///
    /// ## Remedy
    /// A switch with an off position between its supplies, or an interlock.
    BREAKS_BEFORE_IT_MAKES = "breaks-before-it-makes" {
        severity: Prohibited,
        summary: "transfer equipment joins two supplies for a moment",
        topics: ["transfer-equipment"],
        check: check,
    }
}

const STEP: Fact = Fact {
    field: "synchronizing",
    asked: "whether it brings both supplies into step before they meet",
    well: "joins its supplies for a moment, in step",
    ill: "joins its supplies for a moment without bringing them into step",
    mend: "use equipment that leaves one supply before it takes the other",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for transfer in survey.site.transfers() {
        match transfer.transition {
            Some(Transition::Open) => {
                let said = Said::Plain("leaves one supply before it takes the other");
                found.judge(transfer, "transition", true, said, Remedy::Do(STEP.mend));
            }
            Some(Transition::Closed) => STEP.judge(found, transfer.id(), transfer.synchronizing),
            None => found.ask(transfer, "transition", "whether it leaves one supply before it takes the other"),
        }
    }
}
