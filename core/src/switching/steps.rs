//! Somebody's own steps for a site, in TOML.
//!
//! ```toml
//! # Where a device stands before the first step, where that is not its normal position.
//! [start]
//! "breaker of kitchen circuit" = "open"
//!
//! [[step]]
//! do = "open"
//! device = "main breaker of main panel"
//! ```
//!
//! `do` is a word of [`Do`]. `set` wants `to` (`utility`, `off` or `source`); `test` and `touch` want `at`, the component
//! that a conductor begins at, in place of `device`; `touch` wants `isolators`, the devices that are locked for it.

use super::device::Throw;
use super::network::{DeviceId, Network, NodeId};
use super::operation::Operation;
use super::site::{Arrangement, Unmapped};
use super::state::{Position, State};
use crate::rules::Survey;
use crate::trade::{Word, nearest, words};
use std::fmt::Display;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

words! {
    /// What a step does.
    pub enum Do: "step" {
        /// Closes a breaker.
        Close = "close",
        /// Opens a breaker.
        Open = "open",
        /// Sets a transfer switch.
        Set = "set",
        /// Puts a plug in.
        Mate = "mate",
        /// Takes a plug out.
        Part = "part",
        /// Starts a source.
        Start = "start",
        /// Stops a source.
        Stop = "stop",
        /// Switches a load on.
        On = "switch on" | "on",
        /// Switches a load off.
        Off = "switch off" | "off",
        /// Locks a device where it stands.
        Lock = "lock",
        /// Takes the lock off.
        Unlock = "unlock",
        /// Tests that a conductor is dead.
        Test = "test",
        /// Touches a conductor.
        Touch = "touch",
        /// Waits until an engine is cold.
        Cool = "let cool" | "cool",
        /// Refuels an engine.
        Refuel = "refuel",
        /// Takes a cover off.
        CoverOff = "take cover off" | "cover_off",
        /// Puts a cover on.
        CoverOn = "put cover on" | "cover_on",
        /// The utility returns.
        UtilityReturns = "utility returns" | "utility_returns",
        /// The utility fails.
        UtilityFails = "utility fails" | "utility_fails",
    }
}

/// Steps that were understood.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Steps {
    /// The state before the first.
    pub start: State,
    /// The operations.
    pub operations: Vec<Operation>,
}

/// One thing wrong with a file of steps.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{at}: {what}")]
#[non_exhaustive]
pub struct StepProblem {
    /// A stable name for programs, one of those of a description's problems: `unknown-field`, `dangling-reference`.
    pub code: &'static str,
    /// File, line and column, such as `steps.toml:3:6`; the file alone where all of it is meant.
    pub at: String,
    /// The line, from 1; 0 where all of the file is meant.
    pub line: usize,
    /// The column in characters, from 1; 0 where all of the file is meant.
    pub column: usize,
    /// The field: `step[2].device`, `start.main breaker`.
    pub path: String,
    /// What is wrong, and what to write.
    pub what: String,
}

/// Everything wrong with a file of steps.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))]
pub struct StepProblems(pub Vec<StepProblem>);

impl StepProblems {
    pub(super) fn whole(file: &str, what: &impl Display) -> Self {
        let (at, what, path) = (file.to_owned(), what.to_string(), String::new());
        Self(vec![StepProblem { code: "not-laid-out", at, line: 0, column: 0, path, what }])
    }
}

impl Steps {
    /// Reads steps; they are about the arrangement that has the first device they name.
    pub(super) fn read(survey: &Survey<'_>, file: &str, text: &str) -> Result<(Arrangement, Self), StepProblems> {
        let mut reader = Reader { file, text, problems: Vec::new() };
        let (table, errors) = DeTable::parse_recoverable(text);
        for error in errors {
            let what = error.message().split_whitespace().collect::<Vec<_>>().join(" ");
            let span = error.span().unwrap_or(0..0);
            reader.note("syntax", &At { span, path: String::new() }, format!("this is not well-formed TOML: {what}"));
        }
        if !reader.problems.is_empty() {
            return Err(StepProblems(reader.problems));
        }
        let written = reader.document(table.get_ref());
        // A description does not say whether a switch rests between its sides: steps that set it so say that it does.
        let rests = written.iter().any(|step| step.word("to").is_some_and(|word| word.eq_ignore_ascii_case("off")));
        let whole = |error: Unmapped| StepProblems::whole(file, &error);
        let arrangements = Arrangement::with_rest(survey, rests).map_err(whole)?;
        let names = || written.iter().filter_map(|step| step.word("device"));
        let place = arrangements.iter().position(|found| names().any(|name| found.network.find(name).is_some()));
        let Some(arrangement) = arrangements.into_iter().nth(place.unwrap_or(0)) else {
            return Err(StepProblems::whole(file, &"the site describes no source, so that there is nothing to switch"));
        };
        let network = &arrangement.network;
        let mut start = arrangement.normal;
        for (key, value) in reader.section(table.get_ref(), "start") {
            start = reader.position(network, start, key, value);
        }
        let operations: Vec<Operation> = written.iter().filter_map(|step| reader.step(network, step)).collect();
        if written.is_empty() && reader.problems.is_empty() {
            let at = At { span: 0..0, path: "step".to_owned() };
            reader.note("missing-field", &at, "there is no step; write `[[step]]` tables with `do` and `device`");
        }
        if reader.problems.is_empty() {
            Ok((arrangement, Self { start, operations }))
        } else {
            Err(StepProblems(reader.problems))
        }
    }
}

const FIELDS: [&str; 5] = ["do", "device", "to", "at", "isolators"];

/// Where something stands in the text and in the document.
#[derive(Clone)]
struct At {
    span: Range<usize>,
    path: String,
}

/// A step as it was written.
struct Written<'t> {
    at: At,
    table: &'t DeTable<'t>,
}

impl<'t> Written<'t> {
    fn at(&self, field: &str, span: Range<usize>) -> At {
        At { span, path: format!("{}.{field}", self.at.path) }
    }

    fn get(&self, field: &str) -> Option<&'t Spanned<DeValue<'t>>> {
        self.table.iter().find(|(key, _)| key.get_ref() == field).map(|(_, value)| value)
    }

    fn word(&self, field: &str) -> Option<&'t str> {
        match self.get(field)?.get_ref() {
            DeValue::String(text) => Some(text.as_ref()),
            _ => None,
        }
    }
}

struct Reader<'t> {
    file: &'t str,
    text: &'t str,
    problems: Vec<StepProblem>,
}

impl<'t> Reader<'t> {
    fn note(&mut self, code: &'static str, at: &At, what: impl Into<String>) {
        let before = self.text.get(..at.span.start).unwrap_or(self.text);
        let line = before.matches('\n').count() + 1;
        let column = before.rsplit('\n').next().map_or(0, |last| last.chars().count()) + 1;
        let place = format!("{}:{line}:{column}", self.file);
        let (path, what) = (at.path.clone(), what.into());
        self.problems.push(StepProblem { code, at: place, line, column, path, what });
    }

    fn document(&mut self, table: &'t DeTable<'t>) -> Vec<Written<'t>> {
        let mut steps = Vec::new();
        for (key, value) in table.iter() {
            let at = |span| At { span, path: key.get_ref().clone().into_owned() };
            match (key.get_ref().as_ref(), value.get_ref()) {
                ("step", DeValue::Array(items)) => {
                    for (index, item) in items.iter().enumerate() {
                        let at = At { span: item.span(), path: format!("step[{index}]") };
                        match item.get_ref() {
                            DeValue::Table(table) => steps.push(Written { at, table }),
                            _ => self.note("wrong-type", &at, "this is no table; write `[[step]]`"),
                        }
                    }
                }
                ("start", DeValue::Table(_)) => {}
                ("step", _) => {
                    self.note("wrong-type", &at(value.span()), "this is no list of steps; write `[[step]]`");
                }
                ("start", _) => {
                    self.note("wrong-type", &at(value.span()), "this is no table; write `[start]`");
                }
                (other, _) => {
                    let advice = near(other, ["start", "step"].into_iter());
                    let what = format!("`{other}` is not a field of a file of steps; {advice}");
                    self.note("unknown-field", &at(key.span()), what);
                }
            }
        }
        for step in &steps {
            for (key, _) in step.table.iter().filter(|(key, _)| !FIELDS.contains(&key.get_ref().as_ref())) {
                let advice = near(key.get_ref(), FIELDS.into_iter());
                let at = step.at(key.get_ref(), key.span());
                self.note("unknown-field", &at, format!("`{}` is not a field of a step; {advice}", key.get_ref()));
            }
        }
        steps
    }

    fn section(
        &self,
        table: &'t DeTable<'t>,
        name: &str,
    ) -> Vec<(&'t Spanned<std::borrow::Cow<'t, str>>, &'t Spanned<DeValue<'t>>)> {
        let found = table.iter().find(|(key, _)| key.get_ref() == name);
        match found.map(|(_, value)| value.get_ref()) {
            Some(DeValue::Table(table)) => table.iter().collect(),
            _ => Vec::new(),
        }
    }

    fn position(
        &mut self,
        network: &Network,
        state: State,
        key: &Spanned<std::borrow::Cow<'_, str>>,
        value: &Spanned<DeValue<'_>>,
    ) -> State {
        let at = |span| At { span, path: format!("start.{}", key.get_ref()) };
        let Some(device) = self.device(network, key.get_ref(), &at(key.span())) else { return state };
        let at = at(value.span());
        let DeValue::String(text) = value.get_ref() else {
            self.note("wrong-type", &at, "this is no text; write a position such as \"open\"");
            return state;
        };
        let moved = Position::find(text).map_err(|error| ("unknown-word", error.to_string())).and_then(|position| {
            network.moved(state, device, position).map_err(|error| ("contradiction", error.to_string()))
        });
        moved.unwrap_or_else(|(code, what)| {
            self.note(code, &at, what);
            state
        })
    }

    fn step(&mut self, network: &Network, step: &Written<'t>) -> Option<Operation> {
        use Operation as O;
        let verb = self.text_of(step, "do", "a step such as \"open\"")?;
        let verb = self.word::<Do>(verb)?;
        let mut device = || {
            let (name, at) = self.text_of(step, "device", "the name of a device")?;
            self.device(network, name, &at)
        };
        let operation = match verb {
            Do::Close => O::Close(device()?),
            Do::Open => O::Open(device()?),
            Do::Mate => O::Mate(device()?),
            Do::Part => O::Part(device()?),
            Do::Start => O::Start(device()?),
            Do::Stop => O::Stop(device()?),
            Do::On => O::On(device()?),
            Do::Off => O::Off(device()?),
            Do::Lock => O::Lock(device()?),
            Do::Unlock => O::Unlock(device()?),
            Do::Cool => O::Cool(device()?),
            Do::Refuel => O::Refuel(device()?),
            Do::CoverOff => O::CoverOff(device()?),
            Do::CoverOn => O::CoverOn(device()?),
            Do::UtilityReturns => O::UtilityReturns(device()?),
            Do::UtilityFails => O::UtilityFails(device()?),
            Do::Set => {
                let device = device()?;
                let to = self.text_of(step, "to", "utility, off or source")?;
                O::Set(device, self.word::<Throw>(to)?)
            }
            Do::Test => O::Test(self.node(network, step)?),
            Do::Touch => {
                let node = self.node(network, step)?;
                O::Touch(node, self.isolators(network, step)?.into_iter().collect())
            }
        };
        if let Err(error) = network.check_fits(operation) {
            let span = step.get("do").map_or(step.at.span.clone(), Spanned::span);
            self.note("wrong-kind-of-reference", &step.at("do", span), error.to_string());
            return None;
        }
        Some(operation)
    }

    fn text_of(&mut self, step: &Written<'t>, field: &str, wanted: &str) -> Option<(&'t str, At)> {
        let Some(value) = step.get(field) else {
            let at = step.at(field, step.at.span.clone());
            self.note("missing-field", &at, format!("a step needs `{field}`; write {wanted}"));
            return None;
        };
        let at = step.at(field, value.span());
        let DeValue::String(text) = value.get_ref() else {
            self.note("wrong-type", &at, format!("this is no text; write {wanted}"));
            return None;
        };
        Some((text.as_ref(), at))
    }

    fn word<W: Word>(&mut self, (text, at): (&str, At)) -> Option<W> {
        W::find(text).map_err(|error| self.note("unknown-word", &at, error.to_string())).ok()
    }

    fn device(&mut self, network: &Network, name: &str, at: &At) -> Option<DeviceId> {
        let found = network.find(name);
        if found.is_none() {
            let advice = near(name, names(network).into_iter());
            self.note("dangling-reference", at, format!("no device is called `{name}`; {advice}"));
        }
        found
    }

    fn node(&mut self, network: &Network, step: &Written<'t>) -> Option<NodeId> {
        let (name, at) = self.text_of(step, "at", "the component that the conductor begins at")?;
        let found = network.node(name);
        if found.is_none() {
            let advice = near(name, nodes(network).into_iter());
            self.note("dangling-reference", &at, format!("no conductor begins at `{name}`; {advice}"));
        }
        found
    }

    fn isolators(&mut self, network: &Network, step: &Written<'t>) -> Option<Vec<DeviceId>> {
        let wanted = "the devices that are locked for it, such as [\"main breaker of main panel\"]";
        let Some(value) = step.get("isolators") else {
            let at = step.at("isolators", step.at.span.clone());
            self.note("missing-field", &at, format!("a step that touches needs `isolators`; write {wanted}"));
            return None;
        };
        let DeValue::Array(items) = value.get_ref() else {
            self.note("wrong-type", &step.at("isolators", value.span()), format!("this is no list; write {wanted}"));
            return None;
        };
        let mut all = Vec::new();
        for item in items.iter() {
            let at = step.at("isolators", item.span());
            let DeValue::String(name) = item.get_ref() else {
                self.note("wrong-type", &at, format!("this is no text; write {wanted}"));
                return None;
            };
            all.push(self.device(network, name, &at)?);
        }
        Some(all)
    }
}

/// The near word, or the first of the words to choose from.
fn near<'a>(text: &str, words: impl Iterator<Item = &'a str> + Clone) -> String {
    const MOST: usize = 12;
    match nearest(text, words.clone()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => {
            let listed: Vec<&str> = words.clone().take(MOST).collect();
            let more = if words.count() > MOST { ", …" } else { "" };
            format!("write one of: {}{more}", listed.join(", "))
        }
    }
}

fn names(network: &Network) -> Vec<&str> {
    network.devices().map(|(_, name, _)| name).collect()
}

fn nodes(network: &Network) -> Vec<&str> {
    network.node_ids().map(|node| network.node_name(node)).collect()
}
