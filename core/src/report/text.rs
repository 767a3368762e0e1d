//! A report for a person to read.

use std::fmt::{self, Write};

use super::sentence::write_sentence;
use super::{CAUTIONS, citation, mend, place, question};
use crate::check::{Report, Verdict};
use crate::rules::{Finding, Outcome};

/// Writes a report: the outcome, what fails, what cannot be told, what holds, the questions, the cautions.
///
/// # Errors
/// Only where `out` fails.
pub fn write(report: &Report<'_>, out: &mut impl Write) -> fmt::Result {
    let site = report.site.premises();
    writeln!(out, "{}: {}", site.name, report.verdict().words())?;
    writeln!(out, "judged by {}", report.code.title())?;
    writeln!(out, "{}", meaning(report))?;
    acknowledged(report, out)?;
    part(report, Outcome::Fails, "fails", out)?;
    part(report, Outcome::CannotTell, "cannot tell", out)?;
    holds(report, out)?;
    questions(report, out)?;
    writeln!(out, "\ncautions")?;
    for caution in CAUTIONS {
        writeln!(out, "  - {caution}")?;
    }
    Ok(())
}

fn meaning(report: &Report<'_>) -> String {
    let loud = report.findings.iter().filter(|finding| !report.acknowledges(finding));
    let count = |outcome| loud.clone().filter(|finding| finding.outcome == outcome).count();
    let (fails, open, holds) = (count(Outcome::Fails), count(Outcome::CannotTell), count(Outcome::Holds));
    let sum = format!("{holds} checks hold, {fails} fail, {open} cannot be told");
    match report.verdict() {
        Verdict::Loadworthy => format!("{sum}; every rule that decides holds for what the description states"),
        Verdict::NotLoadworthy => format!("{sum}; do not use it before what fails is mended"),
        Verdict::CannotTell => format!("{sum}; do not use it before the questions are answered"),
    }
}

/// How many findings are quiet, and under which names.
fn acknowledged(report: &Report<'_>, out: &mut impl Write) -> fmt::Result {
    let quiet: Vec<&Finding> = report.findings.iter().filter(|finding| report.acknowledges(finding)).collect();
    let mut slugs: Vec<&str> = quiet.iter().map(|finding| finding.rule.slug).collect();
    slugs.dedup();
    match quiet.len() {
        0 => Ok(()),
        1 => writeln!(out, "1 caution is acknowledged and not shown: {}", slugs.join(", ")),
        count => writeln!(out, "{count} cautions are acknowledged and not shown: {}", slugs.join(", ")),
    }
}

pub(super) fn part(report: &Report<'_>, outcome: Outcome, heading: &str, out: &mut impl Write) -> fmt::Result {
    let mut findings = report.ended(outcome);
    findings.retain(|finding| !report.acknowledges(finding));
    if findings.is_empty() {
        return Ok(());
    }
    writeln!(out, "\n{heading}")?;
    let mut cited = Cited::default();
    for finding in findings {
        write_one(report, finding, &mut cited, out)?;
    }
    Ok(())
}

/// What the last finding rested on: mostly the next rests on the same.
#[derive(Default)]
struct Cited(Option<(Basis, String)>);

type Basis = (&'static str, &'static [&'static str]);

impl Cited {
    /// The citation of a finding, and whether it is another than the last one's.
    fn of(&mut self, report: &Report<'_>, finding: &Finding) -> (&str, bool) {
        // Findings of one rule may rest on different sections.
        let basis = (finding.rule.slug, finding.topics);
        let another = self.0.as_ref().is_none_or(|(last, _)| *last != basis);
        let kept = self.0.take().filter(|_| !another);
        let (_, citation) = self.0.insert(kept.unwrap_or_else(|| (basis, citation(report, finding))));
        (citation, another)
    }
}

pub(super) fn one(report: &Report<'_>, finding: &Finding, out: &mut impl Write) -> fmt::Result {
    write_one(report, finding, &mut Cited::default(), out)
}

fn write_one(report: &Report<'_>, finding: &Finding, cited: &mut Cited, out: &mut impl Write) -> fmt::Result {
    let rule = finding.rule;
    writeln!(out, "  {} {} ({})", rule.slug, finding.outcome.verb(), rule.severity.word())?;
    line(report, finding, out)?;
    if let Some(place) = place(report, finding) {
        writeln!(out, "    at {place}")?;
    }
    writeln!(out, "    by {}", cited.of(report, finding).0)?;
    if let Some(mend) = mend(report, finding) {
        writeln!(out, "    mend: {mend}")?;
    }
    working(finding, "    ", out)
}

fn line(report: &Report<'_>, finding: &Finding, out: &mut impl Write) -> fmt::Result {
    out.write_str("    ")?;
    write_sentence(report, finding, out)?;
    out.write_char('\n')
}

fn working(finding: &Finding, indent: &str, out: &mut impl Write) -> fmt::Result {
    for (number, step) in (1..).zip(&finding.working) {
        write!(out, "{indent}{number}. {}: {}", step.what, step.result)?;
        for more in [step.citation.as_deref(), step.cell.as_deref(), step.grade].into_iter().flatten() {
            write!(out, "; {more}")?;
        }
        writeln!(out)?;
    }
    Ok(())
}

/// What holds, a line each, under the rule that it holds by.
fn holds(report: &Report<'_>, out: &mut impl Write) -> fmt::Result {
    let findings: Vec<&Finding> = report.findings.iter().filter(|finding| finding.outcome == Outcome::Holds).collect();
    if findings.is_empty() {
        return Ok(());
    }
    writeln!(out, "\nholds")?;
    let mut cited = Cited::default();
    for finding in findings {
        if let (citation, true) = cited.of(report, finding) {
            writeln!(out, "  {} ({citation})", finding.rule.slug)?;
        }
        line(report, finding, out)?;
        working(finding, "      ", out)?;
    }
    Ok(())
}

pub(super) fn questions(report: &Report<'_>, out: &mut impl Write) -> fmt::Result {
    let questions = report.questions();
    if questions.is_empty() {
        return Ok(());
    }
    writeln!(out, "\nquestions to answer")?;
    for open in &questions {
        let place = report.site.place_of(open.subject, open.field).map(|place| place.to_string()).unwrap_or_default();
        writeln!(out, "  {place}: {}", question(report, open))?;
        writeln!(out, "    decides {}", open.decides.join(", "))?;
    }
    Ok(())
}
