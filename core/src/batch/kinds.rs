//! Numbers given to the words of rows.

/// A table of numbers by open addressing: one look for nearly every row.
pub(super) struct Kinds {
    /// A power of two of them, at most a quarter taken.
    slots: Vec<(u64, u32)>,
    taken: usize,
}

/// No words of a row: they leave the top bit free.
const FREE: (u64, u32) = (u64::MAX, 0);

impl Kinds {
    pub(super) fn new() -> Self {
        Self { slots: vec![FREE; 256], taken: 0 }
    }

    /// How many words have a number.
    pub(super) const fn taken(&self) -> usize {
        self.taken
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

    /// The number of the words of a row, where they have one.
    #[inline(always)]
    pub(super) fn find(&self, words: u64) -> Option<u32> {
        let (_, (found, number)) = self.slot(words);
        (found == words).then_some(number)
    }

    /// Gives words their number.
    pub(super) fn insert(&mut self, words: u64, number: u32) {
        if (self.taken + 1) * 4 > self.slots.len() {
            let slots = vec![FREE; self.slots.len() * 2];
            for slot in std::mem::replace(&mut self.slots, slots).into_iter().filter(|slot| *slot != FREE) {
                self.put(slot);
            }
        }
        self.taken += 1;
        self.put((words, number));
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
    fn words_keep_their_number_however_many_there_are() {
        let mut kinds = Kinds::new();
        let words = |number: u32| u64::from(number) << 18 | u64::from(number);
        for number in 0..5_000 {
            assert_eq!(kinds.find(words(number)), None);
            kinds.insert(words(number), number + 7);
        }
        for number in 0..5_000 {
            assert_eq!(kinds.find(words(number)), Some(number + 7));
        }
    }
}
