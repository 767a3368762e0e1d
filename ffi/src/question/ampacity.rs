//! How much current a conductor may carry in its conditions.

use loadworthy::calc::Working;
use loadworthy::calc::ampacity::{Conditions, Covering, ampacity};
use loadworthy::code::Code;
use loadworthy::trade::{Cable, TerminalMark, WireSize};

use super::{Answered, Question, ask};
use crate::border::Plain;
use crate::choices::words::{
    CABLES, INSTALLATIONS, INSULATIONS, MATERIALS, PLACES, TERMINAL_MARKS, lw_cable, lw_installation, lw_insulation,
    lw_material, lw_place, lw_terminals,
};
use crate::code::lw_code;
use crate::error::{Result, fail, lw_error};
use crate::number::{Unit, amperes, amperes_or_nan, given, lw_wire_size, needed, temperature, wire_size};
use crate::outcome::{
    Governs, LW_ASSUMED_AMBIENT_30C, LW_ASSUMED_DRY_PLACE, LW_ASSUMED_INSTALLATION, LW_ASSUMED_NO_ROOF,
    LW_ASSUMED_RATING_BY_SIZE, LW_ASSUMED_TERMINALS_UNMARKED, LW_ASSUMED_THREE_CONDUCTORS, LW_NO,
    LW_OUTCOME_CANNOT_TELL, LW_OUTCOME_HOLDS, LW_YES, lw_assumed, lw_governor, lw_outcome, lw_yes_no,
};
use crate::status::{LW_STATUS_BAD_CHOICE, LW_STATUS_BAD_NUMBER, LW_STATUS_NOT_STATED, lw_status};
use crate::working::lw_working;

/// A conductor and its conditions. Make one with `lw_ampacity_question_init`, which states nothing: 0 and NAN say so.
/// Material, size, and insulation or cable must be stated; the rest is taken as the base of the table has it, and the
/// answer says what was.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_ampacity_question {
    /// Set it to `sizeof(lw_ampacity_question)`.
    pub struct_size: usize,
    /// What the conductor is made of.
    pub material: lw_material,
    /// Its size.
    pub size: lw_wire_size,
    /// Its insulation; of a conductor in a cable it may be left out.
    pub insulation: lw_insulation,
    /// The cable that it lies in, where it does.
    pub cable: lw_cable,
    /// How it is installed.
    pub installation: lw_installation,
    /// The kind of place.
    pub place: lw_place,
    /// The ambient temperature in °C, or NAN.
    pub ambient_c: f64,
    /// The same in °F, in place of it, or NAN.
    pub ambient_f: f64,
    /// The clearance above a roof in sunlight, in inches; NAN where there is none.
    pub rooftop_clearance_in: f64,
    /// How many conductors carry current, 1 to 999.
    pub current_carrying: i32,
    /// Whether the cable lies in thermal insulation; asked for only where the answer depends on it.
    pub thermal_insulation: lw_yes_no,
    /// The lower temperature mark of its terminals.
    pub terminals: lw_terminals,
    /// Zero.
    pub reserved: i32,
    /// The rating of the circuit in amperes, which decides how unmarked terminals count; NAN where it is not known.
    pub circuit_rating_a: f64,
}

/// The ampacity of a conductor: an output. Currents are the doubles nearest to the exact values; NAN where there is none.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_ampacity_answer {
    /// Set it to `sizeof(lw_ampacity_answer)`.
    pub struct_size: usize,
    /// `LW_OUTCOME_HOLDS` where it is answered.
    pub outcome: lw_outcome,
    /// What limits it.
    pub governed_by: lw_governor,
    /// What was assumed.
    pub assumed: lw_assumed,
    /// Zero.
    pub reserved: u32,
    /// The current that it may carry, in amperes.
    pub usable_a: f64,
    /// The conductor's own ampacity, corrected and adjusted, in amperes.
    pub corrected_a: f64,
    /// The limit of the terminals, in amperes.
    pub terminal_a: f64,
    /// The limit of the cable, in amperes, where it has one.
    pub cable_a: f64,
    /// The largest overcurrent device of a small conductor, in amperes, where it is one.
    pub small_conductor_device_a: f64,
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_ampacity_question {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        material: 0,
        size: 0,
        insulation: 0,
        cable: 0,
        installation: 0,
        place: 0,
        ambient_c: f64::NAN,
        ambient_f: f64::NAN,
        rooftop_clearance_in: f64::NAN,
        current_carrying: 0,
        thermal_insulation: 0,
        terminals: 0,
        reserved: 0,
        circuit_rating_a: f64::NAN,
    };
}

// SAFETY: `repr(C)`, `struct_size` first, integers and doubles only.
unsafe impl Plain for lw_ampacity_answer {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        outcome: LW_OUTCOME_CANNOT_TELL,
        governed_by: 0,
        assumed: 0,
        reserved: 0,
        usable_a: f64::NAN,
        corrected_a: f64::NAN,
        terminal_a: f64::NAN,
        cable_a: f64::NAN,
        small_conductor_device_a: f64::NAN,
    };
}

impl lw_ampacity_question {
    /// The conditions, and what was assumed of them. `smallest` is taken where the size is not stated.
    #[inline(always)]
    pub(crate) fn conditions(&self, code: &dyn Code, smallest: Option<WireSize>) -> Result<(Conditions, lw_assumed)> {
        let material = MATERIALS.required(self.material, "question.material")?;
        let size = match smallest {
            Some(smallest) if self.size == 0 => smallest,
            _ => wire_size(self.size, "question.size")?,
        };
        let covering = self.covering()?;
        let mut of = Conditions::base(material, size, covering);
        let mut assumed = 0;
        match INSTALLATIONS.given(self.installation, "question.installation")? {
            Some(installation) => of.installation = installation,
            None => assumed |= LW_ASSUMED_INSTALLATION,
        }
        match PLACES.given(self.place, "question.place")? {
            Some(place) => of.place = place,
            None => assumed |= LW_ASSUMED_DRY_PLACE,
        }
        match temperature((self.ambient_c, "question.ambient_c"), (self.ambient_f, "question.ambient_f"))? {
            Some(ambient) => of.ambient = ambient,
            None => assumed |= LW_ASSUMED_AMBIENT_30C,
        }
        match given(self.rooftop_clearance_in, &Unit::INCH, "question.rooftop_clearance_in")? {
            None => assumed |= LW_ASSUMED_NO_ROOF,
            clearance => of.rooftop_clearance = clearance,
        }
        match count(self.current_carrying, "question.current_carrying")? {
            Some(count) => of.current_carrying = count,
            None => assumed |= LW_ASSUMED_THREE_CONDUCTORS,
        }
        of.thermal_insulation = inside(self.thermal_insulation, code, covering, size)?;
        let rating = given(self.circuit_rating_a, &Unit::AMPERE, "question.circuit_rating_a")?;
        of.circuit_rating = rating;
        let terminals = TERMINAL_MARKS.given(self.terminals, "question.terminals")?;
        match terminals {
            Some(terminals) => of.terminals = terminals,
            None => assumed |= LW_ASSUMED_TERMINALS_UNMARKED,
        }
        if terminals.unwrap_or(TerminalMark::Unmarked) == TerminalMark::Unmarked && rating.is_none() {
            assumed |= LW_ASSUMED_RATING_BY_SIZE;
        }
        Ok((of, assumed))
    }

    #[inline(always)]
    fn covering(&self) -> Result<Covering> {
        let insulation = INSULATIONS.given(self.insulation, "question.insulation")?;
        match CABLES.given(self.cable, "question.cable")? {
            Some(cable) => Ok(Covering::Cable(cable, insulation)),
            None => needed(insulation, "insulation or cable", "question.insulation").map(Covering::Insulation),
        }
    }
}

/// Whether the cable lies in thermal insulation; asked for only where the code's answer depends on it.
#[inline(always)]
fn inside(stated: lw_yes_no, code: &dyn Code, covering: Covering, size: WireSize) -> Result<bool> {
    match covering {
        Covering::Insulation(_) if stated == 0 => Ok(false),
        Covering::Insulation(_) => Ok(yes_no(stated, "question.thermal_insulation")?.unwrap_or(false)),
        Covering::Cable(cable, _) => cable_inside(stated, code, cable, size),
    }
}

#[inline(never)]
fn cable_inside(stated: lw_yes_no, code: &dyn Code, cable: Cable, size: WireSize) -> Result<bool> {
    let place = "question.thermal_insulation";
    if let Some(stated) = yes_no(stated, place)? {
        return Ok(stated);
    }
    let rule = |inside| code.cable(cable, inside, size).map(|cell| cell.value);
    if rule(true) == rule(false) {
        return Ok(false);
    }
    Err(fail(
        LW_STATUS_NOT_STATED,
        place,
        format_args!(
            "whether the cable lies in thermal insulation is not stated and decides the answer; write LW_YES or LW_NO"
        ),
    ))
}

/// Yes or no, `None` where it is not stated.
#[inline(always)]
pub(crate) fn yes_no(number: lw_yes_no, place: &'static str) -> Result<Option<bool>> {
    match number {
        0 => Ok(None),
        LW_YES => Ok(Some(true)),
        LW_NO => Ok(Some(false)),
        _ => Err(neither(number, place)),
    }
}

#[cold]
#[inline(never)]
fn neither(number: lw_yes_no, place: &str) -> Box<lw_error> {
    fail(LW_STATUS_BAD_CHOICE, place, format_args!("{number} is neither; write LW_YES or LW_NO"))
}

/// A count of conductors, 1 to 999; 0 is not stated.
#[inline(always)]
pub(crate) fn count(number: i32, place: &'static str) -> Result<Option<u16>> {
    match u16::try_from(number) {
        Ok(0) => Ok(None),
        Ok(count @ 1..=999) => Ok(Some(count)),
        _ => Err(no_count(number, place)),
    }
}

#[cold]
#[inline(never)]
fn no_count(number: i32, place: &str) -> Box<lw_error> {
    let what = format_args!("{number} is not a count of conductors; write a whole number from 1 to 999");
    fail(LW_STATUS_BAD_NUMBER, place, what)
}

impl Question for lw_ampacity_question {
    type Answer = lw_ampacity_answer;

    #[inline]
    fn answer(&self, code: &dyn Code, working: &mut impl Working) -> Result<Answered<lw_ampacity_answer>> {
        let (conditions, assumed) = self.conditions(code, None)?;
        Ok(Answered::of(ampacity(code, &conditions, working), |found| lw_ampacity_answer {
            outcome: LW_OUTCOME_HOLDS,
            governed_by: found.governed_by.number(),
            assumed,
            usable_a: amperes(found.usable),
            corrected_a: amperes(found.corrected),
            terminal_a: amperes(found.terminal),
            cable_a: amperes_or_nan(found.cable),
            small_conductor_device_a: amperes_or_nan(found.small_conductor_device),
            ..lw_ampacity_answer::UNSTATED
        }))
    }

    fn no(outcome: lw_outcome, governed_by: lw_governor) -> lw_ampacity_answer {
        lw_ampacity_answer { outcome, governed_by, ..lw_ampacity_answer::UNSTATED }
    }
}

/// How much current a conductor may carry in its conditions: NEC 310.15, 110.14(C), 240.4(D).
///
/// `*answer_out` is written on every path; where a table does not tell, it says `LW_OUTCOME_CANNOT_TELL` and its currents
/// are NAN. `working_out` may be NULL; otherwise `*working_out` owns the working: release it with `lw_working_free`.
/// What cannot be read comes back as a status, and as an error in `*error_out`, which may be NULL.
///
/// Nothing but the outputs is written: any number of threads may ask at once, of one code.
///
/// ```c
/// lw_ampacity_question question = lw_ampacity_question_init();
/// lw_ampacity_answer answer = lw_ampacity_answer_init();
/// question.material = LW_MATERIAL_COPPER;
/// question.size = 8;
/// question.insulation = LW_INSULATION_THHN;
/// question.ambient_c = 40;
/// question.terminals = LW_TERMINALS_75C;
/// if (lw_ampacity(code, &question, &answer, NULL, NULL) == LW_STATUS_OK && answer.outcome == LW_OUTCOME_HOLDS)
///     printf("%g A\n", answer.usable_a);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_ampacity(
    code: *const lw_code,
    question: *const lw_ampacity_question,
    answer_out: *mut lw_ampacity_answer,
    working_out: *mut *mut lw_working,
    error_out: *mut *mut lw_error,
) -> lw_status {
    ask(code, question, answer_out, working_out, error_out)
}
