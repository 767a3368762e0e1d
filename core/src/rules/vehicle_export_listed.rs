//! `vehicle-export-listed`: fixed equipment that takes power from a vehicle is listed for its part.

use super::{Findings, Remedy, Said, Survey, Value, premises, rule};
use crate::site::{ExportListing, Source, SourceKind};
use crate::trade::Word;

rule! {
    /// ## Protects against
    /// Isolation that nobody has proved. What is only plugged into a vehicle's outlets is judged by `vehicle-outlet-limits`.
    ///
    /// ## Cannot tell when
    /// The listing of the export equipment is not stated, or whether it is to run in parallel with the utility.
    ///
    /// ## Remedy
    /// Export equipment that is listed for standby use, or for running in parallel where it does.
    VEHICLE_EXPORT_LISTED = "vehicle-export-listed" {
        severity: Violation,
        summary: "equipment that takes power from a vehicle is not listed for its part",
        topics: ["vehicle-export"],
        sources: ["UL 9741 and SAE J3072, by their scopes"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in premises::building_sources(survey) {
        if source.kind == SourceKind::Vehicle && !premises::cord_and_plug(source) {
            judge(survey, found, source);
        }
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, source: &Source) {
    let Some(listing) = source.export_listing else {
        return found.ask(source, "export_listing", "what the equipment that takes its power into the building is listed for,");
    };
    let mut parallel = false;
    if !matches!(listing, ExportListing::Unlisted | ExportListing::Both) {
        for transfer in premises::transfers_below(survey, source.id()) {
            match transfer.parallel {
                Some(joined) => parallel |= joined,
                None => {
                    return found.ask(transfer, "parallel", "whether a source is meant to run joined with the utility through it");
                }
            }
        }
    }
    let suits = match listing {
        ExportListing::Both => true,
        ExportListing::Standby => !parallel,
        ExportListing::Parallel => parallel,
        ExportListing::Unlisted => false,
    };
    let said = Said::Compared {
        does: "feeds the building through equipment whose listing is:",
        measured: Value::Word(listing.spelling()),
        limit_words: "its part is",
        limit: Value::Word(if parallel { "parallel" } else { "standby" }),
    };
    found.judge(source, "export_listing", suits, said, Remedy::Do("use export equipment that is listed for its part"));
}
