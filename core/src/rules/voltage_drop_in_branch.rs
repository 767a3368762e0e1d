//! `voltage-drop-in-branch`: the drop of a branch circuit stays within what the code recommends.

use super::path::{Reach, Unknown, drop_to, running};
use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::calc::CannotTell;
use crate::calc::voltage_drop::VoltageDrop;
use crate::code::DropAdvice;
use crate::quantity::Ratio;
use crate::site::Load;

rule! {
    /// ## Protects against
    /// Lamps that dim, motors that stall and electronics that shut down at the end of a long thin circuit. A
    /// recommendation, not a requirement. The drop is reckoned from direct-current resistance at 75 °C.
    ///
    /// ## Cannot tell when
    /// A length, a wire size, a material or a current on the circuit is not stated, or a leg where that decides.
    ///
    /// ## Remedy
    /// A larger or shorter conductor.
    VOLTAGE_DROP_IN_BRANCH = "voltage-drop-in-branch" {
        severity: Caution,
        summary: "a branch circuit drops more voltage than is recommended",
        topics: ["voltage-drop-note"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for load in running(survey) {
        if survey.site.circuit_of(load.id()).is_none() {
            continue;
        }
        judge(survey, found, load, Reach::Branch, |advice| match advice {
            DropAdvice::Advisory { branch, .. } => Ok(branch.value),
            DropAdvice::Unknown(gap) => Err(CannotTell { what: "the drop that is recommended", gap: *gap }),
        });
    }
}

/// Judges the drop to a load against a share that the code recommends.
pub(super) fn judge(
    survey: &Survey<'_>,
    found: &mut Findings,
    load: &Load,
    reach: Reach,
    share: impl Fn(&DropAdvice) -> Result<Ratio, CannotTell>,
) {
    found.afresh();
    match (share(survey.code.drop_advice()), drop_to(survey, load, reach, found)) {
        (Err(gap), _) | (_, Err(Unknown::Gap(gap))) => found.gap(load, "from", gap),
        (Ok(share), Ok(drop)) => match drop.certain(|drop| drop.within(share)) {
            Ok(holds) => {
                let remedy = Remedy::Do("use a larger or shorter conductor on the way");
                found.judge(load, "from", holds, said(&drop.worst, "recommended is at most", share), remedy);
            }
            Err(unknown) => ask(found, load, unknown),
        },
        (_, Err(unknown)) => ask(found, load, unknown),
    }
}

pub(super) fn said(drop: &VoltageDrop, limit_words: &'static str, share: Ratio) -> Said {
    Said::Compared {
        does: if drop.rises { "gains" } else { "loses" },
        measured: drop.share().map_or(Value::Word("all of its voltage"), Value::ShareOfVoltage),
        limit_words,
        limit: Value::ShareOfVoltage(share),
    }
}

pub(super) fn ask(found: &mut Findings, load: &Load, unknown: Unknown) {
    match unknown {
        Unknown::Fact(of, field, fact) => found.ask_part(of, field, fact),
        Unknown::Gap(gap) => found.gap(load, "from", gap),
        Unknown::System => {
            found.undecided(load, "from", Said::Plain("is on a system whose voltage drop is not reckoned here"));
        }
    }
}
