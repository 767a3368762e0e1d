//! `vehicle-cannot-drive-off`: a vehicle that feeds something stays where it is, and its cord is not pulled.

use super::fact::Fact;
use super::{Findings, Survey, rule};
use crate::site::SourceKind;

rule! {
    /// ## Protects against
    /// A live cord that is torn off.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the vehicle is kept from being driven off, or whether its cord is relieved of strain.
    ///
    /// ## Remedy
    /// Chocks and an immobilizer, and a cord that hangs free of strain.
    VEHICLE_CANNOT_DRIVE_OFF = "vehicle-cannot-drive-off" {
        severity: Caution,
        summary: "a vehicle can be driven off while it is connected",
        topics: [],
        sources: ["reasoning, after NEC 625.22 and 626.23 on strain"],
        check: check,
    }
}

const STAYS: Fact = Fact {
    field: "immobilized",
    asked: "whether it is kept from being driven off while it is connected",
    well: "is kept from being driven off while it is connected",
    ill: "can be driven off while it is connected",
    mend: "chock the wheels and immobilize it",
};

const STRAIN: Fact = Fact {
    field: "strain_relieved",
    asked: "whether its cord is relieved of strain",
    well: "has its cord relieved of strain",
    ill: "has a cord that its movement pulls at",
    mend: "lead the cord so that nothing pulls at it",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources().iter().filter(|source| source.kind == SourceKind::Vehicle) {
        STAYS.judge(found, source.id(), source.immobilized);
        STRAIN.judge(found, source.id(), source.strain_relieved);
    }
}
