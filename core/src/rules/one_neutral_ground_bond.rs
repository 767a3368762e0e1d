//! `one-neutral-ground-bond`: while a source feeds a building, neutral and ground are bonded exactly once.

use super::{Findings, Remedy, Said, Survey, Value, bonds, premises, rule};

rule! {
    /// ## Protects against
    /// Two bonds: the neutral's current returns over grounding conductors and frames. No bond: a fault to metal clears
    /// nothing. Counted are the source's own bond, those of the panels that it feeds and, where the neutral runs through to
    /// the normal supply, those on that side.
    ///
    /// ## Cannot tell when
    /// A bond is not stated, or whether the transfer equipment switches the neutral, and that decides. The exception for an
    /// outdoor source bonded at both ends without a parallel path is not reckoned with.
    ///
    /// ## Remedy
    /// A source whose neutral suits the transfer equipment, and no bond in a panel that is not the service.
    ONE_NEUTRAL_GROUND_BOND = "one-neutral-ground-bond" {
        severity: Violation,
        summary: "neutral and ground are bonded twice, or not at all",
        topics: ["neutral-not-regrounded", "single-neutral-bond", "neutral-for-grounding"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in premises::building_sources(survey) {
        // A system of two lines without a neutral has none to bond.
        if source.system.line_to_neutral().is_none() {
            continue;
        }
        let bonds = bonds::of_source(survey, source);
        let decided = bonds.least >= 2 || bonds.least == bonds.greatest;
        if let (Some((of, field, fact)), false) = (bonds.missing, decided) {
            found.ask_part(of, field, fact);
            continue;
        }
        let said = Said::Compared {
            does: "feeds a system whose bonds between neutral and ground are",
            measured: Value::Count(bonds.least),
            limit_words: "there must be",
            limit: Value::Count(1),
        };
        let remedy = if bonds.least == 0 {
            "use a source with a bonded neutral, or transfer equipment through which the neutral runs"
        } else {
            "use a source with a floating neutral, or transfer equipment that switches the neutral; bond no panel that is not the service"
        };
        found.judge(source, "neutral", bonds.least == 1, said, Remedy::Do(remedy));
    }
}
