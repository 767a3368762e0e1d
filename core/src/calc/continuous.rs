//! Continuous and non-continuous load: what a device and a conductor must be rated for.

use super::{CannotTell, Step, Working, cannot_tell};
use crate::code::{Code, ContinuousLoad, Gap};
use crate::quantity::{Amperes, Fraction, Ratio, Rounding, Scaled};
use crate::trade::ContinuousRating;

/// A load in its continuous and its other part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Load {
    /// What lasts three hours or more.
    pub continuous: Amperes,
    /// The rest.
    pub non_continuous: Amperes,
}

/// What a load requires.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Requirement {
    /// The least rating of the device, exact.
    pub device: Scaled<Amperes>,
    /// The least ampacity of the conductor before correction and adjustment, exact.
    pub conductor: Scaled<Amperes>,
    /// The least ampacity of the conductor after correction and adjustment: the load itself.
    pub conductor_after_factors: Amperes,
}

impl Requirement {
    /// Whether it can be shown: no current of it is beyond the range of one.
    #[must_use]
    pub fn is_in_range(&self) -> bool {
        [self.device, self.conductor].iter().all(|needed| needed.rounded(Rounding::Up).is_some())
    }

    /// The least rating of the device, rounded up to the microampere for showing.
    #[must_use]
    pub fn device_shown(&self) -> Amperes {
        self.device.rounded(Rounding::Up).unwrap_or(Amperes::MAX)
    }

    /// The least ampacity before factors, rounded up to the microampere for showing.
    #[must_use]
    pub fn conductor_shown(&self) -> Amperes {
        self.conductor.rounded(Rounding::Up).unwrap_or(Amperes::MAX)
    }
}

/// What a load requires: I_device ≥ f · I_continuous + I_other, with f = 125 % unless the assembly is listed for 100 %.
///
/// Sections (NEC): 210.19(A)(1), 210.20(A), 215.2(A)(1), 215.3 and their exceptions.
///
/// # Errors
/// [`CannotTell`] where the factor is below the grade that answers may rest on.
pub fn requirement(
    code: &dyn Code,
    load: Load,
    rating: ContinuousRating,
    working: &mut impl Working,
) -> Result<Requirement, CannotTell> {
    let (device, conductor) = factors(code, rating)?;
    let after = load.continuous.checked_add(load.non_continuous).unwrap_or(Amperes::MAX);
    let requirement = Requirement {
        device: load.continuous * device + Scaled::whole(load.non_continuous),
        conductor: load.continuous * conductor + Scaled::whole(load.non_continuous),
        conductor_after_factors: after,
    };
    working.step(|| {
        let what = format!("device: {device} of {} and 100 % of {}", load.continuous, load.non_continuous);
        Step::new(what, requirement.device_shown().to_string()).by(&code.section(section_of(rating)))
    });
    working.step(|| {
        let what = format!(
            "conductor before factors: {conductor} of {} and 100 % of {}",
            load.continuous, load.non_continuous
        );
        Step::new(what, requirement.conductor_shown().to_string()).by(&code.section("continuous-branch-conductor"))
    });
    working.step(|| {
        Step::new("conductor after factors: the load", after.to_string())
            .by(&code.section("continuous-branch-conductor"))
    });
    Ok(requirement)
}

/// The factors of a continuous load against the device and against the conductor.
///
/// # Errors
/// [`CannotTell`] where a factor is below the grade that answers may rest on.
pub fn factors(code: &dyn Code, rating: ContinuousRating) -> Result<(Ratio, Ratio), CannotTell> {
    let value =
        |lookup: crate::code::Lookup<Ratio>| lookup.map(|cell| cell.value).map_err(cannot_tell("the continuous load"));
    match code.continuous_load() {
        ContinuousLoad::None => Ok((Ratio::ONE, Ratio::ONE)),
        ContinuousLoad::LoadFactor { listed, .. } if rating == ContinuousRating::Listed100 => {
            let listed = value(*listed)?;
            Ok((listed, listed))
        }
        ContinuousLoad::LoadFactor { device, conductor, .. } => Ok((value(*device)?, value(*conductor)?)),
    }
}

/// A load as exact fractions, weighed by `factor` on its continuous part: for loads given in watts.
///
/// # Errors
/// [`CannotTell`] only where the exact sum does not fit.
pub fn weighed(continuous: Fraction, non_continuous: Fraction, factor: Ratio) -> Result<Fraction, CannotTell> {
    continuous
        .checked_scale(u128::from(factor.count_of_millionths().unsigned_abs()), 1_000_000)
        .and_then(|scaled| scaled.checked_add(non_continuous))
        .ok_or(CannotTell { what: "the sum of the loads", gap: Gap::Outside(crate::published::TableId::RuleFactors) })
}

const fn section_of(rating: ContinuousRating) -> &'static str {
    match rating {
        ContinuousRating::Standard => "continuous-branch-overcurrent",
        ContinuousRating::Listed100 => "listed-for-100-percent",
    }
}
