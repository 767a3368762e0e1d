//! What the border costs: a question and a site's report through the C interface, beside the same calls in Rust.
//!
//! The aim: a question within 20 ns of the same call in Rust, a report within 5 %. Compare figures of one run alone.

#![allow(missing_docs, clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use std::ffi::c_char;
use std::hint::black_box;
use std::ptr::{null, null_mut};
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use loadworthy::calc::Silent;
use loadworthy::calc::ampacity::{Conditions, Covering, ampacity};
use loadworthy::check::{WithWorking, check};
use loadworthy::code::{Code, Edition, Nec};
use loadworthy::report;
use loadworthy::site::Site;
use loadworthy::trade::{Insulation, Material, TerminalMark, WireSize};
use loadworthy_ffi::border::lw_str;
use loadworthy_ffi::choices::words::{LW_INSULATION_THHN, LW_MATERIAL_COPPER, LW_TERMINALS_75C};
use loadworthy_ffi::code::{lw_code, lw_code_new};
use loadworthy_ffi::error::lw_error;
use loadworthy_ffi::question::ampacity::{lw_ampacity, lw_ampacity_answer, lw_ampacity_question};
use loadworthy_ffi::report::{lw_report_free, lw_report_text, lw_site_check};
use loadworthy_ffi::site::{lw_site_free, lw_site_parse};
use loadworthy_ffi::working::lw_working;

const COTTAGE: &str = include_str!("../core/examples/cottage.toml");

type Ask = unsafe extern "C" fn(
    *const lw_code,
    *const lw_ampacity_question,
    *mut lw_ampacity_answer,
    *mut *mut lw_working,
    *mut *mut lw_error,
) -> i32;

/// 10 AWG copper THHN, six conductors at 38 °C, terminals at 75 °C.
fn question(criterion: &mut Criterion) {
    let nec: &dyn Code = Nec::standard(Edition::Nec2023);
    let size: WireSize = "10 AWG".parse().unwrap();
    let conditions = Conditions {
        ambient: "38 °C".parse().unwrap(),
        current_carrying: 6,
        terminals: TerminalMark::C75,
        ..Conditions::base(Material::Copper, size, Covering::Insulation(Insulation::Thhn))
    };
    let mut code = null_mut();
    // SAFETY: no text is passed, and the place for the code is there.
    assert_eq!(unsafe { lw_code_new(2023, null(), 0, &raw mut code, null_mut()) }, 0);
    let asked = lw_ampacity_question {
        struct_size: size_of::<lw_ampacity_question>(),
        material: LW_MATERIAL_COPPER,
        size: 10,
        insulation: LW_INSULATION_THHN,
        cable: 0,
        installation: 0,
        place: 0,
        ambient_c: 38.0,
        ambient_f: f64::NAN,
        rooftop_clearance_in: f64::NAN,
        current_carrying: 6,
        thermal_insulation: 0,
        terminals: LW_TERMINALS_75C,
        reserved: 0,
        circuit_rating_a: f64::NAN,
    };
    // SAFETY: any bits are an answer.
    let mut answer: lw_ampacity_answer = unsafe { std::mem::zeroed() };
    answer.struct_size = size_of::<lw_ampacity_answer>();
    // Through a pointer that the compiler cannot see through, as a loaded library is called.
    let ask: Ask = black_box(lw_ampacity);

    let mut group = criterion.benchmark_group("one question");
    group.bench_function("Rust", |b| b.iter(|| ampacity(black_box(nec), black_box(&conditions), &mut Silent)));
    group.bench_function("C", |b| {
        b.iter(|| {
            // SAFETY: every pointer is NULL or points to what the function wants.
            let status =
                unsafe { ask(black_box(code), black_box(&raw const asked), &raw mut answer, null_mut(), null_mut()) };
            black_box((status, answer.usable_a))
        });
    });
    group.finish();
}

/// A document read, judged, and its report written.
fn site_report(criterion: &mut Criterion) {
    let nec = Nec::standard(Edition::Nec2023);
    let mut group = criterion.benchmark_group("a site, from its document to its report");
    group.bench_function("Rust", |b| {
        b.iter(|| {
            let site = Site::read("cottage.toml", black_box(COTTAGE.as_bytes())).unwrap();
            let mut text = String::new();
            report::text::write(&check(&site, nec, WithWorking::No), &mut text).unwrap();
            text
        });
    });
    group.bench_function("C", |b| {
        b.iter(|| {
            let (mut site, mut report) = (null_mut(), null_mut());
            let mut text = lw_str { data: null::<c_char>(), len: 0 };
            let document = black_box(COTTAGE);
            // SAFETY: every pointer is NULL or points to what its function wants; what is given is freed once.
            unsafe {
                lw_site_parse(
                    c"cottage.toml".as_ptr(),
                    12,
                    document.as_ptr().cast(),
                    document.len(),
                    &raw mut site,
                    null_mut(),
                );
                lw_site_check(site, null(), null(), &raw mut report, null_mut());
                lw_report_text(report, &raw mut text, null_mut());
                black_box(text.len);
                lw_report_free(report);
                lw_site_free(site);
            }
        });
    });
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(Duration::from_secs(1)).measurement_time(Duration::from_secs(3));
    targets = question, site_report
}
criterion_main!(benches);
