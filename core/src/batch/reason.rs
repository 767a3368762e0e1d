//! Why a row, or a check of it, could not be judged: a small number with a text, so that no row builds one.

use super::field::Field;
use crate::calc::CannotTell;
use crate::code::Gap;
use crate::published::TableId;

/// Why something of a row could not be judged. Number 0 stands for nothing: everything was judged.
///
/// The numbers hold for one version of this library; what is kept should keep the text.
///
/// ```
/// # use loadworthy::batch::{Field, Reason};
/// let reason = Reason::null(Field::LoadContinuous);
/// assert_eq!(reason.to_string(), "`load_continuous_a` is null");
/// assert_eq!(Reason::of_number(reason.number()), Some(reason));
/// assert_eq!(Reason::of_number(u16::MAX), None);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Reason(u16);

/// What may be wrong with the value of a field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wrong {
    Null = 0,
    NotANumber = 1,
    NotShort = 2,
    OutOfRange = 3,
    UnknownWord = 4,
}

const KINDS: u16 = 8;
const FIRST_GAP: u16 = 256;
/// Above all others: the same of a column by its second name, its third, and so on.
const NAMES: u16 = 4096;
const TABLES: u16 = 128;
const GAPS: u16 = 5;

const _: () = assert!(TableId::ALL.len() <= TABLES as usize && (Field::ALL.len() as u16 * KINDS) < 240);
const _: () = assert!(FIRST_GAP + SOUGHT.len() as u16 * GAPS * TABLES <= NAMES);

/// What was looked for, as [`CannotTell::what`] says it.
const SOUGHT: [&str; 6] = [
    "the ampacity",
    "the continuous load",
    "the overcurrent device",
    "the voltage drop",
    "it",
    "the ampacity before factors",
];

impl Reason {
    /// Everything was judged.
    pub const NONE: Self = Self(0);
    /// Neither `insulation` nor `cable` is stated.
    pub const NO_COVERING: Self = Self(240);
    /// It is not stated whether the cable lies in thermal insulation, and that decides.
    pub const THERMAL_INSULATION_DECIDES: Self = Self(241);
    /// It is not stated what the circuit supplies, and that decides whether the next size up may protect it.
    pub const SUPPLIES_DECIDES: Self = Self(242);

    /// A null where the fact decides.
    #[must_use]
    pub const fn null(field: Field) -> Self {
        Self::wrong(field, Wrong::Null)
    }

    pub(super) const fn wrong(field: Field, wrong: Wrong) -> Self {
        Self(1 + field as u16 * KINDS + wrong as u16)
    }

    /// The same of a column by another of the names of its field.
    pub(super) fn named(self, name: usize) -> Self {
        Self(self.0 + u16::try_from(name).map_or(0, |name| name % 4) * NAMES)
    }

    pub(super) fn gap(cannot: CannotTell) -> Self {
        let sought = (0..).zip(SOUGHT).find(|(_, sought)| *sought == cannot.what).map_or(4, |(at, _)| at);
        let (kind, table) = match cannot.gap {
            Gap::Outside(table) => (0, table),
            Gap::Blank(place) => (1, place.table),
            Gap::BelowGrade(place, _) => (2, place.table),
            Gap::NotPermitted(place) => (3, place.table),
            Gap::NotInEdition(table) => (4, table),
        };
        Self(FIRST_GAP + (sought * GAPS + kind) * TABLES + table as u16)
    }

    /// The number.
    #[must_use]
    pub const fn number(self) -> u16 {
        self.0
    }

    /// The reason of a number; `None` for a number that stands for none.
    #[must_use]
    pub fn of_number(number: u16) -> Option<Self> {
        let reason = Self(number);
        (!reason.text().is_empty()).then_some(reason)
    }

    /// Every reason there is, by number.
    pub fn all() -> impl Iterator<Item = Self> {
        (0..=u16::MAX).filter_map(Self::of_number)
    }

    /// The field whose value is wrong, where it is one.
    #[must_use]
    pub fn field(self) -> Option<Field> {
        let number = self.0 % NAMES;
        let at = usize::from(number.checked_sub(1)? / KINDS);
        (number < 240).then(|| Field::ALL.get(at).copied()).flatten()
    }

    fn text(self) -> String {
        match self {
            Self::NONE => return "judged".to_owned(),
            Self::NO_COVERING => return "neither `insulation` nor `cable` is stated, and they decide".to_owned(),
            Self::THERMAL_INSULATION_DECIDES => {
                return "`thermal_insulation` is not stated, and it decides".to_owned();
            }
            Self::SUPPLIES_DECIDES => {
                return "`supplies` is not stated, and it decides whether the next standard rating is permitted"
                    .to_owned();
            }
            _ => {}
        }
        match self.field() {
            Some(field) => {
                let name = usize::from(self.0 / NAMES);
                wrong_text(field, name, (self.0 % NAMES - 1) % KINDS).unwrap_or_default()
            }
            None => self.gap_text().unwrap_or_default(),
        }
    }

    fn gap_text(self) -> Option<String> {
        let number = self.0.checked_sub(FIRST_GAP)?;
        let table = TableId::ALL.get(usize::from(number % TABLES))?.path();
        let (sought, kind) = (number / TABLES / GAPS, number / TABLES % GAPS);
        let sought = SOUGHT.get(usize::from(sought))?;
        let why = match kind {
            0 => format!("table `{table}` has no row for it"),
            1 => format!("a cell of table `{table}` is blank"),
            2 => format!("a cell of table `{table}` is witnessed too weakly to rest on"),
            3 => format!("a cell of table `{table}` says that it is not permitted"),
            _ => format!("this edition has no table `{table}`"),
        };
        Some(format!("cannot tell {sought}: {why}"))
    }
}

fn wrong_text(field: Field, name: usize, kind: u16) -> Option<String> {
    let name = field.names().get(name)?;
    let numbers = matches!(field.holds(name), Some(super::field::Holds::Numbers(_)));
    let what = match (kind, numbers) {
        (0, _) => "is null",
        (1, true) => "is not a finite number",
        (2, true) => "is not a short decimal: it has more decimals than are kept, or was rounded on its way",
        (3, true) => "is out of range",
        (4, false) => "is no word of its vocabulary",
        _ => return None,
    };
    Some(format!("`{name}` {what}"))
}

impl std::fmt::Display for Reason {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(&self.text())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_reason_has_a_text_of_its_own() {
        let mut texts: Vec<String> = Reason::all().map(|reason| reason.to_string()).collect();
        let count = texts.len();
        texts.sort();
        texts.dedup();
        assert_eq!(texts.len(), count);
        assert_eq!(Reason::of_number(0), Some(Reason::NONE));
    }

    #[test]
    fn what_is_wrong_names_the_column_as_it_is() {
        let reason = Reason::null(Field::Length).named(2);
        assert_eq!(reason.to_string(), "`length_m` is null");
        assert_eq!((reason.field(), Reason::of_number(reason.number())), (Some(Field::Length), Some(reason)));
        // A field has as many as it has names.
        assert_eq!(Reason::of_number(Reason::null(Field::Ambient).named(2).number()), None);
    }

    #[test]
    fn a_gap_says_what_was_sought_and_where() {
        for what in ["the ampacity", "the ampacity before factors"] {
            let cannot = CannotTell { what, gap: Gap::Outside(TableId::AmpacityRaceway) };
            let expected = format!("cannot tell {what}: table `nec/ampacity-raceway` has no row for it");
            assert_eq!(Reason::gap(cannot).to_string(), expected);
        }
    }
}
