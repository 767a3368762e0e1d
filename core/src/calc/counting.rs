//! Which conductors of a circuit count as carrying current.

use super::{Step, Working};
use crate::code::Code;
use crate::trade::Word;

/// What the neutral of a circuit carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Neutral {
    /// There is none.
    None,
    /// Only what the ungrounded conductors of the same circuit do not balance: 120/240 V three-wire, or a four-wire
    /// wye with mostly linear loads.
    UnbalanceOnly,
    /// About as much as an ungrounded conductor: two wires at 120 V, two phases and the neutral of a wye, or a wye
    /// whose loads are mostly nonlinear.
    Counted,
}

impl Word for Neutral {
    const KIND: &'static str = "neutral";

    fn all() -> Vec<(&'static str, Self)> {
        vec![("none", Self::None), ("unbalance-only", Self::UnbalanceOnly), ("counted", Self::Counted)]
    }

    fn spelling(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::UnbalanceOnly => "unbalance-only",
            Self::Counted => "counted",
        }
    }
}

impl std::str::FromStr for Neutral {
    type Err = crate::trade::WordError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::find(text)
    }
}

/// How many conductors of one circuit count: the ungrounded ones, and the neutral unless it carries only unbalance.
///
/// The neutral of a single ungrounded conductor carries all of its current and counts whatever is said of it.
/// Sections (NEC 2023): 310.15(E)(1) to (3); grounding conductors never count, 310.15(F).
///
/// ```
/// # use loadworthy::{calc::{counting::{current_carrying, Neutral}, Silent}, code::{Edition, Nec}};
/// let nec = Nec::standard(Edition::Nec2023);
/// assert_eq!(current_carrying(nec, 2, Neutral::UnbalanceOnly, &mut Silent), 2); // 120/240 V, three wires
/// assert_eq!(current_carrying(nec, 1, Neutral::UnbalanceOnly, &mut Silent), 2); // 120 V, two wires
/// assert_eq!(current_carrying(nec, 3, Neutral::Counted, &mut Silent), 4); // nonlinear loads on a wye
/// ```
#[must_use]
pub fn current_carrying(code: &dyn Code, ungrounded: u16, neutral: Neutral, working: &mut impl Working) -> u16 {
    let counts = match neutral {
        Neutral::None => false,
        Neutral::UnbalanceOnly => ungrounded == 1,
        Neutral::Counted => true,
    };
    let conductors = ungrounded.saturating_add(u16::from(counts));
    working.step(|| {
        let neutral = match (neutral, counts) {
            (Neutral::None, _) => "no neutral",
            (_, true) => "a neutral that counts",
            (_, false) => "a neutral that carries only unbalance and does not count",
        };
        Step::new(format!("{ungrounded} ungrounded and {neutral}"), format!("{conductors} carry current"))
            .by(&code.section("neutral-counting"))
    });
    conductors
}
