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
use super::answer::Answer;
use super::calc::Book;
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
enum Question {
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

pub(super) fn run(arguments: &Arguments, out: &mut Output<impl Write>) -> Result<Status, Problem> {
    let book = &arguments.book;
    let ask = |question: &dyn Fn(&dyn Code) -> Result<Answer, Problem>| {
        book.ask(|code, edition_stated| {
            let mut answer = question(code)?;
            if !edition_stated {
                answer.assume(format!("edition {}, the newest that is carried", code.id()));
            }
            Ok(answer)
        })
    };
    let answer = match &arguments.question {
        Question::Circuit(question) => ask(&|code| question.answer(code)),
        Question::Motor(question) => ask(&|code| question.answer(code)),
        Question::Raceway(question) => ask(&|code| question.answer(code)),
        Question::Box(question) => ask(&|code| question.answer(code)),
        Question::Cord(question) => ask(&|code| question.answer(code)),
        Question::Solve(question) => ask(&|code| question.answer(code)),
        Question::Kit(question) => return question.run(book, out),
    }?;
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
