//! `backfeed-warning-at-switches`: a switch whose load side may be live while it is open says so.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::TransferKind;

rule! {
    /// ## Protects against
    /// A handle that reads off and is taken for dead.
    ///
    /// ## Cannot tell when
    /// An open breaker of interlocked or interactive equipment faces another supply, and it is not stated whether it warns.
    ///
    /// ## Remedy
    /// The warning beside the switch.
    BACKFEED_WARNING_AT_SWITCHES = "backfeed-warning-at-switches" {
        severity: Caution,
        summary: "an open switch whose load side may be live does not warn",
        topics: ["backfeed-warning"],
        sources: ["29 CFR 1910.305(c)(3)(ii)"],
        check: check,
    }
}

const WARNING: Fact = Fact {
    field: "backfeed_warning",
    asked: "whether a warning stands at each switch whose load terminals may be live while it is open",
    well: "has a warning at each switch whose load side may be live while it is open",
    ill: "has no warning at a switch whose load side may be live while it is open",
    mend: "post the warning beside each such switch",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for transfer in survey.site.transfers() {
        match transfer.kind {
            TransferKind::Interlock | TransferKind::Interactive => {
                WARNING.judge(found, transfer.id(), transfer.backfeed_warning);
            }
            TransferKind::Manual | TransferKind::Automatic | TransferKind::MeterMounted => {
                let said = Said::Plain("has one load side, which is dead when neither supply is taken");
                found.judge(transfer, "kind", true, said, Remedy::Do(WARNING.mend));
            }
        }
    }
}
