//! `cord-unrolled`: a cord under load is unrolled over its whole length.

use super::fact::Fact;
use super::{Findings, Survey, rule};

rule! {
    /// ## Protects against
    /// The heat of a coil: turns that lie on each other cool less than the ampacity of the cord assumes.
    ///
    /// ## Cannot tell when
    /// It is not stated whether a part of the cord stays coiled.
    ///
    /// ## Remedy
    /// Unroll the whole cord, or use a shorter one.
    CORD_UNROLLED = "cord-unrolled" {
        severity: Caution,
        summary: "a cord is coiled while it carries load",
        topics: [],
        sources: [
            "OSHA 1910.334(a), read as Washington WAC 296-24-985",
            "common practice: no derating table was found for coiled cords of this voltage",
        ],
        check: check,
    }
}

const FACT: Fact = Fact {
    field: "coiled",
    asked: "whether a part of it stays coiled or on its reel",
    well: "is unrolled over its whole length",
    ill: "is coiled while it carries load",
    mend: "unroll the whole cord, or use a shorter one",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for cord in survey.site.cords() {
        FACT.judge(found, cord.id(), cord.coiled.map(|coiled| !coiled));
    }
}
