//! The description of an installation, read once and judged as often as one likes.

use std::ffi::c_char;
use std::sync::Arc;

use loadworthy::code::{Edition, Nec};
use loadworthy::site::{ChangeError, MOST_BYTES, Site};

use crate::border::{OutHandle, bytes, free, guard, handle, text};
use crate::code::{Shared, lw_code};
use crate::error::{Result, fail, lw_error};
use crate::status::{LW_STATUS_BAD_CHOICE, lw_status};

/// A site: what there is and what feeds what. It is only read: any number of threads may use one at once.
pub struct lw_site {
    pub(crate) site: Arc<Site>,
}

/// Reads a site description, TOML or JSON.
///
/// `name` is what messages and reports call the document, UTF-8, such as a file name; its ending, or the first character
/// of the document, says which of the two it is. The document is at most 4 MiB. Where it cannot be read, the status is
/// `LW_STATUS_DOCUMENT` and the error lists every problem with its place. Neither text is used after the call.
///
/// On success `*site_out` owns the site: release it with `lw_site_free`. Any thread may call it at any time.
///
/// ```c
/// lw_site *site;
/// lw_error *error;
/// if (lw_site_parse("site.toml", 9, bytes, len, &site, &error) != LW_STATUS_OK) {
///     lw_str message;
///     lw_error_message(error, &message);
///     fprintf(stderr, "%s\n", message.data);
///     lw_error_free(error);
/// }
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_site_parse(
    name: *const c_char,
    name_len: usize,
    document: *const c_char,
    document_len: usize,
    site_out: *mut *mut lw_site,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutHandle::new(site_out, "site_out")?;
        let name = text(name, name_len, "name")?;
        let document = bytes(document, document_len, MOST_BYTES, "document")?;
        let site = Site::read(name, document).map_err(|problems| lw_error::of_document("document", &problems))?;
        out.give(lw_site { site: Arc::new(site) });
        Ok(())
    })
}

/// Frees a site; NULL does nothing. Reports, plans and orders that were made of it stay usable.
///
/// Not while another call uses the site.
///
/// ```c
/// lw_site_free(site);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_site_free(site: *mut lw_site) -> lw_status {
    free(site, "site")
}

/// The same site with one field set, or removed where the value is empty: what if? The path is the name of a component (or
/// `site`), a dot, and the field, as in `generator cord.length`. The site itself stays as it is.
///
/// On success `*changed_out` owns the changed site: release it with `lw_site_free`. Several threads may ask at once.
///
/// ```c
/// lw_site *longer;
/// lw_site_with_field(site, "generator cord.length", 21, "100 ft", 6, &longer, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_site_with_field(
    site: *const lw_site,
    path: *const c_char,
    path_len: usize,
    value: *const c_char,
    value_len: usize,
    changed_out: *mut *mut lw_site,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutHandle::new(changed_out, "changed_out")?;
        let site = handle(site, "site")?;
        let path = text(path, path_len, "path")?.trim();
        let changed = site.site.with_field(path, text(value, value_len, "value")?);
        out.give(lw_site { site: Arc::new(changed.map_err(|error| of_change("path", &error))?) });
        Ok(())
    })
}

/// The same site with the components of a further document, each in place of the one with its name: what if? The site
/// itself stays as it is.
///
/// On success `*changed_out` owns the changed site: release it with `lw_site_free`. Several threads may ask at once.
///
/// ```c
/// lw_site *with_pump;
/// lw_site_with_components(site, "pump.toml", 9, bytes, len, &with_pump, NULL);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_site_with_components(
    site: *const lw_site,
    name: *const c_char,
    name_len: usize,
    document: *const c_char,
    document_len: usize,
    changed_out: *mut *mut lw_site,
    error_out: *mut *mut lw_error,
) -> lw_status {
    guard(error_out, || {
        let out = OutHandle::new(changed_out, "changed_out")?;
        let site = handle(site, "site")?;
        let name = text(name, name_len, "name")?;
        let changed = site.site.with_components(name, text(document, document_len, "document")?);
        out.give(lw_site { site: Arc::new(changed.map_err(|error| of_change("document", &error))?) });
        Ok(())
    })
}

fn of_change(place: &str, error: &ChangeError) -> Box<lw_error> {
    match error {
        ChangeError::NotRead(problems) | ChangeError::Problems(problems) => lw_error::of_document(place, problems),
        other => fail(LW_STATUS_BAD_CHOICE, place, format_args!("{other}")),
    }
}

/// The code that is passed, or where none is, the edition that the description names.
pub(crate) fn code_for(site: &Site, code: *const lw_code) -> Result<Shared> {
    if !code.is_null() {
        return Ok(handle(code, "code")?.nec.clone());
    }
    let premises = site.premises();
    let named = premises.code.trim();
    match Edition::of_id(named) {
        Some(edition) => Ok(Shared::Standard(Nec::standard(edition))),
        None => {
            let known = Edition::ALL.map(Edition::id).join(", ");
            let place = premises.place_of("code").to_string();
            let what = format_args!("`{named}` is not an edition that is carried; write one of: {known}");
            Err(fail(LW_STATUS_BAD_CHOICE, &place, what))
        }
    }
}
