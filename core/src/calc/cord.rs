//! Ampacity of a flexible cord in its conditions.

use super::ampacity::times;
use super::{CannotTell, Step, Working, cannot_tell};
use crate::code::{Code, ConductorRating, Gap};
use crate::published::TableId;
use crate::quantity::{Amperes, Celsius};
use crate::trade::{CordType, WireSize};

/// A cord and what its ampacity depends on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CordConditions {
    /// Its type.
    pub cord: CordType,
    /// The size of its conductors.
    pub size: WireSize,
    /// How many of its conductors carry current: not the grounding conductor, nor a neutral that carries only unbalance.
    pub current_carrying: u16,
    /// The ambient temperature.
    pub ambient: Celsius,
    /// The temperature marked on the cord; unmarked is read as the code says.
    pub marked: Option<Celsius>,
}

/// Ampacity of a cord: I = I_table · F_ambient · F_adjustment, in amperes.
///
/// Sections (NEC): 400.5(A), Tables 400.5(A)(1), (A)(2), (A)(3). More than three conductors take the value for three.
///
/// ```
/// # use loadworthy::{calc::{cord::{ampacity, CordConditions}, Silent}, code::{Edition, Nec}, trade::CordType};
/// let cord = CordConditions {
///     cord: CordType::Soow,
///     size: "6 AWG".parse()?,
///     current_carrying: 2,
///     ambient: "30 °C".parse()?,
///     marked: None,
/// };
/// assert_eq!(ampacity(Nec::standard(Edition::Nec2023), &cord, &mut Silent)?.to_string(), "55 A");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`CannotTell`] for a size or an ambient outside the tables.
pub fn ampacity(code: &dyn Code, of: &CordConditions, working: &mut impl Working) -> Result<Amperes, CannotTell> {
    find(code, of, working).map_err(cannot_tell("the ampacity of the cord"))
}

fn find(code: &dyn Code, of: &CordConditions, working: &mut impl Working) -> Result<Amperes, Gap> {
    let rating = rating(code, of, working)?;
    let facts = code.cord(of.cord)?;
    if of.size < facts.value.smallest || of.size > facts.value.largest {
        // Not made in that size: the ampacity table alone would not notice.
        return Err(Gap::Outside(TableId::FlexibleCordTypes));
    }
    let carrying = u8::try_from(of.current_carrying.min(3)).unwrap_or(3);
    let base = code.cord_ampacity(of.cord, of.size, carrying, rating)?;
    working
        .step(|| Step::read(format!("{} cord, {}, {carrying} conductors carry current", of.cord, of.size), base, code));
    let factor = code.ambient_factor(rating, of.ambient)?;
    let mut value = times(base.value, factor, TableId::AmbientCorrection30)?;
    working.step(|| {
        let mut step = Step::read(format!("ambient {}: times {}", of.ambient, factor.value), factor, code);
        step.result = value.to_string();
        step
    });
    if let Some(factor) = code.cord_bundling_factor(of.current_carrying)? {
        value = times(value, factor, TableId::FlexibleCordAdjustment)?;
        working.step(|| {
            let what = format!("{} conductors carry current: times {}", of.current_carrying, factor.value);
            let mut step = Step::read(what, factor, code);
            step.result = value.to_string();
            step
        });
    }
    Ok(value)
}

fn rating(code: &dyn Code, of: &CordConditions, working: &mut impl Working) -> Result<ConductorRating, Gap> {
    let (temperature, marked) = match of.marked {
        Some(marked) => (marked, true),
        None => (code.unmarked_cord_rating()?.value, false),
    };
    // A cord marked 105 °C is read in the 90 °C column: 400.5(A).
    let degrees = temperature.degrees_rounded_down();
    let rating = ConductorRating::at_or_below(degrees).ok_or(Gap::Outside(TableId::CordTemperature))?;
    working.step(|| {
        let what = if marked { format!("marked {temperature}") } else { format!("not marked: taken as {temperature}") };
        Step::new(format!("temperature of the cord, {what}"), format!("column {rating}"))
            .by(&code.section("cord-ambient"))
    });
    Ok(rating)
}
