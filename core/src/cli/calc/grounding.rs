//! `calc equipment-grounding` and `calc grounding-electrode`.

use super::super::answer::{Answer, Detail};
use super::super::named::named;
use super::super::options::{Problem, given, missing, required};
use crate::calc::grounding::{Enlarged, electrode, equipment};
use crate::code::Code;
use crate::quantity::Amperes;
use crate::trade::{Material, WireSize};

/// The least equipment grounding conductor.
#[derive(Default, clap::Args)]
pub(in crate::cli) struct Equipment {
    /// The rating of the overcurrent device ahead: "50 A"
    #[arg(long)]
    device: Option<String>,
    /// The material of the grounding conductor: copper, aluminum, copper-clad aluminum
    #[arg(long)]
    material: Option<String>,
    /// The smallest circuit conductor with sufficient ampacity, where a larger one is installed: "8 AWG"
    #[arg(long)]
    needed: Option<String>,
    /// The circuit conductor that is installed: "4 AWG"
    #[arg(long)]
    installed: Option<String>,
}

named!(Equipment: device, material, needed, installed);

impl Equipment {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("equipment-grounding", code, detail);
        let device: Amperes = required("device", self.device.as_ref(), "50 A")?;
        let material: Material = required("material", self.material.as_ref(), "copper")?;
        let needed: Option<WireSize> = given("needed", self.needed.as_ref())?;
        let installed: Option<WireSize> = given("installed", self.installed.as_ref())?;
        let enlarged = match (needed, installed) {
            (Some(needed), Some(installed)) => Some(Enlarged { needed, installed }),
            (None, None) => {
                answer.assume("circuit conductors no larger than they need to be");
                None
            }
            (Some(_), None) => return Err(missing("installed", "4 AWG")),
            (None, Some(_)) => return Err(missing("needed", "8 AWG")),
        };
        answer.subject(format_args!("least {material} equipment grounding conductor behind a device of {device}"));
        let found = equipment(code, material, device, enlarged, &mut answer.working);
        if let Some(size) = answer.settle(found) {
            answer.quantity(size);
            answer.governed_by(if enlarged.is_some_and(|change| change.installed > change.needed) {
                "enlarged-conductors"
            } else {
                "device"
            });
        }
        Ok(answer)
    }
}

/// The least grounding electrode conductor.
#[derive(Default, clap::Args)]
pub(in crate::cli) struct Electrode {
    /// The largest ungrounded service conductor: "2/0 AWG"
    #[arg(long)]
    service_size: Option<String>,
    /// Its material: copper, aluminum, copper-clad aluminum
    #[arg(long)]
    service_material: Option<String>,
    /// The material of the grounding electrode conductor
    #[arg(long)]
    material: Option<String>,
}

named!(Electrode: service_size, service_material, material);

impl Electrode {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("grounding-electrode", code, detail);
        let size: WireSize = required("service-size", self.service_size.as_ref(), "2/0 AWG")?;
        let of: Material = required("service-material", self.service_material.as_ref(), "copper")?;
        let material: Material = required("material", self.material.as_ref(), "copper")?;
        answer
            .subject(format_args!("least {material} grounding electrode conductor for {size} {of} service conductors"));
        answer.assume("an electrode other than a rod, a concrete encasement or a ring, whose own limits are lower");
        let found = electrode(code, (of, size), material, &mut answer.working);
        if let Some(size) = answer.settle(found) {
            answer.quantity(size);
            answer.governed_by("service-conductor");
        }
        Ok(answer)
    }
}
