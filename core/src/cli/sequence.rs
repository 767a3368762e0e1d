//! `sequence`: the order to connect a source, to return and to disconnect, found and proved; or somebody's own order judged.

use std::io::Write;
use std::path::{Path, PathBuf};

use super::Status;
use super::options::{self, Problem};
use super::output::Output;
use crate::check::{WithWorking, check};
use crate::code::Nec;
use crate::report::{sequence as text, sequence_checklist as checklist, sequence_json as json};
use crate::rules::Outcome;
use crate::site::Site;
use crate::switching;

/// The options of `sequence`.
#[derive(clap::Args)]
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
    format: Format,
    /// A file of cells that you have read in the book and accept
    #[arg(long)]
    accept: Option<PathBuf>,
}

#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum Format {
    /// For a person to read
    Text,
    /// For a program
    Json,
    /// A page to print
    Checklist,
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
    let edition = match &arguments.edition {
        Some(_) => options::edition(arguments.edition.as_ref())?,
        None => super::check::named_edition(&site)?,
    };
    let acceptance = arguments.accept.as_deref().map(options::acceptance).transpose()?.unwrap_or_default();
    let code = Nec::new(edition, &acceptance);
    let checked = check(&site, &code, WithWorking::No);
    match &arguments.verify {
        Some(steps) => verify(arguments, &checked, steps, out),
        None => find(arguments, &checked, out),
    }
}

fn find(
    arguments: &Arguments,
    checked: &crate::check::Report<'_>,
    out: &mut Output<impl Write>,
) -> Result<Status, Problem> {
    let found = switching::sequence(checked);
    let mut page = String::new();
    match arguments.format {
        Format::Text => text::write(&found, &mut page),
        Format::Checklist => checklist::write(&found, &mut page),
        Format::Json => {
            page = document(&json::document(&found))?;
            Ok(())
        }
    }
    .map_err(|error| Problem(error.to_string()))?;
    out.write(&page);
    Ok(status(found.outcome()))
}

fn verify(
    arguments: &Arguments,
    checked: &crate::check::Report<'_>,
    steps: &Path,
    out: &mut Output<impl Write>,
) -> Result<Status, Problem> {
    let file = steps.display().to_string();
    let found = switching::verify_steps(checked, &file, &options::read(steps)?)
        .map_err(|problems| Problem(problems.to_string().replace('\n', "\nloadworthy: ")))?;
    let mut page = String::new();
    match arguments.format {
        Format::Text => text::write_verified(&found, &mut page).map_err(|error| Problem(error.to_string()))?,
        Format::Json => page = document(&json::judgement(&found))?,
        Format::Checklist => {
            let words = "steps that are judged have no checklist; leave out `--verify`, or write `--format text`";
            return Err(Problem::at("format", words));
        }
    }
    out.write(&page);
    Ok(status(found.outcome()))
}

/// Judges the steps of each scenario, the utility doing exactly what they say, and what its arrangement makes possible.
fn of_scenarios(path: &Path, format: Format, out: &mut Output<impl Write>) -> Result<Status, Problem> {
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
            Format::Json => document(&json::scenario(scenario, &judged, &explored))?,
            _ => text::scenario(scenario, &judged, &explored),
        };
        out.write(&page);
    }
    if format != Format::Json {
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
