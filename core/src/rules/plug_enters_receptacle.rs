//! `plug-enters-receptacle`: every plug on the path mates with what it is plugged into.

use super::{Findings, Remedy, Said, Survey, Value, cord, rule};
use crate::site::Component;
use crate::trade::{Contacts, Gender, Mating};

rule! {
    /// ## Protects against
    /// Plugs forced into receptacles of another voltage or current, and the home-made adapters that are made when they do
    /// not fit.
    ///
    /// ## Cannot tell when
    /// The pair mates only in some makes, or the plug of a load is not stated.
    ///
    /// ## Remedy
    /// A cord whose ends are of the configurations at hand, or a listed adapter that keeps every conductor and a
    /// protection for it.
    PLUG_ENTERS_RECEPTACLE = "plug-enters-receptacle" {
        severity: Violation,
        summary: "a plug does not mate with what it is plugged into",
        topics: ["plug-mating"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("use a cord or device whose configuration is the same");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for component in survey.components() {
        let (mine, field) = match component {
            Component::Cord(cord) => (cord.supply_end.contacts(), "supply_end"),
            Component::Inlet(inlet) => (Some(inlet.configuration), "configuration"),
            Component::Load(load) => (load.plug, "plug"),
            _ => (None, ""),
        };
        let Some(ahead) = survey.from(component.id()) else { continue };
        // A plug needs contacts ahead of it; where there are none, it is wired and has no use for a plug.
        let Some(theirs) = cord::contacts_ahead(ahead) else { continue };
        match (mine, component) {
            (Some(mine), _) => judge(found, component, field, (mine, ahead, theirs)),
            // What is fed through contacts has a plug, stated or not.
            (None, Component::Load(_)) => found.ask(component, field, "its plug"),
            (None, _) => {}
        }
    }
}

fn judge(
    found: &mut Findings,
    of: Component<'_>,
    field: &'static str,
    (mine, ahead, theirs): (Contacts, Component<'_>, Contacts),
) {
    let joined = |verb| Said::Joined {
        words: "its contacts",
        mine: Value::Contacts(mine),
        verb,
        other: ahead.id(),
        theirs: Value::Contacts(theirs),
    };
    if mine.gender == theirs.gender {
        let verb = match mine.gender {
            Gender::Male => "are blades, and so are those of",
            Gender::Female => "are openings, and so are those of",
        };
        return found.judge(of, field, false, joined(verb), REMEDY);
    }
    if mine.gender == Gender::Female {
        // The live side would be the one with blades.
        return found.judge(of, field, false, joined("are openings that expect live blades from"), REMEDY);
    }
    match mine.configuration.enters(theirs.configuration) {
        Mating::Mates(_) => found.judge(of, field, true, joined("enter"), REMEDY),
        Mating::DoesNot => found.judge(of, field, false, joined("do not enter"), REMEDY),
        Mating::Conditional(_) => found.undecided(of, field, joined("enter only some makes of")),
    }
}
