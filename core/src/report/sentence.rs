//! A finding as one sentence.

use std::fmt;

use super::questions;
use crate::check::{Question, Report};
use crate::rules::{Finding, Said, Severity};
use crate::site::{ComponentId, Place};
use crate::size::remedy::remedy;

/// What was examined: `cord `kitchen``.
#[must_use]
pub fn subject(report: &Report<'_>, id: ComponentId) -> String {
    Subject(report, id).to_string()
}

struct Subject<'r>(&'r Report<'r>, ComponentId);

impl fmt::Display for Subject<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self(report, id) = *self;
        match report.site.component(id) {
            Some(component) => write!(out, "{} `{}`", component.kind().key(), component.name()),
            None if id == ComponentId::SURROUNDINGS => out.write_str("the place"),
            None if id == ComponentId::PROCEDURE => out.write_str("the procedure"),
            None => out.write_str("the site"),
        }
    }
}

/// What a finding says, in one line: lower case, no full stop, values with their units.
#[must_use]
pub fn sentence(report: &Report<'_>, finding: &Finding) -> String {
    let mut sentence = String::with_capacity(128);
    // A string takes whatever is written.
    let _ = write_sentence(report, finding, &mut sentence);
    sentence
}

/// Writes [`sentence`].
pub(super) fn write_sentence(report: &Report<'_>, finding: &Finding, out: &mut impl fmt::Write) -> fmt::Result {
    let subject = Subject(report, finding.subject);
    match &finding.said {
        Said::Compared { does, measured, limit_words, limit } => {
            write!(out, "{subject} {does} {measured}, {limit_words} {limit}")
        }
        Said::Joined { words, mine, verb, other, theirs } => {
            write!(out, "{subject}: {words} {mine} {verb} {} ({theirs})", Subject(report, *other))
        }
        Said::Plain(words) => write!(out, "{subject} {words}"),
        Said::NotStated(fact) => write!(out, "{subject}: {} is not stated", fact.trim_end_matches(',')),
        Said::Gap(gap) => write!(out, "{subject}: {gap}"),
        Said::Acknowledges { slug, severity, near } => {
            let is = match (severity, near) {
                (Some(Severity::Caution), _) => "a caution".to_owned(),
                (Some(Severity::Information), _) => "information and no caution".to_owned(),
                (Some(Severity::Violation), _) => "a violation and no caution: it is as loud as before".to_owned(),
                (Some(Severity::Prohibited), _) => "prohibited and no caution: it is as loud as before".to_owned(),
                (None, Some(near)) => format!("not a rule; did you mean `{near}`?"),
                (None, None) => "not a rule".to_owned(),
            };
            write!(out, "{subject} acknowledges `{slug}`, which is {is}")
        }
    }
}

/// A question as one line: `cord `K`: what is its wire size?`
#[must_use]
pub fn question(report: &Report<'_>, question: &Question) -> String {
    format!("{}: {}?", subject(report, question.subject), questions::question(question.fact))
}

/// What would mend a failure: in the rule's words, and where a standard size does it, the smallest that passes.
#[must_use]
pub fn mend(report: &Report<'_>, finding: &Finding) -> Option<String> {
    let words = finding.remedy?.to_string();
    Some(match remedy(report, finding) {
        Some(mend) => format!("{words}; the smallest change that passes: {}", mend.text(report.site)),
        None => words,
    })
}

/// Where a finding stands in the document.
#[must_use]
pub fn place(report: &Report<'_>, finding: &Finding) -> Option<Place> {
    report.site.place_of(finding.subject, finding.field)
}

/// The sections that a finding rests on, in the edition of the report, then what else its rule rests on.
#[must_use]
pub fn citation(report: &Report<'_>, finding: &Finding) -> String {
    let mut unique: Vec<String> = Vec::with_capacity(finding.topics.len());
    for section in finding.topics.iter().filter_map(|topic| report.code.section(topic).section) {
        if !unique.contains(&section) {
            unique.push(section);
        }
    }
    let mut cited = String::new();
    if !unique.is_empty() {
        cited = format!("{} {}", report.code.section("").document, unique.join(", "));
    }
    for source in finding.rule.sources {
        cited.push_str(if cited.is_empty() { "" } else { "; " });
        cited.push_str(source);
    }
    cited
}
