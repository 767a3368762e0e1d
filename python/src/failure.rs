//! Why a circuit fails, in a sentence a check: what it comes to, what the limit is, and the sections that say so.

use loadworthy::batch::{Check, Circuit, Judgement, Verdict};
use loadworthy::calc::Silent;
use loadworthy::calc::ampacity::{Conditions, before_factors};
use loadworthy::calc::continuous::requirement;
use loadworthy::code::Code;
use loadworthy::quantity::{Amperes, Rounding, Scaled};
use loadworthy::rules;

/// Slug, sentence and sections of a check that fails.
pub(crate) type Failure = (&'static str, String, String);

/// The checks of a circuit that fail.
pub(crate) fn failures(code: &dyn Code, circuit: &Circuit) -> Vec<Failure> {
    let judged = circuit.judge(code, &mut Silent);
    let failed = Check::ALL.into_iter().zip(judged.checks).filter(|(_, verdict)| *verdict == Verdict::Fails);
    failed.map(|(check, _)| (check.slug(), sentence(code, circuit, &judged, check), sections(code, check))).collect()
}

fn sentence(code: &dyn Code, circuit: &Circuit, judged: &Judgement, check: Check) -> String {
    let load = circuit.load;
    let asked = || requirement(code, load, circuit.continuous_rating, &mut Silent);
    let parts = format!("{} continuous and {} other load", load.continuous, load.non_continuous);
    match check {
        Check::ConductorAmpacity => match judged.ampacity {
            Ok(found) => {
                let current = circuit.current().map_or_else(beyond, |current| current.to_string());
                format!("the load of {current} is more than the conductor's ampacity of {}", found.usable)
            }
            Err(_) => "the load is more than the conductor's ampacity".to_owned(),
        },
        Check::ContinuousLoadOnConductor => {
            let of = Conditions { circuit_rating: Some(circuit.device), ..circuit.conditions };
            match (asked(), before_factors(code, &of, &mut Silent)) {
                (Ok(least), Ok(limit)) => format!(
                    "{parts} ask for a conductor of at least {} before correction and adjustment; it has {limit}",
                    shown(least.conductor)
                ),
                _ => format!("{parts} ask for a larger conductor"),
            }
        }
        Check::ContinuousLoadOnDevice => match asked() {
            Ok(least) => {
                let device = circuit.device;
                format!("{parts} ask for a device of at least {}; it is rated {device}", shown(least.device))
            }
            Err(_) => format!("{parts} ask for a larger device"),
        },
        Check::BreakerProtectsConductor => match judged.largest_device {
            // 240.4(D)(1) to (3): the smallest sizes limit the continuous load too.
            Ok(largest) if circuit.device <= largest.rating => {
                format!("{} of continuous load is more than a conductor of this size is permitted", load.continuous)
            }
            Ok(largest) => {
                let device = circuit.device;
                format!("the device is rated {device}; the largest that protects the conductor is {}", largest.rating)
            }
            Err(_) => "the device is larger than what protects the conductor".to_owned(),
        },
        Check::VoltageDrop => drop(judged, circuit),
        _ => check.slug().replace('-', " "),
    }
}

/// What is needed, rounded up.
fn shown(needed: Scaled<Amperes>) -> String {
    needed.rounded(Rounding::Up).map_or_else(beyond, |needed| needed.to_string())
}

/// A current beyond the range of one.
fn beyond() -> String {
    format!("more than {}", Amperes::MAX)
}

fn drop(judged: &Judgement, circuit: &Circuit) -> String {
    let Some(Ok(found)) = judged.drop else {
        return "the voltage drop is above its limit".to_owned();
    };
    let share = found.share().map(|share| format!(", {share} of {}", found.supply)).unwrap_or_default();
    let limit = circuit.run.and_then(|run| run.limit).map(|limit| limit.to_string()).unwrap_or_default();
    format!("the voltage drops by {}{share}; the limit stated is {limit}", found.drop.rounded_up())
}

/// Where a check stands: the sections of the rule of its name.
fn sections(code: &dyn Code, check: Check) -> String {
    let rule = rules::find(if check == Check::VoltageDrop { "voltage-drop-in-branch" } else { check.slug() });
    let mut sections: Vec<String> = Vec::new();
    for topic in rule.map(|rule| rule.topics).unwrap_or_default() {
        let cited = code.section(topic);
        // The first says the document too.
        let said = if sections.is_empty() { cited.section.as_ref().map(|_| cited.to_string()) } else { cited.section };
        if let Some(said) = said.filter(|said| !sections.contains(said)) {
            sections.push(said);
        }
    }
    sections.join(", ")
}
