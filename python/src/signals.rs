//! Signals that come while work is done without the interpreter's lock: Ctrl-C, or what somebody handles.

use std::ops::ControlFlow;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

use loadworthy::interrupt::Interrupt;
use pyo3::prelude::*;

/// Nobody notices so short a wait, and taking the lock more often slows down other threads.
const BETWEEN_LOOKS: Duration = Duration::from_millis(50);

/// What signals have come to.
#[derive(Clone)]
pub(crate) struct Signals(Arc<Mutex<Seen>>);

struct Seen {
    looked: Instant,
    raised: Option<PyErr>,
}

impl Default for Signals {
    fn default() -> Self {
        Self(Arc::new(Mutex::new(Seen { looked: Instant::now(), raised: None })))
    }
}

impl Signals {
    /// Ends work when the handler of a signal raises, which only that of the main thread does.
    pub(crate) fn interrupt(&self) -> Interrupt {
        let signals = self.clone();
        Interrupt::when(move || signals.look())
    }

    fn look(&self) -> ControlFlow<()> {
        let mut seen = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if seen.raised.is_none() && seen.looked.elapsed() >= BETWEEN_LOOKS {
            seen.raised = Python::attach(|py| py.check_signals()).err();
            seen.looked = Instant::now();
        }
        if seen.raised.is_some() { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    }

    /// What a handler raised.
    pub(crate) fn raised(&self) -> Option<PyErr> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).raised.take()
    }
}
