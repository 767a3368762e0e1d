//! What the border costs: questions and a site's report through the C interface, beside the same calls in Rust.
//!
//! The aim: a question within 20 ns of the same call in Rust, a report within 5 %. At the end stand the differences, from
//! samples of both that take turns, so that whatever else the machine does meets both alike.

#![allow(missing_docs, clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "ffi/questions.rs"]
mod questions;
#[path = "ffi/report.rs"]
mod report;

use std::time::{Duration, Instant};

use criterion::Criterion;

/// The same asked in Rust and through C, each as often as it is told.
struct Pair {
    name: &'static str,
    rust: Box<dyn FnMut(u64)>,
    c: Box<dyn FnMut(u64)>,
    /// How often in one sample of the comparison.
    often: u64,
}

fn timed(work: &mut dyn FnMut(u64), often: u64) -> Duration {
    let start = Instant::now();
    work(often);
    start.elapsed()
}

impl Pair {
    fn bench(&mut self, criterion: &mut Criterion) {
        let mut group = criterion.benchmark_group(self.name);
        group.bench_function("Rust", |b| b.iter_custom(|often| timed(&mut self.rust, often)));
        group.bench_function("C", |b| b.iter_custom(|often| timed(&mut self.c, often)));
        group.finish();
    }

    /// The medians of samples that take turns, in nanoseconds.
    fn compare(&mut self) {
        let mut samples: [Vec<f64>; 2] = Default::default();
        for _ in 0..501 {
            for (work, samples) in [&mut self.rust, &mut self.c].into_iter().zip(&mut samples) {
                samples.push(timed(work, self.often).as_nanos() as f64 / self.often as f64);
            }
        }
        let [rust, c] = samples.map(|mut all| {
            all.sort_by(f64::total_cmp);
            all[all.len() / 2]
        });
        let (more, percent) = (c - rust, (c / rust - 1.0) * 100.0);
        println!("{}: Rust {rust:.1} ns, C {c:.1} ns: C costs {more:.1} ns more, {percent:.1} %", self.name);
    }
}

fn main() {
    let mut pairs = questions::pairs();
    pairs.push(report::pair());
    let mut criterion = Criterion::default()
        .warm_up_time(Duration::from_secs(1))
        .measurement_time(Duration::from_secs(3))
        .configure_from_args();
    for pair in &mut pairs {
        pair.bench(&mut criterion);
    }
    criterion.final_summary();
    for pair in &mut pairs {
        pair.compare();
    }
}
