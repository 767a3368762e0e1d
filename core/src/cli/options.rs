//! Reading options: words are words, quantities have units, and a problem says what to do.

use std::fmt::Display;
use std::path::Path;
use std::str::FromStr;

use clap::error::ErrorKind;

use crate::code::{Acceptance, Edition};
use crate::trade::nearest;

/// Input that could not be read, in one line.
#[derive(Debug, thiserror::Error)]
#[error("{0}")]
pub(super) struct Problem(pub(super) String);

impl Problem {
    /// What `clap` found, in one line and without its usage.
    pub(super) fn of_arguments(error: &clap::Error) -> Self {
        if error.kind() == ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand {
            return Self("nothing is asked; see `--help`".to_owned());
        }
        let text = error.render().to_string().replace('\'', "`");
        let before_usage = text.split("\n\nUsage:").next().unwrap_or("");
        let before_usage = before_usage.split("\n\nFor more information").next().unwrap_or("");
        let line = one_line(before_usage).replace(" tip: ", "; ");
        Self(format!("{}; see `--help`", line.strip_prefix("error: ").unwrap_or(&line)))
    }

    /// With the option that it concerns.
    pub(super) fn at(option: &str, what: impl Display) -> Self {
        Self(format!("--{option}: {what}"))
    }
}

/// The value of an option that may be left out.
pub(super) fn given<T>(option: &str, text: Option<&String>) -> Result<Option<T>, Problem>
where
    T: FromStr<Err: Display>,
{
    text.map(|text| text.parse().map_err(|error| Problem::at(option, error))).transpose()
}

/// The value of an option that the answer cannot do without.
pub(super) fn required<T>(option: &str, text: Option<&String>, example: &str) -> Result<T, Problem>
where
    T: FromStr<Err: Display>,
{
    given(option, text)?.ok_or_else(|| missing(option, example))
}

/// An option is missing that decides the answer.
pub(super) fn missing(option: &str, example: &str) -> Problem {
    Problem(format!("--{option} is missing and decides the answer; write it, as in `--{option} \"{example}\"`"))
}

/// A count of conductors, 1 to 999.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Count(pub(super) u16);

impl FromStr for Count {
    type Err = Problem;

    fn from_str(text: &str) -> Result<Self, Problem> {
        let digits = text.trim();
        let plain = !digits.is_empty() && digits.chars().all(|digit| digit.is_ascii_digit());
        let count = digits.parse().ok().filter(|count| plain && (1..=999).contains(count));
        count.map(Self).ok_or_else(|| {
            let shown: String = digits.chars().take(60).collect();
            Problem(format!("`{shown}` is not a count of conductors; write a whole number from 1 to 999"))
        })
    }
}

/// The edition of an option; the newest where none is given.
pub(super) fn edition(text: Option<&String>) -> Result<Edition, Problem> {
    let Some(text) = text else {
        return Ok(Edition::ALL.last().copied().unwrap_or(Edition::Nec2023));
    };
    Edition::of_id(text.trim()).ok_or_else(|| {
        let shown: String = text.chars().take(60).collect();
        let ids = Edition::ALL.map(Edition::id);
        let advice = match nearest(&shown, ids.into_iter()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("write one of: {}", ids.join(", ")),
        };
        Problem::at("edition", format!("`{shown}` is not an edition that is carried; {advice}"))
    })
}

/// The cells that a file accepts.
pub(super) fn acceptance(path: &Path) -> Result<Acceptance, Problem> {
    Acceptance::from_toml(&read(path)?)
        .map_err(|error| Problem(format!("{}: {}", path.display(), one_line(&error.to_string()))))
}

/// The bytes of a file.
pub(super) fn read_bytes(path: &Path) -> Result<Vec<u8>, Problem> {
    std::fs::read(path).map_err(|error| Problem(format!("{}: could not be read: {error}", path.display())))
}

/// The text of a file.
pub(super) fn read(path: &Path) -> Result<String, Problem> {
    std::fs::read_to_string(path).map_err(|error| Problem(format!("{}: could not be read: {error}", path.display())))
}

/// A message of several lines in one.
pub(super) fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
