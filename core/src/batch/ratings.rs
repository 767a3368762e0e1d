//! The next standard rating above a load, found without searching.

use super::alike::MILLION;
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

    /// The smallest that is not below a load in millionths of a microampere; NaN above the last.
    #[inline(always)]
    pub(super) fn next(&self, first: u32, required: i64) -> f64 {
        let amperes = (required + (AMPERE - 1)).cast_unsigned() / AMPERE.cast_unsigned();
        // Above the last rating stands a NaN of its kind.
        let at = amperes.min(u64::from(self.each) - 1) + u64::from(first);
        self.by_ampere.get(at as usize).copied().unwrap_or(f64::NAN)
    }
}
