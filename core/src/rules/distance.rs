//! Distances that are to be kept from an engine.

use super::{Findings, Remedy, Said, Value};
use crate::calc::CannotTell;
use crate::code::guidance;
use crate::published::TableId;
use crate::quantity::{Meters, Written};
use crate::site::Source;

/// A distance of a source against the least that a table gives.
pub(super) struct Distance {
    /// The field that states it.
    pub(super) field: &'static str,
    /// As it is asked.
    pub(super) asked: &'static str,
    /// What the source does: `stands away from buildings by`.
    pub(super) does: &'static str,
    /// The key of the table.
    pub(super) key: &'static str,
    /// What the limit is.
    pub(super) limit_words: &'static str,
    /// What would mend it; the limit follows.
    pub(super) mend: &'static str,
}

impl Distance {
    /// Judges the distance, or asks for it.
    pub(super) fn judge(&self, found: &mut Findings, source: &Source, stated: Option<Written<Meters>>) {
        let Some(stated) = stated else { return found.ask(source, self.field, self.asked) };
        let least = match guidance::figure::<Written<Meters>>(TableId::EngineDistances, self.key) {
            Ok(cell) => cell.value,
            Err(gap) => {
                return found.gap(source, self.field, CannotTell { what: "the distance that is to be kept", gap });
            }
        };
        let said = Said::Compared {
            does: self.does,
            measured: Value::Length(stated),
            limit_words: self.limit_words,
            limit: Value::Length(least),
        };
        found.judge(source, self.field, *stated >= *least, said, Remedy::Use(self.mend, Value::Length(least)));
    }
}
