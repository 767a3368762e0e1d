//! A choice of loads as JSON, so that a solver of another make can be asked the same.

use std::num::NonZeroU32;

use loadworthy::plan::choose::{Limits, Load, NeutralCurrent, NeutralLimit, Placement, Wish};
use loadworthy::plan::{Draw, Known};
use loadworthy::quantity::{Amperes, PowerFactor, VoltAmperes, Volts};

/// Loads and limits in milliamperes.
#[derive(Default, serde::Deserialize, serde::Serialize)]
pub(crate) struct Case {
    pub(crate) legs_ma: [i64; 2],
    pub(crate) total_va: Option<i64>,
    pub(crate) neutral: Option<(String, i64)>,
    /// What each leg gives for a start.
    pub(crate) surge_ma: Option<i64>,
    pub(crate) loads: Vec<CaseLoad>,
}

#[derive(serde::Deserialize, serde::Serialize)]
pub(crate) struct CaseLoad {
    pub(crate) ma: i64,
    pub(crate) placement: String,
    pub(crate) class: u8,
    pub(crate) weight: u32,
    pub(crate) must: bool,
    pub(crate) group: u16,
    /// What it draws while it starts by itself.
    pub(crate) start_ma: Option<i64>,
}

impl Case {
    /// The case as the library takes it.
    pub(crate) fn input(&self) -> Result<(Vec<Load>, Limits), Box<dyn std::error::Error>> {
        let mut loads = Vec::new();
        for (index, load) in self.loads.iter().enumerate() {
            let placement = match load.placement.as_str() {
                "A" => Placement::A,
                "B" => Placement::B,
                "both" => Placement::Both,
                _ => Placement::Either,
            };
            let volts = Volts::from_whole(if placement == Placement::Both { 240 } else { 120 });
            let draw = |ma| Ok::<_, String>(Draw::from_current(milliamperes(ma)?, volts, PowerFactor::UNITY));
            let weight = NonZeroU32::new(load.weight).ok_or("a weight of 0")?;
            let mut load_in = Load::new(&index.to_string(), draw(load.ma)?, placement).worth(load.class, weight);
            load_in.start = load.start_ma.map(draw).transpose()?;
            load_in.groups.extend((load.group > 0).then_some(load.group));
            loads.push(load_in.wished(if load.must { Wish::Must } else { Wish::WouldLike }));
        }
        let mut limits = Limits::per_leg(milliamperes(self.legs_ma[0])?);
        limits.source.leg_b = Known::Stated(milliamperes(self.legs_ma[1])?);
        limits.surge.leg = self.surge_ma.map(milliamperes).transpose()?;
        if let Some(total) = self.total_va {
            limits.total = Known::Stated(VoltAmperes::new(i128::from(total) * 1_000_000_000).ok_or("too many VA")?);
        }
        if let Some((kind, limit)) = &self.neutral {
            let current = match kind.as_str() {
                "greater leg" => NeutralCurrent::GreaterLeg,
                "difference" => NeutralCurrent::Difference,
                _ => NeutralCurrent::Sum,
            };
            limits.neutral = Known::Stated(NeutralLimit { current, limit: milliamperes(*limit)? });
        }
        Ok((loads, limits))
    }
}

fn milliamperes(count: i64) -> Result<Amperes, String> {
    Amperes::new(count * 1000).ok_or_else(|| format!("{count} mA is out of range"))
}
