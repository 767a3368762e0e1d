//! Box fill: 314.16.

use super::requirement::{Requirement, Unsized, nothing};
use crate::calc::{CannotTell, Step, Working, cannot_tell};
use crate::code::{Code, Gap};
use crate::published::TableId;
use crate::quantity::{CubicMillimeters, Quantity};
use crate::trade::WireSize;

const VOLUME: &str = "the volume of the box";

/// What a box holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Contents<'a> {
    /// Conductors that enter and end or are spliced inside, and those that pass unbroken; by size and count.
    pub conductors: &'a [(WireSize, u16)],
    /// Equipment grounding conductors: the largest, and how many.
    pub grounding: Option<(WireSize, u16)>,
    /// Whether clamps inside hold cables.
    pub clamps: Clamps,
    /// Studs and hickeys.
    pub fittings: u16,
    /// Yokes with a device, by the largest conductor on each and count.
    pub devices: &'a [(WireSize, u16)],
}

/// Where the cable clamps of a box are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Clamps {
    /// Inside: all of them take one allowance.
    Internal,
    /// None, or outside the box.
    None,
}

/// The least volume of a box, rounded up to a thousandth of a cubic millimeter.
///
/// One allowance for each conductor, one of the largest for all clamps and for each kind of fitting, two for each
/// device, one of the largest for up to four equipment grounding conductors and, from 2020 on, a quarter for each more;
/// 2017 counts all of them as one. Section: 314.16(B)(1) to (5). Leaves out: terminal blocks, domed covers.
///
/// ```
/// # use loadworthy::{calc::Silent, code::{Edition, Nec}, size::box_fill::*};
/// let (fourteen, twelve) = ("14 AWG".parse()?, "12 AWG".parse()?);
/// let contents = Contents {
///     conductors: &[(fourteen, 4), (twelve, 2)],
///     grounding: Some((twelve, 3)),
///     clamps: Clamps::Internal,
///     fittings: 0,
///     devices: &[(twelve, 1)],
/// };
/// // 4 x 2.00 + 2 x 2.25 + 2.25 + 2.25 + 2 x 2.25 is 21.5 in³: a box of 21.0 in³ is too small.
/// let nec = Nec::standard(Edition::Nec2023);
/// assert_eq!(least_volume(nec, &contents, &mut Silent)?, "21.5 in3".parse()?);
/// assert_eq!(smallest(nec, &contents, "square", &mut Silent)?.name, "4-11/16 x 1-1/4 in square");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`CannotTell`] for a conductor above the table.
pub fn least_volume(
    code: &dyn Code,
    contents: &Contents<'_>,
    working: &mut impl Working,
) -> Result<CubicMillimeters, CannotTell> {
    // In quarters, so that the quarter of an allowance is exact.
    let mut quarters: i128 = 0;
    let mut take = |size: WireSize, times: i128, what: &str, working: &mut _| -> Result<(), CannotTell> {
        let volume = code.box_volume(size).map_err(cannot_tell(VOLUME))?;
        quarters = quarters.saturating_add(volume.value.count().saturating_mul(times));
        step(working, || Step::read(format!("{what}: {} of {size}, each", allowances(times)), volume, code));
        Ok(())
    };
    for (size, count) in contents.conductors {
        take(*size, 4 * i128::from(*count), "conductors", working)?;
    }
    let sizes = contents.conductors.iter().map(|(size, _)| *size);
    if let Some(largest) = sizes.max_by_key(|size| size.rank()) {
        if contents.clamps == Clamps::Internal {
            take(largest, 4, "clamps", working)?;
        }
        if contents.fittings > 0 {
            take(largest, 4 * i128::from(contents.fittings), "fittings", working)?;
        }
    }
    for (size, count) in contents.devices {
        take(*size, 8 * i128::from(*count), "devices", working)?;
    }
    if let Some((size, count)) = contents.grounding.filter(|(_, count)| *count > 0) {
        let more = if code.section("box-grounding-additional").section.is_some() { count.saturating_sub(4) } else { 0 };
        take(size, 4 + i128::from(more), "equipment grounding conductors", working)?;
    }
    let count = quarters.div_euclid(4) + i128::from(quarters.rem_euclid(4) != 0);
    CubicMillimeters::from_count(count).ok_or(CannotTell { what: VOLUME, gap: Gap::Outside(TableId::BoxVolume) })
}

/// So many quarters of an allowance in words: `4 allowances`, `1 1/4 allowances`.
fn allowances(quarters: i128) -> String {
    let (whole, rest) = (quarters.div_euclid(4), quarters.rem_euclid(4));
    let rest = match rest {
        0 => "",
        1 => " 1/4",
        2 => " 1/2",
        _ => " 3/4",
    };
    let noun = if quarters == 4 { "allowance" } else { "allowances" };
    format!("{whole}{rest} {noun}")
}

fn step<W: Working>(working: &mut W, step: impl FnOnce() -> Step) {
    working.step(step);
}

/// A standard metal box.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct MetalBox {
    /// Its name: dimensions and shape.
    pub name: &'static str,
    /// Its volume.
    pub volume: CubicMillimeters,
    /// What its contents take.
    pub taken: CubicMillimeters,
}

/// The smallest standard metal box of a shape (`round`, `square`, `device`) that holds the contents.
///
/// Boxes whose volume rests on memory alone are passed over. Section: 314.16(A).
///
/// # Errors
/// [`Unsized`]: a conductor above the table, or more than the largest box of that shape holds.
pub fn smallest(
    code: &dyn Code,
    contents: &Contents<'_>,
    shape: &str,
    working: &mut impl Working,
) -> Result<MetalBox, Unsized> {
    let taken = least_volume(code, contents, working)?;
    let known = code.boxes().iter().filter_map(|(name, volume)| Some((*name, volume.ok()?.value)));
    let large_enough = known.filter(|(name, volume)| name.ends_with(shape) && *volume >= taken);
    match large_enough.min_by_key(|(_, volume)| *volume) {
        Some((name, volume)) => {
            working.step(|| Step::new("smallest standard box", name).by(&code.section("box-volume")));
            Ok(MetalBox { name, volume, taken })
        }
        None => nothing("box", Requirement::BoxFill),
    }
}
