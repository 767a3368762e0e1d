//! `vehicle-outlet-limits`: an outlet on a vehicle is listed, single-phase, of limited rating, and protected.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::calc::CannotTell;
use crate::code::guidance;
use crate::published::TableId;
use crate::quantity::{Amperes, Volts};
use crate::site::{Outlet, SourceKind};

rule! {
    /// ## Protects against
    /// A cord that burns and a shock outdoors, from a vehicle's outlets. The section came with the edition of 2020; the rule
    /// is applied under every edition.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the outlets are listed, or whether an outlet has an overcurrent device and ground-fault
    /// protection of its own.
    ///
    /// ## Remedy
    /// A vehicle whose outlets are listed for it.
    VEHICLE_OUTLET_LIMITS = "vehicle-outlet-limits" {
        severity: Violation,
        summary: "an outlet on a vehicle is beyond what is allowed for it",
        topics: ["vehicle-export-receptacle"],
        sources: ["NEC 2020 625.60 for editions without that section"],
        check: check,
    }
}

const MEND: &str = "use a vehicle whose outlets are listed for feeding equipment outside it";

const LISTED: Fact = Fact {
    field: "outlets_listed",
    asked: "whether its outlets are listed for feeding equipment outside it",
    well: "has outlets that are listed for feeding equipment outside it",
    ill: "has outlets that are not listed for feeding equipment outside it",
    mend: MEND,
};

const GFCI: Fact = Fact {
    field: "gfci",
    asked: "whether a ground-fault circuit interrupter protects it",
    well: "has ground-fault protection of its own",
    ill: "has no ground-fault protection of its own",
    mend: MEND,
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources().iter().filter(|source| source.kind == SourceKind::Vehicle) {
        LISTED.judge(found, source.id(), source.outlets_listed);
        for outlet in source.outlets.iter().filter(|outlet| outlet.configuration.contacts().is_some()) {
            of_outlet(found, outlet);
        }
    }
}

fn of_outlet(found: &mut Findings, outlet: &Outlet) {
    let Some(contacts) = outlet.configuration.contacts() else { return };
    let configuration = contacts.configuration;
    let limits = (
        guidance::figure::<Volts>(TableId::ConnectionLimits, "vehicle-outlet-voltage"),
        guidance::figure::<Amperes>(TableId::ConnectionLimits, "vehicle-outlet-current"),
    );
    let (volts, amperes) = match limits {
        (Ok(volts), Ok(amperes)) => (volts.value, amperes.value),
        (Err(gap), _) | (_, Err(gap)) => {
            return found.gap(outlet, "configuration", CannotTell { what: "the limits of a vehicle's outlets", gap });
        }
    };
    let mut judge = |within, does, measured, limit| {
        let said = Said::Compared { does, measured, limit_words: "a vehicle's outlet may have at most", limit };
        found.judge(outlet, "configuration", within, said, Remedy::Do(MEND));
    };
    let phases = u16::from(configuration.phases());
    judge(phases == 1, "has phases:", Value::Count(phases), Value::Count(1));
    let (voltage, current) = (configuration.rated_voltage(), configuration.rated_current());
    judge(voltage <= volts, "is rated", Value::Voltage(voltage), Value::Voltage(volts));
    judge(current <= amperes, "is rated", Value::Current(current), Value::Current(amperes));
    if outlet.overcurrent_device.is_none() {
        found.ask(outlet, "overcurrent_device", "the rating of its overcurrent device");
    }
    GFCI.judge(found, outlet.id(), outlet.gfci);
}
