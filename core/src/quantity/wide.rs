//! Products too wide for 128 bits, compared exactly.

use std::cmp::Ordering;

/// Compares `a * b` with `c * d` exactly, whatever their size.
///
/// ```
/// # use loadworthy::quantity::compare_products;
/// assert!(compare_products(u128::MAX, 2, u128::MAX - 1, 2).is_gt());
/// ```
#[must_use]
#[inline]
pub fn compare_products(a: u128, b: u128, c: u128, d: u128) -> Ordering {
    match (a.checked_mul(b), c.checked_mul(d)) {
        (Some(left), Some(right)) => left.cmp(&right),
        _ => widening_product(a, b).cmp(&widening_product(c, d)),
    }
}

/// The product as (high, low) halves of 256 bits, by the schoolbook method on 64-bit halves.
fn widening_product(a: u128, b: u128) -> (u128, u128) {
    const HALF: u32 = 64;
    const MASK: u128 = u64::MAX as u128;
    let (a_high, a_low, b_high, b_low) = (a >> HALF, a & MASK, b >> HALF, b & MASK);
    let low = a_low * b_low;
    let cross_1 = a_high * b_low + (low >> HALF);
    let cross_2 = a_low * b_high + (cross_1 & MASK);
    let high = a_high * b_high + (cross_1 >> HALF) + (cross_2 >> HALF);
    (high, (cross_2 << HALF) | (low & MASK))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn agrees_with_subtraction_of_one(a in 1u128.., b in 1u128.., drop in 1u128..1000) {
            // a*b against (a - drop)*b: strictly more.
            let smaller = a.saturating_sub(drop);
            prop_assert_eq!(compare_products(a, b, smaller, b), a.cmp(&smaller));
            prop_assert_eq!(compare_products(a, b, b, a), Ordering::Equal);
        }

        #[test]
        fn narrow_products_agree_with_plain_multiplication(a: u64, b: u64, c: u64, d: u64) {
            let [a, b, c, d] = [a, b, c, d].map(u128::from);
            prop_assert_eq!(widening_product(a, b).cmp(&widening_product(c, d)), (a * b).cmp(&(c * d)));
        }
    }
}
