//! The words of a row as one small number, where all of them are codes of small dictionaries: a number in mixed radix
//! whose digits are the codes, found for many rows at a time.

use super::column::{Data, Integers, each_width};
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
                    count = count.checked_mul(words.len()).filter(|count| *count <= MOST.min(rows.saturating_mul(8)))?;
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
                && each_width!(digit.codes, codes => add(digit, codes.get(start..).unwrap_or_default(), numbers))
        })
    }
}

/// Adds the codes; whether each has a word.
#[inline(always)]
fn add<T: Code>(digit: &Digit<'_>, codes: &[T], numbers: &mut [u16]) -> bool {
    let most = T::last(digit.words);
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
