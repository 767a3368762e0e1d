//! `no-backfeed-through-charger`: nothing flows back through charging equipment that is not listed for export.

use super::fact::Fact;
use super::{Findings, Survey, rule};
use crate::site::{Charging, SourceKind};

rule! {
    /// ## Protects against
    /// A street that a vehicle energises through its charger when the utility fails.
    ///
    /// ## Cannot tell when
    /// It is not stated which way the charging equipment of a vehicle, a battery or an inverter lets power flow.
    ///
    /// ## Remedy
    /// One-way charging equipment, or two-way equipment that is listed for export.
    NO_BACKFEED_THROUGH_CHARGER = "no-backfeed-through-charger" {
        severity: Prohibited,
        summary: "power can flow back through charging equipment that is not listed for export",
        topics: ["vehicle-loss-of-source", "parallel-loss-of-source"],
        check: check,
    }
}

const CHARGER: Fact = Fact {
    field: "charging",
    asked: "which way its charging equipment lets power flow",
    well: "has charging equipment through which nothing flows back unless it is listed for that, or none",
    ill: "has charging equipment that lets power flow back without being listed for it",
    mend: "use one-way charging equipment, or two-way equipment that is listed for export",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        // A generator is not charged.
        if source.kind != SourceKind::Generator {
            CHARGER.judge(found, source.id(), source.charging.map(|charging| charging != Charging::TwoWayUnlisted));
        }
    }
}
