//! `shared-neutral-within-rating`: the shared neutral of a multiwire circuit bears what it carries on this source.

use super::wires::Run;
use super::{Findings, Remedy, Said, Shape, Survey, Value, capacity, rule};
use crate::calc;
use crate::site::{Circuit, ComponentId};

rule! {
    /// ## Protects against
    /// A neutral that no device protects and that carries the sum of both legs once one line of a source is joined to
    /// both: it burns in the wall.
    ///
    /// ## Cannot tell when
    /// Whether the circuit shares its neutral, the size of the neutral, a condition of the conductors, or the draw or
    /// leg of a load is not stated.
    ///
    /// ## Remedy
    /// A source of both legs, or one of the two legs left off.
    SHARED_NEUTRAL_WITHIN_RATING = "shared-neutral-within-rating" {
        severity: Violation,
        summary: "a shared neutral carries more than its ampacity",
        topics: ["shared-neutral", "neutral-load", "ampacity"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("feed it from a source of both legs, or leave one of its legs off");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for circuit in survey.site.circuits() {
        // Only where a panel has two legs can a neutral be shared.
        let legs = survey.site.panel_of(circuit.id()).is_some_and(|panel| {
            panel.system.line_to_line().is_some() && panel.system.line_to_neutral().is_some()
        });
        match circuit.multiwire {
            _ if !legs || survey.site.source_of(circuit.id()).is_none() => {}
            Some(false) => {}
            Some(true) => judge(survey, found, circuit),
            None => found.ask(circuit, "multiwire", "whether it shares its neutral with another leg"),
        }
    }
}

fn judge(survey: &Survey<'_>, found: &mut Findings, circuit: &Circuit) {
    let source = survey.site.source_of(circuit.id()).and_then(|source| survey.shape(source.id()));
    let opposed = match source {
        Some(Shape::ThreeWire) => true,
        Some(Shape::OneLeg) => false,
        _ => {
            let said = Said::Plain("shares a neutral on a system whose neutral current is not summed here");
            return found.undecided(circuit, "multiwire", said);
        }
    };
    let run = Run::Circuit(circuit);
    let mut conditions = match run.known(survey).conditions {
        Ok(conditions) => conditions,
        Err((field, fact)) => return found.ask(circuit, field, fact),
    };
    // In a cable the neutral is of the size of the others.
    let wiring = circuit.wiring.as_ref().filter(|wiring| wiring.cable.is_none());
    if let Some(wiring) = wiring {
        let Some(size) = wiring.neutral_size else { return found.ask(circuit, "wiring", "the size of its neutral") };
        conditions.size = size;
    }
    let ampacity = match calc::ampacity::ampacity(survey.code, &conditions, found) {
        Ok(ampacity) => ampacity.usable,
        Err(gap) => return found.gap(circuit, "wiring", gap),
    };
    let demand = survey.demand(circuit.id());
    let Some(bounds) = demand.neutral_current(opposed) else {
        return found.undecided(circuit, "multiwire", Said::Plain("carries in its neutral a sum that does not fit"));
    };
    let load = |id: Option<ComponentId>| survey.site.loads().iter().find(|load| Some(load.id()) == id);
    match (bounds.within(ampacity), load(demand.without_draw), load(demand.without_leg)) {
        // Opposed legs cancel, so an unknown draw could also lower the current.
        (Some(false), None, _) | (Some(true), None, _) => {}
        (Some(false), Some(_), _) if !opposed => {}
        (_, Some(load), _) => return capacity::ask_draw(found, load),
        (None, None, Some(load)) => return found.ask(load, "leg", "its leg"),
        (None, None, None) => {}
    }
    let said = Said::Compared {
        does: "carries in its neutral",
        measured: Value::Current(bounds.shown()),
        limit_words: "the ampacity of the neutral is",
        limit: Value::Current(ampacity),
    };
    found.judge(circuit, "multiwire", bounds.within(ampacity) == Some(true), said, REMEDY);
}
