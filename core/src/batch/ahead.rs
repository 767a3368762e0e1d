//! Values asked for before they are read.
//!
//! What a processor fetches by its own foresight ends with each page of memory, and a block of a column is hardly longer than
//! one: without this the first lines of each would be waited for, one after the other.

use super::number::Numbers;
use super::rows::BLOCK;

/// The numbers of the block after one, asked for a line of a cache at a time while its rows are judged: all at once they would
/// wait for each other.
pub(super) struct Ahead<'a> {
    columns: [&'a [f64]; COLUMNS],
}

/// As many as there are fields of numbers, and as there are doubles in a line: a line is asked for with every row.
const COLUMNS: usize = LINE / size_of::<f64>();

/// The bytes of a line of a cache.
const LINE: usize = 64;

impl<'a> Ahead<'a> {
    /// Of the block that begins at `start`.
    pub(super) fn of(numbers: &[Numbers<'a>], start: usize) -> Self {
        let doubles = |at| numbers.get(at).map_or(&[][..], |numbers: &Numbers<'a>| numbers.doubles_from(start + BLOCK));
        Self { columns: std::array::from_fn(doubles) }
    }

    /// Asks for the line whose turn it is with a row of the block.
    #[inline(always)]
    pub(super) fn ask(&self, at: usize) {
        let column = self.columns.get(at % COLUMNS).copied().unwrap_or_default();
        if let Some(value) = column.get(at - at % COLUMNS) {
            hint(value);
        }
    }
}

/// Asks the processor to fetch the values that stand a block after some. A hint: where there are none, or where nobody
/// takes it, nothing is different.
#[inline(always)]
pub(super) fn fetch<T>(values: &[T], count: usize) {
    let (later, a_line) = (values.get(BLOCK..).unwrap_or_default(), (LINE / size_of::<T>()).max(1));
    later.get(..count).unwrap_or(later).chunks(a_line).filter_map(<[T]>::first).for_each(hint);
}

#[cfg(target_arch = "x86_64")]
#[inline(always)]
fn hint<T>(value: &T) {
    safe_arch::prefetch_t0(value);
}

#[cfg(not(target_arch = "x86_64"))]
const fn hint<T>(_: &T) {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_of_the_next_block_is_asked_for() {
        let asked: std::collections::BTreeSet<_> = (0..BLOCK).map(|at| (at % COLUMNS, at - at % COLUMNS)).collect();
        let lines = (0..COLUMNS).flat_map(|column| (0..BLOCK).step_by(COLUMNS).map(move |line| (column, line)));
        assert!(asked.into_iter().eq(lines));
    }
}
