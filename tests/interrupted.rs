//! Work that is told to stop says so, and never passes what it did not finish.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use std::ops::ControlFlow;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use loadworthy::check::{WithWorking, check};
use loadworthy::cli::{Book, Form, Page, PlanOptions, checked, planned, sequenced};
use loadworthy::code::{Code, Edition, Nec};
use loadworthy::interrupt::Interrupt;
use loadworthy::plan::site::{Options, plan, plan_unless};
use loadworthy::rules::Outcome;
use loadworthy::site::Site;
use loadworthy::switching::{NoOrder, NoPlan, sequence, sequence_unless};

fn site() -> Site {
    Site::from_toml("cottage-plan.toml", include_str!("../core/examples/cottage-plan.toml")).unwrap()
}

fn cottage() -> Site {
    Site::from_toml("cottage.toml", include_str!("../core/examples/cottage.toml")).unwrap()
}

fn code() -> &'static dyn Code {
    Nec::standard(Edition::Nec2023)
}

/// Stops at the so-manieth question, and says how often it was asked.
fn stopping_at(question: usize) -> (Interrupt, Arc<AtomicUsize>) {
    let asked = Arc::new(AtomicUsize::new(0));
    let counted = Arc::clone(&asked);
    let ask = move || {
        let before = counted.fetch_add(1, Ordering::Relaxed);
        if before + 1 >= question { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    };
    (Interrupt::when(ask), asked)
}

/// The first question, the last, and some between.
fn some_of(questions: usize) -> impl Iterator<Item = usize> {
    (1..questions).step_by(questions / 10 + 1).chain([questions])
}

#[test]
fn whoever_is_asked_and_goes_on_changes_nothing() {
    let (site, never) = (site(), Interrupt::never());
    let (patient, asked) = stopping_at(usize::MAX);
    for form in [Form::Json, Form::Text] {
        let of = |interrupt| checked(&site, Book::default(), true, form, interrupt).unwrap();
        assert_eq!(of(&patient), of(&never));
        let of = |interrupt| planned(&site, Book::default(), PlanOptions::default(), form, interrupt).unwrap();
        assert_eq!(of(&patient), of(&never));
    }
    let site = cottage();
    for page in [Page::Json, Page::Text, Page::Checklist] {
        let of = |interrupt| sequenced(&site, Book::default(), None, page, interrupt).unwrap();
        assert_eq!(of(&patient), of(&never));
    }
    assert!(asked.load(Ordering::Relaxed) > 100, "nobody asked");
}

#[test]
fn wherever_it_stops_no_plan_is_given() {
    let site = site();
    let (count, asked) = stopping_at(usize::MAX);
    let whole = plan_unless(&site, code(), &Options::default(), &count).unwrap();
    assert_eq!(whole.verdict, plan(&site, code(), &Options::default()).unwrap().verdict);
    let questions = asked.load(Ordering::Relaxed);
    assert!(questions > 2, "{questions}");
    for question in some_of(questions) {
        let wrong = plan_unless(&site, code(), &Options::default(), &stopping_at(question).0).unwrap_err();
        assert!(wrong[0].to_string().ends_with("the plan was stopped before it was finished"), "{}", wrong[0]);
    }
}

#[test]
fn wherever_it_stops_no_document_of_a_check_is_given() {
    let site = site();
    for form in [Form::Json, Form::Text] {
        for question in [1, 2, 50] {
            let of = checked(&site, Book::default(), false, form, &stopping_at(question).0);
            assert_eq!(of.unwrap_err().to_string(), "stopped before it was finished");
        }
    }
}

#[test]
fn wherever_it_stops_an_order_is_proved_or_there_is_none() {
    let site = cottage();
    let report = check(&site, code(), WithWorking::No);
    let whole = sequence(&report);
    assert_eq!(whole.outcome(), Outcome::Holds);
    let (count, asked) = stopping_at(usize::MAX);
    assert_eq!(sequence_unless(&report, &count).outcome(), Outcome::Holds);
    let mut stopped = 0;
    for question in some_of(asked.load(Ordering::Relaxed)) {
        let found = sequence_unless(&report, &stopping_at(question).0);
        for (plan, known) in found.plans.iter().zip(&whole.plans) {
            let known = known.answer.as_ref().unwrap();
            match &plan.answer {
                Err(NoPlan::Order(_, NoOrder::Stopped)) => {
                    stopped += 1;
                    assert_eq!(found.outcome(), Outcome::CannotTell);
                }
                Err(other) => panic!("{other}"),
                // Of what was found in time every step is proved; that it is the shortest order may not be.
                Ok(orders) => assert!(orders.connect.steps.len() >= known.connect.steps.len()),
            }
        }
    }
    assert!(stopped > 0);
}
