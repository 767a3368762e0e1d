//! A group of rows beside what the tables say of them, compared many at a time.

use super::Asks;
use super::alike::{Alike, Combination, MILLION, NEAR, rounded_up};
use super::ends::{self, Open};
use super::ratings::Ratings;
use super::rows::Numbers;
use super::said::Said;

/// Rows that are compared together: so few that all of this stays in the nearest cache.
pub(super) const GROUP: usize = 64;

/// What the tables say of each row of a group, side by side.
pub(super) struct Tables {
    usable: [i64; GROUP],
    before: [i64; GROUP],
    strict: [i64; GROUP],
    loose: [i64; GROUP],
    device_factor: [i64; GROUP],
    conductor_factor: [i64; GROUP],
    continuous_most: [i64; GROUP],
    drop_numerator: [i64; GROUP],
    drop_denominator: [i64; GROUP],
    drop_quotient: [f64; GROUP],
    ratings: [u32; GROUP],
    open: [Open; GROUP],
    agree: [Said; GROUP],
    differ: [Said; GROUP],
}

/// What is found of each row of a group.
pub(super) struct Outcome {
    /// How the checks end, in bits.
    pub(super) ends: [u8; GROUP],
    /// What is said of them in words.
    pub(super) said: [Said; GROUP],
    /// The drop rounded up, a whole number of nanovolts; NaN where it is not asked for.
    pub(super) nanovolts: [f64; GROUP],
    /// Where the smallest device that is not below the load stands among the ratings.
    pub(super) least: [u32; GROUP],
    /// Whether the drop is too large for all this.
    pub(super) far: [bool; GROUP],
}

impl Tables {
    pub(super) const NOTHING: Self = Self {
        usable: [0; GROUP],
        before: [0; GROUP],
        strict: [0; GROUP],
        loose: [0; GROUP],
        device_factor: [0; GROUP],
        conductor_factor: [0; GROUP],
        continuous_most: [0; GROUP],
        drop_numerator: [0; GROUP],
        drop_denominator: [1; GROUP],
        drop_quotient: [0.0; GROUP],
        ratings: [0; GROUP],
        open: [Open::NOTHING; GROUP],
        agree: [Said::NOTHING; GROUP],
        differ: [Said::NOTHING; GROUP],
    };

    /// Puts what the tables say of a row in its place; `None` beyond the last.
    #[inline(always)]
    pub(super) fn put(&mut self, at: usize, alike: &Alike, combination: &Combination) -> Option<()> {
        *self.usable.get_mut(at)? = alike.usable;
        *self.before.get_mut(at)? = alike.before;
        *self.strict.get_mut(at)? = alike.strict;
        *self.loose.get_mut(at)? = alike.loose;
        *self.device_factor.get_mut(at)? = combination.factors.device;
        *self.conductor_factor.get_mut(at)? = combination.factors.conductor;
        *self.continuous_most.get_mut(at)? = combination.continuous_most;
        *self.drop_numerator.get_mut(at)? = combination.drop.numerator;
        *self.drop_denominator.get_mut(at)? = combination.drop.denominator;
        *self.drop_quotient.get_mut(at)? = combination.drop.quotient;
        *self.ratings.get_mut(at)? = combination.ratings;
        *self.open.get_mut(at)? = alike.open;
        let [agree, differ] = alike.said;
        *self.agree.get_mut(at)? = agree;
        *self.differ.get_mut(at)? = differ;
        Some(())
    }

    /// Finds how the checks end, what the load requires and how much it drops: comparisons of whole numbers.
    ///
    /// What is found of a row that is judged alone means nothing: its numbers may be none, which is why sums and products here
    /// wrap. Those of the others fit.
    #[inline(always)]
    #[expect(clippy::indexing_slicing, reason = "every array has as many entries as the loops have rounds")]
    pub(super) fn compare(&self, numbers: &Numbers<'_>, asks: Asks, ratings: &Ratings) -> Outcome {
        let Numbers { continuous, other, device, voltage, length, drop_limit } = *numbers;
        let current = |at: usize| continuous[at].wrapping_add(other[at]);
        let mut found = Outcome {
            ends: [0; GROUP],
            said: [Said::NOTHING; GROUP],
            nanovolts: [f64::NAN; GROUP],
            least: [0; GROUP],
            far: [false; GROUP],
        };
        let mut too_much_drop = [false; GROUP];
        if asks.run {
            for at in 0..GROUP {
                let current = current(at);
                #[expect(clippy::cast_precision_loss, reason = "the remainder corrects it")]
                let estimate = current as f64 * length[at] as f64 * self.drop_quotient[at];
                let product = current.wrapping_mul(length[at]).wrapping_mul(self.drop_numerator[at]);
                let nanovolts = rounded_up(estimate, product, self.drop_denominator[at]);
                // The voltage in millivolts times a share in millionths is a limit in whole nanovolts.
                too_much_drop[at] = asks.limit & (nanovolts > voltage[at].wrapping_mul(drop_limit[at]));
                #[expect(clippy::cast_precision_loss, reason = "below 2^50")]
                let shown = nanovolts as f64;
                found.nanovolts[at] = shown;
                found.far[at] = estimate >= NEAR;
            }
        }
        for at in 0..GROUP {
            let (continuous, device) = (continuous[at], device[at]);
            let others = other[at].wrapping_mul(MILLION);
            let required = continuous.wrapping_mul(self.device_factor[at]).wrapping_add(others);
            let on_conductor = continuous.wrapping_mul(self.conductor_factor[at]).wrapping_add(others);
            // 240.4(D)(1) to (3) decide by themselves; of two readings that differ neither decides.
            let unprotected = (continuous > self.continuous_most[at]) | (device > self.loose[at]);
            let fails = [
                current(at) > self.usable[at],
                on_conductor > self.before[at],
                required > device.wrapping_mul(MILLION),
                unprotected,
                too_much_drop[at],
            ];
            found.ends[at] = ends::of(fails, !unprotected & (device > self.strict[at]), self.open[at]);
            found.least[at] = ratings.place(self.ratings[at], required);
        }
        for at in 0..GROUP {
            // Where a gap leaves the fourth check open, its reason is given either way.
            let (agree, differ) = (self.agree[at], self.differ[at]);
            found.said[at] = if ends::fourth_is_open(found.ends[at]) { differ } else { agree };
        }
        found
    }
}
