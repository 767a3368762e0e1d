//! `gfci-on-portable-outlets`: the small outlets of a portable generator are ground-fault protected where the code asks for it.

use super::{Findings, Remedy, Said, Survey, capacity, rule};
use crate::calc::CannotTell;
use crate::code::guidance;
use crate::published::TableId;
use crate::quantity::{Amperes, Quantity, Watts};
use crate::site::{Outlet, Source, SourceKind, SourceNeutral};

rule! {
    /// ## Protects against
    /// Shock outdoors, on wet ground, from a tool or a damaged cord.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the outlet is protected, whether the generator is portable, what it gives, how its
    /// neutral is bonded, or whether the outlet is dead while a larger one is in use.
    ///
    /// ## Remedy
    /// A ground-fault circuit interrupter in the outlet; for a generator made before 2015 a listed cord set that has
    /// one.
    GFCI_ON_PORTABLE_OUTLETS = "gfci-on-portable-outlets" {
        severity: Violation,
        summary: "a small outlet of a portable generator is not ground-fault protected",
        topics: ["generator-ground-fault-protection"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do(
    "use an outlet with a ground-fault circuit interrupter; for a generator made before 2015, a listed cord set with one",
);

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources().iter().filter(|source| source.kind == SourceKind::Generator) {
        for outlet in source.outlets.iter().filter(|outlet| is_small(outlet)) {
            judge(found, source, outlet);
        }
    }
}

/// An outlet of 125 V and 15 A or 20 A.
fn is_small(outlet: &Outlet) -> bool {
    outlet.configuration.contacts().is_some_and(|contacts| {
        let configuration = contacts.configuration;
        configuration.poles() == 2
            && configuration.neutral()
            && configuration.rated_current() <= Amperes::from_whole(20)
    })
}

/// An outlet of both 125 V and 250 V.
fn is_of_both_voltages(outlet: &Outlet) -> bool {
    outlet.configuration.contacts().is_some_and(|contacts| {
        contacts.configuration.poles() == 3 && contacts.configuration.neutral() && contacts.configuration.phases() == 1
    })
}

fn judge(found: &mut Findings, source: &Source, outlet: &Outlet) {
    if outlet.gfci == Some(true) {
        let said = Said::Plain("is protected by a ground-fault circuit interrupter");
        return found.judge(outlet, "gfci", true, said, REMEDY);
    }
    match source.portable {
        Some(true) => {}
        Some(false) => return,
        None => return found.ask(source, "portable", "whether it is portable"),
    }
    let limit: Watts = match guidance::figure(TableId::ConnectionLimits, "small-generator") {
        Ok(cell) => cell.value,
        Err(gap) => return found.gap(source, "portable", CannotTell { what: "which generators are small", gap }),
    };
    match capacity::gives(source) {
        None => return capacity::ask_rating(found, source),
        // 10^-9 VA against 10^-15 W.
        Some(gives) if gives.count().saturating_mul(1_000_000) > limit.count() => return,
        Some(_) => {}
    }
    if source.made_before_2015 == Some(true) && outlet.gfci_cord_set == Some(true) {
        let said = Said::Plain("is used through a listed cord set with a ground-fault circuit interrupter");
        return found.judge(outlet, "gfci_cord_set", true, said, REMEDY);
    }
    match (needed(source, outlet), outlet.gfci) {
        (Ok(false), _) => {
            let said = Said::Plain("needs no ground-fault circuit interrupter by this section");
            found.judge(outlet, "gfci", true, said, REMEDY);
        }
        (_, None) => found.ask(outlet, "gfci", "whether a ground-fault circuit interrupter protects it"),
        (Err(Missing::Neutral), _) => found.ask(source, "neutral", "whether its neutral is bonded to its frame"),
        (Err(Missing::Interlock), _) => found.ask(
            outlet,
            "dead_while_larger_in_use",
            "whether it is dead while an outlet of both voltages is in use",
        ),
        (Ok(true), _) => {
            let said = Said::Plain("is not protected by a ground-fault circuit interrupter");
            found.judge(outlet, "gfci", false, said, REMEDY);
        }
    }
}

enum Missing {
    Neutral,
    Interlock,
}

/// Whether 445.20 asks for protection: (A) with a floating neutral beside an outlet of both voltages that may be in use
/// at the same time, (B) with a bonded neutral.
fn needed(source: &Source, outlet: &Outlet) -> Result<bool, Missing> {
    match source.neutral {
        Some(SourceNeutral::Bonded) => Ok(true),
        None => Err(Missing::Neutral),
        Some(SourceNeutral::Floating) if !source.outlets.iter().any(is_of_both_voltages) => Ok(false),
        Some(SourceNeutral::Floating) => {
            outlet.dead_while_larger_in_use.map(|dead| !dead).ok_or(Missing::Interlock)
        }
    }
}
