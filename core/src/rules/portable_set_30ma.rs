//! `portable-set-30ma`: under IEC 60364, a source that is not fixed has a residual-current device of 30 mA.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, premises, rule};

rule! {
    /// ## Protects against
    /// Shock from a damaged cord. It is asked where the earthing of the replaced supply is stated by the letters of IEC 60364, or where the
    /// code is not the NEC, which asks for other ground-fault protection.
    ///
    /// ## Cannot tell when
    /// It is asked, and it is not stated whether the source is portable or has the device.
    ///
    /// ## Remedy
    /// A residual-current device of 30 mA or less that opens all live conductors, the neutral too.
    PORTABLE_SET_30MA = "portable-set-30ma" {
        severity: Violation,
        summary: "a portable source lacks a residual-current device of 30 mA",
        topics: [],
        sources: ["IEC 60364-5-55 and BS 7671 551.4.4.2, from memory", "BS 7671 551.6.2, as a trade guide gives it"],
        check: check,
    }
}

const DEVICE: Fact = Fact {
    field: "residual_current_device",
    asked: "whether a residual-current device of 30 mA or less protects its outlets",
    well: "has a residual-current device of 30 mA or less",
    ill: "has no residual-current device of 30 mA or less",
    mend: "fit a residual-current device of 30 mA that opens the neutral too",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        let asked = source.replaced_earthing.is_some() || premises::asked_by_iec(survey);
        let mut not_asked = |words| found.judge(source, "portable", true, Said::Plain(words), Remedy::Do(DEVICE.mend));
        match source.portable {
            _ if !asked => not_asked("is not asked for a residual-current device of 30 mA by this code"),
            Some(false) => not_asked("is fixed in its place"),
            Some(true) => DEVICE.judge(found, source.id(), source.residual_current_device),
            None => found.ask(source, "portable", "whether it is portable"),
        }
    }
}
