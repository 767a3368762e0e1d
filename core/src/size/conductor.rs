//! Walking up the sizes: the first requirement that a size fails, and the smallest size that fails none.

use super::requirement::{Chosen, Requirement, Unsized, nothing};
use crate::calc::ampacity::{Conditions, ampacity, before_factors};
use crate::calc::overcurrent::{Supplies, largest_device};
use crate::calc::voltage_drop::{Currents, Method, Segment, Wire, voltage_drop};
use crate::calc::{CannotTell, Silent, cannot_tell};
use crate::code::{Code, ConductorRating, Gap};
use crate::published::TableId;
use crate::quantity::{Amperes, Meters, Quantity, Ratio, Scaled, Volts};
use crate::trade::{DeviceKind, Material, WireSize};

/// What a conductor must bear, but for its size.
#[derive(Clone, Copy)]
pub(super) struct Duty {
    /// Its conditions; the size in them is the smallest to consider.
    pub(super) conditions: Conditions,
    /// The least ampacity before factors.
    pub(super) before: Scaled<Amperes>,
    /// The load.
    pub(super) after: Amperes,
    /// The continuous part, which limits the smallest conductors.
    pub(super) continuous: Amperes,
    /// The device that it must be protected by; a neutral and a motor's conductors have none here.
    pub(super) device: Option<(DeviceKind, Amperes, Supplies)>,
    /// How many share the load.
    pub(super) sets: u8,
}

/// A limit on the voltage drop.
#[derive(Clone, Copy)]
pub(super) struct DropDuty {
    pub(super) share: Ratio,
    pub(super) method: Method,
    pub(super) voltage: Volts,
    pub(super) length: Meters,
    /// The currents of all sets together.
    pub(super) currents: Currents,
}

/// The smallest size that fails none, from the smallest that the conditions name.
pub(super) fn smallest(code: &dyn Code, duty: &Duty) -> Result<Chosen<WireSize>, Unsized> {
    // The sizes that are plainly too small come first, as a larger conductor never carries less: halved, not walked.
    let first = code.sizes().partition_point(|size| plainly_too_small(code, duty, *size));
    let mut governed_by = if first == 0 { Requirement::Asked } else { Requirement::ContinuousLoad };
    for size in code.sizes().get(first..).unwrap_or_default() {
        if plainly_too_small(code, duty, *size) {
            governed_by = Requirement::ContinuousLoad;
            continue;
        }
        match ampacity_failure(code, duty, *size)? {
            None => return Ok(Chosen { value: *size, governed_by }),
            Some(failure) => governed_by = failure,
        }
    }
    // The largest in full: where not even the place is borne, less load would not help.
    match code.sizes().last() {
        Some(largest) => nothing("conductor", ampacity_failure(code, duty, *largest)?.unwrap_or(governed_by)),
        None => nothing("conductor", governed_by),
    }
}

/// Whether so many sets are plainly too few: even the largest conductor is too small.
pub(super) fn plainly_too_few(code: &dyn Code, duty: &Duty) -> bool {
    code.sizes().last().is_some_and(|largest| plainly_too_small(code, duty, *largest))
}

/// No column admits more than the hottest one: most sizes that are too small fail by this single cell.
fn plainly_too_small(code: &dyn Code, duty: &Duty, size: WireSize) -> bool {
    let most = code.terminal_ampacity(duty.conditions.material, ConductorRating::C90, size);
    most.is_ok_and(|most| duty.before > together(most.value, i128::from(duty.sets)))
}

/// The smallest size from `least` up that keeps the drop within its limit.
pub(super) fn within_drop(
    code: &dyn Code,
    least: Chosen<WireSize>,
    material: Material,
    sets: u8,
    drop: &DropDuty,
) -> Result<Chosen<WireSize>, Unsized> {
    let holds = |size| match drop_holds(code, drop, material, size, sets) {
        // A size that the resistance table does not list cannot be said to pass; a larger one may be listed.
        Err(CannotTell { gap: Gap::Outside(_) | Gap::Blank(_), .. }) => Ok(false),
        other => other,
    };
    if holds(least.value)? {
        return Ok(least);
    }
    let larger = code.sizes().iter().position(|size| *size > least.value).and_then(|at| code.sizes().get(at..));
    let larger = larger.unwrap_or_default();
    let first = if monotone(drop.method) {
        // Halving the sizes that remain.
        let (mut fails, mut passes) = (0, larger.len());
        while fails < passes {
            let middle = fails + (passes - fails) / 2;
            match larger.get(middle) {
                Some(size) if holds(*size)? => passes = middle,
                _ => fails = middle + 1,
            }
        }
        larger.get(passes).copied()
    } else {
        let mut found = None;
        for size in larger {
            if holds(*size)? {
                found = Some(*size);
                break;
            }
        }
        found
    };
    match first {
        Some(value) => Ok(Chosen { value, governed_by: Requirement::VoltageDrop }),
        None => nothing("conductor", Requirement::VoltageDrop),
    }
}

/// Whether a larger size never drops more: true of resistance, while reactance in a steel raceway need not fall.
const fn monotone(method: Method) -> bool {
    matches!(method, Method::DirectCurrent { .. } | Method::Constant { .. })
}

/// Whether the drop over `sets` conductors of a size stays within its limit, exactly.
pub(super) fn drop_holds(
    code: &dyn Code,
    drop: &DropDuty,
    material: Material,
    size: WireSize,
    sets: u8,
) -> Result<bool, CannotTell> {
    let segment =
        Segment { wire: Wire::Sized(material, size), neutral: None, length: drop.length, currents: drop.currents };
    let found = voltage_drop(code, drop.voltage, &[segment], drop.method, &mut Silent)?;
    // Each set carries its share of the current; instead of dividing it, the limit is taken as many times.
    let limit = i64::from(sets).checked_mul(drop.share.count_of_millionths()).and_then(Ratio::new);
    Ok(limit.is_some_and(|limit| found.within(limit)))
}

/// The first requirement but the drop that a size fails.
pub(super) fn ampacity_failure(
    code: &dyn Code,
    duty: &Duty,
    size: WireSize,
) -> Result<Option<Requirement>, CannotTell> {
    if size < duty.conditions.size {
        return Ok(Some(Requirement::Asked));
    }
    let material = duty.conditions.material;
    let least = code.smallest_conductor(material).map_err(cannot_tell("the smallest conductor"))?.value;
    if size < least {
        return Ok(Some(Requirement::SmallestConductor));
    }
    if duty.sets > 1 {
        let least = code.smallest_parallel().map_err(cannot_tell("the smallest parallel conductor"))?.value;
        if size < least {
            return Ok(Some(Requirement::SmallestParallel));
        }
    }
    let conditions = Conditions { size, ..duty.conditions };
    let sets = i128::from(duty.sets);
    let before = match gap_or(before_factors(code, &conditions, &mut Silent))? {
        Ok(before) => before,
        Err(requirement) => return Ok(Some(requirement)),
    };
    if duty.before > together(before, sets) {
        return Ok(Some(Requirement::ContinuousLoad));
    }
    let usable = match gap_or(ampacity(code, &conditions, &mut Silent))? {
        Ok(found) => together(found.usable, sets),
        Err(requirement) => return Ok(Some(requirement)),
    };
    if duty.after > usable {
        return Ok(Some(Requirement::Load));
    }
    let Some((kind, device, supplies)) = duty.device else {
        return Ok(None);
    };
    let small = match code.small_conductor(material, size) {
        Ok(small) => small.map(|cell| cell.value),
        // A size that the edition does not recognize for such circuits.
        Err(Gap::NotInEdition(_)) => return Ok(Some(Requirement::Listed)),
        Err(gap) => return Err(cannot_tell("the limit of a small conductor")(gap)),
    };
    if let Some(limit) = small
        && (device > limit.device || limit.continuous.is_some_and(|most| duty.continuous > most))
    {
        return Ok(Some(Requirement::Protection));
    }
    // At or below the ampacity no further rating is asked for; only above it the next standard one decides.
    if device <= usable {
        return Ok(None);
    }
    let protected = match largest_device(code, kind, usable, (material, size), supplies, &mut Silent) {
        Ok(most) => device <= most.rating,
        // Below the least standard rating nothing protects it.
        Err(CannotTell { gap: Gap::Outside(_), .. }) => false,
        Err(gap) => return Err(gap),
    };
    Ok((!protected).then_some(Requirement::Protection))
}

/// The ampacity of several conductors in parallel.
pub(super) fn together(one: Amperes, sets: i128) -> Amperes {
    one.count().checked_mul(sets).and_then(Amperes::from_count).unwrap_or(Amperes::MAX)
}

/// A gap that says no to a size is a requirement that it fails; any other stays a gap.
fn gap_or<T>(found: Result<T, CannotTell>) -> Result<Result<T, Requirement>, CannotTell> {
    let no = |table| match table {
        TableId::AmpacityRaceway | TableId::AmpacityFreeAir | TableId::Cables => Some(Requirement::Listed),
        TableId::Insulations => Some(Requirement::Place),
        TableId::AmbientCorrection30 | TableId::AmbientCorrection40 => Some(Requirement::Ambient),
        TableId::AdjustmentMoreThanThree => Some(Requirement::Bundling),
        TableId::SmallConductor => Some(Requirement::Listed),
        _ => None,
    };
    match found {
        Ok(value) => Ok(Ok(value)),
        Err(error) => match (error.gap, no(error.gap.table())) {
            (Gap::Outside(_) | Gap::Blank(_) | Gap::NotInEdition(_), Some(requirement)) => Ok(Err(requirement)),
            _ => Err(error),
        },
    }
}
