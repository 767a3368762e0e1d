//! Equipment grounding and grounding electrode conductors.

use super::{CannotTell, Step, Working, cannot_tell};
use crate::code::{Code, Gap};
use crate::published::TableId;
use crate::quantity::{Amperes, CircularMils, Quantity, compare_products};
use crate::trade::{Material, WireSize};

const GROUNDING: &str = "the equipment grounding conductor";

/// Ungrounded conductors that were made larger than they need to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Enlarged {
    /// The smallest size with sufficient ampacity.
    pub needed: WireSize,
    /// The size installed.
    pub installed: WireSize,
}

/// The least equipment grounding conductor for a device, enlarged in proportion where the circuit conductors are.
///
/// The area grows with the ratio of installed to needed circular mils, compared exactly, and the next standard size is
/// taken; it need not be larger than the circuit conductors. Sections (NEC): 250.122(A), (B), Chapter 9 Table 8.
///
/// ```
/// # use loadworthy::{calc::{grounding::{equipment, Enlarged}, Silent}, code::{Edition, Nec}, trade::Material};
/// let nec = Nec::standard(Edition::Nec2023);
/// let enlarged = Enlarged { needed: "8 AWG".parse()?, installed: "4 AWG".parse()? };
/// // 10,380 cmil x 41,740 / 16,510 is 26,242 cmil: 6 AWG falls short by 2.
/// let size = equipment(nec, Material::Copper, "50 A".parse()?, Some(enlarged), &mut Silent)?;
/// assert_eq!(size.to_string(), "4 AWG");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`CannotTell`] for a device above the table or a size without an area.
pub fn equipment(
    code: &dyn Code,
    material: Material,
    device: Amperes,
    enlarged: Option<Enlarged>,
    working: &mut impl Working,
) -> Result<WireSize, CannotTell> {
    find(code, material, device, enlarged, working).map_err(cannot_tell(GROUNDING))
}

fn find(
    code: &dyn Code,
    material: Material,
    device: Amperes,
    enlarged: Option<Enlarged>,
    working: &mut impl Working,
) -> Result<WireSize, Gap> {
    let base = code.equipment_grounding(material, device)?;
    working.step(|| Step::read(format!("{material}, device of {device}"), base, code));
    let Some(Enlarged { needed, installed }) = enlarged else {
        return Ok(base.value);
    };
    // Sizes of two systems are not compared: whether it was enlarged cannot be told.
    let grown = installed.partial_cmp(&needed).ok_or(Gap::Outside(TableId::ConductorProperties))?;
    if grown.is_le() {
        return Ok(base.value);
    }
    let area = |size| code.area(size).map(|cell| cell.value);
    let (base_area, needed_area, installed_area) = (area(base.value)?, area(needed)?, area(installed)?);
    for size in code.sizes() {
        let Ok(candidate) = area(*size) else { continue };
        // candidate / base >= installed / needed, without dividing
        let [candidate, base_area, needed_area, installed_area] =
            [candidate, base_area, needed_area, installed_area].map(count);
        if *size >= base.value && compare_products(candidate, needed_area, base_area, installed_area).is_ge() {
            // Never required larger than the circuit conductors: 250.122(A).
            let least = if *size > installed { installed } else { *size };
            working.step(|| {
                let what = format!(
                    "enlarged in proportion: {base_area} cmil x {installed_area} / {needed_area}, next standard size"
                );
                Step::new(what, least.to_string()).by(&code.section("equipment-grounding-increase"))
            });
            return Ok(least);
        }
    }
    Err(Gap::Outside(TableId::ConductorProperties))
}

/// The area that a grounding conductor of `base` grows to with the circuit conductors, rounded up to the circular mil.
///
/// For showing: [`equipment`] compares the exact product. Sections (NEC): 250.122(B), Chapter 9 Table 8.
///
/// ```
/// # use loadworthy::{calc::grounding::{required_area, Enlarged}, code::{Edition, Nec}};
/// let enlarged = Enlarged { needed: "8 AWG".parse()?, installed: "4 AWG".parse()? };
/// let area = required_area(Nec::standard(Edition::Nec2023), "10 AWG".parse()?, enlarged)?;
/// assert_eq!(area, "26243 cmil".parse()?); // exactly 26,242.35
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`CannotTell`] for a size without an area, or an area beyond the range.
pub fn required_area(code: &dyn Code, base: WireSize, enlarged: Enlarged) -> Result<CircularMils, CannotTell> {
    let area = |size| code.area(size).map(|cell| cell.value.count()).map_err(cannot_tell(GROUNDING));
    let (needed, installed) = (area(enlarged.needed)?, area(enlarged.installed)?);
    let product = area(base)?.saturating_mul(installed.max(needed));
    let (whole, rest) = (product.checked_div(needed), product.checked_rem(needed));
    let rounded_up = whole.zip(rest).map(|(whole, rest)| whole + i128::from(rest != 0));
    rounded_up
        .and_then(CircularMils::from_count)
        .ok_or(CannotTell { what: GROUNDING, gap: Gap::Outside(TableId::ConductorProperties) })
}

fn count(area: CircularMils) -> u128 {
    area.count().unsigned_abs()
}

/// The least grounding electrode conductor for the largest ungrounded service conductor.
///
/// Section (NEC): 250.66. Leaves out the limits for rods, concrete and rings, 250.66(A) to (C).
///
/// # Errors
/// [`CannotTell`] for a size outside the table.
pub fn electrode(
    code: &dyn Code,
    service: (Material, WireSize),
    electrode: Material,
    working: &mut impl Working,
) -> Result<WireSize, CannotTell> {
    let (of, size) = service;
    let cell =
        code.grounding_electrode(of, size, electrode).map_err(cannot_tell("the grounding electrode conductor"))?;
    working.step(|| Step::read(format!("{size} {of} service conductor, {electrode} electrode conductor"), cell, code));
    Ok(cell.value)
}
