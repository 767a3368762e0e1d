//! The words of a row as bits of one number, so that rows of the same words are known to be alike.

use std::sync::LazyLock;

use super::circuit::Phases;
use super::column::{Column, Data, Integers, each_width};
use super::field::Field;
use super::reason::Wrong;
use crate::calc::ampacity::Covering;
use crate::calc::overcurrent::Supplies;
use crate::trade::{
    Cable, ContinuousRating, DeviceKind, Installation, Insulation, Material, Place, TerminalMark, WireSize, Word,
};

/// Set where a word is none of its vocabulary, or is missing.
pub(super) const BAD: u64 = 1 << 63;

/// Where the bits of a field are: shift and width. What is not stated has the bits 0.
const fn bits(field: Field) -> (u32, u32) {
    match field {
        // The lowest are those that every row chooses by.
        Field::ContinuousRating => (0, 2),
        Field::Supplies => (2, 2),
        Field::Circuit => (4, 2),
        Field::DeviceKind => (6, 2),
        Field::Size => (8, 18),
        Field::Material => (26, 2),
        Field::Insulation => (28, 6),
        Field::Cable => (34, 4),
        Field::Installation => (38, 3),
        Field::Place => (41, 2),
        Field::ThermalInsulation => (43, 2),
        Field::Terminals => (45, 3),
        _ => (0, 0),
    }
}

const fn mask(field: Field) -> u64 {
    let (shift, width) = bits(field);
    ((1 << width) - 1) << shift
}

/// The words that the tables are asked with; the others choose between their answers.
pub(super) const KEY: u64 =
    ((1 << WIDTH) - 1) & !(mask(Field::ContinuousRating) | mask(Field::Supplies) | mask(Field::Circuit));

/// The words that the size of a conductor is.
pub(super) const SIZE: u64 = mask(Field::Size) | mask(Field::Material);

/// The words that the device for a usable ampacity depends on.
pub(super) const PROTECTED: u64 = SIZE | mask(Field::DeviceKind);

/// How many bits the words take.
const WIDTH: u32 = 48;

/// The fields that are words.
pub(super) const FIELDS: [Field; 12] = [
    Field::Material,
    Field::Size,
    Field::Insulation,
    Field::Cable,
    Field::Installation,
    Field::Place,
    Field::ThermalInsulation,
    Field::Terminals,
    Field::DeviceKind,
    Field::ContinuousRating,
    Field::Supplies,
    Field::Circuit,
];

const YES_OR_NO: [(&str, bool); 4] = [("no", false), ("yes", true), ("false", false), ("true", true)];
const SUPPLIES: [(&str, Supplies); 2] =
    [("several-receptacles", Supplies::SeveralReceptacles), ("other", Supplies::Other)];
const CIRCUITS: [(&str, Phases); 2] = [("two-wire", Phases::TwoWire), ("three-phase", Phases::ThreePhase)];

/// The bits of a word of a field, in their place; `None` for a word that is none.
pub(super) fn encode(field: Field, text: &str) -> Option<u64> {
    let code = match field {
        Field::Material => word_code::<Material>(text),
        Field::Size => size_code(text),
        Field::Insulation => word_code::<Insulation>(text),
        Field::Cable => word_code::<Cable>(text),
        Field::Installation => word_code::<Installation>(text),
        Field::Place => word_code::<Place>(text),
        Field::ThermalInsulation => listed_code(&YES_OR_NO, text).map(|code| (code - 1) % 2 + 1),
        Field::Terminals => word_code::<TerminalMark>(text),
        Field::DeviceKind => word_code::<DeviceKind>(text),
        Field::ContinuousRating => word_code::<ContinuousRating>(text),
        Field::Supplies => listed_code(&SUPPLIES, text),
        Field::Circuit => listed_code(&CIRCUITS, text),
        _ => None,
    }?;
    let (shift, width) = bits(field);
    (code < 1 << width).then_some(code << shift)
}

/// The words of a vocabulary, each once: its other spellings mean the same.
fn distinct<W: Word + PartialEq>() -> Vec<W> {
    let mut words: Vec<W> = W::all().into_iter().map(|(_, word)| word).collect();
    words.dedup();
    words
}

/// The vocabularies, put together once.
struct Vocabularies {
    materials: Vec<Material>,
    insulations: Vec<Insulation>,
    cables: Vec<Cable>,
    installations: Vec<Installation>,
    places: Vec<Place>,
    terminals: Vec<TerminalMark>,
    kinds: Vec<DeviceKind>,
    ratings: Vec<ContinuousRating>,
}

static VOCABULARIES: LazyLock<Vocabularies> = LazyLock::new(|| Vocabularies {
    materials: distinct(),
    insulations: distinct(),
    cables: distinct(),
    installations: distinct(),
    places: distinct(),
    terminals: distinct(),
    kinds: distinct(),
    ratings: distinct(),
});

fn word_code<W: Word + PartialEq>(text: &str) -> Option<u64> {
    let trimmed = text.trim();
    let (_, word) = W::all().into_iter().find(|(spelling, _)| spelling.eq_ignore_ascii_case(trimmed))?;
    (1..).zip(distinct::<W>()).find(|(_, known)| *known == word).map(|(code, _)| code)
}

fn listed_code<T>(words: &[(&str, T)], text: &str) -> Option<u64> {
    (1..).zip(words).find(|(_, (word, _))| word.eq_ignore_ascii_case(text.trim())).map(|(code, _)| code)
}

/// American sizes by their rank; square millimeters above all of them.
const METRIC: u64 = 2048;

fn size_code(text: &str) -> Option<u64> {
    let size: WireSize = text.parse().ok()?;
    let rank = u64::from(size.rank());
    Some(1 + if size.system() == crate::trade::SizeSystem::Metric { METRIC + rank } else { rank })
}

fn size_of(code: u64) -> Option<WireSize> {
    let rank = code.checked_sub(1)?;
    if let Some(hundredths) = rank.checked_sub(METRIC) {
        return format!("{}.{:02} mm2", hundredths / 100, hundredths % 100).parse().ok();
    }
    i8::try_from(rank)
        .ok()
        .filter(|rank| *rank <= 30)
        .and_then(|rank| WireSize::awg(27 - rank))
        .or_else(|| u16::try_from(rank).ok().and_then(WireSize::kcmil))
}

/// The words of a row, read back.
#[derive(Clone, Copy)]
pub(super) struct Words(pub(super) u64);

impl Words {
    /// The number of a word, from 1; 0 where none is stated.
    #[inline]
    pub(super) fn code(self, field: Field) -> u64 {
        let (shift, width) = bits(field);
        self.0 >> shift & ((1 << width) - 1)
    }

    fn word<W: Copy>(self, field: Field, of: impl Fn(&Vocabularies) -> &Vec<W>) -> Option<W> {
        let at = self.code(field).checked_sub(1)?;
        of(&VOCABULARIES).get(usize::try_from(at).ok()?).copied()
    }

    fn listed<T: Copy>(self, field: Field, words: &[(&str, T)]) -> Option<T> {
        let at = self.code(field).checked_sub(1)?;
        words.get(usize::try_from(at).ok()?).map(|(_, value)| *value)
    }

    pub(super) fn material(self) -> Option<Material> {
        self.word(Field::Material, |all| &all.materials)
    }

    pub(super) fn size(self) -> Option<WireSize> {
        size_of(self.code(Field::Size))
    }

    pub(super) fn covering(self) -> Option<Covering> {
        match (self.word(Field::Cable, |all| &all.cables), self.word(Field::Insulation, |all| &all.insulations)) {
            (Some(cable), insulation) => Some(Covering::Cable(cable, insulation)),
            (None, Some(insulation)) => Some(Covering::Insulation(insulation)),
            (None, None) => None,
        }
    }

    pub(super) fn installation(self) -> Option<Installation> {
        self.word(Field::Installation, |all| &all.installations)
    }

    pub(super) fn place(self) -> Option<Place> {
        self.word(Field::Place, |all| &all.places)
    }

    pub(super) fn thermal_insulation(self) -> Option<bool> {
        self.listed(Field::ThermalInsulation, &YES_OR_NO)
    }

    pub(super) fn terminals(self) -> Option<TerminalMark> {
        self.word(Field::Terminals, |all| &all.terminals)
    }

    pub(super) fn kind(self) -> DeviceKind {
        self.word(Field::DeviceKind, |all| &all.kinds).unwrap_or(DeviceKind::Breaker)
    }

    pub(super) fn continuous_rating(self) -> ContinuousRating {
        self.word(Field::ContinuousRating, |all| &all.ratings).unwrap_or(ContinuousRating::Standard)
    }

    pub(super) fn supplies(self) -> Option<Supplies> {
        self.listed(Field::Supplies, &SUPPLIES)
    }

    pub(super) fn phases(self) -> Option<Phases> {
        self.listed(Field::Circuit, &CIRCUITS)
    }
}

/// How many codes eight bits make.
const BYTE: usize = 256;

/// A code as a place in its dictionary.
fn place(code: impl TryInto<usize>) -> Option<usize> {
    code.try_into().ok()
}

/// A column of words, ready to be read.
#[derive(Clone, Debug)]
pub(super) struct WordColumn<'a> {
    field: Field,
    column: Column<'a>,
    /// The bits of each word of a dictionary.
    dictionary: Vec<u64>,
    /// The bits of a null.
    null: u64,
}

impl<'a> WordColumn<'a> {
    pub(super) fn new(field: Field, column: Column<'a>) -> Self {
        let null = if field.may_be_null() { 0 } else { BAD };
        let resolve = |word: &Option<&str>| word.map_or(null, |word| encode(field, word).unwrap_or(BAD));
        let dictionary = match &column.data {
            Data::Coded { words, .. } => {
                let mut dictionary: Vec<u64> = words.iter().map(resolve).collect();
                // Every code of eight bits has an entry: a code without a word is as bad as a word that is none.
                dictionary.resize(words.len().max(BYTE), BAD);
                dictionary
            }
            Data::Flags { .. } => ["no", "yes"].iter().map(|word| encode(field, word).unwrap_or(BAD)).collect(),
            _ => Vec::new(),
        };
        Self { field, column, dictionary, null }
    }

    pub(super) const fn field(&self) -> Field {
        self.field
    }

    /// Adds the bits of the rows from `start` to theirs.
    pub(super) fn fill(&self, start: usize, keys: &mut [u64], seen: &mut Seen) {
        let null = |row| self.column.validity.is_some_and(|validity| !validity.get(row));
        match &self.column.data {
            Data::Nulls { .. } => keys.iter_mut().for_each(|key| *key |= self.null),
            Data::Coded { codes: Integers::U8(codes), .. } if self.column.validity.is_none() => {
                self.bytes(codes.get(start..).unwrap_or_default(), |code| code, keys);
            }
            Data::Coded { codes: Integers::I8(codes), words }
                if self.column.validity.is_none() && words.len() <= 128 =>
            {
                // Codes below zero land above 127, where there is no word.
                self.bytes(codes.get(start..).unwrap_or_default(), i8::cast_unsigned, keys);
            }
            Data::Coded { codes, .. } if self.column.validity.is_none() => {
                each_width!(codes, values => {
                    let values = values.get(start..).unwrap_or_default();
                    for (code, key) in values.iter().zip(keys) {
                        *key |= place(*code).and_then(|at| self.dictionary.get(at)).unwrap_or(&BAD);
                    }
                });
            }
            Data::Text(text) => {
                for (row, key) in (start..).zip(keys) {
                    let word = if null(row) { None } else { text.get(row) };
                    *key |= word.map_or(self.null, |word| seen.resolve(self.field, word));
                }
            }
            _ => {
                for (row, key) in (start..).zip(keys) {
                    *key |= if null(row) { self.null } else { self.coded(row) };
                }
            }
        }
    }

    /// Codes of eight bits, none of which can be outside of its dictionary.
    #[inline]
    fn bytes<T: Copy>(&self, codes: &[T], byte: impl Fn(T) -> u8, keys: &mut [u64]) {
        let Some(dictionary) = self.dictionary.first_chunk::<BYTE>() else { return };
        for (code, key) in codes.iter().zip(keys) {
            *key |= dictionary.get(usize::from(byte(*code))).unwrap_or(&BAD);
        }
    }

    fn coded(&self, row: usize) -> u64 {
        let code = match &self.column.data {
            Data::Coded { codes, .. } => codes.get(row).and_then(|code| usize::try_from(code).ok()),
            Data::Flags { bits, .. } => Some(usize::from(bits.get(row))),
            _ => None,
        };
        code.and_then(|code| self.dictionary.get(code)).copied().unwrap_or(BAD)
    }

    /// What is wrong with a row, if anything.
    pub(super) fn wrong(&self, row: usize) -> Option<Wrong> {
        let is_null = match &self.column.data {
            _ if self.column.validity.is_some_and(|validity| !validity.get(row)) => true,
            Data::Nulls { .. } => true,
            Data::Text(text) => text.get(row).is_none(),
            Data::Coded { codes, words } => {
                let code = codes.get(row).and_then(|code| usize::try_from(code).ok());
                code.and_then(|code| words.get(code)).is_some_and(Option::is_none)
            }
            _ => false,
        };
        let bits = match &self.column.data {
            _ if is_null => self.null,
            Data::Text(text) => text.get(row).and_then(|word| encode(self.field, word)).unwrap_or(BAD),
            _ => self.coded(row),
        };
        (bits & BAD != 0).then_some(if is_null { Wrong::Null } else { Wrong::UnknownWord })
    }
}

/// The texts that were met, with their bits: as many as there is room for, so that no batch fills the memory.
pub(super) struct Seen {
    slots: Vec<Slot>,
}

#[derive(Clone, Default)]
struct Slot {
    field: Option<Field>,
    text: String,
    bits: u64,
}

const SLOTS: usize = 1024;
const LONGEST: usize = 32;

impl Seen {
    pub(super) fn new() -> Self {
        Self { slots: Vec::new() }
    }

    fn resolve(&mut self, field: Field, text: &str) -> u64 {
        if text.len() > LONGEST {
            return encode(field, text).unwrap_or(BAD);
        }
        if self.slots.is_empty() {
            self.slots.resize(SLOTS, Slot::default());
        }
        // Two texts of one slot take turns: slower, never wrong.
        let mix = |hash: u64, byte: &u8| (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3);
        let hash = text.as_bytes().iter().fold(field as u64, mix);
        let at = usize::try_from((hash ^ hash >> 20) % SLOTS as u64).unwrap_or(0);
        let Some(slot) = self.slots.get_mut(at) else {
            return encode(field, text).unwrap_or(BAD);
        };
        if slot.field != Some(field) || slot.text != text {
            let bits = encode(field, text).unwrap_or(BAD);
            *slot = Slot { field: Some(field), text: text.to_owned(), bits };
        }
        slot.bits
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_field_is_too_narrow_and_none_overlap() {
        let mut taken = 0_u64;
        for field in FIELDS {
            let (shift, width) = bits(field);
            let mask = ((1 << width) - 1) << shift;
            assert_eq!(taken & mask, 0, "{field:?}");
            taken |= mask;
        }
        assert_eq!(taken, (1 << WIDTH) - 1);
        for (spelling, _) in Insulation::all() {
            assert!(encode(Field::Insulation, spelling).is_some(), "{spelling}");
        }
        for (spelling, _) in TerminalMark::all() {
            assert!(encode(Field::Terminals, spelling).is_some(), "{spelling}");
        }
    }

    #[test]
    fn every_word_is_read_back() {
        for (spelling, word) in Insulation::all() {
            let words = Words(encode(Field::Insulation, spelling).unwrap());
            assert_eq!(words.covering(), Some(Covering::Insulation(word)));
        }
        for (spelling, word) in TerminalMark::all() {
            assert_eq!(Words(encode(Field::Terminals, spelling).unwrap()).terminals(), Some(word));
        }
        let sizes = ["27 AWG", "1 AWG", "1/0 AWG", "4/0 AWG", "250 kcmil", "2000 kcmil", "0.5 mm2", "1000 mm2"];
        for text in sizes {
            let words = Words(encode(Field::Size, text).unwrap());
            assert_eq!(words.size().unwrap().to_string(), text);
        }
        for (text, inside) in YES_OR_NO {
            assert_eq!(Words(encode(Field::ThermalInsulation, text).unwrap()).thermal_insulation(), Some(inside));
        }
        assert_eq!(Words(encode(Field::Supplies, " Other ").unwrap()).supplies(), Some(Supplies::Other));
        assert_eq!(encode(Field::Circuit, "one-wire"), None);
    }
}
