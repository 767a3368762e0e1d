//! What limits a set of loads: each leg, outlets and cords on the way, the source as a whole, the neutral.

use std::fmt;

use super::{Known, Question};
use crate::quantity::{Amperes, Ratio, VoltAmperes, Watts};
use crate::trade::Leg;

/// Everything that limits a set of loads.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Limits {
    /// The source itself: every load passes through it.
    pub source: LegLimit,
    /// Outlets, cords and breakers that some loads pass through.
    pub shared: Vec<LegLimit>,
    /// The apparent power of the source in total.
    pub total: Known<VoltAmperes>,
    /// The real power of the source in total.
    pub power: Known<Watts>,
    /// The neutral, or the unbalance that the source bears.
    pub neutral: Known<NeutralLimit>,
    /// What the source gives while two loads that come on by themselves start at one moment beside all others.
    pub surge: Surge,
}

/// What a source gives for a start; `None` where that limits nothing here.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Surge {
    /// On each leg.
    pub leg: Option<Amperes>,
    /// In total.
    pub total: Option<VoltAmperes>,
}

/// A current limit on each leg.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LegLimit {
    /// What it belongs to.
    pub name: String,
    /// Leg A, or the only leg.
    pub leg_a: Known<Amperes>,
    /// Leg B; where the source has none, 0 A keeps every load off it.
    pub leg_b: Known<Amperes>,
    /// What a continuous load counts against this limit: 125 % at an overcurrent device (NEC 210.20(A)) that is not
    /// listed for 100 %.
    pub continuous: Ratio,
}

/// How the current of the neutral comes about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NeutralCurrent {
    /// Split phase: the greater leg's line-to-neutral current, for the other leg's loads may be off at the moment.
    GreaterLeg,
    /// Split phase with every load on: the difference of the legs. Also an unbalance that a source bears. Exact for
    /// loads of one power factor.
    Difference,
    /// Both legs fed from one 120 V leg: the sum.
    Sum,
}

/// A limit on the neutral.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NeutralLimit {
    /// How its current comes about.
    pub current: NeutralCurrent,
    /// The most that it carries.
    pub limit: Amperes,
}

/// Which limit a report speaks of.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LimitName {
    /// The current of a leg, of the source or of something on the way.
    Leg {
        /// The name of the limit.
        of: String,
        /// The leg.
        leg: Leg,
    },
    /// The apparent power in total.
    Total,
    /// The real power in total.
    Power,
    /// The neutral.
    Neutral,
    /// The surge current of a leg.
    Surge {
        /// The leg.
        leg: Leg,
        /// The loads that start by themselves at one moment.
        starting: Vec<String>,
    },
    /// The apparent power that the source gives for a start.
    SurgeTotal {
        /// The loads that start by themselves at one moment.
        starting: Vec<String>,
    },
}

impl Limits {
    /// The same current on both legs of a source, and no other limit.
    #[must_use]
    pub fn per_leg(current: Amperes) -> Self {
        Self {
            source: LegLimit {
                name: "source".to_owned(),
                leg_a: Known::Stated(current),
                leg_b: Known::Stated(current),
                continuous: Ratio::ONE,
            },
            shared: Vec::new(),
            total: Known::DoesNotApply,
            power: Known::DoesNotApply,
            neutral: Known::DoesNotApply,
            surge: Surge::default(),
        }
    }

    /// The same without leg B: the source has one leg, so that no load can use the other.
    #[must_use]
    pub fn single_leg(current: Amperes) -> Self {
        let mut limits = Self::per_leg(current);
        limits.source.leg_b = Known::Stated(Amperes::ZERO);
        limits
    }

    /// The limits that nobody has stated.
    pub(super) fn questions(&self) -> Vec<Question> {
        const DECIDES: &str = "which loads can be on";
        let mut questions = Vec::new();
        for limit in std::iter::once(&self.source).chain(&self.shared) {
            for (leg, fact) in
                [(limit.leg_a, "the current limit of leg A"), (limit.leg_b, "the current limit of leg B")]
            {
                if leg == Known::NotStated {
                    questions.push(Question::new(&limit.name, fact, DECIDES));
                }
            }
        }
        for (missing, fact) in [
            (self.total == Known::NotStated, "the limit of apparent power"),
            (self.power == Known::NotStated, "the limit of real power"),
            (self.neutral == Known::NotStated, "the limit of the neutral"),
        ] {
            if missing {
                questions.push(Question::new(&self.source.name, fact, DECIDES));
            }
        }
        questions
    }
}

impl fmt::Display for LimitName {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Leg { of, leg } => write!(out, "leg {leg} of `{of}`"),
            Self::Total => out.write_str("the apparent power of the source"),
            Self::Power => out.write_str("the real power of the source"),
            Self::Neutral => out.write_str("the neutral"),
            Self::Surge { leg, starting } => {
                write!(out, "the surge of leg {leg} with the start of `{}`", starting.join("` and `"))
            }
            Self::SurgeTotal { starting } => {
                write!(out, "the surge of the source with the start of `{}`", starting.join("` and `"))
            }
        }
    }
}
