//! `neutral-never-opens-first`: no transfer equipment opens the neutral before the ungrounded conductors.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::{NeutralOpens, TransferNeutral};

rule! {
    /// ## Protects against
    /// A lost neutral on 120/240 V, which puts up to 240 V on small loads.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the neutral is switched, or then when it opens.
    ///
    /// ## Remedy
    /// A device whose neutral opens together with its poles, or last.
    NEUTRAL_NEVER_OPENS_FIRST = "neutral-never-opens-first" {
        severity: Violation,
        summary: "a device opens the neutral before the ungrounded conductors, or alone",
        topics: ["switched-neutral"],
        check: check,
    }
}

const ORDER: Fact = Fact {
    field: "neutral_opens",
    asked: "when it opens the neutral",
    well: "opens the neutral together with its poles, or last",
    ill: "opens the neutral before its poles, or alone",
    mend: "use a device whose neutral opens together with its poles, or last",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for transfer in survey.site.transfers() {
        match (transfer.neutral, transfer.neutral_opens) {
            (Some(TransferNeutral::Solid), _) => {
                let said = Said::Plain("does not open the neutral");
                found.judge(transfer, "neutral", true, said, Remedy::Do(ORDER.mend));
            }
            (None, None) => found.ask(transfer, "neutral", "whether it switches the neutral"),
            (_, opens) => {
                let good = opens.map(|opens| matches!(opens, NeutralOpens::Together | NeutralOpens::Last));
                ORDER.judge(found, transfer.id(), good);
            }
        }
    }
}
