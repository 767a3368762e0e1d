//! `cord-sound`: every cord was looked over and is undamaged, uncovered and unstrained.

use super::fact::Fact;
use super::{Findings, Survey, rule};

rule! {
    /// ## Protects against
    /// A cut jacket, a crushed or stretched cord, and heat that a rug keeps in.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the cord was looked over.
    ///
    /// ## Remedy
    /// Look over the whole length before each use; replace a damaged cord, and lay it where nothing covers, crushes
    /// or pulls it.
    CORD_SOUND = "cord-sound" {
        severity: Violation,
        summary: "a cord is damaged, covered or strained",
        topics: ["cord-use-prohibited", "cord-strain-relief"],
        sources: ["OSHA 1910.334(a)(1) and (2), read as Washington WAC 296-24-985"],
        check: check,
    }
}

const FACT: Fact = Fact {
    field: "sound",
    asked: "whether it was looked over and found undamaged, under no rug and under no tension",
    well: "was looked over and is sound",
    ill: "is damaged, covered or strained",
    mend: "replace the cord, or lay it where nothing covers, crushes or pulls it",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for cord in survey.site.cords() {
        FACT.judge(found, cord.id(), cord.sound);
    }
}
