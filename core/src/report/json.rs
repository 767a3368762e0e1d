//! A report for programs: a stable document, `loadworthy-report` version 1.
//!
//! | field | meaning |
//! | --- | --- |
//! | `format`, `version` | `loadworthy-report`, `1`; the version grows when a field changes its meaning |
//! | `site`, `code`, `code_title` | the name of the site, the identifier and the title of the edition |
//! | `outcome` | `loadworthy`, `not-loadworthy` or `cannot-tell` |
//! | `findings` | one object a finding: `rule`, `severity`, `outcome`, `kind` and `component`, `place`, `message`, `measured`, `limit`, `citation`, `remedy`, `acknowledged`, `working` |
//! | `questions` | one object a missing fact: `kind`, `component`, `field`, `question`, `decides`, `place` |
//! | `cautions` | the cautions of every report |
//!
//! `place` is `{ file, line, column, path }`. `measured`, `limit` and `remedy` are texts with units, or null. `working`
//! is a list of steps `{ what, result, citation, cell, grade }`, empty unless the working was asked for. `acknowledged` is
//! true of a caution that does not hold and that the description acknowledges.

use std::fmt;

use serde::{Serialize, Serializer};

use super::{CAUTIONS, citation, mend, place, question, sentence};
use crate::calc::Step;
use crate::check::{Report, Verdict};
use crate::rules::{Finding, Outcome, Said, Severity};
use crate::site::Place;

/// The report as a document that can be serialized.
#[derive(Debug, Serialize)]
pub struct Document<'a> {
    format: &'static str,
    version: u32,
    site: &'a str,
    code: &'static str,
    code_title: &'static str,
    outcome: Verdict,
    findings: Vec<FindingDocument<'a>>,
    questions: Vec<QuestionDocument<'a>>,
    cautions: [&'static str; 4],
}

#[derive(Debug, Serialize)]
pub(super) struct FindingDocument<'a> {
    rule: &'static str,
    severity: Severity,
    outcome: Outcome,
    kind: &'static str,
    component: &'a str,
    place: Option<PlaceDocument>,
    message: String,
    measured: Option<String>,
    limit: Option<String>,
    citation: String,
    remedy: Remedy<'a>,
    acknowledged: bool,
    working: &'a [Step],
}

/// Sought when it is written, for that takes long: whoever waits for the document may end the writing.
struct Remedy<'a>(&'a Report<'a>, &'a Finding);

impl Serialize for Remedy<'_> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        mend(self.0, self.1).serialize(to)
    }
}

impl fmt::Debug for Remedy<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("Remedy(..)")
    }
}

#[derive(Debug, Serialize)]
pub(super) struct QuestionDocument<'a> {
    kind: &'static str,
    component: &'a str,
    field: &'static str,
    question: String,
    decides: Vec<&'static str>,
    place: Option<PlaceDocument>,
}

#[derive(Debug, Serialize)]
pub(super) struct PlaceDocument {
    file: String,
    line: u32,
    column: u32,
    path: String,
}

impl From<Place> for PlaceDocument {
    fn from(place: Place) -> Self {
        Self { file: place.file().to_owned(), line: place.line(), column: place.column(), path: place.path() }
    }
}

/// The document of a report.
#[must_use]
pub fn document<'a>(report: &'a Report<'a>) -> Document<'a> {
    Document {
        format: "loadworthy-report",
        version: 1,
        site: &report.site.premises().name,
        code: report.code.id(),
        code_title: report.code.title(),
        outcome: report.verdict(),
        findings: report.findings.iter().map(|found| finding(report, found)).collect(),
        questions: report.questions().into_iter().map(|open| ask(report, &open)).collect(),
        cautions: CAUTIONS,
    }
}

pub(super) fn finding<'a>(report: &'a Report<'a>, found: &'a Finding) -> FindingDocument<'a> {
    let component = report.site.component(found.subject);
    let (measured, limit) = match &found.said {
        Said::Compared { measured, limit, .. } => (Some(measured.to_string()), Some(limit.to_string())),
        Said::Joined { mine, theirs, .. } => (Some(mine.to_string()), Some(theirs.to_string())),
        _ => (None, None),
    };
    FindingDocument {
        rule: found.rule.slug,
        severity: found.rule.severity,
        outcome: found.outcome,
        kind: component.map_or("", |component| component.kind().key()),
        component: component.map_or("", |component| component.name()),
        place: place(report, found).map(PlaceDocument::from),
        message: sentence(report, found),
        measured,
        limit,
        citation: citation(report, found),
        remedy: Remedy(report, found),
        acknowledged: report.acknowledges(found),
        working: &found.working,
    }
}

pub(super) fn ask<'a>(report: &'a Report<'a>, open: &crate::check::Question) -> QuestionDocument<'a> {
    let component = report.site.component(open.subject);
    QuestionDocument {
        kind: component.map_or("", |component| component.kind().key()),
        component: component.map_or("", |component| component.name()),
        field: open.field,
        question: question(report, open),
        decides: open.decides.clone(),
        place: report.site.place_of(open.subject, open.field).map(PlaceDocument::from),
    }
}
