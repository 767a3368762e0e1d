//! `interlock-works-with-cover-on`: an interlock that the cover carries counts only while the cover is on.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::{InterlockMounting, TransferKind};

rule! {
    /// ## Protects against
    /// Two free handles at the moment when hands are nearest to live parts. An interlock never takes the place of a lock.
    ///
    /// ## Cannot tell when
    /// It is not stated what carries the interlock, or whether the cover stays on while its breakers are worked.
    ///
    /// ## Remedy
    /// The breakers worked with the cover on only; both supplies locked out before it comes off.
    INTERLOCK_WORKS_WITH_COVER_ON = "interlock-works-with-cover-on" {
        severity: Caution,
        summary: "an interlock depends on a cover that may be off",
        topics: ["dead-front"],
        sources: ["29 CFR 1910.333(b)(2)(ii)(B), as adopted in WAC 296-24-975"],
        check: check,
    }
}

const COVER: Fact = Fact {
    field: "cover_stays_on",
    asked: "whether the cover that carries it stays on whenever its breakers are worked",
    well: "is carried by a cover that stays on whenever its breakers are worked",
    ill: "is carried by a cover that may be off while its breakers are worked",
    mend: "work the breakers with the cover on only, and lock both supplies out before it comes off",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for transfer in survey.site.transfers().iter().filter(|transfer| transfer.kind == TransferKind::Interlock) {
        match transfer.mounting {
            Some(InterlockMounting::Breakers) => {
                let said = Said::Plain("is fastened to the breakers themselves");
                found.judge(transfer, "mounting", true, said, Remedy::Do(COVER.mend));
            }
            Some(InterlockMounting::Cover) => COVER.judge(found, transfer.id(), transfer.cover_stays_on),
            None => found.ask(transfer, "mounting", "whether the breakers or the cover carry it"),
        }
    }
}
