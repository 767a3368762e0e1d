//! What loads draw through a component, leg by leg, exactly.

use super::Shape;
use crate::calc::continuous;
use crate::quantity::{Amperes, Fraction, PowerFactor, Ratio, Rounding, Volts};
use crate::site::{ComponentId, Load};
use crate::trade::{Duty, Leg};

/// What loads draw through a component, exactly. A load of unknown leg is kept apart, since it may be on either.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Demand {
    leg_a: Part,
    leg_b: Part,
    either_leg: Part,
    both_legs: Part,
    /// A load whose draw is not stated.
    pub without_draw: Option<ComponentId>,
    /// A load whose duty is not stated.
    pub without_duty: Option<ComponentId>,
    /// A load whose leg is not stated.
    pub without_leg: Option<ComponentId>,
    /// A sum that does not fit: no answer may rest on it.
    pub overflow: bool,
}

/// The continuous and the other part of a current, in microamperes, and what may be either.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Part {
    continuous: Fraction,
    other: Fraction,
    unknown: Fraction,
}

impl Part {
    const NOTHING: Self = Self { continuous: Fraction::ZERO, other: Fraction::ZERO, unknown: Fraction::ZERO };

    /// All of it, however long it lasts.
    fn whole(&self) -> Option<Fraction> {
        self.continuous.checked_add(self.other)?.checked_add(self.unknown)
    }

    fn is_zero(&self) -> bool {
        self.continuous.is_zero() && self.other.is_zero() && self.unknown.is_zero()
    }
}

/// The least and the greatest that a line current can be, as the legs of some loads are not known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bounds {
    /// If loads of unknown leg lie where they help most.
    pub least: Fraction,
    /// If they all lie on the heavier leg.
    pub greatest: Fraction,
}

impl Default for Demand {
    fn default() -> Self {
        Self::NOTHING
    }
}

impl Demand {
    /// Nothing is drawn.
    pub(super) const NOTHING: Self = Self {
        leg_a: Part::NOTHING,
        leg_b: Part::NOTHING,
        either_leg: Part::NOTHING,
        both_legs: Part::NOTHING,
        without_draw: None,
        without_duty: None,
        without_leg: None,
        overflow: false,
    };

    /// The demand of a load, which may lie between the lines of its system.
    pub(super) fn of_load(load: &Load, between_lines: bool) -> Self {
        let mut demand = Self::NOTHING;
        if load.running == Some(false) {
            return demand;
        }
        let Some(draw) = draw(load) else {
            demand.without_draw = Some(load.id());
            return demand;
        };
        let part = match load.duty {
            Some(Duty::NonContinuous) => Part { other: draw, ..Part::NOTHING },
            Some(Duty::Continuous) => Part { continuous: draw, ..Part::NOTHING },
            None => Part { unknown: draw, ..Part::NOTHING },
        };
        if load.duty.is_none() {
            demand.without_duty = Some(load.id());
        }
        match (between_lines, load.leg) {
            (true, _) | (false, Some(Leg::Both)) => demand.both_legs = part,
            (false, Some(Leg::A)) => demand.leg_a = part,
            (false, Some(Leg::B)) => demand.leg_b = part,
            (false, None) => {
                demand.either_leg = part;
                demand.without_leg = Some(load.id());
            }
        }
        demand
    }

    /// Adds what is drawn through a component that this one feeds. `first` chooses between two loads that lack a fact.
    pub(super) fn add(
        &mut self,
        below: &Self,
        first: impl Fn(Option<ComponentId>, Option<ComponentId>) -> Option<ComponentId>,
    ) {
        let sum = |into: &mut Part, part: &Part, overflow: &mut bool| {
            let parts = [
                (&mut into.continuous, part.continuous),
                (&mut into.other, part.other),
                (&mut into.unknown, part.unknown),
            ];
            for (sum, value) in parts {
                if value.is_zero() {
                    continue;
                }
                match sum.checked_add(value) {
                    Some(total) => *sum = total,
                    None => *overflow = true,
                }
            }
        };
        sum(&mut self.leg_a, &below.leg_a, &mut self.overflow);
        sum(&mut self.leg_b, &below.leg_b, &mut self.overflow);
        sum(&mut self.either_leg, &below.either_leg, &mut self.overflow);
        sum(&mut self.both_legs, &below.both_legs, &mut self.overflow);
        self.without_draw = first(self.without_draw, below.without_draw);
        self.without_duty = first(self.without_duty, below.without_duty);
        self.without_leg = first(self.without_leg, below.without_leg);
        self.overflow |= below.overflow;
    }

    /// The same load with what is of unknown duty as non-continuous: the lightest that it can be.
    #[must_use]
    pub fn lightest(mut self) -> Self {
        for part in [&mut self.leg_a, &mut self.leg_b, &mut self.either_leg, &mut self.both_legs] {
            if part.unknown.is_zero() {
                continue;
            }
            match part.other.checked_add(part.unknown) {
                Some(other) => *part = Part { other, unknown: Fraction::ZERO, ..*part },
                None => self.overflow = true,
            }
        }
        self
    }

    /// The bounds of the line current in a conductor of that shape, the continuous part weighed by `factor`, and with it
    /// what is of unknown duty: continuous is the graver.
    #[must_use]
    pub fn line_current(&self, shape: Shape, factor: Ratio) -> Option<Bounds> {
        if self.overflow {
            return None;
        }
        let weigh = |part: &Part| {
            if part.is_zero() {
                Some(Fraction::ZERO)
            } else if factor == Ratio::ONE {
                part.whole()
            } else {
                continuous::weighed(part.continuous.checked_add(part.unknown)?, part.other, factor).ok()
            }
        };
        let (a, b) = (weigh(&self.leg_a)?, weigh(&self.leg_b)?);
        let (either, both) = (weigh(&self.either_leg)?, weigh(&self.both_legs)?);
        match shape {
            Shape::OneLeg | Shape::TwoLegs => {
                let sum = a.checked_add(b)?.checked_add(either)?.checked_add(both)?;
                Some(Bounds { least: sum, greatest: sum })
            }
            Shape::ThreeWire => {
                let greatest = a.max(b).checked_add(both)?.checked_add(either)?;
                // Loads of unknown leg fill the lighter leg first, then share.
                let total = a.checked_add(b)?.checked_add(either)?;
                let even = total.checked_scale(1, 2)?;
                let least = a.max(b).max(even).checked_add(both)?;
                Some(Bounds { least, greatest })
            }
            Shape::ThreePhase => None,
        }
    }

    /// The currents of both legs as shown, loads of unknown leg on this one: (the heavier, the other).
    #[must_use]
    pub fn leg_currents(&self, this: Option<Leg>) -> Option<(Amperes, Amperes)> {
        self.legs()?.currents(this)
    }

    /// The currents of the legs, with what lies between them.
    pub(super) fn legs(&self) -> Option<Legs> {
        let both = self.both_legs.whole()?;
        let (a, b) = (self.leg_a.whole()?.checked_add(both)?, self.leg_b.whole()?.checked_add(both)?);
        Some(Legs { a, b, either: self.either_leg.whole()? })
    }

    /// The mean of the currents of both lines, rounded up: a load of unknown leg adds the same to it on either.
    pub(super) fn mean_of_lines(&self) -> Option<Amperes> {
        let legs = self.leg_a.whole()?.checked_add(self.leg_b.whole()?)?.checked_add(self.either_leg.whole()?)?;
        Some(legs.checked_scale(1, 2)?.checked_add(self.both_legs.whole()?)?.to_current(Rounding::Up))
    }

    /// The currents that let the voltage of `load` drop least: on its own leg as little as can be, on the other as much.
    pub(super) fn lightest_leg(&self, load: &Load) -> Option<(Amperes, Amperes)> {
        let (a, b) = (self.leg_a.whole()?, self.leg_b.whole()?);
        let either = self.either_leg.whole()?;
        let (this, other) = match load.leg {
            Some(Leg::A) => (a, b.checked_add(either)?),
            Some(Leg::B) => (b, a.checked_add(either)?),
            Some(Leg::Both) => (a.max(b), a.min(b).checked_add(either)?),
            None => {
                // Wherever it is, its own current is on its own leg.
                let own = draw(load)?;
                (a.min(b).checked_add(own)?, a.max(b).checked_add(either.absolute_difference(own)?)?)
            }
        };
        let both = self.both_legs.whole()?;
        Some((this.checked_add(both)?.to_current(Rounding::Down), other.checked_add(both)?.to_current(Rounding::Up)))
    }

    /// The bounds of the current in a neutral that both legs share: their difference on opposed legs, their sum where one
    /// line feeds both. Loads between the lines do not load it.
    #[must_use]
    pub fn neutral_current(&self, opposed: bool) -> Option<Bounds> {
        if self.overflow {
            return None;
        }
        let (a, b, either) = (self.leg_a.whole()?, self.leg_b.whole()?, self.either_leg.whole()?);
        if !opposed {
            let sum = a.checked_add(b)?.checked_add(either)?;
            return Some(Bounds { least: sum, greatest: sum });
        }
        let difference = a.absolute_difference(b)?;
        let least = if either >= difference { Fraction::ZERO } else { difference.absolute_difference(either)? };
        Some(Bounds { least, greatest: difference.checked_add(either)? })
    }

    /// Whether nothing is drawn.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        [self.leg_a, self.leg_b, self.either_leg, self.both_legs].iter().all(Part::is_zero)
    }
}

impl Bounds {
    /// How the current compares with a limit: whether it is within it, or cannot be told.
    #[must_use]
    pub fn within(&self, limit: Amperes) -> Option<bool> {
        let limit = Fraction::of_current(limit);
        if self.greatest <= limit {
            Some(true)
        } else if self.least > limit {
            Some(false)
        } else {
            None
        }
    }

    /// The greatest, rounded up to the milliampere for showing.
    #[must_use]
    pub fn shown(&self) -> Amperes {
        let exact = self.greatest.to_current(Rounding::Up);
        let milliamperes = exact.microamperes().div_euclid(1000) + i64::from(exact.microamperes() % 1000 != 0);
        milliamperes.checked_mul(1000).and_then(Amperes::new).unwrap_or(Amperes::MAX)
    }
}

/// The exact currents of two legs, and of loads that may be on either.
#[derive(Clone, Copy)]
pub(super) struct Legs {
    a: Fraction,
    b: Fraction,
    either: Fraction,
}

impl Legs {
    /// As shown, loads of unknown leg on this one: (this or the heavier, the other).
    pub(super) fn currents(self, this: Option<Leg>) -> Option<(Amperes, Amperes)> {
        let Self { a, b, either } = self;
        let (this, other) = match this {
            Some(Leg::A) => (a, b),
            Some(Leg::B) => (b, a),
            Some(Leg::Both) | None => (a.max(b), a.min(b)),
        };
        Some((this.checked_add(either)?.to_current(Rounding::Up), other.to_current(Rounding::Down)))
    }
}

/// The current that a load draws, in microamperes; `None` where its draw, or the power factor of its power, is not stated.
fn draw(load: &Load) -> Option<Fraction> {
    let voltage: Volts = *load.voltage;
    if let Some(current) = load.current {
        return Some(Fraction::of_current(*current));
    }
    if let Some(power) = load.apparent_power {
        return Fraction::of_apparent_power(*power, voltage);
    }
    let factor: PowerFactor = load.power_factor?;
    load.power.and_then(|power| Fraction::of_power(*power, voltage, factor))
}
