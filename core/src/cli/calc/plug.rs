//! `calc plug`: whether a plug enters a receptacle, and what governs the current.

use super::super::answer::{Answer, Detail};
use super::super::named::named;
use super::super::options::{Problem, given, missing};
use crate::calc::plug::fit;
use crate::code::Code;
use crate::quantity::Amperes;
use crate::trade::{Configuration, Contacts, Gender, Mating};

#[derive(Default, clap::Args)]
pub(in crate::cli) struct Question {
    /// The configuration of the plug: 14-50, L14-30P, "IEC 60309 32 A blue 2P+E"
    #[arg(long)]
    plug: Option<String>,
    /// The configuration of the receptacle: 14-50, L14-30R
    #[arg(long)]
    receptacle: Option<String>,
    /// What the supply behind the receptacle gives, where that is known: "40 A"
    #[arg(long)]
    supply: Option<String>,
}

named!(Question: plug, receptacle, supply);

impl Question {
    pub(super) fn answer(&self, code: &dyn Code, detail: Detail) -> Result<Answer, Problem> {
        let mut answer = Answer::new("plug", code, detail);
        let plug = half("plug", self.plug.as_ref(), Gender::Male)?;
        let receptacle = half("receptacle", self.receptacle.as_ref(), Gender::Female)?;
        let supply: Option<Amperes> = given("supply", self.supply.as_ref())?;
        answer.subject(format_args!("plug {plug} into receptacle {receptacle}"));
        let found = fit(code, plug, receptacle, supply, &mut answer.working);
        match found.mating {
            Mating::Mates(_) => {
                answer.quantity(found.governing_current);
                answer.say(format_args!("it mates, and carries at most {}", found.governing_current));
                answer.governed_by(found.governed_by);
                if supply.is_none() {
                    answer.assume("the supply gives what plug and receptacle are rated for");
                }
            }
            Mating::Conditional(_) => answer.gap(
                "whether the plug enters",
                "some makes of the pair mate and some do not; ask the makers, or use a like pair",
            ),
            Mating::DoesNot => answer.no("it does not mate"),
        }
        Ok(answer)
    }
}

/// A configuration, with or without the letter for blades or openings; the wrong letter is no slip to pass over.
fn half(option: &'static str, text: Option<&String>, gender: Gender) -> Result<Configuration, Problem> {
    let Some(text) = text else {
        return Err(missing(option, "14-50"));
    };
    match text.parse::<Contacts>() {
        Ok(contacts) if contacts.gender == gender => Ok(contacts.configuration),
        Ok(contacts) => {
            let (has, letter) = match contacts.gender {
                Gender::Male => ("blades", "R"),
                _ => ("openings", "P"),
            };
            Err(Problem::at(option, format!("`{contacts}` has {has}; a {option} ends in {letter}")))
        }
        Err(_) => given::<Configuration>(option, Some(text))?.ok_or_else(|| missing(option, "14-50")),
    }
}
