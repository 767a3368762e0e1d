//! What single rows of a block say: asked of the first row of its kind, and of a row that is judged by itself.

use super::Batch;
use super::circuit::Circuit;
use super::reason::Reason;
use super::rows::Row;
use super::seen::Seen;

/// The rows of a block, one at a time.
pub(super) struct Told<'b> {
    pub(super) batch: &'b Batch<'b>,
    /// The first row of the block.
    pub(super) start: usize,
    pub(super) seen: &'b mut Seen,
}

impl Told<'_> {
    /// The words of a row, as bits.
    pub(super) fn words(&mut self, at: usize) -> u64 {
        self.batch.words.iter().fold(0, |all, column| all | column.bits(self.start + at, self.seen))
    }

    /// The circuit of a row, or why it is none.
    pub(super) fn circuit(&mut self, at: usize) -> Result<Circuit, Reason> {
        self.batch.circuit_at(self.start + at, self.seen)
    }

    /// The circuit that a row of good numbers is, or why it is none; `None` where a number is bad.
    pub(super) fn met(&mut self, at: usize) -> Option<Option<Circuit>> {
        let row = Row::read(self.batch, self.start + at, self.seen)?;
        Some(self.batch.circuit(&row).ok())
    }
}
