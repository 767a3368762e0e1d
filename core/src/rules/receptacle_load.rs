//! `receptacle-load`: a receptacle among several bears the cord-and-plug load on it.

use super::compare::{Against, load_against};
use super::{Findings, Remedy, Survey, rule};
use crate::code::Gap;
use crate::quantity::Ratio;
use crate::site::{Component, Supplies};

rule! {
    /// ## Protects against
    /// The contacts of one receptacle carrying all that a circuit gives, for hours.
    ///
    /// ## Cannot tell when
    /// The rating of the circuit, what it supplies, or the current of a load is not stated.
    ///
    /// ## Remedy
    /// Share the loads out among receptacles, or a circuit of its own for the large one.
    RECEPTACLE_LOAD = "receptacle-load" {
        severity: Violation,
        summary: "a receptacle carries more cord-and-plug load than it may",
        topics: ["receptacle-load"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for receptacle in survey.site.receptacles() {
        let Some(Component::Circuit(circuit)) = survey.from(receptacle.id()) else { continue };
        match circuit.supplies {
            Some(Supplies::SeveralReceptacles) => {}
            Some(_) => continue,
            None => {
                found.ask(circuit, "supplies", "whether it supplies more than one receptacle");
                continue;
            }
        }
        let rating = circuit.overcurrent_device.as_ref().and_then(|device| device.rating.as_deref().copied());
        let Some(rating) = rating else {
            found.ask(circuit, "overcurrent_device", "the rating of its overcurrent device");
            continue;
        };
        match survey.code.receptacle_load(rating, receptacle.configuration.configuration.rated_current()) {
            // The table lists 15, 20 and 30 A circuits; above them the receptacle's own rating decides.
            Err(Gap::Outside(_)) => {}
            Err(gap) => {
                let what = "the greatest load of the receptacle";
                found.gap(receptacle, "configuration", crate::calc::CannotTell { what, gap });
            }
            Ok(most) => {
                let against = Against {
                    field: "configuration",
                    does: "carries",
                    limit_words: "a receptacle among several may carry",
                    limit: most.value,
                    factor: Ratio::ONE,
                    remedy: Remedy::Do("share the loads out among receptacles, or give the large one its own circuit"),
                };
                load_against(survey, found, Component::Receptacle(receptacle), against);
            }
        }
    }
}
