//! `meter-mounted-switch-agreed`: transfer equipment between meter and socket is listed for there and agreed.

use super::fact::Fact;
use super::{Findings, Survey, rule};
use crate::site::TransferKind;

rule! {
    /// ## Protects against
    /// Work on the side of the service that no fuse protects.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the switch is listed for that place, or whether the utility agreed to it.
    ///
    /// ## Remedy
    /// The utility asked first, and a switch listed for its place.
    METER_MOUNTED_SWITCH_AGREED = "meter-mounted-switch-agreed" {
        severity: Violation,
        summary: "a switch stands at the meter without a listing or without the utility's consent",
        topics: ["ahead-of-service-disconnect", "transfer-equipment"],
        sources: ["Ontario bulletin DB-04/17, as a utility cites it"],
        check: check,
    }
}

const LISTED: Fact = Fact {
    field: "listed",
    asked: "whether it is listed for this use",
    well: "is listed for its place at the meter",
    ill: "is not listed for its place at the meter",
    mend: "use a switch that is listed for its place at the meter",
};

const AGREED: Fact = Fact {
    field: "utility_agreed",
    asked: "whether the utility agreed to it",
    well: "has the utility's consent",
    ill: "lacks the utility's consent",
    mend: "ask the utility first",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for transfer in survey.site.transfers().iter().filter(|transfer| transfer.kind == TransferKind::MeterMounted) {
        LISTED.judge(found, transfer.id(), transfer.listed);
        AGREED.judge(found, transfer.id(), transfer.utility_agreed);
    }
}
