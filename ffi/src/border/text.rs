//! Texts that go out.

use std::ffi::c_char;
use std::ptr;

/// A text that the library owns: UTF-8, `len` bytes, and a NUL behind them that `len` does not count. It lives as long as
/// the object that it was asked of. Where there is none, `data` is NULL and `len` is 0.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_str {
    /// The first byte, or NULL.
    pub data: *const c_char,
    /// How many bytes, the NUL not counted.
    pub len: usize,
}

impl lw_str {
    pub(crate) const NONE: Self = Self { data: ptr::null(), len: 0 };

    /// Of a text that ends with its NUL, which is not counted.
    pub(crate) fn terminated(text: &'static str) -> Self {
        Self { data: text.as_ptr().cast(), len: text.len().saturating_sub(1) }
    }
}

/// A text with its NUL.
#[derive(Clone, Debug)]
pub(crate) struct Text(Box<str>);

impl Text {
    pub(crate) fn new(text: impl Into<String>) -> Self {
        let mut text: String = text.into();
        // Whoever reads up to the first NUL must read all of it, also where it quotes a caller's own.
        if text.contains('\0') {
            text = text.replace('\0', "\u{FFFD}");
        }
        text.reserve_exact(1);
        text.push('\0');
        Self(text.into_boxed_str())
    }

    /// For as long as this text lives.
    pub(crate) fn as_str(&self) -> lw_str {
        lw_str { data: self.0.as_ptr().cast(), len: self.0.len().saturating_sub(1) }
    }

    pub(crate) fn as_text(&self) -> &str {
        self.0.trim_end_matches('\0')
    }
}

/// Where a text may be missing.
pub(crate) trait Texts {
    fn or_none(&self) -> lw_str;
}

impl Texts for Option<Text> {
    fn or_none(&self) -> lw_str {
        self.as_ref().map_or(lw_str::NONE, Text::as_str)
    }
}
