//! The smallest conductor of an ampacity, for whoever knows the ampacity that is required.

use super::requirement::{Chosen, Requirement, Unsized, nothing};
use crate::calc::ampacity::{Conditions, ampacity};
use crate::calc::{CannotTell, Silent, Step, Working, cannot_tell};
use crate::code::{Code, Gap};
use crate::quantity::{Amperes, Rounding, Scaled};
use crate::trade::WireSize;

/// The smallest conductor whose usable ampacity is not below `least`; the size in the conditions is the smallest to
/// consider.
///
/// ```
/// # use loadworthy::{calc::{Silent, ampacity::{Conditions, Covering}}, code::{Code, Edition, Nec}};
/// # use loadworthy::{size::ampacity::of_ampacity, trade::*, quantity::*};
/// let nec = Nec::standard(Edition::Nec2023);
/// let conditions = Conditions {
///     terminals: TerminalMark::C75,
///     ..Conditions::base(Material::Copper, "14 AWG".parse()?, Covering::Insulation(Insulation::Thwn2))
/// };
/// // The conductors of a generator of 250 A carry 115 % of it: 445.13(A).
/// let share = nec.share("generator-conductors")?.value;
/// let least = "250 A".parse::<Amperes>()? * share;
/// assert_eq!(of_ampacity(nec, &conditions, least, &mut Silent)?.value.to_string(), "350 kcmil");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`Unsized`]: what the tables do not tell, or an ampacity above the largest conductor.
pub fn of_ampacity(
    code: &dyn Code,
    conditions: &Conditions,
    least: Scaled<Amperes>,
    working: &mut impl Working,
) -> Result<Chosen<WireSize>, Unsized> {
    let smallest = code.smallest_conductor(conditions.material).map_err(cannot_tell("the smallest conductor"))?.value;
    let mut governed_by = Requirement::Asked;
    for size in code.sizes().iter().copied().filter(|size| *size >= conditions.size) {
        let of = Conditions { size, ..*conditions };
        governed_by = match ampacity(code, &of, &mut Silent) {
            _ if size < smallest => Requirement::SmallestConductor,
            Ok(found) if least <= found.usable => {
                let found = ampacity(code, &of, working)?;
                working.step(|| {
                    let shown = least.rounded(Rounding::Up).unwrap_or(Amperes::MAX);
                    Step::new(format!("smallest conductor of at least {shown}"), format!("{size}, {}", found.usable))
                });
                return Ok(Chosen { value: size, governed_by });
            }
            Ok(_) => Requirement::Load,
            Err(CannotTell { gap: Gap::Outside(_) | Gap::Blank(_) | Gap::NotInEdition(_), .. }) => Requirement::Listed,
            Err(gap) => return Err(gap.into()),
        };
    }
    nothing("conductor", governed_by)
}
