//! From an offset in a text to its line and column.

use crate::site::place::Spot;

/// How far apart the character counts are kept: a column is found by counting at most this many bytes.
const STRIDE: usize = 256;

/// The line starts of a text and its character counts at every stride, so that a document of one long line
/// takes no longer than one of many.
pub(in crate::site) struct TextIndex {
    lines: Vec<usize>,
    characters: Vec<usize>,
}

impl TextIndex {
    pub(in crate::site) fn new(text: &str) -> Self {
        let bytes = text.as_bytes();
        let breaks = bytes.iter().enumerate().filter(|(_, byte)| **byte == b'\n').map(|(offset, _)| offset + 1);
        let mut before = 0;
        let characters = bytes
            .chunks(STRIDE)
            .map(|chunk| {
                let here = before;
                before += starts_in(chunk);
                here
            })
            .collect();
        Self { lines: std::iter::once(0).chain(breaks).collect(), characters }
    }

    /// The line and column of a byte offset into the same text.
    pub(in crate::site) fn spot(&self, text: &str, offset: usize) -> Spot {
        let line = self.lines.partition_point(|start| *start <= offset);
        let start = line.checked_sub(1).and_then(|index| self.lines.get(index)).copied().unwrap_or(0);
        let characters = match text.as_bytes().get(start..offset) {
            Some(short) if short.len() <= STRIDE => starts_in(short),
            _ => self.characters_before(text, offset).saturating_sub(self.characters_before(text, start)),
        };
        let column = characters + 1;
        Spot { line: u32::try_from(line).unwrap_or(u32::MAX), column: u32::try_from(column).unwrap_or(u32::MAX) }
    }

    fn characters_before(&self, text: &str, offset: usize) -> usize {
        let offset = offset.min(text.len());
        let stride = offset / STRIDE;
        let rest = text.as_bytes().get(stride * STRIDE..offset).map_or(0, starts_in);
        match self.characters.get(stride) {
            Some(before) => before + rest,
            // The text ends at a stride.
            None => text.chars().count(),
        }
    }
}

/// How many characters start in these bytes.
fn starts_in(bytes: &[u8]) -> usize {
    bytes.iter().filter(|byte| **byte & 0b1100_0000 != 0b1000_0000).count()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn agrees_with_counting_from_the_start(text in "[a°\n€ ]{0,700}", at in 0usize..2000) {
            let offset = (0..=at.min(text.len())).rev().find(|offset| text.is_char_boundary(*offset)).unwrap();
            let before = &text[..offset];
            let line = before.matches('\n').count() + 1;
            let column = before.rsplit('\n').next().unwrap().chars().count() + 1;
            let spot = TextIndex::new(&text).spot(&text, offset);
            prop_assert_eq!((spot.line as usize, spot.column as usize), (line, column));
        }
    }
}
