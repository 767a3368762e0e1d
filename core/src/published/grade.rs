//! How sure a cell is: the pedigree that decides whether an answer may rest on it.

use std::fmt;

/// How well a cell of a published table is witnessed, surest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum Grade {
    /// Two or more published sources agree.
    TwoSources,
    /// Two or more reprints of an earlier edition agree; unchanged since by memory and by calculation.
    EarlierEdition,
    /// One published source.
    OneSource,
    /// From memory, and an independent calculation gives the same.
    Calculated,
    /// From memory only.
    Memory,
}

impl Grade {
    /// Every grade, surest first.
    pub const ALL: [Self; 5] =
        [Self::TwoSources, Self::EarlierEdition, Self::OneSource, Self::Calculated, Self::Memory];

    /// The mark that stands for it in the CSV files.
    #[must_use]
    pub const fn mark(self) -> char {
        match self {
            Self::TwoSources => '2',
            Self::EarlierEdition => 'p',
            Self::OneSource => '1',
            Self::Calculated => 'c',
            Self::Memory => 'm',
        }
    }

    /// The grade of a mark; `None` for `-`, a blank cell, and for anything else.
    #[must_use]
    pub fn of_mark(mark: char) -> Option<Self> {
        Self::ALL.into_iter().find(|grade| grade.mark() == mark)
    }

    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::TwoSources => "two or more published sources",
            Self::EarlierEdition => "two or more reprints of an earlier edition",
            Self::OneSource => "one published source",
            Self::Calculated => "memory, reproduced by calculation",
            Self::Memory => "memory only",
        }
    }
}

impl fmt::Display for Grade {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.words())
    }
}
