//! Facts of yes or no, and where they apply: what the rules of places and procedures share.

use super::{Findings, Remedy, Said, Survey};
use crate::site::{ComponentId, Source, SourceKind, TransferKind};

/// A fact of yes or no, in words.
pub(super) struct Fact {
    /// The field that states it.
    pub(super) field: &'static str,
    /// As it is asked: `whether it stands dry`.
    pub(super) asked: &'static str,
    /// What is said where it is well.
    pub(super) well: &'static str,
    /// What is said where it is not.
    pub(super) ill: &'static str,
    /// What would mend it.
    pub(super) mend: &'static str,
}

impl Fact {
    /// Judges the fact, or asks for it.
    pub(super) fn judge(&self, found: &mut Findings, of: ComponentId, well: Option<bool>) {
        match well {
            None => found.ask_part(of, self.field, self.asked),
            Some(well) => {
                let said = Said::Plain(if well { self.well } else { self.ill });
                found.judge_part(of, self.field, well, said, Remedy::Do(self.mend));
            }
        }
    }
}

/// The sources with an engine. Of one that may have one it is asked: its exhaust would kill.
pub(super) fn engines<'a>(survey: &Survey<'a>, found: &mut Findings) -> Vec<&'a Source> {
    let mut engines = Vec::new();
    for source in survey.site.sources() {
        match (source.kind, source.engine) {
            // A generator is an engine with a generator, whatever else its record says.
            (SourceKind::Generator, _) | (_, Some(true)) => engines.push(source),
            (_, Some(false)) => {}
            (_, None) => found.ask(source, "engine", "whether a fuel engine drives it"),
        }
    }
    engines
}

/// Whether a source may reach wiring that a utility may feed as well.
pub(super) fn joins_utility(survey: &Survey<'_>) -> bool {
    let site = survey.site;
    let wiring = !site.panels().is_empty() || !site.transfers().is_empty();
    wiring && !site.sources().is_empty() && site.utility().is_none_or(|utility| utility.connected)
}

/// Whether every transfer equipment of the site passes over by itself.
pub(super) fn transfers_by_itself(survey: &Survey<'_>) -> bool {
    let transfers = survey.site.transfers();
    let automatic = |kind| matches!(kind, TransferKind::Automatic | TransferKind::Interactive);
    !transfers.is_empty() && transfers.iter().all(|transfer| automatic(transfer.kind))
}
