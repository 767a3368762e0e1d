//! `bond-marking-known`: a source is marked with what its neutral is.

use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::site::{NeutralMark, Source, SourceNeutral};
use crate::trade::Word;

rule! {
    /// ## Protects against
    /// The wrong choice of transfer equipment, because a bond was changed and the mark was not.
    ///
    /// ## Cannot tell when
    /// The mark or the neutral is not stated, or there is no mark. Measured with the set stopped, well under one ohm between
    /// neutral and frame is a bond.
    ///
    /// ## Remedy
    /// The neutral measured, and the source marked.
    BOND_MARKING_KNOWN = "bond-marking-known" {
        severity: Caution,
        summary: "the mark of a source differs from its neutral",
        topics: ["source-marking"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        if source.system.line_to_neutral().is_some() {
            judge(found, source);
        }
    }
}

fn judge(found: &mut Findings, source: &Source) {
    let Some(mark) = source.neutral_mark else {
        return found.ask(source, "neutral_mark", "what its marking says of its neutral,");
    };
    if mark == NeutralMark::Unmarked {
        return found.undecided(source, "neutral_mark", Said::Plain("has no mark of its neutral: measure it and mark it"));
    }
    let Some(neutral) = source.neutral else {
        return found.ask(source, "neutral", "whether its neutral is bonded to its frame");
    };
    let same = matches!(
        (mark, neutral),
        (NeutralMark::Bonded, SourceNeutral::Bonded) | (NeutralMark::Floating, SourceNeutral::Floating)
    );
    let said = Said::Compared {
        does: "is marked with a neutral that is",
        measured: Value::Word(mark.spelling()),
        limit_words: "its neutral is",
        limit: Value::Word(neutral.spelling()),
    };
    found.judge(source, "neutral_mark", same, said, Remedy::Do("measure its neutral and mark it anew"));
}
