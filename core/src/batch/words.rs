//! The words of a row as bits of one number, so that rows of the same words are known to be alike.

use std::sync::LazyLock;

use super::circuit::Phases;
use super::field::Field;
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
        Field::Circuit => (2, 2),
        Field::Supplies => (4, 2),
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

/// The words that an ampacity and the devices for it depend on.
pub(super) const KEY: u64 = ((1 << WIDTH) - 1) & !(mask(Field::ContinuousRating) | mask(Field::Circuit));

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
