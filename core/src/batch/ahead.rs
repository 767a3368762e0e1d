//! Values asked for before they are read.
//!
//! What a processor fetches by its own foresight ends with each page of memory, and a block of a column is hardly longer than
//! one: without this the first lines of each would be waited for, one after the other.

use super::rows::BLOCK;

/// Asks the processor to fetch the values that stand a block after some. A hint: where there are none, or where nobody
/// takes it, nothing is different.
#[inline(always)]
pub(super) fn fetch<T>(values: &[T], at: usize, count: usize) {
    let (later, a_line) = (values.get(at + BLOCK..).unwrap_or_default(), (LINE / size_of::<T>()).max(1));
    later.get(..count).unwrap_or(later).chunks(a_line).filter_map(<[T]>::first).for_each(hint);
}

/// The bytes of a line of a cache.
const LINE: usize = 64;

#[cfg(target_arch = "x86_64")]
#[inline(always)]
fn hint<T>(value: &T) {
    safe_arch::prefetch_t0(value);
}

#[cfg(not(target_arch = "x86_64"))]
const fn hint<T>(_: &T) {}
