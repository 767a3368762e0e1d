//! `no-unattended-automatic-on-portable`: a portable source with automatic transfer is attended, or made to run unattended.

use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::{Component, Source, TransferKind};

rule! {
    /// ## Protects against
    /// Nobody there to see the gas, the fuel or the fire.
    ///
    /// ## Cannot tell when
    /// It is not stated whether somebody attends, or whether the source is made to start and run with nobody there.
    ///
    /// ## Remedy
    /// Have somebody attend, or use equipment that is made for it.
    NO_UNATTENDED_AUTOMATIC_ON_PORTABLE = "no-unattended-automatic-on-portable" {
        severity: Caution,
        summary: "a portable source starts by itself with nobody there",
        topics: ["listed-and-used-as-listed"],
        sources: ["own reasoning, no source"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("have somebody attend, or use a source that is made to start and run with nobody there");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources().iter().filter(|source| is_automatic(survey, source)) {
        match source.portable {
            Some(true) => judge(survey, found, source),
            Some(false) => {}
            None => found.ask(source, "portable", "whether it is portable"),
        }
    }
}

fn is_automatic(survey: &Survey<'_>, source: &Source) -> bool {
    survey.below(source.id()).any(|component| match component {
        Component::Transfer(transfer) => transfer.kind == TransferKind::Automatic,
        _ => false,
    })
}

fn judge(survey: &Survey<'_>, found: &mut Findings, source: &Source) {
    let attended = survey.site.procedure().and_then(|procedure| procedure.attended);
    match (attended, source.made_for_unattended) {
        (Some(true), _) => found.judge(source, "portable", true, Said::Plain("is attended while it runs"), REMEDY),
        (_, Some(true)) => {
            let said = Said::Plain("is made to start and run with nobody there");
            found.judge(source, "made_for_unattended", true, said, REMEDY);
        }
        (Some(false), Some(false)) => {
            let said = Said::Plain("starts by itself with nobody there, and is not made for it");
            found.judge(source, "made_for_unattended", false, said, REMEDY);
        }
        (None, _) => found.ask_part(
            crate::site::ComponentId::PROCEDURE,
            "attended",
            "whether somebody is there while a portable source runs",
        ),
        (_, None) => {
            found.ask(source, "made_for_unattended", "whether it is made to start and run with nobody there");
        }
    }
}
