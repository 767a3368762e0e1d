//! `continuous-load-on-conductor`: a conductor bears 125 % of its continuous load before any factor.

use super::compare::{Against, load_against};
use super::wires::{Known, Run};
use super::{Findings, Remedy, Survey, rule};
use crate::calc::{ampacity, continuous};
use crate::trade::ContinuousRating;

rule! {
    /// ## Protects against
    /// Terminations that overheat because the conductor, chosen for the load alone, brings the heat of hours to them.
    ///
    /// ## Cannot tell when
    /// The conductor, the current of a load or its duration is not stated.
    ///
    /// ## Remedy
    /// A larger conductor, or less continuous load.
    CONTINUOUS_LOAD_ON_CONDUCTOR = "continuous-load-on-conductor" {
        severity: Violation,
        summary: "a conductor is too small for its continuous loads",
        topics: ["continuous-branch-conductor", "continuous-feeder-conductor", "terminal-temperature"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for run in Run::all(survey) {
        let Known { device, conditions } = run.known(survey);
        let conditions = match conditions {
            Ok(conditions) => conditions,
            Err((field, fact)) => {
                found.ask(run.component(), field, fact);
                continue;
            }
        };
        let rating = device.and_then(|device| device.continuous).unwrap_or(ContinuousRating::Standard);
        // Before any factor the terminals' column decides: 110.14(C) with 210.19(A)(1).
        let before_factors = ampacity::before_factors(survey.code, &conditions, found);
        match (before_factors, continuous::factors(survey.code, rating)) {
            (Err(gap), _) | (_, Err(gap)) => found.gap(run.component(), "wiring", gap),
            (Ok(limit), Ok((_, factor))) => {
                let against = Against {
                    field: "wiring",
                    does: "needs an ampacity before factors of at least",
                    limit_words: "its conductor has",
                    limit,
                    factor,
                    remedy: Remedy::Do("use a larger conductor, or move a continuous load away"),
                };
                load_against(survey, found, run.component(), against);
            }
        }
    }
}
