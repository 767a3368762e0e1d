//! Which library is at work.

use crate::border::{Out, guard};
use crate::error::lw_error;
use crate::status::lw_status;

/// The version of the header. Compare it with `lw_version`, which says it of the library.
pub const LW_VERSION_MAJOR: u32 = 0;
/// See `LW_VERSION_MAJOR`.
pub const LW_VERSION_MINOR: u32 = 1;
/// See `LW_VERSION_MAJOR`.
pub const LW_VERSION_PATCH: u32 = 0;

/// The version of the library. Each pointer may be NULL where that part is not wanted.
///
/// Any thread may call it at any time.
///
/// ```c
/// uint32_t major, minor;
/// lw_version(&major, &minor, NULL, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_version(
    major_out: *mut u32,
    minor_out: *mut u32,
    patch_out: *mut u32,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let parts = [
            (Out::optional(major_out, "major_out")?, LW_VERSION_MAJOR),
            (Out::optional(minor_out, "minor_out")?, LW_VERSION_MINOR),
            (Out::optional(patch_out, "patch_out")?, LW_VERSION_PATCH),
        ];
        for (out, number) in parts {
            if let Some(out) = out {
                out.write(number);
            }
        }
        Ok(())
    })
}
