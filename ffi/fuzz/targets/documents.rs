//! Any bytes as a document: it is read or refused, and what is read is judged, printed and walked; no crash, no leak.
#![no_main]

use std::ffi::c_char;
use std::ptr::{null, null_mut};

use libfuzzer_sys::fuzz_target;
use loadworthy_ffi::border::lw_str;
use loadworthy_ffi::code::{lw_code_free, lw_code_new};
use loadworthy_ffi::error::{lw_error_free, lw_error_message};
use loadworthy_ffi::report::{lw_report_free, lw_report_json, lw_report_question_count, lw_report_text, lw_site_check};
use loadworthy_ffi::sequence::{lw_sequence_free, lw_site_verify_steps};
use loadworthy_ffi::site::{lw_site_free, lw_site_parse, lw_site_with_components};
use loadworthy_ffi::status::{LW_STATUS_OK, LW_STATUS_PANIC};

const COTTAGE: &[u8] = include_bytes!("../../../core/examples/cottage.toml");
const NONE: lw_str = lw_str { data: null(), len: 0 };

fuzz_target!(|data: &[u8]| {
    let Some((how, bytes)) = data.split_first() else { return };
    // SAFETY: every pointer is NULL or points to what its function wants, and every object is freed once.
    unsafe {
        match how % 8 {
            0 => accepted(bytes),
            1 => changed(bytes),
            2 => steps(bytes),
            _ => site(bytes),
        }
    }
});

unsafe fn site(bytes: &[u8]) {
    let (mut site, mut report, mut error) = (null_mut(), null_mut(), null_mut());
    unsafe {
        let status =
            lw_site_parse(c"f".as_ptr(), 1, bytes.as_ptr().cast(), bytes.len(), &raw mut site, &raw mut error);
        assert_eq!(status == LW_STATUS_OK, error.is_null());
        assert_eq!(status == LW_STATUS_OK, !site.is_null());
        assert_ne!(status, LW_STATUS_PANIC);
        if status != LW_STATUS_OK {
            let mut text = NONE;
            assert_eq!(lw_error_message(error, &raw mut text), LW_STATUS_OK);
            assert_eq!(text.data.add(text.len).read(), 0 as c_char);
            lw_error_free(error);
            return;
        }
        let status = lw_site_check(site, null(), null(), &raw mut report, null_mut());
        assert_ne!(status, LW_STATUS_PANIC);
        if status == LW_STATUS_OK {
            let (mut text, mut count) = (NONE, 0);
            assert_eq!(lw_report_text(report, &raw mut text, null_mut()), LW_STATUS_OK);
            assert_eq!(lw_report_json(report, &raw mut text, null_mut()), LW_STATUS_OK);
            assert_eq!(lw_report_question_count(report, &raw mut count, null_mut()), LW_STATUS_OK);
            lw_report_free(report);
        }
        lw_site_free(site);
    }
}

unsafe fn accepted(bytes: &[u8]) {
    let mut code = null_mut();
    unsafe {
        let status = lw_code_new(2023, bytes.as_ptr().cast(), bytes.len(), &raw mut code, null_mut());
        assert_ne!(status, LW_STATUS_PANIC);
        lw_code_free(code);
    }
}

unsafe fn changed(bytes: &[u8]) {
    let (mut site, mut other) = (null_mut(), null_mut());
    unsafe {
        lw_site_parse(c"f".as_ptr(), 1, COTTAGE.as_ptr().cast(), COTTAGE.len(), &raw mut site, null_mut());
        let status = lw_site_with_components(
            site,
            c"g".as_ptr(),
            1,
            bytes.as_ptr().cast(),
            bytes.len(),
            &raw mut other,
            null_mut(),
        );
        assert_ne!(status, LW_STATUS_PANIC);
        lw_site_free(site);
        lw_site_free(other);
    }
}

unsafe fn steps(bytes: &[u8]) {
    let (mut site, mut judged) = (null_mut(), null_mut());
    unsafe {
        lw_site_parse(c"f".as_ptr(), 1, COTTAGE.as_ptr().cast(), COTTAGE.len(), &raw mut site, null_mut());
        let status = lw_site_verify_steps(
            site,
            null(),
            c"s".as_ptr(),
            1,
            bytes.as_ptr().cast(),
            bytes.len(),
            &raw mut judged,
            null_mut(),
        );
        assert_ne!(status, LW_STATUS_PANIC);
        lw_site_free(site);
        lw_sequence_free(judged);
    }
}
