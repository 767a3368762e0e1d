//! The texts that were met, with their bits.

use super::field::Field;
use super::words::{BAD, encode};

/// The texts that were met, with their bits: as many as there is room for, so that no batch fills the memory.
pub(super) struct Seen {
    /// Of up to 8 bytes, as most are.
    short: Table<1>,
    /// Of up to 32.
    long: Table<4>,
}

/// Texts in their slots. Of three in a pair of slots two stay: slower, never wrong.
struct Table<const N: usize> {
    slots: Vec<Slot<N>>,
}

#[derive(Clone, Copy)]
struct Slot<const N: usize> {
    key: Key<N>,
    bits: u64,
}

/// All of a text and its field.
#[derive(Clone, Copy, PartialEq)]
struct Key<const N: usize> {
    /// The field and the length, and 1: nothing is in a slot that has 0.
    of: u64,
    text: [u64; N],
}

const SLOTS: usize = 1024;

impl Seen {
    pub(super) const fn new() -> Self {
        Self { short: Table { slots: Vec::new() }, long: Table { slots: Vec::new() } }
    }

    /// The bits of a text of a field.
    #[inline(always)]
    pub(super) fn resolve(&mut self, field: Field, text: &[u8]) -> u64 {
        if text.len() <= 8 {
            self.short.resolve(Key::new(field, text, [short(text)]), field, text)
        } else {
            self.resolve_long(field, text)
        }
    }

    #[inline(never)]
    fn resolve_long(&mut self, field: Field, text: &[u8]) -> u64 {
        if text.len() <= 32 {
            self.long.resolve(Key::new(field, text, long(text)), field, text)
        } else {
            resolved(field, text)
        }
    }
}

/// What is not UTF-8 is no word.
fn resolved(field: Field, text: &[u8]) -> u64 {
    std::str::from_utf8(text).ok().and_then(|text| encode(field, text)).unwrap_or(BAD)
}

/// All of up to 8 bytes whose number is known: what begins and what ends them may overlap.
#[inline]
fn short(text: &[u8]) -> u64 {
    if let (Some(first), Some(last)) = (text.first_chunk(), text.last_chunk()) {
        return u64::from(u32::from_le_bytes(*first)) | u64::from(u32::from_le_bytes(*last)) << 32;
    }
    let [first, middle, last] =
        [text.first(), text.get(1), text.last()].map(|byte| u64::from(byte.copied().unwrap_or(0)));
    first | middle << 8 | last << 16
}

/// All of 9 to 32 bytes whose number is known.
fn long(text: &[u8]) -> [u64; 4] {
    let (first, rest) = text.split_at_checked(16).unwrap_or((text, &[]));
    let eight = |bytes: Option<&[u8; 8]>| bytes.map_or(0, |bytes| u64::from_le_bytes(*bytes));
    [first.first_chunk(), first.last_chunk(), rest.first_chunk(), text.last_chunk()].map(eight)
}

impl<const N: usize> Key<N> {
    fn new(field: Field, of: &[u8], text: [u64; N]) -> Self {
        Self { of: 1 | (of.len() as u64) << 8 | (field as u64) << 16, text }
    }

    #[inline]
    fn slot(&self) -> usize {
        let mixed = self.text.iter().fold(self.of, |mixed, text| mixed.rotate_left(21) ^ text);
        // The golden ratio: the topmost bits of the product depend on every bit below.
        (mixed.wrapping_mul(0x9e37_79b9_7f4a_7c15) >> 54) as usize % SLOTS
    }
}

impl<const N: usize> Table<N> {
    const EMPTY: Slot<N> = Slot { key: Key { of: 0, text: [0; N] }, bits: BAD };

    #[inline(always)]
    fn resolve(&mut self, key: Key<N>, field: Field, text: &[u8]) -> u64 {
        let at = key.slot();
        match self.slots.get(at) {
            Some(slot) if slot.key == key => slot.bits,
            _ => self.beside(key, at, field, text),
        }
    }

    /// The same of a text that is not in its first slot. What was there makes room in the second.
    #[cold]
    #[inline(never)]
    fn beside(&mut self, key: Key<N>, at: usize, field: Field, text: &[u8]) -> u64 {
        if self.slots.is_empty() {
            self.slots.resize(SLOTS, Self::EMPTY);
        }
        let known = self.slots.get(at ^ 1).copied().filter(|slot| slot.key == key);
        let slot = known.unwrap_or_else(|| Slot { key, bits: resolved(field, text) });
        if let Some(first) = self.slots.get_mut(at) {
            let before = std::mem::replace(first, slot);
            if let Some(second) = self.slots.get_mut(at ^ 1) {
                *second = before;
            }
        }
        slot.bits
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn words_have_their_bits_however_often_they_are_met() {
        let words =
            ["", "TW", "THHN", "XHHW-2", "10 AWG", "12 AWG", "two-wire", "several-receptacles", "other", "in a tray"];
        let mut seen = Seen::new();
        for _ in 0..3 {
            for field in super::super::words::FIELDS {
                for word in words {
                    assert_eq!(
                        seen.resolve(field, word.as_bytes()),
                        encode(field, word).unwrap_or(BAD),
                        "{field:?} {word}"
                    );
                }
            }
        }
    }

    #[test]
    fn texts_that_are_nearly_the_same_are_told_apart() {
        let long = "a text that is longer than any word of a vocabulary is";
        let mut keys = std::collections::HashSet::new();
        for length in 0..=32 {
            // One byte after the other is changed.
            for changed in 0..=length {
                let mut text = long.as_bytes()[..length].to_vec();
                text.iter_mut().skip(changed).take(1).for_each(|byte| *byte ^= 1);
                let text_of = if length <= 8 { [short(&text), 0, 0, 0] } else { super::long(&text) };
                assert!(keys.insert((length, text_of)), "{length} {changed}");
            }
        }
    }

    proptest! {
        #[test]
        fn any_bytes_are_what_they_are_alone(texts in prop::collection::vec("[ -~]{0,40}|\\PC{0,12}", 1..60)) {
            let mut seen = Seen::new();
            for text in texts.iter().chain(&texts) {
                let bytes = text.as_bytes();
                prop_assert_eq!(seen.resolve(Field::Size, bytes), resolved(Field::Size, bytes));
                let cut = bytes.get(1..).unwrap_or_default();
                prop_assert_eq!(seen.resolve(Field::Insulation, cut), resolved(Field::Insulation, cut));
            }
        }
    }
}
