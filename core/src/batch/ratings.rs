//! The next standard rating above a load, found without searching.

use super::alike::{MILLION, rounded_up};
use super::answers::shown;
use crate::code::Code;
use crate::quantity::Amperes;
use crate::trade::DeviceKind;

/// The standard ratings that answers may rest on, found without searching.
#[derive(Clone, Debug)]
pub(super) struct Ratings {
    /// What is shown of the smallest rating of breakers that is not below so many whole amperes; then those of fuses.
    by_ampere: Vec<f64>,
    /// How many there are of each.
    each: u32,
}

const AMPERE: i64 = MILLION * MILLION;

impl Ratings {
    /// `None` for a code whose ratings are not all whole amperes.
    pub(super) fn of(code: &dyn Code) -> Option<Self> {
        let (mut breakers, mut fuses) = (Self::known(code, DeviceKind::Breaker)?, Self::known(code, DeviceKind::Fuse)?);
        let each = breakers.len().max(fuses.len()) + 1;
        breakers.resize(each, f64::NAN);
        fuses.resize(each, f64::NAN);
        breakers.extend(fuses);
        Some(Self { by_ampere: breakers, each: u32::try_from(each).ok()? })
    }

    /// By ampere, as far as every rating below is known: one that is not could be the next.
    fn known(code: &dyn Code, kind: DeviceKind) -> Option<Vec<f64>> {
        let known = code.standard_ratings(kind).iter().map_while(|rating| rating.ok().map(|cell| cell.value));
        let mut by_ampere = Vec::new();
        for rating in known.map(Amperes::microamperes) {
            let amperes = usize::try_from(rating / MILLION).ok().filter(|_| rating % MILLION == 0)?;
            by_ampere.resize(by_ampere.len().max(amperes + 1), shown(rating));
        }
        Some(by_ampere)
    }

    /// Where those of fuses begin, or those of breakers.
    pub(super) const fn first(&self, fuses: bool) -> u32 {
        if fuses { self.each } else { 0 }
    }

    /// Where the smallest stands that is not below a load in millionths of a microampere.
    #[inline(always)]
    #[expect(clippy::cast_precision_loss, reason = "the remainder corrects it")]
    pub(super) fn place(&self, first: u32, required: i64) -> u32 {
        let amperes = rounded_up(required as f64 * (1.0 / AMPERE as f64), required, AMPERE);
        // Above the last rating stands a NaN of its kind.
        (amperes.min(i64::from(self.each) - 1) as u32).wrapping_add(first)
    }

    /// What is shown of the rating at a place.
    #[inline(always)]
    pub(super) fn at(&self, place: u32) -> f64 {
        self.by_ampere.get(place as usize).copied().unwrap_or(f64::NAN)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::code::{Edition, Nec};

    #[test]
    fn the_next_rating_is_found_at_each_one_and_a_step_beside_it() {
        let code = Nec::standard(Edition::Nec2023);
        let ratings = Ratings::of(code).unwrap();
        for kind in [DeviceKind::Breaker, DeviceKind::Fuse] {
            // Up to one that is not known, which could be the next.
            let known = code.standard_ratings(kind).iter().map_while(|rating| Some(rating.ok()?.value));
            let known: Vec<_> = known.collect();
            let first = ratings.first(kind == DeviceKind::Fuse);
            let next = |required| ratings.at(ratings.place(first, required)).to_bits();
            for (at, rating) in known.iter().enumerate() {
                let required = rating.microamperes() * MILLION;
                let above = known.get(at + 1).map_or(f64::NAN, |above| shown(above.microamperes()));
                assert_eq!(next(required), shown(rating.microamperes()).to_bits());
                assert_eq!(next(required - 1), shown(rating.microamperes()).to_bits());
                assert_eq!(next(required + 1), above.to_bits());
            }
            assert_eq!(next(0), shown(known[0].microamperes()).to_bits());
            assert_eq!(next(i64::MAX), f64::NAN.to_bits());
        }
    }
}
