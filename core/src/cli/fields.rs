//! `fields`: the reference of the site description, field by field.

use std::io::Write;

use super::Status;
use super::output::Output;

pub(super) fn run(out: &mut Output<impl Write>) -> Status {
    out.write(&crate::site::reference());
    Status::Answered
}
