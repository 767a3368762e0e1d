//! The bonds between neutral and ground that are in circuit while a source feeds a building.

use super::{Survey, premises};
use crate::site::{Component, ComponentId, NormalSupply, Panel, Source, SourceNeutral, Transfer, TransferNeutral};

/// How many bonds there are, as far as the description says.
pub(crate) struct Bonds {
    /// Those that are stated.
    pub(crate) least: u16,
    /// Those, and every one that is not ruled out.
    pub(crate) greatest: u16,
    /// The first fact that is missing: of what, which field, in words.
    pub(crate) missing: Option<(ComponentId, &'static str, &'static str)>,
}

/// Counts the bonds of the network that a source's neutral joins: its own, those of the panels that it feeds, and, where
/// the neutral runs through to the normal supply, those on that side.
pub(crate) fn of_source(survey: &Survey<'_>, source: &Source) -> Bonds {
    let mut count = Count { bonds: Bonds { least: 0, greatest: 0, missing: None }, seen: Vec::new(), utility: false };
    let own = source.neutral.map(|neutral| neutral == SourceNeutral::Bonded);
    count.add(own, (source.id(), "neutral", "whether its neutral is bonded to its frame"));
    for component in survey.below(source.id()) {
        if premises::ends_nowhere(survey, component) {
            count.add(None, (component.id(), "name", premises::WHAT_IT_FEEDS));
        }
        let Component::Panel(panel) = component else { continue };
        count.panel(panel);
        let behind_panel = survey.upstream(panel.id()).any(|component| matches!(component, Component::Panel(_)));
        if behind_panel {
            continue;
        }
        match premises::transfer_above(survey, panel.id()).map(through) {
            Some(Through::Opened) => {}
            Some(Through::Unknown(id)) => count.beyond(survey, panel, Some(id)),
            Some(Through::Runs) | None => count.beyond(survey, panel, None),
        }
    }
    count.bonds
}

/// What transfer equipment does with the neutral.
enum Through {
    Runs,
    Opened,
    Unknown(ComponentId),
}

fn through(transfer: &Transfer) -> Through {
    match transfer.neutral {
        Some(TransferNeutral::Solid) => Through::Runs,
        Some(TransferNeutral::Switched) => Through::Opened,
        None => Through::Unknown(transfer.id()),
    }
}

struct Count {
    bonds: Bonds,
    seen: Vec<ComponentId>,
    utility: bool,
}

type Fact = (ComponentId, &'static str, &'static str);

impl Count {
    fn add(&mut self, bonded: Option<bool>, fact: Fact) {
        match bonded {
            Some(true) => {
                self.bonds.least += 1;
                self.bonds.greatest += 1;
            }
            Some(false) => {}
            None => {
                self.bonds.greatest += 1;
                self.bonds.missing = self.bonds.missing.or(Some(fact));
            }
        }
    }

    fn panel(&mut self, panel: &Panel) {
        if !self.seen.contains(&panel.id()) {
            self.seen.push(panel.id());
            self.add(
                panel.neutral_bonded,
                (panel.id(), "neutral_bonded", "whether its neutral is bonded to ground in it"),
            );
        }
    }

    /// The side of the normal supply of a panel. Where it is not known whether the neutral runs there, its bonds may count
    /// or not.
    fn beyond(&mut self, survey: &Survey<'_>, panel: &Panel, unsure: Option<ComponentId>) {
        if let Some(transfer) = unsure {
            let before = self.bonds.least;
            self.beyond(survey, panel, None);
            self.bonds.least = before;
            self.bonds.missing = Some((transfer, "neutral", "whether it switches the neutral"));
            return;
        }
        if survey.site.utility().is_some_and(|utility| !utility.connected) {
            return;
        }
        let mut panel = panel;
        for _ in 0..survey.site.panels().len() {
            match survey.site.normal_supply(panel) {
                Some(NormalSupply::Panel(next)) => {
                    self.panel(next);
                    panel = next;
                }
                Some(NormalSupply::Utility) => return self.utility(survey),
                None => {
                    self.bonds.greatest += 1;
                    let fact = (panel.id(), "normal_supply", "what supplies it normally, and whether a utility does,");
                    self.bonds.missing = self.bonds.missing.or(Some(fact));
                    return;
                }
            }
        }
    }

    fn utility(&mut self, survey: &Survey<'_>) {
        if self.utility {
            return;
        }
        self.utility = true;
        let ahead = survey.site.utility().and_then(|utility| utility.neutral_bonded_ahead);
        let fact = "whether the neutral is bonded to ground at service equipment that is not one of the panels";
        self.add(ahead, (ComponentId::SITE, "neutral_bonded_ahead", fact));
    }
}
