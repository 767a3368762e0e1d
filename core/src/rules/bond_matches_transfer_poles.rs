//! `bond-matches-transfer-poles`: a bonded source has its neutral switched, a floating one has it run through.

use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::site::{SourceNeutral, TransferNeutral};
use crate::trade::Word;

rule! {
    /// ## Protects against
    /// A second bond, or none. A plug that bonds a source's neutral is right with a switched neutral only, whatever is
    /// advised elsewhere.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the source's neutral is bonded, or whether the transfer equipment switches the neutral.
    ///
    /// ## Remedy
    /// Transfer equipment with a pole for the neutral, or a source whose maker allows its bond to be lifted and marked anew.
    BOND_MATCHES_TRANSFER_POLES = "bond-matches-transfer-poles" {
        severity: Violation,
        summary: "the source's neutral does not suit the transfer equipment",
        topics: ["separately-derived", "portable-generator-grounding", "inlet-neutral-sign"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for transfer in survey.site.transfers() {
        let Some(source) = survey.site.source_of(transfer.id()) else { continue };
        if source.system.line_to_neutral().is_none() {
            continue;
        }
        let Some(bond) = source.neutral else {
            found.ask(source, "neutral", "whether its neutral is bonded to its frame");
            continue;
        };
        let Some(poles) = transfer.neutral else {
            found.ask(transfer, "neutral", "whether it switches the neutral");
            continue;
        };
        let (suits, wanted) = match (bond, poles) {
            (SourceNeutral::Bonded, TransferNeutral::Switched) | (SourceNeutral::Floating, TransferNeutral::Solid) => {
                (true, bond)
            }
            (SourceNeutral::Bonded, TransferNeutral::Solid) => (false, SourceNeutral::Floating),
            (SourceNeutral::Floating, TransferNeutral::Switched) => (false, SourceNeutral::Bonded),
        };
        let said = Said::Joined {
            words: "its neutral is",
            mine: Value::Word(poles.spelling()),
            verb: if suits { "and suits that of" } else { "and does not suit that of" },
            other: source.id(),
            theirs: Value::Word(bond.spelling()),
        };
        let remedy = Remedy::Use(
            "use transfer equipment that treats the neutral the other way, or a source whose neutral is",
            Value::Word(wanted.spelling()),
        );
        found.judge(transfer, "neutral", suits, said, remedy);
    }
}
