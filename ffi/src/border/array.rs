//! Arrays of the caller, borrowed for one call without copying.

use std::ffi::c_void;
use std::mem::size_of;
use std::ops::Range;

use super::argument::check;
use super::lw_str;
use crate::error::{Result, fail};
use crate::status::{LW_STATUS_CONTRADICTION, LW_STATUS_TOO_LARGE};

/// A number of which every pattern of bits is a value.
///
/// # Safety
/// So it is, and it has no padding.
pub(crate) unsafe trait Number: Copy {}

macro_rules! numbers {
    ($($number:ty),+) => {$(
        // SAFETY: a primitive number.
        unsafe impl Number for $number {}
    )+};
}

numbers!(f64, f32, i128, i64, i32, i16, i8, u64, u32, u16, u8);

/// The bytes that `count` of them take, where a slice may be that long.
fn length<T>(count: usize, name: &'static str) -> Result<usize> {
    count
        .checked_mul(size_of::<T>())
        .filter(|bytes| isize::try_from(*bytes).is_ok())
        .ok_or_else(|| fail(LW_STATUS_TOO_LARGE, name, format_args!("{count} entries are more than memory can hold")))
}

/// An array of numbers that the caller keeps unchanged during the call. NULL is right for none.
pub(crate) fn numbers<'a, T: Number>(pointer: *const c_void, count: usize, name: &'static str) -> Result<&'a [T]> {
    let pointer = pointer.cast::<T>();
    if count == 0 {
        return Ok(&[]);
    }
    check(pointer, name)?;
    length::<T>(count, name)?;
    // SAFETY: not NULL and aligned, no longer than a slice may be; any bits are a `T`; the caller owes `count` of them,
    // unchanged during the call, and the slice does not outlive it.
    Ok(unsafe { std::slice::from_raw_parts(pointer, count) })
}

/// Texts of the caller by pointer and length; one whose `data` is NULL is `None`. What is not UTF-8 is a text that is no
/// word, so that its row is not judged.
pub(crate) fn strings<'a>(pointer: *const c_void, count: usize, name: &'static str) -> Result<Vec<Option<&'a str>>> {
    const NO_WORD: &str = "\u{0}";
    let pointer = pointer.cast::<lw_str>();
    if count == 0 {
        return Ok(Vec::new());
    }
    check(pointer, name)?;
    length::<lw_str>(count, name)?;
    // SAFETY: not NULL and aligned, no longer than a slice may be; any bits are an `lw_str`; the caller owes `count`.
    let all = unsafe { std::slice::from_raw_parts(pointer, count) };
    let read = |text: &lw_str| {
        if text.data.is_null() {
            return Ok(None);
        }
        length::<u8>(text.len, name)?;
        // SAFETY: not NULL and no longer than a slice may be; the caller owes `len` readable bytes, unchanged during the
        // call.
        let bytes = unsafe { std::slice::from_raw_parts(text.data.cast::<u8>(), text.len) };
        Ok(Some(std::str::from_utf8(bytes).unwrap_or(NO_WORD)))
    };
    all.iter().map(read).collect()
}

/// Memory that answers are written to. Nothing else may lie in it: two overlapping ones are refused.
#[derive(Default)]
pub(crate) struct Outputs {
    taken: Vec<(Range<usize>, &'static str)>,
}

impl Outputs {
    /// Marks memory that is only read, so that no output may lie in it.
    pub(crate) fn keep<T>(&mut self, read: &[T], name: &'static str) -> Result<()> {
        self.take(read.as_ptr() as usize, size_of_val(read), name, true)
    }

    /// An array for answers, zero throughout; `None` where the pointer is NULL: not wanted.
    pub(crate) fn array<'a, T: Number>(
        &mut self,
        pointer: *mut T,
        count: usize,
        name: &'static str,
    ) -> Result<Option<&'a mut [T]>> {
        if pointer.is_null() || count == 0 {
            return Ok(None);
        }
        check(pointer, name)?;
        let bytes = length::<T>(count, name)?;
        self.take(pointer as usize, bytes, name, false)?;
        // SAFETY: not NULL and aligned, no longer than a slice may be; the caller owes `count` writable places, used by
        // nobody else during the call; no other slice of this call lies in them, see `take`; zero bits are a `T`, so that
        // memory which was never written is initialised before it becomes a slice.
        Ok(Some(unsafe {
            std::ptr::write_bytes(pointer, 0, count);
            std::slice::from_raw_parts_mut(pointer, count)
        }))
    }

    fn take(&mut self, start: usize, bytes: usize, name: &'static str, shared: bool) -> Result<()> {
        let range = start..start.saturating_add(bytes);
        let overlaps = |(other, _): &&(Range<usize>, &str)| range.start < other.end && other.start < range.end;
        match self.taken.iter().find(overlaps) {
            Some((_, other)) if !shared => {
                let what = format_args!("lies in the memory of {other}; pass memory of its own");
                Err(fail(LW_STATUS_CONTRADICTION, name, what))
            }
            // Two inputs may well be one array.
            _ => {
                self.taken.push((range, name));
                Ok(())
            }
        }
    }
}
