//! What went wrong: an object, not a global.

use std::fmt;

use loadworthy::site::{Problem, Problems};

use crate::border::{Out, OutStruct, Plain, Text, free, guard, handle, lw_str};
use crate::status::{LW_STATUS_DOCUMENT, LW_STATUS_NO_SUCH_INDEX, lw_status};

pub(crate) type Result<T> = std::result::Result<T, Box<lw_error>>;

/// What went wrong in one call. It is only read, so that several threads may do so at once.
pub struct lw_error {
    status: lw_status,
    place: Text,
    message: Text,
    problems: Vec<Kept>,
}

/// One thing wrong with a document.
struct Kept {
    code: Text,
    file: Text,
    path: Text,
    line: u32,
    column: u32,
    message: Text,
}

/// One thing wrong with a document: an output of `lw_error_problem`. Its texts live as long as the error.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct lw_problem {
    /// Set it to `sizeof(lw_problem)`.
    pub struct_size: usize,
    /// A name for programs, such as `missing-unit`, that is never reused.
    pub code: lw_str,
    /// The document, as the caller named it.
    pub file: lw_str,
    /// The path of the field, such as `cord[0].size`.
    pub path: lw_str,
    /// The line, from 1; 0 in a description that was changed after it was read.
    pub line: u32,
    /// The column in characters, from 1; 0 in a description that was changed after it was read.
    pub column: u32,
    /// The whole message: place, what is wrong, what to do.
    pub message: lw_str,
}

// SAFETY: `repr(C)`, `struct_size` first, integers and pointers only.
unsafe impl Plain for lw_problem {
    const LEAST: usize = size_of::<Self>();
    const UNSTATED: Self = Self {
        struct_size: size_of::<Self>(),
        code: lw_str::NONE,
        file: lw_str::NONE,
        path: lw_str::NONE,
        line: 0,
        column: 0,
        message: lw_str::NONE,
    };
}

impl fmt::Debug for lw_error {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "status {}, {}", self.status, self.message.as_text())
    }
}

const _: () = {
    const fn shared<T: Send + Sync>() {}
    shared::<lw_error>();
};

/// An error about one argument or field.
#[cold]
pub(crate) fn fail(status: lw_status, place: &str, what: fmt::Arguments<'_>) -> Box<lw_error> {
    let message = Text::new(format!("{place}: {what}"));
    Box::new(lw_error { status, place: Text::new(place), message, problems: Vec::new() })
}

impl lw_error {
    pub(crate) const fn status(&self) -> lw_status {
        self.status
    }

    #[cfg(test)]
    pub(crate) fn message_text(&self) -> &str {
        self.message.as_text()
    }

    /// An error whose words say its place already.
    #[cfg(feature = "questions")]
    #[cold]
    pub(crate) fn of_words(status: lw_status, place: &str, message: &str) -> Box<Self> {
        Self::of_many(status, place, message.to_owned(), Vec::new())
    }

    /// A document with problems.
    #[cold]
    pub(crate) fn of_document(place: &str, problems: &Problems) -> Box<Self> {
        let kept = problems.iter().map(Kept::of_problem).collect();
        Self::of_many(LW_STATUS_DOCUMENT, place, problems.to_string(), kept)
    }

    /// What cannot be, each with its place.
    #[cold]
    pub(crate) fn of_impossible(place: &str, wrong: &[loadworthy::plan::site::Impossible]) -> Box<Self> {
        let message = wrong.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n");
        let kept = wrong.iter().map(|one| Kept::new("impossible", &one.at, one.to_string())).collect();
        Self::of_many(crate::status::LW_STATUS_IMPOSSIBLE, place, message, kept)
    }

    fn of_many(status: lw_status, place: &str, message: String, problems: Vec<Kept>) -> Box<Self> {
        Box::new(Self { status, place: Text::new(place), message: Text::new(message), problems })
    }
}

impl Kept {
    fn of_problem(problem: &Problem) -> Self {
        Self::new(problem.code(), problem.place(), problem.to_string())
    }

    fn new(code: &str, at: &loadworthy::site::Place, message: String) -> Self {
        Self {
            code: Text::new(code),
            file: Text::new(at.file()),
            path: Text::new(at.path()),
            line: at.line(),
            column: at.column(),
            message: Text::new(message),
        }
    }
}

/// Frees an error; NULL does nothing. After it nothing of the error may be used, its texts neither.
///
/// Not while another call uses the error.
///
/// ```c
/// lw_error_free(error);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_free(error: *mut lw_error) -> lw_status {
    free(error, "error")
}

/// The status that came with an error.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_status status;
/// lw_error_status(error, &status);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_status(error: *const lw_error, status_out: *mut lw_status) -> lw_status {
    guard(std::ptr::null_mut(), || {
        let out = Out::new(status_out, "status_out", 0)?;
        out.write(handle(error, "error")?.status);
        Ok(())
    })
}

/// What is wrong and what to do, with the place in front; a line each where there are several problems. The text lives as
/// long as the error.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str message;
/// if (lw_error_message(error, &message) == LW_STATUS_OK) fprintf(stderr, "%s\n", message.data);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_message(error: *const lw_error, message_out: *mut lw_str) -> lw_status {
    guard(std::ptr::null_mut(), || {
        let out = Out::new(message_out, "message_out", lw_str::NONE)?;
        out.write(handle(error, "error")?.message.as_str());
        Ok(())
    })
}

/// The argument or the field that is meant, such as `question.ambient_c`. The text lives as long as the error.
///
/// Several threads may ask at once.
///
/// ```c
/// lw_str place;
/// lw_error_place(error, &place);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_place(error: *const lw_error, place_out: *mut lw_str) -> lw_status {
    guard(std::ptr::null_mut(), || {
        let out = Out::new(place_out, "place_out", lw_str::NONE)?;
        out.write(handle(error, "error")?.place.as_str());
        Ok(())
    })
}

/// How many problems of a document the error lists; 0 where it is no document that is wrong.
///
/// Several threads may ask at once.
///
/// ```c
/// size_t count;
/// lw_error_problem_count(error, &count);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_problem_count(error: *const lw_error, count_out: *mut usize) -> lw_status {
    guard(std::ptr::null_mut(), || {
        let out = Out::new(count_out, "count_out", 0)?;
        out.write(handle(error, "error")?.problems.len());
        Ok(())
    })
}

/// One problem of a document, counted from 0, in the order of their places. Its texts live as long as the error.
///
/// `LW_STATUS_NO_SUCH_INDEX` where there is none. Several threads may ask at once.
///
/// ```c
/// lw_problem problem = lw_problem_init();
/// if (lw_error_problem(error, 0, &problem) == LW_STATUS_OK)
///     printf("line %u: %s\n", (unsigned)problem.line, problem.message.data);
/// ```
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_error_problem(
    error: *const lw_error,
    index: usize,
    problem_out: *mut lw_problem,
) -> lw_status {
    guard(std::ptr::null_mut(), || {
        let out = OutStruct::new(problem_out, "problem_out")?;
        let problems = &handle(error, "error")?.problems;
        let kept = problems.get(index).ok_or_else(|| no_such_index(index, problems.len()))?;
        out.write(lw_problem {
            code: kept.code.as_str(),
            file: kept.file.as_str(),
            path: kept.path.as_str(),
            line: kept.line,
            column: kept.column,
            message: kept.message.as_str(),
            ..lw_problem::UNSTATED
        });
        Ok(())
    })
}

/// There is nothing of that index.
#[cold]
pub(crate) fn no_such_index(index: usize, count: usize) -> Box<lw_error> {
    fail(
        LW_STATUS_NO_SUCH_INDEX,
        "index",
        format_args!("there is no number {index}; there are {count}, counted from 0"),
    )
}
