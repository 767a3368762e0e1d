"""Quantities of pint as text, where somebody uses pint; nothing here needs it."""

from __future__ import annotations

from decimal import Decimal

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

from loadworthy._errors import QuestionTypeError

#: The units of pint, by their names there, and how they are written here.
UNITS = {
    "ampere": "A",
    "milliampere": "mA",
    "kiloampere": "kA",
    "volt": "V",
    "kilovolt": "kV",
    "millivolt": "mV",
    "volt_ampere": "VA",
    "kilovolt_ampere": "kVA",
    "ampere * volt": "VA",
    "watt": "W",
    "kilowatt": "kW",
    "watt_hour": "Wh",
    "kilowatt_hour": "kWh",
    "hour * watt": "Wh",
    "hour * kilowatt": "kWh",
    "foot": "ft",
    "inch": "in",
    "yard": "yd",
    "meter": "m",
    "centimeter": "cm",
    "millimeter": "mm",
    "kilometer": "km",
    "degree_Celsius": "°C",
    "degree_Fahrenheit": "°F",
    "percent": "%",
    "hertz": "Hz",
    "second": "s",
    "minute": "min",
    "hour": "h",
    "ohm": "ohm",
    "ohm / kilofoot": "ohm/kft",
    "ohm / kilometer": "ohm/km",
    "horsepower": "hp",
    "dimensionless": "",
}

#: A binary floating-point number of so many bytes holds every decimal of so many digits.
_DIGITS = {2: 3, 4: 6, 8: 15}


def text(quantity: Any) -> str | None:
    """A quantity of pint as text; `None` for an object of another library.

    >>> import pint
    >>> text(pint.UnitRegistry().Quantity(50, "foot"))
    '50 ft'
    """
    if not type(quantity).__module__.startswith("pint"):
        return None
    unit = str(quantity.units)
    if unit not in UNITS:
        known = ", ".join(name for name in UNITS if " " not in name)
        message = f"`{quantity}` has the unit `{unit}`, which is not understood here; convert it to one of: {known}"
        raise QuestionTypeError(message)
    return f"{_number(quantity.magnitude, quantity)} {UNITS[unit]}".strip()


def _number(magnitude: Any, quantity: Any) -> str:
    size, written = 8, ""
    if getattr(magnitude, "ndim", None) == 0:
        # A number of numpy, or its array without a dimension.
        size, written, magnitude = magnitude.itemsize, str(magnitude), magnitude.item()
    if isinstance(magnitude, bool) or not isinstance(magnitude, (int, float, Decimal)):
        raise QuestionTypeError(f"`{quantity}` is no single number; ask of each value by itself")
    # The shortest decimal that a float prints as is the one that was written, as long as its digits are few.
    number = Decimal(written or repr(magnitude)) if isinstance(magnitude, float) else Decimal(magnitude)
    if not number.is_finite():
        raise QuestionTypeError(f"`{quantity}` is not a finite number; write how much it is")
    if isinstance(magnitude, float) and len(number.as_tuple().digits) > _DIGITS[size]:
        raise QuestionTypeError(f"`{quantity}` is a computed binary floating-point number; round it, or use a Decimal")
    return format(number, "f")
