//! Neutral and ground: every combination of a source's neutral, its ground-fault protection, the transfer equipment and
//! the bonds of the panels, against findings that are derived here from the sections, not from the library.
//!
//! The derivation is plain counting. NEC 250.24(B) and 250.30(A)(1): exactly one bond in the system that is live. A bond
//! counts where the neutral of the source reaches it: the source's own always; that of a panel behind the transfer
//! equipment always; that of the service ahead of it only where the neutral runs through (702.11(A) and (B), and the
//! informational note of 250.30). An outlet with ground-fault protection trips when its neutral meets a second bond.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use loadworthy::check::{WithWorking, check};
use loadworthy::code::{Edition, Nec};
use loadworthy::rules::Outcome;
use loadworthy::site::Site;

/// One combination.
#[derive(Clone, Copy, Debug)]
struct Row {
    source_bonded: bool,
    switched: bool,
    /// The bond of the service ahead of the transfer equipment.
    service: bool,
    /// The bond of the panel behind it.
    panel: bool,
    /// The bond of a panel that the panel feeds.
    subpanel: bool,
    gfci: bool,
}

impl Row {
    fn all() -> impl Iterator<Item = Self> {
        (0..64_u8).map(|bits| {
            let bit = |place: u8| bits & (1 << place) != 0;
            Self {
                source_bonded: bit(0),
                switched: bit(1),
                service: bit(2),
                panel: bit(3),
                subpanel: bit(4),
                gfci: bit(5),
            }
        })
    }

    fn bonds(self) -> u8 {
        let service_reached = self.service && !self.switched;
        [self.source_bonded, service_reached, self.panel, self.subpanel].into_iter().map(u8::from).sum()
    }

    fn site(self) -> String {
        let Self { service, panel, subpanel, gfci, .. } = self;
        let neutral = if self.source_bonded { "bonded" } else { "floating" };
        let poles = if self.switched { "switched" } else { "solid" };
        format!(
            r#"
[site]
name = "bonds"
code = "nec-2023"

[utility]
connected = true
neutral_bonded_ahead = {service}

[[source]]
name = "source"
kind = "generator"
system = "120/240 V"
neutral = "{neutral}"
[[source.outlet]]
name = "outlet"
configuration = "L14-30R"
gfci = {gfci}

[[cord]]
name = "cord"
from = "outlet"
supply_end = "L14-30P"
load_end = "L14-30R"

[[inlet]]
name = "inlet"
from = "cord"
configuration = "L14-30P"

[[transfer]]
name = "switch"
from = "inlet"
kind = "manual transfer switch"
neutral = "{poles}"

[[panel]]
name = "panel"
from = "switch"
normal_supply = "utility"
system = "120/240 V"
neutral_bonded = {panel}

[[feeder]]
name = "feeder"
from = "panel"

[[panel]]
name = "subpanel"
from = "feeder"
system = "120/240 V"
neutral_bonded = {subpanel}
"#
        )
    }
}

fn outcomes(text: &str, slug: &str) -> Vec<Outcome> {
    let site = Site::from_toml("bonds.toml", text).unwrap_or_else(|problems| panic!("{problems}"));
    let report = check(&site, Nec::standard(Edition::Nec2023), WithWorking::No);
    report.findings.iter().filter(|finding| finding.rule.slug == slug).map(|finding| finding.outcome).collect()
}

const fn holds(holds: bool) -> Outcome {
    if holds { Outcome::Holds } else { Outcome::Fails }
}

#[test]
fn every_combination_of_bonds_is_counted() {
    for row in Row::all() {
        let text = row.site();
        assert_eq!(outcomes(&text, "one-neutral-ground-bond"), [holds(row.bonds() == 1)], "{row:?}");
        assert_eq!(
            outcomes(&text, "bond-matches-transfer-poles"),
            [holds(row.source_bonded == row.switched)],
            "{row:?}"
        );
        let trips = row.gfci && row.bonds() >= 2;
        assert_eq!(outcomes(&text, "second-bond-trips-source-gfci"), [holds(!trips)], "{row:?}");
    }
}

/// A bond that is not stated may be there or not: it is asked for where that decides, and only there.
#[test]
fn a_bond_that_is_not_stated_is_asked_for_where_it_decides() {
    for row in Row::all() {
        for (field, with, without) in [
            (
                format!("neutral_bonded_ahead = {}\n", row.service),
                Row { service: true, ..row },
                Row { service: false, ..row },
            ),
            (
                format!("neutral = \"{}\"\n[[source.outlet]]", if row.source_bonded { "bonded" } else { "floating" }),
                Row { source_bonded: true, ..row },
                Row { source_bonded: false, ..row },
            ),
            (
                format!("neutral_bonded = {}\n\n[[feeder]]", row.panel),
                Row { panel: true, ..row },
                Row { panel: false, ..row },
            ),
        ] {
            let kept = if field.ends_with("outlet]]") {
                "[[source.outlet]]"
            } else if field.ends_with("feeder]]") {
                "[[feeder]]"
            } else {
                ""
            };
            let text = row.site();
            assert_eq!(text.matches(&field).count(), 1, "{field}");
            let found = outcomes(&text.replace(&field, kept), "one-neutral-ground-bond");
            let possible = [with.bonds(), without.bonds()];
            // Both counts end the same way, or the fact decides.
            let [one, other] = possible.map(|bonds| bonds == 1);
            let expected = if one == other { holds(one) } else { Outcome::CannotTell };
            assert_eq!(found, [expected], "{row:?} without {field}");
        }
    }
}

/// A fact that is stated one way or the other, or not at all.
const STATED: [Option<bool>; 3] = [Some(true), Some(false), None];

/// What a fact can be.
fn possible(stated: Option<bool>) -> Vec<bool> {
    stated.map_or_else(|| vec![true, false], |stated| vec![stated])
}

/// How all possible endings end: one way, or nobody can tell.
fn together(endings: &[bool]) -> Outcome {
    match (endings.contains(&true), endings.contains(&false)) {
        (true, true) => Outcome::CannotTell,
        (all_hold, _) => holds(all_hold),
    }
}

/// Every combination with any of the facts left out: what is left out may be either, and where that does not matter the
/// rule decides all the same. Derived from the sections by trying every possibility, as the head of this file counts.
#[test]
fn every_combination_with_facts_left_out_ends_as_all_that_it_can_be() {
    let mut tried = 0;
    for source in STATED {
        for switched in STATED {
            for service in STATED {
                for panel in STATED {
                    for gfci in STATED {
                        tried += 1;
                        left_out(source, switched, service, panel, gfci);
                    }
                }
            }
        }
    }
    assert_eq!(tried, 243);
}

fn left_out(
    source: Option<bool>,
    switched: Option<bool>,
    service: Option<bool>,
    panel: Option<bool>,
    gfci: Option<bool>,
) {
    let whole = Row {
        source_bonded: source == Some(true),
        switched: switched == Some(true),
        service: service == Some(true),
        panel: panel == Some(true),
        subpanel: false,
        gfci: gfci == Some(true),
    };
    let mut text = whole.site();
    for (stated, line) in [
        (source, format!("neutral = \"{}\"\n", if whole.source_bonded { "bonded" } else { "floating" })),
        (switched, format!("neutral = \"{}\"\n", if whole.switched { "switched" } else { "solid" })),
        (service, format!("neutral_bonded_ahead = {}\n", whole.service)),
        (gfci, format!("gfci = {}\n", whole.gfci)),
    ] {
        assert_eq!(text.matches(&line).count(), 1, "{line}");
        if stated.is_none() {
            text = text.replace(&line, "");
        }
    }
    if panel.is_none() {
        // The first of the two panels.
        text = text.replacen("neutral_bonded = false\n", "", 1);
    }
    let (mut bonds, mut matches) = (Vec::new(), Vec::new());
    for source_bonded in possible(source) {
        for switched in possible(switched) {
            matches.push(source_bonded == switched);
            for service in possible(service) {
                for panel in possible(panel) {
                    bonds.push(Row { source_bonded, switched, service, panel, ..whole }.bonds());
                }
            }
        }
    }
    let row = format!("source {source:?}, switched {switched:?}, service {service:?}, panel {panel:?}, gfci {gfci:?}");
    let once: Vec<bool> = bonds.iter().map(|bonds| *bonds == 1).collect();
    assert_eq!(outcomes(&text, "one-neutral-ground-bond"), [together(&once)], "{row}");
    assert_eq!(outcomes(&text, "bond-matches-transfer-poles"), [together(&matches)], "{row}");
    let trips = match gfci {
        Some(false) => Outcome::Holds,
        Some(true) => together(&bonds.iter().map(|bonds| *bonds < 2).collect::<Vec<_>>()),
        // Whether there is protection stands on the outlet: it is asked for, whatever the bonds are today.
        None => Outcome::CannotTell,
    };
    assert_eq!(outcomes(&text, "second-bond-trips-source-gfci"), [trips], "{row}");
}
