//! Reports for people and for programs. Text is made here, at the end, and nowhere before.

pub mod derivation;
pub mod json;
pub mod plan;
pub mod plan_json;
mod questions;
mod sentence;
pub mod sequence;
pub mod sequence_checklist;
pub mod sequence_json;
pub mod text;

pub use sentence::{citation, mend, place, question, sentence, subject};

/// The cautions that every report carries, once.
pub const CAUTIONS: [&str; 4] = [
    "electricity and engine exhaust kill; an engine runs outdoors only, far from every opening",
    "local codes and the authority having jurisdiction decide",
    "connection to premises wiring is work for licensed people",
    "this report covers only what the description states",
];
