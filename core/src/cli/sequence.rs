//! `sequence`: the order to connect a source, to return and to disconnect, found and proved; or somebody's own order judged.

use std::io::Write;
use std::path::{Path, PathBuf};

use super::Status;
use super::asked::NotUnderstood;
use super::interruptible::Interruptible;
use super::options::{self, Problem};
use super::output::Output;
use crate::check::{WithWorking, check};
use crate::code::{Acceptance, Code, Nec};
use crate::interrupt::Interrupt;
use crate::report::{sequence as text, sequence_checklist as checklist, sequence_json as json};
use crate::rules::Outcome;
use crate::site::Site;
use crate::switching::{self, StepProblems};

/// The options of `sequence`.
#[derive(Default, clap::Args)]
pub(super) struct Arguments {
    /// The site description, TOML or JSON; without it `--verify` takes a file of switching scenarios
    #[arg(required_unless_present = "verify")]
    site: Option<PathBuf>,
    /// A file of steps to judge, in place of finding an order
    #[arg(long)]
    verify: Option<PathBuf>,
    /// The edition to judge by, in place of the one that the description names
    #[arg(long)]
    edition: Option<String>,
    /// How to print: text for a person, json for a program, checklist for a page to print
    #[arg(long, default_value = "text")]
    format: Page,
    /// A file of cells that you have read in the book and accept
    #[arg(long)]
    accept: Option<PathBuf>,
}

/// How an order of switching is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, clap::ValueEnum)]
pub enum Page {
    /// For a person to read
    #[default]
    Text,
    /// For a program
    Json,
    /// A page to print
    Checklist,
}

/// Why there is no order, and no judgement of one.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum NotSequenced {
    /// An option that could not be understood.
    #[error(transparent)]
    NotUnderstood(#[from] NotUnderstood),
    /// Steps that could not be read: everything that is wrong with them, each with its place.
    #[error(transparent)]
    Steps(#[from] StepProblems),
}

impl From<Problem> for NotSequenced {
    fn from(problem: Problem) -> Self {
        Self::NotUnderstood(problem.into())
    }
}

impl NotSequenced {
    /// As the command says it: it begins every further line with its name.
    fn problem(self) -> Problem {
        Problem(self.to_string().replace('\n', "\nloadworthy: "))
    }
}

/// Checks the site, then finds its orders or judges the steps that are given.
pub(super) fn run(arguments: &Arguments, out: &mut Output<impl Write>) -> Result<Status, Problem> {
    let path = match (&arguments.site, &arguments.verify) {
        (Some(path), _) => path,
        (None, Some(scenarios)) => return of_scenarios(scenarios, arguments.format, out),
        (None, None) => return Err(Problem("a site description is missing; name its file".to_owned())),
    };
    let file = path.display().to_string();
    let site = Site::read(&file, &options::read_bytes(path)?).map_err(|problems| Problem(problems.to_string()))?;
    let acceptance = arguments.accept.as_deref().map(options::acceptance).transpose()?;
    let steps = match &arguments.verify {
        Some(steps) => Some((steps.display().to_string(), options::read(steps)?)),
        None => None,
    };
    let steps = steps.as_ref().map(|(file, text)| (file.as_str(), text.as_str()));
    let never = Interrupt::never();
    let (status, page) =
        written(&site, arguments.edition.as_ref(), acceptance.as_ref(), steps, arguments.format, &never)
            .map_err(NotSequenced::problem)?;
    out.write(&page);
    Ok(status)
}

/// The orders of a site, or the judgement of the steps of a file, as they are printed.
pub(super) fn written(
    site: &Site,
    edition: Option<&String>,
    acceptance: Option<&Acceptance>,
    steps: Option<(&str, &str)>,
    page: Page,
    interrupt: &Interrupt,
) -> Result<(Status, String), NotSequenced> {
    let edition = match edition {
        Some(_) => options::edition(edition)?,
        None => super::check::named_edition(site)?,
    };
    let accepting;
    let code: &dyn Code = match acceptance {
        None => Nec::standard(edition),
        Some(acceptance) => {
            accepting = Nec::new(edition, acceptance);
            &accepting
        }
    };
    let checked = check(site, code, WithWorking::No);
    match steps {
        Some((file, text)) => verify(&checked, file, text, page),
        None => Ok(find(&checked, page, interrupt)?),
    }
}

fn find(checked: &crate::check::Report<'_>, format: Page, interrupt: &Interrupt) -> Result<(Status, String), Problem> {
    let found = switching::sequence_unless(checked, interrupt);
    let mut page = Interruptible::new(interrupt);
    let written = match format {
        Page::Text => text::write(&found, &mut page),
        Page::Checklist => checklist::write(&found, &mut page),
        Page::Json => return Ok((status(found.outcome()), document(&json::document(&found))?)),
    };
    Ok((status(found.outcome()), page.finished(written)?))
}

fn verify(
    checked: &crate::check::Report<'_>,
    file: &str,
    steps: &str,
    format: Page,
) -> Result<(Status, String), NotSequenced> {
    let found = switching::verify_steps(checked, file, steps)?;
    let mut page = String::new();
    match format {
        Page::Text => text::write_verified(&found, &mut page).map_err(|error| Problem(error.to_string()))?,
        Page::Json => page = document(&json::judgement(&found))?,
        Page::Checklist => {
            let words = "steps that are judged have no checklist; leave out `--verify`, or write `--format text`";
            return Err(Problem::at("format", words).into());
        }
    }
    Ok((status(found.outcome()), page))
}

/// Judges the steps of each scenario, the utility doing exactly what they say, and what its arrangement makes possible.
fn of_scenarios(path: &Path, format: Page, out: &mut Output<impl Write>) -> Result<Status, Problem> {
    let placed = |what: String| Problem(format!("{}: {}", path.display(), options::one_line(&what)));
    let all = switching::scenarios(&options::read(path)?).map_err(|error| placed(error.to_string()))?;
    let mut worst = Outcome::Holds;
    for scenario in &all {
        let network = &scenario.network;
        let judged = network.verify(&scenario.start, &scenario.steps).map_err(|error| placed(error.to_string()))?;
        let explored = network.explore(&scenario.start).map_err(|error| placed(error.to_string()))?;
        for outcome in [judged.outcome, explored.outcome] {
            if worst != Outcome::Fails && outcome != Outcome::Holds {
                worst = outcome;
            }
        }
        let page = match format {
            Page::Json => document(&json::scenario(scenario, &judged, &explored))?,
            _ => text::scenario(scenario, &judged, &explored),
        };
        out.write(&page);
    }
    if format != Page::Json {
        out.write(&text::cautions());
    }
    Ok(status(worst))
}

fn document(document: &impl serde::Serialize) -> Result<String, Problem> {
    let mut line = serde_json::to_string(document).map_err(|error| Problem(error.to_string()))?;
    line.push('\n');
    Ok(line)
}

const fn status(outcome: Outcome) -> Status {
    match outcome {
        Outcome::Holds => Status::Answered,
        Outcome::Fails => Status::No,
        Outcome::CannotTell => Status::CannotTell,
    }
}
