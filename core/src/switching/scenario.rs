//! A network, a state and an order of steps from a file: the form in which somebody's own steps are judged.
//!
//! `notes`, `invariants`, and what a scenario expects are for people and for tests; they are read over here.

use super::builder::NetworkErrors;
use super::device::{Interlock, Load, Rotation, RotationNeed, Source, Throw, Transfer};
use super::network::{DeviceId, Network};
use super::operation::Operation;
use super::state::{Position, State, StateError};
use crate::quantity::{Quantity, Volts, Watts};
use crate::trade::{Leg, System, Word, WordError};
use serde::Deserialize;
use serde::de::IgnoredAny;
use std::collections::BTreeMap;

/// What a scenario file describes, ready to be judged.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Scenario {
    /// Its short name.
    pub id: String,
    /// What it is about.
    pub title: String,
    /// The devices.
    pub network: Network,
    /// Where everything stands before the first step.
    pub start: State,
    /// The steps.
    pub steps: Vec<Operation>,
}

/// Why a scenario cannot be read.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ScenarioError {
    /// Not the document that it should be.
    #[error("{0}")]
    Document(#[from] serde_json::Error),
    /// Another form than this one.
    #[error("the format is `{0}`; write `switching-scenarios/1`")]
    Format(String),
    /// The devices make no sense.
    #[error("scenario `{scenario}`: {problem}")]
    In {
        /// The scenario.
        scenario: String,
        /// What is wrong in it.
        problem: ScenarioProblem,
    },
}

/// What is wrong inside one scenario.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ScenarioProblem {
    /// The devices.
    #[error(transparent)]
    Network(#[from] NetworkErrors),
    /// The positions.
    #[error(transparent)]
    State(#[from] StateError),
    /// A word of a closed vocabulary.
    #[error(transparent)]
    Word(#[from] WordError),
    /// A key that is missing or has no meaning there.
    #[error("device `{device}`: {problem}")]
    Device {
        /// The device.
        device: String,
        /// What is wrong.
        problem: &'static str,
    },
    /// A step that makes no sense.
    #[error("step {step}: {problem}")]
    Step {
        /// Its number.
        step: usize,
        /// What is wrong.
        problem: String,
    },
}

/// Reads every scenario of a file.
///
/// # Errors
/// The first thing in it that makes no sense. Keys that have no meaning are refused, never passed over.
///
/// ```
/// let file = r#"{"format": "switching-scenarios/1", "scenarios": [{
///     "id": "one", "title": "Main", "neutral": {}, "premises_nodes": [], "parallel_approved": [],
///     "devices": [{"id": "utility", "kind": "utility", "node": "service"},
///                 {"id": "main", "kind": "breaker", "from": "service", "to": "bus"}],
///     "initial": {"utility": "dead", "main": "closed"},
///     "steps": [{"n": 1, "do": "open", "device": "main"}]}]}"#;
/// let scenarios = loadworthy::switching::scenarios(file)?;
/// assert_eq!(scenarios[0].steps.len(), 1);
/// # Ok::<(), loadworthy::switching::ScenarioError>(())
/// ```
pub fn scenarios(json: &str) -> Result<Vec<Scenario>, ScenarioError> {
    let file: File = serde_json::from_str(json)?;
    if file.format != "switching-scenarios/1" {
        return Err(ScenarioError::Format(file.format));
    }
    let read = |written: Written| {
        let id = written.id.clone();
        written.read().map_err(|problem| ScenarioError::In { scenario: id, problem })
    };
    file.scenarios.into_iter().map(read).collect()
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    format: String,
    #[serde(default, rename = "provenance")]
    _provenance: IgnoredAny,
    #[serde(default, rename = "notes")]
    _notes: IgnoredAny,
    #[serde(default, rename = "invariants")]
    _invariants: IgnoredAny,
    scenarios: Vec<Written>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    id: String,
    title: String,
    #[serde(default, rename = "arrangement")]
    _arrangement: IgnoredAny,
    neutral: Neutral,
    premises_nodes: Vec<String>,
    parallel_approved: Vec<(String, String)>,
    devices: Vec<WrittenDevice>,
    initial: BTreeMap<String, String>,
    /// Devices that are locked before the first step.
    #[serde(default)]
    locked: Vec<String>,
    steps: Vec<WrittenStep>,
    #[serde(default, rename = "arrangement_findings")]
    _arrangement_findings: IgnoredAny,
    #[serde(default, rename = "expected")]
    _expected: IgnoredAny,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Neutral {
    service_bonded: Option<bool>,
    switched_with_source: Option<bool>,
    /// Bonds beside the service's and the source's; none where the file does not say.
    #[serde(default)]
    other_bonds: u8,
}

#[derive(Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
enum WrittenKind {
    Utility {
        node: String,
    },
    Breaker {
        from: String,
        to: String,
    },
    IsolatingSwitch {
        from: String,
        to: String,
    },
    Joint {
        male_node: String,
        female_node: String,
    },
    Transfer {
        common: String,
        utility_node: String,
        source_node: String,
        has_off: bool,
        break_before_make: Option<bool>,
        /// Said again under `neutral`; a contradiction is refused.
        switches_neutral: Option<bool>,
    },
    Source {
        node: String,
        rated_w: Option<u32>,
        surge_w: Option<u32>,
        leg_rated_w: Option<u32>,
        system: Option<String>,
        neutral_bonded: Option<bool>,
        engine: Option<bool>,
        sequence: Option<String>,
    },
    Load {
        node: String,
        run_w: Option<u32>,
        start_w: Option<u32>,
        volts: Option<u16>,
        leg: Option<String>,
        /// Not shared where the file does not say.
        #[serde(default)]
        shared_neutral: bool,
        /// Any where the file does not say.
        sequence: Option<String>,
    },
    Interlock {
        between: (String, String),
        needs: Option<String>,
        described: Option<bool>,
    },
    Cover {},
}

#[derive(Deserialize)]
struct WrittenDevice {
    id: String,
    #[serde(flatten)]
    kind: WrittenKind,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenStep {
    n: usize,
    #[serde(rename = "do")]
    verb: String,
    device: Option<String>,
    to: Option<String>,
    at: Option<String>,
    isolators: Option<Vec<String>>,
}

impl Written {
    fn read(self) -> Result<Scenario, ScenarioProblem> {
        let mut builder = Network::builder();
        // Interlocks may name a cover that stands after them.
        for device in &self.devices {
            builder = device.add_to(builder, &self.neutral)?;
        }
        for node in &self.premises_nodes {
            builder = builder.premises(node);
        }
        for (first, second) in &self.parallel_approved {
            builder = builder.approved_in_parallel(first, second);
        }
        if let Some(bonded) = self.neutral.service_bonded {
            builder = builder.service_bonded(bonded);
        }
        let network = builder.other_bonds(self.neutral.other_bonds).build()?;

        let mut positions = Vec::with_capacity(self.initial.len());
        for (name, word) in &self.initial {
            positions.push((name.as_str(), word.replace('_', " ").parse::<Position>()?));
        }
        let mut start = network.state(&positions)?;
        for name in &self.locked {
            start = start.with_lock(network.find(name).ok_or_else(|| StateError::UnknownDevice(name.clone()))?);
        }
        let mut steps = Vec::with_capacity(self.steps.len());
        for (number, step) in (1..).zip(&self.steps) {
            let problem = |problem| ScenarioProblem::Step { step: number, problem };
            if step.n != number {
                return Err(problem(format!("it is numbered {}; number the steps from 1", step.n)));
            }
            steps.push(step.read(&network).map_err(problem)?);
        }
        Ok(Scenario { id: self.id, title: self.title, network, start, steps })
    }
}

fn watts(power: Option<u32>) -> Option<Watts> {
    let unit = Watts::UNITS.first()?.count;
    power.and_then(|power| Watts::from_count(i128::from(power) * unit))
}

impl WrittenDevice {
    fn add_to(
        &self,
        builder: super::builder::Builder,
        neutral: &Neutral,
    ) -> Result<super::builder::Builder, ScenarioProblem> {
        let id = self.id.as_str();
        Ok(match &self.kind {
            WrittenKind::Utility { node } => builder.utility(id, node),
            WrittenKind::Breaker { from, to } => builder.breaker(id, from, to),
            WrittenKind::IsolatingSwitch { from, to } => builder.isolating_switch(id, from, to),
            WrittenKind::Joint { male_node, female_node } => builder.joint(id, male_node, female_node),
            WrittenKind::Cover {} => builder.cover(id),
            WrittenKind::Transfer {
                common,
                utility_node,
                source_node,
                has_off,
                break_before_make,
                switches_neutral,
            } => {
                if switches_neutral.is_some() && *switches_neutral != neutral.switched_with_source {
                    return Err(ScenarioProblem::Device {
                        device: id.to_owned(),
                        problem: "`switches_neutral` contradicts `neutral.switched_with_source`; make them agree",
                    });
                }
                let mut facts = Transfer::resting_off(*has_off);
                facts.breaks_before_it_makes = *break_before_make;
                builder.transfer(id, common, utility_node, source_node, facts)
            }
            WrittenKind::Source { node, rated_w, surge_w, leg_rated_w, system, neutral_bonded, engine, sequence } => {
                let mut facts = Source::unknown();
                facts.rated = watts(*rated_w);
                facts.surge = watts(*surge_w);
                facts.leg_rated = watts(*leg_rated_w);
                facts.system = system.as_deref().map(|word| format!("{word} V").parse::<System>()).transpose()?;
                facts.neutral_bonded = *neutral_bonded;
                facts.neutral_switched = neutral.switched_with_source;
                facts.engine = *engine;
                facts.rotation = sequence.as_deref().map(Rotation::find).transpose()?;
                builder.source(id, node, facts)
            }
            WrittenKind::Load { node, run_w, start_w, volts, leg, shared_neutral, sequence } => {
                let mut facts = Load::unknown().shared_neutral(*shared_neutral);
                facts.running = watts(*run_w);
                facts.starting = watts(*start_w);
                facts.voltage = volts.map(Volts::from_whole);
                facts.leg = match leg.as_deref() {
                    Some("AB") => Some(Leg::Both),
                    Some(word) => Some(word.parse()?),
                    None => None,
                };
                facts.rotation = Some(match sequence {
                    Some(word) => RotationNeed::Only(word.parse()?),
                    None => RotationNeed::Any,
                });
                builder.load(id, node, facts)
            }
            WrittenKind::Interlock { between: (first, second), needs, described } => {
                let carried_by = match (needs, described) {
                    (_, Some(false)) => Interlock::NotDescribed,
                    (Some(cover), _) => Interlock::Cover(cover.clone()),
                    (None, _) => Interlock::Devices,
                };
                builder.interlock(first.as_str(), second.as_str(), carried_by)
            }
        })
    }
}

impl WrittenStep {
    fn read(&self, network: &Network) -> Result<Operation, String> {
        use Operation as O;
        let device = || self.find(network, self.device.as_deref(), "device");
        let node = || {
            let name = self.at.as_deref().ok_or("`at` is missing; name a node")?;
            network.node(name).ok_or_else(|| format!("no device touches node `{name}`"))
        };
        let operation = match self.verb.as_str() {
            "close" => O::Close(device()?),
            "open" => O::Open(device()?),
            "set" => {
                let to = self.to.as_deref().ok_or("`to` is missing; write utility, off or source")?;
                O::Set(device()?, to.parse::<Throw>().map_err(|error| error.to_string())?)
            }
            "mate" => O::Mate(device()?),
            "part" => O::Part(device()?),
            "start" => O::Start(device()?),
            "stop" => O::Stop(device()?),
            "on" => O::On(device()?),
            "off" => O::Off(device()?),
            "lock" => O::Lock(device()?),
            "unlock" => O::Unlock(device()?),
            "test" => O::Test(node()?),
            "touch" => {
                let names = self.isolators.as_ref().ok_or("`isolators` is missing; name what is locked")?;
                let found = names.iter().map(|name| self.find(network, Some(name), "isolators"));
                O::Touch(node()?, found.collect::<Result<_, _>>()?)
            }
            "cool" => O::Cool(device()?),
            "refuel" => O::Refuel(device()?),
            "cover_off" => O::CoverOff(device()?),
            "cover_on" => O::CoverOn(device()?),
            "utility_returns" => O::UtilityReturns(device()?),
            "utility_fails" => O::UtilityFails(device()?),
            other => return Err(format!("`{other}` is not a known operation")),
        };
        network.check_fits(operation).map_err(|error| error.to_string())?;
        Ok(operation)
    }

    fn find(&self, network: &Network, name: Option<&str>, key: &str) -> Result<DeviceId, String> {
        let name = name.ok_or_else(|| format!("`{key}` is missing; name a device"))?;
        network.find(name).ok_or_else(|| format!("no device is called `{name}`"))
    }
}
