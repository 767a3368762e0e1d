//! The command `loadworthy`: one file a subcommand.
//!
//! Exit status: 0 answered and fit, 1 the answer is no, 2 cannot tell, 3 input that could not be read. What could not
//! be read is said in one line on the error stream. A reader that goes away early is no error.
//!
//! # The document of `calc --format json`
//!
//! Every field stands in every answer; one that has nothing to say is null or empty.
//!
//! | field | meaning |
//! | --- | --- |
//! | `question`, `edition` | as on the command line: `ampacity`, `nec-2023` |
//! | `outcome` | `answered`, `no` or `cannot-tell`, as the exit statuses 0, 1 and 2 |
//! | `subject` | what the answer is about, in words |
//! | `answer` | `{ value, unit, text }`: a decimal number or a wire size, its unit, and both as people read them; null where it cannot be told |
//! | `governed_by` | the word for what limits the answer, such as `terminals` |
//! | `figures` | further figures by name, as texts with units |
//! | `working` | steps `{ what, result, citation, cell, grade }`; the last three only where there is one |
//! | `assumed` | what was not stated and was taken as the base of the table has it |
//! | `gap` | `{ what, why }` where the answer cannot be told, else null |
//! | `caution` | what every answer says once |
//!
//! The value is exact; a voltage drop is rounded up to 10⁻¹² V. Figures that are rounded say so in their names. What
//! `--questions` could not read has `outcome` `not-read`, its `line` and the `problem`.

mod answer;
mod asked;
mod calc;
mod check;
mod described;
mod fields;
mod interruptible;
mod named;
mod options;
mod output;
mod plan;
mod rules;
mod sequence;
mod size;
mod table;

use std::ffi::OsString;
use std::io::Write;
use std::process::ExitCode;

use clap::Parser;
use clap::error::ErrorKind;

use options::Problem;
use output::Output;

pub use asked::{Asked, Brief, Form, NotUnderstood, Outcome, acceptance, edition};
pub use described::{Book, PlanOptions, checked, planned, sequenced};
pub use sequence::{NotSequenced, Page};

/// Whether an electrical path is fit to carry what it is asked to carry.
#[derive(Parser)]
#[command(name = "loadworthy", version, max_term_width = 100)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(clap::Subcommand)]
enum Command {
    /// Judge described sites: loadworthy, not loadworthy, or cannot tell
    Check(check::Arguments),
    /// Plan what can run on a site's source: loads, legs, starts and hours
    Plan(Box<plan::Arguments>),
    /// Give the order to connect a source, to return and to disconnect; or judge somebody's own
    Sequence(sequence::Arguments),
    /// Answer one question with its working
    Calc(Box<calc::Arguments>),
    /// Find the smallest that passes: a circuit, a motor circuit, a raceway, a box, a cord set, a connection kit, or one
    /// unknown of a circuit
    Size(Box<size::Arguments>),
    /// List the published tables, or print one to be held beside the printed page
    Table(table::Arguments),
    /// List the rules, or explain one with its citations
    Rules(rules::Arguments),
    /// Document the site description field by field
    Fields,
}

impl Command {
    fn run(&self, out: &mut Output<impl Write>) -> Result<Status, Problem> {
        match self {
            Self::Check(arguments) => check::run(arguments, out),
            Self::Plan(arguments) => plan::run(arguments, out),
            Self::Sequence(arguments) => sequence::run(arguments, out),
            Self::Calc(arguments) => calc::run(arguments, out),
            Self::Size(arguments) => size::run(arguments, out),
            Self::Table(arguments) => table::run(arguments, out),
            Self::Rules(arguments) => rules::run(arguments, out),
            Self::Fields => Ok(fields::run(out)),
        }
    }
}

/// How a run ends; of several answers the last in this order decides.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Status {
    /// Answered, and fit.
    Answered = 0,
    /// The answer is no.
    No = 1,
    /// A fact is missing, or a table does not give the answer.
    CannotTell = 2,
    /// Input that could not be read.
    NotRead = 3,
}

/// Runs the command on the arguments of the process.
#[must_use]
pub fn main() -> ExitCode {
    ExitCode::from(command(std::env::args_os()))
}

/// Runs the command on these arguments, the first of which is its name; gives the exit status. What it has to say goes to
/// the output and the error stream of the process.
#[must_use]
pub fn command(arguments: impl IntoIterator<Item = OsString>) -> u8 {
    let mut out = Output::new(std::io::stdout().lock());
    let status = run(arguments.into_iter(), &mut out);
    let finished = out.finish();
    let (status, message) = match (status, finished) {
        (Err(problem), _) => (Status::NotRead, Some(problem.to_string())),
        (Ok(status), Ok(())) => (status, None),
        (Ok(_), Err(error)) => (Status::NotRead, Some(format!("the answer could not be written: {error}"))),
    };
    if let Some(message) = message {
        // Where even the error stream is closed, the exit status alone must speak.
        let _ = writeln!(std::io::stderr(), "loadworthy: {message}");
    }
    status as u8
}

fn run(arguments: impl Iterator<Item = OsString>, out: &mut Output<impl Write>) -> Result<Status, Problem> {
    match Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments.command.run(out),
        Err(error) if matches!(error.kind(), ErrorKind::DisplayHelp | ErrorKind::DisplayVersion) => {
            out.write(&error.render().to_string());
            Ok(Status::Answered)
        }
        Err(error) => Err(Problem::of_arguments(&error)),
    }
}

fn json(written: serde_json::Result<String>) -> Result<String, Problem> {
    written.map_err(|error| Problem(format!("the answer could not be written: {error}")))
}
