//! What C passes in.

use std::ffi::c_char;
use std::mem::{align_of, size_of};
use std::ptr;

#[cfg(feature = "questions")]
use super::lw_str;
use crate::error::{Result, fail, lw_error};
use crate::status::{
    LW_STATUS_MISALIGNED, LW_STATUS_NOT_UTF8, LW_STATUS_NULL_POINTER, LW_STATUS_STRUCT_SIZE, LW_STATUS_TOO_LARGE,
};

/// No struct will ever be larger than this; a greater `struct_size` is a mistake.
const LARGEST_STRUCT: usize = 4096;

/// A struct that crosses the border by value and can grow.
///
/// # Safety
/// It is `repr(C)`, its first field is `struct_size: usize`, and every pattern of bits is a value of it: integers, doubles
/// and raw pointers only.
pub(crate) unsafe trait Plain: Copy {
    /// The size that it had when it was first released: none smaller is taken.
    const LEAST: usize;
    /// What a field says that an older caller does not have; as it leaves the `_init` function of the header.
    const UNSTATED: Self;
}

/// Whether a pointer may be followed, as far as that can be seen.
#[inline(always)]
pub(super) fn check<T>(pointer: *const T, name: &str) -> Result<()> {
    // One test for nearly every call: what is wrong is asked by those alone who have to say it.
    if pointer.is_null() || !pointer.is_aligned() {
        return Err(unusable(pointer.addr(), align_of::<T>(), name));
    }
    Ok(())
}

#[cold]
#[inline(never)]
fn unusable(address: usize, least: usize, name: &str) -> Box<lw_error> {
    if address == 0 {
        return fail(LW_STATUS_NULL_POINTER, name, format_args!("is NULL; pass the address of one"));
    }
    let what = format_args!("{address:#x} is not aligned; pass a multiple of {least}");
    fail(LW_STATUS_MISALIGNED, name, what)
}

/// The object behind a handle that C only reads.
#[inline]
pub(crate) fn handle<'a, T: Sync>(pointer: *const T, name: &'static str) -> Result<&'a T> {
    check(pointer, name)?;
    // SAFETY: not NULL and aligned. The caller owes a handle that this library gave and that nobody frees during the call;
    // nothing ever writes to an object behind a handle but through its own locks, so sharing it is sound.
    Ok(unsafe { &*pointer })
}

/// A struct of this very version, `None` where it is of another or not there at all. Read from one place alone, so that the
/// compiler reads each field where it is used and copies nothing.
#[inline(always)]
pub(crate) fn current<T: Plain>(pointer: *const T) -> Option<T> {
    if !is_current(pointer) {
        return None;
    }
    // SAFETY: not NULL and aligned; as many bytes are readable as the caller says in `struct_size`; any bits are a `T`.
    Some(unsafe { pointer.read() })
}

/// Whether the struct is there, and of this very version.
#[inline(always)]
pub(super) fn is_current<T: Plain>(pointer: *const T) -> bool {
    // SAFETY: not NULL and aligned; the caller owes `struct_size` readable bytes, of which this field is the first.
    !pointer.is_null() && pointer.is_aligned() && unsafe { pointer.cast::<usize>().read() } == size_of::<T>()
}

/// A struct, whatever its version: what it does not have is unstated.
#[inline(always)]
pub(crate) fn plain<T: Plain>(pointer: *const T, name: &'static str) -> Result<T> {
    match current(pointer) {
        Some(value) => Ok(value),
        None => Ok(*other_version(pointer, name)?),
    }
}

/// In a box, so that one of this version need not lie where this one is written to: its fields stay where they are.
#[cold]
#[inline(never)]
fn other_version<T: Plain>(pointer: *const T, name: &'static str) -> Result<Box<T>> {
    check(pointer, name)?;
    // SAFETY: not NULL and aligned; the caller owes `struct_size` readable bytes, of which this field is the first.
    let size = unsafe { pointer.cast::<usize>().read() };
    struct_size::<T>(size, name)?;
    let mut value = Box::new(T::UNSTATED);
    let own = size_of::<T>();
    // SAFETY: `size` bytes are readable at `pointer` by the caller's word, `own` are writable here, the two are apart, and
    // any bits are a `T`.
    unsafe { ptr::copy_nonoverlapping(pointer.cast::<u8>(), (&raw mut *value).cast::<u8>(), size.min(own)) };
    for offset in own..size {
        // SAFETY: below `size`, hence readable.
        if unsafe { pointer.cast::<u8>().add(offset).read() } != 0 {
            return Err(fail(
                LW_STATUS_STRUCT_SIZE,
                name,
                format_args!(
                    "a field is stated at byte {offset}, which this library does not know; use a newer library"
                ),
            ));
        }
    }
    Ok(value)
}

#[inline]
pub(super) fn struct_size<T: Plain>(size: usize, name: &'static str) -> Result<()> {
    if (T::LEAST..=LARGEST_STRUCT).contains(&size) {
        return Ok(());
    }
    Err(no_such_size(size, (T::LEAST, size_of::<T>()), name))
}

#[cold]
#[inline(never)]
fn no_such_size(size: usize, (least, own): (usize, usize), name: &str) -> Box<lw_error> {
    fail(
        LW_STATUS_STRUCT_SIZE,
        name,
        format_args!(
            "struct_size is {size}, and it is at least {least}; set it to sizeof, which is {own} in this library"
        ),
    )
}

/// Structs of one version, one behind the other: each is copied when its turn comes, so that a few need no memory.
pub(crate) struct Elements<T> {
    first: *const T,
    count: usize,
    stride: usize,
    name: &'static str,
}

impl<T: Plain> Elements<T> {
    /// `most` is the greatest count that is taken. NULL is right for none.
    #[inline(always)]
    pub(crate) fn new(first: *const T, count: usize, most: usize, name: &'static str) -> Result<Self> {
        if count == 0 {
            return Ok(Self { first, count, stride: 0, name });
        }
        check(first, name)?;
        if count > most {
            return Err(too_many(count, most, name));
        }
        // SAFETY: not NULL and aligned; the caller owes `count` structs, of which this is the first.
        let stride = unsafe { first.cast::<usize>().read() };
        struct_size::<T>(stride, name)?;
        Ok(Self { first, count, stride, name })
    }

    /// The one where there is one alone.
    #[inline(always)]
    pub(crate) fn only(&self) -> Option<Result<T>> {
        if self.count == 1 { Some(plain(self.first, self.name)) } else { None }
    }

    pub(crate) fn iter(&self) -> impl Iterator<Item = Result<T>> {
        (0..self.count).map(|index| {
            // SAFETY: the structs of an array are of one version, so that the next begins `struct_size` behind the last;
            // the caller owes `count` of them. Their `struct_size` is compared below.
            let one = unsafe { self.first.byte_add(index * self.stride) };
            check(one, self.name)?;
            // SAFETY: inside the array, see above.
            let size = unsafe { one.cast::<usize>().read() };
            if size == self.stride { plain(one, self.name) } else { Err(mixed(self.stride, index, size, self.name)) }
        })
    }
}

#[cold]
#[inline(never)]
fn too_many(count: usize, most: usize, name: &str) -> Box<lw_error> {
    fail(LW_STATUS_TOO_LARGE, name, format_args!("{count} are more than are taken, {most}"))
}

#[cold]
#[inline(never)]
fn mixed(first: usize, index: usize, size: usize, name: &str) -> Box<lw_error> {
    let what = format_args!("struct_size is {first} in the first and {size} in number {index}; use one header for all");
    fail(LW_STATUS_STRUCT_SIZE, name, what)
}

/// An array of structs, copied.
pub(crate) fn elements<T: Plain>(pointer: *const T, count: usize, most: usize, name: &'static str) -> Result<Vec<T>> {
    Elements::new(pointer, count, most, name)?.iter().collect()
}

/// Bytes that the caller keeps unchanged during the call. NULL is right for none.
pub(crate) fn bytes<'a>(pointer: *const c_char, count: usize, most: usize, name: &str) -> Result<&'a [u8]> {
    if count == 0 {
        return Ok(&[]);
    }
    check(pointer, name)?;
    if count > most {
        return Err(fail(LW_STATUS_TOO_LARGE, name, format_args!("{count} bytes are more than are taken, {most}")));
    }
    // SAFETY: not NULL; `count` is far below `isize::MAX`; the caller owes that many readable bytes, unchanged during the
    // call, and the slice does not outlive it.
    Ok(unsafe { std::slice::from_raw_parts(pointer.cast::<u8>(), count) })
}

/// A text, at most 64 KiB.
pub(crate) fn text<'a>(pointer: *const c_char, count: usize, name: &str) -> Result<&'a str> {
    long_text(pointer, count, 64 * 1024, name)
}

/// A text of at most so many bytes.
pub(crate) fn long_text<'a>(pointer: *const c_char, count: usize, most: usize, name: &str) -> Result<&'a str> {
    std::str::from_utf8(bytes(pointer, count, most, name)?).map_err(|error| {
        let offset = error.valid_up_to();
        fail(LW_STATUS_NOT_UTF8, name, format_args!("the byte at offset {offset} is not UTF-8 text"))
    })
}

/// An array of texts, at most `most`; one whose `data` is NULL is `None`. What is wrong with one is said with its index.
#[cfg(feature = "questions")]
pub(crate) fn texts<'a>(pointer: *const lw_str, count: usize, most: usize, name: &str) -> Result<Vec<Option<&'a str>>> {
    if count == 0 {
        return Ok(Vec::new());
    }
    check(pointer, name)?;
    if count > most {
        return Err(fail(LW_STATUS_TOO_LARGE, name, format_args!("{count} are more than are taken, {most}")));
    }
    // SAFETY: not NULL and aligned, and `count` is small; any bits are an `lw_str`; the caller owes `count` of them,
    // unchanged during the call.
    let all = unsafe { std::slice::from_raw_parts(pointer, count) };
    let read = |(index, one): (usize, &lw_str)| {
        let nothing = one.data.is_null() && one.len == 0;
        if nothing { Ok(None) } else { text(one.data, one.len, &format!("{name}[{index}]")).map(Some) }
    };
    all.iter().enumerate().map(read).collect()
}
