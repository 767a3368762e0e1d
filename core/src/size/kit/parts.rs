//! The list of parts, in trade terms, with quantities and prices.

use crate::quantity::Meters;

/// A line of the list.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Part {
    /// How many, or how long.
    pub amount: Amount,
    /// What, in the words of the trade.
    pub name: String,
    /// The slug of the rule that asks for it.
    pub rule: &'static str,
}

/// How many, or how long.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Amount {
    /// Pieces.
    Pieces(u16),
    /// A length, of which several pieces may be cut.
    Length(Meters),
}

/// The price of a part, by the beginning of its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Price<'a> {
    /// The beginning of the name: `flanged inlet`.
    pub part: &'a str,
    /// The price of a piece, or of a foot, in hundredths of the currency.
    pub hundredths: u64,
}

/// What a list costs.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Serialize)]
pub struct Cost {
    /// The sum of the priced parts, in hundredths of the currency.
    pub hundredths: u64,
    /// The parts without a price: with any of them the sum is not the whole cost.
    pub not_priced: Vec<String>,
}

pub(super) fn pieces(count: u16, name: impl Into<String>, rule: &'static str) -> Part {
    Part { amount: Amount::Pieces(count), name: name.into(), rule }
}

pub(super) fn length(length: Meters, name: impl Into<String>, rule: &'static str) -> Part {
    Part { amount: Amount::Length(length), name: name.into(), rule }
}

/// The cost of the parts; of several prices that fit a name the longest stands. A begun foot costs a foot.
pub(super) fn cost(parts: &[Part], prices: &[Price<'_>]) -> Cost {
    let mut cost = Cost::default();
    for part in parts {
        let fitting = prices.iter().filter(|price| part.name.starts_with(price.part));
        let Some(price) = fitting.max_by_key(|price| price.part.len()) else {
            cost.not_priced.push(part.name.clone());
            continue;
        };
        let units = match part.amount {
            Amount::Pieces(count) => u64::from(count),
            Amount::Length(length) => feet(length),
        };
        cost.hundredths = cost.hundredths.saturating_add(price.hundredths.saturating_mul(units));
    }
    cost
}

fn feet(length: Meters) -> u64 {
    use crate::quantity::Quantity;
    let foot = Meters::from_feet(1).count().max(1);
    let feet = length.count().div_euclid(foot) + i128::from(length.count().rem_euclid(foot) != 0);
    u64::try_from(feet).unwrap_or(u64::MAX)
}

impl std::fmt::Display for Amount {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Pieces(count) => write!(out, "{count}"),
            Self::Length(length) => length.fmt(out),
        }
    }
}
