//! A site: its document read, judged, and its report written.

use std::ffi::c_char;
use std::hint::black_box;
use std::ptr::{null, null_mut};

use loadworthy::check::{WithWorking, check};
use loadworthy::code::{Edition, Nec};
use loadworthy::report::text;
use loadworthy::site::Site;
use loadworthy_ffi::border::lw_str;
use loadworthy_ffi::report::{lw_report_free, lw_report_text, lw_site_check};
use loadworthy_ffi::site::{lw_site_free, lw_site_parse};

use super::Pair;

const COTTAGE: &str = include_str!("../../core/examples/cottage.toml");

pub(super) fn pair() -> Pair {
    Pair {
        name: "a site, from its document to its report",
        rust: Box::new(|often| (0..often).for_each(|_| drop(black_box(in_rust())))),
        c: Box::new(|often| (0..often).for_each(|_| through_c())),
        often: 2,
    }
}

fn in_rust() -> String {
    let nec = Nec::standard(Edition::Nec2023);
    let site = Site::read("cottage.toml", black_box(COTTAGE.as_bytes())).unwrap();
    let mut report = String::new();
    text::write(&check(&site, nec, WithWorking::No), &mut report).unwrap();
    report
}

fn through_c() {
    let (mut site, mut report) = (null_mut(), null_mut());
    let mut text = lw_str { data: null::<c_char>(), len: 0 };
    let (name, document) = (c"cottage.toml", black_box(COTTAGE));
    // SAFETY: every pointer is NULL or points to what its function wants; what is given is freed once.
    unsafe {
        let (name, of_name, data) = (name.as_ptr(), name.count_bytes(), document.as_ptr().cast());
        lw_site_parse(name, of_name, data, document.len(), &raw mut site, null_mut());
        lw_site_check(site, null(), null(), &raw mut report, null_mut());
        lw_report_text(report, &raw mut text, null_mut());
        black_box(text.len);
        lw_report_free(report);
        lw_site_free(site);
    }
}
