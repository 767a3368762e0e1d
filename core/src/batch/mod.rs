//! Columns in, columns out: a circuit a row, judged as [`Circuit::judge`] judges it, at a few comparisons a row.
//!
//! Columns are borrowed as they are, whatever their types: see [`Column`] and [`Field`]. Their names carry the units. A
//! row that cannot be judged says why ([`Reason`]) and never stops the others. No double enters a verdict: a
//! floating-point number is taken for the short decimal that it is nearest to, or refused.
//!
//! What the tables say of rows that are alike is asked once of `calc`; the verdicts of a row are comparisons of whole
//! numbers, and equal those of [`Circuit::judge`], which gives the working of any row: [`Batch::circuit_of`].
//!
//! ```
//! use loadworthy::batch::{Batch, Column, Data, OwnedAnswers, Verdict};
//! use loadworthy::code::{Edition, Nec};
//! use std::ops::ControlFlow;
//!
//! let words = vec!["copper", "copper"];
//! let (sizes, insulations) = (vec!["12 AWG", "12 AWG"], vec!["THWN-2", "THWN-2"]);
//! let column = |name, data| Column { name, data, validity: None };
//! let columns = [
//!     column("material", Data::Text(&words)),
//!     column("size", Data::Text(&sizes)),
//!     column("insulation", Data::Text(&insulations)),
//!     column("load_continuous_a", Data::F64(&[16.0, 16.1])),
//!     column("load_other_a", Data::F64(&[0.0, 0.0])),
//!     column("device_a", Data::F64(&[20.0, 20.0])),
//! ];
//! let batch = Batch::new(Nec::standard(Edition::Nec2023), &columns)?;
//! let mut answers = OwnedAnswers::new(batch.rows());
//! batch.judge(answers.as_mut(), 1, &mut |_done| ControlFlow::Continue(()))?;
//! assert_eq!(answers.verdict, [Verdict::Holds as u8, Verdict::Fails as u8]); // 125 % of 16 A is exactly 20 A
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod ahead;
mod alike;
mod answers;
#[cfg(feature = "arrow")]
pub mod arrow;
mod bands;
mod circuit;
mod column;
mod ends;
mod field;
mod figures;
mod group;
mod index;
mod judge;
mod kinds;
mod learned;
mod memo;
mod number;
mod ratings;
mod reason;
mod rows;
mod said;
mod seen;
mod spread;
mod told;
mod verdict;
mod wide;
mod word_column;
mod words;

pub use answers::{AMPACITY_GOVERNORS, Answer, Answers, DEVICE_GOVERNORS, OwnedAnswers};
pub use circuit::{Circuit, Judgement, Phases, Run};
pub use column::{Bits, Column, ColumnProblem, ColumnProblems, Data, Integers, Joined, Text};
pub use field::Field;
pub use reason::Reason;
pub use spread::JudgeError;
pub use verdict::{Check, Verdict};

use crate::calc::ampacity::{Conditions, Covering};
use crate::calc::continuous::Load;
use crate::code::Code;
use crate::quantity::{Amperes, Celsius, Meters, Ratio, Volts};
use crate::trade::TerminalMark;
use index::Index;
use number::Numbers;
use rows::Row;
use seen::Seen;
use word_column::WordColumn;
use words::Words;

/// Columns of circuits, ready to be judged by a code.
#[derive(Clone, Debug)]
pub struct Batch<'a> {
    code: Coded<'a>,
    rows: usize,
    words: Vec<WordColumn<'a>>,
    /// Of the words, where they are all codes.
    index: Option<Index<'a>>,
    numbers: Vec<Numbers<'a>>,
    asks: Asks,
}

/// The code, which cannot print itself.
#[derive(Clone, Copy)]
struct Coded<'a>(&'a dyn Code);

impl std::fmt::Debug for Coded<'_> {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(self.0.id())
    }
}

/// What of the drop is asked.
#[derive(Clone, Copy, Debug)]
struct Asks {
    /// The drop itself.
    run: bool,
    /// Whether it is within a limit.
    limit: bool,
}

/// What is assumed of every row for a column that is left out.
const ASSUMED: [(Field, &str); 7] = [
    (Field::Installation, "in a raceway, or in the cable where one is named"),
    (Field::Place, "a dry place"),
    (Field::Terminals, "terminals without a temperature mark: the rating of the device decides, 110.14(C)(1)"),
    (Field::Ambient, "ambient 30 °C, the base of the table"),
    (Field::CurrentCarrying, "three conductors carry current, the base of the table"),
    (Field::DeviceKind, "a breaker"),
    (Field::ContinuousRating, "the device and its assembly are not listed for 100 % of the rating"),
];

impl<'a> Batch<'a> {
    /// Puts the columns in their places. The order does not matter; [`Field`] says which are required.
    ///
    /// # Errors
    /// Every column that is unknown, missing, of a wrong type or a wrong length, all at once.
    pub fn new(code: &'a dyn Code, columns: &[Column<'a>]) -> Result<Self, ColumnProblems> {
        let (rows, placed) = column::place(columns)?;
        let of = |field: Field| placed.get(field as usize).copied().flatten();
        let given = |field| of(field).is_some();
        let word = |field| of(field).map(|placed| WordColumn::new(field, placed.column));
        let words: Vec<_> = words::FIELDS.into_iter().filter_map(word).collect();
        Ok(Self {
            code: Coded(code),
            rows,
            index: Index::of(&words, rows),
            words,
            numbers: Field::ALL.into_iter().filter_map(|field| Numbers::of(field, of(field)?)).collect(),
            asks: Asks { run: given(Field::Length), limit: given(Field::DropLimit) },
        })
    }

    /// How many rows there are.
    #[must_use]
    pub const fn rows(&self) -> usize {
        self.rows
    }

    /// What is assumed of every row, since no column states it.
    #[must_use]
    pub fn assumed(&self) -> Vec<&'static str> {
        let given = |field| {
            self.words.iter().any(|column| column.field == field)
                || self.numbers.iter().any(|column| column.field == field)
        };
        let mut assumed: Vec<_> =
            ASSUMED.iter().filter(|(field, _)| !given(*field)).map(|(_, assumed)| *assumed).collect();
        assumed.push("not above a roof in sunlight");
        if self.asks.run {
            assumed.push("drop by the direct-current resistance of Chapter 9 Table 8 at 75 °C, loads balanced");
        }
        assumed
    }

    /// The circuit of a row, whose [`judge`](Circuit::judge) gives its working.
    ///
    /// # Errors
    /// The reason why the row is no circuit; [`Reason::NONE`] beyond the last row.
    pub fn circuit_of(&self, row: usize) -> Result<Circuit, Reason> {
        if row >= self.rows {
            return Err(Reason::NONE);
        }
        self.circuit_at(row, &mut Seen::new())
    }

    fn circuit_at(&self, row: usize, seen: &mut Seen) -> Result<Circuit, Reason> {
        match Row::read(self, row, seen) {
            Some(read) if read.words & words::BAD == 0 => self.circuit(&read),
            _ => Err(self.wrong(row)),
        }
    }

    /// The first thing that is wrong with the values of a row.
    #[cold]
    fn wrong(&self, row: usize) -> Reason {
        let number = |field: Field| {
            let column = self.numbers.iter().find(|column| column.field == field)?;
            column.one(row).err().map(|wrong| Reason::wrong(field, wrong).named(column.name()))
        };
        let word = |field: Field| self.words.iter().find(|column| column.field == field)?.wrong(row);
        let wrong = |field| number(field).or_else(|| Some(Reason::wrong(field, word(field)?)));
        Field::ALL.into_iter().find_map(wrong).unwrap_or(Reason::NO_COVERING)
    }

    /// The circuit that a row states.
    fn circuit(&self, row: &Row) -> Result<Circuit, Reason> {
        let words = Words(row.words);
        // What is required is there: a row without it is bad.
        let material = words.material().ok_or(Reason::null(Field::Material))?;
        let size = words.size().ok_or(Reason::null(Field::Size))?;
        let covering = words.covering().ok_or(Reason::NO_COVERING)?;
        let base = Conditions::base(material, size, covering);
        let device = Amperes::new(row.device).ok_or(Reason::null(Field::Device))?;
        let conditions = Conditions {
            installation: words.installation().unwrap_or(base.installation),
            place: words.place().unwrap_or(base.place),
            ambient: Celsius::new(row.ambient).ok_or(Reason::null(Field::Ambient))?,
            current_carrying: u16::try_from(row.current_carrying).map_err(|_| Reason::null(Field::CurrentCarrying))?,
            thermal_insulation: self.thermal_insulation(words, covering, &base)?,
            terminals: words.terminals().unwrap_or(TerminalMark::Unmarked),
            circuit_rating: Some(device),
            ..base
        };
        let current = |count, field| Amperes::new(count).ok_or(Reason::null(field));
        Ok(Circuit {
            conditions,
            load: Load {
                continuous: current(row.continuous, Field::LoadContinuous)?,
                non_continuous: current(row.other, Field::LoadOther)?,
            },
            device,
            kind: words.kind(),
            continuous_rating: words.continuous_rating(),
            supplies: words.supplies(),
            run: if self.asks.run { Some(self.run(row, words)?) } else { None },
        })
    }

    fn run(&self, row: &Row, words: Words) -> Result<Run, Reason> {
        let limit = self.asks.limit.then(|| Ratio::new(row.drop_limit).ok_or(Reason::null(Field::DropLimit)));
        Ok(Run {
            voltage: Volts::new(row.voltage).ok_or(Reason::null(Field::Voltage))?,
            phases: words.phases().ok_or(Reason::null(Field::Circuit))?,
            length: Meters::new(row.length).ok_or(Reason::null(Field::Length))?,
            limit: limit.transpose()?,
        })
    }

    /// Asked for only where the code's answer depends on it.
    fn thermal_insulation(&self, words: Words, covering: Covering, base: &Conditions) -> Result<bool, Reason> {
        let Covering::Cable(cable, _) = covering else {
            return Ok(words.thermal_insulation().unwrap_or(false));
        };
        let rule = |inside| self.code.0.cable(cable, inside, base.size).map(|cell| cell.value);
        match words.thermal_insulation() {
            Some(inside) => Ok(inside),
            None if rule(true) == rule(false) => Ok(false),
            None => Err(Reason::THERMAL_INSULATION_DECIDES),
        }
    }
}
