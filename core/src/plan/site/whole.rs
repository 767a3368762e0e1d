//! The calculated load of a whole dwelling, and whether a source could carry all of it.

use crate::plan::demand::{
    Climate, DemandError, DemandRecord, Dwelling, DwellingDemand, ElectricHeat, Part, Peaks, RecordLength,
    existing_dwelling, metered, optional_dwelling,
};
use crate::plan::{Known, Question, Verdict};
use crate::quantity::{Amperes, Fraction, Ratio, Rounding, VoltAmperes, Volts};
use crate::rules::capacity;
use crate::site::{self, DemandMethod, DemandRecordLength, Site, Source};

/// What the whole of a dwelling is counted to draw.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Whole {
    /// The method that the description names.
    pub method: DemandMethod,
    /// The topic of its section, for [`crate::code::Code::section`].
    pub topic: &'static str,
    /// The calculated load; `None` where it cannot be told.
    pub demand: Option<VoltAmperes>,
    /// The same as a current at the source's voltage, rounded up.
    pub current: Option<Amperes>,
    /// How it comes about.
    pub working: Vec<Working>,
    /// What the source gives for hours; `None` where it is not stated.
    pub gives: Option<VoltAmperes>,
    /// Whether the source gives that much.
    pub verdict: Verdict,
    /// What is missing.
    pub questions: Vec<Question>,
}

/// A part of a calculated load.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Working {
    /// What it is.
    pub what: &'static str,
    /// The load.
    pub load: VoltAmperes,
    /// The share that counts.
    pub share: Ratio,
    /// What it comes to, rounded up.
    pub demand: VoltAmperes,
}

const DECIDES: &str = "what the whole dwelling is counted to draw";

/// The dwelling of a site beside what a source gives; `None` where no dwelling is described.
pub(super) fn whole(site: &Site, source: &Source) -> Option<Whole> {
    let stated = site.dwelling()?;
    let volts = source.system.line_to_line().or(source.system.line_to_neutral()).unwrap_or(Volts::MIN);
    let mut whole = Whole {
        method: stated.method,
        topic: match stated.method {
            DemandMethod::Optional => "dwelling-optional-load",
            DemandMethod::Existing => "existing-dwelling-load",
            DemandMethod::Metered => "demand-from-record",
        },
        demand: None,
        current: None,
        working: Vec::new(),
        gives: capacity::gives(source),
        verdict: Verdict::CannotTell,
        questions: Vec::new(),
    };
    let told = match stated.method {
        DemandMethod::Metered => by_meter(stated, &mut whole),
        DemandMethod::Optional | DemandMethod::Existing => by_parts(stated, volts, &mut whole),
    };
    if told.is_err() {
        // Only sums beyond the range end here: the figures are there.
        whole.questions.push(Question::new("the dwelling", "a load within range", DECIDES));
    }
    let amperes = |demand: VoltAmperes| {
        Fraction::of_apparent_power(demand, volts).map(|amperes| amperes.to_current(Rounding::Up))
    };
    whole.current = whole.demand.and_then(amperes);
    if whole.gives.is_none() {
        whole.questions.push(Question::new(
            &source.name,
            "the current or power that it gives for hours",
            "whether it can carry the whole dwelling",
        ));
    }
    whole.verdict = match (whole.demand, whole.gives) {
        (Some(demand), Some(gives)) if demand > gives => Verdict::Fails,
        (Some(_), Some(_)) if whole.questions.is_empty() => Verdict::Holds,
        _ => Verdict::CannotTell,
    };
    Some(whole)
}

fn by_meter(stated: &site::Dwelling, whole: &mut Whole) -> Result<(), DemandError> {
    let Some(highest) = stated.highest_demand else {
        whole.questions.push(Question::new("the dwelling", "the highest demand on record", DECIDES));
        return Ok(());
    };
    let record = DemandRecord {
        highest: *highest,
        length: stated.demand_record.map_or(Known::NotStated, |length| {
            Known::Stated(match length {
                DemandRecordLength::Year => RecordLength::Year,
                DemandRecordLength::ThirtyDays => RecordLength::ThirtyDays,
                DemandRecordLength::Less => RecordLength::Less,
            })
        }),
        peaks: stated
            .load_hidden
            .map_or(Known::NotStated, |hidden| Known::Stated(if hidden { Peaks::Hidden } else { Peaks::Seen })),
    };
    let new = stated.new_load.map_or(VoltAmperes::MIN, |load| *load);
    let found = metered(&record, new, whole.gives.unwrap_or(VoltAmperes::MAX))?;
    whole.questions.extend(found.questions);
    let existing = found.load.checked_sub(new).unwrap_or(found.load);
    whole.working.push(Working { what: "the highest demand", load: *highest, share: found.share, demand: existing });
    if new > VoltAmperes::MIN {
        whole.working.push(Working { what: "the new load", load: new, share: Ratio::ONE, demand: new });
    }
    whole.demand = Some(found.load);
    Ok(())
}

fn by_parts(stated: &site::Dwelling, volts: Volts, whole: &mut Whole) -> Result<(), DemandError> {
    let mut ask = |fact| whole.questions.push(Question::new("the dwelling", fact, DECIDES));
    if stated.appliances.is_empty() {
        ask("the nameplates of its appliances");
    }
    let climate = climate(stated, &mut ask);
    for (missing, fact) in [
        (stated.floor_area.is_none(), "the floor area"),
        (stated.small_appliance_circuits.is_none(), "the number of small-appliance circuits"),
        (stated.laundry_circuits.is_none(), "the number of laundry circuits"),
    ] {
        if missing {
            ask(fact);
        }
    }
    let (Some(area), Some(small), Some(laundry), true) =
        (stated.floor_area, stated.small_appliance_circuits, stated.laundry_circuits, whole.questions.is_empty())
    else {
        return Ok(());
    };
    let dwelling = Dwelling {
        square_feet: area.square_feet_up(),
        small_appliance_circuits: small.into(),
        laundry_circuits: laundry.into(),
        appliances: stated.appliances.iter().map(|appliance| *appliance.apparent_power).collect(),
        climate,
    };
    let found = match stated.method {
        DemandMethod::Existing => existing_dwelling(&dwelling, stated.added_climate.map(|load| *load), volts)?,
        _ => optional_dwelling(&dwelling, volts)?,
    };
    let DwellingDemand { blocks, climate, demand, .. } = found;
    let shown = |part: Part| Working { what: part.what, load: part.load, share: part.share, demand: part.demand };
    whole.working.extend(blocks.into_iter().chain(climate).map(shown));
    whole.demand = Some(demand);
    Ok(())
}

/// The cases of heating and cooling; asks where none is stated, for a dwelling without says `0 VA`.
fn climate(stated: &site::Dwelling, ask: &mut impl FnMut(&'static str)) -> Vec<Climate> {
    let mut cases = Vec::new();
    cases.extend(stated.air_conditioning.map(|load| Climate::AirConditioning(*load)));
    match (stated.heat_pump, stated.supplementary_heat) {
        (Some(pump), Some(heat)) => cases.push(Climate::HeatPumpWithHeat { pump: *pump, heat: *heat }),
        (Some(pump), None) => cases.push(Climate::HeatPump(*pump)),
        (None, Some(_)) => ask("the nameplate of its heat pump"),
        (None, None) => {}
    }
    match (stated.electric_heat, stated.electric_heat_units) {
        (Some(load), Some(units)) => {
            let units = if units < 4 { ElectricHeat::FewerThanFour } else { ElectricHeat::FourOrMore };
            cases.push(Climate::Electric(*load, units));
        }
        // Without heat its number decides nothing.
        (Some(load), None) if *load == VoltAmperes::MIN => {
            cases.push(Climate::Electric(*load, ElectricHeat::FewerThanFour))
        }
        (Some(_), None) => ask("the number of separately controlled heating units"),
        (None, _) => {}
    }
    cases.extend(stated.storage_heat.map(|load| Climate::Storage(*load)));
    let stated = [stated.heat_pump, stated.supplementary_heat, stated.electric_heat].iter().any(Option::is_some);
    if cases.is_empty() && !stated {
        ask("its heating and cooling");
    }
    cases
}
