//! The drop as it is shown, in columns that are wanted. No verdict is taken from them.

use super::answers::Answers;
use super::rows::BLOCK;
use super::wide::widest;
use crate::quantity::{Quantity, Ratio, Volts};

/// Writes what drops, in nanovolts. Figures of rows that are judged alone are written over.
pub(super) fn write(drops: &[f64; BLOCK], voltage: &[i64; BLOCK], answers: &mut Answers<'_>) {
    widest!(columns(drops, voltage, answers));
}

#[inline(always)]
fn columns(drops: &[f64; BLOCK], voltage: &[i64; BLOCK], answers: &mut Answers<'_>) {
    if let Some(column) = &mut answers.drop_v {
        for (to, drop) in column.iter_mut().zip(drops) {
            *to = rounded_up(*drop, MILLIVOLT, 1e-6) / 1e3;
        }
    }
    if let Some(column) = &mut answers.drop_percent {
        for ((to, drop), voltage) in column.iter_mut().zip(drops).zip(voltage) {
            #[expect(clippy::cast_precision_loss, reason = "below 2^51")]
            let voltage = *voltage as f64;
            let millionths = rounded_up(*drop, voltage, 1.0 / voltage);
            *to = if millionths <= MOST { millionths / 1e4 } else { f64::NAN };
        }
    }
}

/// In nanovolts.
const MILLIVOLT: f64 = 1e6;

const MOST: f64 = Ratio::MAX.count_of_millionths() as f64;

// The quotient of whole numbers below 2^50 is found in doubles, and its product with the divisor is exact.
const _: () = assert!(Volts::MAXIMUM < 1 << 50);

/// The quotient of a whole number below 2^49 and one below 2^50, rounded up; NaN of NaN. `inverse` is the double nearest to
/// one over the divisor.
///
/// The product with the inverse is less than 2^-3 away from the true quotient, since each of two roundings adds 2^-53 of it;
/// the nearest whole number is then less than one away, and its product with the divisor is below 2^52 and exact, so that
/// comparing says whether to take the next.
#[inline(always)]
fn rounded_up(dividend: f64, divisor: f64, inverse: f64) -> f64 {
    const ROUND: f64 = 6_755_399_441_055_744.0; // 3 · 2^51: sums with it are whole
    let quotient = dividend * inverse + ROUND - ROUND;
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
                let found = rounded_up(dividend as f64, divisor as f64, 1.0 / divisor as f64);
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
