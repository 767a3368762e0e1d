//! The words of a row as one small number, where all of them are codes of small dictionaries: a number in mixed radix
//! whose digits are the codes, found for many rows at a time.

use super::ahead::fetch;
use super::column::{Data, Integers, each_width};
use super::wide::widest;
use super::word_column::WordColumn;

/// So many that the codes of all usual columns fit, and each index 16 bits.
const MOST: usize = 1 << 16;

/// Columns of codes, each with what a step of its code adds.
#[derive(Clone, Debug)]
pub(super) struct Index<'a> {
    digits: Vec<Digit<'a>>,
    /// How many there are.
    pub(super) count: usize,
}

#[derive(Clone, Copy, Debug)]
struct Digit<'a> {
    codes: Integers<'a>,
    words: usize,
    step: u16,
    column: usize,
}

impl<'a> Index<'a> {
    /// `None` where a column holds texts, or where there are too many combinations to be worth it for so many rows.
    pub(super) fn of(columns: &[WordColumn<'a>], rows: usize) -> Option<Self> {
        let (mut digits, mut count) = (Vec::new(), 1_usize);
        for (at, column) in columns.iter().enumerate() {
            match column.column.data {
                Data::Coded { codes, words } => {
                    digits.push(Digit { codes, words: words.len(), step: u16::try_from(count).ok()?, column: at });
                    count =
                        count.checked_mul(words.len()).filter(|count| *count <= MOST.min(rows.saturating_mul(8)))?;
                }
                Data::Nulls { .. } => {}
                _ => return None,
            }
        }
        (count > 0).then_some(Self { digits, count })
    }

    /// The numbers of the rows from `start`; false where some row has a null, or a code without a word: nothing is said of
    /// any of them then.
    pub(super) fn fill(&self, columns: &[WordColumn<'_>], start: usize, numbers: &mut [u16]) -> bool {
        numbers.fill(0);
        self.digits.iter().all(|digit| {
            let validity = columns.get(digit.column).and_then(|column| column.column.validity);
            validity.is_none_or(|bits| bits.all(start, numbers.len()))
                && each_width!(digit.codes, codes => widest!(add(digit, codes.get(start..).unwrap_or_default(), numbers)))
        })
    }
}

/// Adds the codes; whether each has a word.
#[inline(always)]
fn add<T: Code>(digit: &Digit<'_>, codes: &[T], numbers: &mut [u16]) -> bool {
    let most = T::last(digit.words);
    fetch(codes, numbers.len());
    let mut all = codes.len() >= numbers.len();
    for (code, number) in codes.iter().zip(numbers) {
        all &= code.within(most);
        *number = number.wrapping_add(code.low().wrapping_mul(digit.step));
    }
    all
}

/// A code of any width.
trait Code: Copy {
    /// The greatest code of so many words, of at least one.
    fn last(words: usize) -> Self;
    fn within(self, last: Self) -> bool;
    /// Its lowest bits: all of them where it has a word.
    fn low(self) -> u16;
}

macro_rules! codes {
    ($($code:ty),+) => {$(
        impl Code for $code {
            fn last(words: usize) -> Self {
                Self::try_from(words.saturating_sub(1)).unwrap_or(Self::MAX)
            }

            #[inline(always)]
            #[allow(unused_comparisons, reason = "true of those without a sign")]
            fn within(self, last: Self) -> bool {
                (self >= 0) & (self <= last)
            }

            #[inline(always)]
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::cast_lossless, reason = "said above")]
            fn low(self) -> u16 {
                self as u16
            }
        }
    )+};
}
codes!(i64, i32, i16, i8, u64, u32, u16, u8);

#[cfg(test)]
mod tests {
    use super::super::column::{Bits, Column};
    use super::super::field::Field;
    use super::*;

    fn column<'a>(data: Data<'a>, validity: Option<Bits<'a>>) -> WordColumn<'a> {
        WordColumn::new(Field::Material, Column { name: "material", data, validity })
    }

    #[test]
    fn codes_are_digits_of_a_number() {
        let (metals, places) = ([Some("copper"), None], [Some("dry"), Some("damp"), Some("wet")]);
        let (first, second, validity) = ([0_u8, 1, 0, 1, 1, 0, 1, 0], [2_i64, 0, 1, 2, 2, 2, 2, 2], [0b1111_0111]);
        let coded = |words| Data::Coded { codes: Integers::U8(&first), words };
        let wide = Data::Coded { codes: Integers::I64(&second), words: &places };
        let nulls = column(Data::Nulls { rows: 8 }, None);
        let columns = [column(coded(&metals), None), nulls.clone(), column(wide, None)];
        let index = Index::of(&columns, 8).unwrap();
        let mut numbers = [9; 8];
        assert!(index.fill(&columns, 0, &mut numbers));
        assert_eq!((index.count, numbers), (6, [4, 1, 2, 5, 5, 4, 5, 4]));
        assert!(index.fill(&columns, 6, &mut numbers[..2]));
        assert_eq!(numbers[..2], [5, 4]);
        // A null, a code beyond its words and one below zero: nothing is said.
        let bits = Bits { bytes: &validity, offset: 0 };
        let some = [column(coded(&metals), Some(bits))];
        let index = Index::of(&some, 8).unwrap();
        assert!(!index.fill(&some, 0, &mut numbers) && index.fill(&some, 0, &mut numbers[..3]));
        for codes in [[0_i8, 2], [0, -1]] {
            let beyond = [column(Data::Coded { codes: Integers::I8(&codes), words: &metals }, None)];
            let index = Index::of(&beyond, 8).unwrap();
            assert!(!index.fill(&beyond, 0, &mut numbers[..2]) && index.fill(&beyond, 0, &mut numbers[..1]));
        }
    }

    #[test]
    fn texts_and_too_many_words_have_no_index() {
        let (texts, codes, words) = (vec!["copper"], [0_u32], vec![Some("copper"); 300]);
        let coded = || column(Data::Coded { codes: Integers::U32(&codes), words: &words }, None);
        assert!(Index::of(&[coded(), coded()], 1_000_000).is_none());
        assert!(Index::of(&[coded()], 37).is_none() && Index::of(&[coded()], 38).is_some());
        assert!(Index::of(&[column(Data::Text(&texts), None)], 1_000_000).is_none());
        let none = Data::Coded { codes: Integers::U32(&codes), words: &[] };
        assert!(Index::of(&[column(none, None)], 1_000_000).is_none());
    }
}
