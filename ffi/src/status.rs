//! How a call ends.

/// How a call ended: one of the `LW_STATUS_` constants. A number keeps its meaning for ever; new ones may be added.
pub type lw_status = i32;

/// The outputs hold what was asked for.
pub const LW_STATUS_OK: lw_status = 0;
/// A pointer that must not be NULL is NULL.
pub const LW_STATUS_NULL_POINTER: lw_status = 1;
/// A pointer is not aligned as its type must be.
pub const LW_STATUS_MISALIGNED: lw_status = 2;
/// The `struct_size` of a struct is none that this library knows, or a field that it does not know is not zero.
pub const LW_STATUS_STRUCT_SIZE: lw_status = 3;
/// A length or a count is larger than is taken.
pub const LW_STATUS_TOO_LARGE: lw_status = 4;
/// A text is not UTF-8.
pub const LW_STATUS_NOT_UTF8: lw_status = 5;
/// A field is not stated without which there is no answer.
pub const LW_STATUS_NOT_STATED: lw_status = 6;
/// A number is out of its range, not finite, or finer than it is kept.
pub const LW_STATUS_BAD_NUMBER: lw_status = 7;
/// A number that stands for a choice is none of its constants, or a word is none that is known.
pub const LW_STATUS_BAD_CHOICE: lw_status = 8;
/// Fields that exclude each other are both stated.
pub const LW_STATUS_CONTRADICTION: lw_status = 9;
/// A document could not be read; the error lists every problem with its place.
pub const LW_STATUS_DOCUMENT: lw_status = 10;
/// There is nothing of that index.
pub const LW_STATUS_NO_SUCH_INDEX: lw_status = 11;
/// What was asked cannot be of this site; the error lists why, each with its place.
pub const LW_STATUS_IMPOSSIBLE: lw_status = 12;
/// A defect of the library: a panic was caught. Every handle stays usable.
pub const LW_STATUS_PANIC: lw_status = 13;
/// The caller's own function asked to stop.
pub const LW_STATUS_STOPPED: lw_status = 14;
/// Columns are unknown, missing, of a wrong type or of a wrong length; the error lists all of them.
pub const LW_STATUS_COLUMNS: lw_status = 15;
/// A table is none that the Arrow C data interface describes.
pub const LW_STATUS_ARROW: lw_status = 16;
/// An option of a question that was asked by name could not be understood, or is missing; the error's place is its name.
pub const LW_STATUS_NOT_UNDERSTOOD: lw_status = 17;
