//! A cord set for an outlet: type, size, ends, and how long it may be.

use super::conductor::{DropDuty, drop_holds};
use super::requirement::{Chosen, Requirement, Unsized, nothing};
use super::search::greatest;
use crate::calc::cord::{CordConditions, ampacity};
use crate::calc::voltage_drop::{Currents, Method};
use crate::calc::{CannotTell, Silent, Step, Working, cannot_tell};
use crate::code::{Code, CordPlace, Gap};
use crate::quantity::{Amperes, Celsius, Meters, Quantity, Ratio, Volts};
use crate::trade::{Configuration, Contacts, CordType, Gender, Material, Place, Usage, WireSize};

/// The cord types that are considered where none is asked for, the lightest first (common practice, no source: the
/// types that cord sets of trade are made of).
const USUAL: [CordType; 6] =
    [CordType::Sjtw, CordType::Sjoow, CordType::Stw, CordType::Stow, CordType::Soow, CordType::W];

/// A cord set to size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Question {
    /// The outlet that its plug enters.
    pub outlet: Configuration,
    /// What its connector serves; the outlet's own configuration where nothing else is wanted.
    pub connector: Configuration,
    /// The rating of the device that protects the outlet.
    pub device: Amperes,
    /// The load on each line.
    pub current: Amperes,
    /// The voltage that the drop is a share of.
    pub voltage: Volts,
    /// Its length.
    pub length: Meters,
    /// The share of the voltage that it may drop, with its conductors at 75 °C.
    pub drop: Option<Ratio>,
    /// How hard it will be used.
    pub usage: Usage,
    /// How wet the place is.
    pub place: Place,
    /// The air temperature around it.
    pub ambient: Celsius,
    /// The temperature that its insulation is marked for.
    pub marked: Option<Celsius>,
    /// The type, where one is asked for.
    pub cord: Option<CordType>,
}

/// A cord set, sized.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct CordSet {
    /// Its type.
    pub cord: CordType,
    /// The size of its conductors.
    pub size: Chosen<WireSize>,
    /// All its conductors, the grounding conductor too.
    pub conductors: u8,
    /// Its plug.
    pub plug: Contacts,
    /// Its connector.
    pub connector: Contacts,
    /// Its ampacity.
    pub ampacity: Amperes,
    /// The greatest length that keeps the drop within its limit; `None` where no limit was given.
    pub longest: Option<Meters>,
}

/// Sizes a cord set: the lightest usual type for the use and the place, and the smallest size that carries the load, is
/// protected by the outlet's device, and keeps the drop within its limit.
///
/// Sections (NEC): 400.4, 400.5(A), 240.5, 400.10. Sets in parallel and listed sets that a larger device may protect are
/// left out.
///
/// ```
/// # use loadworthy::{calc::Silent, code::{Edition, Nec}, size::cord::*, trade::{Place, Usage}};
/// let question = Question {
///     outlet: "14-50".parse()?,
///     connector: "14-50".parse()?,
///     device: "50 A".parse()?,
///     current: "40 A".parse()?,
///     voltage: "240 V".parse()?,
///     length: "25 ft".parse()?,
///     drop: Some("3 %".parse()?),
///     usage: Usage::ExtraHard,
///     place: Place::Wet,
///     ambient: "30 °C".parse()?,
///     marked: None,
///     cord: None,
/// };
/// let set = cord_set(Nec::standard(Edition::Nec2023), &question, &mut Silent)?;
/// assert_eq!((set.size.value.to_string(), set.conductors), ("6 AWG".to_owned(), 4));
/// assert_eq!(set.plug.to_string(), "14-50P");
/// assert_eq!(set.connector.to_string(), "14-50R");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`Unsized`]: what the tables do not tell, or the requirement that no size meets.
pub fn cord_set(code: &dyn Code, question: &Question, working: &mut impl Working) -> Result<CordSet, Unsized> {
    let bears = question.outlet.rated_current().min(question.connector.rated_current());
    if question.current > bears {
        return nothing("cord set", Requirement::Configuration);
    }
    let asked = question.cord.map(|cord| [cord]);
    let types = asked.as_ref().map_or(USUAL.as_slice(), |cord| cord.as_slice());
    let mut last = None;
    for cord in types {
        if !suits(code, question, *cord)? {
            last = last.or_else(|| nothing::<()>("cord type", Requirement::Place).err());
            continue;
        }
        match of_type(code, question, *cord, working) {
            Err(error @ Unsized::NothingPasses(_)) => last = Some(error),
            other => return other,
        }
    }
    last.map_or_else(|| nothing("cord type", Requirement::Listed), Err)
}

/// Whether a type bears the voltage, the use and the place. A place that the table does not tell does not suit wet ones.
fn suits(code: &dyn Code, question: &Question, cord: CordType) -> Result<bool, CannotTell> {
    let facts = code.cord(cord).map_err(cannot_tell("the cord type"))?.value;
    let place = match question.place {
        Place::Dry => true,
        Place::Damp => facts.place.is_some(),
        Place::Wet => facts.place == Some(CordPlace::Wet),
    };
    let usage = match (question.usage, facts.usage) {
        (Usage::RangesDryers, usage) => usage == Usage::RangesDryers,
        (_, Usage::RangesDryers) => false,
        (wanted, usage) => usage >= wanted,
    };
    Ok(place && usage && facts.voltage >= question.voltage)
}

fn of_type(
    code: &dyn Code,
    question: &Question,
    cord: CordType,
    working: &mut impl Working,
) -> Result<CordSet, Unsized> {
    let conditions = |size| CordConditions {
        cord,
        size,
        current_carrying: carrying(question.outlet),
        ambient: question.ambient,
        marked: question.marked,
    };
    let mut governed_by = Requirement::Listed;
    for size in code.sizes() {
        match failure(code, question, &conditions(*size))? {
            Some(failure) => governed_by = failure,
            None => {
                let ampacity = ampacity(code, &conditions(*size), working)?;
                let longest = longest(code, question, *size)?;
                working.step(|| {
                    let step = Step::new(format!("smallest cord, governed by {governed_by}"), size.to_string());
                    governed_by.citation(code).map_or(step.clone(), |citation| step.by(&citation))
                });
                return Ok(CordSet {
                    cord,
                    size: Chosen { value: *size, governed_by },
                    conductors: question.outlet.wires(),
                    plug: Contacts { configuration: question.outlet, gender: Gender::Male },
                    connector: Contacts { configuration: question.connector, gender: Gender::Female },
                    ampacity,
                    longest,
                });
            }
        }
    }
    nothing("cord", governed_by)
}

/// The first requirement that a cord of a size fails.
fn failure(code: &dyn Code, question: &Question, of: &CordConditions) -> Result<Option<Requirement>, CannotTell> {
    let ampacity = match ampacity(code, of, &mut Silent) {
        Ok(ampacity) => ampacity,
        Err(CannotTell {
            gap: Gap::Outside(table) | Gap::Blank(crate::published::CellPlace { table, .. }), ..
        }) => {
            let ambient = table == crate::published::TableId::AmbientCorrection30;
            return Ok(Some(if ambient { Requirement::Ambient } else { Requirement::Listed }));
        }
        Err(gap) => return Err(gap),
    };
    if question.current > ampacity {
        return Ok(Some(Requirement::Load));
    }
    if question.device > ampacity {
        return Ok(Some(Requirement::Protection));
    }
    match question.drop_duty(question.length) {
        Some(drop) if !drop_holds(code, &drop, Material::Copper, of.size, 1)? => Ok(Some(Requirement::VoltageDrop)),
        _ => Ok(None),
    }
}

/// The greatest length at which a size keeps the drop within its limit, to a tenth of a millimeter.
fn longest(code: &dyn Code, question: &Question, size: WireSize) -> Result<Option<Meters>, CannotTell> {
    if question.drop.is_none() {
        return Ok(None);
    }
    let holds = |count| match Meters::from_count(count).and_then(|length| question.drop_duty(length)) {
        Some(drop) => drop_holds(code, &drop, Material::Copper, size, 1),
        None => Ok(false),
    };
    Ok(greatest(0, Meters::MAX.count(), holds)?.and_then(Meters::from_count))
}

impl Question {
    fn drop_duty(&self, length: Meters) -> Option<DropDuty> {
        let method = Method::DirectCurrent { temperature: Celsius::from_whole(75) };
        let currents = if self.outlet.phases() == 3 {
            Currents::ThreePhase(self.current)
        } else {
            Currents::TwoWire(self.current)
        };
        Some(DropDuty { share: self.drop?, method, voltage: self.voltage, length, currents })
    }
}

/// The conductors that carry current: not the neutral of three wires, which carries only the unbalance, 400.5(A).
fn carrying(outlet: Configuration) -> u16 {
    let neutral_of_three = outlet.neutral() && outlet.poles() > 2;
    u16::from(outlet.poles()).saturating_sub(u16::from(neutral_of_three))
}
