//! The second copy, and the comparison of one answer with one of its cells.

use std::collections::BTreeMap;
use std::fmt::Debug;
use std::path::Path;

use loadworthy::code::{Acceptance, Code, ConductorRating, Edition, Gap, Lookup, Nec};
use loadworthy::published::Grade;
use loadworthy::quantity::Amperes;
use loadworthy::trade::{Material, WireSize};

/// A row of the second copy by the names of its columns.
pub(crate) type Row = BTreeMap<String, String>;

/// The rows of a file below `tests/published/tables`.
pub(crate) fn rows(name: &str) -> Vec<Row> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/published/tables").join(name).with_extension("csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(path).unwrap();
    let rows: Vec<Row> = reader.deserialize().map(Result::unwrap).collect();
    assert!(!rows.is_empty(), "{name}");
    rows
}

/// A size as the second copy writes it: a bare number is AWG, or kcmil from 250 up.
pub(crate) fn size(text: &str) -> WireSize {
    let bare = text.trim_end_matches(" kcmil");
    let kcmil = bare.parse::<u16>().is_ok_and(|number| number >= 250);
    format!("{bare} {}", if kcmil { "kcmil" } else { "AWG" }).parse().unwrap()
}

/// A current; `None` for a blank cell.
pub(crate) fn amperes(text: &str) -> Option<Amperes> {
    (!text.is_empty()).then(|| format!("{text} A").parse().unwrap())
}

/// The printed text with a unit; `None` for a blank cell.
pub(crate) fn with_unit<Q: std::str::FromStr<Err: Debug>>(text: &str, unit: &str) -> Option<Q> {
    (!text.is_empty()).then(|| format!("{text} {unit}").parse().unwrap())
}

/// A printed factor such as 0.91.
pub(crate) fn factor(text: &str) -> Option<loadworthy::quantity::Ratio> {
    let decimal = rust_decimal::Decimal::from_str_exact(text).ok()? * rust_decimal::Decimal::ONE_HUNDRED;
    with_unit(&decimal.normalize().to_string(), "%")
}

/// The mark of the column `index` among those that a row grades.
pub(crate) fn mark(confidence: &str, index: usize) -> char {
    match confidence {
        "sources2+" => '2',
        "source1" => '1',
        "memory" => 'm',
        marks => if marks.len() == 1 { marks.chars().next() } else { marks.chars().nth(index) }.unwrap(),
    }
}

pub(crate) const METALS: [(&str, [Material; 2]); 2] =
    [("cu", [Material::Copper; 2]), ("al", [Material::Aluminum, Material::CopperCladAluminum])];

pub(crate) const RATINGS: [ConductorRating; 3] = ConductorRating::ALL;

/// Compares answers with printed cells, and counts.
pub(crate) struct Comparison {
    /// Rests on every cell.
    pub(crate) every: Nec,
    usual: &'static Nec,
    cells: usize,
    problems: Vec<String>,
}

impl Comparison {
    /// Compares in every edition; `cells` is how many cells there are, so that none is skipped unseen.
    pub(crate) fn in_every_edition(cells: usize, compare: impl Fn(Edition, &mut Self)) {
        Self::in_every_edition_by(|_| cells, compare);
    }

    /// The same where editions differ in their number of cells.
    pub(crate) fn in_every_edition_by(cells: impl Fn(Edition) -> usize, compare: impl Fn(Edition, &mut Self)) {
        for edition in Edition::ALL {
            let every = Nec::new(edition, &Acceptance::of_grade(Grade::Memory));
            let mut comparison = Self { every, usual: Nec::standard(edition), cells: 0, problems: Vec::new() };
            compare(edition, &mut comparison);
            let problems = comparison.problems.join("\n");
            assert!(problems.is_empty(), "{}:\n{problems}", edition.id());
            assert_eq!(comparison.cells, cells(edition), "cells compared in {}", edition.id());
        }
    }

    /// One cell: its printed value, `None` where it is blank, and its mark.
    pub(crate) fn cell<T: PartialEq + Debug>(
        &mut self,
        what: &str,
        printed: Option<T>,
        mark: char,
        ask: impl Fn(&dyn Code) -> Lookup<T>,
    ) {
        self.cells += 1;
        let (every, usual) = (ask(&self.every), ask(self.usual));
        let agrees = match (&printed, every, usual) {
            (None, Err(Gap::Blank(_)), Err(Gap::Blank(_))) => true,
            (Some(value), Ok(cell), Err(Gap::BelowGrade(place, Grade::Memory))) => {
                cell.value == *value && mark == 'm' && place.table == cell.place.table
            }
            (Some(value), Ok(cell), Ok(same)) => {
                cell.value == *value && same.value == *value && mark != 'm' && cell.grade.mark() == mark
            }
            _ => false,
        };
        if !agrees {
            let answer = ask(&self.every).map(|cell| (cell.value, cell.grade));
            self.problems.push(format!("{what}: printed {printed:?} `{mark}`, answered {answer:?}"));
        }
    }

    /// What no table lists has no answer.
    pub(crate) fn outside<T: Debug>(&mut self, what: &str, ask: impl Fn(&dyn Code) -> Lookup<T>) {
        match ask(&self.every) {
            Err(Gap::Outside(_)) => {}
            other => self.problems.push(format!("{what}: answered {other:?}, but no row lists it")),
        }
    }
}
