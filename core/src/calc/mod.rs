//! Pure calculations over quantities and a code. They know nothing of sites, and round nothing that decides.
//!
//! Each gives its working when asked: pass a [`Derivation`] instead of [`Silent`].

pub mod ampacity;
pub mod continuous;
pub mod cord;
pub mod counting;
mod derivation;
pub mod grounding;
mod k_factor;
pub mod least_area;
pub mod motor;
pub mod overcurrent;
pub mod plug;
pub mod voltage_drop;

pub use derivation::{Derivation, Silent, Step, Working};

use crate::code::Gap;

/// A calculation that cannot be finished: what was looked for, and the gap in the tables.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("cannot tell {what}: {gap}")]
pub struct CannotTell {
    /// What was looked for: `the ampacity`.
    pub what: &'static str,
    /// Why the tables do not give it.
    #[source]
    pub gap: Gap,
}

/// Turns a gap into "cannot tell", naming what was looked for.
pub(crate) fn cannot_tell(what: &'static str) -> impl Fn(Gap) -> CannotTell {
    move |gap| CannotTell { what, gap }
}
