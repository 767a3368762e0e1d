//! What a plan says.

use super::{JudgedOrder, Lasting, Starts, Whole};
use crate::check;
use crate::plan::choose::{Breach, ClassWorth, Proof};
use crate::plan::order::LimitBroken;
use crate::plan::{Answer, Question, Verdict};
use crate::quantity::{Amperes, VoltAmperes, Watts};
use crate::site::{Site, Source};
use crate::trade::Leg;

/// The plan of a site.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SitePlan {
    /// The site as planned: what stays off does not run, and each load that is on has its leg. Check it to see the path.
    pub planned: Site,
    /// The source.
    pub source: String,
    /// Whether a plan exists and holds, the path with it.
    pub verdict: Verdict,
    /// The verdict of every rule on the site as planned.
    pub path: check::Verdict,
    /// What the site draws besides its described loads.
    pub base: Watts,
    /// The same as the currents of leg A and leg B.
    pub base_currents: [Amperes; 2],
    /// Where that is known from.
    pub base_from: BaseFrom,
    /// The plan itself.
    pub body: Body,
    /// The calculated load of the whole dwelling beside what the source gives; `None` where it is not described.
    pub whole: Option<Whole>,
    /// What comes of the order of starts that was proposed.
    pub proposed: Option<JudgedOrder>,
    /// The facts that are missing.
    pub questions: Vec<Question>,
    /// What was not stated and was taken on the cautious side.
    pub notes: Vec<String>,
}

/// Where a base load is known from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum BaseFrom {
    /// Nobody has said; only described loads are counted.
    NotStated,
    /// The description.
    Stated,
    /// A record of a meter.
    Measured,
}

/// A plan, or why there is none.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Body {
    /// Something about the arrangement is prohibited everywhere; it is not planned.
    Prohibited,
    /// A fact is missing on which everything depends.
    CannotTell,
    /// What must be on cannot be, for these reasons.
    Impossible(Vec<String>),
    /// A plan.
    Plan(Box<Plan>),
}

/// What runs, how it starts and how long it lasts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// The loads that can stay on together.
    pub on: Vec<On>,
    /// The loads that are kept off.
    pub off: Vec<KeptOff>,
    /// The currents of leg A and leg B, the apparent and the real power with all on, rounded up.
    pub legs: ([Amperes; 2], VoltAmperes, Watts),
    /// The current of the neutral, rounded up; `None` where there is no neutral.
    pub neutral: Option<Amperes>,
    /// The weights that are on by priority: class 0 is priority 1, class 255 what has none.
    pub worth: Vec<ClassWorth>,
    /// Whether no better set exists, or what one can be worth at most.
    pub proof: Proof,
    /// The pairs that must not run at once.
    pub apart: Vec<(String, String)>,
    /// Turns in which every load that can be on at all is; empty where one turn holds all.
    pub rotation: Vec<Vec<String>>,
    /// Loads that no turn can hold, not even alone beside those that must be on.
    pub never: Vec<String>,
    /// How they start.
    pub starts: Starts,
    /// How long it lasts.
    pub lasting: Lasting,
}

/// A load that is on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct On {
    /// Its name.
    pub name: String,
    /// Its leg.
    pub leg: Leg,
    /// What it draws in each line, rounded up.
    pub current: Amperes,
    /// Its real power, rounded up.
    pub power: Watts,
}

/// A load that is kept off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptOff {
    /// Its name.
    pub name: String,
    /// Why.
    pub why: Why,
}

/// Why a load is kept off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Why {
    /// It is wished off.
    Wished,
    /// A fact is missing.
    NotStated(Vec<Question>),
    /// A member of its exclusion group is on.
    Excluded(String),
    /// It would break these limits.
    Breaks(Vec<Breach>),
    /// It would break these limits while it, or an automatic load beside it, starts.
    Start(Vec<LimitBroken>),
    /// In words.
    Said(String),
}

impl SitePlan {
    pub(super) fn of(site: &Site, source: &Source) -> Self {
        Self {
            planned: site.clone(),
            source: source.name.as_str().to_owned(),
            verdict: Verdict::CannotTell,
            path: check::Verdict::CannotTell,
            base: Watts::MIN,
            base_currents: [Amperes::ZERO; 2],
            base_from: BaseFrom::NotStated,
            body: Body::CannotTell,
            whole: None,
            proposed: None,
            questions: Vec::new(),
            notes: Vec::new(),
        }
    }
}

impl Plan {
    /// The verdict of the starts and of the time that is wished.
    pub(super) fn verdict(&self) -> Verdict {
        let wished = self.lasting.wished.as_ref().map_or(Verdict::Holds, |wished| wished.verdict);
        self.starts.verdict.and(wished)
    }

    pub(super) fn questions(&self, into: &mut Vec<Question>) {
        for answer in [&self.lasting.expected, &self.lasting.worst] {
            if let Answer::CannotTell(questions) = answer {
                into.extend(questions.iter().cloned());
            }
        }
    }
}

impl std::fmt::Display for Why {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let list = |parts: Vec<String>| parts.join("; ");
        match self {
            Self::Wished => out.write_str("it is wished off"),
            Self::NotStated(questions) => out.write_str(&list(
                questions.iter().map(|question| format!("{} is not stated", question.fact)).collect(),
            )),
            Self::Excluded(by) => write!(out, "`{by}` of the same group is on"),
            Self::Breaks(breaches) if breaches.is_empty() => out.write_str("no leg carries it beside the others"),
            Self::Breaks(breaches) => out.write_str(&list(
                breaches.iter().map(|breach| format!("{} by {}", breach.limit, breach.over)).collect(),
            )),
            Self::Start(broken) if broken.is_empty() => out.write_str("it cannot be started beside the others"),
            Self::Start(broken) => {
                write!(out, "while it starts, {}", list(broken.iter().map(ToString::to_string).collect()))
            }
            Self::Said(words) => out.write_str(words),
        }
    }
}
