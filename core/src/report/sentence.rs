//! A finding as one sentence.

use crate::check::{Question, Report};
use crate::rules::{Finding, Said};
use crate::site::{ComponentId, Place};

/// What was examined: `cord `kitchen``.
#[must_use]
pub fn subject(report: &Report<'_>, id: ComponentId) -> String {
    match report.site.component(id) {
        Some(component) => format!("{} `{}`", component.kind().key(), component.name()),
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
    }
}

/// A question as one line: `cord `K`: what is its wire size?`
#[must_use]
pub fn question(report: &Report<'_>, question: &Question) -> String {
    let fact = question.fact.trim_end_matches(',');
    let asked = fact.starts_with("whether") || fact.starts_with("how");
    let ask = if asked { "" } else { "what is " };
    format!("{}: {ask}{fact}?", subject(report, question.subject))
}

/// Where a finding stands in the document.
#[must_use]
pub fn place(report: &Report<'_>, finding: &Finding) -> Option<Place> {
    report.site.component(finding.subject).map(|component| component.place_of(finding.field))
}

/// The section that a finding rests on, in the edition of the report.
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
    format!("{document} {}", unique.join(", "))
}
