//! `grounding-path-whole`: the grounding conductor runs unbroken from the source's frame to what is grounded.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::site::{Component, GroundingPath};
use crate::trade::Contacts;

rule! {
    /// ## Protects against
    /// Metal that stands at the source's voltage after a fault, with no device that clears it: a cut pin, a two-wire cord, an
    /// adapter without a grounding contact.
    ///
    /// ## Cannot tell when
    /// The state of the grounding path is not stated.
    ///
    /// ## Remedy
    /// A cord, plug or connector with its grounding contact, which makes first and breaks last.
    GROUNDING_PATH_WHOLE = "grounding-path-whole" {
        severity: Violation,
        summary: "the grounding path from a source is broken",
        topics: ["grounding-contact", "grounding-by-cord"],
        sources: ["29 CFR 1910.334(a)(3), as adopted in WAC 296-24-985"],
        check: check,
    }
}

const PATH: Fact = Fact {
    field: "grounding_path",
    asked: "whether the grounding conductor is whole from its frame to all that it feeds",
    well: "has a grounding path that is whole",
    ill: "has a grounding path that is broken",
    mend: "replace the cord, plug or connector that lacks its grounding contact",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        PATH.judge(found, source.id(), source.grounding_path.map(|path| path == GroundingPath::Whole));
    }
    for component in survey.components() {
        match component {
            Component::Cord(cord) => {
                contact(found, component, "supply_end", cord.supply_end.contacts());
                contact(found, component, "load_end", cord.load_end.contacts());
            }
            Component::Inlet(inlet) => contact(found, component, "configuration", Some(inlet.configuration)),
            _ => {}
        }
    }
}

fn contact(found: &mut Findings, of: Component<'_>, field: &'static str, contacts: Option<Contacts>) {
    let Some(contacts) = contacts else { return };
    let grounding = contacts.configuration.grounding();
    let said = Said::Compared {
        does: "has the configuration",
        measured: Value::Contacts(contacts),
        limit_words: "whose grounding contact is",
        limit: Value::Word(if grounding { "present" } else { "missing" }),
    };
    found.judge(of, field, grounding, said, Remedy::Do("use a configuration with a grounding contact"));
}
