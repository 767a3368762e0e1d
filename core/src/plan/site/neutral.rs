//! The current of the neutral: the phasor sum of both legs, or their plain sum where one line feeds all.

use crate::plan::order::Starter;
use crate::quantity::{Amperes, Quantity, Rounding};
use crate::rules::Shape;
use crate::trade::Leg;

/// The neutral's current with everything on, rounded up; `None` where there is no neutral.
///
/// A load whose power factor is not known may have any angle: its whole current is added to the sum of the others.
pub(super) fn current(on: &[Starter], base: &[Starter], shape: Option<Shape>) -> Option<Amperes> {
    let (mut real, mut reactive, mut any): (i128, i128, i128) = (0, 0, 0);
    let mut plain: i128 = 0;
    for starter in on.iter().chain(base).filter(|starter| starter.leg != Leg::Both) {
        let current = starter.running.current(Rounding::Up).count();
        plain += current;
        let sign = if starter.leg == Leg::A { 1 } else { -1 };
        match starter.factor {
            // Microamperes times billionths: a million million amperes would fit.
            Some(factor) => {
                real += sign * current * i128::from(factor.count_of_millionths()) * 1000;
                reactive += sign * current * i128::from(factor.sine_in_billionths());
            }
            None => any += current,
        }
    }
    let count = match shape {
        Some(Shape::OneLeg) => plain,
        Some(Shape::ThreeWire) => {
            let square = real.unsigned_abs().checked_pow(2)?.checked_add(reactive.unsigned_abs().checked_pow(2)?)?;
            let root = square.isqrt();
            let whole = root + u128::from(root * root != square);
            i128::try_from(whole.div_ceil(1_000_000_000)).ok()? + any
        }
        _ => return None,
    };
    Amperes::from_count(count)
}
