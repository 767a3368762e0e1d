//! The choices that cross the border: each an `int32_t` with named constants, each word of the trade's vocabulary one.
//!
//! Zero is always "not stated". A number keeps its meaning for ever; a new word takes the next number. The tables below
//! turn a number into its word: the word of number n stands at place n - 1. A test compares names and tables with the
//! vocabulary.

pub mod configuration;
pub mod words;

use crate::error::{Result, fail, lw_error};
use crate::status::{LW_STATUS_BAD_CHOICE, LW_STATUS_NOT_STATED};

/// A vocabulary as C sees it.
pub struct Choices<T: 'static> {
    /// What a number of it is called in a message: `conductor material`.
    pub kind: &'static str,
    /// The words in the order of their numbers, from 1.
    pub words: &'static [T],
}

impl<T: Copy + PartialEq> Choices<T> {
    /// The word of a number, `None` where it is not stated.
    #[inline(always)]
    pub(crate) fn given(&self, number: i32, place: &'static str) -> Result<Option<T>> {
        if number == 0 {
            return Ok(None);
        }
        // A number below 1 becomes one far beyond the last word.
        match self.words.get(number.cast_unsigned().wrapping_sub(1) as usize) {
            Some(word) => Ok(Some(*word)),
            None => Err(unknown(number, self.kind, self.words.len(), place)),
        }
    }

    /// The word of a number that must be stated.
    #[inline(always)]
    pub(crate) fn required(&self, number: i32, place: &'static str) -> Result<T> {
        self.given(number, place)?.ok_or_else(|| missing(self.kind, place))
    }

    /// The number of a word, 0 where it has none yet.
    pub(crate) fn number(&self, word: T) -> i32 {
        let at = self.words.iter().position(|other| *other == word);
        at.and_then(|at| i32::try_from(at + 1).ok()).unwrap_or(0)
    }
}

#[cold]
#[inline(never)]
fn unknown(number: i32, kind: &str, count: usize, place: &str) -> Box<lw_error> {
    fail(
        LW_STATUS_BAD_CHOICE,
        place,
        format_args!("{number} is not a {kind}; write one of the constants of the header, 1 to {count}"),
    )
}

#[cold]
#[inline(never)]
fn missing(kind: &str, place: &str) -> Box<lw_error> {
    fail(
        LW_STATUS_NOT_STATED,
        place,
        format_args!("the {kind} is not stated and decides the answer; write one of the constants of the header"),
    )
}
