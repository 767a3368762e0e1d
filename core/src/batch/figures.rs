//! The columns of figures, each only where it is wanted. No verdict is taken from them.

use std::hint::select_unpredictable;

use super::answers::Answers;
use super::field::Field;
use super::judge::{Found, Tables};
use super::memo::Memo;
use super::rows::Rows;
use super::words::Words;
use crate::quantity::{Quantity, Ratio, Volts};

/// Writes the figures of as many rows as were found. Those of rows that are judged alone are written over.
#[inline(never)]
pub(super) fn write(
    found: &Found,
    rows: &Rows,
    count: usize,
    memo: &Memo<'_>,
    tables: &Tables,
    answers: &mut Answers<'_>,
) {
    let places = found.places.get(..count).unwrap_or_default();
    let alike = |place: &u32| memo.alike(*place);
    // Which of the two largest devices: the stricter one where it is not stated what the circuit supplies.
    let other = |words: &u64| Words(*words).code(Field::Supplies) == 2;
    let (words, voltages) = (rows.words.iter(), rows.voltage.iter());
    if let Some(column) = &mut answers.ampacity_a {
        column.iter_mut().zip(places).for_each(|(to, place)| *to = alike(place).usable_a);
    }
    if let Some(column) = &mut answers.ampacity_governed_by {
        column.iter_mut().zip(places).for_each(|(to, place)| *to = alike(place).ampacity_governed_by);
    }
    if let Some(column) = &mut answers.largest_device_a {
        for ((to, place), words) in column.iter_mut().zip(places).zip(words.clone()) {
            let [several, others] = alike(place).largest_a;
            *to = select_unpredictable(other(words), others, several);
        }
    }
    if let Some(column) = &mut answers.largest_device_governed_by {
        for ((to, place), words) in column.iter_mut().zip(places).zip(words.clone()) {
            let [several, others] = alike(place).largest_governed_by;
            *to = select_unpredictable(other(words), others, several);
        }
    }
    if let Some(column) = &mut answers.least_device_a {
        for ((to, required), words) in column.iter_mut().zip(&found.required).zip(words) {
            *to = tables.ratings.next(Words(*words).code(Field::DeviceKind) == 2, *required);
        }
    }
    if let Some(column) = &mut answers.drop_v {
        column.iter_mut().zip(&found.nanovolts).for_each(|(to, drop)| *to = rounded_up(*drop, 1e6) / 1e3);
    }
    if let Some(column) = &mut answers.drop_percent {
        for ((to, drop), voltage) in column.iter_mut().zip(&found.nanovolts).zip(voltages) {
            #[expect(clippy::cast_precision_loss, reason = "below 2^51")]
            let millionths = rounded_up(*drop, *voltage as f64);
            *to = if millionths <= MOST { millionths / 1e4 } else { f64::NAN };
        }
    }
}

const MOST: f64 = Ratio::MAX.count_of_millionths() as f64;

// The quotient of whole numbers below 2^50 is found in doubles, and its product with the divisor is exact.
const _: () = assert!(Volts::MAXIMUM < 1 << 50);

/// The quotient of a whole number below 2^49 and one below 2^50, rounded up; NaN of NaN.
///
/// The whole number nearest to the rounded quotient is less than one away from the true one; its product with the divisor
/// is below 2^52 and exact, so that comparing says whether to take the next.
#[inline(always)]
fn rounded_up(dividend: f64, divisor: f64) -> f64 {
    const ROUND: f64 = 6_755_399_441_055_744.0; // 3 · 2^51: sums with it are whole
    let quotient = dividend / divisor + ROUND - ROUND;
    quotient + if dividend > quotient * divisor { 1.0 } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn quotients_are_rounded_up_as_whole_numbers_are(dividend in 0_i64..1 << 49, divisor in 1_i64..1 << 50) {
            let both = |dividend: i64, divisor: i64| {
                let exact = (i128::from(dividend) + i128::from(divisor) - 1) / i128::from(divisor);
                let found = rounded_up(dividend as f64, divisor as f64);
                prop_assert_eq!(found as i128, exact, "{} / {}", dividend, divisor);
                Ok(())
            };
            both(dividend, divisor)?;
            both(dividend, divisor % 1_000_000 + 1)?;
            // At a whole quotient, one under and one over.
            let whole = dividend / divisor * divisor;
            for near in [whole - 1, whole, whole + 1] {
                if (0..1 << 49).contains(&near) {
                    both(near, divisor)?;
                }
            }
        }
    }
}
