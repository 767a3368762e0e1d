//! Questions asked by name, for doors that are no command line: the options and the answers are the command's.

use std::path::Path;

use clap::CommandFactory;

use crate::code::{Acceptance, Code, Edition};

use super::Status;
use super::answer::{Answer, Detail};
use super::named::Named;
use super::options::{self, Problem};
use super::{calc, size};

pub use super::answer::Outcome;

/// A question of `calc` or `size` with its options as texts.
///
/// ```
/// use loadworthy::cli::{Asked, Outcome};
/// use loadworthy::code::{Edition, Nec};
///
/// let mut asked = Asked::new("ampacity").ok_or("no such question")?;
/// asked.set("size", "8 AWG")?;
/// asked.set("material", "copper")?;
/// asked.set("insulation", "THHN")?;
/// let brief = asked.brief(Nec::standard(Edition::Nec2023))?;
/// assert_eq!(brief.outcome, Outcome::Answered);
/// assert_eq!(brief.figure.as_deref(), Some("40 A")); // unmarked terminals: the 60 °C column
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub struct Asked(Question);

enum Question {
    Calc(Box<calc::Question>),
    Size(Box<size::Question>),
}

/// What answers a question, without words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Brief {
    /// How the question ends.
    pub outcome: Outcome,
    /// A number with its unit, or a wire size: `45 A`, `6 AWG`; `None` where that is not what answers.
    pub figure: Option<String>,
    /// The word for what limits the answer.
    pub governed_by: Option<String>,
}

/// How an answer is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// For a person to read.
    Text,
    /// The document that the module describes.
    Json,
}

/// Input that could not be understood, in one line, as the command says it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct NotUnderstood(String);

impl NotUnderstood {
    /// The option that it concerns, where it concerns one.
    ///
    /// ```
    /// # use loadworthy::cli::Asked;
    /// # use loadworthy::code::{Edition, Nec};
    /// let asked = Asked::new("equipment-grounding").ok_or("no such question")?;
    /// let wrong = asked.brief(Nec::standard(Edition::Nec2023)).unwrap_err();
    /// assert_eq!(wrong.option(), Some("device"));
    /// # Ok::<(), &str>(())
    /// ```
    #[must_use]
    pub fn option(&self) -> Option<&str> {
        let name = self.0.strip_prefix("--")?;
        name.split([':', ' ']).next()
    }
}

impl From<Problem> for NotUnderstood {
    fn from(Problem(line): Problem) -> Self {
        // The command begins every line of its complaint with its name; a door has the lines alone.
        Self(line.replace("\nloadworthy: ", "\n"))
    }
}

impl Asked {
    /// The question of a name, with nothing stated: `ampacity`, `voltage-drop`, `size-circuit`.
    #[must_use]
    pub fn new(question: &str) -> Option<Self> {
        let calc = || calc::Question::named(question).map(|asked| Question::Calc(Box::new(asked)));
        let size = || size::Question::named(question).map(|asked| Question::Size(Box::new(asked)));
        calc().or_else(size).map(Self)
    }

    /// States an option by its name; one that may be said several times is added.
    ///
    /// # Errors
    /// Where the question has no such option, or has it already and takes it once.
    pub fn set(&mut self, option: &str, text: impl Into<String>) -> Result<(), NotUnderstood> {
        let options: &mut dyn Named = match &mut self.0 {
            Question::Calc(question) => question.options_mut(),
            Question::Size(question) => question.options_mut(),
        };
        let shown = || option.replace('_', "-");
        let Some(slot) = options.slot(option) else {
            return Err(NotUnderstood(format!("--{}: the question has no such option", shown())));
        };
        if !slot.takes_several() && !slot.held().is_empty() {
            return Err(NotUnderstood(format!("--{}: is said once; leave the other values out", shown())));
        }
        slot.put(text.into());
        Ok(())
    }

    /// What is stated: each option with its values.
    #[must_use]
    pub fn stated(&self) -> Vec<(&'static str, &[String])> {
        let mut stated = Vec::new();
        let options: &dyn Named = match &self.0 {
            Question::Calc(question) => question.options(),
            Question::Size(question) => question.options(),
        };
        options.each(&mut |option, values| {
            if !values.is_empty() {
                stated.push((option, values));
            }
        });
        stated
    }

    /// What an option wants, in the words of the command's help: what to say to somebody who wrote something else.
    #[must_use]
    pub fn wanted(&self, option: &str) -> Option<String> {
        let command = super::Arguments::command();
        let (room, question) = match &self.0 {
            Question::Calc(question) => ("calc", question.name()),
            Question::Size(question) => ("size", question.name()),
        };
        let question = command.find_subcommand(room)?.find_subcommand(question)?;
        let mut options = question.get_arguments();
        let found = options.find(|one| one.get_long().is_some_and(|long| long.replace('-', "_") == option))?;
        found.get_help().map(ToString::to_string)
    }

    /// The answer without words: what is judged is what [`written`](Self::written) judges.
    ///
    /// # Errors
    /// Options that could not be understood. A kit is only answered in writing.
    pub fn brief(&self, code: &dyn Code) -> Result<Brief, NotUnderstood> {
        let answer = self.answer(code, true, Detail::Brief)?;
        let outcome = answer.outcome();
        let (figure, governed_by) = answer.into_figure();
        Ok(Brief { outcome, figure, governed_by })
    }

    /// The answer with its working, as the command writes it.
    ///
    /// # Errors
    /// Options that could not be understood.
    pub fn written(
        &self,
        code: &dyn Code,
        edition_stated: bool,
        form: Form,
    ) -> Result<(Outcome, String), NotUnderstood> {
        if let Question::Size(question) = &self.0
            && let size::Question::Kit(kit) = &**question
        {
            let (text, status) = kit.document(code, edition_stated, form == Form::Json)?;
            return Ok((if status == Status::Answered { Outcome::Answered } else { Outcome::No }, text));
        }
        let answer = self.answer(code, edition_stated, Detail::Full)?;
        let text = match form {
            Form::Text => answer.text(),
            Form::Json => answer.json()?,
        };
        Ok((answer.outcome(), text))
    }

    fn answer(&self, code: &dyn Code, edition_stated: bool, detail: Detail) -> Result<Answer, Problem> {
        match &self.0 {
            Question::Calc(question) => question.answer(code, edition_stated, detail),
            Question::Size(question) => question.answer(code, edition_stated, detail),
        }
    }
}

/// The edition of an identifier such as `nec-2020`; the newest where none is stated.
///
/// ```
/// use loadworthy::{cli::edition, code::Edition};
/// assert_eq!(edition(Some("nec-2020"))?, Edition::Nec2020);
/// assert_eq!(edition(Some("nec-2002")).unwrap_err().option(), Some("edition"));
/// # Ok::<(), loadworthy::cli::NotUnderstood>(())
/// ```
///
/// # Errors
/// An edition that is not carried.
pub fn edition(stated: Option<&str>) -> Result<Edition, NotUnderstood> {
    Ok(options::edition(stated.map(str::to_owned).as_ref())?)
}

/// The cells that a file accepts.
///
/// # Errors
/// A file that could not be read, or an entry that is not what our tables carry.
pub fn acceptance(path: &Path) -> Result<Acceptance, NotUnderstood> {
    Ok(options::acceptance(path)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cli::Arguments;
    use crate::code::Nec;

    #[test]
    fn every_option_of_the_command_line_is_set_by_its_name() {
        let command = Arguments::command();
        let mut asked_for = 0;
        for (room, prefix) in [("calc", ""), ("size", "size-")] {
            for question in command.find_subcommand(room).unwrap().get_subcommands() {
                let name = format!("{prefix}{}", question.get_name());
                let mut asked = Asked::new(&name).unwrap_or_else(|| panic!("{name} is not asked by name"));
                for option in question.get_arguments().filter_map(clap::Arg::get_long) {
                    asked.set(&option.replace('-', "_"), "x").unwrap_or_else(|error| panic!("{name}: {error}"));
                    assert!(asked.wanted(&option.replace('-', "_")).is_some(), "{name} {option}");
                    asked_for += 1;
                }
                assert!(asked.set("no_such", "x").is_err());
                assert_eq!(asked.stated().len(), question.get_arguments().filter_map(clap::Arg::get_long).count());
            }
        }
        assert!(asked_for > 150, "{asked_for}");
        assert!(Asked::new("kit").is_none());
    }

    #[test]
    fn brief_and_written_say_the_same() {
        let code = Nec::standard(Edition::Nec2023);
        let mut asked = Asked::new("size-cord").unwrap();
        let stated = [
            ("outlet", "L14-30"),
            ("device", "30 A"),
            ("current", "24 A"),
            ("voltage", "240 V"),
            ("usage", "hard"),
            ("place", "wet"),
        ];
        for (option, text) in stated {
            asked.set(option, text).unwrap();
        }
        let brief = asked.brief(code).unwrap();
        let (outcome, json) = asked.written(code, true, Form::Json).unwrap();
        let json: serde_json::Value = serde_json::from_str(&json).unwrap();
        assert_eq!((brief.outcome, brief.governed_by.as_deref()), (outcome, json["governed_by"].as_str()));
        let (value, unit) = (json["answer"]["value"].as_str().unwrap(), json["answer"]["unit"].as_str().unwrap());
        assert_eq!(brief.figure.unwrap(), format!("{value} {unit}"));
        assert!(!json["working"].as_array().unwrap().is_empty());
        assert!(!json["assumed"].as_array().unwrap().is_empty());
    }
}
