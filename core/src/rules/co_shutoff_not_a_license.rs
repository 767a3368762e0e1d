//! `co-shutoff-not-a-license`: a carbon monoxide shutoff is no reason to bring an engine nearer.

use super::fact::engines;
use super::{Findings, Remedy, Said, Survey, rule};
use crate::calc::CannotTell;
use crate::code::guidance;
use crate::published::TableId;
use crate::quantity::Meters;
use crate::site::Standing;

rule! {
    /// ## Protects against
    /// Trust in a sensor that sits at the engine while people sleep inside: it stops the engine when much gas has
    /// gathered around it, and says nothing of what has drifted in.
    ///
    /// ## Cannot tell when
    /// Where the source has such a shutoff, and where it stands or its distance is not stated.
    ///
    /// ## Remedy
    /// Keep the place and the distance as if there were no shutoff.
    CO_SHUTOFF_NOT_A_LICENSE = "co-shutoff-not-a-license" {
        severity: Information,
        summary: "an engine with a carbon monoxide shutoff stands where none may",
        topics: [],
        sources: ["ANSI/PGMA G300-2018 and 2023 and UL 2201-2018, as summaries tell them", "NIST TN 2048"],
        check: check,
    }
}

const REMEDY: Remedy = Remedy::Do("keep the place and the distance as if there were no shutoff");

fn check(survey: &Survey<'_>, found: &mut Findings) {
    for source in engines(survey, found).into_iter().filter(|source| source.carbon_monoxide_shutoff == Some(true)) {
        let least = match guidance::figure::<Meters>(TableId::EngineDistances, "carbon-monoxide") {
            Ok(cell) => cell.value,
            Err(gap) => {
                let gap = CannotTell { what: "the distance that is to be kept", gap };
                found.gap(source, "carbon_monoxide_shutoff", gap);
                continue;
            }
        };
        let far = source.distance_to_building.map(|distance| *distance >= least);
        let open = source.stands_in.map(|standing| standing == Standing::OpenAir);
        let ill = "has a carbon monoxide shutoff, which does not make up for where it stands";
        let well = "has a carbon monoxide shutoff, and keeps its place and distance all the same";
        match (far, open) {
            (Some(false), _) | (_, Some(false)) => {
                found.judge(source, "carbon_monoxide_shutoff", false, Said::Plain(ill), REMEDY);
            }
            (Some(true), Some(true)) => {
                found.judge(source, "carbon_monoxide_shutoff", true, Said::Plain(well), REMEDY);
            }
            (None, _) => found.ask(
                source,
                "distance_to_building",
                "its distance to the nearest building that people may enter",
            ),
            (_, None) => found.ask(source, "stands_in", "where it stands"),
        }
    }
}
