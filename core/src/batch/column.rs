//! Columns as a caller has them: borrowed, of many types, with or without a validity bitmap.

use super::field::{Field, Holds};
use crate::trade::nearest;

/// A column of a batch.
#[derive(Clone, Copy, Debug)]
pub struct Column<'a> {
    /// Its name, which says the unit: one of [`Field::names`].
    pub name: &'a str,
    /// Its values.
    pub data: Data<'a>,
    /// Which of them are there; `None` where all are.
    pub validity: Option<Bits<'a>>,
}

/// The values of a column, borrowed.
///
/// A floating-point number is accepted when it is the nearest one to a short decimal that the quantity keeps exactly
/// (six significant digits for `f32`), and then stands for that decimal. Integers count the unit of the column's name.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub enum Data<'a> {
    /// Binary floating point of 64 bits.
    F64(&'a [f64]),
    /// Binary floating point of 32 bits.
    F32(&'a [f32]),
    /// Whole numbers.
    Integers(Integers<'a>),
    /// Decimals: whole numbers of 10^-`scale`.
    Decimals {
        /// The unscaled numbers.
        values: &'a [i128],
        /// How many of their digits are decimals; negative for trailing zeros left off.
        scale: i8,
    },
    /// Words of a dictionary.
    Coded {
        /// Which word each row has.
        codes: Integers<'a>,
        /// The words, in the order of their codes; `None` for one that is null.
        words: &'a [Option<&'a str>],
    },
    /// Text, row by row.
    Text(&'a dyn Text),
    /// Yes or no.
    Flags {
        /// The values.
        bits: Bits<'a>,
        /// How many there are.
        rows: usize,
    },
    /// Nothing but nulls.
    Nulls {
        /// How many.
        rows: usize,
    },
    /// Of a type that no column can have: refused by its name.
    Other {
        /// What the type is called.
        kind: &'a str,
        /// How many rows there are.
        rows: usize,
    },
}

/// Whole numbers of any width.
#[derive(Clone, Copy, Debug)]
#[expect(missing_docs, reason = "the name is all there is to say")]
#[non_exhaustive]
pub enum Integers<'a> {
    I64(&'a [i64]),
    I32(&'a [i32]),
    I16(&'a [i16]),
    I8(&'a [i8]),
    U64(&'a [u64]),
    U32(&'a [u32]),
    U16(&'a [u16]),
    U8(&'a [u8]),
}

/// Runs the same code for every width of whole numbers.
macro_rules! each_width {
    ($integers:expr, $values:ident => $code:expr) => {
        match $integers {
            Integers::I64($values) => $code,
            Integers::I32($values) => $code,
            Integers::I16($values) => $code,
            Integers::I8($values) => $code,
            Integers::U64($values) => $code,
            Integers::U32($values) => $code,
            Integers::U16($values) => $code,
            Integers::U8($values) => $code,
        }
    };
}
pub(super) use each_width;

/// Bits of a caller, the least significant of a byte first, as in Arrow: set where a value is there.
#[derive(Clone, Copy, Debug)]
pub struct Bits<'a> {
    /// The bytes.
    pub bytes: &'a [u8],
    /// The bit of the first row.
    pub offset: usize,
}

/// A column of text. Implement it for another layout of strings.
pub trait Text: Sync + std::fmt::Debug {
    /// How many rows there are.
    fn rows(&self) -> usize;

    /// The text of a row; `None` where it is null.
    fn get(&self, row: usize) -> Option<&str>;

    /// The texts of the rows from `start`, as many as there is room for, as bytes. A layout that can give many at once, or
    /// without looking whether they are UTF-8, should: what is not is no word.
    fn read<'t>(&'t self, start: usize, texts: &mut [Option<&'t [u8]>]) {
        for (row, text) in (start..).zip(texts) {
            *text = self.get(row).map(str::as_bytes);
        }
    }
}

impl<T: AsRef<str> + Sync + std::fmt::Debug> Text for Vec<T> {
    fn rows(&self) -> usize {
        self.len()
    }

    fn get(&self, row: usize) -> Option<&str> {
        self.as_slice().get(row).map(AsRef::as_ref)
    }
}

/// Texts one behind the other in one buffer of bytes, with one offset more than there are rows.
#[derive(Clone, Copy, Debug)]
pub struct Joined<'a> {
    /// Where each text begins, and where the last one ends.
    pub offsets: Integers<'a>,
    /// The bytes of the texts. What is not UTF-8 is no word.
    pub bytes: &'a [u8],
}

impl Text for Joined<'_> {
    fn rows(&self) -> usize {
        self.offsets.rows().saturating_sub(1)
    }

    fn get(&self, row: usize) -> Option<&str> {
        let mut text = [None];
        self.read(row, &mut text);
        let [text] = text;
        Some(std::str::from_utf8(text?).unwrap_or(NO_WORD))
    }

    fn read<'t>(&'t self, start: usize, texts: &mut [Option<&'t [u8]>]) {
        each_width!(self.offsets, offsets => between(self.bytes, offsets.get(start..).unwrap_or_default(), texts));
    }
}

/// A text that is none is no word: this is in no vocabulary, while null could mean something.
const NO_WORD: &str = "\u{0}";

/// The texts between offsets.
fn between<'t, T: Copy>(bytes: &'t [u8], offsets: &[T], texts: &mut [Option<&'t [u8]>])
where
    usize: TryFrom<T>,
{
    texts.fill(None);
    // No text begins or ends at the last place of the memory: one that should is found to be none.
    let mut ends = offsets.iter().map(|end| usize::try_from(*end).unwrap_or(usize::MAX));
    let mut from = ends.next().unwrap_or(usize::MAX);
    for (text, to) in texts.iter_mut().zip(ends) {
        *text = Some(bytes.get(from..to).unwrap_or(NO_WORD.as_bytes()));
        from = to;
    }
}

impl Bits<'_> {
    /// The bit of a row; clear beyond the end.
    #[inline]
    #[must_use]
    pub fn get(&self, row: usize) -> bool {
        let at = self.offset.saturating_add(row);
        self.bytes.get(at / 8).is_some_and(|byte| byte >> (at % 8) & 1 == 1)
    }

    /// Whether all of some rows are set.
    pub(super) fn all(&self, start: usize, rows: usize) -> bool {
        let from = self.offset.saturating_add(start);
        let bytes = self.bytes.get(from / 8..from.saturating_add(rows) / 8);
        match bytes {
            Some(bytes) if from.is_multiple_of(8) && rows.is_multiple_of(8) => {
                bytes.iter().all(|byte| *byte == u8::MAX)
            }
            _ => (start..start.saturating_add(rows)).all(|row| self.get(row)),
        }
    }

    fn holds(&self, rows: usize) -> bool {
        let end = self.offset.checked_add(rows);
        end.is_some_and(|end| end.div_ceil(8) <= self.bytes.len())
    }
}

impl Integers<'_> {
    /// How many rows there are.
    #[must_use]
    pub fn rows(&self) -> usize {
        each_width!(self, values => values.len())
    }

    /// The number of a row.
    #[inline]
    #[must_use]
    pub fn get(&self, row: usize) -> Option<i128> {
        each_width!(self, values => values.get(row).map(|value| i128::from(*value)))
    }
}

impl Data<'_> {
    /// How many rows there are.
    #[must_use]
    pub fn rows(&self) -> usize {
        match self {
            Self::F64(values) => values.len(),
            Self::F32(values) => values.len(),
            Self::Integers(values) => values.rows(),
            Self::Decimals { values, .. } => values.len(),
            Self::Coded { codes, .. } => codes.rows(),
            Self::Text(text) => text.rows(),
            Self::Flags { rows, .. } | Self::Nulls { rows } | Self::Other { rows, .. } => *rows,
        }
    }

    fn kind(&self) -> &str {
        match self {
            Self::F64(_) | Self::F32(_) => "floating-point numbers",
            Self::Integers(_) => "whole numbers",
            Self::Decimals { .. } => "decimals",
            Self::Coded { .. } | Self::Text(_) => "text",
            Self::Flags { .. } => "true and false",
            Self::Nulls { .. } => "nulls",
            Self::Other { kind, .. } => kind,
        }
    }
}

/// Something wrong with the columns of a batch.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ColumnProblem {
    /// A name that stands for nothing here.
    #[error("column `{name}` is not known; {advice}")]
    Unknown {
        /// The name.
        name: String,
        /// What to do.
        advice: String,
    },
    /// A column that cannot stand beside the answers.
    #[error("column `{name}` cannot be carried along; {advice}")]
    NotCarried {
        /// The name.
        name: String,
        /// What to do.
        advice: &'static str,
    },
    /// A column without which no row can be judged.
    #[error("column {names} is missing and decides{}", .why.map_or_else(String::new, |why| format!(" {why}")))]
    Missing {
        /// The names that it may have.
        names: String,
        /// What it is needed for, where that is not the whole row.
        why: Option<&'static str>,
    },
    /// Two columns that say the same.
    #[error("columns `{first}` and `{second}` say the same; give one of them")]
    Twice {
        /// The one.
        first: String,
        /// The other.
        second: String,
    },
    /// A column of values that cannot be what it should.
    #[error("column `{name}` holds {found}; it must hold {expected}")]
    WrongType {
        /// Its name.
        name: String,
        /// What it holds.
        found: String,
        /// What it must hold.
        expected: &'static str,
    },
    /// A column of another length than the first, or a bitmap or buffer that is too short for it.
    #[error("column `{name}` has {found} rows; the others have {expected}")]
    WrongLength {
        /// Its name.
        name: String,
        /// How long it is.
        found: usize,
        /// How long it should be.
        expected: usize,
    },
}

/// Everything that is wrong with the columns of a batch.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))]
pub struct ColumnProblems(pub Vec<ColumnProblem>);

/// A column that is a field.
#[derive(Clone, Copy, Debug)]
pub(super) struct Placed<'a> {
    pub(super) column: Column<'a>,
    pub(super) holds: Holds,
}

/// The columns by field, all problems at once.
pub(super) fn place<'a>(columns: &[Column<'a>]) -> Result<(usize, [Option<Placed<'a>>; 20]), ColumnProblems> {
    let rows = columns.first().map_or(0, |column| column.data.rows());
    let mut problems = Vec::new();
    let mut placed: [Option<Placed<'a>>; 20] = [None; 20];
    for column in columns {
        let known = Field::of_name(column.name).map(|(field, _)| field);
        let Some((field, holds)) = known.and_then(|field| Some((field, field.holds(column.name)?))) else {
            problems.push(unknown(column.name));
            continue;
        };
        if let Some(expected) = misfit(holds, field, &column.data) {
            let (name, found) = (column.name.to_owned(), column.data.kind().to_owned());
            problems.push(ColumnProblem::WrongType { name, found, expected });
        }
        if let Some(found) = wrong_length(column, rows) {
            problems.push(ColumnProblem::WrongLength { name: column.name.to_owned(), found, expected: rows });
        }
        if let Some(slot) = placed.get_mut(field as usize) {
            if let Some(first) = slot {
                let (first, second) = (first.column.name.to_owned(), column.name.to_owned());
                problems.push(ColumnProblem::Twice { first, second });
            } else {
                *slot = Some(Placed { column: *column, holds });
            }
        }
    }
    missing(&placed, &mut problems);
    if problems.is_empty() { Ok((rows, placed)) } else { Err(ColumnProblems(problems)) }
}

fn unknown(name: &str) -> ColumnProblem {
    let names = || Field::ALL.into_iter().flat_map(|field| field.names().iter().copied());
    let bare =
        |name: &&str| Field::ALL.into_iter().find(|field| field.names().iter().any(|known| stem(known) == *name));
    let advice = match (bare(&name), nearest(name, names())) {
        // A name without its unit.
        (Some(field), _) => format!("its unit is missing; write {}", listed(field)),
        (None, Some(near)) => format!("did you mean `{near}`?"),
        (None, None) => "leave it out".to_owned(),
    };
    ColumnProblem::Unknown { name: name.chars().take(60).collect(), advice }
}

fn stem(name: &str) -> &str {
    name.rsplit_once('_').map_or(name, |(stem, _)| stem)
}

fn listed(field: Field) -> String {
    field.names().iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(" or ")
}

fn misfit(holds: Holds, field: Field, data: &Data<'_>) -> Option<&'static str> {
    match (holds, data) {
        (_, Data::Nulls { .. }) => None,
        (Holds::Numbers(_), Data::F64(_) | Data::F32(_) | Data::Integers(_) | Data::Decimals { .. }) => None,
        (Holds::Numbers(_), Data::Other { .. }) => {
            Some("numbers: floating point of 32 or 64 bits, whole numbers, or decimals of 128 bits")
        }
        (Holds::Numbers(_), _) => Some("numbers"),
        (Holds::Words, Data::Coded { .. } | Data::Text(_)) => None,
        (Holds::Words, Data::Flags { .. }) if field == Field::ThermalInsulation => None,
        (Holds::Words, Data::Other { .. }) => Some("text, or a dictionary of text"),
        (Holds::Words, _) => Some("text"),
    }
}

fn wrong_length(column: &Column<'_>, rows: usize) -> Option<usize> {
    let found = column.data.rows();
    let short = |bits: &Bits<'_>| (!bits.holds(rows)).then_some(bits.bytes.len() * 8);
    if found != rows {
        return Some(found);
    }
    let flags = match &column.data {
        Data::Flags { bits, .. } => short(bits),
        _ => None,
    };
    flags.or_else(|| column.validity.as_ref().and_then(short))
}

fn missing(placed: &[Option<Placed<'_>>; 20], problems: &mut Vec<ColumnProblem>) {
    let given = |field: Field| placed.get(field as usize).is_some_and(Option::is_some);
    for field in Field::ALL.into_iter().filter(|field| field.required() && !given(*field)) {
        problems.push(ColumnProblem::Missing { names: listed(field), why: None });
    }
    if !given(Field::Insulation) && !given(Field::Cable) {
        problems.push(ColumnProblem::Missing { names: "`insulation` or `cable`".to_owned(), why: None });
    }
    let run = [Field::Voltage, Field::Circuit, Field::Length];
    if run.into_iter().any(given) || given(Field::DropLimit) {
        for field in run.into_iter().filter(|field| !given(*field)) {
            problems.push(ColumnProblem::Missing { names: listed(field), why: Some("the voltage drop") });
        }
    }
}
