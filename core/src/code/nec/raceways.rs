//! Room in raceways and boxes: Chapter 9 Tables 1, 4, 5 and 5A, and 314.16.

use super::read::{self, Reading};
use crate::code::{Acceptance, Gap, Lookup, SizeTable};
use crate::published::TableId;
use crate::quantity::{CubicMillimeters, Ratio, SquareMillimeters};
use crate::trade::{Insulation, Jacket, Material, RacewayKind, Stranding, TradeSize, WireSize, Word};

#[derive(Debug)]
pub(super) struct Raceways {
    /// One conductor, two, more, a nipple.
    fill: [Lookup<Ratio>; 4],
    sizes: Vec<(RacewayKind, TradeSizes)>,
    /// THHN, XHHW and THW of usual strands, then of compact strands.
    insulated: [SizeTable<SquareMillimeters>; 6],
    bare: SizeTable<SquareMillimeters>,
    box_volume: SizeTable<CubicMillimeters>,
    pub(super) boxes: Vec<(&'static str, Lookup<CubicMillimeters>)>,
    smallest: [Lookup<WireSize>; 2],
    pub(super) smallest_parallel: Lookup<WireSize>,
}

type TradeSizes = Vec<(TradeSize, Lookup<SquareMillimeters>)>;

const FAMILIES: [&str; 3] = ["thhn", "xhhw", "thw"];

impl Raceways {
    pub(super) fn read(acceptance: &Acceptance) -> Self {
        let table = |id| Reading::of(id, acceptance);
        let fill = table(TableId::RacewayFill);
        let factors = table(TableId::RuleFactors);
        let gauge = |text: &str| read::size(&format!("{text} AWG"));
        let dimensions = [TableId::InsulatedConductorDimensions, TableId::CompactConductorDimensions];
        Self {
            fill: ["1", "2", "over 2", "nipple"].map(|key| fill.keyed(key, "percent", read::percent)),
            sizes: RacewayKind::all()
                .into_iter()
                .map(|(_, kind)| (kind, of_kind(table(TableId::RacewayDimensions), kind)))
                .collect(),
            insulated: std::array::from_fn(|index| {
                let id = dimensions.get(index / 3).copied().unwrap_or(TableId::InsulatedConductorDimensions);
                let family = FAMILIES.get(index % 3).copied().unwrap_or("");
                by_size(table(id), &format!("{family}_area_in2"), square_inches)
            }),
            bare: by_size(table(TableId::ConductorProperties), "overall_area_in2", square_inches),
            box_volume: by_size(table(TableId::BoxVolume), "volume_in3", cubic_inches),
            boxes: boxes(table(TableId::Boxes)),
            smallest: ["copper", "aluminum"]
                .map(|metal| factors.keyed(&format!("smallest-conductor-{metal}"), "value", gauge)),
            smallest_parallel: factors.keyed("parallel-smallest", "value", gauge),
        }
    }

    #[inline]
    pub(super) fn smallest(&self, material: Material) -> Lookup<WireSize> {
        let index = usize::from(material != Material::Copper);
        self.smallest.get(index).copied().unwrap_or(Err(Gap::Outside(TableId::RuleFactors)))
    }

    pub(super) fn fill(&self, conductors: u16, nipple: bool) -> Lookup<Ratio> {
        let index = match (nipple, conductors) {
            (true, _) => 3,
            (false, 0 | 1) => 0,
            (false, 2) => 1,
            (false, _) => 2,
        };
        self.fill.get(index).copied().unwrap_or(Err(Gap::Outside(TableId::RacewayFill)))
    }

    pub(super) fn of_kind(&self, kind: RacewayKind) -> &[(TradeSize, Lookup<SquareMillimeters>)] {
        self.sizes.iter().find(|(known, _)| *known == kind).map(|(_, sizes)| sizes.as_slice()).unwrap_or_default()
    }

    pub(super) fn conductor(&self, jacket: Jacket, size: WireSize) -> Lookup<SquareMillimeters> {
        let Jacket::Insulated(insulation, stranding) = jacket else {
            return self.bare.get(size, TableId::ConductorProperties);
        };
        let (id, offset) = match stranding {
            Stranding::Usual => (TableId::InsulatedConductorDimensions, 0),
            Stranding::Compact => (TableId::CompactConductorDimensions, 3),
        };
        let family = family(insulation).ok_or(Gap::Outside(id))?;
        self.insulated.get(offset + family).map_or(Err(Gap::Outside(id)), |column| column.get(size, id))
    }

    pub(super) fn box_volume(&self, size: WireSize) -> Lookup<CubicMillimeters> {
        self.box_volume.get(size, TableId::BoxVolume)
    }
}

/// The column that Table 5 prints an insulation in; `None` for one whose covering varies or that it does not print.
const fn family(insulation: Insulation) -> Option<usize> {
    match insulation {
        Insulation::Thhn | Insulation::Thwn | Insulation::Thwn2 => Some(0),
        Insulation::Xhhw | Insulation::Xhhw2 | Insulation::Xhh | Insulation::Zw => Some(1),
        Insulation::Tw | Insulation::Thw | Insulation::Thhw | Insulation::Thw2 => Some(2),
        _ => None,
    }
}

fn of_kind(table: Reading<'_>, kind: RacewayKind) -> Vec<(TradeSize, Lookup<SquareMillimeters>)> {
    table
        .rows()
        .filter(|(_, row)| table.text(row, "type") == kind.spelling())
        .filter_map(|(index, row)| {
            let size = table.text(row, "trade_size_in").parse().ok()?;
            Some((size, table.cell(index, row, "area_in2", square_inches)))
        })
        .collect()
}

/// Where a size has a solid and a stranded row, the stranded one stands: it is the later, and takes the more room.
fn by_size<T: Copy>(table: Reading<'_>, column: &str, read: impl Fn(&str) -> Option<T>) -> SizeTable<T> {
    let mut values = SizeTable::empty(table.id);
    for (index, row) in table.rows() {
        if let Some(size) = row.cell(0).and_then(read::size) {
            values.set(size, table.cell(index, row, column, &read));
        }
    }
    values
}

fn boxes(table: Reading<'_>) -> Vec<(&'static str, Lookup<CubicMillimeters>)> {
    let read = |(index, row): (u16, &'static crate::published::Row)| {
        Some((row.cell(0)?, table.cell(index, row, "volume_in3", cubic_inches)))
    };
    table.rows().filter_map(read).collect()
}

fn square_inches(text: &str) -> Option<SquareMillimeters> {
    if text.is_empty() { None } else { format!("{text} in2").parse().ok() }
}

fn cubic_inches(text: &str) -> Option<CubicMillimeters> {
    if text.is_empty() { None } else { format!("{text} in3").parse().ok() }
}
