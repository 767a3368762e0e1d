//! A branch circuit or a feeder: overcurrent device, ungrounded conductors, neutral, equipment grounding conductor.

use super::conductor::{self, DropDuty, Duty, drop_holds, plainly_too_few, smallest, together, within_drop};
use super::requirement::{Chosen, Requirement, Unsized, nothing};
use crate::calc::ampacity::{Ampacity, Conditions, ampacity};
use crate::calc::continuous::{Load, Requirement as Needs, requirement};
use crate::calc::grounding::{Enlarged, equipment};
use crate::calc::overcurrent::{Supplies, largest_device};
use crate::calc::voltage_drop::{Currents, Method, Segment, VoltageDrop, Wire, voltage_drop};
use crate::calc::{CannotTell, Step, Working, cannot_tell};
use crate::code::Code;
use crate::quantity::{Amperes, Celsius, Meters, Quantity, Ratio, Volts};
use crate::trade::{ContinuousRating, DeviceKind, Material, WireSize};

/// A circuit to size: everything but its sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Question {
    /// Branch circuit or feeder.
    pub role: Role,
    /// The load on each ungrounded conductor.
    pub load: Load,
    /// The conductors of the circuit.
    pub conductors: Conductors,
    /// The voltage that the drop is a share of: between lines where there are two or more.
    pub voltage: Volts,
    /// The length of the run, one way.
    pub length: Meters,
    /// How the conductors lie. Their size is the smallest to consider; the rating of the circuit is found here.
    pub conditions: Conditions,
    /// The limit on the voltage drop of this circuit, where one is wanted, and how the drop is found.
    pub drop: Option<DropLimit>,
    /// The overcurrent device.
    pub device: Device,
    /// What the equipment grounding conductor is made of; `None` where a raceway or a sheath serves instead.
    pub grounding: Option<Material>,
    /// The most sets of conductors in parallel that are acceptable, each set in a raceway of its own.
    pub most_sets: u8,
}

/// What a circuit is to the code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// From the last overcurrent device to the outlets.
    Branch,
    /// Between the supply and the last overcurrent device.
    Feeder,
}

/// The conductors of a circuit, but for the equipment grounding conductor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Conductors {
    /// One ungrounded conductor and a neutral.
    LineAndNeutral,
    /// Two ungrounded conductors.
    TwoLines,
    /// Two ungrounded conductors and a neutral that carries at most this much.
    TwoLinesAndNeutral(NeutralLoad),
    /// Three ungrounded conductors of a three-phase system.
    ThreePhase,
    /// Three ungrounded conductors and a neutral that carries at most this much.
    ThreePhaseAndNeutral(NeutralLoad),
}

/// What a neutral carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NeutralLoad {
    /// As much as an ungrounded conductor, or not known: it is made as large.
    AsUngrounded,
    /// The greatest unbalance, 220.61. Only a feeder's neutral is made smaller for it.
    Unbalance(Load),
}

/// A limit on the voltage drop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DropLimit {
    /// The share of the voltage.
    pub share: Ratio,
    /// How the drop is found.
    pub method: Method,
}

/// The overcurrent device of a circuit, but for its rating.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Device {
    /// Breaker or fuse.
    pub kind: DeviceKind,
    /// Whether the assembly is listed for continuous load at its rating.
    pub continuous_rating: ContinuousRating,
    /// What the circuit supplies.
    pub supplies: Supplies,
    /// The least rating to consider.
    pub least: Amperes,
}

/// The direct-current resistance of Chapter 9 Table 8 at its own temperature: the usual way to a size.
pub const TABLE_8: Method = Method::DirectCurrent { temperature: Celsius::from_whole(75) };

impl Device {
    /// An ordinary breaker of 15 A or more for a circuit that does not feed several receptacles.
    pub const BREAKER: Self = Self {
        kind: DeviceKind::Breaker,
        continuous_rating: ContinuousRating::Standard,
        supplies: Supplies::Other,
        least: Amperes::from_whole(15),
    };
}

/// A circuit, sized.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Circuit {
    /// The rating of the overcurrent device.
    pub device: Chosen<Amperes>,
    /// How many sets of conductors lie in parallel.
    pub sets: u8,
    /// The ungrounded conductors.
    pub ungrounded: Chosen<WireSize>,
    /// The smallest ungrounded conductor that has the ampacity, before any enlargement for the drop.
    pub needed: WireSize,
    /// The neutral, where there is one.
    pub neutral: Option<Chosen<WireSize>>,
    /// The equipment grounding conductor of each set, where one is wanted.
    pub grounding: Option<Chosen<WireSize>>,
    /// The ampacity of one ungrounded conductor.
    pub ampacity: Ampacity,
    /// The drop with all sets sharing the load, where a limit was given.
    pub drop: Option<VoltageDrop>,
}

/// Sizes a circuit: first the smallest standard device for the load, then the smallest conductors for that device.
///
/// Sets in parallel are taken only where one conductor will not do. Sections (NEC 2023): 210.19(A)(1), 210.20(A),
/// 215.2(A)(1), 215.3, 240.4, 240.6(A), 250.122(A), (B) and (F), 310.3(A), 310.10(G), 220.61. Leaves out: motors
/// (see [`motor`](super::motor)), taps, the 100 % exception for a neutral that no device opens.
///
/// ```
/// # use loadworthy::{calc::{Silent, ampacity::{Conditions, Covering}, continuous::Load, voltage_drop::Method}};
/// # use loadworthy::{code::{Edition, Nec}, size::circuit::*, trade::{Insulation, Material}, quantity::Amperes};
/// let question = Question {
///     role: Role::Branch,
///     load: Load { continuous: "16 A".parse()?, non_continuous: Amperes::ZERO },
///     conductors: Conductors::LineAndNeutral,
///     voltage: "120 V".parse()?,
///     length: "100 ft".parse()?,
///     conditions: Conditions::base(Material::Copper, "14 AWG".parse()?, Covering::Insulation(Insulation::Thwn2)),
///     drop: Some(DropLimit {
///         share: "3 %".parse()?,
///         method: Method::DirectCurrent { temperature: "75 °C".parse()? },
///     }),
///     device: Device::BREAKER,
///     grounding: Some(Material::Copper),
///     most_sets: 1,
/// };
/// let sized = circuit(Nec::standard(Edition::Nec2023), &question, &mut Silent)?;
/// assert_eq!(sized.device.value.to_string(), "20 A"); // 16 A at 125 % is exactly 20 A
/// assert_eq!(sized.needed.to_string(), "12 AWG");
/// assert_eq!(sized.ungrounded.value.to_string(), "8 AWG"); // 10 AWG drops 3.968 V of the 3.6 V allowed
/// assert_eq!(sized.grounding.map(|size| size.value.to_string()).as_deref(), Some("8 AWG"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`Unsized`]: what the tables do not tell, or the requirement that nothing standard meets.
pub fn circuit(code: &dyn Code, question: &Question, working: &mut impl Working) -> Result<Circuit, Unsized> {
    let needs = requirement(code, question.load, question.device.continuous_rating, working)?;
    let device = device(code, question, &needs, working)?;
    let conditions = Conditions { circuit_rating: Some(device.value), ..question.conditions };
    let duty = Duty {
        conditions,
        before: needs.conductor,
        after: needs.conductor_after_factors,
        continuous: question.load.continuous,
        device: Some((question.device.kind, device.value, question.device.supplies)),
        sets: 1,
    };
    let (duty, needed, ungrounded) = ungrounded(code, question, duty)?;
    finish(code, question, Sizes { device, duty, needed, ungrounded }, working)
}

/// The smallest standard device that is not below what the load requires.
fn device(
    code: &dyn Code,
    question: &Question,
    needs: &Needs,
    working: &mut impl Working,
) -> Result<Chosen<Amperes>, Unsized> {
    let Device { kind, supplies, least, .. } = question.device;
    let mut governed_by = Requirement::Asked;
    for rating in code.standard_ratings(kind) {
        let rating = rating.map_err(cannot_tell("the overcurrent device"))?.value;
        if needs.device > rating {
            governed_by = Requirement::ContinuousLoad;
        } else if rating < least {
            governed_by = Requirement::Asked;
        } else if supplies == Supplies::SeveralReceptacles && code.receptacle_ratings(rating).is_err() {
            governed_by = Requirement::ReceptacleRating;
        } else {
            working.step(|| {
                Step::new(format!("next standard {kind}"), rating.to_string()).by(&code.section("standard-rating"))
            });
            return Ok(Chosen { value: rating, governed_by });
        }
    }
    let requirement = match governed_by {
        Requirement::ReceptacleRating => Requirement::ReceptacleRating,
        _ => Requirement::StandardRating,
    };
    nothing("overcurrent device", requirement)
}

/// The smallest ungrounded conductors, in as few sets as will do: the duty of each, its size without and with the drop.
fn ungrounded(
    code: &dyn Code,
    question: &Question,
    duty: Duty,
) -> Result<(Duty, Chosen<WireSize>, Chosen<WireSize>), Unsized> {
    let drop = question.drop_duty();
    let mut last = None;
    let most_sets = question.most_sets.max(1);
    for sets in 1..=most_sets {
        let duty = Duty { sets, ..duty };
        // What so few lack is said only where more are not acceptable.
        if sets < most_sets && plainly_too_few(code, &duty) {
            continue;
        }
        let found = smallest(code, &duty).and_then(|needed| {
            let ungrounded = match &drop {
                Some(drop) => within_drop(code, needed, duty.conditions.material, sets, drop)?,
                None => needed,
            };
            Ok((duty, needed, ungrounded))
        });
        match found {
            Err(error @ Unsized::NothingPasses(_)) => last = Some(error),
            other => return other,
        }
    }
    last.map_or_else(|| nothing("conductor", Requirement::Listed), Err)
}

struct Sizes {
    device: Chosen<Amperes>,
    duty: Duty,
    needed: Chosen<WireSize>,
    ungrounded: Chosen<WireSize>,
}

/// The remaining conductors, and the forward calculations of the answer with their working.
fn finish(code: &dyn Code, question: &Question, sizes: Sizes, working: &mut impl Working) -> Result<Circuit, Unsized> {
    let Sizes { device, duty, needed, ungrounded } = sizes;
    let material = duty.conditions.material;
    let conditions = Conditions { size: ungrounded.value, ..duty.conditions };
    let found = ampacity(code, &conditions, working)?;
    let all = together(found.usable, i128::from(duty.sets));
    if duty.sets > 1 {
        working.step(|| {
            Step::new(format!("{} sets in parallel", duty.sets), all.to_string())
                .by(&code.section("parallel-conductors"))
        });
    }
    let Device { kind, supplies, .. } = question.device;
    if device.value > all {
        largest_device(code, kind, all, (material, ungrounded.value), supplies, working)?;
    } else {
        working.step(|| {
            Step::new(format!("the device does not exceed the ampacity of {all}"), device.value.to_string())
                .by(&code.section("conductor-protection"))
        });
    }
    let drop = match question.drop_duty() {
        Some(drop) => Some(shown_drop(code, &drop, material, ungrounded.value, duty.sets, working)?),
        None => None,
    };
    working.step(|| chosen("ungrounded conductors", ungrounded, code));
    let grounding = match question.grounding {
        Some(metal) => Some(grounding(code, metal, device.value, material, (needed.value, ungrounded.value), working)?),
        None => None,
    };
    let neutral = neutral(code, question, &duty, ungrounded, grounding)?;
    if let Some(neutral) = neutral {
        working.step(|| chosen("neutral", neutral, code));
    }
    Ok(Circuit { device, sets: duty.sets, ungrounded, needed: needed.value, neutral, grounding, ampacity: found, drop })
}

fn grounding(
    code: &dyn Code,
    metal: Material,
    device: Amperes,
    ungrounded_metal: Material,
    (needed, installed): (WireSize, WireSize),
    working: &mut impl Working,
) -> Result<Chosen<WireSize>, CannotTell> {
    let plain =
        code.equipment_grounding(metal, device).map_err(cannot_tell("the equipment grounding conductor"))?.value;
    let size = equipment(code, metal, device, Some(Enlarged { needed, installed }), working)?;
    // Never required larger than the circuit conductors, where both are of one metal: 250.122(A).
    let size = if metal == ungrounded_metal && size > installed { installed } else { size };
    let governed_by =
        if size > plain { Requirement::EquipmentGroundingIncrease } else { Requirement::EquipmentGrounding };
    Ok(Chosen { value: size, governed_by })
}

fn neutral(
    code: &dyn Code,
    question: &Question,
    duty: &Duty,
    ungrounded: Chosen<WireSize>,
    grounding: Option<Chosen<WireSize>>,
) -> Result<Option<Chosen<WireSize>>, Unsized> {
    let as_ungrounded = Chosen { value: ungrounded.value, governed_by: Requirement::AsUngrounded };
    let load = match question.conductors {
        Conductors::TwoLines | Conductors::ThreePhase => return Ok(None),
        Conductors::LineAndNeutral => return Ok(Some(as_ungrounded)),
        Conductors::TwoLinesAndNeutral(load) | Conductors::ThreePhaseAndNeutral(load) => load,
    };
    let (NeutralLoad::Unbalance(load), Role::Feeder) = (load, question.role) else {
        return Ok(Some(as_ungrounded));
    };
    let needs = requirement(code, load, question.device.continuous_rating, &mut crate::calc::Silent)?;
    let duty = Duty {
        before: needs.conductor,
        after: needs.conductor_after_factors,
        continuous: load.continuous,
        device: None,
        ..*duty
    };
    let least = smallest(code, &duty)?;
    let found = match grounding {
        Some(grounding) if grounding.value > least.value => {
            Chosen { value: grounding.value, governed_by: Requirement::FeederNeutral }
        }
        _ => least,
    };
    Ok(Some(if found.value < ungrounded.value { found } else { as_ungrounded }))
}

impl Question {
    pub(super) fn drop_duty(&self) -> Option<DropDuty> {
        let DropLimit { share, method } = self.drop?;
        let current = self.load.continuous.checked_add(self.load.non_continuous).unwrap_or(Amperes::MAX);
        let currents = match self.conductors {
            Conductors::ThreePhase | Conductors::ThreePhaseAndNeutral(_) => Currents::ThreePhase(current),
            _ => Currents::TwoWire(current),
        };
        Some(DropDuty { share, method, voltage: self.voltage, length: self.length, currents })
    }
}

/// The drop as shown: each set with its share of the current, rounded up to the microampere.
fn shown_drop(
    code: &dyn Code,
    drop: &DropDuty,
    material: Material,
    size: WireSize,
    sets: u8,
    working: &mut impl Working,
) -> Result<VoltageDrop, CannotTell> {
    let share = |current: Amperes| {
        let sets = i128::from(sets.max(1));
        let count = current.count().div_euclid(sets) + i128::from(current.count().rem_euclid(sets) != 0);
        Amperes::from_count(count).unwrap_or(current)
    };
    let currents = match drop.currents {
        Currents::ThreePhase(current) => Currents::ThreePhase(share(current)),
        Currents::TwoWire(current) => Currents::TwoWire(share(current)),
        Currents::Legs { this, other } => Currents::Legs { this: share(this), other: share(other) },
    };
    let wire = Wire::Sized(material, size);
    voltage_drop(
        code,
        drop.voltage,
        &[Segment { wire, neutral: None, length: drop.length, currents }],
        drop.method,
        working,
    )
}

fn chosen(what: &str, size: Chosen<WireSize>, code: &dyn Code) -> Step {
    let step = Step::new(format!("smallest {what}, governed by {}", size.governed_by), size.value.to_string());
    match size.governed_by.citation(code) {
        Some(citation) => step.by(&citation),
        None => step,
    }
}

/// Whether given sizes pass every requirement of a question, and the first that they fail.
///
/// # Errors
/// [`CannotTell`] where the tables do not tell.
pub fn first_failure(
    code: &dyn Code,
    question: &Question,
    device: Amperes,
    sets: u8,
    size: WireSize,
) -> Result<Option<Requirement>, CannotTell> {
    let needs = requirement(code, question.load, question.device.continuous_rating, &mut crate::calc::Silent)?;
    if needs.device > device {
        return Ok(Some(Requirement::ContinuousLoad));
    }
    let conditions = Conditions { circuit_rating: Some(device), ..question.conditions };
    let duty = Duty {
        conditions,
        before: needs.conductor,
        after: needs.conductor_after_factors,
        continuous: question.load.continuous,
        device: Some((question.device.kind, device, question.device.supplies)),
        sets,
    };
    if let Some(failure) = conductor::ampacity_failure(code, &duty, size)? {
        return Ok(Some(failure));
    }
    match question.drop_duty() {
        Some(drop) if !drop_holds(code, &drop, conditions.material, size, sets)? => Ok(Some(Requirement::VoltageDrop)),
        _ => Ok(None),
    }
}
