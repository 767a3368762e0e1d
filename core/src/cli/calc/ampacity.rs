//! `calc ampacity`: how much current a conductor may carry in its conditions.

use super::super::answer::{Answer, Detail};
use super::super::named::named;
use super::super::options::Problem;
use super::conductor::Conductor;
use crate::calc::ampacity::{Conditions, Covering, ampacity};
use crate::code::Code;

#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    #[command(flatten)]
    conductor: Conductor,
}

named!(Question: ; conductor);

impl Question {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("ampacity", code, detail);
        let conditions = self.conductor.conditions(code, &mut answer)?;
        answer.subject(format_args!("ampacity of {}", named(&conditions)));
        let found = ampacity(code, &conditions, &mut answer.working);
        let Some(found) = answer.settle(found) else {
            return Ok(answer);
        };
        answer.quantity(found.usable);
        answer.governed_by(found.governed_by);
        answer.figure("corrected_and_adjusted", found.corrected);
        answer.figure("terminal_limit", found.terminal);
        if let Some(cable) = found.cable {
            answer.figure("cable_limit", cable);
        }
        if let Some(device) = found.small_conductor_device {
            answer.figure("overcurrent_device_at_most", device);
        }
        Ok(answer)
    }
}

/// The conductor in words.
pub(super) fn named(of: &Conditions) -> String {
    let covering = match of.covering {
        Covering::Insulation(insulation) => insulation.to_string(),
        Covering::Cable(cable, None) => format!("{cable} cable"),
        Covering::Cable(cable, Some(insulation)) => format!("{insulation} in {cable} cable"),
    };
    format!("{} {}, {covering}", of.size, of.material)
}
