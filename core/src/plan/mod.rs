//! Planning: which loads can stay on together, in which order they start, and how long the energy lasts.
//!
//! Each engine takes typed facts and judges with exact integers. A fact that is not stated becomes a [`Question`],
//! and the answer that would need it is *cannot tell*; no engine fills a gap with a default.

pub mod choose;
pub mod demand;
pub mod dip;
pub mod endurance;
mod exact;
pub mod measured;
pub mod motor;
pub mod order;
pub mod site;

pub use exact::Draw;

/// A fact that a plan may need: stated, of no concern here, or missing.
///
/// ```
/// # use loadworthy::plan::Known;
/// # use loadworthy::quantity::Amperes;
/// // No neutral: the limit does not apply. Nobody looked at the nameplate: it is not stated.
/// let (neutral, leg): (Known<Amperes>, Known<Amperes>) = (Known::DoesNotApply, Known::NotStated);
/// assert_ne!(neutral, leg);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Known<T> {
    /// The fact is known.
    Stated(T),
    /// There is no such thing in this arrangement, and the user says so.
    DoesNotApply,
    /// Nobody has said; whatever depends on it cannot be told.
    #[default]
    NotStated,
}

/// A value, or the questions that must be answered before it can be told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Answer<T> {
    /// The value.
    Told(T),
    /// What is missing.
    CannotTell(Vec<Question>),
}

/// How a check ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Every fact is there and no limit is broken.
    Holds,
    /// A fact is missing, and what is known breaks no limit.
    CannotTell,
    /// A limit is broken, whatever the missing facts are.
    Fails,
}

/// A fact that is missing and that decides something.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Question {
    /// Whose fact it is: the name of a load or of a source.
    pub about: String,
    /// The missing fact, as it reads in a sentence.
    pub fact: &'static str,
    /// What it would decide.
    pub decides: &'static str,
}

impl std::fmt::Display for Question {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "`{}`: {} is not stated; it decides {}", self.about, self.fact, self.decides)
    }
}

impl Question {
    pub(crate) fn new(about: &str, fact: &'static str, decides: &'static str) -> Self {
        Self { about: about.to_owned(), fact, decides }
    }
}

impl Verdict {
    /// The verdict of two checks that must both hold.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        self.max(other)
    }
}
