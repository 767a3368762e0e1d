//! Chooses loads for cases that come as JSON, one a line, and answers with one line each: for `plan_choose.py`.
//!
//! An answer has the weight on by class, the loads that are on with their legs, whether it is proved the best, and
//! the microseconds it took.

use std::io::{BufRead, Write};

use loadworthy::plan::choose::{Choice, Proof, choose};

#[path = "../../benches/plan/case.rs"]
mod case;
use case::Case;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut out = std::io::stdout().lock();
    for line in std::io::stdin().lock().lines() {
        let case: Case = serde_json::from_str(&line?)?;
        writeln!(out, "{}", answer(&case)?)?;
    }
    Ok(())
}

fn answer(case: &Case) -> Result<serde_json::Value, Box<dyn std::error::Error>> {
    let (loads, limits) = case.input()?;
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
