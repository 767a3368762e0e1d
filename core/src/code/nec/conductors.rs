//! Conductor tables: ampacity, correction, adjustment, insulation, cables, resistance.

use std::sync::OnceLock;

use super::Edition;
use super::read::{self, Reading, both};
use crate::code::{
    Acceptance, Bands, CableRule, ConductorRating, Gap, InsulationFacts, Lookup, RooftopRule, SizeTable,
};
use crate::published::{Cell, TableId};
use crate::quantity::{Amperes, Celsius, CelsiusRise, CircularMils, Meters, OhmsPerLength, Ratio};
use crate::trade::{Cable, Conduit, Installation, Insulation, Material, Place, WireSize};

/// Copper and aluminum, each with its three temperature columns.
type Columns<T> = [SizeTable<T>; 6];

#[derive(Debug)]
pub(super) struct Conductors {
    raceway: Columns<Amperes>,
    free_air: OnceLock<Columns<Amperes>>,
    ambient: [Bands<Lookup<Ratio>>; 3],
    bundling: Bands<Lookup<Ratio>>,
    pub(super) rooftop: Lookup<RooftopRule>,
    insulations: Vec<(Insulation, Lookup<InsulationFacts>, Lookup<InsulationFacts>)>,
    cables: Vec<CableRow>,
    pub(super) area: SizeTable<CircularMils>,
    resistance: [SizeTable<OhmsPerLength>; 2],
    coefficients: [Lookup<(i64, Celsius)>; 2],
    impedance: OnceLock<[SizeTable<(OhmsPerLength, OhmsPerLength)>; 6]>,
    /// For the tables that few ask for, which are read when somebody does.
    acceptance: Acceptance,
    pub(super) sizes: Vec<WireSize>,
}

#[derive(Debug)]
struct CableRow {
    cable: Cable,
    thermal_insulation: Option<bool>,
    smallest: Option<WireSize>,
    largest: Option<WireSize>,
    rule: Lookup<CableRule>,
}

const METALS: [&str; 2] = ["copper", "aluminum"];
const CONDUITS: [(Conduit, &str, &str); 3] = [
    (Conduit::Pvc, "pvc_conduit", "reactance_pvc_or_aluminum_conduit_ohm_per_kft"),
    (Conduit::Aluminum, "aluminum_conduit", "reactance_pvc_or_aluminum_conduit_ohm_per_kft"),
    (Conduit::Steel, "steel_conduit", "reactance_steel_conduit_ohm_per_kft"),
];

impl Conductors {
    pub(super) fn read(edition: Edition, acceptance: &Acceptance) -> Self {
        let table = |id| Reading::of(id, acceptance);
        Self {
            raceway: ampacity_columns(table(TableId::AmpacityRaceway)),
            free_air: OnceLock::new(),
            ambient: ConductorRating::ALL.map(|rating| {
                let column = format!("factor_{}c", rating.degrees());
                bands(table(TableId::AmbientCorrection30), "ambient_c_to", &column, read::factor)
            }),
            bundling: bands(table(TableId::AdjustmentMoreThanThree), "count_to", "percent", read::percent),
            rooftop: rooftop(edition, table(TableId::RooftopAddition)),
            insulations: insulations(table(TableId::Insulations)),
            cables: cables(table(TableId::Cables)),
            area: by_size(
                table(TableId::ConductorProperties),
                |text| text.parse().ok().and_then(CircularMils::new),
                "area_cmil",
            ),
            resistance: METALS.map(|metal| {
                let column = if metal == "copper" { "copper_uncoated_ohm_per_kft" } else { "aluminum_ohm_per_kft" };
                by_size(table(TableId::ConductorProperties), read::ohms_per_kilofoot, column)
            }),
            coefficients: METALS.map(|metal| coefficient(table(TableId::TemperatureCoefficients), metal)),
            impedance: OnceLock::new(),
            acceptance: acceptance.clone(),
            sizes: table(TableId::AmpacityRaceway).rows().filter_map(|(_, row)| read::size(row.cell(0)?)).collect(),
        }
    }

    #[inline]
    pub(super) fn ampacity(
        &self,
        installation: Installation,
        material: Material,
        rating: ConductorRating,
        size: WireSize,
    ) -> Lookup<Amperes> {
        let (columns, id) = match installation {
            Installation::FreeAir => {
                let read = || ampacity_columns(Reading::of(TableId::AmpacityFreeAir, &self.acceptance));
                (self.free_air.get_or_init(read), TableId::AmpacityFreeAir)
            }
            Installation::Raceway | Installation::Cable | Installation::Buried => {
                (&self.raceway, TableId::AmpacityRaceway)
            }
        };
        match columns.get(metal(material) * 3 + rating as usize) {
            Some(column) => column.get(size, id),
            None => Err(Gap::Outside(id)),
        }
    }

    #[inline]
    pub(super) fn ambient_factor(&self, rating: ConductorRating, ambient: Celsius) -> Lookup<Ratio> {
        // The bands are whole degrees: an ambient between two belongs to the warmer one.
        match self.ambient.get(rating as usize) {
            Some(bands) => bands.get(ambient.degrees_rounded_up())?,
            None => Err(Gap::Outside(TableId::AmbientCorrection30)),
        }
    }

    pub(super) fn bundling_factor(&self, conductors: u16) -> Result<Option<Cell<Ratio>>, Gap> {
        if conductors <= 3 { Ok(None) } else { self.bundling.get(i64::from(conductors))?.map(Some) }
    }

    pub(super) fn insulation(&self, insulation: Insulation, place: Place) -> Lookup<InsulationFacts> {
        let row = self.insulations.iter().find(|(known, _, _)| *known == insulation);
        match (row, place) {
            (Some((_, dry, _)), Place::Dry | Place::Damp) => *dry,
            (Some((_, _, wet)), Place::Wet) => *wet,
            (None, _) => Err(Gap::Outside(TableId::Insulations)),
        }
    }

    pub(super) fn cable(&self, cable: Cable, thermal_insulation: bool, size: WireSize) -> Lookup<CableRule> {
        let fits = |row: &&CableRow| {
            row.cable == cable
                && row.thermal_insulation.is_none_or(|inside| inside == thermal_insulation)
                && row.smallest.is_none_or(|least| size >= least)
                && row.largest.is_none_or(|most| size <= most)
        };
        match self.cables.iter().find(fits) {
            Some(row) => row.rule,
            None => Err(Gap::Outside(TableId::Cables)),
        }
    }

    pub(super) fn resistance(&self, material: Material, size: WireSize) -> Lookup<OhmsPerLength> {
        match self.resistance.get(metal(material)) {
            Some(column) => column.get(size, TableId::ConductorProperties),
            None => Err(Gap::Outside(TableId::ConductorProperties)),
        }
    }

    pub(super) fn temperature_coefficient(&self, material: Material) -> Lookup<(i64, Celsius)> {
        self.coefficients.get(metal(material)).copied().unwrap_or(Err(Gap::Outside(TableId::TemperatureCoefficients)))
    }

    pub(super) fn impedance(
        &self,
        material: Material,
        conduit: Conduit,
        size: WireSize,
    ) -> Lookup<(OhmsPerLength, OhmsPerLength)> {
        let read = || impedance(Reading::of(TableId::AcImpedance, &self.acceptance));
        match self.impedance.get_or_init(read).get(metal(material) * 3 + conduit as usize) {
            Some(column) => column.get(size, TableId::AcImpedance),
            None => Err(Gap::Outside(TableId::AcImpedance)),
        }
    }
}

/// The aluminum columns hold for copper-clad aluminum too.
const fn metal(material: Material) -> usize {
    match material {
        Material::Copper => 0,
        Material::Aluminum | Material::CopperCladAluminum => 1,
    }
}

fn ampacity_columns(table: Reading<'_>) -> Columns<Amperes> {
    let column = |index: usize| {
        let metal = METALS.get(index / 3).copied().unwrap_or("");
        let degrees = ConductorRating::ALL.get(index % 3).map_or(0, |rating| rating.degrees());
        by_size(table, read::amperes, &format!("{metal}_{degrees}c_a"))
    };
    std::array::from_fn(column)
}

/// Where a size has a solid and a stranded row, the stranded one stands: it is the later, and the higher resistance.
fn by_size<T: Copy>(table: Reading<'_>, read: impl Fn(&str) -> Option<T>, column: &str) -> SizeTable<T> {
    let mut values = SizeTable::empty(table.id);
    for (index, row) in table.rows() {
        if let Some(size) = row.cell(0).and_then(read::size) {
            values.set(size, table.cell(index, row, column, &read));
        }
    }
    values
}

fn bands<T: Copy>(table: Reading<'_>, upper: &str, column: &str, read: impl Fn(&str) -> Option<T>) -> Bands<Lookup<T>> {
    let rows = table.rows().map(|(index, row)| {
        let edge = read::whole(table.text(row, upper)).unwrap_or(i64::MAX);
        (edge, table.cell(index, row, column, &read))
    });
    Bands::new(table.id, rows.collect())
}

fn rooftop(edition: Edition, table: Reading<'_>) -> Lookup<RooftopRule> {
    let Some((index, row)) = table.rows().find(|(_, row)| row.cell(0) == Some(edition.year())) else {
        return Err(Gap::NotInEdition(table.id));
    };
    let rise = |text: &str| format!("{text} °C").parse::<CelsiusRise>().ok();
    let millimeters = |text: &str| format!("{text} mm").parse::<Meters>().ok();
    let addition = table.cell(index, row, "addition_c_rise", rise);
    let clearance = table.cell(index, row, "clearance_below_mm", millimeters);
    let exempt = table.text(row, "exempt_insulation").parse().ok();
    both(addition, clearance).map(|cell| cell.map(|(addition, clearance)| RooftopRule { addition, clearance, exempt }))
}

fn insulations(table: Reading<'_>) -> Vec<(Insulation, Lookup<InsulationFacts>, Lookup<InsulationFacts>)> {
    let rating =
        |text: &str| read::whole(text).and_then(ConductorRating::of_degrees).map(|rating| InsulationFacts { rating });
    table
        .rows()
        .filter_map(|(index, row)| {
            let insulation = row.cell(0)?.parse().ok()?;
            let dry = table.cell(index, row, "column_dry_c", rating);
            let wet = table.cell(index, row, "column_wet_c", rating);
            Some((insulation, dry, wet))
        })
        .collect()
}

fn cables(table: Reading<'_>) -> Vec<CableRow> {
    table
        .rows()
        .filter_map(|(index, row)| {
            // `conductor` leaves the rating to the conductors inside; a blank factor column means the final one.
            let rating = |text: &str| match text {
                "conductor" => Some(None),
                _ => read::whole(text).and_then(ConductorRating::of_degrees).map(Some),
            };
            let final_rating = table.cell(index, row, "final_column_c", rating);
            let rule = match table.text(row, "factor_column_c") {
                "" => final_rating.map(|cell| cell.map(|rating| (rating, rating))),
                _ => both(final_rating, table.cell(index, row, "factor_column_c", rating)),
            };
            Some(CableRow {
                cable: row.cell(0)?.parse().ok()?,
                thermal_insulation: match table.text(row, "installed") {
                    "anywhere" => None,
                    installed => Some(installed.contains("thermal-insulation")),
                },
                smallest: read::size(table.text(row, "smallest_size")),
                largest: read::size(table.text(row, "largest_size")),
                rule: rule.map(|cell| {
                    cell.map(|(final_rating, factor_rating)| {
                        let wet = table.cell(index, row, "wet_location", |text| (text == "no").then_some(()));
                        let not_in_wet_places = wet.ok().map(|cell| cell.place);
                        CableRule { final_rating, factor_rating, not_in_wet_places }
                    })
                }),
            })
        })
        .collect()
}

fn coefficient(table: Reading<'_>, metal: &str) -> Lookup<(i64, Celsius)> {
    let hundred_thousandths = |text: &str| {
        let decimal = rust_decimal::Decimal::from_str_exact(text).ok()?;
        let scaled = decimal.checked_mul(rust_decimal::Decimal::from(100_000))?.normalize();
        (scaled.scale() == 0).then(|| i64::try_from(scaled.mantissa()).ok()).flatten()
    };
    both(
        table.keyed(metal, "coefficient_per_c", hundred_thousandths),
        table.keyed(metal, "reference_c", |text| read::whole(text).and_then(Celsius::from_degrees)),
    )
}

fn impedance(table: Reading<'_>) -> [SizeTable<(OhmsPerLength, OhmsPerLength)>; 6] {
    std::array::from_fn(|index| {
        let mut values = SizeTable::empty(table.id);
        let Some(metal) = METALS.get(index / 3) else {
            return values;
        };
        let Some((_, conduit, reactance)) = CONDUITS.iter().find(|(conduit, _, _)| *conduit as usize == index % 3)
        else {
            return values;
        };
        let column = format!("{metal}_resistance_{conduit}_ohm_per_kft");
        for (row_index, row) in table.rows() {
            if let Some(size) = row.cell(0).and_then(read::size) {
                let resistance = table.cell(row_index, row, &column, read::ohms_per_kilofoot);
                let reactance = table.cell(row_index, row, reactance, read::ohms_per_kilofoot);
                values.set(size, both(resistance, reactance));
            }
        }
        values
    })
}
