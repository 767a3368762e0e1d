//! Voltage drop along a path, by the three methods of the trade.
//!
//! Every conductor of the loop adds a term I · Z; the methods differ in what Z is. Sections (NEC): Chapter 9 Tables 8
//! and 9 with their notes. Leaves out: capacitance, leading power factors, unequal power factors on two legs.

pub use super::k_factor::{KFactor, KFactorError};
use super::{CannotTell, Silent, Step, Working, cannot_tell};
use crate::code::{Code, Gap};
use crate::quantity::{
    Amperes, Celsius, Drop, Meters, NANOVOLT, Ohms, OhmsPerLength, PowerFactor, Quantity, Ratio, Rounding,
    SQUARE_ROOT_OF_THREE, Volts,
};
use crate::trade::{Conduit, Material, WireSize};

const DROP: &str = "the voltage drop";

/// How the impedance of a conductor is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// Direct-current resistance of Chapter 9 Table 8, corrected to a conductor temperature:
    /// R = R₇₅ · (1 + α · (T − 75 °C)).
    DirectCurrent {
        /// The temperature of the conductor.
        temperature: Celsius,
    },
    /// The constant form: R = K / A, with K in ohm circular mils per foot and A in circular mils.
    Constant {
        /// The constant.
        k: KFactor,
    },
    /// Effective impedance of Chapter 9 Table 9: Z = R · cos φ + X · sin φ.
    EffectiveImpedance {
        /// The material of the raceway.
        conduit: Conduit,
        /// cos φ.
        power_factor: PowerFactor,
    },
    /// The exact phasor with the sending voltage held: V_load = √(V² − B²) − A, where A = Σ I (R cos φ + X sin φ) and
    /// B = Σ I (X cos φ − R sin φ), and φ is the angle of the current to the voltage at the load.
    ExactPhasor {
        /// The material of the raceway.
        conduit: Conduit,
        /// cos φ.
        power_factor: PowerFactor,
    },
}

impl Method {
    /// Its name, as it stands in an answer.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::DirectCurrent { .. } => "direct-current resistance",
            Self::Constant { .. } => "constant K",
            Self::EffectiveImpedance { .. } => "effective impedance",
            Self::ExactPhasor { .. } => "exact phasor",
        }
    }
}

/// A conductor whose drop is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wire {
    /// Of a material and a size; its impedance is read from the tables.
    Sized(Material, WireSize),
    /// Of a stated resistance and reactance, which stand as they are, whatever the method's temperature.
    Stated {
        /// Resistance of one conductor.
        resistance: OhmsPerLength,
        /// Reactance of one conductor.
        reactance: OhmsPerLength,
    },
}

/// A stretch of the path with one kind of conductor and one load current.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Segment {
    /// The ungrounded conductors, and the return where `neutral` does not say otherwise.
    pub wire: Wire,
    /// The neutral, where it differs.
    pub neutral: Option<Wire>,
    /// The length, one way.
    pub length: Meters,
    /// The currents.
    pub currents: Currents,
}

/// The currents of a stretch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Currents {
    /// There and back over two like conductors: 120 V or 240 V two-wire.
    TwoWire(Amperes),
    /// Three balanced line currents; the drop is between lines.
    ThreePhase(Amperes),
    /// Two legs of a three-wire 120/240 V circuit; the neutral carries the difference. The drop is that of a leg.
    Legs {
        /// The current of the leg that is asked about.
        this: Amperes,
        /// The current of the other leg.
        other: Amperes,
    },
}

impl Currents {
    /// The current in the way back: that of two wires whole, that of two legs their difference, of three balanced
    /// phases none.
    ///
    /// ```
    /// # use loadworthy::calc::voltage_drop::Currents;
    /// let legs = Currents::Legs { this: "5 A".parse()?, other: "8 A".parse()? };
    /// assert_eq!(legs.neutral(), "3 A".parse()?);
    /// # Ok::<(), loadworthy::quantity::QuantityError>(())
    /// ```
    #[must_use]
    pub fn neutral(self) -> Amperes {
        match self {
            Self::TwoWire(current) => current,
            Self::ThreePhase(_) => Amperes::ZERO,
            Self::Legs { this, other } => {
                let (less, more) = if this < other { (this, other) } else { (other, this) };
                // Never below zero, so never `None`.
                more.checked_sub(less).unwrap_or(Amperes::ZERO)
            }
        }
    }
}

/// A voltage drop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct VoltageDrop {
    /// The drop. Exact; by the phasor method rounded up to the nanovolt.
    pub drop: Drop,
    /// The voltage it is taken from.
    pub supply: Volts,
    /// Whether the voltage rises instead: a lightly loaded leg gains from the neutral's drop.
    pub rises: bool,
}

impl VoltageDrop {
    /// The drop that [`part`]s add up to.
    pub(crate) fn of_parts(supply: Volts, sum: i128) -> Self {
        Self { drop: magnitude(sum), supply, rises: sum < 0 }
    }

    /// Whether the drop is at most `share` of the supply voltage, exactly.
    #[must_use]
    pub fn within(&self, share: Ratio) -> bool {
        self.rises || self.drop.compare_share(self.supply, share).is_le()
    }

    /// The voltage at the load, rounded down to the millivolt for showing (a rise is rounded down too).
    #[must_use]
    pub fn at_load(&self) -> Volts {
        // Nothing is left of the supply by a drop beyond the range of a voltage.
        let drop = self.drop.to_volts().unwrap_or(Volts::MAX);
        if self.rises {
            // Rounded up, a rise could be shown a millivolt too high: take that back.
            let exact = Drop::from_volts(drop) == self.drop;
            let shown = if exact { Some(drop) } else { drop.checked_sub(Volts::new(1).unwrap_or(Volts::MIN)) };
            return self.supply.checked_add(shown.unwrap_or(Volts::MIN)).unwrap_or(Volts::MAX);
        }
        self.supply.checked_sub(drop).unwrap_or(Volts::MIN)
    }

    /// The drop as a share of the supply voltage, rounded up to a ten-thousandth of a percent for showing.
    #[must_use]
    pub fn share(&self) -> Option<Ratio> {
        // Nanovolts, rounded up, so that the product with a million fits whatever the drop.
        let drop = self.drop.count().unsigned_abs().div_ceil(NANOVOLT.unsigned_abs());
        let supply = self.supply.count().unsigned_abs() * 1_000_000;
        let millionths = drop.checked_mul(1_000_000)?.checked_add(supply.checked_sub(1)?)?.checked_div(supply)?;
        Ratio::from_count(i128::try_from(millionths).ok()?)
    }
}

/// The drop over a path of segments from `supply`.
///
/// ```
/// # use loadworthy::{calc::{voltage_drop::*, Silent}, code::{Edition, Nec}, trade::Material};
/// // 16 A over 50 ft of 12 AWG copper and back, at the table's 75 °C: 1.98 Ω/kft stranded.
/// let segment = Segment {
///     wire: Wire::Sized(Material::Copper, "12 AWG".parse()?),
///     neutral: None,
///     length: "50 ft".parse()?,
///     currents: Currents::TwoWire("16 A".parse()?),
/// };
/// let method = Method::DirectCurrent { temperature: "75 °C".parse()? };
/// let found = voltage_drop(Nec::standard(Edition::Nec2023), "120 V".parse()?, &[segment], method, &mut Silent)?;
/// assert_eq!(found.drop.to_string(), "3.168 V");
/// assert!(found.within("3 %".parse()?));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`CannotTell`] for a conductor whose impedance the tables do not give.
pub fn voltage_drop(
    code: &dyn Code,
    supply: Volts,
    path: &[Segment],
    method: Method,
    working: &mut impl Working,
) -> Result<VoltageDrop, CannotTell> {
    let mut sum = Sum::default();
    for segment in path {
        add_segment(code, segment, method, &mut sum, working).map_err(cannot_tell(DROP))?;
    }
    let found = match method {
        Method::ExactPhasor { .. } => phasor(supply, &sum),
        _ => VoltageDrop::of_parts(supply, sum.in_phase),
    };
    working.step(|| {
        let percent = found.share().map_or_else(String::new, |share| format!(", {share} of {supply}"));
        Step::new(format!("voltage drop by {}", method.name()), format!("{}{percent}", found.drop.rounded_up()))
    });
    Ok(found)
}

/// What one stretch adds to the drop of its path by a method other than the phasor's: a count of [`Drop`], negative where
/// it raises the voltage.
///
/// # Errors
/// [`CannotTell`] for a conductor whose impedance the tables do not give.
pub(crate) fn part(code: &dyn Code, stretch: &Segment, method: Method) -> Result<i128, CannotTell> {
    let mut sum = Sum::default();
    add_segment(code, stretch, method, &mut sum, &mut Silent).map_err(cannot_tell(DROP))?;
    Ok(sum.in_phase)
}

/// Σ I (R cos φ + X sin φ) and Σ I (X cos φ − R sin φ), as counts of [`Drop`]; signed, since a neutral may help.
#[derive(Default)]
struct Sum {
    in_phase: i128,
    quadrature: i128,
}

/// What one conductor of one unit of length adds per ampere, in phase with the load's voltage and at right angles to it.
struct Effective {
    in_phase: OhmsPerLength,
    quadrature: i128,
}

fn add_segment(
    code: &dyn Code,
    segment: &Segment,
    method: Method,
    sum: &mut Sum,
    working: &mut impl Working,
) -> Result<(), Gap> {
    let wire = effective(code, segment.wire, method, working)?;
    match segment.currents {
        Currents::TwoWire(current) => {
            let back = match segment.neutral {
                Some(neutral) => effective(code, neutral, method, working)?,
                None => Effective { ..wire },
            };
            sum.add(current, false, &wire, segment.length);
            sum.add(current, false, &back, segment.length);
        }
        Currents::ThreePhase(current) => sum.add(current, false, &wire.times_square_root_of_three(), segment.length),
        Currents::Legs { this, other } => {
            let neutral = match segment.neutral {
                Some(neutral) => effective(code, neutral, method, working)?,
                None => Effective { ..wire },
            };
            sum.add(this, false, &wire, segment.length);
            sum.add(segment.currents.neutral(), this < other, &neutral, segment.length);
        }
    }
    working.step(|| {
        let (what, result) = match segment.currents {
            Currents::TwoWire(current) => ("two conductors", current.to_string()),
            Currents::ThreePhase(current) => ("three-phase, times 1.732050808", current.to_string()),
            Currents::Legs { this, other } => ("leg and neutral", format!("{this} on this leg, {other} on the other")),
        };
        Step::new(format!("{}, {what}", segment.length), result)
    });
    Ok(())
}

impl Sum {
    fn add(&mut self, current: Amperes, helps: bool, effective: &Effective, length: Meters) {
        let sign = if helps { -1 } else { 1 };
        let ohms: Ohms = effective.in_phase * length;
        self.in_phase = self.in_phase.saturating_add(sign * (current * ohms).count());
        let across = effective.quadrature.saturating_mul(length.count()).saturating_mul(current.count());
        self.quadrature = self.quadrature.saturating_add(sign * across);
    }
}

impl Effective {
    /// √3 to nine digits, rounded up: part of the definition, so that every door agrees.
    fn times_square_root_of_three(&self) -> Self {
        let (numerator, denominator) = SQUARE_ROOT_OF_THREE;
        let up = |count: i128| -> i128 {
            let scaled = count.abs().saturating_mul(numerator);
            let magnitude = scaled / denominator + i128::from(scaled % denominator != 0);
            if count < 0 { -magnitude } else { magnitude }
        };
        Self {
            in_phase: OhmsPerLength::from_count(up(self.in_phase.count())).unwrap_or(OhmsPerLength::MAX),
            quadrature: up(self.quadrature),
        }
    }
}

fn effective(code: &dyn Code, wire: Wire, method: Method, working: &mut impl Working) -> Result<Effective, Gap> {
    match method {
        Method::DirectCurrent { temperature } => {
            let resistance = match wire {
                Wire::Stated { resistance, .. } => resistance,
                Wire::Sized(material, size) => direct_current(code, material, size, temperature, working)?,
            };
            Ok(Effective { in_phase: resistance, quadrature: 0 })
        }
        Method::Constant { k } => {
            let resistance = match wire {
                Wire::Stated { resistance, .. } => resistance,
                Wire::Sized(_, size) => by_constant(code, k, size, working)?,
            };
            Ok(Effective { in_phase: resistance, quadrature: 0 })
        }
        Method::EffectiveImpedance { conduit, power_factor } | Method::ExactPhasor { conduit, power_factor } => {
            let (resistance, reactance) = match wire {
                Wire::Stated { resistance, reactance } => (resistance, reactance),
                Wire::Sized(material, size) => {
                    let cell = code.impedance(material, conduit, size)?;
                    working.step(|| {
                        let (resistance, reactance) = cell.value;
                        let what = format!("{size} {material}, {conduit} conduit: resistance, reactance");
                        Step::new(what, format!("{resistance}, {reactance}")).from_cell(cell.place, cell.grade, code)
                    });
                    cell.value
                }
            };
            Ok(at_power_factor(resistance, reactance, power_factor, working))
        }
    }
}

/// R = R₇₅ (1 + α (T − 75 °C)), exact for printed cells, else rounded up to 10⁻¹² Ω per 381 km.
fn direct_current(
    code: &dyn Code,
    material: Material,
    size: WireSize,
    temperature: Celsius,
    working: &mut impl Working,
) -> Result<OhmsPerLength, Gap> {
    let cell = code.resistance(material, size)?;
    working.step(|| Step::read(format!("{size} {material}, direct-current resistance"), cell, code));
    let coefficient = code.temperature_coefficient(material)?;
    let (alpha, reference) = coefficient.value;
    if temperature == reference {
        return Ok(cell.value);
    }
    const ONE: i128 = 100_000 * 9000;
    let factor = ONE + i128::from(alpha) * i128::from(temperature.above(reference).ninths_of_millidegrees());
    let scaled = cell.value.count().saturating_mul(factor.max(0));
    let resistance = OhmsPerLength::from_count(scaled / ONE + i128::from(scaled % ONE != 0))
        .ok_or(Gap::Outside(cell.place.table))?;
    working.step(|| {
        let what = format!("conductor at {temperature}: times 1 + alpha (T - {reference})");
        Step::new(what, resistance.to_string()).from_cell(coefficient.place, coefficient.grade, code)
    });
    Ok(resistance)
}

/// R = K / A, rounded up to 10⁻¹² Ω per 381 km.
fn by_constant(code: &dyn Code, k: KFactor, size: WireSize, working: &mut impl Working) -> Result<OhmsPerLength, Gap> {
    let area = code.area(size)?;
    // K [10^-4 ohm cmil / ft] / A [cmil] in counts of 10^-12 ohm per 381 km, which is 1.25 * 10^18 to the ohm per foot.
    const COUNTS: i128 = 125_000_000_000_000;
    let (numerator, divisor) = (i128::from(k.ten_thousandths()) * COUNTS, area.value.count().max(1));
    let resistance = OhmsPerLength::from_count(numerator / divisor + i128::from(numerator % divisor != 0))
        .ok_or(Gap::Outside(area.place.table))?;
    working.step(|| {
        Step::new(format!("{size}: K {k} over {}", area.value), shown(resistance))
            .from_cell(area.place, area.grade, code)
    });
    Ok(resistance)
}

fn at_power_factor(
    resistance: OhmsPerLength,
    reactance: OhmsPerLength,
    power_factor: PowerFactor,
    working: &mut impl Working,
) -> Effective {
    let cosine = i128::from(power_factor.count_of_millionths()) * 1000;
    let sine = i128::from(power_factor.sine_in_billionths());
    const ONE: i128 = 1_000_000_000;
    let up = |count: i128| count / ONE + i128::from(count % ONE != 0);
    let in_phase = up(resistance.count() * cosine + reactance.count() * sine);
    let across = reactance.count() * cosine - resistance.count() * sine;
    let in_phase = OhmsPerLength::from_count(in_phase).unwrap_or(OhmsPerLength::MAX);
    working.step(|| Step::new(format!("effective impedance at power factor {power_factor}"), shown(in_phase)));
    // Away from zero, whichever way it points: a larger B never raises the voltage at the load.
    Effective { in_phase, quadrature: across.signum() * up(across.abs()) }
}

/// The load's voltage with the sending voltage held, in nanovolts, every rounding towards less.
fn phasor(supply: Volts, sum: &Sum) -> VoltageDrop {
    let sent = supply.count() * 1_000_000;
    let in_phase = sum.in_phase.div_euclid(NANOVOLT) + i128::from(sum.in_phase.rem_euclid(NANOVOLT) != 0);
    let across = (sum.quadrature.unsigned_abs()).div_ceil(NANOVOLT.unsigned_abs());
    let square = sent.unsigned_abs().pow(2).saturating_sub(across.saturating_mul(across));
    let root = i128::try_from(square.isqrt()).unwrap_or(0);
    let at_load = root.saturating_sub(in_phase).max(0);
    let difference = sent - at_load;
    VoltageDrop { drop: magnitude(difference.saturating_mul(NANOVOLT)), supply, rises: difference < 0 }
}

fn magnitude(count: i128) -> Drop {
    Drop::from_count(count.saturating_abs()).unwrap_or(Drop::MAX)
}

fn shown(resistance: OhmsPerLength) -> String {
    let unit = OhmsPerLength::UNITS.first();
    unit.map_or_else(String::new, |unit| format!("{} {}", resistance.in_unit(unit, 6, Rounding::Up), unit.symbol))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::code::{Edition, Nec};

    fn drop(supply: &str, segments: &[Segment], method: Method) -> VoltageDrop {
        voltage_drop(Nec::standard(Edition::Nec2023), supply.parse().unwrap(), segments, method, &mut Silent).unwrap()
    }

    fn stated(resistance: &str, reactance: &str) -> Wire {
        Wire::Stated { resistance: resistance.parse().unwrap(), reactance: reactance.parse().unwrap() }
    }

    #[test]
    fn exactly_three_percent_is_within_three_percent() {
        let at = |milliamperes: i64| Segment {
            wire: stated("1 ohm/kft", "0 ohm/kft"),
            neutral: None,
            length: "100 ft".parse().unwrap(),
            currents: Currents::TwoWire(Amperes::new(milliamperes * 1000).unwrap()),
        };
        let method = Method::DirectCurrent { temperature: "75 °C".parse().unwrap() };
        let three = Ratio::percent(3);
        assert!(drop("120 V", &[at(17_999)], method).within(three));
        assert!(drop("120 V", &[at(18_000)], method).within(three));
        assert!(!drop("120 V", &[at(18_001)], method).within(three));
    }

    #[test]
    fn the_exact_phasor_agrees_with_two_power_flow_libraries() {
        // 480 V three-phase, R 0.24 and X 0.0126 ohm, 20 A at 0.85: OpenDSS and power-grid-model give 4.222413 V to neutral.
        let segment = Segment {
            wire: stated("0.24 ohm/kft", "0.0126 ohm/kft"),
            neutral: None,
            length: "1000 ft".parse().unwrap(),
            currents: Currents::ThreePhase("20 A".parse().unwrap()),
        };
        let power_factor = "0.85".parse().unwrap();
        let exact = drop("480 V", &[segment], Method::ExactPhasor { conduit: Conduit::Pvc, power_factor });
        let microvolts_to_neutral = exact.drop.count() / NANOVOLT * 1_000_000 / 1_732_050_808;
        assert!((4_222_413 - microvolts_to_neutral).abs() <= 1, "{microvolts_to_neutral}");
        // The approximation gives 4.212749 V.
        let near = drop("480 V", &[segment], Method::EffectiveImpedance { conduit: Conduit::Pvc, power_factor });
        let microvolts_to_neutral = near.drop.count() / NANOVOLT * 1_000_000 / 1_732_050_808;
        assert!((4_212_749 - microvolts_to_neutral).abs() <= 1, "{microvolts_to_neutral}");
    }

    #[test]
    fn the_lightly_loaded_leg_gains() {
        let legs = |this: &str, other: &str| Segment {
            wire: stated("0.1 ohm/kft", "0 ohm/kft"),
            neutral: Some(stated("0.2 ohm/kft", "0 ohm/kft")),
            length: "1000 ft".parse().unwrap(),
            currents: Currents::Legs { this: this.parse().unwrap(), other: other.parse().unwrap() },
        };
        let method = Method::DirectCurrent { temperature: "75 °C".parse().unwrap() };
        // 250 V legs, 50 A and 40 A, outers 0.1 ohm, neutral 0.2 ohm: 243 V and 248 V.
        assert_eq!(drop("250 V", &[legs("50 A", "40 A")], method).at_load(), "243 V".parse().unwrap());
        assert_eq!(drop("250 V", &[legs("40 A", "50 A")], method).at_load(), "248 V".parse().unwrap());
        let gain = drop("250 V", &[legs("1 A", "50 A")], method);
        assert!(gain.rises && gain.within(Ratio::percent(0)));
        assert_eq!(gain.at_load(), "259.7 V".parse().unwrap());
    }
}
