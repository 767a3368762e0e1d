//! Breaks, questions and refusals in words.

use super::invariant::{Break, Detail, Question};
use super::network::Network;
use super::transition::Refusal;

impl Network {
    /// One line about a break: the invariant, the outcome, what shows it.
    #[must_use]
    pub fn explain(&self, found: &Break) -> String {
        format!("{} {}: {}", found.invariant, found.outcome().verb(), self.detail(&found.detail))
    }

    fn detail(&self, detail: &Detail) -> String {
        let name = |device| self.name(device);
        match *detail {
            Detail::BareContact { joint, supply } => {
                format!("the bare contacts of `{}` are live from `{}`", name(joint), name(supply))
            }
            Detail::Joined { first, second } => format!("a closed path joins `{}` and `{}`", name(first), name(second)),
            Detail::PlugUnderLoad { joint, load } => {
                format!("`{}` moves while `{}` gains or loses its supply by it", name(joint), name(load))
            }
            Detail::Overload { source, limit, demand, rating } => {
                format!("`{}` would carry {demand}, its {limit} is {rating}", name(source))
            }
            Detail::Bonds { source, count } => {
                format!("while `{}` feeds the building the neutral is bonded {count} times, not once", name(source))
            }
            Detail::TouchLive { place, supply } => {
                format!("`{}` is live from `{}`", self.node_name(place), name(supply))
            }
            Detail::TouchUntested { place } => {
                format!("`{}` was not tested since the last switching", self.node_name(place))
            }
            Detail::TouchUnlocked { place, isolator } => {
                format!("`{}` isolates `{}` and is not locked", name(isolator), self.node_name(place))
            }
            Detail::TouchReachable { place, supply } => {
                format!("no lock keeps `{}` from `{}`", name(supply), self.node_name(place))
            }
            Detail::FuelWhileRunning { source } => format!("`{}` is running", name(source)),
            Detail::FuelWhileHot { source } => format!("`{}` has not cooled", name(source)),
            Detail::Misfit { load, source, lacks } => {
                format!("`{}` does not give `{}` {lacks}", name(source), name(load))
            }
            Detail::EngineLoaded { source, load } => format!("`{}` carries `{}`", name(source), name(load)),
            Detail::Unprotected { load, supply } => {
                format!("no breaker stands between `{}` and `{}`", name(supply), name(load))
            }
            Detail::Missing(question) => self.ask(&question),
        }
    }

    /// A missing fact as a question's subject: ``the bond of its neutral of `generator` is not stated``.
    #[must_use]
    pub fn ask(&self, question: &Question) -> String {
        match *question {
            Question::Fact(device, fact) => format!("`{}`: {fact} is not stated", self.name(device)),
            Question::ServiceBond => "whether the service bonds neutral and ground is not stated".to_owned(),
            Question::OtherBonds => "how many other bonds of neutral and ground there are is not stated".to_owned(),
            Question::Interlock(first, second) => {
                format!("the interlock of `{}` and `{}` is not described", self.name(first), self.name(second))
            }
            Question::Transition(device) => {
                format!("whether `{}` breaks before it makes is not stated", self.name(device))
            }
        }
    }

    /// Why something could not be done.
    #[must_use]
    pub fn refusal(&self, refusal: &Refusal) -> String {
        match *refusal {
            Refusal::Locked(device) => format!("`{}` is locked", self.name(device)),
            Refusal::Interlocked { device, by } => {
                format!("the interlock holds `{}` open while `{}` is closed", self.name(device), self.name(by))
            }
        }
    }
}
