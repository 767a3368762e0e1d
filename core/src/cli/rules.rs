//! `rules`: the rules, and the page of one.

use std::io::Write;

use serde::Serialize;

use super::Status;
use super::options::Problem;
use super::output::Output;
use crate::code::{Code, Edition, Nec};
use crate::rules::{RULES, Rule, Severity, find};
use crate::trade::nearest;

/// The options of `rules`.
#[derive(clap::Args)]
pub(super) struct Arguments {
    /// The slug of a rule; without it all are listed
    slug: Option<String>,
    /// How to print
    #[arg(long, default_value = "text")]
    format: Format,
}

#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum Format {
    /// For a person to read
    Text,
    /// For a program
    Json,
}

/// A rule as a document.
#[derive(Serialize)]
struct Page {
    rule: &'static str,
    severity: Severity,
    summary: &'static str,
    citations: Vec<Cited>,
    page: String,
}

/// Where a rule stands in one edition.
#[derive(Serialize)]
struct Cited {
    edition: &'static str,
    sections: Vec<String>,
}

impl Page {
    fn of(rule: &'static Rule) -> Self {
        let citations = Edition::ALL.map(|edition| Cited { edition: edition.id(), sections: sections(rule, edition) });
        Self {
            rule: rule.slug,
            severity: rule.severity,
            summary: rule.summary,
            citations: citations.into(),
            page: rule.page(),
        }
    }

    fn text(&self) -> String {
        let mut text = format!(
            "# {} ({})\n\nFails when {}.\n\n{}\n\n## Citations\n",
            self.rule,
            self.severity.word(),
            self.summary,
            self.page
        );
        for cited in &self.citations {
            text.push_str(&format!("{}: {}\n", cited.edition, cited.sections.join(", ")));
        }
        text
    }
}

fn sections(rule: &Rule, edition: Edition) -> Vec<String> {
    let mut sections: Vec<String> = Vec::new();
    for section in rule.topics.iter().filter_map(|topic| Nec::standard(edition).section(topic).section) {
        if !sections.contains(&section) {
            sections.push(section);
        }
    }
    sections
}

pub(super) fn run(arguments: &Arguments, out: &mut Output<impl Write>) -> Result<Status, Problem> {
    let json = |value: Result<String, serde_json::Error>| value.map_err(|error| Problem(error.to_string()));
    match (&arguments.slug, arguments.format) {
        (None, Format::Text) => {
            let widest = RULES.iter().map(|rule| rule.slug.len()).max().unwrap_or(0);
            for rule in RULES {
                out.write(&format!(
                    "{:widest$}  {:11}  fails when {}\n",
                    rule.slug,
                    rule.severity.word(),
                    rule.summary
                ));
            }
            out.write("\n`rules NAME` explains one, with its citations\n");
        }
        (None, Format::Json) => {
            let pages: Vec<Page> = RULES.iter().map(|rule| Page::of(rule)).collect();
            out.write(&json(serde_json::to_string_pretty(&pages))?);
            out.write("\n");
        }
        (Some(slug), format) => {
            let page = Page::of(named(slug)?);
            match format {
                Format::Text => out.write(&page.text()),
                Format::Json => {
                    out.write(&json(serde_json::to_string_pretty(&page))?);
                    out.write("\n");
                }
            }
        }
    }
    Ok(Status::Answered)
}

fn named(slug: &str) -> Result<&'static Rule, Problem> {
    find(slug).ok_or_else(|| {
        let shown: String = slug.chars().take(60).collect();
        let advice = match nearest(&shown, RULES.iter().map(|rule| rule.slug)) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "`rules` lists them".to_owned(),
        };
        Problem(format!("there is no rule `{shown}`; {advice}"))
    })
}
