//! `sources-mutually-excluded`: no position of any handle joins two supplies.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, premises, rule};
use crate::site::{Panel, Transfer};

rule! {
    /// ## Protects against
    /// A street that is energised from a house, and two supplies that meet out of step. Every pair counts, the utility and
    /// any two sources: three supplies need three exclusions, and an inlet that was added later is the common miss. Where
    /// nothing but care keeps two supplies apart, one slip joins them, however good the order of steps is.
    ///
    /// ## Cannot tell when
    /// It is not stated whether a position of the transfer equipment joins two supplies, whether a panel has further
    /// supplies, or whether those are excluded.
    ///
    /// ## Remedy
    /// Interlocks for every pair, or one switch with a position for each supply.
    SOURCES_MUTUALLY_EXCLUDED = "sources-mutually-excluded" {
        severity: Prohibited,
        summary: "a position that can be reached joins two supplies",
        topics: ["transfer-equipment"],
        check: check,
    }
}

const REMEDY: &str = "fit interlocks for every pair of supplies, or a switch with one position for each";

const OTHERS: Fact = Fact {
    field: "other_supplies_excluded",
    asked: "whether equipment keeps each of its other supplies apart from every other supply",
    well: "has its other supplies kept apart from every other supply",
    ill: "has another supply that no equipment keeps apart from the rest",
    mend: REMEDY,
};

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for transfer in survey.site.transfers() {
        of_transfer(found, transfer);
    }
    for panel in premises::fed_panels(survey) {
        of_panel(survey, found, panel);
    }
}

fn of_transfer(found: &mut Findings, transfer: &Transfer) {
    let Some(joins) = transfer.joins_two_supplies else {
        return found.ask(transfer, "joins_two_supplies", "whether any position of its handles joins two of its supplies");
    };
    if !joins {
        let said = Said::Plain("joins no two of its supplies in any position");
        return found.judge(transfer, "joins_two_supplies", true, said, Remedy::Do(REMEDY));
    }
    // Supplies that may run together are joined on purpose: `parallel-only-if-built-for-it` judges that.
    let approved = if transfer.parallel == Some(true) { premises::approved_parallel(transfer) } else { Some(false) };
    match approved {
        Some(true) => {
            let said = Said::Plain("joins supplies that are approved to run in parallel");
            found.judge(transfer, "joins_two_supplies", true, said, Remedy::Do(REMEDY));
        }
        Some(false) => {
            let said = Said::Plain("joins two of its supplies in a position that can be reached");
            found.judge(transfer, "joins_two_supplies", false, said, Remedy::Do(REMEDY));
        }
        None => found.ask(transfer, "parallel", "whether it is listed, agreed and installed for running in parallel"),
    }
}

fn of_panel(survey: &Survey<'_>, found: &mut Findings, panel: &Panel) {
    match panel.other_supplies {
        None => found.ask(panel, "other_supplies", "whether another inlet, source or supply can feed it"),
        Some(false) => {
            let said = Said::Plain("has no further supply");
            found.judge(panel, "other_supplies", true, said, Remedy::Do(REMEDY));
        }
        Some(true) => OTHERS.judge(found, panel.id(), panel.other_supplies_excluded),
    }
    if premises::transfer_above(survey, panel.id()).is_some() || premises::excepted(survey, panel) == Some(true) {
        return;
    }
    match premises::on_utility(survey, panel) {
        Some(true) => {
            let said = Said::Plain("has its source and the utility kept apart by care alone");
            found.judge(panel, "from", false, said, Remedy::Do(REMEDY));
        }
        Some(false) => {}
        None => found.ask(panel, "normal_supply", "what supplies it normally, and whether a utility does,"),
    }
}
