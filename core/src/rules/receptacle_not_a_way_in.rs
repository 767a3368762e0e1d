//! `receptacle-not-a-way-in`: no source enters a building through a receptacle.

use super::{Findings, Remedy, Said, Survey, rule};
use crate::site::Component;

rule! {
    /// ## Protects against
    /// A dryer, range or vehicle receptacle that is fed backwards. It needs a live plug, goes round every transfer
    /// equipment, and its branch breaker and wire were not chosen to supply a building.
    ///
    /// ## Cannot tell when
    /// A cord ends at a panel or at transfer equipment with openings, and what they enter is not described.
    ///
    /// ## Remedy
    /// An inlet with transfer equipment. A listed kit that feeds one receptacle through an inlet from another receptacle
    /// (400.10(A)(11) of 2023) is another case: there the live side has openings.
    RECEPTACLE_NOT_A_WAY_IN = "receptacle-not-a-way-in" {
        severity: Prohibited,
        summary: "a source enters a building through a receptacle",
        topics: ["no-live-pins"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("fit an inlet with transfer equipment; until then run cords to appliances only");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for component in survey.components() {
        if !matches!(component, Component::Panel(_) | Component::Transfer(_) | Component::Feeder(_)) {
            continue;
        }
        let Some(ahead) = survey.from(component.id()) else { continue };
        let mut judge = |good, said| found.judge(component, "from", good, Said::Plain(said), REMEDY);
        match ahead {
            Component::Receptacle(_) => judge(false, "is fed by a source through a receptacle"),
            Component::Cord(cord) if cord.load_end.is_male() => judge(false, "is fed by a plug, which needs a receptacle as a way in"),
            Component::Cord(cord) if cord.load_end.contacts().is_none() => judge(true, "is fed through terminals"),
            Component::Cord(_) => found.ask(component, "from", "what the connector of its cord is pushed onto,"),
            Component::Inlet(_) => judge(true, "is fed through an inlet"),
            Component::Outlet(outlet) if outlet.configuration.contacts().is_none() => judge(true, "is fed through terminals"),
            Component::Outlet(_) => found.ask(component, "from", "what is plugged into the outlet ahead of it,"),
            // Anything else stands behind the way in.
            _ => {}
        }
    }
}
