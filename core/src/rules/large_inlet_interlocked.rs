//! `large-inlet-interlocked`: a large inlet cannot be parted under load.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, Value, premises, rule};
use crate::calc::CannotTell;
use crate::code::guidance;
use crate::published::TableId;
use crate::quantity::Amperes;

rule! {
    /// ## Protects against
    /// A large connector that is parted while it carries current. From 100 A, an inlet stands in listed equipment with a
    /// disconnect interlocked with it, or is listed as a disconnect itself.
    ///
    /// ## Cannot tell when
    /// The inlet is that large, and it is not stated whether a disconnect is interlocked with it.
    ///
    /// ## Remedy
    /// An inlet panel with an interlocked disconnect.
    LARGE_INLET_INTERLOCKED = "large-inlet-interlocked" {
        severity: Violation,
        summary: "a large inlet can be parted under load",
        topics: ["large-inlet-interlocked"],
        check: check,
    }
}

const INTERLOCKED: Fact = Fact {
    field: "interlocked_disconnect",
    asked: "whether a listed disconnect is interlocked with it",
    well: "is large, and a disconnect is interlocked with it",
    ill: "is large, and no disconnect is interlocked with it",
    mend: "use an inlet panel with an interlocked disconnect",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for inlet in premises::building_inlets(survey) {
        let from = match guidance::figure::<Amperes>(TableId::ConnectionLimits, "large-inlet") {
            Ok(cell) => cell.value,
            Err(gap) => {
                found.gap(inlet, "configuration", CannotTell { what: "from which rating an inlet is large", gap });
                continue;
            }
        };
        let configured = inlet.configuration.configuration.rated_current();
        let rated = inlet.rated_current.as_deref().map_or(configured, |stated| (*stated).max(configured));
        if rated >= from {
            INTERLOCKED.judge(found, inlet.id(), inlet.interlocked_disconnect);
        } else {
            let said = Said::Compared {
                does: "is rated",
                measured: Value::Current(rated),
                limit_words: "a disconnect is asked for from",
                limit: Value::Current(from),
            };
            found.judge(inlet, "configuration", true, said, Remedy::Do(INTERLOCKED.mend));
        }
    }
}
