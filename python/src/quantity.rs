//! Quantities as objects: a class a unit, so that a number never goes without one.

use std::hash::{DefaultHasher, Hash, Hasher};

use loadworthy::quantity as core;
use loadworthy::quantity::{Quantity, Rounding, Unit, Written};
use loadworthy::trade;
use pyo3::prelude::*;
use pyo3::pyclass::CompareOp;
use pyo3::types::{PyBool, PyFloat, PyInt, PyString};

use crate::argument::{HALF, TOO_LONG, decimal, digits, plain};
use crate::error;

/// Reads what a constructor is given: a text with its unit, or a number and a unit.
fn read<Q: Quantity>(value: &Bound<'_, PyAny>, unit: Option<&str>, own: &str) -> PyResult<Written<Q>> {
    let number = if let Ok(text) = value.cast::<PyString>() {
        let half = |_| error::QuantityError::new_err((format!("this is {HALF}; write plain text"), "not-a-number"));
        match (text.to_str().map_err(half)?, unit) {
            (text, None) => return parse(text),
            (number, Some(_)) => number.to_owned(),
        }
    } else if value.is_instance_of::<PyInt>() && !value.is_instance_of::<PyBool>() {
        let too_long = || error::QuantityError::new_err((format!("this is {TOO_LONG}; write less"), "out-of-range"));
        digits(value).ok_or_else(too_long)?
    } else if value.is_instance(decimal(value.py())?)? {
        plain(value)?
    } else if value.is_instance_of::<PyFloat>() {
        let shown = value.repr()?;
        let message = format!(
            "`{shown}` is a binary floating-point number; write {} as text such as `\"{shown} {own}\"`, or as a \
             Decimal",
            Q::A_NOUN
        );
        return Err(error::QuantityTypeError::new_err((message, "wrong-type")));
    } else {
        let kind = value.get_type().name()?.to_string();
        let message = format!(
            "a value of type `{kind}` is not {}; write text such as `\"25 {own}\"`, a whole number or a Decimal",
            Q::A_NOUN
        );
        return Err(error::QuantityTypeError::new_err((message, "wrong-type")));
    };
    parse(&format!("{number} {}", unit.unwrap_or(own)))
}

fn parse<Q: Quantity>(text: &str) -> PyResult<Written<Q>> {
    text.parse().map_err(|error| error::quantity(&error))
}

/// The number in a unit where it is a decimal there.
fn exactly<Q: Quantity>(quantity: Q, unit: &'static Unit) -> PyResult<String> {
    let most = 12;
    let (down, up) = (quantity.in_unit(unit, most, Rounding::Down), quantity.in_unit(unit, most, Rounding::Up));
    if down == up {
        return Ok(up.normalize().to_string());
    }
    let message = format!("`{quantity}` is no decimal of at most {most} places in {}", unit.symbol);
    Err(error::QuantityError::new_err((message, "too-fine")))
}

fn unit_named<Q: Quantity>(name: &str) -> PyResult<&'static Unit> {
    // `1 name` is read, so that every spelling counts that a text may have.
    parse::<Q>(&format!("1 {name}")).map(|one| one.unit())
}

macro_rules! quantities {
    ($($(#[$doc:meta])* $name:ident in $own:literal;)+) => {
        $(
            $(#[$doc])*
            #[pyclass(frozen, module = "loadworthy")]
            pub(crate) struct $name(Written<core::$name>);

            #[pymethods]
            impl $name {
                #[new]
                #[pyo3(signature = (value, unit = None))]
                fn new(value: &Bound<'_, PyAny>, unit: Option<&str>) -> PyResult<Self> {
                    read(value, unit, $own).map(Self)
                }

                /// The number in the unit that it was written in, exact.
                #[getter]
                fn value<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
                    decimal(py)?.call1((exactly(self.0.value(), self.0.unit())?,))
                }

                /// The unit that it was written in.
                #[getter]
                fn unit(&self) -> &'static str {
                    self.0.unit().symbol
                }

                /// The number in another unit, exact. Raises QuantityError where it is no decimal there.
                fn to<'py>(&self, py: Python<'py>, unit: &str) -> PyResult<Bound<'py, PyAny>> {
                    decimal(py)?.call1((exactly(self.0.value(), unit_named::<core::$name>(unit)?)?,))
                }

                fn __str__(&self) -> String {
                    self.0.to_string()
                }

                fn __repr__(&self) -> String {
                    format!("{}('{}')", stringify!($name), self.0)
                }

                fn __hash__(&self) -> u64 {
                    let mut hasher = DefaultHasher::new();
                    self.0.value().hash(&mut hasher);
                    hasher.finish()
                }

                fn __richcmp__(&self, other: &Bound<'_, PyAny>, how: CompareOp) -> Py<PyAny> {
                    let py = other.py();
                    match other.cast::<Self>() {
                        Ok(other) => {
                            let holds = how.matches(self.0.value().cmp(&other.get().0.value()));
                            PyBool::new(py, holds).to_owned().into_any().unbind()
                        }
                        // Another quantity, or a number without a unit: not to be compared.
                        Err(_) => py.NotImplemented(),
                    }
                }

                fn __reduce__<'py>(slf: &Bound<'py, Self>) -> (Bound<'py, PyAny>, (String,)) {
                    (slf.get_type().into_any(), (slf.get().0.to_string(),))
                }
            }
        )+

        /// The text of one of these objects; `None` for anything else.
        pub(crate) fn text_of(value: &Bound<'_, PyAny>) -> Option<PyResult<String>> {
            $(if let Ok(quantity) = value.cast::<$name>() {
                return Some(Ok(quantity.get().0.to_string()));
            })+
            value.cast::<WireSize>().ok().map(|size| Ok(size.get().0.to_string()))
        }

        /// The object of a text such as `40 A`; `None` where no class keeps it.
        pub(crate) fn object<'py>(py: Python<'py>, text: &str) -> PyResult<Option<Bound<'py, PyAny>>> {
            $(if let Ok(quantity) = text.parse() {
                return Ok(Some(Bound::new(py, $name(quantity))?.into_any()));
            })+
            match text.parse() {
                Ok(size) => Ok(Some(Bound::new(py, WireSize(size))?.into_any())),
                Err(_) => Ok(None),
            }
        }

        /// Adds the classes to the module.
        pub(crate) fn add_to(module: &Bound<'_, PyModule>) -> PyResult<()> {
            $(module.add_class::<$name>()?;)+
            module.add_class::<WireSize>()
        }
    };
}

quantities! {
    /// An electric current: `Amperes(16)`, `Amperes("16 A")`, `Amperes(500, "mA")`.
    Amperes in "A";
    /// A voltage: `Volts(240)`, `Volts("7.2 kV")`.
    Volts in "V";
    /// An apparent power: `VoltAmperes(1500)`, `VoltAmperes("1.5 kVA")`.
    VoltAmperes in "VA";
    /// A power: `Watts(1500)`, `Watts("1.5 kW")`.
    Watts in "W";
    /// An energy: `WattHours("3.5 kWh")`.
    WattHours in "Wh";
    /// A resistance: `Ohms("0.2 ohm")`.
    Ohms in "ohm";
    /// A resistance per length: `OhmsPerLength("0.2 ohm/kft")`.
    OhmsPerLength in "ohm/km";
    /// A length: `Meters(15)`, `Meters("50 ft")`, `Meters(50, "ft")`.
    Meters in "m";
    /// An area: `SquareMillimeters("2.5 mm2")`.
    SquareMillimeters in "mm2";
    /// A volume: `CubicMillimeters("18 in3")`.
    CubicMillimeters in "mm3";
    /// A temperature: `Celsius(40)`, `Celsius("104 °F")`.
    Celsius in "°C";
    /// A percentage: `Ratio(3)`, `Ratio("3 %")`.
    Ratio in "%";
    /// A frequency: `Hertz(60)`.
    Hertz in "Hz";
    /// A duration: `Seconds("8 h")`.
    Seconds in "s";
}

/// The size of a conductor: `WireSize("8 AWG")`, `WireSize("250 kcmil")`. A larger conductor is greater.
#[pyclass(frozen, module = "loadworthy")]
pub(crate) struct WireSize(trade::WireSize);

#[pymethods]
impl WireSize {
    #[new]
    fn new(text: &str) -> PyResult<Self> {
        text.parse().map(Self).map_err(|wrong: core::QuantityError| error::quantity(&wrong))
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        format!("WireSize('{}')", self.0)
    }

    fn __hash__(&self) -> u64 {
        let mut hasher = DefaultHasher::new();
        self.0.hash(&mut hasher);
        hasher.finish()
    }

    fn __richcmp__(&self, other: &Bound<'_, PyAny>, how: CompareOp) -> Py<PyAny> {
        let py = other.py();
        // Sizes of two systems have no order where neither table says which is the larger.
        let order = other.cast::<Self>().ok().and_then(|other| self.0.partial_cmp(&other.get().0));
        match order {
            Some(order) => PyBool::new(py, how.matches(order)).to_owned().into_any().unbind(),
            None => py.NotImplemented(),
        }
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> (Bound<'py, PyAny>, (String,)) {
        (slf.get_type().into_any(), (slf.get().0.to_string(),))
    }
}
