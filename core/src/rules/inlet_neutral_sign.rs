//! `inlet-neutral-sign`: beside an inlet a sign says which neutral a source must have, and says it right.

use super::{Findings, Remedy, Said, Survey, Value, premises, rule};
use crate::site::{Inlet, NeutralMark, TransferNeutral};
use crate::trade::Word;

rule! {
    /// ## Protects against
    /// The wrong kind of source, brought by the next person.
    ///
    /// ## Cannot tell when
    /// The sign is not described, or it is not stated whether the transfer equipment switches the neutral.
    ///
    /// ## Remedy
    /// The right sign: floating where the neutral runs through, bonded where it is switched.
    INLET_NEUTRAL_SIGN = "inlet-neutral-sign" {
        severity: Caution,
        summary: "the sign beside an inlet is missing or contrary to the wiring",
        topics: ["inlet-neutral-sign"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for inlet in premises::building_inlets(survey) {
        judge(survey, found, inlet);
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, inlet: &Inlet) {
    let Some(sign) = inlet.neutral_sign else {
        return found.ask(inlet, "neutral_sign", "what the sign beside it says of the source's neutral");
    };
    for transfer in premises::transfers_below(survey, inlet.id()) {
        let wanted = match transfer.neutral {
            Some(TransferNeutral::Solid) => NeutralMark::Floating,
            Some(TransferNeutral::Switched) => NeutralMark::Bonded,
            None => {
                found.ask(transfer, "neutral", "whether it switches the neutral");
                continue;
            }
        };
        let said = Said::Compared {
            does: "has a sign for a neutral that is",
            measured: Value::Word(sign.spelling()),
            limit_words: "the wiring behind it wants",
            limit: Value::Word(wanted.spelling()),
        };
        let remedy = Remedy::Use("post a sign beside the inlet for a neutral that is", Value::Word(wanted.spelling()));
        found.judge(inlet, "neutral_sign", sign == wanted, said, remedy);
    }
}
