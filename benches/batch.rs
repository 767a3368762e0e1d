//! A million circuits in columns, beside the same in doubles written for speed, and beside one circuit at a time.
//!
//! All of them read dictionary codes and doubles. The doubles cite nothing, validate nothing, check no grade, and give the
//! wrong verdict at limits: how often is printed.

#![allow(missing_docs, clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "batch/doubles.rs"]
mod doubles;
#[path = "batch/frame.rs"]
mod frame;

use std::hint::black_box;
use std::ops::ControlFlow;
use std::time::Duration;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use doubles::Doubles;
use frame::Frame;
use loadworthy::batch::{Answers, Batch, OwnedAnswers};
use loadworthy::calc::Silent;
use loadworthy::code::{Edition, Nec};

const ROWS: usize = 1_000_000;
/// One circuit at a time is slow: as many suffice.
const ALONE: usize = 20_000;

fn all(criterion: &mut Criterion) {
    let code = Nec::standard(Edition::Nec2023);
    let frame = Frame::random(ROWS);
    let columns = frame.columns();
    let batch = Batch::new(code, &columns).unwrap();
    let mut answers = OwnedAnswers::new(ROWS);
    let judge = |answers: Answers<'_>, threads| {
        batch.judge(answers, threads, &mut |_| ControlFlow::Continue(())).unwrap();
    };
    judge(answers.as_mut(), 1);
    let doubles = Doubles::read(&frame);
    let mut plain = OwnedAnswers::new(ROWS);
    doubles.judge(&frame, &mut plain);
    let wrong = answers.verdict.iter().zip(&plain.verdict).filter(|(exact, double)| exact != double).count();
    println!("doubles give the wrong verdict for {wrong} of {ROWS} circuits");
    assert!(wrong * 100 < ROWS, "the doubles are to be wrong at limits only");

    let mut group = criterion.benchmark_group("batch");
    group.throughput(Throughput::Elements(ROWS as u64));
    group.bench_function("columns", |b| b.iter(|| judge(black_box(&mut answers).as_mut(), 1)));
    group.bench_function("columns, verdicts only", |b| {
        b.iter(|| {
            let answers = &mut answers;
            let wanted = Answers {
                verdict: Some(&mut answers.verdict),
                reason: Some(&mut answers.reason),
                ..Answers::default()
            };
            judge(black_box(wanted), 1);
        });
    });
    group.bench_function("columns, two threads", |b| b.iter(|| judge(black_box(&mut answers).as_mut(), 2)));
    group.bench_function("doubles, tuned", |b| b.iter(|| doubles.judge(black_box(&frame), black_box(&mut plain))));
    group.throughput(Throughput::Elements(ALONE as u64));
    let circuits: Vec<_> = (0..ALONE).map(|row| batch.circuit_of(row).unwrap()).collect();
    group.bench_function("one circuit at a time", |b| {
        b.iter(|| {
            circuits.iter().map(|circuit| circuit.judge(black_box(code), &mut Silent).verdict as u64).sum::<u64>()
        });
    });
    group.finish();
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(Duration::from_secs(1)).measurement_time(Duration::from_secs(2)).sample_size(10);
    targets = all
}
criterion_main!(benches);
