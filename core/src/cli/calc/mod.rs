//! `calc`: one question, answered with its working; one file a question.

mod ampacity;
pub(super) mod conductor;
pub(super) mod continuous_load;
mod cord;
mod dwelling_service;
mod grounding;
mod overcurrent_device;
mod plug;
mod questions;
mod segment;
mod voltage_drop;

use std::io::Write;
use std::path::PathBuf;

use super::Status;
use super::answer::{Answer, Detail};
use super::named::Named;
use super::options::{self, Problem};
use super::output::Output;
use crate::code::{Code, Nec};

/// The options of `calc`.
#[derive(clap::Args)]
#[command(arg_required_else_help = true, args_conflicts_with_subcommands = false)]
pub(super) struct Arguments {
    #[command(subcommand)]
    question: Option<Question>,

    #[command(flatten)]
    book: Book,

    /// Answer every question of a file, one JSON object a line: `question` and the options by their names, as text;
    /// `-` reads the standard input. One JSON answer a line comes out
    #[arg(long, value_name = "FILE")]
    questions: Option<PathBuf>,
}

/// Which book is read, and how the answer is printed.
#[derive(clap::Args)]
pub(super) struct Book {
    /// The edition of the code: nec-2017, nec-2020 or nec-2023
    #[arg(long, global = true)]
    edition: Option<String>,

    /// How to print the answer
    #[arg(long, global = true, default_value = "text")]
    format: Format,

    /// A file of cells that you read in the book and accept, although their grade here is too low to rest on
    #[arg(long, global = true, value_name = "FILE")]
    accept: Option<PathBuf>,
}

#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub(super) enum Format {
    /// For a person to read
    Text,
    /// For a program
    Json,
}

#[derive(clap::Subcommand)]
pub(in crate::cli) enum Question {
    /// How much current a conductor may carry in its conditions
    Ampacity(ampacity::Question),
    /// How much current a flexible cord may carry
    Cord(cord::Question),
    /// How much voltage is lost along a path
    VoltageDrop(voltage_drop::Question),
    /// The largest device that protects a conductor, or the next one for a load
    OvercurrentDevice(overcurrent_device::Question),
    /// Whether a plug enters a receptacle, and the current that the pair may carry
    Plug(plug::Question),
    /// What a load that lasts three hours or more asks of device and conductor
    ContinuousLoad(continuous_load::Question),
    /// The least equipment grounding conductor
    EquipmentGrounding(grounding::Equipment),
    /// The least grounding electrode conductor
    GroundingElectrode(grounding::Electrode),
    /// The least conductor of a dwelling's service or main power feeder
    DwellingService(dwelling_service::Question),
}

impl Question {
    /// The question of a name, with nothing stated yet.
    pub(super) fn named(name: &str) -> Option<Self> {
        Some(match name {
            "ampacity" => Self::Ampacity(ampacity::Question::default()),
            "cord" => Self::Cord(cord::Question::default()),
            "voltage-drop" => Self::VoltageDrop(voltage_drop::Question::default()),
            "overcurrent-device" => Self::OvercurrentDevice(overcurrent_device::Question::default()),
            "plug" => Self::Plug(plug::Question::default()),
            "continuous-load" => Self::ContinuousLoad(continuous_load::Question::default()),
            "equipment-grounding" => Self::EquipmentGrounding(grounding::Equipment::default()),
            "grounding-electrode" => Self::GroundingElectrode(grounding::Electrode::default()),
            "dwelling-service" => Self::DwellingService(dwelling_service::Question::default()),
            _ => return None,
        })
    }

    /// Its name on the command line.
    pub(super) const fn name(&self) -> &'static str {
        match self {
            Self::Ampacity(_) => "ampacity",
            Self::Cord(_) => "cord",
            Self::VoltageDrop(_) => "voltage-drop",
            Self::OvercurrentDevice(_) => "overcurrent-device",
            Self::Plug(_) => "plug",
            Self::ContinuousLoad(_) => "continuous-load",
            Self::EquipmentGrounding(_) => "equipment-grounding",
            Self::GroundingElectrode(_) => "grounding-electrode",
            Self::DwellingService(_) => "dwelling-service",
        }
    }

    /// Its options.
    pub(super) fn options(&self) -> &dyn Named {
        match self {
            Self::Ampacity(question) => question,
            Self::Cord(question) => question,
            Self::VoltageDrop(question) => question,
            Self::OvercurrentDevice(question) => question,
            Self::Plug(question) => question,
            Self::ContinuousLoad(question) => question,
            Self::EquipmentGrounding(question) => question,
            Self::GroundingElectrode(question) => question,
            Self::DwellingService(question) => question,
        }
    }

    /// Its options, to be set.
    pub(super) fn options_mut(&mut self) -> &mut dyn Named {
        match self {
            Self::Ampacity(question) => question,
            Self::Cord(question) => question,
            Self::VoltageDrop(question) => question,
            Self::OvercurrentDevice(question) => question,
            Self::Plug(question) => question,
            Self::ContinuousLoad(question) => question,
            Self::EquipmentGrounding(question) => question,
            Self::GroundingElectrode(question) => question,
            Self::DwellingService(question) => question,
        }
    }

    pub(super) fn answer(&self, code: &dyn Code, edition_stated: bool, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = match self {
            Self::Ampacity(question) => question.answer(code, detail),
            Self::Cord(question) => question.answer(code, detail),
            Self::VoltageDrop(question) => question.answer(code, detail),
            Self::OvercurrentDevice(question) => question.answer(code, detail),
            Self::Plug(question) => question.answer(code, detail),
            Self::ContinuousLoad(question) => question.answer(code, detail),
            Self::EquipmentGrounding(question) => question.answer(code, detail),
            Self::GroundingElectrode(question) => question.answer(code, detail),
            Self::DwellingService(question) => question.answer(code, detail),
        }?;
        if !edition_stated {
            answer.assume_edition();
        }
        Ok(answer)
    }
}

pub(super) fn run(arguments: &Arguments, out: &mut Output<impl Write>) -> Result<Status, Problem> {
    match (&arguments.question, &arguments.questions) {
        (Some(_), Some(_)) => Err(Problem("--questions brings its own questions; leave the other one out".to_owned())),
        (None, None) => Err(Problem("no question; see `calc --help`".to_owned())),
        (None, Some(path)) => {
            let edition = arguments.book.edition.as_ref();
            options::edition(edition)?;
            let acceptance = arguments.book.accept.as_deref().map(options::acceptance).transpose()?;
            questions::run(path, edition, &acceptance.unwrap_or_default(), out)
        }
        (Some(question), None) => {
            let answer = arguments.book.ask(|code, stated| question.answer(code, stated, Detail::Full))?;
            arguments.book.print(&answer, out)?;
            Ok(answer.status())
        }
    }
}

impl Book {
    /// Asks a question of the code that the options name; says too whether an edition was named.
    pub(super) fn ask<A>(&self, question: impl FnOnce(&dyn Code, bool) -> Result<A, Problem>) -> Result<A, Problem> {
        let edition = options::edition(self.edition.as_ref())?;
        match self.accept.as_deref().map(options::acceptance).transpose()? {
            Some(acceptance) => question(&Nec::new(edition, &acceptance), self.edition.is_some()),
            None => question(Nec::standard(edition), self.edition.is_some()),
        }
    }

    /// Prints an answer as the options ask for it.
    pub(super) fn print(&self, answer: &Answer, out: &mut Output<impl Write>) -> Result<(), Problem> {
        match self.format {
            Format::Text => out.write(&answer.text()),
            Format::Json => out.write(&answer.json()?),
        }
        Ok(())
    }

    /// Whether the answer is for a program.
    pub(super) fn is_json(&self) -> bool {
        self.format == Format::Json
    }
}
