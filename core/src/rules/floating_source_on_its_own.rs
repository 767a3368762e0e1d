//! `floating-source-on-its-own`: a source with a floating neutral that feeds cords has what takes the bond's place.

use super::{Findings, Remedy, Said, Survey, premises, rule};
use crate::site::{Source, SourceNeutral};

rule! {
    /// ## Protects against
    /// A first fault that nobody notices: without a bond, no device clears it. Cords and tools then rest on isolation and on
    /// ground-fault protection, and a workplace must have the bond.
    ///
    /// ## Cannot tell when
    /// The source's neutral, the kind of place or the ground-fault protection of a used outlet is not stated.
    ///
    /// ## Remedy
    /// A source with a bonded neutral and ground-fault protection.
    FLOATING_SOURCE_ON_ITS_OWN = "floating-source-on-its-own" {
        severity: Caution,
        summary: "a source with a floating neutral feeds cords without what takes the bond's place",
        topics: ["generator-ground-fault-protection", "systems-to-be-grounded"],
        sources: ["29 CFR 1926.404(f)(3)(iii), as a contractor quotes it"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("use a source with a bonded neutral and ground-fault protection");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in premises::sources_on_their_own(survey) {
        judge(survey, found, source);
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, source: &Source) {
    match source.neutral {
        None => return found.ask(source, "neutral", "whether its neutral is bonded to its frame"),
        Some(SourceNeutral::Bonded) => {
            let said = Said::Plain("has a bonded neutral, so that a fault to its frame is cleared");
            return found.judge(source, "neutral", true, said, REMEDY);
        }
        Some(SourceNeutral::Floating) => {}
    }
    match survey.site.premises().workplace {
        None => return found.ask(source, "workplace", "whether it is used at a workplace"),
        Some(true) => {
            let said = Said::Plain("has a floating neutral and is used at a workplace, which needs a bonded one");
            return found.judge(source, "neutral", false, said, REMEDY);
        }
        Some(false) => {}
    }
    for outlet in source.outlets.iter().filter(|outlet| survey.site.downstream(outlet.id()).next().is_some()) {
        match outlet.gfci {
            None => found.ask(outlet, "gfci", "whether a ground-fault circuit interrupter protects it"),
            Some(protected) => {
                let said = Said::Plain(if protected {
                    "is on a floating neutral and has ground-fault protection"
                } else {
                    "is on a floating neutral without ground-fault protection"
                });
                found.judge(outlet, "gfci", protected, said, REMEDY);
            }
        }
    }
}
