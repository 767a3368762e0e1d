//! Where answers go: a buffered stream whose reader may leave early.

use std::io::{self, BufWriter, ErrorKind, Write};

/// A stream that remembers its first error, so that writing needs no check at every line.
pub(super) struct Output<W: Write> {
    stream: BufWriter<W>,
    failed: Option<io::Error>,
}

impl<W: Write> Output<W> {
    pub(super) fn new(stream: W) -> Self {
        Self { stream: BufWriter::new(stream), failed: None }
    }

    pub(super) fn write(&mut self, text: &str) {
        if self.failed.is_none() {
            self.failed = self.stream.write_all(text.as_bytes()).err();
        }
    }

    /// Whether further writing is of no use.
    pub(super) fn is_closed(&self) -> bool {
        self.failed.is_some()
    }

    /// Sends what is left. A reader that went away, as `head` does, got what it wanted.
    pub(super) fn finish(mut self) -> io::Result<()> {
        let result = match self.failed.take() {
            Some(error) => Err(error),
            None => self.stream.flush(),
        };
        match result {
            Err(error) if error.kind() == ErrorKind::BrokenPipe => {
                // What is still buffered has nobody to go to.
                let _ = self.stream.into_parts();
                Ok(())
            }
            other => other,
        }
    }
}
