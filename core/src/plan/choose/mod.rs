//! The best set of loads that can stay on together, each on its leg.
//!
//! Best means: as much weight as possible in the most important class; of the sets that have it, as much as
//! possible in the next; and so on. The answer is exactly the best, or says that it is not proven and how much
//! better another set could be at most. The same input always gives the same answer.
//!
//! ```
//! use loadworthy::plan::choose::{Choice, Limits, Load, Placement, choose};
//! use loadworthy::plan::Draw;
//! use loadworthy::quantity::PowerFactor;
//!
//! let draw = |text: &str| -> Result<_, Box<dyn std::error::Error>> {
//!     Ok(Draw::from_current(text.parse()?, "120 V".parse()?, PowerFactor::UNITY))
//! };
//! // A leg of 39.6 A does not carry 17 A and 28 A; two legs do.
//! let loads = [Load::new("pump", draw("17 A")?, Placement::Either), Load::new("heater", draw("28 A")?, Placement::Either)];
//! let limits = Limits::per_leg("39.6 A".parse()?);
//! let Choice::Found(chosen) = choose(&loads, &limits)? else { return Err("no choice".into()) };
//! assert_eq!(chosen.on.len(), 2);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod bound;
mod complete;
mod fill;
mod kept_off;
mod limits;
mod problem;
mod rotation;
mod search;

use std::num::NonZeroU32;

use super::{Draw, Known, Question};
use crate::interrupt::Interrupt;
use crate::trade::{Duty, Leg};

pub use kept_off::{Amount, Breach, KeptOff, Reason};
pub use limits::{LegLimit, LimitName, Limits, NeutralCurrent, NeutralLimit, Surge};
pub use rotation::{Rotation, pairs_apart, rotation};

/// A load that may be carried.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Load {
    /// Its name, for reports.
    pub name: String,
    /// What it draws; `None` where nobody has said: it is then kept off, and asked for.
    pub draw: Option<Draw>,
    /// Which legs it may use.
    pub placement: Placement,
    /// Whether it lasts three hours or more.
    pub duty: Duty,
    /// The class of importance: 0 comes before everything.
    pub class: u8,
    /// What it is worth beside others of its class.
    pub weight: NonZeroU32,
    /// What the user wants.
    pub wish: Wish,
    /// The groups of which only one member may be on.
    pub groups: Vec<u16>,
    /// The limits of [`Limits::shared`] that it passes through, by their index.
    pub through: Vec<usize>,
    /// What it draws while it starts, where it comes on by itself beside all that is on.
    pub start: Option<Draw>,
}

/// Which legs a load may use.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Placement {
    /// Leg A and the neutral.
    A,
    /// Leg B and the neutral.
    B,
    /// Between both legs.
    Both,
    /// Either leg, whichever serves better.
    Either,
}

/// What the user wants of a load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Wish {
    /// It must be on, or there is no answer.
    Must,
    /// On if it can be.
    WouldLike,
    /// Off.
    Off,
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Choice {
    /// A set was found.
    Found(Chosen),
    /// The loads that must be on do not fit together: what each limit would be exceeded by at least. Where no
    /// single limit says so, the list is empty and no assignment of legs serves.
    Impossible(Vec<Breach>),
    /// A fact is missing that everything depends on.
    CannotTell(Vec<Question>),
}

/// The loads that stay on, and those that do not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chosen {
    /// Each load that is on, by its index, with the leg that carries it, in the order given.
    pub on: Vec<(usize, Leg)>,
    /// Each load that is off, in the order given, and why.
    pub off: Vec<KeptOff>,
    /// The weight that is on, by class, most important first; classes with nothing on are listed with 0.
    pub worth: Vec<ClassWorth>,
    /// Whether this is the best.
    pub proof: Proof,
    /// Whether draws had to be rounded up because no common unit holds them all; a set that is exactly at a limit
    /// may then have been passed over, and never has one over a limit been taken.
    pub rounded: bool,
    /// Facts that are missing, of loads that are off for it.
    pub questions: Vec<Question>,
    /// The work that it took.
    pub nodes: u64,
}

/// The weight of one class.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ClassWorth {
    /// The class.
    pub class: u8,
    /// The sum of the weights.
    pub weight: u64,
}

/// How sure it is that no better set exists.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Proof {
    /// No set is better.
    Best,
    /// The limit of work was reached: no set is better than this, compared class by class; whether one exists that
    /// is better than the answer is open.
    NotProven {
        /// No set is worth more.
        at_most: Vec<ClassWorth>,
    },
}

/// An input that cannot be.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ChooseError {
    /// A load names a shared limit that is not there.
    #[error("load `{load}` passes through limit {index}, but there are {count}")]
    NoSuchLimit {
        /// The load.
        load: String,
        /// The index it names.
        index: usize,
        /// How many shared limits there are.
        count: usize,
    },
    /// More classes and weights than can be told apart.
    #[error("the weights span too wide a range over {classes} classes; use fewer classes or smaller weights")]
    WorthTooWide {
        /// How many classes are in use.
        classes: usize,
    },
    /// A number with more parts than 128 bits hold.
    #[error("the draw of load `{load}` cannot be held exactly; write it with fewer decimals")]
    TooFine {
        /// The load.
        load: String,
    },
    /// More loads than the search takes.
    #[error("{found} loads are more than the {most} that are taken at once; group some of them")]
    TooMany {
        /// How many there are.
        found: usize,
        /// The most.
        most: usize,
    },
}

/// The most loads taken at once.
pub const MOST_LOADS: usize = 500;

/// The work after which the best set found so far comes back as not proven: a second at most. It is
/// a count and not a time, so that the same input always has the same answer.
pub const MOST_NODES: u64 = 8_000_000;

/// Chooses the best set, within [`MOST_NODES`].
///
/// # Errors
/// An input that cannot be: see [`ChooseError`].
pub fn choose(loads: &[Load], limits: &Limits) -> Result<Choice, ChooseError> {
    choose_within(loads, limits, MOST_NODES)
}

/// Chooses the best set with a limit of work of your own.
///
/// # Errors
/// An input that cannot be: see [`ChooseError`].
pub fn choose_within(loads: &[Load], limits: &Limits, most_nodes: u64) -> Result<Choice, ChooseError> {
    choose_unless(loads, limits, most_nodes, &Interrupt::never())
}

/// Chooses as [`choose_within`] does, but gives what it has when it is interrupted: not proven, as at the limit of work.
pub(super) fn choose_unless(
    loads: &[Load],
    limits: &Limits,
    most_nodes: u64,
    interrupt: &Interrupt,
) -> Result<Choice, ChooseError> {
    if loads.len() > MOST_LOADS {
        return Err(ChooseError::TooMany { found: loads.len(), most: MOST_LOADS });
    }
    let questions = questions(loads, limits);
    if !questions.is_empty() {
        return Ok(Choice::CannotTell(questions));
    }
    let problem = problem::Problem::new(loads, limits)?;
    let found = search::search(&problem, most_nodes, interrupt);
    let Some(best) = found.best else {
        return Ok(match found.open {
            None => Choice::Impossible(kept_off::musts(&problem)),
            // Nothing was found and nothing is proven.
            Some(_) => Choice::CannotTell(vec![Question::new(
                "the loads that must be on",
                "an assignment of legs that serves",
                "whether they fit; the limit of work was reached",
            )]),
        });
    };
    let proof = match found.open {
        Some(open) if open > best.worth => Proof::NotProven { at_most: problem.classes.weights(open) },
        _ => Proof::Best,
    };
    let (on, off) = kept_off::explain(loads, &problem, &best.ways);
    let unknown = loads.iter().filter(|load| load.draw.is_none() && load.wish == Wish::WouldLike);
    Ok(Choice::Found(Chosen {
        on,
        off,
        worth: problem.classes.weights(best.worth),
        proof,
        rounded: problem.rounded,
        questions: unknown.map(|load| Question::new(&load.name, DRAW, "whether it can be on")).collect(),
        nodes: found.nodes,
    }))
}

const DRAW: &str = "the draw";

/// The questions without whose answers nothing can be told.
fn questions(loads: &[Load], limits: &Limits) -> Vec<Question> {
    let mut questions = limits.questions();
    let unknown = loads.iter().filter(|load| load.draw.is_none() && load.wish == Wish::Must);
    questions.extend(unknown.map(|load| Question::new(&load.name, DRAW, "whether everything fits")));
    questions
}

impl Load {
    /// A non-continuous load that the user would like, of class 0 and weight 1.
    #[must_use]
    pub fn new(name: &str, draw: Draw, placement: Placement) -> Self {
        Self {
            name: name.to_owned(),
            draw: Some(draw),
            placement,
            duty: Duty::NonContinuous,
            class: 0,
            weight: NonZeroU32::MIN,
            wish: Wish::WouldLike,
            groups: Vec::new(),
            through: Vec::new(),
            start: None,
        }
    }

    /// The same load in a class and with a weight.
    #[must_use]
    pub fn worth(mut self, class: u8, weight: NonZeroU32) -> Self {
        (self.class, self.weight) = (class, weight);
        self
    }

    /// The same load with what the user wants of it.
    #[must_use]
    pub fn wished(mut self, wish: Wish) -> Self {
        self.wish = wish;
        self
    }
}

impl Placement {
    /// The ways in which the load can be carried.
    pub(super) const fn ways(self) -> &'static [Leg] {
        match self {
            Self::A => &[Leg::A],
            Self::B => &[Leg::B],
            Self::Both => &[Leg::Both],
            Self::Either => &[Leg::A, Leg::B],
        }
    }
}

impl<T> Known<T> {
    /// The value, if it is stated.
    #[must_use]
    pub fn stated(self) -> Option<T> {
        match self {
            Self::Stated(value) => Some(value),
            Self::DoesNotApply | Self::NotStated => None,
        }
    }
}
