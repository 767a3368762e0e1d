//! `plan`: what can run on the source of a described site, in which order, and for how long.

use std::io::Write;
use std::path::PathBuf;

use super::Status;
use super::interruptible::Interruptible;
use super::options::{self, Problem, given};
use super::output::Output;
use crate::check::{WithWorking, check};
use crate::code::{Acceptance, Code, Nec};
use crate::interrupt::Interrupt;
use crate::plan::Verdict;
use crate::plan::site::{MeasuredBase, Options, RecordError, plan_unless};
use crate::quantity::{Ratio, Seconds};
use crate::report;
use crate::site::Site;

/// The options of `plan`.
#[derive(Default, clap::Args)]
pub(super) struct Arguments {
    /// The site description, TOML or JSON
    pub(super) site: PathBuf,
    /// The source, where the site has several
    #[arg(long)]
    pub(super) source: Option<String>,
    /// What if: a file of components to add, each in place of the one with its name (a load, another source)
    #[arg(long)]
    pub(super) with: Vec<PathBuf>,
    /// What if: a field of a component set, as in `--set "generator cord.length=100 ft"`; nothing behind the sign removes it
    #[arg(long)]
    pub(super) set: Vec<String>,
    /// An order of starts to be judged: names of loads with commas between them
    #[arg(long)]
    pub(super) start_order: Option<String>,
    /// How long it is wanted to last, as in `--hours "12 h"`
    #[arg(long)]
    pub(super) hours: Option<String>,
    /// The hour of the day at which the source takes over, 0 to 23
    #[arg(long, default_value_t = 0)]
    pub(super) start_hour: u8,
    /// A record of the home's meter that gives the base load: CSV, or a utility's ESPI export in XML
    #[arg(long, requires = "measured_share")]
    pub(super) measured: Option<PathBuf>,
    /// The share of the recorded time that the base load covers, as in `--measured-share "95 %"`
    #[arg(long, requires = "measured")]
    pub(super) measured_share: Option<String>,
    /// The described loads that the record holds already, with commas between them
    #[arg(long, requires = "measured")]
    pub(super) measured_for: Option<String>,
    /// The edition to judge by, in place of the one that the description names
    #[arg(long)]
    pub(super) edition: Option<String>,
    /// How to print: text for a person, json for a program
    #[arg(long, default_value = "text")]
    pub(super) format: Format,
    /// A file of cells that you have read in the book and accept
    #[arg(long)]
    pub(super) accept: Option<PathBuf>,
}

#[derive(Clone, Copy, Default, PartialEq, Eq, clap::ValueEnum)]
pub(super) enum Format {
    /// For a person to read
    #[default]
    Text,
    /// For a program
    Json,
}

/// Plans the site; the verdict is the status.
pub(super) fn run(arguments: &Arguments, out: &mut Output<impl Write>) -> Result<Status, Problem> {
    let site = changed(arguments)?;
    let acceptance = arguments.accept.as_deref().map(options::acceptance).transpose()?;
    of_site(&site, arguments, acceptance.as_ref(), &Interrupt::never(), out)
}

/// Plans a site that has been read.
pub(super) fn of_site(
    site: &Site,
    arguments: &Arguments,
    acceptance: Option<&Acceptance>,
    interrupt: &Interrupt,
    out: &mut Output<impl Write>,
) -> Result<Status, Problem> {
    let measured = measured(arguments)?;
    let asked = Options {
        source: arguments.source.clone(),
        start_order: arguments.start_order.as_deref().map(names),
        wish: given::<Seconds>("hours", arguments.hours.as_ref())?,
        start_hour: arguments.start_hour,
        measured: measured.as_ref().map(|(base, _)| base.clone()),
        work: None,
    };
    if arguments.start_hour > 23 {
        return Err(Problem::at("start-hour", format!("the day has no hour {}; write 0 to 23", arguments.start_hour)));
    }
    let edition = match &arguments.edition {
        Some(_) => options::edition(arguments.edition.as_ref())?,
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
    let mut found = plan_unless(site, code, &asked, interrupt)
        .map_err(|wrong| Problem(wrong.iter().map(ToString::to_string).collect::<Vec<_>>().join("\nloadworthy: ")))?;
    found.notes.extend(measured.into_iter().flat_map(|(_, notices)| notices));
    let path = check(&found.planned, code, WithWorking::No);
    match arguments.format {
        Format::Text => {
            let mut text = Interruptible::new(interrupt);
            let written = report::plan::write(&found, &path, &mut text);
            out.write(&text.finished(written)?);
        }
        Format::Json => {
            out.write(&report::plan_json::document(&found, &path).to_string());
            out.write("\n");
        }
    }
    Ok(match found.verdict {
        Verdict::Holds => Status::Answered,
        Verdict::Fails => Status::No,
        Verdict::CannotTell => Status::CannotTell,
    })
}

/// The site with what is asked to be otherwise.
fn changed(arguments: &Arguments) -> Result<Site, Problem> {
    let file = arguments.site.display().to_string();
    let bytes = options::read_bytes(&arguments.site)?;
    let mut site = Site::read(&file, &bytes).map_err(|problems| Problem(problems.to_string()))?;
    for path in &arguments.with {
        let text = options::read(path)?;
        site = site
            .with_components(&path.display().to_string(), &text)
            .map_err(|error| Problem(format!("{}: {error}", path.display())))?;
    }
    for setting in &arguments.set {
        let Some((path, value)) = setting.split_once('=') else {
            return Err(Problem::at("set", format!("`{setting}` has no `=`; write the field, the sign and its value")));
        };
        site = site.with_field(path.trim(), value).map_err(|error| Problem::at("set", error))?;
    }
    Ok(site)
}

fn names(list: &str) -> Vec<String> {
    list.split(',').map(|name| name.trim().to_owned()).filter(|name| !name.is_empty()).collect()
}

/// The base load of a record, which is what is not exceeded for the share of the time that the user names; with what is
/// odd about the record.
fn measured(arguments: &Arguments) -> Result<Option<(MeasuredBase, Vec<String>)>, Problem> {
    let Some(path) = &arguments.measured else { return Ok(None) };
    let share: Ratio = options::required("measured-share", arguments.measured_share.as_ref(), "95 %")?;
    let stands_for = arguments.measured_for.as_deref().map(names).unwrap_or_default();
    let name = path.display().to_string();
    match MeasuredBase::of_record(&name, &options::read(path)?, share, stands_for) {
        Ok(found) => Ok(Some(found)),
        Err(wrong @ RecordError::Share(_)) => Err(Problem::at("measured-share", wrong)),
        Err(wrong) => Err(Problem(wrong.to_string())),
    }
}
