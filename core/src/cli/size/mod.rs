//! `size`: the smallest that passes; one file a question.

mod box_fill;
mod circuit;
mod cord;
mod counted;
mod kit;
mod motor;
mod raceway;
mod solve;

use std::io::Write;

use super::Status;
use super::answer::{Answer, Detail};
use super::calc::Book;
use super::named::Named;
use super::options::Problem;
use super::output::Output;
use crate::code::Code;
use crate::size::Unsized;

/// The options of `size`.
#[derive(clap::Args)]
#[command(arg_required_else_help = true)]
pub(super) struct Arguments {
    #[command(subcommand)]
    question: Question,
    #[command(flatten)]
    book: Book,
}

#[derive(clap::Subcommand)]
pub(in crate::cli) enum Question {
    /// Overcurrent device, conductors and grounding conductor of a circuit or a feeder
    Circuit(circuit::Question),
    /// The circuit of one motor: conductors, grounding conductor, device against short circuit
    Motor(motor::Question),
    /// The trade size of a raceway
    Raceway(raceway::Question),
    /// The volume of a box for what it holds
    Box(box_fill::Question),
    /// A cord set for an outlet
    Cord(cord::Question),
    /// What it takes to connect a source to a building, in several ways side by side
    Kit(kit::Question),
    /// One unknown of a circuit that stands: its length, its load, its ambient temperature, its company
    Solve(solve::Question),
}

impl Question {
    /// The question of a name, with nothing stated yet; a kit, which is answered by several side by side, has none.
    pub(super) fn named(name: &str) -> Option<Self> {
        Some(match name {
            "size-circuit" => Self::Circuit(circuit::Question::default()),
            "size-motor" => Self::Motor(motor::Question::default()),
            "size-raceway" => Self::Raceway(raceway::Question::default()),
            "size-box" => Self::Box(box_fill::Question::default()),
            "size-cord" => Self::Cord(cord::Question::default()),
            "size-kit" => Self::Kit(kit::Question::default()),
            "size-solve" => Self::Solve(solve::Question::default()),
            _ => return None,
        })
    }

    /// Its name on the command line.
    pub(super) const fn name(&self) -> &'static str {
        match self {
            Self::Circuit(_) => "circuit",
            Self::Motor(_) => "motor",
            Self::Raceway(_) => "raceway",
            Self::Box(_) => "box",
            Self::Cord(_) => "cord",
            Self::Kit(_) => "kit",
            Self::Solve(_) => "solve",
        }
    }

    /// Its options.
    pub(super) fn options(&self) -> &dyn Named {
        match self {
            Self::Circuit(question) => question,
            Self::Motor(question) => question,
            Self::Raceway(question) => question,
            Self::Box(question) => question,
            Self::Cord(question) => question,
            Self::Kit(question) => question,
            Self::Solve(question) => question,
        }
    }

    /// Its options, to be set.
    pub(super) fn options_mut(&mut self) -> &mut dyn Named {
        match self {
            Self::Circuit(question) => question,
            Self::Motor(question) => question,
            Self::Raceway(question) => question,
            Self::Box(question) => question,
            Self::Cord(question) => question,
            Self::Kit(question) => question,
            Self::Solve(question) => question,
        }
    }

    /// The answer, but of a kit, which has its own form.
    pub(super) fn answer(&self, code: &dyn Code, edition_stated: bool, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = match self {
            Self::Circuit(question) => question.answer(code, detail),
            Self::Motor(question) => question.answer(code, detail),
            Self::Raceway(question) => question.answer(code, detail),
            Self::Box(question) => question.answer(code, detail),
            Self::Cord(question) => question.answer(code, detail),
            Self::Solve(question) => question.answer(code, detail),
            Self::Kit(_) => Err(Problem("a kit is answered by several side by side".to_owned())),
        }?;
        if !edition_stated {
            answer.assume_edition();
        }
        Ok(answer)
    }
}

pub(super) fn run(arguments: &Arguments, out: &mut Output<impl Write>) -> Result<Status, Problem> {
    let book = &arguments.book;
    if let Question::Kit(question) = &arguments.question {
        return question.run(book, out);
    }
    let answer = book.ask(|code, stated| arguments.question.answer(code, stated, Detail::Full))?;
    book.print(&answer, out)?;
    Ok(answer.status())
}

/// A size, or why there is none noted in the answer.
fn settle<T>(answer: &mut Answer, found: Result<T, Unsized>) -> Option<T> {
    match found {
        Ok(found) => Some(found),
        Err(Unsized::CannotTell(error)) => answer.settle(Err(error)),
        Err(Unsized::NothingPasses(nothing)) => {
            answer.no(nothing.to_string());
            answer.governed_by(nothing.requirement);
            None
        }
    }
}
