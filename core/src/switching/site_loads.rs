//! The loads of one branch that are always switched together: the engine sees them as one.

use super::device::Load as LoadFacts;
use super::site_facts;
use super::site_nodes::Nodes;
use crate::quantity::{Quantity, Watts};
use crate::rules::Survey;
use crate::site::Load;

/// Whether a load is to run on its source.
pub(super) fn runs(survey: &Survey<'_>, load: &Load) -> bool {
    let circuit = Nodes { site: survey.site }.circuit_of(load.id());
    load.running != Some(false) && circuit.and_then(|circuit| circuit.off_on_source) != Some(true)
}

/// The loads that hang on one conductor of a circuit with this one, on the same leg, known as well, and to be run or not
/// alike: no order tells them apart. A load of which a fact is missing stands alone, so that it is asked for by its name.
pub(super) fn together<'a>(survey: &'a Survey<'a>, load: &'a Load) -> Vec<&'a Load> {
    let nodes = Nodes { site: survey.site };
    let known = |load: &Load| {
        let facts = site_facts::of_load(survey, load, None);
        facts.running.is_some() && facts.starting.is_some()
    };
    let Some(circuit) = nodes.circuit_of(load.id()).filter(|_| known(load)) else { return vec![load] };
    let (node, facts) = (nodes.of(load.into()), site_facts::of_load(survey, load, None));
    let alike = |other: &&Load| {
        let others = site_facts::of_load(survey, other, None);
        known(other)
            && others.leg == facts.leg
            && others.voltage == facts.voltage
            && runs(survey, other) == runs(survey, load)
            && nodes.of((*other).into()) == node
    };
    survey.site.loads_below(circuit.id()).filter(alike).collect()
}

/// Their names: `refrigerator + kettle`.
pub(super) fn name(loads: &[&Load]) -> String {
    loads.iter().map(|load| load.name.as_str()).collect::<Vec<_>>().join(" + ")
}

/// The facts of loads that are one to the engine: what they draw together, and what they draw when all start at once.
pub(super) fn facts(survey: &Survey<'_>, loads: &[&Load], shared_neutral: Option<bool>) -> LoadFacts {
    let mut all = loads.iter().map(|load| site_facts::of_load(survey, load, shared_neutral));
    let first = all.next().unwrap_or_default();
    all.fold(first, |mut sum, load| {
        sum.running = add(sum.running, load.running);
        sum.starting = add(sum.starting, load.starting);
        sum
    })
}

fn add(one: Option<Watts>, other: Option<Watts>) -> Option<Watts> {
    one?.count().checked_add(other?.count()).and_then(Watts::from_count)
}
