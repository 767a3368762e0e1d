//! `calc dwelling-service`: the conductor of a dwelling's service or main power feeder.

use super::super::answer::{Answer, Detail};
use super::super::named::named;
use super::super::options::{Problem, required};
use crate::calc::{CannotTell, Step, Working};
use crate::code::Code;
use crate::quantity::Amperes;
use crate::trade::Material;

#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    /// The rating of the service or main power feeder: "200 A"
    #[arg(long)]
    rating: Option<String>,
    /// The material: copper, aluminum, copper-clad aluminum
    #[arg(long)]
    material: Option<String>,
}

named!(Question: rating, material);

impl Question {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("dwelling-service", code, detail);
        let rating: Amperes = required("rating", self.rating.as_ref(), "200 A")?;
        let material: Material = required("material", self.material.as_ref(), "copper")?;
        answer.subject(format_args!("least {material} conductor of a dwelling's service of {rating}"));
        answer
            .assume("one dwelling, single-phase 120/240 V or two phases of 208Y/120 V, its whole load on this service");
        answer.assume("no correction or adjustment is needed, the base of the table");
        let found = code
            .dwelling_service(material, rating)
            .map_err(|gap| CannotTell { what: "the conductor of the service", gap });
        if let Some(cell) = answer.settle(found) {
            answer.working.step(|| Step::read(format!("{material}, service of {rating}"), cell, code));
            answer.quantity(cell.value);
            answer.governed_by("service-rating");
        }
        Ok(answer)
    }
}
