//! Columns of words, read a row at a time: as bits, whatever they hold.

use super::column::{Column, Data, Integers, each_width};
use super::field::Field;
use super::reason::Wrong;
use super::seen::Seen;
use super::words::{BAD, encode};

/// So many texts are found before they are looked up.
const TEXTS: usize = 64;

/// A column of words, ready to be read.
#[derive(Clone, Debug)]
pub(super) struct WordColumn<'a> {
    pub(super) field: Field,
    pub(super) column: Column<'a>,
    /// The bits of each word of a dictionary.
    pub(super) dictionary: Vec<u64>,
    /// The bits of a null.
    null: u64,
}

impl<'a> WordColumn<'a> {
    pub(super) fn new(field: Field, column: Column<'a>) -> Self {
        let null = if field.may_be_null() { 0 } else { BAD };
        let resolve = |word: &Option<&str>| word.map_or(null, |word| encode(field, word).unwrap_or(BAD));
        let dictionary = match &column.data {
            Data::Coded { words, .. } => words.iter().map(resolve).collect(),
            Data::Flags { .. } => [Some("no"), Some("yes")].iter().map(resolve).collect(),
            _ => Vec::new(),
        };
        Self { field, column, dictionary, null }
    }

    /// Adds the bits of the rows from `start` to theirs.
    pub(super) fn fill(&self, start: usize, words: &mut [u64], seen: &mut Seen) {
        let validity = self.column.validity.filter(|validity| !validity.all(start, words.len()));
        match (&self.column.data, validity) {
            (Data::Text(text), validity) => {
                let mut texts = [None; TEXTS];
                for (start, words) in (start..).step_by(TEXTS).zip(words.chunks_mut(TEXTS)) {
                    let texts = texts.get_mut(..words.len()).unwrap_or_default();
                    text.read(start, texts);
                    if let Some(validity) = validity {
                        let nulls = (start..).zip(&mut *texts).filter(|(row, _)| !validity.get(*row));
                        nulls.for_each(|(_, text)| *text = None);
                    }
                    for (words, text) in words.iter_mut().zip(texts) {
                        *words |= text.map_or(self.null, |text| seen.resolve(self.field, text));
                    }
                }
            }
            (Data::Coded { codes, .. }, None) => each_width!(codes, codes => {
                add(&self.dictionary, codes.get(start..).unwrap_or_default(), words);
            }),
            _ => (start..).zip(words).for_each(|(row, words)| *words |= self.bits(row, seen)),
        }
    }

    /// The bits of a row.
    #[inline]
    pub(super) fn bits(&self, row: usize, seen: &mut Seen) -> u64 {
        if self.column.validity.is_some_and(|validity| !validity.get(row)) {
            return self.null;
        }
        match &self.column.data {
            Data::Nulls { .. } => self.null,
            Data::Text(text) => text.get(row).map_or(self.null, |word| seen.resolve(self.field, word.as_bytes())),
            _ => self.code(row).and_then(|code| self.dictionary.get(code)).copied().unwrap_or(BAD),
        }
    }

    fn code(&self, row: usize) -> Option<usize> {
        match &self.column.data {
            Data::Coded { codes, .. } => codes.get(row).and_then(|code| usize::try_from(code).ok()),
            Data::Flags { bits, .. } => Some(usize::from(bits.get(row))),
            _ => None,
        }
    }

    /// What is wrong with a row, if anything.
    pub(super) fn wrong(&self, row: usize) -> Option<Wrong> {
        let is_null = match &self.column.data {
            _ if self.column.validity.is_some_and(|validity| !validity.get(row)) => true,
            Data::Nulls { .. } => true,
            Data::Text(text) => text.get(row).is_none(),
            Data::Coded { words, .. } => self.code(row).and_then(|code| words.get(code)).is_some_and(Option::is_none),
            _ => false,
        };
        let bad = self.bits(row, &mut Seen::new()) & BAD != 0;
        bad.then_some(if is_null { Wrong::Null } else { Wrong::UnknownWord })
    }
}

/// Adds the bits that codes stand for.
fn add<T: Copy>(dictionary: &[u64], codes: &[T], words: &mut [u64])
where
    usize: TryFrom<T>,
{
    for (words, code) in words.iter_mut().zip(codes) {
        let word = usize::try_from(*code).ok().and_then(|code| dictionary.get(code));
        *words |= word.copied().unwrap_or(BAD);
    }
}
