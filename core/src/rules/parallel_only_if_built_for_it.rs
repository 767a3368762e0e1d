//! `parallel-only-if-built-for-it`: a source runs joined with the utility only through equipment approved for it.

use super::{Findings, Remedy, Said, Survey, premises, rule};

rule! {
    /// ## Protects against
    /// A connection out of step, and a street that a house keeps energised while crews take it for dead.
    ///
    /// ## Cannot tell when
    /// It is not stated whether a source is meant to run in parallel, or then whether the equipment is listed, the utility
    /// agreed, and a qualified person installed it.
    ///
    /// ## Remedy
    /// Listed interactive equipment that leaves the utility by itself, or no running in parallel.
    PARALLEL_ONLY_IF_BUILT_FOR_IT = "parallel-only-if-built-for-it" {
        severity: Prohibited,
        summary: "a source runs in parallel with the utility through equipment that is not approved for it",
        topics: ["transfer-equipment", "parallel-equipment-approval", "parallel-system-installation"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    let remedy = Remedy::Do("use listed interactive equipment with the utility's consent, or do not run in parallel");
    for transfer in survey.site.transfers() {
        match transfer.parallel {
            None => found.ask(transfer, "parallel", "whether a source is meant to run joined with the utility through it"),
            Some(false) => {
                let said = Said::Plain("is not meant to run a source in parallel");
                found.judge(transfer, "parallel", true, said, remedy);
            }
            Some(true) => match premises::approved_parallel(transfer) {
                Some(approved) => {
                    let said = Said::Plain(if approved {
                        "is listed, agreed and installed for running in parallel"
                    } else {
                        "runs a source in parallel without being listed, agreed and installed for it"
                    });
                    found.judge(transfer, "parallel", approved, said, remedy);
                }
                None => found.ask(transfer, "parallel", "whether it is listed, agreed and installed for running in parallel"),
            },
        }
    }
}
