//! `check`: a described site judged by a code.

use std::io::Write;
use std::path::PathBuf;

use super::Status;
use super::options::{self, Problem};
use super::output::Output;
use crate::check::{Verdict, WithWorking, check};
use crate::code::{Acceptance, Code, Edition, Nec};
use crate::report;
use crate::site::Site;

/// The options of `check`.
#[derive(clap::Args)]
pub(super) struct Arguments {
    /// The site descriptions, TOML or JSON
    #[arg(required = true)]
    sites: Vec<PathBuf>,
    /// The edition to judge by, in place of the one that the description names
    #[arg(long)]
    edition: Option<String>,
    /// How to print: text for a person, json for a program (one document a site, a line each)
    #[arg(long, default_value = "text")]
    format: Format,
    /// Show how each number came about
    #[arg(long)]
    working: bool,
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
}

/// Judges each site; the gravest outcome is the status. What cannot be read does not keep the others from being judged.
pub(super) fn run(arguments: &Arguments, out: &mut Output<impl Write>) -> Result<Status, Problem> {
    let acceptance = arguments.accept.as_deref().map(options::acceptance).transpose()?;
    let mut worst = Status::Answered;
    let mut unread = Vec::new();
    for path in &arguments.sites {
        let file = path.display().to_string();
        match judge(arguments, path, &file, acceptance.as_ref(), out) {
            Ok(status) => worst = graver(worst, status),
            Err(Problem(problem)) => unread.push(problem),
        }
    }
    if unread.is_empty() { Ok(worst) } else { Err(Problem(unread.join("\nloadworthy: "))) }
}

/// A site that is not loadworthy weighs more than one that cannot be told.
fn graver(one: Status, other: Status) -> Status {
    if one == Status::No || other == Status::No { Status::No } else { one.max(other) }
}

fn judge(
    arguments: &Arguments,
    path: &std::path::Path,
    file: &str,
    acceptance: Option<&Acceptance>,
    out: &mut Output<impl Write>,
) -> Result<Status, Problem> {
    let bytes = options::read_bytes(path)?;
    let site = Site::read(file, &bytes).map_err(|problems| Problem(problems.to_string()))?;
    let (status, text) =
        written(&site, arguments.edition.as_ref(), acceptance, arguments.working, arguments.format == Format::Json)?;
    out.write(&text);
    Ok(status)
}

/// The report of a site as it is printed.
pub(super) fn written(
    site: &Site,
    edition: Option<&String>,
    acceptance: Option<&Acceptance>,
    working: bool,
    as_json: bool,
) -> Result<(Status, String), Problem> {
    let edition = match edition {
        Some(_) => options::edition(edition)?,
        None => named_edition(site)?,
    };
    let accepting;
    let code: &dyn Code = match acceptance {
        None => Nec::standard(edition),
        Some(acceptance) => {
            accepting = Nec::new(edition, acceptance);
            &accepting
        }
    };
    let report = check(site, code, if working { WithWorking::Yes } else { WithWorking::No });
    let text = if as_json {
        serde_json::to_string(&report::json::document(&report)).map_err(|error| Problem(error.to_string()))? + "\n"
    } else {
        // A finding takes about two lines.
        let mut text = String::with_capacity(256 * (16 + report.findings.len()));
        report::text::write(&report, &mut text).map_err(|error| Problem(error.to_string()))?;
        text
    };
    let status = match report.verdict() {
        Verdict::Loadworthy => Status::Answered,
        Verdict::NotLoadworthy => Status::No,
        Verdict::CannotTell => Status::CannotTell,
    };
    Ok((status, text))
}

pub(super) fn named_edition(site: &Site) -> Result<Edition, Problem> {
    let premises = site.premises();
    Edition::of_id(premises.code.trim()).ok_or_else(|| {
        let known: Vec<&str> = Edition::ALL.iter().map(|edition| edition.id()).collect();
        Problem(format!(
            "{}: `{}` is not an edition that is carried; write one of: {}",
            premises.place_of("code"),
            premises.code,
            known.join(", ")
        ))
    })
}
