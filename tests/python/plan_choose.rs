//! Chooses loads for cases that come as JSON, one a line, and answers with one line each: for `plan_choose.py`.
//!
//! An answer has the weight on by class, the loads that are on with their legs, whether it is proved the best, and
//! the microseconds it took.

use std::io::{BufRead, Write};
use std::num::NonZeroU32;

use loadworthy::plan::choose::{Choice, Limits, Load, NeutralCurrent, NeutralLimit, Placement, Proof, Wish, choose};
use loadworthy::plan::{Draw, Known};
use loadworthy::quantity::{Amperes, PowerFactor, VoltAmperes, Volts};

#[derive(serde::Deserialize)]
struct Case {
    legs_ma: [i64; 2],
    total_va: Option<i64>,
    neutral: Option<(String, i64)>,
    loads: Vec<CaseLoad>,
}

#[derive(serde::Deserialize)]
struct CaseLoad {
    ma: i64,
    placement: String,
    class: u8,
    weight: u32,
    must: bool,
    group: u16,
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut out = std::io::stdout().lock();
    for line in std::io::stdin().lock().lines() {
        let case: Case = serde_json::from_str(&line?)?;
        writeln!(out, "{}", answer(&case)?)?;
    }
    Ok(())
}

fn milliamperes(count: i64) -> Result<Amperes, String> {
    Amperes::new(count * 1000).ok_or_else(|| format!("{count} mA is out of range"))
}

fn answer(case: &Case) -> Result<serde_json::Value, Box<dyn std::error::Error>> {
    let mut loads = Vec::new();
    for (index, load) in case.loads.iter().enumerate() {
        let placement = match load.placement.as_str() {
            "A" => Placement::A,
            "B" => Placement::B,
            "both" => Placement::Both,
            _ => Placement::Either,
        };
        let volts = Volts::from_whole(if placement == Placement::Both { 240 } else { 120 });
        let draw = Draw::from_current(milliamperes(load.ma)?, volts, PowerFactor::UNITY);
        let weight = NonZeroU32::new(load.weight).ok_or("a weight of 0")?;
        let mut load_in = Load::new(&index.to_string(), draw, placement).worth(load.class, weight);
        load_in.groups.extend((load.group > 0).then_some(load.group));
        loads.push(load_in.wished(if load.must { Wish::Must } else { Wish::WouldLike }));
    }
    let mut limits = Limits::per_leg(milliamperes(case.legs_ma[0])?);
    limits.source.leg_b = Known::Stated(milliamperes(case.legs_ma[1])?);
    if let Some(total) = case.total_va {
        limits.total = Known::Stated(VoltAmperes::new(i128::from(total) * 1_000_000_000).ok_or("too many VA")?);
    }
    if let Some((kind, limit)) = &case.neutral {
        let current = match kind.as_str() {
            "greater leg" => NeutralCurrent::GreaterLeg,
            "difference" => NeutralCurrent::Difference,
            _ => NeutralCurrent::Sum,
        };
        limits.neutral = Known::Stated(NeutralLimit { current, limit: milliamperes(*limit)? });
    }
    let start = std::time::Instant::now();
    let choice = choose(&loads, &limits)?;
    let microseconds = u64::try_from(start.elapsed().as_micros())?;
    Ok(match choice {
        Choice::Found(chosen) => serde_json::json!({
            "worth": chosen.worth.iter().map(|class| (class.class, class.weight)).collect::<Vec<_>>(),
            "on": chosen.on,
            "best": chosen.proof == Proof::Best,
            "microseconds": microseconds,
        }),
        Choice::Impossible(_) | Choice::CannotTell(_) => {
            serde_json::json!({ "worth": null, "microseconds": microseconds })
        }
    })
}
