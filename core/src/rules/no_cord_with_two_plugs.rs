//! `no-cord-with-two-plugs`: no cord has blades at both ends.

use super::{Findings, Remedy, Said, Survey, rule};

rule! {
    /// ## Protects against
    /// Live blades in the hand. Whichever end is seated first, the blades of the other are live as soon as its side is.
    /// No position of a switch and no order of steps cures it, so nothing else that holds changes this finding.
    ///
    /// ## Cannot tell when
    /// Never: a description states both ends of every cord.
    ///
    /// ## Remedy
    /// Remove the cord. Fit an inlet with transfer equipment, or run appliances straight from the source.
    NO_CORD_WITH_TWO_PLUGS = "no-cord-with-two-plugs" {
        severity: Prohibited,
        summary: "a cord has blades at both ends",
        topics: ["no-live-pins"],
        sources: ["UL 817, from memory"],
        check: check,
    }
}

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for cord in survey.site.cords() {
        let two = cord.supply_end.is_male() && cord.load_end.is_male();
        let said = if two {
            Said::Plain("has blades at both ends: one end is live in the open as soon as the other is seated")
        } else {
            Said::Plain("has no blades at its load end, or none at its supply end")
        };
        let remedy = "remove the cord; fit an inlet with transfer equipment, or run appliances straight from the source";
        found.judge(cord, "load_end", !two, said, Remedy::Do(remedy));
    }
}
