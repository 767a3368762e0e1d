//! A batch spread over threads, with progress and a way to stop.

use std::ops::ControlFlow;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

use super::Batch;
use super::answers::Answers;
use super::judge::Worker;
use super::learned::{Learned, Workers};
#[cfg(doc)]
use crate::code::Code;

/// Rows that a thread takes at a time: a fraction of a millisecond of work, so few that their answers stay in the caches.
/// A multiple of 64, so that no two chunks share a word of a bitmap.
const CHUNK: usize = 8_192;

/// Why a batch was not judged to its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum JudgeError {
    /// A column of the answers has not one entry a row.
    #[error("the column `{name}` of the answers has {found} entries; the batch has {expected} rows")]
    WrongLength {
        /// Its name.
        name: &'static str,
        /// How long it is.
        found: usize,
        /// How many rows there are.
        expected: usize,
    },
    /// The caller stopped it. What stands in the columns of answers is not complete.
    #[error("stopped after {done} rows")]
    Stopped {
        /// How many rows had been judged.
        done: usize,
    },
}

/// What is done with the answers of a block, which begins with a row that is a multiple of its length.
pub(super) type Finish<'f> = dyn Fn(usize, &mut Answers<'_>) + Sync + 'f;

/// The chunks that nobody has taken yet.
struct Rest<'a> {
    answers: Answers<'a>,
    next: usize,
}

impl Batch<'_> {
    /// Judges every row into `answers`, over `threads` threads of which the calling one is one.
    ///
    /// `go_on` is called on the calling thread after each of its chunks with the count of rows done by all; what it
    /// returns decides whether to go on. Memory beyond the answers does not grow with the rows; of a code that
    /// [lasts](Code::lasting) up to 32 MB of what was learned are kept for the next batch.
    ///
    /// # Errors
    /// A column of answers of a wrong length (nothing is judged), or that it was stopped.
    pub fn judge(
        &self,
        answers: Answers<'_>,
        threads: usize,
        go_on: &mut dyn FnMut(usize) -> ControlFlow<()>,
    ) -> Result<(), JudgeError> {
        self.judge_with(&mut Learned::new(self.code.0), answers, &|_, _| (), threads, go_on)
    }

    /// The same with what was learned of the same code before. `finish` gets the answers of each block, and where it begins,
    /// while they are still at hand.
    pub(super) fn judge_with(
        &self,
        learned: &mut Learned<'_>,
        answers: Answers<'_>,
        finish: &Finish<'_>,
        threads: usize,
        go_on: &mut dyn FnMut(usize) -> ControlFlow<()>,
    ) -> Result<(), JudgeError> {
        learned.lend(|workers| self.judge_by(workers, answers, finish, threads, go_on))
    }

    fn judge_by(
        &self,
        workers: &mut Workers<'_>,
        answers: Answers<'_>,
        finish: &Finish<'_>,
        threads: usize,
        go_on: &mut dyn FnMut(usize) -> ControlFlow<()>,
    ) -> Result<(), JudgeError> {
        let (first, helpers) = workers.some(threads.min(self.rows.div_ceil(CHUNK)));
        first.begin(self);
        helpers.iter_mut().for_each(|helper| helper.begin(self));
        if let Some((name, found)) = answers.wrong_length(self.rows) {
            return Err(JudgeError::WrongLength { name, found, expected: self.rows });
        }
        let rest = Mutex::new(Rest { answers, next: 0 });
        let (done, stop) = (AtomicUsize::new(0), AtomicBool::new(false));
        let work = |worker: &mut Worker<'_>, go_on: &mut dyn FnMut(usize) -> ControlFlow<()>| {
            while let Some((start, rows, answers)) = self.take(&rest).filter(|_| !stop.load(Ordering::Relaxed)) {
                worker.judge(self, start, rows, answers, finish);
                if go_on(done.fetch_add(rows, Ordering::Relaxed) + rows).is_break() {
                    stop.store(true, Ordering::Relaxed);
                }
            }
        };
        std::thread::scope(|scope| {
            for helper in helpers {
                scope.spawn(|| work(helper, &mut |_| ControlFlow::Continue(())));
            }
            work(first, go_on);
        });
        let done = done.into_inner();
        if done < self.rows { Err(JudgeError::Stopped { done }) } else { Ok(()) }
    }

    fn take<'r>(&self, rest: &Mutex<Rest<'r>>) -> Option<(usize, usize, Answers<'r>)> {
        // Nothing panics while it is held, and what it holds is whole at every moment.
        let mut rest = rest.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        let (start, rows) = (rest.next, CHUNK.min(self.rows - rest.next));
        if rows == 0 {
            return None;
        }
        rest.next += rows;
        Some((start, rows, rest.answers.take(rows)))
    }
}
