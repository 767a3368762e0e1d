//! What rules find: data while it is gathered, text only when it is shown.

use std::cell::OnceCell;
use std::fmt;

use super::{Rule, Severity};
use crate::calc::{CannotTell, Step, Working};
use crate::quantity::{Amperes, Hertz, Meters, Ratio, Seconds, VoltAmperes, Volts, WattHours, Written};
use crate::site::{Component, ComponentId};
use crate::trade::{Contacts, CordType, Material, System, WireSize};

/// How a check ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// The rule holds.
    Holds,
    /// The rule fails.
    Fails,
    /// A fact is missing, so that neither can be said.
    CannotTell,
}

impl Outcome {
    /// As a verb.
    #[must_use]
    pub const fn verb(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::Fails => "fails",
            Self::CannotTell => "cannot tell",
        }
    }
}

/// One thing that a rule examined, and what it found.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The rule.
    pub rule: &'static Rule,
    /// The topics of `sections.csv` that it rests on: those of its rule, or what of them governs here.
    pub topics: &'static [&'static str],
    /// How it ended.
    pub outcome: Outcome,
    /// What was examined.
    pub subject: ComponentId,
    /// The field that decided, for its place in the document.
    pub field: &'static str,
    /// What was measured, against what.
    pub said: Said,
    /// What would mend it.
    pub remedy: Option<Remedy>,
    /// The working, where it was asked for.
    pub working: Vec<Step>,
}

/// What a finding says of its subject. The words are fragments of one sentence: `cord K` + `carries 22 A`...
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Said {
    /// The subject does something that is compared with a limit.
    Compared {
        /// `carries`
        does: &'static str,
        /// The value measured.
        measured: Value,
        /// `its ampacity is`
        limit_words: &'static str,
        /// The limit.
        limit: Value,
    },
    /// The subject and another component.
    Joined {
        /// `its plug`
        words: &'static str,
        /// What the subject has.
        mine: Value,
        /// `does not enter`
        verb: &'static str,
        /// The other component.
        other: ComponentId,
        /// What the other has.
        theirs: Value,
    },
    /// A plain statement.
    Plain(&'static str),
    /// A fact is not stated: `the wire size`.
    NotStated(&'static str),
    /// A table does not tell.
    Gap(CannotTell),
    /// The description acknowledges the findings of a rule.
    Acknowledges {
        /// How it names the rule.
        slug: String,
        /// How grave that rule is; `None` where there is none of that name.
        severity: Option<Severity>,
        /// A caution of a near name, where there is no rule of this one.
        near: Option<&'static str>,
    },
}

/// A value in a finding, printed only when shown.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Value {
    /// A current.
    Current(Amperes),
    /// A voltage.
    Voltage(Volts),
    /// A share of a voltage.
    ShareOfVoltage(Ratio),
    /// A wire size.
    Size(WireSize),
    /// A size and its material.
    Wire(WireSize, Material),
    /// A length, in the unit that it was written in.
    Length(Written<Meters>),
    /// Contacts of a connection.
    Contacts(Contacts),
    /// A supply system.
    System(System),
    /// A cord type.
    Cord(CordType),
    /// An apparent power.
    Apparent(VoltAmperes),
    /// An energy.
    Energy(WattHours),
    /// A share.
    Share(Ratio),
    /// A frequency.
    Frequency(Hertz),
    /// A duration, in the unit that it was written in.
    Time(Written<Seconds>),
    /// A count.
    Count(u16),
    /// A word.
    Word(&'static str),
}

impl fmt::Display for Value {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Current(value) => value.fmt(out),
            Self::Voltage(value) => value.fmt(out),
            Self::ShareOfVoltage(value) => write!(out, "{value} of its voltage"),
            Self::Size(value) => value.fmt(out),
            Self::Wire(size, material) => write!(out, "{size} {material}"),
            Self::Length(value) => value.fmt(out),
            Self::Contacts(value) => value.fmt(out),
            Self::System(value) => value.fmt(out),
            Self::Cord(value) => value.fmt(out),
            Self::Apparent(value) => value.fmt(out),
            Self::Energy(value) => value.fmt(out),
            Self::Share(value) => value.fmt(out),
            Self::Frequency(value) => value.fmt(out),
            Self::Time(value) => value.fmt(out),
            Self::Count(value) => value.fmt(out),
            Self::Word(value) => value.fmt(out),
        }
    }
}

/// What would mend a failure.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Remedy {
    /// In words.
    Do(&'static str),
    /// In words, with the least or greatest value that would do.
    Use(&'static str, Value),
}

impl fmt::Display for Remedy {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Do(words) => out.write_str(words),
            Self::Use(words, value) => write!(out, "{words} {value}"),
        }
    }
}

/// Where rules put what they find.
#[derive(Debug, Default)]
pub struct Findings {
    found: Vec<Finding>,
    rule: Option<&'static Rule>,
    topics: Option<&'static [&'static str]>,
    wanted: bool,
    steps: Vec<Step>,
}

/// A rule's calculations write their working here; it is dropped unless it was asked for.
impl Working for Findings {
    #[inline]
    fn step(&mut self, step: impl FnOnce() -> Step) {
        if self.wanted {
            self.steps.push(step());
        }
    }
}

impl Findings {
    /// For a site of so many components: rules that examine a component find about eight things of it.
    pub(crate) fn new(working_wanted: bool, components: usize) -> Self {
        Self { wanted: working_wanted, found: Vec::with_capacity(128 + 8 * components), ..Self::default() }
    }

    pub(crate) fn begin(&mut self, rule: &'static Rule) {
        self.rule = Some(rule);
        self.topics = None;
        self.steps.clear();
    }

    pub(crate) fn into_found(self) -> Vec<Finding> {
        self.found
    }

    /// The next findings rest on these topics only; on all of the rule's where nothing is said.
    pub(crate) fn rest_on(&mut self, topics: Option<&'static [&'static str]>) {
        self.topics = topics;
    }

    /// Whether every finding is to carry its working.
    pub(super) fn wants_working(&self) -> bool {
        self.wanted
    }

    /// What several rules ask, reckoned when the first of them does; and each time where the working is wanted, which
    /// every finding carries whole.
    pub(super) fn once<T: Copy>(&mut self, kept: Option<&OnceCell<T>>, reckon: impl FnOnce(&mut Self) -> T) -> T {
        match kept {
            Some(kept) if !self.wanted => *kept.get_or_init(|| reckon(self)),
            _ => reckon(self),
        }
    }

    /// Starts the working of the next finding afresh.
    pub(crate) fn afresh(&mut self) {
        self.steps.clear();
    }

    #[inline]
    fn push(&mut self, outcome: Outcome, of: (ComponentId, &'static str), said: Said, remedy: Option<Remedy>) {
        let Some(rule) = self.rule else { return };
        let working = std::mem::take(&mut self.steps);
        let (subject, field) = of;
        let topics = self.topics.unwrap_or(rule.topics);
        self.found.push(Finding { rule, topics, outcome, subject, field, said, remedy, working });
    }

    /// The rule holds, or fails with a remedy.
    pub(crate) fn judge<'a>(
        &mut self,
        of: impl Into<Component<'a>>,
        field: &'static str,
        holds: bool,
        said: Said,
        remedy: Remedy,
    ) {
        let outcome = if holds { Outcome::Holds } else { Outcome::Fails };
        self.push(outcome, (of.into().id(), field), said, (!holds).then_some(remedy));
    }

    /// The rule holds, or fails with a remedy, for a part of the description that is no component.
    pub(crate) fn judge_part(
        &mut self,
        part: ComponentId,
        field: &'static str,
        holds: bool,
        said: Said,
        remedy: Remedy,
    ) {
        let outcome = if holds { Outcome::Holds } else { Outcome::Fails };
        self.push(outcome, (part, field), said, (!holds).then_some(remedy));
    }

    /// A fact of a component by its id, or of a part of the description that is none, is not stated.
    pub(crate) fn ask_part(&mut self, part: ComponentId, field: &'static str, fact: &'static str) {
        self.push(Outcome::CannotTell, (part, field), Said::NotStated(fact), None);
    }

    /// Neither can be said of a part of the description that is no component, for a reason of its own.
    pub(crate) fn undecided_part(&mut self, part: ComponentId, field: &'static str, said: Said) {
        self.push(Outcome::CannotTell, (part, field), said, None);
    }

    /// A fact is not stated.
    pub(crate) fn ask<'a>(&mut self, of: impl Into<Component<'a>>, field: &'static str, fact: &'static str) {
        self.push(Outcome::CannotTell, (of.into().id(), field), Said::NotStated(fact), None);
    }

    /// Neither can be said, for a reason of its own.
    pub(crate) fn undecided<'a>(&mut self, of: impl Into<Component<'a>>, field: &'static str, said: Said) {
        self.push(Outcome::CannotTell, (of.into().id(), field), said, None);
    }

    /// A table does not tell.
    pub(crate) fn gap<'a>(&mut self, of: impl Into<Component<'a>>, field: &'static str, gap: CannotTell) {
        self.push(Outcome::CannotTell, (of.into().id(), field), Said::Gap(gap), None);
    }
}
