//! Doubles from C as exact quantities, and back.
//!
//! A double is read as the shortest decimal that prints as it: 0.1 is 0.1. It is taken where that decimal can be kept
//! exactly, and refused where it cannot; nothing is rounded. What goes out is the double nearest to the exact value.

use std::fmt::Display;
use std::str::FromStr;

use loadworthy::calc::voltage_drop::KFactor;
use loadworthy::quantity::{
    Amperes, Celsius, Drop, Meters, PowerFactor, Quantity, QuantityError, Ratio, Rounding, Volts,
};
use loadworthy::trade::WireSize;

use crate::error::{Result, fail, lw_error};
use crate::status::{LW_STATUS_BAD_CHOICE, LW_STATUS_BAD_NUMBER, LW_STATUS_CONTRADICTION, LW_STATUS_NOT_STATED};

/// A wire size: 27 to 1 for 27 AWG to 1 AWG, -1 to -4 for 1/0 to 4/0 AWG, 250 to 2000 for that many kcmil. 0 is not
/// stated.
pub type lw_wire_size = i32;

/// 1/0 AWG.
pub const LW_WIRE_SIZE_1_0_AWG: lw_wire_size = -1;
/// 2/0 AWG.
pub const LW_WIRE_SIZE_2_0_AWG: lw_wire_size = -2;
/// 3/0 AWG.
pub const LW_WIRE_SIZE_3_0_AWG: lw_wire_size = -3;
/// 4/0 AWG.
pub const LW_WIRE_SIZE_4_0_AWG: lw_wire_size = -4;

/// A unit, as the quantity counts it: a test compares both with the core.
pub(crate) struct Unit {
    symbol: &'static str,
    count: i64,
    offset: i64,
    /// The finest power of ten that a unit is divided into without dividing a count, 100 for hundredths.
    steps: i64,
}

impl Unit {
    pub(crate) const AMPERE: Self = Self::new("A", 1_000_000, 0);
    pub(crate) const VOLT: Self = Self::new("V", 1000, 0);
    pub(crate) const FOOT: Self = Self::new("ft", 304_800, 0);
    pub(crate) const METER: Self = Self::new("m", 1_000_000, 0);
    pub(crate) const CUBIC_INCH: Self = Self::new("in3", 16_387_064, 0);
    pub(crate) const INCH: Self = Self::new("in", 25_400, 0);
    pub(crate) const CELSIUS: Self = Self::new("°C", 9000, 0);
    pub(crate) const FAHRENHEIT: Self = Self::new("°F", 5000, -160_000);
    pub(crate) const PERCENT: Self = Self::new("%", 10_000, 0);
    pub(crate) const OHM_PER_KILOFOOT: Self = Self::new("ohm/kft", 1_250_000_000_000_000, 0);
    pub(crate) const HOUR: Self = Self::new("h", 3_600_000, 0);

    const fn new(symbol: &'static str, count: i64, offset: i64) -> Self {
        let mut steps = 1;
        while count % (steps * 10) == 0 && steps < 1_000_000 {
            steps *= 10;
        }
        Self { symbol, count, offset, steps }
    }
}

/// A double that is the nearest to a decimal of few enough decimals for a whole number of counts. What it does not take,
/// such as the eighth of an inch, is read as text.
#[inline(always)]
fn exact<Q: Quantity>(value: f64, unit: &Unit) -> Option<Q> {
    // Most numbers that people write are whole, and need no division.
    match exact_in(value, unit, 1) {
        None => exact_in(value, unit, unit.steps),
        whole => whole,
    }
}

#[inline(always)]
fn exact_in<Q: Quantity>(value: f64, unit: &Unit, steps: i64) -> Option<Q> {
    let count = steps_of(value, steps)?.checked_mul(unit.count / steps)?.checked_add(unit.offset)?;
    Q::from_count(i128::from(count))
}

/// How many steps of which one has so many, a power of ten up to a million; `None` where it is not a whole number of them.
/// Beyond 10^15 it is a number without meaning that is beyond 10^15 too, outside of every range: a test says so.
#[inline(always)]
fn steps_of(value: f64, steps: i64) -> Option<i64> {
    // Adding and taking away this number rounds to a whole one, whose last bits are then those of the sum.
    const ROUND: f64 = 6_755_399_441_055_744.0; // 3 · 2^51
    #[expect(clippy::cast_precision_loss, reason = "a power of ten up to a million")]
    let scale = steps as f64;
    let sum = value * scale + ROUND;
    let whole = sum - ROUND;
    // The division rounds to nearest, as reading the decimal would. Fifteen digits pass through a double unchanged, so that
    // no shorter decimal prints as the same double.
    #[expect(clippy::float_cmp, reason = "the nearest double of the decimal, or not: nothing in between")]
    if whole / scale != value {
        return None;
    }
    Some(sum.to_bits().wrapping_sub(ROUND.to_bits()).cast_signed())
}

/// A number that must be stated.
#[inline(always)]
pub(crate) fn required<Q>(value: f64, unit: &Unit, place: &'static str) -> Result<Q>
where
    Q: Quantity + FromStr<Err = QuantityError>,
{
    match exact(value, unit) {
        Some(quantity) => Ok(quantity),
        None => by_text(value, unit.symbol, place),
    }
}

/// A number that may be left out: not a number, NAN, says so.
#[inline(always)]
pub(crate) fn given<Q>(value: f64, unit: &Unit, place: &'static str) -> Result<Option<Q>>
where
    Q: Quantity + FromStr<Err = QuantityError>,
{
    if value.is_nan() { Ok(None) } else { required(value, unit, place).map(Some) }
}

/// What the fast way does not take: the rare exact value, or the message of the core.
#[cold]
#[inline(never)]
fn by_text<Q>(value: f64, symbol: &str, place: &str) -> Result<Q>
where
    Q: Quantity + FromStr<Err = QuantityError>,
{
    if value.is_nan() {
        return Err(not_stated(Q::NOUN, place));
    }
    finite(value, place)?;
    // The way a double prints is the shortest decimal that reads as the same double.
    format!("{value} {symbol}").parse().map_err(|error| fail(LW_STATUS_BAD_NUMBER, place, format_args!("{error}")))
}

fn finite(value: f64, place: &str) -> Result<()> {
    if value.is_finite() {
        Ok(())
    } else {
        Err(fail(LW_STATUS_BAD_NUMBER, place, format_args!("{value} is no quantity; write a finite number")))
    }
}

#[cold]
#[inline(never)]
fn not_stated(noun: &str, place: &str) -> Box<lw_error> {
    fail(LW_STATUS_NOT_STATED, place, format_args!("the {noun} is not stated and decides the answer; write a number"))
}

#[cold]
#[inline(never)]
fn both(one: &str, other: &str) -> Box<lw_error> {
    fail(
        LW_STATUS_CONTRADICTION,
        one,
        format_args!("stands for {other} too; state one of them and leave NAN in the other"),
    )
}

/// A temperature in one of two units; each with the name of its field.
#[inline(always)]
pub(crate) fn temperature(celsius: (f64, &'static str), fahrenheit: (f64, &'static str)) -> Result<Option<Celsius>> {
    match (celsius.0.is_nan(), fahrenheit.0.is_nan()) {
        (_, true) => given(celsius.0, &Unit::CELSIUS, celsius.1),
        (true, false) => given(fahrenheit.0, &Unit::FAHRENHEIT, fahrenheit.1),
        (false, false) => Err(both(celsius.1, fahrenheit.1)),
    }
}

/// A length in one of two units; each with the name of its field.
#[inline(always)]
pub(crate) fn length(feet: (f64, &'static str), meters: (f64, &'static str)) -> Result<Option<Meters>> {
    match (feet.0.is_nan(), meters.0.is_nan()) {
        (_, true) => given(feet.0, &Unit::FOOT, feet.1),
        (true, false) => given(meters.0, &Unit::METER, meters.1),
        (false, false) => Err(both(feet.1, meters.1)),
    }
}

/// A quantity that must be stated in one of two ways.
#[inline(always)]
pub(crate) fn needed<T>(found: Option<T>, noun: &str, place: &'static str) -> Result<T> {
    found.ok_or_else(|| not_stated(noun, place))
}

/// A power factor, above 0 and at most 1.
pub(crate) fn power_factor(value: f64, place: &'static str) -> Result<PowerFactor> {
    match steps_of(value, 1_000_000).and_then(PowerFactor::from_millionths) {
        Some(power_factor) => Ok(power_factor),
        None => bare_by_text(value, "power factor", place),
    }
}

/// The constant K.
pub(crate) fn k_factor(value: f64, place: &'static str) -> Result<KFactor> {
    match steps_of(value, 10_000).and_then(KFactor::from_ten_thousandths) {
        Some(k) => Ok(k),
        None => bare_by_text(value, "constant K", place),
    }
}

/// A number without a unit that the fast way does not take.
#[cold]
#[inline(never)]
fn bare_by_text<T: FromStr<Err: Display>>(value: f64, noun: &str, place: &str) -> Result<T> {
    if value.is_nan() {
        return Err(not_stated(noun, place));
    }
    finite(value, place)?;
    format!("{value}").parse().map_err(|error| fail(LW_STATUS_BAD_NUMBER, place, format_args!("{error}")))
}

/// A wire size, `None` where it is not stated.
#[inline(always)]
pub(crate) fn wire_size_given(number: lw_wire_size, place: &'static str) -> Result<Option<WireSize>> {
    let found = match number {
        0 => return Ok(None),
        1..=27 => i8::try_from(number).ok().and_then(WireSize::awg),
        // -1 stands for 1/0, which the core counts as gauge 0.
        -4..=-1 => i8::try_from(number + 1).ok().and_then(WireSize::awg),
        _ => u16::try_from(number).ok().and_then(WireSize::kcmil),
    };
    match found {
        Some(size) => Ok(Some(size)),
        None => Err(no_wire_size(number, place)),
    }
}

#[cold]
#[inline(never)]
fn no_wire_size(number: lw_wire_size, place: &str) -> Box<lw_error> {
    if number == 0 {
        let what = "the wire size is not stated and decides the answer; write one";
        return fail(LW_STATUS_NOT_STATED, place, format_args!("{what}"));
    }
    fail(
        LW_STATUS_BAD_CHOICE,
        place,
        format_args!(
            "{number} is not a wire size; write 27 to 1 for AWG, -1 to -4 for 1/0 to 4/0 AWG, or 250 to 2000 for kcmil"
        ),
    )
}

/// A wire size that must be stated.
#[inline(always)]
pub(crate) fn wire_size(number: lw_wire_size, place: &'static str) -> Result<WireSize> {
    wire_size_given(number, place)?.ok_or_else(|| no_wire_size(number, place))
}

/// The number of a wire size.
#[inline(always)]
pub(crate) fn number_of_wire_size(size: WireSize) -> lw_wire_size {
    // American sizes alone come from these tables. Their ranks: 27 - gauge up to 30, then thousands of circular mils.
    let rank = i32::try_from(size.rank()).unwrap_or(0);
    match 27 - rank {
        gauge @ 1..=27 => gauge,
        gauge @ -3..=0 => gauge - 1,
        _ => rank,
    }
}

/// In amperes.
#[inline(always)]
pub(crate) fn amperes(current: Amperes) -> f64 {
    nearest(current.microamperes(), 1_000_000)
}

/// In amperes; NAN where there is none.
#[inline(always)]
pub(crate) fn amperes_or_nan(current: Option<Amperes>) -> f64 {
    current.map_or(f64::NAN, amperes)
}

/// In volts.
#[inline(always)]
pub(crate) fn volts(voltage: Volts) -> f64 {
    nearest(voltage.millivolts(), 1000)
}

/// In volts, rounded up to the millivolt.
#[inline(always)]
#[expect(clippy::cast_precision_loss, reason = "exact below 2^53 mV, far more than any load could take")]
pub(crate) fn drop_volts(drop: Drop) -> f64 {
    drop.to_volts().map_or_else(|| drop.millivolts_rounded_up() as f64 / 1e3, volts)
}

/// In percent.
#[inline(always)]
pub(crate) fn percent(ratio: Ratio) -> f64 {
    nearest(ratio.count_of_millionths(), 10_000)
}

/// In a unit, rounded as said to so many decimals, as it is shown.
pub(crate) fn shown<Q: Quantity>(value: Q, unit: &Unit, digits: u32, rounding: Rounding) -> f64 {
    let (power, count) = (10_i64.pow(digits), i128::from(unit.count));
    let dividend = (value.count() - i128::from(unit.offset)) * i128::from(power);
    let up = i128::from(rounding == Rounding::Up && dividend.rem_euclid(count) != 0);
    i64::try_from(dividend.div_euclid(count) + up).map_or(f64::NAN, |steps| nearest(steps, power))
}

#[inline(always)]
#[expect(clippy::cast_precision_loss, reason = "the ranges of the quantities stay below fifteen digits")]
fn nearest(count: i64, unit: i64) -> f64 {
    count as f64 / unit as f64
}

#[cfg(test)]
mod tests {
    use loadworthy::quantity::{CubicMillimeters, OhmsPerLength, Seconds};

    use super::*;

    #[test]
    fn units_are_those_of_the_core() {
        fn same<Q: Quantity>(unit: &Unit) {
            let own = Q::UNITS.iter().find(|own| own.symbol == unit.symbol).unwrap();
            assert_eq!((own.count, own.offset), (i128::from(unit.count), i128::from(unit.offset)), "{}", unit.symbol);
            // What `steps_of` asks of each range, with room for the offset.
            let most = 999_000_000_000_000 * i128::from(unit.count / unit.steps);
            assert!(-most < Q::MINIMUM && Q::MAXIMUM < most, "{}", unit.symbol);
        }
        same::<Amperes>(&Unit::AMPERE);
        same::<Volts>(&Unit::VOLT);
        same::<Meters>(&Unit::FOOT);
        same::<Meters>(&Unit::METER);
        same::<Meters>(&Unit::INCH);
        same::<CubicMillimeters>(&Unit::CUBIC_INCH);
        same::<Celsius>(&Unit::CELSIUS);
        same::<Celsius>(&Unit::FAHRENHEIT);
        same::<Ratio>(&Unit::PERCENT);
        same::<OhmsPerLength>(&Unit::OHM_PER_KILOFOOT);
        same::<Seconds>(&Unit::HOUR);
    }

    #[test]
    fn a_double_is_the_decimal_that_it_prints_as() {
        let read = |value| required::<Amperes>(value, &Unit::AMPERE, "q").map(|current| current.to_string());
        assert_eq!(read(0.1).unwrap(), "0.1 A");
        assert_eq!(read(0.3).unwrap(), "0.3 A");
        assert_eq!(read(99_999.999_999).unwrap(), "99999.999999 A");
        assert_eq!(read(100_000.0).unwrap(), "100000 A");
        assert_eq!(read(-0.0).unwrap(), "0 A");
        // One step of the double beside 0.1 + 0.2 is not 0.3, and is not taken for it.
        for wrong in [0.1 + 0.2, 1e-7, 100_000.000_001, -1.0, f64::INFINITY, f64::NEG_INFINITY, 5e-324, 1e300] {
            assert_eq!(read(wrong).unwrap_err().status(), LW_STATUS_BAD_NUMBER, "{wrong}");
        }
        assert_eq!(read(f64::NAN).unwrap_err().status(), LW_STATUS_NOT_STATED);
    }

    #[test]
    fn both_ways_of_reading_agree() {
        let mut state = 1_u64;
        for _ in 0..20_000 {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            let decimals = (state >> 60) as i32 % 8;
            let value = (state >> 24) as f64 % 1e7 / 10_f64.powi(decimals);
            let by_text = format!("{value} ft").parse::<Meters>();
            let found = required::<Meters>(value, &Unit::FOOT, "q");
            assert_eq!(found.ok(), by_text.ok(), "{value}");
            let by_text = format!("{value} °F").parse::<Celsius>();
            assert_eq!(required::<Celsius>(value, &Unit::FAHRENHEIT, "q").ok(), by_text.ok(), "{value}");
        }
    }

    #[test]
    fn numbers_far_away_are_beyond_every_range() {
        let far =
            |value, steps| steps_of(value, steps).is_none_or(|found| found.unsigned_abs() >= 1_000_000_000_000_000);
        for exponent in 50..1024 {
            for factor in [1.0, 1.5, 1.999, -1.0, -1.5, -1.999] {
                for steps in [1, 10, 1000, 1_000_000] {
                    let value = factor * 2_f64.powi(exponent);
                    assert!(far(value, steps), "{value} {steps}");
                }
            }
        }
        assert!(far(f64::INFINITY, 1) && far(f64::NEG_INFINITY, 1) && far(f64::MAX, 1_000_000));
        assert_eq!(steps_of(f64::NAN, 1), None);
    }

    #[test]
    fn numbers_without_a_unit_are_read_as_their_texts_are() {
        for value in
            [1.0, 0.85, 0.000_001, 0.000_000_1, 0.3, 0.1 + 0.2, 0.0, -0.5, 1.000_001, 100.0, 12.9, 1e300, f64::INFINITY]
        {
            let by_text = format!("{value}");
            assert_eq!(power_factor(value, "q").ok(), by_text.parse().ok(), "{value}");
            assert_eq!(k_factor(value, "q").ok(), by_text.parse().ok(), "{value}");
        }
        assert_eq!(power_factor(f64::NAN, "q").unwrap_err().status(), LW_STATUS_NOT_STATED);
        assert_eq!(power_factor(1.1, "q").unwrap_err().status(), LW_STATUS_BAD_NUMBER);
        assert_eq!(k_factor(f64::NEG_INFINITY, "q").unwrap_err().status(), LW_STATUS_BAD_NUMBER);
    }

    #[test]
    fn what_is_shown_is_what_the_core_shows() {
        fn same<Q: Quantity>(unit: &Unit, digits: u32) {
            let own = Q::UNITS.iter().find(|own| own.symbol == unit.symbol).unwrap();
            let some = (0..60).flat_map(|power| [1 << power, (1 << power) + 12_345]).chain([Q::MINIMUM, 0, Q::MAXIMUM]);
            for value in some.filter_map(Q::from_count) {
                for rounding in [Rounding::Down, Rounding::Up] {
                    let by_text: f64 = value.in_unit(own, digits, rounding).to_string().parse().unwrap();
                    assert_eq!(shown(value, unit, digits, rounding).to_bits(), by_text.to_bits(), "{value}");
                }
            }
        }
        same::<CubicMillimeters>(&Unit::CUBIC_INCH, 3);
        same::<Meters>(&Unit::FOOT, 1);
        same::<Celsius>(&Unit::FAHRENHEIT, 2);
    }

    #[test]
    fn wire_sizes_come_back_as_they_went() {
        let known = (-4..=2000).filter(|number| !(28..250).contains(number) && *number != 0);
        for number in known {
            let size = wire_size(number, "q").unwrap();
            assert_eq!(number_of_wire_size(size), number, "{size}");
        }
        assert_eq!(wire_size(-1, "q").unwrap().to_string(), "1/0 AWG");
        assert_eq!(wire_size(14, "q").unwrap().to_string(), "14 AWG");
        assert_eq!(wire_size(250, "q").unwrap().to_string(), "250 kcmil");
        for wrong in [-5, 28, 249, 2001, i32::MIN, i32::MAX] {
            assert_eq!(wire_size(wrong, "q").unwrap_err().status(), LW_STATUS_BAD_CHOICE, "{wrong}");
        }
        assert_eq!(wire_size(0, "q").unwrap_err().status(), LW_STATUS_NOT_STATED);
    }
}
