//! Pieces of memory for answers: small ones as any other, large ones from the system in large pages, where it has them.
//!
//! Thousands of small pages, each given when it is first touched, take longer than judging.

use arrow_buffer::{Buffer, MutableBuffer};

/// A piece of memory. What stands in it at first means nothing.
pub(super) enum Memory {
    Heap(MutableBuffer),
    #[cfg(target_os = "linux")]
    Mapped(mapped::Mapped),
}

impl Memory {
    pub(super) fn new(bytes: usize) -> Self {
        #[cfg(target_os = "linux")]
        if let Some(mapped) = mapped::Mapped::new(bytes) {
            return Self::Mapped(mapped);
        }
        Self::Heap(MutableBuffer::from_len_zeroed(bytes))
    }

    /// All of it: as many bytes as were asked for, or more.
    pub(super) fn bytes(&mut self) -> &mut [u8] {
        match self {
            Self::Heap(buffer) => buffer.as_slice_mut(),
            #[cfg(target_os = "linux")]
            Self::Mapped(mapped) => mapped.bytes(),
        }
    }
}

impl From<Memory> for Buffer {
    fn from(memory: Memory) -> Self {
        match memory {
            Memory::Heap(buffer) => buffer.into(),
            #[cfg(target_os = "linux")]
            Memory::Mapped(mapped) => bytes::Bytes::from_owner(mapped).into(),
        }
    }
}

#[cfg(target_os = "linux")]
mod mapped {
    use std::sync::Mutex;

    use memmap2::{Advice, MmapMut, MmapOptions};

    /// Memory from the system, in large pages where it has them.
    pub(in super::super) struct Mapped {
        /// Taken out when it is dropped.
        map: Option<MmapMut>,
        /// Where the first large page begins.
        start: usize,
    }

    /// The bytes of a large page.
    const PAGE: usize = 1 << 21;

    /// The piece that was dropped last, for the next batch: the system need not clear it again.
    static SPARE: Mutex<Option<MmapMut>> = Mutex::new(None);

    /// The most bytes that are kept so: the answers to a million rows.
    const KEPT: usize = 1 << 26;

    impl Mapped {
        /// `None` where half of a large page would be wasted, or there is no memory.
        pub(super) fn new(bytes: usize) -> Option<Self> {
            let pages = bytes.checked_next_multiple_of(PAGE).filter(|_| bytes > PAGE / 2)?;
            // One more, so that wherever it begins enough of them are whole: what is not touched costs nothing.
            let length = pages.checked_add(PAGE)?;
            let map = spare(length).or_else(|| fresh(length))?;
            let start = map.as_ptr().align_offset(PAGE);
            Some(Self { map: Some(map), start })
        }

        pub(super) fn bytes(&mut self) -> &mut [u8] {
            self.map.as_mut().and_then(|map| map.get_mut(self.start..)).unwrap_or_default()
        }
    }

    impl AsRef<[u8]> for Mapped {
        fn as_ref(&self) -> &[u8] {
            self.map.as_ref().and_then(|map| map.get(self.start..)).unwrap_or_default()
        }
    }

    impl Drop for Mapped {
        fn drop(&mut self) {
            let map = self.map.take().filter(|map| map.len() <= KEPT);
            // Nobody waits for the lock: without it the piece goes back to the system.
            if let (Some(map), Ok(mut spare)) = (map, SPARE.try_lock()) {
                *spare = Some(map);
            }
        }
    }

    /// The spare piece, if it is long enough and not half of it would be wasted.
    fn spare(length: usize) -> Option<MmapMut> {
        let fits = |map: &mut MmapMut| length <= map.len() && map.len() / 2 <= length;
        SPARE.try_lock().ok()?.take_if(fits)
    }

    fn fresh(length: usize) -> Option<MmapMut> {
        let map = MmapOptions::new().len(length).map_anon().ok()?;
        // A system without large pages gives it in small ones.
        let _ = map.advise(Advice::HugePage);
        Some(map)
    }

    #[cfg(test)]
    mod tests {
        use super::*;

        #[test]
        fn a_piece_is_long_enough_and_wastes_less_than_half() {
            for bytes in [PAGE / 2 + 1, PAGE, PAGE + 1, 5 * PAGE] {
                let mut piece = Mapped::new(bytes).unwrap();
                assert!(piece.bytes().len() >= bytes);
                assert_eq!(piece.as_ref().as_ptr().align_offset(PAGE), 0);
                // As long as what it replaces and up to twice as long, whichever the spare piece is.
                let length = piece.map.as_ref().map_or(0, |map| map.len());
                assert!((bytes..=2 * (bytes + 2 * PAGE)).contains(&length), "{length} for {bytes}");
                piece.bytes().fill(1);
            }
            assert!(Mapped::new(PAGE / 2).is_none());
            assert!(Mapped::new(0).is_none());
            assert!(Mapped::new(usize::MAX).is_none());
            assert!(Mapped::new(usize::MAX - 2 * PAGE).is_none());
        }
    }
}
