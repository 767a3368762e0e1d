//! `size solve`: one unknown of a circuit that stands.

use super::super::answer::{Answer, Detail};
use super::super::named::named;
use super::super::options::{Problem, missing, required};
use super::circuit::Path;
use super::settle;
use crate::code::Code;
use crate::size::Chosen;
use crate::size::solve::{Built, highest_ambient, largest_load, longest_run, most_conductors};
use crate::trade::Duty;

#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    /// What is sought: length, load, ambient, conductors
    #[arg(long)]
    unknown: Option<String>,
    /// The rating of its overcurrent device: "20 A"
    #[arg(long)]
    device_rating: Option<String>,
    /// The size of its ungrounded conductors: "12 AWG"
    #[arg(long)]
    built_size: Option<String>,
    /// How many sets lie in parallel; one where nothing is said
    #[arg(long)]
    sets: Option<String>,
    /// Whether the load that is sought is continuous or non-continuous
    #[arg(long)]
    duty: Option<String>,
    #[command(flatten)]
    path: Path,
}

named!(Question: unknown, device_rating, built_size, sets, duty; path);

impl Question {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("size-solve", code, detail);
        let unknown = self.unknown.as_deref().map(str::trim).ok_or_else(|| missing("unknown", "length"))?;
        let built = Built {
            device: required("device-rating", self.device_rating.as_ref(), "20 A")?,
            size: required("built-size", self.built_size.as_ref(), "12 AWG")?,
            sets: match self.sets.as_deref().unwrap_or("1").trim().parse::<u8>() {
                Ok(sets) if (1..=9).contains(&sets) => sets,
                _ => return Err(Problem::at("sets", "write a whole number from 1 to 9")),
            },
        };
        let asked = self.path.read(code, unknown, &mut answer)?;
        let of = format!("{} {} behind {}", built.size, asked.conditions.material, built.device);
        match unknown {
            "length" => {
                if asked.drop.is_none() {
                    return Err(missing("drop-limit", "3 %"));
                }
                answer.subject(format_args!("longest run of {of}"));
                let found = longest_run(code, &asked, built, &mut answer.working);
                let found = settle(&mut answer, found);
                tell(&mut answer, found);
                if let Some(found) = found {
                    answer.figure("in_feet", super::cord::in_feet(found.value));
                }
            }
            "load" => {
                let duty: Duty = required("duty", self.duty.as_ref(), "continuous")?;
                answer.subject(format_args!("largest {duty} load on {of}"));
                let found = largest_load(code, &asked, built, duty, &mut answer.working);
                let found = settle(&mut answer, found);
                tell(&mut answer, found);
            }
            "ambient" => {
                answer.subject(format_args!("highest ambient temperature of {of}"));
                let found = highest_ambient(code, &asked, built, &mut answer.working);
                let found = settle(&mut answer, found);
                tell(&mut answer, found);
            }
            "conductors" => {
                answer.subject(format_args!("most conductors that carry current together with {of}, by ampacity"));
                let found = most_conductors(code, &asked, built, None, &mut answer.working);
                let found = settle(&mut answer, found);
                tell(&mut answer, found);
            }
            _ => return Err(Problem::at("unknown", "write length, load, ambient or conductors")),
        }
        Ok(answer)
    }
}

fn tell<T: std::fmt::Display>(answer: &mut Answer, found: Option<Chosen<T>>) {
    if let Some(found) = found {
        answer.quantity(&found.value);
        answer.governed_by(found.governed_by);
    }
}
