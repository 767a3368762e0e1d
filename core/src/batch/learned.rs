//! What workers have learned of a code, for the next batch: to learn it takes longer than to judge a short one.

use std::sync::Mutex;

use super::judge::Worker;
use crate::code::Code;

/// A worker for each thread, with what it has learned.
pub(super) struct Workers<'c> {
    code: &'c dyn Code,
    first: Worker<'c>,
    helpers: Vec<Worker<'c>>,
}

impl<'c> Workers<'c> {
    fn new(code: &'c dyn Code) -> Self {
        Self { code, first: Worker::new(code), helpers: Vec::new() }
    }

    /// Workers for so many threads, of which the calling one is one.
    pub(super) fn some(&mut self, threads: usize) -> (&mut Worker<'c>, &mut [Worker<'c>]) {
        let helpers = threads.saturating_sub(1);
        if self.helpers.len() < helpers {
            self.helpers.resize_with(helpers, || Worker::new(self.code));
        }
        (&mut self.first, self.helpers.get_mut(..helpers).unwrap_or_default())
    }

    /// About how many bytes they take.
    fn bytes(&self) -> usize {
        self.helpers.iter().map(Worker::bytes).sum::<usize>() + self.first.bytes()
    }
}

/// Who knows what was learned of a code.
pub(super) struct Learned<'c> {
    code: &'c dyn Code,
    /// Of a code that does not last.
    own: Option<Workers<'c>>,
}

impl<'c> Learned<'c> {
    pub(super) const fn new(code: &'c dyn Code) -> Self {
        Self { code, own: None }
    }

    /// Workers that know what was learned so far. Of a code that lasts they are anybody's.
    pub(super) fn lend<T>(&mut self, work: impl FnOnce(&mut Workers<'_>) -> T) -> T {
        match self.code.lasting() {
            Some(code) => {
                let mut workers = take(code).unwrap_or_else(|| Workers::new(code));
                let done = work(&mut workers);
                keep(workers);
                done
            }
            None => work(self.own.get_or_insert_with(|| Workers::new(self.code))),
        }
    }
}

/// Those that nobody has at the moment.
static KEPT: Mutex<Vec<Workers<'static>>> = Mutex::new(Vec::new());

/// The most bytes that are kept. Ordinary batches need a hundredth of them.
const MOST: usize = 1 << 25;

// Nobody waits for the lock: who does not get it learns by himself.

fn take(code: &'static dyn Code) -> Option<Workers<'static>> {
    let mut kept = KEPT.try_lock().ok()?;
    let at = kept.iter().position(|workers| std::ptr::addr_eq(workers.code, code))?;
    Some(kept.swap_remove(at))
}

fn keep(workers: Workers<'static>) {
    if let Ok(mut kept) = KEPT.try_lock()
        && kept.iter().chain([&workers]).map(Workers::bytes).sum::<usize>() <= MOST
    {
        kept.push(workers);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::code::{Acceptance, Edition, Nec};

    #[test]
    fn what_was_learned_of_a_code_that_does_not_last_goes_with_it() {
        let (standard, own) = (Nec::standard(Edition::Nec2023), Nec::new(Edition::Nec2023, &Acceptance::default()));
        let (mut of_standard, mut of_own) = (Learned::new(standard), Learned::new(&own));
        assert!(of_standard.lend(|workers| std::ptr::addr_eq(workers.code, standard)));
        assert!(of_own.lend(|workers| std::ptr::addr_eq(workers.code, &raw const own)));
        assert!(of_standard.own.is_none() && of_own.own.is_some());
        let kept = KEPT.lock().unwrap();
        assert!(kept.iter().all(|workers| workers.code.lasting().is_some()));
        assert!(kept.iter().map(Workers::bytes).sum::<usize>() <= MOST);
    }

    #[test]
    fn only_the_editions_as_they_are_last() {
        for edition in Edition::ALL {
            let standard = Nec::standard(edition);
            assert!(standard.lasting().is_some_and(|lasting| std::ptr::addr_eq(lasting, standard)));
            assert!(Nec::new(edition, &Acceptance::default()).lasting().is_none());
        }
    }
}
