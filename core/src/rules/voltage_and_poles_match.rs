//! `voltage-and-poles-match`: what feeds a component gives the voltage and the contacts that it needs.

use super::{Findings, Remedy, Said, Survey, Value, rule};
use crate::quantity::Volts;
use crate::site::{Circuit, Component, Load};
use crate::trade::{Configuration, Contacts, Poles, System};

rule! {
    /// ## Protects against
    /// A 240 V load on a 120 V source, a neutral that ends at a plug without one, and loads at a voltage they are not made
    /// for.
    ///
    /// ## Cannot tell when
    /// The voltage or the poles of a circuit, or whether a circuit of one pole shares its neutral, are not stated.
    ///
    /// ## Remedy
    /// A load, a circuit or a source of the voltage that the other has.
    VOLTAGE_AND_POLES_MATCH = "voltage-and-poles-match" {
        severity: Violation,
        summary: "a component is fed at a voltage or by poles that are not its own",
        topics: ["non-interchangeable-systems", "listed-and-used-as-listed"],
        check: check,
    }
}

const LOAD: Remedy = Remedy::Do("leave the load off, or feed it from a circuit and a source of its voltage");
const CIRCUIT: Remedy = Remedy::Do("give the circuit the poles and the voltage of its panel");
const CONTACTS: Remedy = Remedy::Do("use a configuration of the voltage, the poles and the neutral that the system has");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for component in survey.components() {
        match component {
            Component::Load(load) => of_load(survey, found, load),
            Component::Circuit(circuit) => of_circuit(survey, found, circuit),
            Component::Outlet(outlet) => {
                if let Some(contacts) = outlet.configuration.contacts() {
                    of_contacts(survey, found, component, contacts.configuration);
                }
            }
            Component::Inlet(inlet) => of_contacts(survey, found, component, inlet.configuration.configuration),
            Component::Panel(panel) => {
                // A panel for two legs on a 120 V source is described so that it can be judged: its loads decide.
                if let Some(source) = survey.site.source_of(panel.id()).filter(|source| source.system != panel.system) {
                    let said = Said::Compared {
                        does: "is made for",
                        measured: Value::System(panel.system),
                        limit_words: "its source gives",
                        limit: Value::System(source.system),
                    };
                    let fits = source.system == System::V120 && panel.system == System::V120V240;
                    found.judge(panel, "system", fits, said, CIRCUIT);
                }
            }
            _ => {}
        }
    }
}

fn of_load(survey: &Survey<'_>, found: &mut Findings, load: &Load) {
    if load.running == Some(false) {
        return;
    }
    let wants: Volts = *load.voltage;
    let circuit = survey.site.circuit_of(load.id());
    let source = survey.site.source_of(load.id()).map(|source| source.system);
    let by_source = source.is_none_or(|system| system.gives(wants));
    if !by_source {
        let said = Said::Compared {
            does: "needs",
            measured: Value::Voltage(wants),
            limit_words: "its source gives",
            limit: source.map_or(Value::Word("nothing"), Value::System),
        };
        return found.judge(load, "voltage", false, said, LOAD);
    }
    if let Some((at, contacts)) = blocked(survey, load) {
        let said = Said::Joined {
            words: "its voltage",
            mine: Value::Voltage(wants),
            verb: "does not come through",
            other: at.id(),
            theirs: Value::Contacts(contacts),
        };
        return found.judge(load, "voltage", false, said, LOAD);
    }
    match circuit.map(|circuit| (circuit.voltage.as_deref().copied(), circuit.multiwire)) {
        Some((None, _)) => {}
        Some((Some(gives), multiwire)) => {
            let lower = survey.system(load.id()).and_then(System::line_to_neutral);
            let holds = gives == wants || multiwire == Some(true) && lower == Some(wants);
            let said = Said::Compared {
                does: "needs",
                measured: Value::Voltage(wants),
                limit_words: "its circuit gives",
                limit: Value::Voltage(gives),
            };
            found.judge(load, "voltage", holds, said, LOAD);
        }
        None => {
            let said = Said::Compared {
                does: "needs",
                measured: Value::Voltage(wants),
                limit_words: "its source gives",
                limit: source.map_or(Value::Word("a voltage that is not described"), Value::System),
            };
            found.judge(load, "voltage", true, said, LOAD);
        }
    }
}

/// The nearest contacts on the way to a load that do not pass its voltage on: without a neutral for a voltage that is
/// taken to it, or with one ungrounded contact for a voltage between two.
fn blocked<'a>(survey: &Survey<'a>, load: &Load) -> Option<(Component<'a>, Contacts)> {
    let to_neutral = survey.system(load.id())?.line_to_neutral() == Some(*load.voltage);
    survey.upstream(load.id()).find_map(|component| {
        let ends = match component {
            Component::Cord(cord) => [cord.load_end.contacts(), cord.supply_end.contacts()],
            Component::Outlet(outlet) => [outlet.configuration.contacts(), None],
            Component::Inlet(inlet) => [Some(inlet.configuration), None],
            Component::Receptacle(receptacle) => [Some(receptacle.configuration), None],
            _ => [None, None],
        };
        let stops = |contacts: &Contacts| {
            let configuration = contacts.configuration;
            let neutral = configuration.neutral();
            if to_neutral { !neutral } else { configuration.poles().saturating_sub(u8::from(neutral)) < 2 }
        };
        ends.into_iter().flatten().find(stops).map(|contacts| (component, contacts))
    })
}

fn of_circuit(survey: &Survey<'_>, found: &mut Findings, circuit: &Circuit) {
    let Some(panel) = survey.site.panel_of(circuit.id()) else { return };
    let Some(voltage) = circuit.voltage.as_deref().copied() else {
        return found.ask(circuit, "voltage", "its voltage");
    };
    let needed = if panel.system.line_to_neutral() == Some(voltage) {
        Some(1)
    } else if panel.system.line_to_line() == Some(voltage) {
        Some(2)
    } else {
        None
    };
    let Some(needed) = needed else {
        let said = Said::Compared {
            does: "is for",
            measured: Value::Voltage(voltage),
            limit_words: "its panel gives",
            limit: Value::System(panel.system),
        };
        return found.judge(circuit, "voltage", false, said, CIRCUIT);
    };
    match circuit.overcurrent_device.as_ref().and_then(|device| device.poles) {
        None => found.ask(circuit, "overcurrent_device", "how many poles its overcurrent device has"),
        Some(Poles::One) if needed == 1 && circuit.multiwire.is_none() => {
            found.ask(circuit, "multiwire", "whether it shares its neutral with another leg");
        }
        Some(poles) => {
            // A multiwire circuit opens both its ungrounded conductors, whatever the voltage of its loads.
            let needed = if circuit.multiwire == Some(true) { 2 } else { needed };
            let said = Said::Compared {
                does: "has a device of poles:",
                measured: Value::Count(u16::from(poles.count())),
                limit_words: "it needs",
                limit: Value::Count(needed),
            };
            found.judge(circuit, "overcurrent_device", u16::from(poles.count()) >= needed, said, CIRCUIT);
        }
    }
}

/// Contacts bear the system's voltage, and have a neutral where it does and both voltages go through them.
fn of_contacts(survey: &Survey<'_>, found: &mut Findings, of: Component<'_>, configuration: Configuration) {
    let Some(system) = survey.site.source_of(of.id()).map(|source| source.system) else { return };
    let highest = match (configuration.poles(), configuration.neutral()) {
        (2, true) => system.line_to_neutral(),
        _ => system.line_to_line(),
    };
    let Some(highest) = highest else {
        let said = Said::Compared {
            does: "needs two ungrounded conductors:",
            measured: Value::Word(configuration.designation()),
            limit_words: "its source gives",
            limit: Value::System(system),
        };
        return found.judge(of, "configuration", false, said, CONTACTS);
    };
    let rated = configuration.rated_voltage();
    let said = Said::Compared {
        does: "is on",
        measured: Value::Voltage(highest),
        limit_words: "its configuration is rated",
        limit: Value::Voltage(rated),
    };
    found.judge(of, "configuration", highest <= rated, said, CONTACTS);
}
