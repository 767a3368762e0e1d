//! The voltage that is left at the source's terminals, or at the end of a cord, while loads run and motors start.
//!
//! Each load counts as the impedance that draws its stated current at its rated voltage; a motor with its rotor held
//! is one, and for other loads the assumption is stated here. With the no-load voltage E behind the impedance
//! Z = R + jX, and the admittance Y of all loads together, the voltage is E / |1 + Z·Y|.
//!
//! Everything is fixed-point: Z in whole nΩ rounded up, Z·Y in 10⁻¹² parts rounded towards less voltage. A load
//! without a power factor counts with the angle that costs the most voltage. A leading load counts as one in phase.

use std::cmp::Ordering;

use crate::quantity::{Amperes, Ohms, PowerFactor, Quantity, Ratio, VoltAmperes, Volts, compare_products};

/// The impedance between the no-load voltage and the place where the voltage is wanted, there and back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Impedance {
    /// Resistance and reactance.
    Parts {
        /// Resistance.
        resistance: Ohms,
        /// Reactance.
        reactance: Ohms,
    },
    /// The magnitude alone; its angle is taken as the one that costs the most.
    Magnitude(Ohms),
}

/// A load at the end of an impedance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DipLoad {
    /// What it draws at its rated voltage.
    pub current: Amperes,
    /// Its rated voltage, more than 0.
    pub rated: Volts,
    /// Its power factor, lagging; for a starting motor that of its start.
    pub factor: Option<PowerFactor>,
}

/// The loads of one leg as Z·Y, to which loads are added one by one; more loads never raise the voltage.
#[derive(Clone, Copy, Debug)]
pub struct Sag {
    resistance: u128,
    reactance: u128,
    magnitude: u128,
    angle_known: bool,
    real: u128,
    imaginary_least: i128,
    imaginary_most: i128,
    /// What loads of unknown angle add to |1 + Z·Y| at most.
    any_angle: u128,
    /// What the rounding added to the real part at most.
    rounded: u128,
}

/// The voltages behind two legs of equal impedance with the neutral between them, and between their ends.
#[derive(Clone, Copy, Debug)]
pub struct Legs {
    /// Leg A.
    pub a: Sag,
    /// Leg B.
    pub b: Sag,
    /// Between the legs; its no-load voltage is that of both together.
    pub between: Sag,
}

/// 1 in the fixed point of Z·Y.
const ONE: u128 = 1_000_000_000_000;
const MILLION: u128 = 1_000_000;
const BILLION: u128 = 1_000_000_000;

impl Impedance {
    /// From the reactance of a generator, in percent of its rating: X = x · V² / S; `None` for a rating of 0.
    ///
    /// ```
    /// # use loadworthy::plan::dip::Impedance;
    /// // 25 % of 120 V and 3 kVA: 4.8 ohm times 0.25.
    /// let set = Impedance::of_reactance("25 %".parse()?, "3 kVA".parse()?, "120 V".parse()?).ok_or("no rating")?;
    /// assert_eq!(set, Impedance::Parts { resistance: "0 ohm".parse()?, reactance: "1.2 ohm".parse()? });
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn of_reactance(reactance: Ratio, rating: VoltAmperes, at: Volts) -> Option<Self> {
        // mV² over nVA is 10³ ohm; counted in nΩ and times millionths: 10³ · 10⁹ / 10⁶.
        let square = at.count().checked_mul(at.count())?;
        let dividend = square.checked_mul(i128::from(reactance.count_of_millionths()))?.checked_mul(1_000_000)?;
        let count = (rating.count() > 0).then(|| dividend.unsigned_abs().div_ceil(rating.count().unsigned_abs()))?;
        Some(Self::Parts { resistance: Ohms::ZERO, reactance: ohms(count)? })
    }

    /// From the current that a short circuit draws: |Z| = V / I; `None` for no current.
    #[must_use]
    pub fn of_fault_current(current: Amperes, at: Volts) -> Option<Self> {
        // mV over µA is 10³ ohm, counted in nΩ.
        let dividend = at.count().unsigned_abs() * 1_000_000_000_000;
        let count = (current > Amperes::ZERO).then(|| dividend.div_ceil(current.count().unsigned_abs()))?;
        Some(Self::Magnitude(ohms(count)?))
    }
}

fn ohms(nanoohms: u128) -> Option<Ohms> {
    let unit = Ohms::UNITS.first()?.count;
    // A nanoohm is no whole count; a picoohm of 3810 counts and its multiples are.
    Ohms::from_count(i128::try_from(nanoohms).ok()?.checked_mul(unit / 1_000_000_000)?)
}

fn nanoohms(ohms: Ohms) -> u128 {
    let unit = Ohms::UNITS.first().map_or(1, |unit| unit.count).unsigned_abs();
    (ohms.count().unsigned_abs() * BILLION).div_ceil(unit)
}

impl Sag {
    /// Nothing connected.
    #[must_use]
    pub fn new(impedance: Impedance) -> Self {
        let (resistance, reactance, magnitude, angle_known) = match impedance {
            Impedance::Parts { resistance, reactance } => {
                let (r, x) = (nanoohms(resistance), nanoohms(reactance));
                (r, x, root_up(r * r + x * x), true)
            }
            Impedance::Magnitude(magnitude) => (0, 0, nanoohms(magnitude), false),
        };
        Self {
            resistance,
            reactance,
            magnitude,
            angle_known,
            real: 0,
            imaginary_least: 0,
            imaginary_most: 0,
            any_angle: 0,
            rounded: 0,
        }
    }

    /// With one more load; `None` for a load without a rated voltage.
    #[must_use]
    pub fn with(mut self, load: DipLoad) -> Option<Self> {
        let current = load.current.count().unsigned_abs();
        let rated = load.rated.count().unsigned_abs();
        if rated == 0 {
            return None;
        }
        let Some(factor) = load.factor.filter(|_| self.angle_known) else {
            // µA times nΩ over mV is 10⁻¹².
            self.any_angle += (current * self.magnitude).div_ceil(rated);
            return Some(self);
        };
        let cosine = u128::from(factor.count_of_millionths().unsigned_abs());
        let sine = u128::from(factor.sine_in_billionths().unsigned_abs());
        let part = |ohms: u128, share: u128, of: u128| {
            // Currents to 10¹² µA, impedances to 10¹³ nΩ, shares to 10⁹: within 128 bits.
            let dividend = current * ohms * share;
            (dividend / (rated * of), dividend.div_ceil(rated * of))
        };
        let (r_cos, x_sin) = (part(self.resistance, cosine, MILLION), part(self.reactance, sine, BILLION));
        let (x_cos, r_sin) = (part(self.reactance, cosine, MILLION), part(self.resistance, sine, BILLION));
        let signed = |value: u128| i128::try_from(value).unwrap_or(i128::MAX);
        self.real += r_cos.1 + x_sin.1;
        self.rounded += (r_cos.1 - r_cos.0) + (x_sin.1 - x_sin.0);
        self.imaginary_least += signed(x_cos.0) - signed(r_sin.1);
        self.imaginary_most += signed(x_cos.1) - signed(r_sin.0);
        Some(self)
    }

    /// The least that |1 + Z·Y|² can be said to be at most, in the fixed point squared.
    fn square(&self) -> u128 {
        let real = ONE + self.real;
        let imaginary = self.imaginary_least.unsigned_abs().max(self.imaginary_most.unsigned_abs());
        let square = real.saturating_mul(real).saturating_add(imaginary.saturating_mul(imaginary));
        if self.any_angle == 0 {
            return square;
        }
        let sum = root_up(square).saturating_add(self.any_angle);
        sum.saturating_mul(sum)
    }

    /// The voltage, rounded down to the millivolt.
    #[must_use]
    pub fn voltage(&self, no_load: Volts) -> Volts {
        let millivolts = no_load.count().unsigned_abs() * ONE / root_up(self.square());
        i64::try_from(millivolts).ok().and_then(Volts::new).unwrap_or(Volts::MIN)
    }

    /// How the voltage compares with `rated` less the share `dip`, exactly: `Less` is too low.
    ///
    /// ```
    /// # use loadworthy::plan::dip::*;
    /// # use loadworthy::quantity::PowerFactor;
    /// // 30 A over 0.8 ohm at 120 V: Z·Y is 0.2, so exactly 100 V remain of 120 V.
    /// let cord = Impedance::Parts { resistance: "0.8 ohm".parse()?, reactance: "0 ohm".parse()? };
    /// let heater = DipLoad { current: "30 A".parse()?, rated: "120 V".parse()?, factor: Some(PowerFactor::UNITY) };
    /// let sag = Sag::new(cord).with(heater).ok_or("no voltage")?;
    /// assert_eq!(sag.voltage("120 V".parse()?), "100 V".parse()?);
    /// assert!(sag.compare("120 V".parse()?, "125 V".parse()?, "20 %".parse()?).is_eq());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn compare(&self, no_load: Volts, rated: Volts, dip: Ratio) -> Ordering {
        let left = MILLION.saturating_sub(u128::from(dip.count_of_millionths().unsigned_abs()));
        let square = |value: u128| value * value;
        // E² · 10²⁴ against (rated · left)² · |1 + Z·Y|², with the share in millionths.
        compare_products(
            square(no_load.count().unsigned_abs()).saturating_mul(square(MILLION)),
            square(ONE),
            square(rated.count().unsigned_abs()).saturating_mul(square(left)),
            self.square(),
        )
    }

    /// The share of the voltage before that is left after, for a source whose regulator had restored the voltage
    /// before the last loads were added: |1 + Z·Y| before over after, rounded down to a millionth.
    ///
    /// It is never less than what [`Sag::voltage`] says of a source that does not restore it.
    #[must_use]
    pub fn restored(&self, before: &Self) -> Ratio {
        let least_before = {
            let imaginary = match (before.imaginary_least, before.imaginary_most) {
                (least, most) if least <= 0 && most >= 0 => 0,
                (least, most) => least.unsigned_abs().min(most.unsigned_abs()),
            };
            // Rounding up of the real part is undone by its greatest error; any angle adds nothing.
            let real = ONE + before.real.saturating_sub(before.rounded);
            (real * real + imaginary * imaginary).isqrt()
        };
        let share = least_before.min(root_up(self.square())) * MILLION / root_up(self.square());
        i64::try_from(share).ok().and_then(Ratio::new).unwrap_or(Ratio::MIN)
    }
}

impl Sag {
    /// Both lots of loads at once.
    fn plus(self, other: Self) -> Self {
        Self {
            real: self.real.saturating_add(other.real),
            imaginary_least: self.imaginary_least.saturating_add(other.imaginary_least),
            imaginary_most: self.imaginary_most.saturating_add(other.imaginary_most),
            any_angle: self.any_angle.saturating_add(other.any_angle),
            rounded: self.rounded.saturating_add(other.rounded),
            ..self
        }
    }

    /// Half of the loads, rounded towards less voltage.
    fn half(self) -> Self {
        Self {
            real: self.real.div_ceil(2),
            imaginary_least: self.imaginary_least.div_euclid(2),
            imaginary_most: self.imaginary_most.saturating_add(1).div_euclid(2),
            any_angle: self.any_angle.div_ceil(2),
            rounded: self.rounded.div_ceil(2).saturating_add(1),
            ..self
        }
    }

    fn with_any_angle(self, more: u128) -> Self {
        Self { any_angle: self.any_angle.saturating_add(more), ..self }
    }

    /// |Z·Y| at most.
    fn size(&self) -> u128 {
        let imaginary = self.imaginary_least.unsigned_abs().max(self.imaginary_most.unsigned_abs());
        size(self.real, imaginary).saturating_add(self.any_angle)
    }

    /// |Z·Y| of these loads less that of others, at most.
    fn size_of_difference(&self, other: &Self) -> u128 {
        let real = self.real.abs_diff(other.real).saturating_add(self.rounded.max(other.rounded));
        let imaginary = [(self.imaginary_least, other.imaginary_most), (self.imaginary_most, other.imaginary_least)];
        let imaginary = imaginary.map(|(one, other)| one.abs_diff(other)).into_iter().max().unwrap_or(0);
        size(real, imaginary).saturating_add(self.any_angle).saturating_add(other.any_angle)
    }
}

impl Legs {
    /// From the loads of each leg, and those between the legs as one leg sees them: their current at half their voltage.
    ///
    /// With a, b and 2c for these three Z·Y, the node equations give 1 + a + 2c + c(a − b) / (1 + b) for leg A, the
    /// same with a and b changed for leg B, and 1 + m + 2c − d² / (1 + m) between the legs, where m is the mean of a and
    /// b and d half of their difference. Neither |1 + b| nor |1 + m| is below 1, as loads lag and the source is no
    /// capacitor; so what unequal legs add is at most |c| · |a − b|, or |d|². It counts whole: never too much voltage.
    ///
    /// ```
    /// # use loadworthy::plan::dip::*;
    /// # use loadworthy::quantity::PowerFactor;
    /// let leg = Sag::new(Impedance::Parts { resistance: "1 ohm".parse()?, reactance: "0 ohm".parse()? });
    /// let load = |volts: &str| -> Result<DipLoad, loadworthy::quantity::QuantityError> {
    ///     Ok(DipLoad { current: "12 A".parse()?, rated: volts.parse()?, factor: Some(PowerFactor::UNITY) })
    /// };
    /// let loaded = leg.with(load("120 V")?).ok_or("no voltage")?;
    /// let between = leg.with(load("120 V")?).ok_or("no voltage")?;
    /// // a = b = 0.1 and 2c = 0.1: 120 V / 1.2 on each leg, twice that between them.
    /// let equal = Legs::new(loaded, loaded, between);
    /// assert_eq!(equal.a.voltage("120 V".parse()?), "100 V".parse()?);
    /// assert_eq!(equal.between.voltage("240 V".parse()?), "200 V".parse()?);
    /// // b = 0: exactly 120 V / (1.2 + 0.05 × 0.1) on leg A.
    /// let unequal = Legs::new(loaded, leg, between);
    /// assert_eq!(unequal.a.voltage("120 V".parse()?), "99.585 V".parse()?);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn new(a: Sag, b: Sag, between: Sag) -> Self {
        let difference = a.size_of_difference(&b);
        let leg = between.size().saturating_mul(difference).div_ceil(2 * ONE);
        let lines = difference.saturating_mul(difference).div_ceil(4 * ONE);
        Self {
            a: a.plus(between).with_any_angle(leg),
            b: b.plus(between).with_any_angle(leg),
            between: a.plus(b).half().plus(between).with_any_angle(lines),
        }
    }
}

fn size(real: u128, imaginary: u128) -> u128 {
    root_up(real.saturating_mul(real).saturating_add(imaginary.saturating_mul(imaginary)))
}

/// The least whole number whose square is at least this.
fn root_up(square: u128) -> u128 {
    let root = square.isqrt();
    root + u128::from(root * root != square)
}
