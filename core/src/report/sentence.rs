//! A finding as one sentence.

use super::questions;
use crate::check::{Question, Report};
use crate::rules::{Finding, Said, Severity};
use crate::site::{ComponentId, Place};
use crate::size::remedy::remedy;

/// What was examined: `cord `kitchen``.
#[must_use]
pub fn subject(report: &Report<'_>, id: ComponentId) -> String {
    match report.site.component(id) {
        Some(component) => format!("{} `{}`", component.kind().key(), component.name()),
        None if id == ComponentId::SURROUNDINGS => "the place".to_owned(),
        None if id == ComponentId::PROCEDURE => "the procedure".to_owned(),
        None => "the site".to_owned(),
    }
}

/// What a finding says, in one line: lower case, no full stop, values with their units.
#[must_use]
pub fn sentence(report: &Report<'_>, finding: &Finding) -> String {
    let subject = subject(report, finding.subject);
    match &finding.said {
        Said::Compared { does, measured, limit_words, limit } => {
            format!("{subject} {does} {measured}, {limit_words} {limit}")
        }
        Said::Joined { words, mine, verb, other, theirs } => {
            format!("{subject}: {words} {mine} {verb} {} ({theirs})", self::subject(report, *other))
        }
        Said::Plain(words) => format!("{subject} {words}"),
        Said::NotStated(fact) => format!("{subject}: {} is not stated", fact.trim_end_matches(',')),
        Said::Gap(gap) => format!("{subject}: {gap}"),
        Said::Acknowledges { slug, severity, near } => {
            let is = match (severity, near) {
                (Some(Severity::Caution), _) => "a caution".to_owned(),
                (Some(Severity::Information), _) => "information and no caution".to_owned(),
                (Some(Severity::Violation), _) => "a violation and no caution: it is as loud as before".to_owned(),
                (Some(Severity::Prohibited), _) => "prohibited and no caution: it is as loud as before".to_owned(),
                (None, Some(near)) => format!("not a rule; did you mean `{near}`?"),
                (None, None) => "not a rule".to_owned(),
            };
            format!("{subject} acknowledges `{slug}`, which is {is}")
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

/// The section that a finding rests on, in the edition of the report, then what else its rule rests on.
#[must_use]
pub fn citation(report: &Report<'_>, finding: &Finding) -> String {
    let sections: Vec<String> =
        finding.rule.topics.iter().filter_map(|topic| report.code.section(topic).section).collect();
    let document = report.code.section("").document;
    let mut unique: Vec<String> = Vec::with_capacity(sections.len());
    for section in sections {
        if !unique.contains(&section) {
            unique.push(section);
        }
    }
    let mut cited: Vec<String> = Vec::with_capacity(1 + finding.rule.sources.len());
    if !unique.is_empty() {
        cited.push(format!("{document} {}", unique.join(", ")));
    }
    cited.extend(finding.rule.sources.iter().map(|&source| source.to_owned()));
    cited.join("; ")
}
