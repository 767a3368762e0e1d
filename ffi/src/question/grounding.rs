//! Grounding conductors, and the conductor of a dwelling's service.

use loadworthy::calc::grounding::{Enlarged, electrode, equipment};
use loadworthy::calc::{CannotTell, Step, Working};
use loadworthy::code::Code;
use loadworthy::quantity::Amperes;
use loadworthy::trade::WireSize;

use super::{Answered, Question, ask};
use crate::border::Plain;
use crate::choices::words::{MATERIALS, lw_material};
use crate::code::lw_code;
use crate::error::{Result, fail, lw_error};
use crate::number::{Unit, lw_wire_size, number_of_wire_size, required, wire_size, wire_size_given};
use crate::outcome::{
    LW_ASSUMED_NOT_ENLARGED, LW_GOVERNOR_DEVICE, LW_GOVERNOR_ENLARGED_CONDUCTORS, LW_GOVERNOR_SERVICE_CONDUCTOR,
    LW_GOVERNOR_SERVICE_RATING, LW_OUTCOME_CANNOT_TELL, LW_OUTCOME_HOLDS, lw_assumed, lw_governor, lw_outcome,
};
use crate::status::{LW_STATUS_NOT_STATED, lw_status};
use crate::working::lw_working;

/// Behind which device a grounding conductor serves. Make one with `lw_equipment_grounding_question_init`. Device and
/// material must be stated; the two sizes both, or neither.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_equipment_grounding_question {
    /// Set it to `sizeof(lw_equipment_grounding_question)`.
    pub struct_size: usize,
    /// The rating of the overcurrent device ahead, in amperes.
    pub device_a: f64,
    /// The material of the grounding conductor.
    pub material: lw_material,
    /// The smallest circuit conductor with sufficient ampacity, where a larger one is installed.
    pub needed: lw_wire_size,
    /// The circuit conductor that is installed.
    pub installed: lw_wire_size,
    /// Zero.
    pub reserved: i32,
}

/// The service that a grounding electrode conductor belongs to. Make one with `lw_grounding_electrode_question_init`.
/// Everything must be stated.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_grounding_electrode_question {
    /// Set it to `sizeof(lw_grounding_electrode_question)`.
    pub struct_size: usize,
    /// The material of the largest ungrounded service conductor.
    pub service_material: lw_material,
    /// Its size.
    pub service_size: lw_wire_size,
    /// The material of the grounding electrode conductor.
    pub material: lw_material,
    /// Zero.
    pub reserved: i32,
}

/// The service of a dwelling. Make one with `lw_dwelling_service_question_init`. Everything must be stated.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_dwelling_service_question {
    /// Set it to `sizeof(lw_dwelling_service_question)`.
    pub struct_size: usize,
    /// The rating of the service or main power feeder, in amperes.
    pub rating_a: f64,
    /// The material of its conductors.
    pub material: lw_material,
    /// Zero.
    pub reserved: i32,
}

/// The size of a conductor: an output.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_conductor_answer {
    /// Set it to `sizeof(lw_conductor_answer)`.
    pub struct_size: usize,
    /// `LW_OUTCOME_HOLDS` where it is answered.
    pub outcome: lw_outcome,
    /// What limits it.
    pub governed_by: lw_governor,
    /// What was assumed.
    pub assumed: lw_assumed,
    /// The least size; 0 where it cannot be told.
    pub size: lw_wire_size,
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_equipment_grounding_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self =
        Self { struct_size: size_of::<Self>(), device_a: f64::NAN, material: 0, needed: 0, installed: 0, reserved: 0 };
}

// SAFETY: `repr(C)`, `struct_size` first, integers only.
unsafe impl Plain for lw_grounding_electrode_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self =
        Self { struct_size: size_of::<Self>(), service_material: 0, service_size: 0, material: 0, reserved: 0 };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_dwelling_service_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self { struct_size: size_of::<Self>(), rating_a: f64::NAN, material: 0, reserved: 0 };
}

// SAFETY: `repr(C)`, `struct_size` first, integers only.
unsafe impl Plain for lw_conductor_answer {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self =
        Self { struct_size: size_of::<Self>(), outcome: LW_OUTCOME_CANNOT_TELL, governed_by: 0, assumed: 0, size: 0 };
}

fn answer(size: WireSize, governed_by: lw_governor, assumed: lw_assumed) -> lw_conductor_answer {
    lw_conductor_answer {
        outcome: LW_OUTCOME_HOLDS,
        governed_by,
        assumed,
        size: number_of_wire_size(size),
        ..lw_conductor_answer::UNSTATED
    }
}

fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_conductor_answer {
    lw_conductor_answer { outcome, governed_by, ..lw_conductor_answer::UNSTATED }
}

impl Question for lw_equipment_grounding_question {
    type Answer = lw_conductor_answer;

    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_conductor_answer>> {
        let device: Amperes = required(self.device_a, &Unit::AMPERE, "question.device_a")?;
        let material = MATERIALS.required(self.material, "question.material")?;
        let needed = wire_size_given(self.needed, "question.needed")?;
        let installed = wire_size_given(self.installed, "question.installed")?;
        let enlarged = match (needed, installed) {
            (Some(needed), Some(installed)) => Some(Enlarged { needed, installed }),
            (None, None) => None,
            (Some(_), None) => return Err(other("question.installed", "needed")),
            (None, Some(_)) => return Err(other("question.needed", "installed")),
        };
        let (governed_by, assumed) = match enlarged {
            Some(enlarged) if enlarged.installed > enlarged.needed => (LW_GOVERNOR_ENLARGED_CONDUCTORS, 0),
            Some(_) => (LW_GOVERNOR_DEVICE, 0),
            None => (LW_GOVERNOR_DEVICE, LW_ASSUMED_NOT_ENLARGED),
        };
        let found = equipment(code, material, device, enlarged, working);
        Ok(Answered::of(found, |size| answer(size, governed_by, assumed)))
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_conductor_answer {
        no(outcome, governed_by)
    }
}

fn other(place: &str, stated: &str) -> Box<lw_error> {
    fail(LW_STATUS_NOT_STATED, place, format_args!("is not stated although {stated} is; state both or neither"))
}

impl Question for lw_grounding_electrode_question {
    type Answer = lw_conductor_answer;

    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_conductor_answer>> {
        let of = MATERIALS.required(self.service_material, "question.service_material")?;
        let size = wire_size(self.service_size, "question.service_size")?;
        let material = MATERIALS.required(self.material, "question.material")?;
        let found = electrode(code, (of, size), material, working);
        Ok(Answered::of(found, |size| answer(size, LW_GOVERNOR_SERVICE_CONDUCTOR, 0)))
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_conductor_answer {
        no(outcome, governed_by)
    }
}

impl Question for lw_dwelling_service_question {
    type Answer = lw_conductor_answer;

    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_conductor_answer>> {
        let rating: Amperes = required(self.rating_a, &Unit::AMPERE, "question.rating_a")?;
        let material = MATERIALS.required(self.material, "question.material")?;
        let found = code
            .dwelling_service(material, rating)
            .map_err(|gap| CannotTell { what: "the conductor of the service", gap });
        Ok(Answered::of(found, |cell| {
            working.step(|| Step::read(format!("{material}, service of {rating}"), cell, code));
            answer(cell.value, LW_GOVERNOR_SERVICE_RATING, 0)
        }))
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_conductor_answer {
        no(outcome, governed_by)
    }
}

/// The least equipment grounding conductor: NEC 250.122.
///
/// Outputs, errors and threads as with `lw_ampacity`.
///
/// ```c
/// lw_equipment_grounding_question question = lw_equipment_grounding_question_init();
/// lw_conductor_answer answer = lw_conductor_answer_init();
/// question.device_a = 50;
/// question.material = LW_MATERIAL_COPPER;
/// lw_equipment_grounding(code, &question, &answer, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_equipment_grounding(
    code: *const lw_code,
    question: *const lw_equipment_grounding_question,
    answer_out: *mut lw_conductor_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}

/// The least grounding electrode conductor: NEC 250.66. The electrode is none of a rod, a concrete encasement or a ring,
/// whose own limits are lower.
///
/// Outputs, errors and threads as with `lw_ampacity`.
///
/// ```c
/// lw_grounding_electrode_question question = lw_grounding_electrode_question_init();
/// lw_conductor_answer answer = lw_conductor_answer_init();
/// question.service_material = LW_MATERIAL_COPPER;
/// question.service_size = LW_WIRE_SIZE_2_0_AWG;
/// question.material = LW_MATERIAL_COPPER;
/// lw_grounding_electrode(code, &question, &answer, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_grounding_electrode(
    code: *const lw_code,
    question: *const lw_grounding_electrode_question,
    answer_out: *mut lw_conductor_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}

/// The least conductor of a dwelling's service or main power feeder: NEC 310.12. It holds for one dwelling, single-phase
/// 120/240 V or two phases of 208Y/120 V, its whole load on this service, where no correction or adjustment is needed.
///
/// Outputs, errors and threads as with `lw_ampacity`.
///
/// ```c
/// lw_dwelling_service_question question = lw_dwelling_service_question_init();
/// lw_conductor_answer answer = lw_conductor_answer_init();
/// question.rating_a = 200;
/// question.material = LW_MATERIAL_ALUMINUM;
/// lw_dwelling_service(code, &question, &answer, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_dwelling_service(
    code: *const lw_code,
    question: *const lw_dwelling_service_question,
    answer_out: *mut lw_conductor_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}
