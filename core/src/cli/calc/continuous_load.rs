//! `calc continuous-load`: what a load that lasts asks of device and conductor.

use super::super::answer::{Answer, Detail};
use super::super::named::named;
use super::super::options::{Problem, given, required};
use crate::calc::continuous::{Load, Requirement, requirement};
use crate::code::Code;
use crate::quantity::Amperes;
use crate::trade::ContinuousRating;

#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    #[command(flatten)]
    load: LoadOptions,
}

named!(Question: ; load);

/// A load in its two parts.
#[derive(Default, clap::Args)]
pub(in crate::cli) struct LoadOptions {
    /// The part that lasts three hours or more: "16 A"
    #[arg(long)]
    pub(in crate::cli) continuous: Option<String>,
    /// The rest: "0 A" where there is none
    #[arg(long)]
    pub(in crate::cli) non_continuous: Option<String>,
    /// How much of its rating the device carries for hours: "80 %", or "100 %" where the assembly is listed for it
    #[arg(long)]
    pub(in crate::cli) continuous_rating: Option<String>,
}

named!(LoadOptions: continuous, non_continuous, continuous_rating);

impl LoadOptions {
    pub(in crate::cli) fn read(&self, answer: &mut Answer) -> Result<(Load, ContinuousRating), Problem> {
        let continuous = required("continuous", self.continuous.as_ref(), "16 A")?;
        let non_continuous = required("non-continuous", self.non_continuous.as_ref(), "0 A")?;
        let rating = match given("continuous-rating", self.continuous_rating.as_ref())? {
            Some(rating) => rating,
            None => {
                answer.assume("the device and its assembly are not listed for 100 % of the rating");
                ContinuousRating::Standard
            }
        };
        Ok((Load { continuous, non_continuous }, rating))
    }
}

impl Question {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("continuous-load", code, detail);
        let (load, rating) = self.load.read(&mut answer)?;
        answer.subject(format_args!(
            "least rating of the device for {} continuous and {} non-continuous load",
            load.continuous, load.non_continuous
        ));
        let found = requirement(code, load, rating, &mut answer.working);
        if let Some(found) = answer.settle(found) {
            in_range(&found)?;
            answer.quantity(found.device_shown());
            answer.governed_by("load");
            answer.figure("conductor_before_factors", found.conductor_shown());
            answer.figure("conductor_after_factors", found.conductor_after_factors);
        }
        Ok(answer)
    }
}

/// Refuses loads that ask for a current beyond the range of one: it would be shown smaller than it is.
pub(super) fn in_range(found: &Requirement) -> Result<(), Problem> {
    if found.is_in_range() {
        return Ok(());
    }
    Err(Problem::at(
        "continuous",
        format_args!("with its factor, and the other load, out of range: above {}", Amperes::MAX),
    ))
}
