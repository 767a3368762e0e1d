//! The code that answers: an edition, and the cells that the user read in the book.

use std::ffi::c_char;
use std::sync::Arc;

use loadworthy::code::{Acceptance, Code, Edition, Nec};

use crate::border::{Out, OutHandle, Text, free, guard, handle, lw_str, text};
use crate::error::{Result, fail, lw_error};
use crate::status::{LW_STATUS_BAD_CHOICE, LW_STATUS_DOCUMENT, LW_STATUS_NOT_STATED, lw_status};

/// An edition of the National Electrical Code: one of the `LW_EDITION_` constants. 0 is not stated.
pub type lw_edition = i32;

/// NEC 2017.
pub const LW_EDITION_NEC_2017: lw_edition = 2017;
/// NEC 2020.
pub const LW_EDITION_NEC_2020: lw_edition = 2020;
/// NEC 2023.
pub const LW_EDITION_NEC_2023: lw_edition = 2023;

/// An edition of a code, ready to answer. It is only read: any number of threads may use one at once.
pub struct lw_code {
    pub(crate) nec: Shared,
    id: Text,
    title: Text,
}

/// The standard editions are built once and stay; one with accepted cells belongs to those who use it.
#[derive(Clone)]
pub(crate) enum Shared {
    Standard(&'static Nec),
    Accepting(Arc<Nec>),
}

impl Shared {
    #[inline]
    pub(crate) fn code(&self) -> &Nec {
        match self {
            Self::Standard(nec) => nec,
            Self::Accepting(nec) => nec,
        }
    }
}

/// Opens an edition.
///
/// `accepted` is the text of a TOML file of cells that you read in the book and accept, although their grade here is too
/// low to rest on; NULL and 0 for none. What the book reads otherwise is an error of status `LW_STATUS_DOCUMENT`.
///
/// On success `*code_out` owns the code: release it with `lw_code_free`. Any thread may call it at any time; the first
/// call for an edition reads its tables and takes some milliseconds.
///
/// ```c
/// lw_code *code;
/// lw_code_new(LW_EDITION_NEC_2023, NULL, 0, &code, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_code_new(
    edition: lw_edition,
    accepted: *const c_char,
    accepted_len: usize,
    code_out: *mut *mut lw_code,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutHandle::new(code_out, "code_out")?;
        let edition = self::edition(edition, "edition")?;
        let nec = match text(accepted, accepted_len, "accepted")? {
            "" => Shared::Standard(Nec::standard(edition)),
            accepted => {
                let acceptance = Acceptance::from_toml(accepted)
                    .map_err(|error| fail(LW_STATUS_DOCUMENT, "accepted", format_args!("{error}")))?;
                Shared::Accepting(Arc::new(Nec::new(edition, &acceptance)))
            }
        };
        let (id, title) = (Text::new(nec.code().id()), Text::new(nec.code().title()));
        out.give(lw_code { nec, id, title });
        Ok(())
    })
}

pub(crate) fn edition(number: lw_edition, place: &'static str) -> Result<Edition> {
    match number {
        0 => {
            Err(fail(LW_STATUS_NOT_STATED, place, format_args!("the edition is not stated; write 2017, 2020 or 2023")))
        }
        LW_EDITION_NEC_2017 => Ok(Edition::Nec2017),
        LW_EDITION_NEC_2020 => Ok(Edition::Nec2020),
        LW_EDITION_NEC_2023 => Ok(Edition::Nec2023),
        _ => Err(fail(
            LW_STATUS_BAD_CHOICE,
            place,
            format_args!("{number} is not an edition that is carried; write 2017, 2020 or 2023"),
        )),
    }
}

/// Frees a code; NULL does nothing. Reports that were made with it stay usable.
///
/// Not while another call uses the code.
///
/// ```c
/// lw_code_free(code);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_code_free(code: *mut lw_code) -> lw_status {
    free(code, "code")
}

/// The identifier of a code, such as `nec-2023`. The text lives as long as the code.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str id;
/// lw_code_id(code, &id, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_code_id(
    code: *const lw_code,
    id_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(id_out, "id_out", lw_str::NONE)?;
        out.write(handle(code, "code")?.id.as_str());
        Ok(())
    })
}

/// The full title of a code. The text lives as long as the code.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str title;
/// lw_code_title(code, &title, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_code_title(
    code: *const lw_code,
    title_out: *mut lw_str,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = Out::new(title_out, "title_out", lw_str::NONE)?;
        out.write(handle(code, "code")?.title.as_str());
        Ok(())
    })
}
