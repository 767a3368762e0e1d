//! The kinds of rows by their words, numbered in the order in which they are met.

/// A table of places by open addressing: one look for nearly every row.
pub(super) struct Kinds {
    /// A power of two of them, at most a quarter taken.
    slots: Vec<(u64, u32)>,
    met: u32,
}

/// No words of a row: they leave the top bit free.
const FREE: (u64, u32) = (u64::MAX, 0);

impl Kinds {
    pub(super) fn new() -> Self {
        Self { slots: vec![FREE; 256], met: 0 }
    }

    /// How many kinds were met.
    pub(super) const fn met(&self) -> u32 {
        self.met
    }

    /// The slot where words are, or where they would be.
    #[inline(always)]
    fn slot(&self, words: u64) -> (usize, (u64, u32)) {
        let mask = self.slots.len().wrapping_sub(1);
        // The golden ratio: what the product has in its middle depends on every bit below, and on some above.
        let product = words.wrapping_mul(0x9e37_79b9_7f4a_7c15);
        let mut at = (product >> 40 ^ product >> 20) as usize & mask;
        loop {
            let slot = self.slots.get(at).copied().unwrap_or(FREE);
            if slot.0 == words || slot.0 == FREE.0 {
                return (at, slot);
            }
            at = (at + 1) & mask;
        }
    }

    /// The number of the words of a row, where they were met.
    #[inline(always)]
    pub(super) fn find(&self, words: u64) -> Option<usize> {
        let (_, (found, kind)) = self.slot(words);
        (found == words).then_some(kind as usize)
    }

    /// Gives words that were not met yet the next number.
    pub(super) fn insert(&mut self, words: u64) -> usize {
        if (self.met as usize + 1) * 4 > self.slots.len() {
            let slots = vec![FREE; self.slots.len() * 2];
            for slot in std::mem::replace(&mut self.slots, slots).into_iter().filter(|slot| *slot != FREE) {
                self.put(slot);
            }
        }
        let kind = self.met;
        self.put((words, kind));
        self.met += 1;
        kind as usize
    }

    fn put(&mut self, of: (u64, u32)) {
        let (at, _) = self.slot(of.0);
        if let Some(slot) = self.slots.get_mut(at) {
            *slot = of;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_keeps_its_number_however_many_there_are() {
        let mut kinds = Kinds::new();
        let words = |number: u64| number << 18 | number;
        for number in 0..5_000 {
            assert_eq!(kinds.find(words(number)), None);
            assert_eq!(kinds.insert(words(number)), usize::try_from(number).unwrap());
        }
        assert_eq!(kinds.met(), 5_000);
        for number in 0..5_000 {
            assert_eq!(kinds.find(words(number)), Some(usize::try_from(number).unwrap()));
        }
    }
}
