//! `bare-contacts-never-live`: no blades can be live while they are not seated in their mate.

use super::{Findings, Remedy, Said, Survey, premises, rule};
use crate::site::{Component, Cord, Inlet, Outlet};
use crate::trade::Gender;

rule! {
    /// ## Protects against
    /// A finger on live blades: the loose end of a cord, the face of a source's outlet, an inlet that another supply reaches
    /// from behind. Every position that a switch can be brought into counts, whatever anybody means to do.
    ///
    /// ## Cannot tell when
    /// It is not stated whether a position of the transfer equipment joins two supplies, whether a utility feeds the panel
    /// behind an inlet, or what an inlet feeds.
    ///
    /// ## Remedy
    /// Openings on the side that is live first, blades on the side that is fed: an inlet on the building, a connector on the
    /// source's cord.
    BARE_CONTACTS_NEVER_LIVE = "bare-contacts-never-live" {
        severity: Prohibited,
        summary: "blades can be live while they are not plugged in",
        topics: ["no-live-pins", "inlet-not-live"],
        sources: ["29 CFR 1910.305(j)(2), from memory"],
        check: check,
    }
}

const REMEDY: Remedy =
    Remedy::Do("put the openings on the side that is live first; use an inlet on the building and a connector on the cord");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for component in survey.components() {
        match component {
            Component::Outlet(outlet) => of_outlet(found, outlet),
            Component::Cord(cord) => of_cord(found, cord),
            Component::Inlet(inlet) => of_inlet(survey, found, inlet),
            _ => {}
        }
    }
}

fn of_outlet(found: &mut Findings, outlet: &Outlet) {
    let Some(contacts) = outlet.configuration.contacts() else { return };
    let openings = contacts.gender == Gender::Female;
    let said = Said::Plain(if openings {
        "has openings, so that nothing live lies bare"
    } else {
        "has blades, which are live in the open as soon as its source runs"
    });
    found.judge(outlet, "configuration", openings, said, REMEDY);
}

fn of_cord(found: &mut Findings, cord: &Cord) {
    let bare = cord.load_end.is_male();
    let said = Said::Plain(if bare {
        "has blades at its load end, which are live in the open as soon as its other end is fed"
    } else {
        "has no blades at the end that is fed from its other end"
    });
    found.judge(cord, "load_end", !bare, said, REMEDY);
}

/// The blades of an inlet are bare whenever its cord is away; then nothing behind it may reach them.
fn of_inlet(survey: &Survey<'_>, found: &mut Findings, inlet: &Inlet) {
    let own = Component::Inlet(inlet);
    let mut behind = premises::ends_nowhere(survey, own).then_some((own, "name", premises::WHAT_IT_FEEDS));
    for component in survey.below(inlet.id()) {
        if premises::ends_nowhere(survey, component) {
            behind = behind.or(Some((component, "name", premises::WHAT_IT_FEEDS)));
        }
        let Component::Panel(panel) = component else { continue };
        let open = match premises::transfer_above(survey, panel.id()) {
            Some(transfer) => match transfer.joins_two_supplies {
                Some(joins) => joins,
                None => {
                    behind = behind.or(Some((Component::Transfer(transfer), "joins_two_supplies", JOINS)));
                    continue;
                }
            },
            None => match premises::on_utility(survey, panel) {
                Some(fed) => fed,
                None => {
                    behind = behind.or(Some((component, "normal_supply", SUPPLY)));
                    continue;
                }
            },
        };
        if open {
            let said = Said::Plain("has blades that another supply can reach from behind while its cord is away");
            return found.judge(inlet, "configuration", false, said, REMEDY);
        }
    }
    match behind {
        Some((of, field, fact)) => found.ask(of, field, fact),
        None => {
            let said = Said::Plain("has blades that no other supply reaches from behind");
            found.judge(inlet, "configuration", true, said, REMEDY);
        }
    }
}

const JOINS: &str = "whether any position of its handles joins two of its supplies";
const SUPPLY: &str = "what supplies it normally, and whether a utility does,";
