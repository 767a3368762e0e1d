//! What goes out to C: each output is written on every path, with the result or with nothing.

use std::mem::size_of;
use std::ptr;

use super::argument::{Plain, check, is_current, struct_size};
use crate::error::Result;

/// A place for one value.
pub(crate) struct Out<T>(*mut T);

impl<T: Copy> Out<T> {
    /// A place that must be there; `nothing` stands in it until something is written.
    pub(crate) fn new(pointer: *mut T, name: &'static str, nothing: T) -> Result<Self> {
        check(pointer, name)?;
        let out = Self(pointer);
        out.write(nothing);
        Ok(out)
    }

    /// A place that may be missing.
    pub(crate) fn optional(pointer: *mut T, name: &'static str) -> Result<Option<Self>> {
        if pointer.is_null() {
            return Ok(None);
        }
        check(pointer, name)?;
        Ok(Some(Self(pointer)))
    }

    pub(crate) fn write(&self, value: T) {
        // SAFETY: not NULL and aligned, see the constructors; the caller owes a place of this type, used by nobody else
        // during the call.
        unsafe { self.0.write(value) };
    }
}

/// A place for a handle.
pub(crate) struct OutHandle<T>(*mut *mut T);

impl<T> OutHandle<T> {
    /// A place that must be there; NULL stands in it until something is given.
    pub(crate) fn new(pointer: *mut *mut T, name: &'static str) -> Result<Self> {
        check(pointer, name)?;
        // SAFETY: not NULL and aligned; the caller owes a place for a pointer.
        unsafe { pointer.write(ptr::null_mut()) };
        Ok(Self(pointer))
    }

    /// A place that may be missing.
    pub(crate) fn optional(pointer: *mut *mut T, name: &'static str) -> Result<Option<Self>> {
        if pointer.is_null() { Ok(None) } else { Self::new(pointer, name).map(Some) }
    }

    /// Gives the object away: from here on it is the caller's, who owes its `_free`.
    pub(crate) fn give(&self, object: T) {
        // SAFETY: as in `new`.
        unsafe { self.0.write(Box::into_raw(Box::new(object))) };
    }
}

/// A place for a struct of this very version.
pub(crate) struct OutCurrent<T: Plain>(*mut T);

impl<T: Plain> OutCurrent<T> {
    /// `None` where it is of another version or not there at all.
    #[inline(always)]
    pub(crate) fn new(pointer: *mut T) -> Option<Self> {
        is_current(pointer).then_some(Self(pointer))
    }

    /// `struct_size` of every value is the size of `T`, as the caller set it.
    #[inline(always)]
    pub(crate) fn write(&self, value: T) {
        // SAFETY: not NULL and aligned; the caller owes `struct_size` writable bytes, used by nobody else during the call.
        unsafe { self.0.write(value) };
    }
}

/// A place for a struct of any version. Where nothing is written to it, what is unstated is, whichever way the call ends.
pub(crate) struct OutStruct<T: Plain> {
    pointer: *mut T,
    size: usize,
}

impl<T: Plain> Drop for OutStruct<T> {
    fn drop(&mut self) {
        self.put(&T::UNSTATED);
    }
}

impl<T: Plain> OutStruct<T> {
    /// A place that must be there, its `struct_size` set.
    pub(crate) fn new(pointer: *mut T, name: &'static str) -> Result<Self> {
        check(pointer, name)?;
        // SAFETY: not NULL and aligned; the caller owes `struct_size` bytes, of which this field is the first.
        let size = unsafe { pointer.cast::<usize>().read() };
        struct_size::<T>(size, name)?;
        Ok(Self { pointer, size })
    }

    /// Writes as much of it as the caller's version has, and zero where the caller's has more. `struct_size` stays.
    pub(crate) fn write(self, value: T) {
        self.put(&value);
        std::mem::forget(self);
    }

    fn put(&self, value: &T) {
        let own = size_of::<T>();
        // SAFETY: the caller owes `size` writable bytes, used by nobody else during the call; `own` bytes of `value` are
        // readable; the two are apart. `struct_size` is put back as the caller set it.
        unsafe {
            ptr::copy_nonoverlapping(ptr::from_ref(value).cast::<u8>(), self.pointer.cast::<u8>(), self.size.min(own));
            if self.size > own {
                ptr::write_bytes(self.pointer.cast::<u8>().add(own), 0, self.size - own);
            }
            self.pointer.cast::<usize>().write(self.size);
        }
    }
}

/// Calls a function of the caller.
pub(crate) fn call(
    function: unsafe extern "C" fn(*mut std::ffi::c_void, usize) -> i32,
    user: *mut std::ffi::c_void,
    done: usize,
) -> i32 {
    // SAFETY: the caller owes a function of this type that returns normally, and a `user` that it may be called with.
    unsafe { function(user, done) }
}
