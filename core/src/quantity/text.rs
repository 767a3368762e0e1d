//! Quantities as text: what people write, and the same way back.

use std::fmt;

use rust_decimal::Decimal;

use super::{
    Amperes, Celsius, CircularMils, Hertz, Meters, Ohms, OhmsPerLength, Quantity, Ratio, Seconds, SquareMillimeters,
    VoltAmperes, Volts, WattHours, Watts,
};

/// The most decimals that a number may have or is shown with.
pub(super) const MOST_DIGITS: u32 = 12;

/// A unit that a quantity may be written in.
#[derive(Debug, PartialEq, Eq)]
pub struct Unit {
    /// How it is printed.
    pub symbol: &'static str,
    /// What else is understood.
    pub names: &'static [&'static str],
    /// How many of the quantity's smallest unit it holds.
    pub count: i128,
    /// The count at zero of this unit (not zero for °F alone).
    pub offset: i128,
}

impl Unit {
    fn spellings(&self) -> impl Iterator<Item = &'static str> {
        std::iter::once(self.symbol).chain(self.names.iter().copied())
    }
}

/// Which way a number that is shown is rounded; a verdict never rests on a rounded number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rounding {
    /// Towards less.
    Down,
    /// Towards more.
    Up,
}

/// Why a text is not the quantity that was wanted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum QuantityError {
    /// A bare number where a quantity belongs.
    #[error("`{found}` has no unit; write {a_quantity} such as `{found} {unit}`")]
    MissingUnit {
        /// The text as it was found.
        found: String,
        /// What was wanted, with its article.
        a_quantity: &'static str,
        /// The unit to suggest.
        unit: &'static str,
    },
    /// A quantity of another kind.
    #[error("`{found}` is {is_a}; write {a_quantity} such as `{example}`")]
    WrongKind {
        /// The text as it was found.
        found: String,
        /// What it is.
        is_a: &'static str,
        /// What was wanted, with its article.
        a_quantity: &'static str,
        /// How it would be written.
        example: String,
    },
    /// A unit that nobody here knows.
    #[error("`{found}` has the unknown unit `{unit}`; write {a_quantity} in {units}")]
    UnknownUnit {
        /// The text as it was found.
        found: String,
        /// The part that is not a unit.
        unit: String,
        /// What was wanted, with its article.
        a_quantity: &'static str,
        /// The units that are understood.
        units: String,
    },
    /// Not a plain decimal number.
    #[error("`{found}` is not {a_quantity}; write a number and a unit, such as `{example}`")]
    NotANumber {
        /// The text as it was found.
        found: String,
        /// What was wanted, with its article.
        a_quantity: &'static str,
        /// How it would be written.
        example: String,
    },
    /// A number with an exponent, as programs write very small and very large ones.
    #[error("`{found}` has an exponent; write {a_quantity} in plain digits, such as `{example}`")]
    Exponent {
        /// The text as it was found.
        found: String,
        /// What was wanted, with its article.
        a_quantity: &'static str,
        /// How it would be written.
        example: String,
    },
    /// Beyond what the quantity can be.
    #[error("`{found}` is out of range; {quantity} goes from {minimum} to {maximum}")]
    OutOfRange {
        /// The text as it was found.
        found: String,
        /// What was wanted.
        quantity: &'static str,
        /// The least.
        minimum: String,
        /// The greatest.
        maximum: String,
    },
    /// More decimals than are kept.
    #[error("`{found}` is finer than {quantity} is kept ({finest}); write fewer decimals")]
    TooFine {
        /// The text as it was found.
        found: String,
        /// What was wanted.
        quantity: &'static str,
        /// The finest step, in words.
        finest: String,
    },
}

/// Reads a number and a unit.
pub(super) fn parse<Q: Quantity>(text: &str) -> Result<(Q, &'static Unit), QuantityError> {
    let trimmed = text.trim();
    let found = || shortened(trimmed);
    let unit_start = trimmed
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | '_' | ',')))
        .unwrap_or(trimmed.len());
    let (digits, rest) = trimmed.split_at(unit_start);
    let symbol = rest.trim();
    let Some(number) = decimal(digits) else {
        return Err(QuantityError::NotANumber { found: found(), a_quantity: Q::A_NOUN, example: example::<Q>("25") });
    };
    let Some(suggested) = Q::UNITS.first() else {
        return Err(QuantityError::NotANumber { found: found(), a_quantity: Q::A_NOUN, example: String::new() });
    };
    if symbol.is_empty() {
        return Err(QuantityError::MissingUnit { found: found(), a_quantity: Q::A_NOUN, unit: suggested.symbol });
    }
    let Some(unit) = find_unit(Q::UNITS, symbol) else {
        return Err(match kind_of(symbol) {
            Some(is_a) => {
                QuantityError::WrongKind { found: found(), is_a, a_quantity: Q::A_NOUN, example: example::<Q>(digits) }
            }
            None if has_exponent(rest) => {
                QuantityError::Exponent { found: found(), a_quantity: Q::A_NOUN, example: example::<Q>("0.001") }
            }
            None => QuantityError::UnknownUnit {
                found: found(),
                unit: shortened(symbol),
                a_quantity: Q::A_NOUN,
                units: listed(Q::UNITS.iter().map(|unit| unit.symbol)),
            },
        });
    };
    let out_of_range = || QuantityError::OutOfRange {
        found: found(),
        quantity: Q::NOUN,
        minimum: limit(Q::MINIMUM, suggested),
        maximum: limit(Q::MAXIMUM, suggested),
    };
    let scale = 10_i128.checked_pow(number.scale()).ok_or_else(out_of_range)?;
    let scaled = number.mantissa().checked_mul(unit.count).ok_or_else(out_of_range)?;
    if scaled % scale != 0 {
        return Err(QuantityError::TooFine { found: found(), quantity: Q::NOUN, finest: finest::<Q>() });
    }
    let count = (scaled / scale).checked_add(unit.offset).ok_or_else(out_of_range)?;
    Q::from_count(count).map(|value| (value, unit)).ok_or_else(out_of_range)
}

/// Whether what follows the digits is an exponent.
fn has_exponent(rest: &str) -> bool {
    let exponent = rest.strip_prefix(['e', 'E']).map(|rest| rest.trim_start_matches(['+', '-']));
    exponent.is_some_and(|exponent| exponent.starts_with(|c: char| c.is_ascii_digit()))
}

/// Reads a bare number that needs no unit, as a count of units of `10^-digits`.
pub(super) fn bare_number(
    text: &str,
    quantity: &'static str,
    example: &str,
    digits: u32,
) -> Result<i64, QuantityError> {
    let found = || shortened(text);
    let not_a_number =
        || QuantityError::NotANumber { found: found(), a_quantity: quantity, example: example.to_owned() };
    let number = decimal(text).ok_or_else(not_a_number)?;
    let factor = 10_i128.checked_pow(digits).ok_or_else(not_a_number)?;
    let scale = 10_i128.checked_pow(number.scale()).ok_or_else(not_a_number)?;
    let scaled = number.mantissa().checked_mul(factor).ok_or_else(not_a_number)?;
    if scaled % scale != 0 {
        return Err(QuantityError::TooFine { found: found(), quantity, finest: format!("{digits} decimals") });
    }
    i64::try_from(scaled / scale).map_err(|_| not_a_number())
}

/// A plain decimal number: digits, at most one point, an optional minus. No exponent, no separators of thousands.
fn decimal(digits: &str) -> Option<Decimal> {
    // Most numbers are whole, and of few digits.
    if digits.len() <= 18 && digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return digits.parse::<i64>().ok().map(Decimal::from);
    }
    let plain = digits.strip_prefix('-').unwrap_or(digits);
    let well_formed = plain.starts_with(|c: char| c.is_ascii_digit())
        && plain.ends_with(|c: char| c.is_ascii_digit())
        && plain.chars().all(|c| c.is_ascii_digit() || c == '.');
    let significant = plain.trim_start_matches('0').len() <= 28;
    (well_formed && significant).then(|| Decimal::from_str_exact(digits).ok()).flatten().map(|n| n.normalize())
}

fn find_unit(units: &'static [Unit], symbol: &str) -> Option<&'static Unit> {
    units.iter().find(|unit| unit.spellings().any(|spelling| spelling == symbol)).or_else(|| {
        // `KW` and `25 FT` are understood where only one unit can be meant: mW and MW must be spelled right.
        let mut same = units.iter().filter(|unit| unit.spellings().any(|name| name.eq_ignore_ascii_case(symbol)));
        match (same.next(), same.next()) {
            (Some(unit), None) => Some(unit),
            _ => None,
        }
    })
}

/// What a unit measures, to say so when another quantity was wanted.
fn kind_of(symbol: &str) -> Option<&'static str> {
    fn of<Q: Quantity>(symbol: &str) -> Option<&'static str> {
        find_unit(Q::UNITS, symbol).map(|_| Q::A_NOUN)
    }
    [
        of::<Volts>,
        of::<Amperes>,
        of::<VoltAmperes>,
        of::<Watts>,
        of::<WattHours>,
        of::<Ohms>,
        of::<OhmsPerLength>,
        of::<Celsius>,
        of::<Meters>,
        of::<Seconds>,
        of::<Hertz>,
        of::<SquareMillimeters>,
        of::<CircularMils>,
        of::<Ratio>,
    ]
    .into_iter()
    .find_map(|of| of(symbol))
}

fn example<Q: Quantity>(digits: &str) -> String {
    let symbol = Q::UNITS.first().map_or("", |unit| unit.symbol);
    let digits = if decimal(digits).is_some() { digits } else { "25" };
    spaced(digits, symbol)
}

fn finest<Q: Quantity>() -> String {
    let unit = Q::UNITS.iter().min_by_key(|unit| unit.count);
    unit.map_or_else(String::new, |unit| {
        let digits = decimals_of(unit.count);
        let step = Decimal::new(1, digits);
        format!("steps of {}", spaced(&step.to_string(), unit.symbol))
    })
}

/// How many decimals of a unit of this count are whole counts.
fn decimals_of(count: i128) -> u32 {
    let mut rest = count;
    let mut digits = 0;
    while rest % 10 == 0 && digits < MOST_DIGITS {
        rest /= 10;
        digits += 1;
    }
    digits
}

fn limit(count: i128, unit: &Unit) -> String {
    spaced(&in_unit(count, unit, 6, Rounding::Down).to_string(), unit.symbol)
}

/// The value in a unit with at most `digits` decimals.
pub(super) fn in_unit(count: i128, unit: &Unit, digits: u32, rounding: Rounding) -> Decimal {
    let digits = digits.min(MOST_DIGITS);
    let over_zero = count - unit.offset;
    let (whole, rest) = (over_zero.div_euclid(unit.count), over_zero.rem_euclid(unit.count));
    // Long division, a digit at a time, while there is a rest: it stays below ten units, which fits for every quantity.
    let (mut steps, mut rest, mut done) = (0, rest, 0);
    while rest != 0 && done < digits {
        rest = rest.saturating_mul(10);
        steps = steps * 10 + rest / unit.count;
        rest %= unit.count;
        done += 1;
    }
    if rounding == Rounding::Up && rest != 0 {
        steps += 1;
    }
    let (Ok(whole), Ok(steps)) = (i64::try_from(whole), i64::try_from(steps)) else {
        return Decimal::MAX;
    };
    (Decimal::from(whole) + Decimal::new(steps, done)).normalize()
}

/// Integer division, rounded as said.
#[inline]
pub(super) fn divide(dividend: i128, divisor: i128, rounding: Rounding) -> i128 {
    // Nearly all counts fit into half the width, where a division costs a tenth.
    if let (Ok(dividend), Ok(divisor)) = (u64::try_from(dividend), u64::try_from(divisor)) {
        let exact = dividend % divisor == 0;
        return i128::from(dividend / divisor) + i128::from(rounding == Rounding::Up && !exact);
    }
    divide_wide(dividend, divisor, rounding)
}

#[cold]
fn divide_wide(dividend: i128, divisor: i128, rounding: Rounding) -> i128 {
    let floor = dividend.div_euclid(divisor);
    match rounding {
        Rounding::Down => floor,
        Rounding::Up => floor + i128::from(dividend.rem_euclid(divisor) != 0),
    }
}

/// The first unit in which the value is a short decimal, else the first unit.
pub(super) fn natural_unit<Q: Quantity>(value: Q) -> &'static Unit {
    const SHORT: i128 = 1_000_000;
    const NONE: Unit = Unit { symbol: "", names: &[], count: 1, offset: 0 };
    Q::UNITS
        .iter()
        .find(|unit| (value.count() - unit.offset).checked_mul(SHORT).is_some_and(|steps| steps % unit.count == 0))
        .or_else(|| Q::UNITS.first())
        .unwrap_or(&NONE)
}

/// Prints a value in its natural unit, with every decimal it has (up to twelve).
pub(super) fn display<Q: Quantity>(value: Q, out: &mut fmt::Formatter<'_>) -> fmt::Result {
    let unit = natural_unit(value);
    write_number(out, value.in_unit(unit, MOST_DIGITS, Rounding::Up), unit)
}

pub(super) fn write_number(out: &mut fmt::Formatter<'_>, number: Decimal, unit: &Unit) -> fmt::Result {
    write!(out, "{} {}", number.normalize(), unit.symbol)
}

fn spaced(number: &str, symbol: &str) -> String {
    format!("{number} {symbol}")
}

fn listed<'a>(words: impl Iterator<Item = &'a str>) -> String {
    words.collect::<Vec<_>>().join(", ")
}

/// The user's own text for a message, cut where it would fill the screen.
fn shortened(text: &str) -> String {
    const LONGEST: usize = 60;
    if text.chars().count() <= LONGEST { text.to_owned() } else { text.chars().take(LONGEST).chain(['…']).collect() }
}

#[cfg(test)]
mod tests {
    use super::super::*;
    use super::{divide, divide_wide};
    use proptest::prelude::*;

    #[test]
    fn both_ways_of_dividing_agree() {
        let most = i128::from(u64::MAX);
        for dividend in [0, 1, 6, 7, 8, most - 1, most, most + 1, i128::MAX, -1, -6, -7, -8, -most, i128::MIN] {
            for divisor in [1, 2, 7, 1_000_000, most, most + 1, i128::MAX] {
                for rounding in [Rounding::Down, Rounding::Up] {
                    let found = divide(dividend, divisor, rounding);
                    assert_eq!(found, divide_wide(dividend, divisor, rounding), "{dividend} / {divisor}");
                }
            }
        }
        assert_eq!((divide(7, 2, Rounding::Down), divide(7, 2, Rounding::Up), divide(6, 2, Rounding::Up)), (3, 4, 3));
        assert_eq!((divide(-7, 2, Rounding::Down), divide(-7, 2, Rounding::Up)), (-4, -3));
    }

    fn message<Q: std::str::FromStr<Err = QuantityError>>(text: &str) -> String {
        text.parse::<Q>().err().map_or_else(|| "understood".to_owned(), |error| error.to_string())
    }

    #[test]
    fn reads_what_people_write_and_prints_it_the_same_way() {
        fn same<Q: Quantity>(text: &str) {
            assert_eq!(text.parse::<Written<Q>>().unwrap().to_string(), text);
        }
        same::<Amperes>("40 A");
        same::<Watts>("9.6 kW");
        same::<Meters>("25 ft");
        same::<Meters>("7.62 m");
        same::<Celsius>("95 °F");
        same::<Celsius>("-40 °C");
        same::<OhmsPerLength>("0.49 ohm/kft");
        same::<OhmsPerLength>("1.61 ohm/km");
        same::<Ohms>("0.155 ohm");
        same::<Ratio>("62.5 %");
        same::<WattHours>("13.5 kWh");
        same::<Seconds>("90 min");
        assert_eq!("25'".parse::<Meters>().unwrap(), "25 feet".parse().unwrap());
        assert_eq!("95degF".parse::<Celsius>().unwrap(), "35 °C".parse().unwrap());
        assert_eq!("9.6 KW".parse::<Watts>().unwrap(), "9600 W".parse().unwrap());
        assert!("1 kft".parse::<Meters>().is_err());
    }

    #[test]
    fn feet_and_meters_meet_exactly() {
        assert_eq!("0.875 in".parse::<Meters>().unwrap(), "22.225 mm".parse().unwrap());
        assert_eq!("213.1 ft".parse::<Meters>().unwrap(), "64.95288 m".parse().unwrap());
        assert_eq!("1000 ft".parse::<Meters>().unwrap(), "304.8 m".parse().unwrap());
        assert_eq!(
            "1 ohm/kft".parse::<OhmsPerLength>().unwrap() * "1000 ft".parse::<Meters>().unwrap(),
            "1 ohm".parse().unwrap()
        );
        assert_eq!(
            "1 ohm/km".parse::<OhmsPerLength>().unwrap() * "1 km".parse::<Meters>().unwrap(),
            "1 ohm".parse().unwrap()
        );
    }

    #[test]
    fn messages_name_what_is_wanted() {
        assert_eq!(message::<Meters>("25"), "`25` has no unit; write a length such as `25 ft`");
        assert_eq!(message::<Amperes>("25 V"), "`25 V` is a voltage; write a current such as `25 A`");
        assert_eq!(
            message::<Amperes>("16 amqs"),
            "`16 amqs` has the unknown unit `amqs`; write a current in A, mA, kA"
        );
        assert_eq!(message::<Watts>("1 mw"), "`1 mw` has the unknown unit `mw`; write a power in W, kW, MW, mW");
        for text in ["1e3 A", "1E+400 A", "1e-7A", "2.5e-05 A", "1e3"] {
            let expected = format!("`{text}` has an exponent; write a current in plain digits, such as `0.001 A`");
            assert_eq!(message::<Amperes>(text), expected);
        }
        assert_eq!(message::<Amperes>("1 e"), "`1 e` has the unknown unit `e`; write a current in A, mA, kA");
        for nonsense in ["NaN A", "inf A", "", "A", "1,000 A", "1.2.3 A", ".5 A", "--1 A"] {
            assert!(message::<Amperes>(nonsense).ends_with("write a number and a unit, such as `25 A`"), "{nonsense}");
        }
        assert_eq!(message::<Amperes>("-1 A"), "`-1 A` is out of range; current goes from 0 A to 100000 A");
        assert_eq!(
            message::<Amperes>("0.0000001 A"),
            "`0.0000001 A` is finer than current is kept (steps of 0.001 mA); write fewer decimals"
        );
        assert_eq!(
            message::<PowerFactor>("1.000001"),
            "`1.000001` is out of range; power factor goes from above 0 to 1"
        );
    }

    #[test]
    fn ranges_hold_at_the_limit_and_not_one_step_beyond() {
        assert!("100000 A".parse::<Amperes>().is_ok());
        assert!("100000.000001 A".parse::<Amperes>().is_err());
        assert!("-100 °C".parse::<Celsius>().is_ok());
        assert!("-100.001 °C".parse::<Celsius>().is_err());
        assert!(format!("{} A", "9".repeat(400)).parse::<Amperes>().is_err());
    }

    #[test]
    fn shown_numbers_round_the_way_that_is_said() {
        let unit = Meters::UNITS.first().unwrap();
        let meter: Meters = "1 m".parse().unwrap();
        assert_eq!(meter.in_unit(unit, 2, Rounding::Down).to_string(), "3.28");
        assert_eq!(meter.in_unit(unit, 2, Rounding::Up).to_string(), "3.29");
        let cold: Celsius = "-0.5 °C".parse().unwrap();
        assert_eq!(cold.in_unit(Celsius::UNITS.first().unwrap(), 0, Rounding::Down).to_string(), "-1");
        assert_eq!(cold.degrees_rounded_up(), 0);
    }

    proptest! {
        #[test]
        fn parse_print_parse_is_the_same(microamperes in 0i64..=100_000_000_000, micrometers in 0i64..=10_000_000_000) {
            let current = Amperes::new(microamperes).unwrap();
            prop_assert_eq!(current.to_string().parse::<Amperes>().unwrap(), current);
            let length = Meters::new(micrometers).unwrap();
            prop_assert_eq!(length.to_string().parse::<Meters>().unwrap(), length);
        }

        #[test]
        fn any_text_is_a_value_or_a_message(text in ".{0,40}") {
            let _ = text.parse::<Amperes>().map_err(|error| error.to_string());
            let _ = text.parse::<Written<Celsius>>().map_err(|error| error.to_string());
            let _ = text.parse::<PowerFactor>().map_err(|error| error.to_string());
        }

        #[test]
        fn numbers_with_units_never_panic(number in "-?[0-9]{1,40}(\\.[0-9]{1,40})?", unit in "A|V|ft|m|°F|degC|ohm/kft|ohm|kWh|%|h|mm2|kcmil|MW") {
            let text = format!("{number} {unit}");
            let _ = text.parse::<Amperes>();
            let _ = text.parse::<Ohms>();
            let _ = text.parse::<WattHours>();
            let _ = text.parse::<OhmsPerLength>();
            let _ = text.parse::<Celsius>();
            let _ = text.parse::<Meters>().map(|value| value.to_string());
        }
    }
}
