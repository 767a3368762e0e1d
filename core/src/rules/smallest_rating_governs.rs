//! `smallest-rating-governs`: the load on the way from a source fits the least rating on that way.

use super::compare::{Against, load_against};
use super::{Findings, Remedy, Survey, Value, cord, rule};
use crate::calc::{self, Silent};
use crate::quantity::{Amperes, Fraction, PowerFactor, Ratio, Rounding, Volts};
use crate::site::{Component, Outlet, Panel, Source, TransferKind};

rule! {
    /// ## Protects against
    /// Trust in the face of a plug: a 50 A configuration proves only what the device can carry. Where the source gives
    /// 40 A, or the cord bears 30 A, that governs, however large the rest is. A larger inlet or breaker than the source is
    /// no fault.
    ///
    /// ## Cannot tell when
    /// A rating on the way is not stated: the continuous current or power of the source, the device of its outlet, the
    /// cord, the transfer equipment, the busbar of the panel, or the breaker of it that an interlock holds.
    ///
    /// ## Remedy
    /// Less load, or a link of a higher rating in place of the least.
    SMALLEST_RATING_GOVERNS = "smallest-rating-governs" {
        severity: Violation,
        summary: "the load is above the least rating on its way from the source",
        topics: ["listed-and-used-as-listed"],
        check: check,
    }
}

/// A rating on the way, and what has it.
pub(crate) struct Link {
    pub(crate) rating: Amperes,
    words: &'static str,
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for outlet in survey.site.outlets() {
        judge(survey, found, outlet);
        of_branches(survey, found, outlet);
    }
    for source in survey.site.sources() {
        of_source(survey, found, source);
    }
}

/// All outlets of a source together draw no more than it gives.
fn of_source(survey: &Survey<'_>, found: &mut Findings, source: &Source) {
    let Some(limit) = gives(source) else {
        return found.ask(source, "continuous_current", "the current or power that it gives for hours");
    };
    let against = Against {
        field: "continuous_current",
        does: "gives",
        limit_words: "it can give for hours",
        limit,
        factor: Ratio::ONE,
        remedy: Remedy::Use("leave loads off until it gives at most", Value::Current(limit)),
    };
    load_against(survey, found, Component::Source(source), against);
}

fn judge(survey: &Survey<'_>, found: &mut Findings, outlet: &Outlet) {
    let below = survey.below(outlet.id());
    let own = own_links(survey, outlet);
    let mut least: Option<Link> = None;
    let mut missing = None;
    // Only what carries the whole load of the outlet: up to the first panel, and not what branches off.
    let whole = survey.demand(outlet.id());
    let links = below.filter(|component| survey.demand(component.id()) == whole).take_while(|component| {
        !matches!(component, Component::Circuit(_) | Component::Load(_))
    });
    for link in own.into_iter().chain(links.flat_map(|component| link_of(survey, component))) {
        match link {
            Ok(link) if least.as_ref().is_none_or(|known| link.rating < known.rating) => least = Some(link),
            Ok(_) => {}
            Err(fact) => missing = missing.or(Some(fact)),
        }
    }
    let Some(link) = least else {
        return found.ask(outlet, "overcurrent_device", "any rating on its way");
    };
    let holds_by_least = survey.line_current(outlet.id(), Ratio::ONE).and_then(|bounds| bounds.within(link.rating));
    if let (Some((at, field, fact)), false) = (missing, holds_by_least == Some(false)) {
        return found.ask(at, field, fact);
    }
    let against = Against {
        field: "configuration",
        does: "carries",
        limit_words: link.words,
        limit: link.rating,
        factor: Ratio::ONE,
        remedy: Remedy::Use("leave loads off until it carries at most", Value::Current(link.rating)),
    };
    load_against(survey, found, Component::Outlet(outlet), against);
}

fn is_interlocked(survey: &Survey<'_>, panel: &Panel) -> bool {
    matches!(survey.from(panel.id()), Some(Component::Transfer(transfer)) if transfer.kind == TransferKind::Interlock)
}

pub(crate) type Missing<'a> = (Component<'a>, &'static str, &'static str);

/// What carries only a part of an outlet's load, where the way branches before a circuit: each by its own ratings.
fn of_branches(survey: &Survey<'_>, found: &mut Findings, outlet: &Outlet) {
    let whole = survey.demand(outlet.id());
    let before_circuits = |component: &Component<'_>| {
        survey.from(component.id()).is_none_or(|from| survey.site.circuit_of(from.id()).is_none())
    };
    let part = |component: &Component<'_>| survey.demand(component.id()) != whole;
    for component in survey.below(outlet.id()).filter(part).filter(before_circuits) {
        let links = link_of(survey, component);
        if links.is_empty() {
            continue;
        }
        let least = links.iter().filter_map(|link| link.as_ref().ok()).map(|link| link.rating).min();
        let missing = links.into_iter().find_map(Result::err);
        let over = |limit| {
            let bounds = survey.line_current(component.id(), Ratio::ONE);
            bounds.and_then(|bounds| bounds.within(limit)) == Some(false)
        };
        match (least, missing) {
            (least, Some((at, field, fact))) if !least.is_some_and(over) => found.ask(at, field, fact),
            (Some(limit), _) => {
                let against = Against {
                    field: "from",
                    does: "carries",
                    limit_words: "the least of its ratings is",
                    limit,
                    factor: Ratio::ONE,
                    remedy: Remedy::Use("leave loads off until it carries at most", Value::Current(limit)),
                };
                load_against(survey, found, component, against);
            }
            (None, _) => {}
        }
    }
}

/// What the outlet itself bears, and what the source gives through it.
fn own_links<'a>(survey: &Survey<'a>, outlet: &'a Outlet) -> Vec<Result<Link, Missing<'a>>> {
    let at = Component::Outlet(outlet);
    let mut links = Vec::with_capacity(4);
    if let Some(contacts) = outlet.configuration.contacts() {
        links.push(Ok(Link { rating: contacts.configuration.rated_current(), words: "its configuration bears" }));
    }
    links.push(match outlet.overcurrent_device.as_deref() {
        Some(rating) => Ok(Link { rating: *rating, words: "its overcurrent device is rated" }),
        None => Err((at, "overcurrent_device", "the rating of its overcurrent device")),
    });
    if let Some(gives) = outlet.continuous_current.as_deref() {
        links.push(Ok(Link { rating: *gives, words: "the source gives through it" }));
    }
    if let Some(source) = survey.site.source_of(outlet.id()) {
        links.push(match gives(source) {
            Some(rating) => Ok(Link { rating, words: "the source gives for hours" }),
            None => Err((Component::Source(source), "continuous_current", "the current or power that it gives for hours")),
        });
    }
    links
}

/// The current that a source gives for hours on a line: as stated, and as its power allows, whichever is less.
pub(crate) fn gives(source: &Source) -> Option<Amperes> {
    let voltage: Option<Volts> = source.system.line_to_line().or(source.system.line_to_neutral());
    let apparent = source.continuous_apparent_power.as_deref().and_then(|power| Fraction::of_apparent_power(*power, voltage?));
    // Loads of unity power factor draw the least current for a power: the cautious reading of a rating in watts.
    let real = source.continuous_power.as_deref().and_then(|power| Fraction::of_power(*power, voltage?, PowerFactor::UNITY));
    let from_power = [apparent, real].into_iter().flatten().min().map(|current| current.to_current(Rounding::Down));
    [source.continuous_current.as_deref().copied(), from_power].into_iter().flatten().min()
}

/// The ratings of what a component itself bears, or the facts that are missing.
pub(crate) fn link_of<'a>(survey: &Survey<'a>, component: Component<'a>) -> Vec<Result<Link, Missing<'a>>> {
    let link = |rating, words| Ok(Link { rating, words });
    match component {
        Component::Cord(cord) => {
            let mut links: Vec<_> = [cord.supply_end.contacts(), cord.load_end.contacts()]
                .into_iter()
                .flatten()
                .map(|contacts| link(contacts.configuration.rated_current(), "the plug or connector of its cord bears"))
                .collect();
            links.push(match cord::conditions(survey, cord) {
                Err((field, fact)) => Err((component, field, fact)),
                Ok(conditions) => match calc::cord::ampacity(survey.code, &conditions, &mut Silent) {
                    Ok(ampacity) => link(ampacity, "its cord bears"),
                    Err(_) => Err((component, "size", "an ampacity that the tables give")),
                },
            });
            links
        }
        Component::Inlet(inlet) => {
            let configured = inlet.configuration.configuration.rated_current();
            let rated = inlet.rated_current.as_deref().map_or(configured, |stated| (*stated).min(configured));
            vec![link(rated, "the inlet bears")]
        }
        Component::Receptacle(receptacle) => {
            vec![link(receptacle.configuration.configuration.rated_current(), "the receptacle bears")]
        }
        Component::Transfer(transfer) => match (transfer.rated_current.as_deref(), transfer.kind) {
            (Some(rating), _) => vec![link(*rating, "the transfer equipment bears")],
            // An interlock has no contacts of its own: the breakers it holds apart are judged as such.
            (None, TransferKind::Interlock) => Vec::new(),
            (None, _) => vec![Err((component, "rated_current", "its rated current"))],
        },
        Component::Panel(panel) => {
            let busbar = match panel.busbar.as_deref() {
                Some(rating) => link(*rating, "the busbar of the panel bears"),
                None => Err((component, "busbar", "the rating of its busbar")),
            };
            let missing = (component, "supply_breaker", "the rating of the breaker that feeds it");
            let breaker = match panel.supply_breaker.as_ref().map(|device| device.rating.as_deref()) {
                Some(Some(rating)) => Some(link(*rating, "the breaker that feeds the panel is rated")),
                Some(None) => Some(Err(missing)),
                // An interlock holds a breaker of the panel, described or not; other equipment may feed its lugs.
                None => is_interlocked(survey, panel).then_some(Err(missing)),
            };
            std::iter::once(busbar).chain(breaker).collect()
        }
        _ => Vec::new(),
    }
}
