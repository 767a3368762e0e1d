//! The cases of the rules as files: read by every test that judges their sites.

#![allow(dead_code, reason = "each test uses its part")]

use std::path::Path;

use loadworthy::rules::{RULES, Rule};
use serde::Deserialize;

/// The file of a rule.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct File {
    /// The site that its cases share.
    pub(crate) site: Option<String>,
    /// The cases.
    pub(crate) case: Vec<Case>,
}

/// One case.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Case {
    /// Its name.
    pub(crate) name: String,
    /// The edition by which it is judged, where that is not the site's own.
    pub(crate) edition: Option<String>,
    /// A site of its own.
    pub(crate) site: Option<String>,
    /// What differs from the site: pairs of a text that stands there once and what stands in its place.
    #[serde(default)]
    pub(crate) change: Vec<(String, String)>,
    /// All findings of the rule, in order.
    pub(crate) expect: Vec<Expected>,
}

/// A finding that is expected; what is left out is not compared.
#[derive(Debug, Deserialize, PartialEq, Eq)]
#[serde(deny_unknown_fields)]
pub(crate) struct Expected {
    /// The name of its subject.
    pub(crate) component: String,
    /// How it ends, as a verb.
    pub(crate) outcome: String,
    /// Its sentence.
    pub(crate) message: String,
    /// `line:column` of what decided.
    pub(crate) place: Option<String>,
    /// What would mend it.
    pub(crate) remedy: Option<String>,
    /// What it rests on.
    pub(crate) citation: Option<String>,
}

/// Where the files are.
pub(crate) fn folder() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/cases"))
}

/// The file of a rule.
pub(crate) fn cases(rule: &Rule) -> File {
    let path = folder().join(format!("{}.toml", rule.slug));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    toml::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The text of a case's site, or what is wrong with the case.
pub(crate) fn site_text(file: &File, case: &Case) -> Result<String, String> {
    let shared = case.site.as_ref().or(file.site.as_ref()).ok_or("has no site")?;
    let mut text = shared.clone();
    for (from, to) in &case.change {
        match text.matches(from.as_str()).count() {
            1 => text = text.replacen(from.as_str(), to, 1),
            count => return Err(format!("`{from}` stands in its site {count} times, not once")),
        }
    }
    Ok(text)
}

/// Every example and the site of every case, each with a name.
pub(crate) fn sites() -> Vec<(String, String)> {
    let mut all: Vec<(String, String)> =
        examples().iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect();
    for rule in RULES {
        let file = cases(rule);
        for case in &file.case {
            let text = site_text(&file, case).unwrap_or_else(|why| panic!("{} {}: {why}", rule.slug, case.name));
            all.push((format!("{} {}", rule.slug, case.name), text));
        }
    }
    all
}

/// The examples of the core.
pub(crate) const fn examples() -> [(&'static str, &'static str); 3] {
    [
        ("cottage.toml", include_str!("../../core/examples/cottage.toml")),
        ("cottage-failing.toml", include_str!("../../core/examples/cottage-failing.toml")),
        ("cottage-unknown.toml", include_str!("../../core/examples/cottage-unknown.toml")),
    ]
}
