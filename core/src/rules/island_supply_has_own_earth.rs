//! `island-supply-has-own-earth`: under IEC 60364, a source in place of a TN supply has its own earth and link.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, premises, rule};
use crate::site::{Earthing, Electrode, Source};

rule! {
    /// ## Protects against
    /// An island whose neutral is not tied to earth, because the distributor's link was switched away with the live
    /// conductors. It is asked where the earthing of the replaced supply is stated as TN; the NEC does not ask it.
    ///
    /// ## Cannot tell when
    /// The supply is TN, and it is not stated what connects the source to earth or whether a link bonds its neutral in island
    /// mode.
    ///
    /// ## Remedy
    /// An electrode of the installation, and a link that is made in island mode only.
    ISLAND_SUPPLY_HAS_OWN_EARTH = "island-supply-has-own-earth" {
        severity: Violation,
        summary: "a source in place of a TN supply rests on the distributor's earth",
        topics: [],
        sources: [
            "BS 7671 551.4.3.2.1 and 826.1.1.2.1, as IET Wiring Matters of March 2021 explains them",
            "IEC 60364-8-82:2022 82.8.2.2.4, by its catalogue text",
        ],
        check: check,
    }
}

const EARTH: Fact = Fact {
    field: "electrode",
    asked: "what connects its system to earth",
    well: "has an electrode of the installation",
    ill: "rests on the distributor's earth, on its frame or on nothing",
    mend: "give the installation an electrode",
};

const LINK: Fact = Fact {
    field: "island_link",
    asked: "whether a link bonds its neutral to earth in island mode only",
    well: "has a link that bonds its neutral to earth in island mode only",
    ill: "has no link that bonds its neutral to earth in island mode only",
    mend: "fit a link that is made in island mode only",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in premises::building_sources(survey) {
        match (premises::asked_by_iec(survey), source.replaced_earthing) {
            (_, Some(Earthing::Tn)) => {
                let own = |electrode| matches!(electrode, Electrode::Building | Electrode::Own);
                EARTH.judge(found, source.id(), source.electrode.map(own));
                LINK.judge(found, source.id(), source.island_link);
            }
            (_, Some(Earthing::Tt | Earthing::It)) => not_asked(found, source, "does not take the place of a TN supply"),
            (false, None) => not_asked(found, source, "is not asked for an earth of its own by this code"),
            (true, None) => found.ask(source, "replaced_earthing", "whether the supply that it replaces is TN, TT or IT,"),
        }
    }
}

fn not_asked(found: &mut Findings, source: &Source, words: &'static str) {
    found.judge(source, "electrode", true, Said::Plain(words), Remedy::Do(EARTH.mend));
}
