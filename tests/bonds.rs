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
