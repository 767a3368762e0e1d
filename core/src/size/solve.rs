//! Any one unknown of a circuit, solved for the others.
//!
//! Each answer holds, and one step more fails: a tenth of a millimeter, a microampere, a degree, a conductor.

use super::circuit::{Question, first_failure};
use super::raceway::{self, Extent, Occupant};
use super::requirement::{Chosen, Requirement, Unsized, nothing};
use super::search::greatest;
use crate::calc::ampacity::Conditions;
use crate::calc::continuous::Load;
use crate::calc::{CannotTell, Step, Working};
use crate::code::Code;
use crate::quantity::{Amperes, Celsius, Meters, Quantity};
use crate::trade::{Duty, RacewayKind, TradeSize, WireSize};

/// The sizes of a circuit that stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Built {
    /// The rating of its overcurrent device.
    pub device: Amperes,
    /// Its sets in parallel.
    pub sets: u8,
    /// Its ungrounded conductors.
    pub size: WireSize,
}

/// The longest run that keeps the drop within its limit; the length in the question does not count.
///
/// ```
/// # use loadworthy::{calc::{Silent, ampacity::{Conditions, Covering}, continuous::Load, voltage_drop::Method}};
/// # use loadworthy::{code::{Edition, Nec}, size::{circuit::*, solve::*}, trade::{Insulation, Material}, quantity::*};
/// # let question = Question {
/// #     role: Role::Branch,
/// #     load: Load { continuous: "16 A".parse()?, non_continuous: Amperes::ZERO },
/// #     conductors: Conductors::LineAndNeutral,
/// #     voltage: "120 V".parse()?,
/// #     length: "0 ft".parse()?,
/// #     conditions: Conditions::base(Material::Copper, "14 AWG".parse()?, Covering::Insulation(Insulation::Thwn2)),
/// #     drop: Some(DropLimit { share: "3 %".parse()?, method: Method::DirectCurrent { temperature: "75 °C".parse()? } }),
/// #     device: Device::BREAKER,
/// #     grounding: Some(Material::Copper),
/// #     most_sets: 1,
/// # };
/// let built = Built { device: "20 A".parse()?, sets: 1, size: "12 AWG".parse()? };
/// let longest = longest_run(Nec::standard(Edition::Nec2023), &question, built, &mut Silent)?;
/// // 3.6 V / (2 x 16 A x 1.98 ohm/kft) is 56.818 ft.
/// assert!(longest.value > "56.75 ft".parse()? && longest.value < "57 ft".parse()?);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`Unsized`]: what the tables do not tell, or the requirement that fails at any length.
pub fn longest_run(
    code: &dyn Code,
    question: &Question,
    built: Built,
    working: &mut impl Working,
) -> Result<Chosen<Meters>, Unsized> {
    let at = |count| {
        let length = Meters::from_count(count)?;
        Some((Question { length, ..*question }, built))
    };
    let found = solve(code, 0, Meters::MAX.count(), at)?;
    answer(code, found, Meters::from_count, "longest run", working)
}

/// The largest load of a duty that every part of the circuit carries; the load in the question does not count.
///
/// # Errors
/// [`Unsized`]: what the tables do not tell, or the requirement that fails without any load.
pub fn largest_load(
    code: &dyn Code,
    question: &Question,
    built: Built,
    duty: Duty,
    working: &mut impl Working,
) -> Result<Chosen<Amperes>, Unsized> {
    let at = |count| {
        let current = Amperes::from_count(count)?;
        let load = match duty {
            Duty::Continuous => Load { continuous: current, non_continuous: Amperes::ZERO },
            Duty::NonContinuous => Load { continuous: Amperes::ZERO, non_continuous: current },
        };
        Some((Question { load, ..*question }, built))
    };
    let found = solve(code, 0, Amperes::MAX.count(), at)?;
    answer(code, found, Amperes::from_count, "largest load", working)
}

/// The highest ambient temperature, in whole degrees; the ambient in the question does not count.
///
/// # Errors
/// [`Unsized`]: what the tables do not tell, or the requirement that fails however cool it is.
pub fn highest_ambient(
    code: &dyn Code,
    question: &Question,
    built: Built,
    working: &mut impl Working,
) -> Result<Chosen<Celsius>, Unsized> {
    let degrees = |count: i128| i64::try_from(count).ok().and_then(Celsius::from_degrees);
    let at = |count| {
        let conditions = Conditions { ambient: degrees(count)?, ..question.conditions };
        Some((Question { conditions, ..*question }, built))
    };
    let found = solve(code, -100, 200, at)?;
    answer(code, found, degrees, "highest ambient", working)
}

/// A raceway to be filled with like circuits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Filling<'a> {
    /// Its kind and trade size.
    pub raceway: (RacewayKind, TradeSize),
    /// Whether it is a nipple.
    pub extent: Extent,
    /// What lies in it already or must, such as an equipment grounding conductor.
    pub others: &'a [Occupant],
    /// The jacket of the conductors to be counted.
    pub jacket: crate::trade::Jacket,
}

/// The most conductors of the circuit's size that may carry current together, by ampacity and, where a raceway is
/// given, by the room in it. The count in the question does not count.
///
/// # Errors
/// [`Unsized`]: what the tables do not tell, or the requirement that fails for a single conductor.
pub fn most_conductors(
    code: &dyn Code,
    question: &Question,
    built: Built,
    filling: Option<Filling<'_>>,
    working: &mut impl Working,
) -> Result<Chosen<u16>, Unsized> {
    const MOST: i128 = 999;
    let at = |count: i128| {
        let conditions = Conditions { current_carrying: u16::try_from(count).ok()?, ..question.conditions };
        Some((Question { conditions, ..*question }, built))
    };
    let whole = |count: i128| u16::try_from(count).ok();
    let mut found = solve(code, 1, MOST, at)?;
    if let Some(filling) = filling {
        let fits = |count: i128| -> Result<bool, CannotTell> {
            let Some(count) = whole(count) else { return Ok(false) };
            let mut all = filling.others.to_vec();
            all.push(Occupant { jacket: filling.jacket, size: built.size, count });
            raceway::fits(code, filling.raceway, &all, filling.extent)
        };
        let by_room = fills(fits, MOST)?;
        match by_room {
            None => return nothing("conductor", Requirement::RacewayFill),
            Some(most) if most < found.value => {
                found = Chosen { value: most, governed_by: Requirement::RacewayFill };
            }
            Some(_) => {}
        }
    }
    answer(code, found, whole, "most conductors together", working)
}

/// The share for two conductors is less than for three, so that two may not fit where three do: from three on the room
/// only shrinks.
fn fills(mut fits: impl FnMut(i128) -> Result<bool, CannotTell>, most: i128) -> Result<Option<i128>, CannotTell> {
    if let Some(found) = greatest(3, most, &mut fits)? {
        return Ok(Some(found));
    }
    for count in [2, 1] {
        if fits(count)? {
            return Ok(Some(count));
        }
    }
    Ok(None)
}

/// The greatest count at which no requirement fails, and the one that fails a step further.
fn solve(
    code: &dyn Code,
    low: i128,
    high: i128,
    at: impl Fn(i128) -> Option<(Question, Built)>,
) -> Result<Chosen<i128>, Unsized> {
    let failure = |count| match at(count) {
        Some((question, built)) => first_failure(code, &question, built.device, built.sets, built.size),
        None => Ok(Some(Requirement::Asked)),
    };
    match greatest(low, high, |count| failure(count).map(|failure| failure.is_none()))? {
        Some(value) => {
            // At the end of the range nothing governs but the range itself.
            let governed_by = failure(value + 1)?.unwrap_or(Requirement::Asked);
            Ok(Chosen { value, governed_by })
        }
        None => nothing("value", failure(low)?.unwrap_or(Requirement::Asked)),
    }
}

fn answer<T: std::fmt::Display>(
    code: &dyn Code,
    found: Chosen<i128>,
    read: impl Fn(i128) -> Option<T>,
    what: &'static str,
    working: &mut impl Working,
) -> Result<Chosen<T>, Unsized> {
    let Some(value) = read(found.value) else {
        return nothing(what, found.governed_by);
    };
    working.step(|| {
        let step = Step::new(format!("{what}, governed by {}", found.governed_by), value.to_string());
        match found.governed_by.citation(code) {
            Some(citation) => step.by(&citation),
            None => step,
        }
    });
    Ok(Chosen { value, governed_by: found.governed_by })
}
