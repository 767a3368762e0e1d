//! `receptacle-suits-circuit`: a receptacle is of a rating that its circuit may have.

use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::calc::CannotTell;
use crate::code::Gap;
use crate::site::{Circuit, Component, Receptacle, Supplies};

rule! {
    /// ## Protects against
    /// A receptacle that invites more than it bears, or more than its circuit gives.
    ///
    /// ## Cannot tell when
    /// The rating of the circuit, or whether the receptacle is its only one, is not stated and decides.
    ///
    /// ## Remedy
    /// A receptacle of the circuit's rating.
    RECEPTACLE_SUITS_CIRCUIT = "receptacle-suits-circuit" {
        severity: Violation,
        summary: "a receptacle is of a rating that its circuit may not have",
        topics: ["receptacle-rating", "single-receptacle-rating"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for receptacle in survey.site.receptacles() {
        let Some(Component::Circuit(circuit)) = survey.from(receptacle.id()) else { continue };
        judge(survey, found, receptacle, circuit);
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, receptacle: &Receptacle, circuit: &Circuit) {
    let Some(rating) = circuit.overcurrent_device.as_ref().and_then(|device| device.rating.as_deref().copied()) else {
        return found.ask(circuit, "overcurrent_device", "the rating of its overcurrent device");
    };
    let mine = receptacle.configuration.configuration.rated_current();
    let single = match circuit.supplies {
        Some(Supplies::SeveralReceptacles) => false,
        Some(_) => true,
        // At the rating itself both readings permit it.
        None if mine == rating => true,
        None => return found.ask(circuit, "supplies", "whether it supplies more than one receptacle"),
    };
    let compared = |limit_words, limit| Said::Compared {
        does: "is rated",
        measured: Value::Current(mine),
        limit_words,
        limit: Value::Current(limit),
    };
    let remedy = Remedy::Use("use a receptacle of", Value::Current(rating));
    let field = "configuration";
    if single {
        // 210.21(B)(1): not less than the circuit.
        return found.judge(receptacle, field, mine >= rating, compared("its circuit is rated", rating), remedy);
    }
    match survey.code.receptacle_ratings(rating) {
        Ok(cell) => {
            let (least, most) = cell.value;
            let (words, limit) = if mine < least { ("its circuit permits at least", least) } else { ("its circuit permits at most", most) };
            found.judge(receptacle, field, least <= mine && mine <= most, compared(words, limit), remedy);
        }
        // Above the table's 50 A: at least the rating of the circuit; between its rows nothing is said.
        Err(Gap::Outside(_)) if rating > crate::quantity::Amperes::from_whole(50) => {
            found.judge(receptacle, field, mine >= rating, compared("its circuit is rated", rating), remedy);
        }
        Err(gap) => found.gap(receptacle, field, CannotTell { what: "the receptacles that the circuit may have", gap }),
    }
}
