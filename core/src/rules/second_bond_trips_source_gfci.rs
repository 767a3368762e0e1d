//! `second-bond-trips-source-gfci`: an outlet with ground-fault protection is not used where a second bond trips it.

use super::{Findings, Remedy, Said, Survey, Value, bonds, premises, rule};

rule! {
    /// ## Protects against
    /// An outlet that trips as soon as its neutral meets a second bond, and people who then cut the ground.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the outlet has ground-fault protection, or a bond is not stated and decides.
    ///
    /// ## Remedy
    /// Transfer equipment that switches the neutral.
    SECOND_BOND_TRIPS_SOURCE_GFCI = "second-bond-trips-source-gfci" {
        severity: Caution,
        summary: "a second bond will trip the ground-fault protection of an outlet",
        topics: ["generator-ground-fault-protection"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    let remedy = Remedy::Do("use transfer equipment that switches the neutral; never open the ground");
    for outlet in premises::building_outlets(survey) {
        let Some(protected) = outlet.gfci else {
            found.ask(outlet, "gfci", "whether a ground-fault circuit interrupter protects it");
            continue;
        };
        if !protected {
            let said = Said::Plain("has no ground-fault protection that a second bond could trip");
            found.judge(outlet, "gfci", true, said, remedy);
            continue;
        }
        let Some(source) = survey.site.source_of(outlet.id()) else { continue };
        let bonds = bonds::of_source(survey, source);
        match bonds.missing {
            Some((of, field, fact)) if bonds.least < 2 && bonds.greatest >= 2 => found.ask_part(of, field, fact),
            _ => {
                let said = Said::Compared {
                    does: "has ground-fault protection, and its neutral meets bonds to ground:",
                    measured: Value::Count(bonds.least),
                    limit_words: "it trips above",
                    limit: Value::Count(1),
                };
                found.judge(outlet, "gfci", bonds.least < 2, said, remedy);
            }
        }
    }
}
