//! The optional methods for one dwelling: new (220.82) and existing (220.83).

use super::{DemandError, Part, current, figure, part, sum, times};
use crate::published::Cell;
use crate::quantity::{Amperes, Ratio, VoltAmperes, Volts};

/// What a dwelling has. All appliances by nameplate: ranges, ovens, dryers, water heaters, fixed appliances, motors.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dwelling {
    /// The floor area by outside dimensions, without open porches and garages, in square feet.
    pub square_feet: u32,
    /// The number of small-appliance branch circuits.
    pub small_appliance_circuits: u32,
    /// The number of laundry branch circuits.
    pub laundry_circuits: u32,
    /// The nameplates of all other appliances but heating and cooling.
    pub appliances: Vec<VoltAmperes>,
    /// Heating and cooling; of those that do not run together the largest counts.
    pub climate: Vec<Climate>,
}

/// One of the cases of heating and cooling of 220.82(C).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Climate {
    /// Air conditioning.
    AirConditioning(VoltAmperes),
    /// A heat pump without supplementary heat.
    HeatPump(VoltAmperes),
    /// A heat pump with supplementary heat that may run with it.
    HeatPumpWithHeat {
        /// The compressor.
        pump: VoltAmperes,
        /// The supplementary heat.
        heat: VoltAmperes,
    },
    /// Electric space heating.
    Electric(VoltAmperes, ElectricHeat),
    /// Thermal storage, or other heating expected to be continuous at its full value.
    Storage(VoltAmperes),
}

/// How many separately controlled units electric heating has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ElectricHeat {
    /// Fewer than four.
    FewerThanFour,
    /// Four or more.
    FourOrMore,
}

/// The demand of a dwelling.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DwellingDemand {
    /// All general load before any demand factor.
    pub general: VoltAmperes,
    /// The general load by its blocks.
    pub blocks: Vec<Part>,
    /// What counts of heating and cooling.
    pub climate: Vec<Part>,
    /// The demand in total.
    pub demand: VoltAmperes,
    /// What it draws at the voltage of the service, rounded up; `None` at 0 V.
    pub current: Option<Amperes>,
    /// The least ampacity of a service or feeder for which the method serves; `None` where it names none.
    pub least_service: Option<Amperes>,
}

/// The optional method for one dwelling.
///
/// Section: NEC 220.82 (2020, 2023): general load at 100 % of the first block and 40 % of the rest, and the largest of
/// the cases of heating and cooling. It serves services and feeders of 100 A and more.
///
/// # Errors
/// [`DemandError`] for sums beyond the range.
pub fn optional_dwelling(dwelling: &Dwelling, at: Volts) -> Result<DwellingDemand, DemandError> {
    let general = general(dwelling)?;
    let blocks = blocks(general, "opt-first", Some("opt-first-percent"), "opt-rest-percent")?;
    let mut climate: Vec<Part> = Vec::new();
    for case in &dwelling.climate {
        let parts = case.parts()?;
        if sum(parts.iter().map(|part| part.demand))? > sum(climate.iter().map(|part| part.demand))? {
            climate = parts;
        }
    }
    let least = figure::<Amperes>("opt-min-service")?.value;
    total(general, blocks, climate, at, Some(least))
}

/// The optional method for a dwelling that stands, to which `added` heating or cooling comes; `None` where none comes.
///
/// Section: NEC 220.83 (2020, 2023): all loads, old and new, at 100 % of the first 8 kVA and 40 % of the rest; where
/// heating or cooling is added, the larger of heating and cooling at 100 % beside that. `dwelling.climate` counts with
/// the general load in case (A) only.
///
/// # Errors
/// [`DemandError`] for sums beyond the range.
pub fn existing_dwelling(
    dwelling: &Dwelling,
    added: Option<VoltAmperes>,
    at: Volts,
) -> Result<DwellingDemand, DemandError> {
    let plain = |case: &Climate| match *case {
        Climate::AirConditioning(load)
        | Climate::HeatPump(load)
        | Climate::Electric(load, _)
        | Climate::Storage(load) => Ok(load),
        Climate::HeatPumpWithHeat { pump, heat } => sum([pump, heat]),
    };
    let mut largest = VoltAmperes::MIN;
    for case in &dwelling.climate {
        largest = largest.max(plain(case)?);
    }
    let mut general = general(dwelling)?;
    let mut climate = Vec::new();
    match added {
        Some(added) => {
            climate.push(part("the larger of heating and cooling", added.max(largest), figure("exist-hvac-percent")?)?)
        }
        None => general = sum([general, largest])?,
    }
    let blocks = blocks(general, "exist-first", None, "exist-rest-percent")?;
    total(general, blocks, climate, at, None)
}

fn general(dwelling: &Dwelling) -> Result<VoltAmperes, DemandError> {
    let circuits =
        dwelling.small_appliance_circuits.checked_add(dwelling.laundry_circuits).ok_or(DemandError::OutOfRange)?;
    let lighting = times(figure::<VoltAmperes>("opt-lighting")?.value, dwelling.square_feet)?;
    let small = times(figure::<VoltAmperes>("opt-small-appliance")?.value, circuits)?;
    sum([lighting, small].into_iter().chain(dwelling.appliances.iter().copied()))
}

fn blocks(
    general: VoltAmperes,
    first: &'static str,
    first_share: Option<&'static str>,
    rest: &'static str,
) -> Result<Vec<Part>, DemandError> {
    let block: Cell<VoltAmperes> = figure(first)?;
    // The existing method says "first 8 kVA" without a figure for its share, which is the whole of it.
    let share = match first_share {
        Some(key) => figure::<Ratio>(key)?,
        None => block.map(|_| Ratio::ONE),
    };
    let in_first = general.min(block.value);
    let above = general.checked_sub(in_first).ok_or(DemandError::OutOfRange)?;
    Ok(vec![part("the first block", in_first, share)?, part("the remainder", above, figure(rest)?)?])
}

fn total(
    general: VoltAmperes,
    blocks: Vec<Part>,
    climate: Vec<Part>,
    at: Volts,
    least_service: Option<Amperes>,
) -> Result<DwellingDemand, DemandError> {
    let demand = sum(blocks.iter().chain(&climate).map(|part| part.demand))?;
    Ok(DwellingDemand { general, blocks, climate, demand, current: current(demand, at), least_service })
}

impl Climate {
    fn parts(self) -> Result<Vec<Part>, DemandError> {
        Ok(match self {
            Self::AirConditioning(load) => vec![part("air conditioning", load, figure("opt-ac")?)?],
            Self::HeatPump(load) => vec![part("heat pump", load, figure("opt-hp")?)?],
            Self::HeatPumpWithHeat { pump, heat } => {
                vec![
                    part("heat pump", pump, figure("opt-hp")?)?,
                    part("supplementary heat", heat, figure("opt-hp-supp")?)?,
                ]
            }
            Self::Electric(load, ElectricHeat::FewerThanFour) => {
                vec![part("electric heat", load, figure("opt-heat-lt4")?)?]
            }
            Self::Electric(load, ElectricHeat::FourOrMore) => {
                vec![part("electric heat", load, figure("opt-heat-ge4")?)?]
            }
            Self::Storage(load) => vec![part("storage heat", load, figure("opt-heat-storage")?)?],
        })
    }
}
