//! `calc cord`: how much current a flexible cord may carry.

use super::super::answer::{Answer, Detail};
use super::super::named::named;
use super::super::options::{Problem, given, required};
use super::conductor::Counted;
use crate::calc::cord::{CordConditions, ampacity};
use crate::code::Code;
use crate::quantity::Celsius;

#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    /// The letter type: SOOW, SJTW and so on
    #[arg(long)]
    cord: Option<String>,
    /// The size of its conductors: "10 AWG"
    #[arg(long)]
    size: Option<String>,
    #[command(flatten)]
    counted: Counted,
    /// The ambient temperature: "30 °C", "95 °F"
    #[arg(long, allow_hyphen_values = true)]
    ambient: Option<String>,
    /// The temperature marked on the cord: "90 °C"
    #[arg(long)]
    marked: Option<String>,
}

named!(Question: cord, size, ambient, marked; counted);

impl Question {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("cord", code, detail);
        let cord = required("cord", self.cord.as_ref(), "SOOW")?;
        let size = required("size", self.size.as_ref(), "10 AWG")?;
        let current_carrying = self.counted.count(code, &mut answer)?;
        let ambient = match given("ambient", self.ambient.as_ref())? {
            Some(ambient) => ambient,
            None => {
                answer.assume("ambient 30 °C, the base of the table");
                Celsius::from_whole(30)
            }
        };
        let marked = given("marked", self.marked.as_ref())?;
        if marked.is_none() {
            answer.assume("a cord without a temperature mark");
        }
        let conditions = CordConditions { cord, size, current_carrying, ambient, marked };
        answer.subject(format_args!("ampacity of {cord} cord, {size}"));
        let found = ampacity(code, &conditions, &mut answer.working);
        if let Some(found) = answer.settle(found) {
            answer.quantity(found);
            answer.governed_by("cord");
        }
        Ok(answer)
    }
}
