//! What the command says of a described site, for doors that are no command line: the same documents.

use std::path::Path;

use super::asked::{Form, NotUnderstood, Outcome};
use super::output::Output;
use super::sequence::{NotSequenced, Page};
use super::{Status, check, plan, sequence};
use crate::code::Acceptance;
use crate::interrupt::Interrupt;
use crate::site::Site;

/// What a site is judged by.
#[derive(Clone, Copy, Debug, Default)]
pub struct Book<'a> {
    /// The identifier of the edition, in place of the one that the description names.
    pub edition: Option<&'a str>,
    /// The cells that somebody has read in the book and accepts.
    pub acceptance: Option<&'a Acceptance>,
}

/// What is asked of a plan besides the description, as texts.
#[derive(Clone, Copy, Debug, Default)]
pub struct PlanOptions<'a> {
    /// The source, where the site has several.
    pub source: Option<&'a str>,
    /// An order of starts to be judged: names of loads with commas between them.
    pub start_order: Option<&'a str>,
    /// How long it is wanted to last: `12 h`.
    pub hours: Option<&'a str>,
    /// The hour of the day at which the source takes over, 0 to 23.
    pub start_hour: u8,
    /// A record of the home's meter that gives the base load.
    pub measured: Option<&'a Path>,
    /// The share of the recorded time that the base load covers: `95 %`.
    pub measured_share: Option<&'a str>,
    /// The described loads that the record holds already, with commas between them.
    pub measured_for: Option<&'a str>,
}

/// The report of `check`: answered where the site is loadworthy, no where it is not.
///
/// ```
/// use loadworthy::cli::{Book, Form, Outcome, checked};
/// use loadworthy::{interrupt::Interrupt, site::Site};
/// let site = Site::from_toml("cottage.toml", include_str!("../../examples/cottage.toml"))?;
/// let (outcome, document) = checked(&site, Book::default(), false, Form::Json, &Interrupt::never())?;
/// assert_eq!(outcome, Outcome::Answered);
/// assert!(document.starts_with("{\"format\":\"loadworthy-report\""));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// An edition that is not carried; that it was interrupted.
pub fn checked(
    site: &Site,
    book: Book<'_>,
    working: bool,
    form: Form,
    interrupt: &Interrupt,
) -> Result<(Outcome, String), NotUnderstood> {
    let edition = book.edition.map(str::to_owned);
    let (status, text) =
        check::written(site, edition.as_ref(), book.acceptance, working, form == Form::Json, interrupt)?;
    Ok((outcome(status), text))
}

/// The document of `plan`: answered where the plan holds, no where it fails.
///
/// ```
/// use loadworthy::cli::{Book, Form, PlanOptions, planned};
/// use loadworthy::{interrupt::Interrupt, site::Site};
/// let site = Site::from_toml("cottage.toml", include_str!("../../examples/cottage.toml"))?;
/// let asked = PlanOptions { hours: Some("8 h"), ..PlanOptions::default() };
/// let (_, document) = planned(&site, Book::default(), asked, Form::Json, &Interrupt::never())?;
/// assert!(document.contains("\"kind\":\"plan\""));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// An option that could not be understood, or a description that nothing can be planned for; that it was
/// interrupted.
pub fn planned(
    site: &Site,
    book: Book<'_>,
    asked: PlanOptions<'_>,
    form: Form,
    interrupt: &Interrupt,
) -> Result<(Outcome, String), NotUnderstood> {
    let owned = |text: Option<&str>| text.map(str::to_owned);
    let arguments = plan::Arguments {
        source: owned(asked.source),
        start_order: owned(asked.start_order),
        hours: owned(asked.hours),
        start_hour: asked.start_hour,
        measured: asked.measured.map(Path::to_owned),
        measured_share: owned(asked.measured_share),
        measured_for: owned(asked.measured_for),
        edition: owned(book.edition),
        format: if form == Form::Json { plan::Format::Json } else { plan::Format::Text },
        ..plan::Arguments::default()
    };
    let mut text = Vec::new();
    let mut out = Output::new(&mut text);
    let status = plan::of_site(site, &arguments, book.acceptance, interrupt, &mut out)?;
    // Memory takes whatever is written to it.
    let _ = out.finish();
    Ok((outcome(status), String::from_utf8_lossy(&text).into_owned()))
}

/// What `sequence` finds, or how it judges the steps of a file (its name and its text).
///
/// ```
/// use loadworthy::cli::{Book, Outcome, Page, sequenced};
/// use loadworthy::{interrupt::Interrupt, site::Site};
/// let site = Site::from_toml("cottage.toml", include_str!("../../examples/cottage.toml"))?;
/// let (outcome, _) = sequenced(&site, Book::default(), None, Page::Checklist, &Interrupt::never())?;
/// assert_eq!(outcome, Outcome::Answered);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// An edition that is not carried, steps that could not be read, or a page that steps have not. An order that was not found before the
/// search was interrupted is said in the document.
pub fn sequenced(
    site: &Site,
    book: Book<'_>,
    steps: Option<(&str, &str)>,
    page: Page,
    interrupt: &Interrupt,
) -> Result<(Outcome, String), NotSequenced> {
    let edition = book.edition.map(str::to_owned);
    let (status, text) = sequence::written(site, edition.as_ref(), book.acceptance, steps, page, interrupt)?;
    Ok((outcome(status), text))
}

const fn outcome(status: Status) -> Outcome {
    match status {
        Status::Answered => Outcome::Answered,
        Status::No => Outcome::No,
        Status::CannotTell | Status::NotRead => Outcome::CannotTell,
    }
}
