//! Cells that somebody has read in the book and accepts, with the books that admit them.

use std::io;
use std::path::PathBuf;
use std::sync::OnceLock;

use loadworthy::code::{Acceptance as Cells, AcceptanceError, Edition, Nec};
use pyo3::prelude::*;

use crate::error::QuestionError;

/// Cells of the published tables that somebody has read in the book and accepts, from the text of a file.
///
/// The file is TOML, an entry a cell; `loadworthy table NAME` shows the rows and the columns of a table. Prepare it
/// once and hand it to as many questions as you like.
///
/// >>> import loadworthy as lw
/// >>> lw.Acceptance('''
/// ... [[cell]]
/// ... table = "ampacity-free-air"
/// ... row = "10 AWG"
/// ... column = "copper_75c_a"
/// ... value = "50"
/// ... read_by = "A. Reader, NEC 2023, Table 310.17"
/// ... ''')
/// <Acceptance of 1 cells>
///
/// Raises QuestionError for an entry that is not what the tables carry.
#[pyclass(frozen, module = "loadworthy")]
pub(crate) struct Acceptance {
    text: String,
    cells: Cells,
    books: [OnceLock<Nec>; Edition::ALL.len()],
}

#[pymethods]
impl Acceptance {
    #[new]
    fn new(text: String) -> PyResult<Self> {
        let cells = Cells::from_toml(&text).map_err(|error| QuestionError::new_err((said(&error), "accept")))?;
        Ok(Self { text, cells, books: Default::default() })
    }

    /// Reads a file. Raises OSError where there is none, QuestionError for an entry that is not what the tables carry.
    #[staticmethod]
    fn load(path: PathBuf) -> PyResult<Self> {
        let read = std::fs::read_to_string(&path);
        Self::new(read.map_err(|error| io::Error::new(error.kind(), format!("{}: {error}", path.display())))?)
    }

    /// The text that it was read from.
    #[getter]
    fn text(&self) -> &str {
        &self.text
    }

    fn __len__(&self) -> usize {
        self.cells.cells().len()
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        other.cast::<Self>().is_ok_and(|other| other.get().text == self.text)
    }

    fn __hash__(&self) -> usize {
        self.text.len()
    }

    fn __repr__(&self) -> String {
        format!("<Acceptance of {} cells>", self.cells.cells().len())
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> (Bound<'py, PyAny>, (String,)) {
        (slf.get_type().into_any(), (slf.get().text.clone(),))
    }
}

/// What is wrong, in one line: a parser draws the place below its text, and says at its end what it misses there.
fn said(error: &AcceptanceError) -> String {
    let AcceptanceError::Form(drawn) = error else { return error.to_string() };
    let lines = || drawn.lines().map(str::trim).filter(|line| !line.is_empty());
    let at = lines().next().and_then(|line| line.strip_prefix("TOML parse error at ")).unwrap_or("the text");
    let what = lines().next_back().unwrap_or("not understood");
    format!(
        "accept: {at}: {what}; each accepted cell is an entry `[[cell]]` with `table`, `row`, `column`, `value` and \
         `read_by`, each a text"
    )
}

impl Acceptance {
    /// The cells.
    pub(crate) const fn cells(&self) -> &Cells {
        &self.cells
    }

    /// The book of an edition that admits these cells; made when it is first asked for.
    pub(crate) fn book(&self, edition: Edition) -> &Nec {
        let index = Edition::ALL.iter().position(|one| *one == edition).unwrap_or_default();
        match self.books.get(index) {
            Some(book) => book.get_or_init(|| Nec::new(edition, &self.cells)),
            None => Nec::standard(edition),
        }
    }
}
