//! Overcurrent devices, small conductors, grounding conductors, dwelling services, receptacles.

use super::Edition;
use super::read::{self, Reading, both};
use crate::code::{Acceptance, Gap, Lookup, SmallConductor};
use crate::published::{Cell, TableId};
use crate::quantity::Amperes;
use crate::trade::{DeviceKind, Material, SizeSystem, WireSize};

#[derive(Debug)]
pub(super) struct Protection {
    breakers: Vec<Lookup<Amperes>>,
    fuses: Vec<Lookup<Amperes>>,
    small: Vec<(WireSize, Material, Lookup<SmallConductor>)>,
    grounding: Vec<GroundingRow>,
    electrode: Vec<ElectrodeRow>,
    dwelling: Vec<(Amperes, Lookup<WireSize>, Lookup<WireSize>)>,
    receptacle_ratings: Vec<(Amperes, Lookup<(Amperes, Amperes)>)>,
    receptacle_loads: Vec<(Amperes, Amperes, Lookup<Amperes>)>,
}

#[derive(Debug)]
struct GroundingRow {
    not_above: Amperes,
    copper: Lookup<WireSize>,
    aluminum: Lookup<WireSize>,
}

#[derive(Debug)]
struct ElectrodeRow {
    copper_through: Option<WireSize>,
    aluminum_through: Option<WireSize>,
    copper: Lookup<WireSize>,
    aluminum: Lookup<WireSize>,
}

impl Protection {
    pub(super) fn read(edition: Edition, acceptance: &Acceptance) -> Self {
        let table = |id| Reading::of(id, acceptance);
        Self {
            breakers: ratings(table(TableId::StandardRatings), edition, DeviceKind::Breaker),
            fuses: ratings(table(TableId::StandardRatings), edition, DeviceKind::Fuse),
            small: small_conductors(table(TableId::SmallConductor), edition),
            grounding: grounding(table(TableId::EquipmentGrounding), edition),
            electrode: electrode(table(TableId::GroundingElectrode)),
            dwelling: dwelling(table(TableId::DwellingService)),
            receptacle_ratings: receptacle_ratings(table(TableId::ReceptacleRatings)),
            receptacle_loads: receptacle_loads(table(TableId::ReceptacleLoad)),
        }
    }

    pub(super) fn standard_ratings(&self, kind: DeviceKind) -> &[Lookup<Amperes>] {
        match kind {
            DeviceKind::Breaker => &self.breakers,
            DeviceKind::Fuse => &self.fuses,
        }
    }

    #[inline]
    pub(super) fn small_conductor(
        &self,
        material: Material,
        size: WireSize,
    ) -> Result<Option<Cell<SmallConductor>>, Gap> {
        match self.small.iter().find(|(small, metal, _)| *small == size && *metal == material) {
            Some((_, _, limit)) => limit.map(Some),
            None => Ok(None),
        }
    }

    pub(super) fn equipment_grounding(&self, material: Material, device: Amperes) -> Lookup<WireSize> {
        match self.grounding.iter().find(|row| device <= row.not_above) {
            Some(row) if material == Material::Copper => row.copper,
            Some(row) => row.aluminum,
            None => Err(Gap::Outside(TableId::EquipmentGrounding)),
        }
    }

    pub(super) fn grounding_electrode(&self, of: Material, size: WireSize, electrode: Material) -> Lookup<WireSize> {
        let through = |row: &&ElectrodeRow| {
            let edge = if of == Material::Copper { row.copper_through } else { row.aluminum_through };
            edge.is_none_or(|edge| size <= edge)
        };
        if size.system() != SizeSystem::American {
            // It would fall through every edge to the open last row.
            return Err(Gap::Outside(TableId::GroundingElectrode));
        }
        match self.electrode.iter().find(through) {
            Some(row) if electrode == Material::Copper => row.copper,
            Some(row) => row.aluminum,
            None => Err(Gap::Outside(TableId::GroundingElectrode)),
        }
    }

    pub(super) fn dwelling_service(&self, material: Material, rating: Amperes) -> Lookup<WireSize> {
        match self.dwelling.iter().find(|(listed, _, _)| *listed == rating) {
            Some((_, copper, _)) if material == Material::Copper => *copper,
            Some((_, _, aluminum)) => *aluminum,
            None => Err(Gap::Outside(TableId::DwellingService)),
        }
    }

    pub(super) fn receptacle_ratings(&self, circuit: Amperes) -> Lookup<(Amperes, Amperes)> {
        let row = self.receptacle_ratings.iter().find(|(rating, _)| *rating == circuit);
        row.map_or(Err(Gap::Outside(TableId::ReceptacleRatings)), |(_, range)| *range)
    }

    pub(super) fn receptacle_load(&self, circuit: Amperes, receptacle: Amperes) -> Lookup<Amperes> {
        let row = self.receptacle_loads.iter().find(|(of, rating, _)| *of == circuit && *rating == receptacle);
        row.map_or(Err(Gap::Outside(TableId::ReceptacleLoad)), |(_, _, most)| *most)
    }
}

fn ratings(table: Reading<'_>, edition: Edition, kind: DeviceKind) -> Vec<Lookup<Amperes>> {
    table
        .rows()
        .filter(|(_, row)| table.text(row, "editions").split(';').any(|year| year.trim() == edition.year()))
        .filter(|(_, row)| kind == DeviceKind::Fuse || !table.text(row, "kind").contains("only"))
        .map(|(index, row)| table.cell(index, row, "rating_a", read::amperes))
        .collect()
}

fn small_conductors(table: Reading<'_>, edition: Edition) -> Vec<(WireSize, Material, Lookup<SmallConductor>)> {
    let item = format!("item_{}", edition.year());
    table
        .rows()
        .filter_map(|(index, row)| {
            let size = read::size(row.cell(0)?)?;
            let material = table.text(row, "material").replace("copper-clad-", "copper-clad ").parse().ok()?;
            let device = table.cell(index, row, "overcurrent_max_a", read::amperes);
            let continuous = table.text(row, "continuous_max_a");
            let limit = if table.text(row, &item).is_empty() {
                // Not a recognized branch-circuit conductor in this edition.
                Err(Gap::NotInEdition(table.id))
            } else if continuous.is_empty() {
                device.map(|cell| cell.map(|device| SmallConductor { device, continuous: None }))
            } else {
                both(device, table.cell(index, row, "continuous_max_a", read::amperes)).map(|cell| {
                    cell.map(|(device, continuous)| SmallConductor { device, continuous: Some(continuous) })
                })
            };
            Some((size, material, limit))
        })
        .collect()
}

fn grounding(table: Reading<'_>, edition: Edition) -> Vec<GroundingRow> {
    let aluminum = if edition == Edition::Nec2017 { "aluminum_2017" } else { "aluminum_2020" };
    table
        .rows()
        .filter_map(|(index, row)| {
            Some(GroundingRow {
                not_above: read::amperes(row.cell(0)?)?,
                copper: table.cell(index, row, "copper", read::size),
                aluminum: table.cell(index, row, aluminum, read::size),
            })
        })
        .collect()
}

fn electrode(table: Reading<'_>) -> Vec<ElectrodeRow> {
    table
        .rows()
        .map(|(index, row)| ElectrodeRow {
            copper_through: read::size(table.text(row, "copper_service_through")),
            aluminum_through: read::size(table.text(row, "aluminum_service_through")),
            copper: table.cell(index, row, "copper", read::size),
            aluminum: table.cell(index, row, "aluminum", read::size),
        })
        .collect()
}

fn dwelling(table: Reading<'_>) -> Vec<(Amperes, Lookup<WireSize>, Lookup<WireSize>)> {
    table
        .rows()
        .filter_map(|(index, row)| {
            let rating = read::amperes(row.cell(0)?)?;
            let copper = table.cell(index, row, "copper", read::size);
            Some((rating, copper, table.cell(index, row, "aluminum", read::size)))
        })
        .collect()
}

fn receptacle_ratings(table: Reading<'_>) -> Vec<(Amperes, Lookup<(Amperes, Amperes)>)> {
    table
        .rows()
        .filter_map(|(index, row)| {
            let least = table.cell(index, row, "receptacle_min_a", read::amperes);
            let most = table.cell(index, row, "receptacle_max_a", read::amperes);
            Some((read::amperes(row.cell(0)?)?, both(least, most)))
        })
        .collect()
}

fn receptacle_loads(table: Reading<'_>) -> Vec<(Amperes, Amperes, Lookup<Amperes>)> {
    table
        .rows()
        .filter_map(|(index, row)| {
            let circuit = read::amperes(row.cell(0)?)?;
            let receptacle = read::amperes(table.text(row, "receptacle_a"))?;
            Some((circuit, receptacle, table.cell(index, row, "load_max_a", read::amperes)))
        })
        .collect()
}
