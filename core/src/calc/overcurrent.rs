//! Overcurrent devices: the largest that protects a conductor, and the next for a load.

use super::{CannotTell, Step, Working, cannot_tell};
use crate::code::{Code, Gap, NextSizeUp};
use crate::published::TableId;
use crate::quantity::{Amperes, Scaled};
use crate::trade::{DeviceKind, Material, WireSize};

const DEVICE: &str = "the overcurrent device";

/// What a circuit supplies, as far as the choice of its device depends on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Supplies {
    /// More than one receptacle for cord-and-plug portable loads: no device above the ampacity.
    SeveralReceptacles,
    /// Anything else.
    Other,
}

/// The largest device that may protect a conductor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct LargestDevice {
    /// The rating.
    pub rating: Amperes,
    /// What governs it.
    pub governed_by: DeviceGovernor,
}

/// What governs the largest device.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum DeviceGovernor {
    /// The ampacity is itself the rating, or the next lower standard rating.
    Ampacity,
    /// The next standard rating above the ampacity is permitted.
    NextSizeUp,
    /// The limit of a small conductor.
    SmallConductor,
}

/// The largest standard device that protects a conductor of an ampacity.
///
/// Sections (NEC): 240.4, 240.4(B), (C), (D), 240.6(A). Leaves out 240.4(E) to (G): taps, motors, transformers.
///
/// # Errors
/// [`CannotTell`] where a rating or the rule for the next size up is below the grade that answers may rest on.
pub fn largest_device(
    code: &dyn Code,
    kind: DeviceKind,
    ampacity: Amperes,
    conductor: (Material, WireSize),
    supplies: Supplies,
    working: &mut impl Working,
) -> Result<LargestDevice, CannotTell> {
    find(code, kind, ampacity, conductor, supplies, working).map_err(cannot_tell(DEVICE))
}

fn find(
    code: &dyn Code,
    kind: DeviceKind,
    ampacity: Amperes,
    (material, size): (Material, WireSize),
    supplies: Supplies,
    working: &mut impl Working,
) -> Result<LargestDevice, Gap> {
    let Around { at_or_below, above } = around(code, kind, ampacity);
    if let (Some(Err(gap)), true) = (above, at_or_below != Some(ampacity)) {
        // A rating that may not be rested on could itself be at or below the ampacity.
        return Err(gap);
    }
    working.step(|| {
        let result = at_or_below.map_or_else(|| "none".to_owned(), |rating| rating.to_string());
        Step::new(format!("largest standard {kind} not above {ampacity}"), result).by(&code.section("standard-rating"))
    });
    let mut found = at_or_below.map(|rating| LargestDevice { rating, governed_by: DeviceGovernor::Ampacity });
    if at_or_below != Some(ampacity)
        && next_permitted(code, supplies)?
        && let (Some(next), NextSizeUp::UpTo { limit, .. }) = (above, code.next_size_up())
    {
        // 240.6(A) has ratings for fuses alone: the ampacity may be one of them, 240.4(B)(2), and so may the next one.
        let fuses = around(code, DeviceKind::Fuse, ampacity);
        let is_next = fuses.at_or_below != Some(ampacity) && fuses.above == Some(next);
        if is_next && next? <= (*limit)?.value {
            let next = next?;
            found = Some(LargestDevice { rating: next, governed_by: DeviceGovernor::NextSizeUp });
            working.step(|| {
                Step::new("the next standard rating above the ampacity is permitted", next.to_string())
                    .by(&code.section("next-size-up"))
            });
        }
    }
    // Below the first standard rating, where the next one up is not permitted either, no device protects it.
    let mut found = found.ok_or(Gap::Outside(TableId::StandardRatings))?;
    if let Some(limit) = code.small_conductor(material, size)?
        && limit.value.device < found.rating
    {
        found = LargestDevice { rating: limit.value.device, governed_by: DeviceGovernor::SmallConductor };
        working.step(|| {
            Step::new(format!("{size} {material} is a small conductor: at most"), limit.value.device.to_string())
                .from_cell(limit.place, limit.grade, code)
        });
    }
    Ok(found)
}

fn next_permitted(code: &dyn Code, supplies: Supplies) -> Result<bool, Gap> {
    match code.next_size_up() {
        NextSizeUp::UpTo { receptacles_excluded, .. } => {
            let excluded = (*receptacles_excluded)?.value;
            Ok(!(excluded && supplies == Supplies::SeveralReceptacles))
        }
        NextSizeUp::Never => Ok(false),
    }
}

/// The standard ratings at or below and above an ampacity.
struct Around {
    at_or_below: Option<Amperes>,
    /// A lookup of its own, since it may not be needed.
    above: Option<Result<Amperes, Gap>>,
}

fn around(code: &dyn Code, kind: DeviceKind, ampacity: Amperes) -> Around {
    let mut at_or_below = None;
    for rating in code.standard_ratings(kind) {
        match rating {
            Ok(cell) if cell.value <= ampacity => at_or_below = Some(cell.value),
            Ok(cell) => return Around { at_or_below, above: Some(Ok(cell.value)) },
            // Ratings ascend; one that may not be rested on could be either.
            Err(gap) => return Around { at_or_below, above: Some(Err(*gap)) },
        }
    }
    Around { at_or_below, above: None }
}

/// The smallest standard device that is not below a required rating.
///
/// Section (NEC): 240.6(A).
///
/// # Errors
/// [`CannotTell`] above the last standard rating that answers may rest on.
pub fn next_device(
    code: &dyn Code,
    kind: DeviceKind,
    required: Scaled<Amperes>,
    working: &mut impl Working,
) -> Result<Amperes, CannotTell> {
    for rating in code.standard_ratings(kind) {
        let cell = rating.map_err(cannot_tell(DEVICE))?;
        if required <= cell.value {
            working.step(|| {
                Step::new(format!("next standard {kind}"), cell.value.to_string()).by(&code.section("standard-rating"))
            });
            return Ok(cell.value);
        }
    }
    Err(CannotTell { what: DEVICE, gap: Gap::Outside(TableId::StandardRatings) })
}
