//! `single-120v-source-no-shared-neutrals`: on one 120 V source, no circuit of a two-leg panel shares its neutral.

use super::fact::Fact;
use super::{Findings, Remedy, Said, Survey, premises, rule};
use crate::site::{Circuit, Component, Panel};
use crate::trade::System;

rule! {
    /// ## Protects against
    /// A neutral that carries the sum of two legs in place of their difference, with no device in it. It happens where one
    /// line of a 120 V source is joined to both legs of a panel.
    ///
    /// ## Cannot tell when
    /// It is not stated whether the legs are joined, whether a circuit shares its neutral or is for 240 V, or whether the
    /// panel is marked.
    ///
    /// ## Remedy
    /// Those circuits kept off, one leg fed only, or a 120/240 V source.
    SINGLE_120V_SOURCE_NO_SHARED_NEUTRALS = "single-120v-source-no-shared-neutrals" {
        severity: Violation,
        summary: "one 120 V source feeds a circuit that shares its neutral, or a 240 V outlet",
        topics: ["single-120-v-supply"],
        check: check,
    }
}

const MARK: Fact = Fact {
    field: "single_supply_mark",
    asked: "whether it is marked as fed by a single 120 V supply",
    well: "is marked as fed by a single 120 V supply",
    ill: "is not marked as fed by a single 120 V supply",
    mend: "mark the panel as fed by a single 120 V supply, with no multiwire circuit to be connected",
};

const REMEDY: Remedy = Remedy::Do("keep the circuit off, feed one leg only, or use a 120/240 V source");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for panel in premises::on_one_line(survey) {
        match panel.legs_joined {
            None => {
                found.ask(panel, "legs_joined", "whether one line of the source is joined to both of its legs");
                continue;
            }
            Some(false) => {
                let said = Said::Plain("has one of its legs fed only, so that no neutral carries the sum of two");
                found.judge(panel, "legs_joined", true, said, REMEDY);
                continue;
            }
            Some(true) => {}
        }
        MARK.judge(found, panel.id(), panel.single_supply_mark);
        for component in survey.below(panel.id()) {
            if let Component::Circuit(circuit) = component {
                of_circuit(found, panel, circuit);
            }
        }
    }
}

fn of_circuit(found: &mut Findings, panel: &Panel, circuit: &Circuit) {
    if circuit.off_on_source == Some(true) {
        let said = Said::Plain("stays off while the source feeds its panel");
        return found.judge(circuit, "off_on_source", true, said, REMEDY);
    }
    let between_lines = circuit.voltage.map(|voltage| System::line_to_line(panel.system) == Some(*voltage));
    let said = match (circuit.multiwire, between_lines) {
        (Some(true), _) => "shares its neutral between two legs that one line feeds",
        (_, Some(true)) => "is for a voltage between two legs that one line feeds",
        (None, _) => return found.ask(circuit, "multiwire", "whether it shares its neutral with another leg"),
        (_, None) => return found.ask(circuit, "voltage", "its voltage"),
        (Some(false), Some(false)) => {
            let said = Said::Plain("has a neutral of its own and no voltage between the legs");
            return found.judge(circuit, "multiwire", true, said, REMEDY);
        }
    };
    found.judge(circuit, "multiwire", false, Said::Plain(said), REMEDY);
}
