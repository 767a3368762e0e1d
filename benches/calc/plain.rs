//! The same circuit written plainly: tables in maps by their printed keys, one number type, no units.

use std::collections::HashMap;
use std::fmt::Debug;
use std::ops::{Add, Div, Mul};
use std::str::FromStr;

use loadworthy::published::TableId;

pub(crate) trait Number:
    Copy + PartialOrd + FromStr<Err: Debug> + Add<Output = Self> + Mul<Output = Self> + Div<Output = Self>
{
}

impl Number for f64 {}
impl Number for rust_decimal::Decimal {}

pub(crate) struct Plain<N> {
    /// Copper at 60, 75 and 90 °C.
    ampacity: HashMap<&'static str, [Option<N>; 3]>,
    /// Upper edge and the factor at 90 °C.
    ambient: Vec<(N, N)>,
    bundling: Vec<(N, N)>,
    resistance: HashMap<&'static str, N>,
    small: HashMap<&'static str, N>,
    ratings: Vec<N>,
    grounding: Vec<(N, &'static str)>,
    inputs: Inputs<N>,
}

/// The circuit, already read.
struct Inputs<N> {
    ambient: N,
    count: N,
    two: N,
    hundred: N,
    thousand: N,
    feet: N,
    current: N,
    supply: N,
    share: N,
    continuous: N,
    factor: N,
    other: N,
}

impl<N: Number> Inputs<N> {
    fn read() -> Self {
        let of = |text: &str| text.parse().unwrap();
        Self {
            ambient: of("38"),
            count: of("6"),
            two: of("2"),
            hundred: of("100"),
            thousand: of("1000"),
            feet: of("85"),
            current: of("17"),
            supply: of("120"),
            share: of("3"),
            continuous: of("12"),
            factor: of("1.25"),
            other: of("5"),
        }
    }
}

fn number<N: Number>(text: &str) -> Option<N> {
    text.parse().ok()
}

impl<N: Number> Plain<N> {
    pub(crate) fn read() -> Self {
        let table = |id: TableId| id.load().unwrap();
        let rows = |id: TableId| table(id).rows.iter().map(|row| row.cells()).collect::<Vec<_>>();
        let column = |id: TableId, name: &str| usize::from(table(id).column(name).unwrap());
        let pairs = |id: TableId, edge: &str, value: &str| {
            let (edge, value) = (column(id, edge), column(id, value));
            rows(id)
                .into_iter()
                .filter_map(|row| Some((number(&row[edge]).or(number("10000"))?, number(&row[value])?)))
                .collect::<Vec<(N, N)>>()
        };
        let resistance = column(TableId::ConductorProperties, "copper_uncoated_ohm_per_kft");
        Self {
            ampacity: rows(TableId::AmpacityRaceway)
                .into_iter()
                .map(|row| (&*row[0], [1, 2, 3].map(|index: usize| number(&row[index]))))
                .collect(),
            ambient: pairs(TableId::AmbientCorrection30, "ambient_c_to", "factor_90c"),
            bundling: pairs(TableId::AdjustmentMoreThanThree, "count_to", "percent"),
            resistance: rows(TableId::ConductorProperties)
                .into_iter()
                .filter_map(|row| Some((&*row[0], number(&row[resistance])?)))
                .collect(),
            small: rows(TableId::SmallConductor)
                .into_iter()
                .filter(|row| row[1] == "copper")
                .filter_map(|row| Some((&*row[0], number(&row[2])?)))
                .collect(),
            ratings: rows(TableId::StandardRatings)
                .into_iter()
                .filter(|row| row[1] == "fuse-or-breaker")
                .filter_map(|row| number(&row[0]))
                .collect(),
            grounding: rows(TableId::EquipmentGrounding)
                .into_iter()
                .filter_map(|row| Some((number(&row[0])?, &*row[1])))
                .collect(),
            inputs: Inputs::read(),
        }
    }

    pub(crate) fn ampacity(&self, size: &str) -> Option<N> {
        let columns = self.ampacity.get(size)?;
        let of = &self.inputs;
        let factor = self.ambient.iter().find(|(edge, _)| of.ambient <= *edge)?.1;
        let percent = self.bundling.iter().find(|(edge, _)| of.count <= *edge)?.1;
        let corrected = columns[2]? * factor * percent / of.hundred;
        let terminal = columns[1]?;
        Some(if corrected < terminal { corrected } else { terminal })
    }

    pub(crate) fn drop(&self, size: &str) -> Option<bool> {
        let of = &self.inputs;
        let drop = of.two * *self.resistance.get(size)? * of.feet / of.thousand * of.current;
        Some(drop / of.supply * of.hundred <= of.share)
    }

    pub(crate) fn whole(&self, size: &str) -> (bool, &'static str) {
        let of = &self.inputs;
        let find = || {
            let usable = self.ampacity(size)?;
            let needed = of.continuous * of.factor + of.other;
            let at_or_below = self.ratings.iter().rev().find(|rating| **rating <= usable)?;
            let device = match self.small.get(size) {
                Some(limit) if limit < at_or_below => *limit,
                _ => *at_or_below,
            };
            let grounding = self.grounding.iter().find(|(edge, _)| device <= *edge)?.1;
            let carries = needed <= device && of.continuous + of.other <= usable;
            Some((carries && self.drop(size)?, grounding))
        };
        find().unwrap_or((false, ""))
    }
}
