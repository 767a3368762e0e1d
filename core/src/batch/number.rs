//! Numbers of any type as exact counts of a quantity's smallest unit.
//!
//! A double is no decimal, but people write decimals: it is taken for the short decimal that it is the nearest double of,
//! and refused where there is none. Up to 15 digits there is never more than one such decimal.

use super::column::{Data, Integers, Placed, each_width};
use super::field::{Field, Holds, Scale};
use super::reason::Wrong;
use super::wide::widest;

/// Stands for a number that is not there; no quantity reaches so far.
pub(super) const BAD: i64 = i64::MIN;

/// How doubles of a scale are read.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reader {
    scale: Scale,
    /// Steps that are whole counts whatever their number: a power of ten of them in a unit.
    coarse: Steps,
    units: Steps,
    /// The count at zero, plus 3 · 2^51.
    beyond: f64,
    /// The most decimals that can be a whole count.
    digits: u32,
}

/// Steps that are whole counts.
#[derive(Clone, Copy, Debug)]
struct Steps {
    /// How many are a unit.
    of_unit: f64,
    /// Counts in a step.
    counts: f64,
    /// The least and the greatest number in range.
    least: f64,
    most: f64,
}

impl Steps {
    fn of(scale: Scale, of_unit: i64) -> Self {
        let counts = scale.count / of_unit;
        let (least, most) = (scale.least - scale.offset, scale.most - scale.offset);
        Self {
            of_unit: double(of_unit),
            counts: double(counts),
            least: double(-(-least).div_euclid(counts)),
            most: double(most.div_euclid(counts)),
        }
    }
}

impl Reader {
    pub(super) fn new(scale: Scale) -> Self {
        let power = |prime: i64| {
            let (mut rest, mut power) = (scale.count, 0);
            while rest != 0 && rest % prime == 0 {
                rest /= prime;
                power += 1;
            }
            power
        };
        let (twos, fives) = (power(2), power(5));
        Self {
            scale,
            coarse: Steps::of(scale, 10_i64.pow(twos.min(fives))),
            units: Steps::of(scale, 1),
            beyond: double(scale.offset) + ROUND,
            digits: twos.max(fives),
        }
    }

    #[inline]
    fn in_range(&self, count: i64) -> Option<i64> {
        (self.scale.least <= count && count <= self.scale.most).then_some(count)
    }

    /// The counts of doubles; whether all are some.
    fn doubles(&self, column: &[f64], start: usize, counts: &mut [i64]) -> bool {
        let values = column.get(start..).unwrap_or_default();
        // Most columns have whole units, which need no division; where the first rows have none, nor will the others.
        if values.iter().take(4).all(|value| Self::whole(*value).1) {
            widest!(self.several(values, counts, &self.units, Self::whole))
        } else {
            widest!(self.several(values, counts, &self.coarse, |value| self.in_coarse(value)))
        }
    }

    /// The same several at a time; with more care only where one of them is none.
    #[inline(always)]
    fn several(
        &self,
        values: &[f64],
        counts: &mut [i64],
        of: &Steps,
        steps: impl Fn(f64) -> (f64, bool) + Copy,
    ) -> bool {
        let mut all = true;
        for (counts, some) in counts.chunks_mut(SOME).zip(values.chunks(SOME)) {
            all &= in_steps(some, counts, of, self.beyond, steps) || self.carefully(some, counts);
        }
        all
    }

    #[cold]
    #[inline(never)]
    fn carefully(&self, values: &[f64], counts: &mut [i64]) -> bool {
        if in_steps(values, counts, &self.coarse, self.beyond, |value| self.in_coarse(value)) {
            return true;
        }
        for (value, count) in values.iter().zip(&mut *counts) {
            *count = self.any(*value).unwrap_or(BAD);
        }
        counts.iter().all(|count| *count != BAD)
    }

    /// A double, by coarse steps where that does.
    fn any(&self, value: f64) -> Result<i64, Wrong> {
        let mut count = [BAD];
        let quick = in_steps(&[value], &mut count, &self.coarse, self.beyond, |value| self.in_coarse(value));
        if quick { Ok(count[0]) } else { self.double(value) }
    }

    /// How many coarse steps a double is the nearest one to, if the other says that it is. In doubles throughout: whole
    /// numbers below 2^51 are exact in them.
    #[inline(always)]
    fn in_coarse(&self, value: f64) -> (f64, bool) {
        let steps = rounded(value * self.coarse.of_unit);
        #[expect(clippy::float_cmp, reason = "the nearest double of the decimal, or not: nothing in between")]
        (steps, steps / self.coarse.of_unit == value)
    }

    /// The same of whole units.
    #[inline(always)]
    #[expect(clippy::float_cmp, reason = "whole, or not: nothing in between")]
    fn whole(value: f64) -> (f64, bool) {
        (value, rounded(value) == value)
    }

    fn double(&self, value: f64) -> Result<i64, Wrong> {
        #[expect(clippy::float_cmp, reason = "the nearest double of the decimal, or not: nothing in between")]
        self.decimal(value, 1e15, |decimal| decimal == value)
    }

    fn single(&self, value: f32) -> Result<i64, Wrong> {
        // A whole number below 2^24 is exact however many digits it has.
        let most = if value.fract() == 0.0 { 16_777_216.0 } else { 1e6 };
        #[expect(clippy::float_cmp, clippy::cast_possible_truncation, reason = "the nearest float of it, or not")]
        self.decimal(f64::from(value), most, |decimal| decimal as f32 == value)
    }

    /// The count of the shortest decimal with fewer than `most` steps that is `same`.
    fn decimal(&self, value: f64, most: f64, same: impl Fn(f64) -> bool) -> Result<i64, Wrong> {
        if !value.is_finite() {
            return Err(Wrong::NotANumber);
        }
        for digits in 0..=self.digits {
            let power = 10_i64.pow(digits);
            let steps = (value * double(power)).round();
            if steps.abs() < most && same(steps / double(power)) {
                #[expect(clippy::cast_possible_truncation, reason = "whole and below 10^15")]
                return self.steps(i128::from(steps as i64), i128::from(power));
            }
        }
        // Far outside of the range nothing is said of decimals.
        let outside = value.abs() * double(self.scale.count) > double(self.scale.most) * 2.0;
        Err(if outside { Wrong::OutOfRange } else { Wrong::NotShort })
    }

    /// The count of `number / power` units.
    fn steps(&self, number: i128, power: i128) -> Result<i64, Wrong> {
        let scaled = number.checked_mul(i128::from(self.scale.count)).ok_or(Wrong::OutOfRange)?;
        if scaled % power != 0 {
            return Err(Wrong::NotShort);
        }
        let count = (scaled / power).checked_add(i128::from(self.scale.offset)).ok_or(Wrong::OutOfRange)?;
        i64::try_from(count).ok().and_then(|count| self.in_range(count)).ok_or(Wrong::OutOfRange)
    }

    fn decimal128(&self, value: i128, scale: i8) -> Result<i64, Wrong> {
        let power = 10_i128.checked_pow(u32::from(scale.unsigned_abs()));
        match (power, scale >= 0) {
            _ if value == 0 => self.steps(0, 1),
            (Some(power), true) => self.steps(value, power),
            (Some(power), false) => self.steps(value.checked_mul(power).ok_or(Wrong::OutOfRange)?, 1),
            (None, true) => Err(Wrong::NotShort),
            (None, false) => Err(Wrong::OutOfRange),
        }
    }
}

/// Adding and taking away this number rounds to a whole one; the last bits of a sum with it are that number.
const ROUND: f64 = 6_755_399_441_055_744.0; // 3 · 2^51

#[inline(always)]
fn rounded(value: f64) -> f64 {
    value + ROUND - ROUND
}

/// The counts of values that are so many `steps`, without a branch; whether all are. There may be more values than counts.
#[inline(always)]
fn in_steps(values: &[f64], counts: &mut [i64], of: &Steps, beyond: f64, steps: impl Fn(f64) -> (f64, bool)) -> bool {
    let mut all = true;
    for (count, value) in counts.iter_mut().zip(values) {
        let (steps, good) = steps(*value);
        all &= good & (steps >= of.least) & (steps <= of.most);
        *count = (steps * of.counts + beyond).to_bits().wrapping_sub(ROUND.to_bits()).cast_signed();
    }
    all
}

/// So many values are asked for together, before as many are read.
const SOME: usize = 64;

#[expect(clippy::cast_precision_loss, reason = "only for counts that a double holds, or for a bound")]
const fn double(count: i64) -> f64 {
    count as f64
}

/// A column of numbers, ready to be read.
#[derive(Clone, Copy, Debug)]
pub(super) struct Numbers<'a> {
    pub(super) field: Field,
    column: Placed<'a>,
    reader: Reader,
}

impl<'a> Numbers<'a> {
    /// `None` for a column of words.
    pub(super) fn of(field: Field, column: Placed<'a>) -> Option<Self> {
        match column.holds {
            Holds::Numbers(scale) => Some(Self { field, column, reader: Reader::new(scale) }),
            Holds::Words => None,
        }
    }

    /// The counts of the rows from `start`, as many as there is room for; [`BAD`] for what is none. Whether all are some.
    pub(super) fn fill(&self, start: usize, counts: &mut [i64]) -> bool {
        let reader = &self.reader;
        let mut all = None;
        match &self.column.column.data {
            Data::F64(values) => all = Some(reader.doubles(values, start, counts)),
            Data::F32(values) => each(values, start, counts, |value| reader.single(*value)),
            Data::Integers(integers) => each_width!(integers, values => {
                each(values, start, counts, |value| whole(reader, *value))
            }),
            Data::Decimals { values, scale } => {
                each(values, start, counts, |value| reader.decimal128(*value, *scale));
            }
            _ => counts.fill(BAD),
        }
        if let Some(validity) = self.column.column.validity.filter(|bits| !bits.all(start, counts.len())) {
            for (row, count) in (start..).zip(&mut *counts) {
                if !validity.get(row) {
                    *count = BAD;
                }
            }
            all = None;
        }
        all.unwrap_or_else(|| counts.iter().all(|count| *count != BAD))
    }

    /// Its doubles from `start`, if it has doubles.
    pub(super) fn doubles_from(&self, start: usize) -> &'a [f64] {
        match self.column.column.data {
            Data::F64(values) => values.get(start..).unwrap_or_default(),
            _ => &[],
        }
    }

    /// Which of the names of its field it has.
    pub(super) fn name(&self) -> usize {
        Field::of_name(self.column.column.name).map_or(0, |(_, name)| name)
    }

    /// The count of one row, or what is wrong with it.
    pub(super) fn one(&self, row: usize) -> Result<i64, Wrong> {
        let column = &self.column.column;
        let null = column.validity.is_some_and(|validity| !validity.get(row));
        if null || matches!(column.data, Data::Nulls { .. }) {
            return Err(Wrong::Null);
        }
        let found = match &column.data {
            Data::F64(values) => values.get(row).map(|value| self.reader.any(*value)),
            Data::F32(values) => values.get(row).map(|value| self.reader.single(*value)),
            Data::Integers(integers) => integers.get(row).map(|value| self.reader.steps(value, 1)),
            Data::Decimals { values, scale } => values.get(row).map(|value| self.reader.decimal128(*value, *scale)),
            _ => None,
        };
        found.unwrap_or(Err(Wrong::NotANumber))
    }
}

#[inline]
fn whole<T: Copy>(reader: &Reader, value: T) -> Result<i64, Wrong>
where
    i64: TryFrom<T>,
{
    let count = i64::try_from(value).ok().and_then(|value| value.checked_mul(reader.scale.count));
    let count = count.and_then(|count| count.checked_add(reader.scale.offset));
    count.and_then(|count| reader.in_range(count)).ok_or(Wrong::OutOfRange)
}

#[inline]
fn each<T>(values: &[T], start: usize, counts: &mut [i64], read: impl Fn(&T) -> Result<i64, Wrong>) {
    for (value, count) in values.get(start..).unwrap_or_default().iter().zip(counts) {
        *count = read(value).unwrap_or(BAD);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Amperes, Celsius, Meters, Quantity};
    use proptest::prelude::*;

    fn reader(name: &str) -> Reader {
        let (field, _) = Field::of_name(name).unwrap();
        match field.holds(name).unwrap() {
            Holds::Numbers(scale) => Reader::new(scale),
            Holds::Words => panic!("{name}"),
        }
    }

    fn both(name: &str, value: f64) -> Option<i64> {
        let (reader, mut counts) = (reader(name), [0]);
        reader.doubles(&[value], 0, &mut counts);
        let careful = reader.double(value).ok();
        assert_eq!(careful.unwrap_or(BAD), counts[0], "{name} {value}");
        careful
    }

    /// As the text would be read: the shortest decimal that prints as the double, with the unit of the column.
    fn as_text<Q: Quantity + std::str::FromStr>(value: f64, unit: &str) -> Option<i64> {
        let text = format!("{value} {unit}").parse::<Q>().ok()?;
        i64::try_from(text.count()).ok()
    }

    #[test]
    fn short_decimals_are_taken_and_others_refused() {
        assert_eq!(both("load_other_a", 0.1), Some(100_000));
        assert_eq!(both("load_other_a", 0.1 + 0.2), None);
        assert_eq!(both("load_other_a", 1e-6), Some(1));
        assert_eq!(both("load_other_a", 1e-7), None);
        assert_eq!(both("load_other_a", 100_000.0), Some(100_000_000_000));
        assert_eq!(both("load_other_a", 100_000.000_001), None);
        assert_eq!(both("load_other_a", -0.0), Some(0));
        assert_eq!(both("ambient_f", 86.0), Some(270_000));
        assert_eq!(both("length_ft", 0.125), Some(38_100));
        assert_eq!(both("length_ft", 0.001), None);
        for nonsense in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300, -1e300, 5e-324, -1.0, f64::MAX] {
            assert_eq!(both("load_other_a", nonsense), None, "{nonsense}");
        }
        assert_eq!(reader("device_a").double(f64::NAN), Err(Wrong::NotANumber));
        assert_eq!(reader("device_a").double(1e300), Err(Wrong::OutOfRange));
        assert_eq!(reader("device_a").double(-1.0), Err(Wrong::OutOfRange));
        assert_eq!(reader("device_a").double(0.1 + 0.2), Err(Wrong::NotShort));
    }

    #[test]
    fn one_bad_number_is_told_among_many() {
        let reader = reader("load_other_a");
        // Whole ones first, then tenths, then one that is none and one out of range.
        let mut column: Vec<f64> = (0..400).map(|row| if row < 100 { 7.0 } else { f64::from(row) / 10.0 }).collect();
        (column[5], column[210], column[399]) = (0.1 + 0.2, f64::NAN, -0.1);
        for start in [0, 4, 100, 250, 398] {
            let mut counts = vec![7; 400 - start];
            let all = reader.doubles(&column, start, &mut counts);
            let expected: Vec<_> = column[start..].iter().map(|value| reader.double(*value).unwrap_or(BAD)).collect();
            assert_eq!(counts, expected, "{start}");
            assert!(!all);
            let mut some = vec![7; 1];
            assert!(reader.doubles(&column, start, &mut some), "{start}");
        }
    }

    #[test]
    fn singles_have_six_digits() {
        let amperes = reader("load_other_a");
        assert_eq!(amperes.single(0.1), Ok(100_000));
        assert_eq!(amperes.single(0.1 + 0.2), Ok(300_000));
        assert_eq!(amperes.single(12.3456), Ok(12_345_600));
        assert_eq!(amperes.single(f32::from_bits(12.3456_f32.to_bits() + 1)), Err(Wrong::NotShort));
        assert_eq!(amperes.single(65_537.0), Ok(65_537_000_000));
        assert_eq!(amperes.single(f32::NAN), Err(Wrong::NotANumber));
        assert_eq!(amperes.single(f32::MIN_POSITIVE / 2.0), Err(Wrong::NotShort));
    }

    #[test]
    fn decimals_of_any_scale_are_exact() {
        let amperes = reader("load_other_a");
        assert_eq!(amperes.decimal128(12_500_000_000, 9), Ok(12_500_000));
        assert_eq!(amperes.decimal128(12_500_000_001, 9), Err(Wrong::NotShort));
        assert_eq!(amperes.decimal128(2, -1), Ok(20_000_000));
        assert_eq!(amperes.decimal128(i128::MAX, 0), Err(Wrong::OutOfRange));
        assert_eq!(amperes.decimal128(i128::MIN, 38), Err(Wrong::OutOfRange));
        assert_eq!(amperes.decimal128(1, 38), Err(Wrong::NotShort));
        assert_eq!(amperes.decimal128(1, i8::MIN), Err(Wrong::OutOfRange));
        assert_eq!(amperes.decimal128(0, i8::MAX), Ok(0));
    }

    proptest! {
        #[test]
        fn every_decimal_is_read_as_its_text_is(number in -200_000_000_i64..2_000_000_000, digits in 0_u32..9) {
            let value = double(number) / 10_f64.powi(i32::try_from(digits).unwrap());
            prop_assert_eq!(both("load_other_a", value), as_text::<Amperes>(value, "A"));
            prop_assert_eq!(both("load_other_ma", value), as_text::<Amperes>(value, "mA"));
            prop_assert_eq!(both("length_ft", value), as_text::<Meters>(value, "ft"));
            prop_assert_eq!(both("length_in", value), as_text::<Meters>(value, "in"));
            prop_assert_eq!(both("length_m", value), as_text::<Meters>(value, "m"));
            prop_assert_eq!(both("ambient_f", value), as_text::<Celsius>(value, "°F"));
            prop_assert_eq!(both("ambient_c", value), as_text::<Celsius>(value, "°C"));
        }

        #[test]
        fn any_double_is_read_as_its_text_is(bits: u64) {
            let value = f64::from_bits(bits);
            prop_assert_eq!(both("load_other_a", value), as_text::<Amperes>(value, "A"));
            prop_assert_eq!(both("length_ft", value), as_text::<Meters>(value, "ft"));
            prop_assert_eq!(both("ambient_f", value), as_text::<Celsius>(value, "°F"));
        }
    }
}
