//! `conductor-suits-place`: a conductor is of a kind that the code knows for its size, its material and its place.

use super::wires::Run;
use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::calc::CannotTell;
use crate::calc::ampacity::Covering;
use crate::code::Gap;
use crate::trade::{Cable, Place};

rule! {
    /// ## Protects against
    /// Wire of a size or material that is not a branch-circuit conductor at all, such as 14 AWG aluminum, and insulation
    /// or cable in a wet place that it is not made for.
    ///
    /// ## Cannot tell when
    /// The material, size, insulation or cable, or the place is not stated; or the listing of a cable decides.
    ///
    /// ## Remedy
    /// A conductor of a size and material in the ampacity table, with an insulation for the place.
    CONDUCTOR_SUITS_PLACE = "conductor-suits-place" {
        severity: Violation,
        summary: "a conductor is of a kind that is not permitted there",
        topics: ["ampacity", "insulation-rating", "small-conductor"],
        check: check,
    }
}

const SIZE: Remedy = Remedy::Do("use a size that the ampacity table gives for that material");
const PLACE: Remedy = Remedy::Do("use an insulation or cable for wet places");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for run in Run::all(survey) {
        let of = run.component();
        let conditions = match run.conditions(survey, None) {
            Ok(conditions) => conditions,
            Err((field, fact)) => {
                found.ask(of, field, fact);
                continue;
            }
        };
        let wire = Value::Wire(conditions.size, conditions.material);
        let wet = conditions.place == Place::Wet;
        let insulation = match conditions.covering {
            Covering::Insulation(insulation) | Covering::Cable(_, Some(insulation)) => Some(insulation),
            Covering::Cable(_, None) => None,
        };
        let cable = match conditions.covering {
            Covering::Cable(cable, _) => {
                survey.code.cable(cable, conditions.thermal_insulation, conditions.size).ok().map(|cell| cell.value)
            }
            Covering::Insulation(_) => None,
        };
        if wet && cable.is_some_and(|cable| cable.not_in_wet_places.is_some()) {
            found.judge(of, "wiring", false, Said::Plain("is a cable for dry or damp places, in a wet place"), PLACE);
            continue;
        }
        // Table `cables` says of MC that its listing decides, of SE that its conductors do.
        match conditions.covering {
            Covering::Cable(Cable::Mc, _) if wet => {
                let said = Said::Plain("is a cable that bears a wet place only where it is listed for it");
                found.undecided(of, "wiring", said);
                continue;
            }
            Covering::Cable(Cable::Se, None) if wet => {
                found.ask(of, "wiring", "the insulation of the conductors in its cable");
                continue;
            }
            _ => {}
        }
        if let Some(Err(gap)) = insulation.map(|insulation| survey.code.insulation(insulation, conditions.place)) {
            match gap {
                Gap::Blank(_) => {
                    found.judge(of, "wiring", false, Said::Plain("has an insulation that is not for wet places"), PLACE);
                }
                gap => found.gap(of, "wiring", CannotTell { what: "whether its insulation suits the place", gap }),
            }
            continue;
        }
        let size = (conditions.material, conditions.size);
        let terminal = survey.code.terminal_ampacity(size.0, crate::code::ConductorRating::C60, size.1).map(|_| ());
        let small = survey.code.small_conductor(size.0, size.1).map(|_| ());
        match terminal.and(small) {
            Ok(()) => {
                let said = Said::Compared {
                    does: "is of",
                    measured: wire,
                    limit_words: "which is",
                    limit: Value::Word("in the ampacity table"),
                };
                found.judge(of, "wiring", true, said, SIZE);
            }
            Err(Gap::Blank(_) | Gap::NotInEdition(_)) => {
                let said = Said::Compared {
                    does: "is of",
                    measured: wire,
                    limit_words: "which is",
                    limit: Value::Word("not a circuit conductor: the ampacity table gives it no value"),
                };
                found.judge(of, "wiring", false, said, SIZE);
            }
            Err(gap) => found.gap(of, "wiring", CannotTell { what: "whether that conductor is permitted", gap }),
        }
    }
}
