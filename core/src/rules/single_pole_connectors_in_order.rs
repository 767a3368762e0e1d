//! `single-pole-connectors-in-order`: separate connectors are joined ground, neutral, phases, and parted in reverse.

use super::fact::Fact;
use super::{Findings, Survey, rule};
use crate::site::SinglePole;

rule! {
    /// ## Protects against
    /// A phase that is live while the neutral or the ground is still open: line voltage on loads and on frames.
    ///
    /// ## Cannot tell when
    /// A portable source has terminals, and it is not stated whether single-pole connectors are used there, what keeps their
    /// order, or whether a qualified person joins them.
    ///
    /// ## Remedy
    /// An interlocked panel or sequential connectors, joined by a qualified person.
    SINGLE_POLE_CONNECTORS_IN_ORDER = "single-pole-connectors-in-order" {
        severity: Violation,
        summary: "nothing keeps single-pole connectors in order",
        topics: ["single-pole-connectors"],
        check: check,
    }
}

const ORDER: Fact = Fact {
    field: "single_pole_connectors",
    asked: "whether its terminals end in single-pole connectors, and what keeps their order,",
    well: "has its single-pole connectors kept in order, or none",
    ill: "has single-pole connectors that nothing keeps in order",
    mend: "use an interlocked panel or sequential connectors",
};

const USER: Fact = Fact {
    field: "qualified_user",
    asked: "whether a qualified person joins and parts its single-pole connectors",
    well: "has its single-pole connectors joined and parted by a qualified person",
    ill: "has single-pole connectors that an unqualified person joins and parts",
    mend: "have a qualified person join and part them",
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in survey.site.sources() {
        let terminals = source.outlets.iter().any(|outlet| outlet.configuration.contacts().is_none());
        // Fixed wiring to a source that stays has no connectors to be parted.
        let movable = source.portable != Some(false);
        if !(terminals && movable) {
            continue;
        }
        ORDER.judge(found, source.id(), source.single_pole_connectors.map(|order| order != SinglePole::Unordered));
        if source.single_pole_connectors.is_some_and(|order| order != SinglePole::NotUsed) {
            USER.judge(found, source.id(), source.qualified_user);
        }
    }
}
