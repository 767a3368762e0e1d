//! One question, one answer: plain structs in and out, the working on demand; one file a question.

pub mod ampacity;
mod answered;
pub mod box_fill;
pub mod circuit;
pub mod continuous_load;
pub mod cord;
pub mod cord_set;
pub mod device;
pub mod grounding;
pub mod plug;
pub mod raceway;
pub mod voltage_drop;

pub(crate) use ampacity::yes_no;
pub(crate) use answered::{Answered, Question, ask};
