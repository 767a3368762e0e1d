//! What wraps every entry: no panic crosses, and what went wrong comes back as a status and an error object.

use std::any::Any;
use std::panic::{AssertUnwindSafe, catch_unwind};

use super::argument::check;
use crate::error::{Result, fail, lw_error};
use crate::status::{LW_STATUS_OK, LW_STATUS_PANIC, lw_status};

/// Runs an entry. `*error_out` is written on every path where it can be: NULL, or an error that the caller frees.
#[inline]
pub(crate) fn guard(error_out: *mut *mut lw_error, work: impl FnOnce() -> Result<()>) -> lw_status {
    if !error_out.is_null() {
        if let Err(error) = check(error_out, "error_out") {
            // There is nowhere to put it.
            return error.status();
        }
        // SAFETY: not NULL and aligned; the caller owes a place to write a pointer to.
        unsafe { error_out.write(std::ptr::null_mut()) };
    }
    // What `work` holds is dropped with it; handles keep their state behind locks that a panic does not leave half done.
    match catch_unwind(AssertUnwindSafe(work)) {
        Ok(Ok(())) => LW_STATUS_OK,
        Ok(Err(error)) => give(error_out, error),
        Err(payload) => give(error_out, of_panic(payload)),
    }
}

#[cold]
fn give(error_out: *mut *mut lw_error, error: Box<lw_error>) -> lw_status {
    let status = error.status();
    if !error_out.is_null() {
        // SAFETY: checked in `guard`. The caller takes over the error and owes its `lw_error_free`.
        unsafe { error_out.write(Box::into_raw(error)) };
    }
    status
}

#[cold]
fn of_panic(payload: Box<dyn Any + Send>) -> Box<lw_error> {
    let words = match payload.downcast::<&'static str>() {
        Ok(text) => (*text).to_owned(),
        Err(payload) => match payload.downcast::<String>() {
            Ok(text) => *text,
            Err(payload) => {
                // What it is nobody knows, and dropping it could panic again.
                std::mem::forget(payload);
                "no message".to_owned()
            }
        },
    };
    fail(LW_STATUS_PANIC, "loadworthy", format_args!("a defect of the library, please report it: {words}"))
}

/// Frees what a handle owns; NULL is right for nothing.
pub(crate) fn free<T>(pointer: *mut T, name: &'static str) -> lw_status {
    if pointer.is_null() {
        return LW_STATUS_OK;
    }
    guard(std::ptr::null_mut(), || {
        check(pointer, name)?;
        // SAFETY: not NULL and aligned; the caller owes a handle that this library gave by `Box::into_raw`, that was not
        // freed before and that no other call is using.
        drop(unsafe { Box::from_raw(pointer) });
        Ok(())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_comes_back_as_a_status_with_its_words() {
        let mut error = std::ptr::null_mut();
        let status = guard(&raw mut error, || panic!("the {} broke", "spring"));
        assert_eq!(status, LW_STATUS_PANIC);
        assert!(!error.is_null());
        // SAFETY: `guard` gave it a moment ago.
        let error = unsafe { Box::from_raw(error) };
        assert!(error.message_text().ends_with("please report it: the spring broke"), "{}", error.message_text());
        assert_eq!(guard(std::ptr::null_mut(), || std::panic::panic_any(7_u8)), LW_STATUS_PANIC);
        assert_eq!(guard(std::ptr::null_mut(), || Ok(())), LW_STATUS_OK);
    }
}
