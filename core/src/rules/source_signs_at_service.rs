//! `source-signs-at-service`: signs at the service equipment tell of each source.

use super::fact::Fact;
use super::{Findings, Survey, premises, rule};
use crate::site::TransferNeutral;

rule! {
    /// ## Protects against
    /// Firefighters and line workers who expect one supply, and a grounding path that somebody opens at the service without
    /// knowing that a source relies on it.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the signs are there. The second is asked for where the neutral runs through the transfer
    /// equipment.
    ///
    /// ## Remedy
    /// The signs.
    SOURCE_SIGNS_AT_SERVICE = "source-signs-at-service" {
        severity: Caution,
        summary: "the service equipment does not tell of a source",
        topics: ["source-sign", "source-grounding-sign", "outside-emergency-disconnect"],
        check: check,
    }
}

const SIGN: Fact = Fact {
    field: "sign_at_service",
    asked: "whether a sign at the service equipment tells its kind and its place",
    well: "is told of by a sign at the service equipment",
    ill: "is not told of at the service equipment",
    mend: "post a sign at the service equipment that tells the kind and the place of the source",
};

const GROUNDING: Fact = Fact {
    field: "grounding_sign",
    asked: "whether a sign warns that opening a ground connection at the service opens its grounding path",
    well: "has a sign that warns of opening its ground connection at the service",
    ill: "has no sign that warns of opening its ground connection at the service",
    mend: "post the warning at the service equipment",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in premises::building_sources(survey) {
        SIGN.judge(found, source.id(), source.sign_at_service);
        let relies = premises::transfers_below(survey, source.id())
            .any(|transfer| transfer.neutral != Some(TransferNeutral::Switched));
        if relies {
            GROUNDING.judge(found, source.id(), source.grounding_sign);
        }
    }
}
