//! Flexible cords: 400.4, 400.5, 240.5.

use std::sync::OnceLock;

use super::read::{self, Reading, both};
use crate::code::{Acceptance, Bands, ConductorRating, CordFacts, CordPlace, Gap, Lookup, SizeTable};
use crate::published::{Cell, TableId};
use crate::quantity::{Amperes, Celsius, Ratio, Volts};
use crate::trade::{CordType, Usage, WireSize};

#[derive(Debug)]
pub(super) struct Cords {
    /// Three conductors that carry current, two, and heater cords.
    flexible: [SizeTable<Amperes>; 3],
    /// Single, two, three conductors, each at 60, 75 and 90 °C.
    portable: OnceLock<[SizeTable<Amperes>; 9]>,
    acceptance: Acceptance,
    bundling: Bands<Lookup<Ratio>>,
    types: Vec<(CordType, Lookup<CordFacts>)>,
    pub(super) unmarked_rating: Lookup<Celsius>,
    pub(super) field_assembled: Lookup<(Amperes, WireSize)>,
}

const FLEXIBLE_COLUMNS: [&str; 3] =
    ["column_a_three_current_carrying_a", "column_b_two_current_carrying_a", "heater_cord_a"];

impl Cords {
    pub(super) fn read(acceptance: &Acceptance) -> Self {
        let table = |id| Reading::of(id, acceptance);
        Self {
            flexible: FLEXIBLE_COLUMNS.map(|column| by_size(table(TableId::FlexibleCordAmpacity), column)),
            portable: OnceLock::new(),
            acceptance: acceptance.clone(),
            bundling: bundling(table(TableId::FlexibleCordAdjustment)),
            types: types(table(TableId::FlexibleCordTypes)),
            unmarked_rating: table(TableId::CordTemperature)
                .keyed("unmarked-cord", "value_c", |text| read::whole(text).and_then(Celsius::from_degrees)),
            field_assembled: field_assembled(table(TableId::FlexibleCordProtection)),
        }
    }

    pub(super) fn ampacity(
        &self,
        cord: CordType,
        size: WireSize,
        carrying: u8,
        rating: ConductorRating,
    ) -> Lookup<Amperes> {
        if is_portable_power_cable(cord) {
            let id = TableId::PortableCableAmpacity;
            let conductors = usize::from(carrying.clamp(1, 3)) - 1;
            let columns = self.portable.get_or_init(|| portable(Reading::of(id, &self.acceptance)));
            return columns.get(conductors * 3 + rating as usize).map_or(Err(Gap::Outside(id)), |c| c.get(size, id));
        }
        // One conductor that carries current is not in the table; two is the warmer and stands for it.
        let column = if is_heater_cord(cord) { 2 } else { usize::from(carrying < 3) };
        let id = TableId::FlexibleCordAmpacity;
        self.flexible.get(column).map_or(Err(Gap::Outside(id)), |column| column.get(size, id))
    }

    pub(super) fn bundling_factor(&self, conductors: u16) -> Result<Option<Cell<Ratio>>, Gap> {
        if conductors <= 3 { Ok(None) } else { self.bundling.get(i64::from(conductors))?.map(Some) }
    }

    pub(super) fn facts(&self, cord: CordType) -> Lookup<CordFacts> {
        let row = self.types.iter().find(|(known, _)| *known == cord);
        row.map_or(Err(Gap::Outside(TableId::FlexibleCordTypes)), |(_, facts)| *facts)
    }
}

/// The types that Table 400.5(A)(2) names.
const fn is_portable_power_cable(cord: CordType) -> bool {
    matches!(
        cord,
        CordType::Sc | CordType::Sce | CordType::Sct | CordType::Ppe | CordType::G | CordType::Ggc | CordType::W
    )
}

/// The types that the heater-cord column of Table 400.5(A)(1) names.
const fn is_heater_cord(cord: CordType) -> bool {
    matches!(
        cord,
        CordType::Hpd
            | CordType::Hpn
            | CordType::Hsj
            | CordType::Hsjo
            | CordType::Hsjow
            | CordType::Hsjoo
            | CordType::Hsjoow
    )
}

fn portable(table: Reading<'_>) -> [SizeTable<Amperes>; 9] {
    std::array::from_fn(|index| {
        let conductors = ["single", "two", "three"].get(index / 3).copied().unwrap_or("");
        let degrees = ConductorRating::ALL.get(index % 3).map_or(0, |rating| rating.degrees());
        by_size(table, &format!("{conductors}_{degrees}c_a"))
    })
}

fn by_size(table: Reading<'_>, column: &str) -> SizeTable<Amperes> {
    let mut values = SizeTable::empty(table.id);
    for (index, row) in table.rows() {
        if let Some(size) = row.cell(0).and_then(read::size) {
            values.set(size, table.cell(index, row, column, read::amperes));
        }
    }
    values
}

fn bundling(table: Reading<'_>) -> Bands<Lookup<Ratio>> {
    let rows = table.rows().map(|(index, row)| {
        let edge = read::whole(table.text(row, "count_to")).unwrap_or(i64::MAX);
        (edge, table.cell(index, row, "percent", read::percent))
    });
    Bands::new(table.id, rows.collect())
}

fn field_assembled(table: Reading<'_>) -> Lookup<(Amperes, WireSize)> {
    let row = table.rows().find(|(_, row)| row.cell(0) == Some("field-assembled-extension-set"));
    let (index, row) = row.ok_or(Gap::Outside(table.id))?;
    // The circuit heads the row: it is a key, and bears no grade of its own.
    let circuit = read::amperes(table.text(row, "circuit_a")).ok_or(Gap::Outside(table.id))?;
    Ok(table.cell(index, row, "smallest_size", read::size)?.map(|size| (circuit, size)))
}

fn types(table: Reading<'_>) -> Vec<(CordType, Lookup<CordFacts>)> {
    table
        .rows()
        .filter_map(|(index, row)| {
            let cord = row.cell(0)?.parse().ok()?;
            let volts = |text: &str| text.parse().ok().map(Volts::from_whole);
            let usage = |text: &str| match text {
                "extra-hard" => Some(Usage::ExtraHard),
                "hard" => Some(Usage::Hard),
                "not-hard" => Some(Usage::NotHard),
                "ranges-and-dryers" => Some(Usage::RangesDryers),
                _ => None,
            };
            let place = match table.text(row, "location") {
                "damp" => Some(CordPlace::Damp),
                "damp-and-wet" | "wet" => Some(CordPlace::Wet),
                _ => None,
            };
            let first = both(table.cell(index, row, "voltage_v", volts), table.cell(index, row, "usage", usage));
            let second = both(
                table.cell(index, row, "smallest_size", read::size),
                table.cell(index, row, "largest_size", read::size),
            );
            let facts = both(first, second).map(|cell| {
                cell.map(|((voltage, usage), (smallest, largest))| CordFacts {
                    voltage,
                    usage,
                    place,
                    smallest,
                    largest,
                })
            });
            Some((cord, facts))
        })
        .collect()
}
