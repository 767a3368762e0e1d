//! The conductors of a motor circuit, whose device may stand above their ampacity.

use super::ampacity::of_ampacity;
use super::requirement::{Chosen, Requirement, Unsized};
use crate::calc::Working;
use crate::calc::ampacity::Conditions;
use crate::calc::grounding::equipment;
use crate::code::Code;
use crate::quantity::{Amperes, Scaled};
use crate::trade::{Material, WireSize};

/// The conductors of a motor circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct MotorCircuit {
    /// The ungrounded conductors.
    pub ungrounded: Chosen<WireSize>,
    /// The equipment grounding conductor.
    pub grounding: Chosen<WireSize>,
}

/// Sizes the conductors of a motor circuit from the ampacity and the device that the motor rules ask for.
///
/// `least` is 125 % of the full-load current of the table (430.22), or the sum of 430.24 for several motors; `device` the
/// short-circuit and ground-fault device of 430.52, which 240.4(G) lets stand above the ampacity and 240.4(D) does not
/// limit. The overload protection of 430.32 is not sized here.
///
/// ```
/// # use loadworthy::{calc::{Silent, ampacity::{Conditions, Covering}}, code::{Edition, Nec}, size::motor::motor_circuit};
/// # use loadworthy::{trade::*, quantity::*};
/// let conditions = Conditions {
///     terminals: TerminalMark::C60,
///     ..Conditions::base(Material::Copper, "14 AWG".parse()?, Covering::Insulation(Insulation::Thwn2))
/// };
/// // 22 A of the table at 125 % is 27.5 A; a breaker of 60 A.
/// let least = "22 A".parse::<Amperes>()? * Ratio::percent(125);
/// let nec = Nec::standard(Edition::Nec2023);
/// let sized = motor_circuit(nec, &conditions, least, "60 A".parse()?, Material::Copper, &mut Silent)?;
/// assert_eq!(sized.ungrounded.value.to_string(), "10 AWG");
/// assert_eq!(sized.grounding.value.to_string(), "10 AWG");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`Unsized`]: what the tables do not tell, or an ampacity above the largest conductor.
pub fn motor_circuit(
    code: &dyn Code,
    conditions: &Conditions,
    least: Scaled<Amperes>,
    device: Amperes,
    grounding: Material,
    working: &mut impl Working,
) -> Result<MotorCircuit, Unsized> {
    let ungrounded = of_ampacity(code, conditions, least, working)?;
    let table = equipment(code, grounding, device, None, working)?;
    // Not required larger than the circuit conductors, where both are of one metal: 250.122(A).
    let (value, governed_by) = if grounding == conditions.material && table > ungrounded.value {
        (ungrounded.value, Requirement::AsUngrounded)
    } else {
        (table, Requirement::EquipmentGrounding)
    };
    Ok(MotorCircuit { ungrounded, grounding: Chosen { value, governed_by } })
}
