//! `transfer-equipment-suited`: transfer equipment is listed for the job, and an interlock for its panel.

use super::fact::Fact;
use super::{Findings, Survey, rule};
use crate::site::TransferKind;

rule! {
    /// ## Protects against
    /// A home-made plate, or one made for another panel, that misses by a few millimetres and excludes nothing. Inspectors
    /// differ on plates that are not part of the panel's own listing: only a listing or a marking that covers the panel
    /// settles it.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the equipment is listed, or whether the panel's listing covers its interlock.
    ///
    /// ## Remedy
    /// The panel maker's own interlock, or a listed transfer switch.
    TRANSFER_EQUIPMENT_SUITED = "transfer-equipment-suited" {
        severity: Violation,
        summary: "transfer equipment is not listed for the job",
        topics: ["transfer-equipment", "listed-and-used-as-listed"],
        sources: ["UL 1008 and UL 67, by their titles"],
        check: check,
    }
}

const LISTED: Fact = Fact {
    field: "listed",
    asked: "whether it is listed for this use",
    well: "is listed for this use",
    ill: "is not listed for this use",
    mend: "use a listed transfer switch, or the interlock of the panel's maker",
};

const FOR_PANEL: Fact = Fact {
    field: "listed_for_panel",
    asked: "whether the panel's own listing or marking covers its interlock",
    well: "is an interlock that the panel's listing covers",
    ill: "is an interlock that the panel's listing does not cover",
    mend: "use the interlock of the panel's maker, fitted as its instructions say",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for transfer in survey.site.transfers() {
        LISTED.judge(found, transfer.id(), transfer.listed);
        if transfer.kind == TransferKind::Interlock {
            FOR_PANEL.judge(found, transfer.id(), transfer.listed_for_panel);
        }
    }
}
