//! The border: all that touches a pointer from outside. Everywhere else the code is safe.
//!
//! The functions here are called by entries alone, which are `unsafe`: the callers of an entry owe what stands at the top
//! of the header. Beyond that nothing is trusted: each pointer is checked for NULL and for its alignment, each size and
//! length for its range, and memory that C may write to is copied, never borrowed as Rust memory while it could change.

mod argument;
mod array;
#[cfg(feature = "arrow")]
mod arrow;
mod guard;
mod out;
mod text;

#[cfg(feature = "questions")]
pub(crate) use argument::texts;
pub(crate) use argument::{Elements, Plain, bytes, current, elements, handle, long_text, plain, text};
pub(crate) use array::{Number, Outputs, numbers, strings};
#[cfg(feature = "arrow")]
pub(crate) use arrow::{OutTable, table};
pub(crate) use guard::{free, guard};
pub(crate) use out::{Out, OutCurrent, OutHandle, OutStruct, call};
pub use text::lw_str;
pub(crate) use text::{Text, Texts};
