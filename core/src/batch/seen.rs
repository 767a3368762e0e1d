//! The texts that were met, with their bits.

use super::field::Field;
use super::words::{BAD, encode};

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
    pub(super) const fn new() -> Self {
        Self { slots: Vec::new() }
    }

    pub(super) fn resolve(&mut self, field: Field, text: &str) -> u64 {
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
