//! A document that may take long to write, since remedies are sought on the way: nobody may wait for it any more.

use std::fmt;
use std::io;

use super::options::Problem;
use crate::interrupt::Interrupt;

/// A text that takes no more once it is interrupted.
pub(super) struct Interruptible<'a> {
    bytes: Vec<u8>,
    interrupt: &'a Interrupt,
}

impl<'a> Interruptible<'a> {
    pub(super) const fn new(interrupt: &'a Interrupt) -> Self {
        Self { bytes: Vec::new(), interrupt }
    }

    /// What was written; an error of a writer that fails for no other reason, `written`, is that it was interrupted.
    pub(super) fn finished<E>(self, written: Result<(), E>) -> Result<String, Problem> {
        match written {
            Ok(()) => String::from_utf8(self.bytes).map_err(|error| Problem(error.to_string())),
            Err(_) => Err(Problem("stopped before it was finished".to_owned())),
        }
    }
}

impl io::Write for Interruptible<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if self.interrupt.stops() {
            return Err(io::ErrorKind::Other.into());
        }
        self.bytes.extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl fmt::Write for Interruptible<'_> {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        io::Write::write_all(self, text.as_bytes()).map_err(|_| fmt::Error)
    }
}
