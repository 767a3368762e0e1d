"""Unit objects: exact, compared by value, never made from a bare binary floating-point number."""

import copy
import pickle
from decimal import Decimal

import loadworthy as lw
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

UNITS = {
    lw.Amperes: ["A", "mA", "kA"],
    lw.Volts: ["V", "kV"],
    lw.VoltAmperes: ["VA", "kVA"],
    lw.Watts: ["W", "kW"],
    lw.WattHours: ["Wh", "kWh"],
    lw.Meters: ["m", "ft", "in", "cm"],
    lw.Celsius: ["°C", "°F"],
    lw.Ratio: ["%"],
    lw.Hertz: ["Hz"],
    lw.Seconds: ["s", "min", "h"],
}
NUMBERS = st.integers(0, 99_999).map(lambda hundredths: Decimal(hundredths) / 100)


def test_a_number_alone_is_in_the_unit_of_the_class():
    assert lw.Meters(15) == lw.Meters("15 m")
    assert lw.Meters(50, "ft") == lw.Meters("50 ft") == lw.Meters("15.24 m") == lw.Meters(Decimal("15.24"))
    assert lw.Celsius(40) == lw.Celsius("104 °F")
    assert lw.CubicMillimeters("18 in3") > lw.CubicMillimeters(18)
    assert lw.OhmsPerLength("0.2 ohm/kft") == lw.OhmsPerLength(Decimal("0.2"), "ohm/kft")
    assert lw.Ohms(2).value == 2
    assert lw.SquareMillimeters("2.5 mm2").value == Decimal("2.5")


@given(st.sampled_from(list(UNITS)), NUMBERS, st.data())
def test_a_quantity_keeps_its_number_and_its_unit(kind, number, data):
    unit = data.draw(st.sampled_from(UNITS[kind]))
    try:
        quantity = kind(number, unit)
    except lw.QuantityError as error:
        assert error.code in ("out-of-range", "too-fine")
        return
    assert (quantity.value, quantity.unit) == (number, unit)
    assert quantity == kind(str(quantity)) == kind(f"{number} {unit}")
    assert eval(repr(quantity), {kind.__name__: kind}) == quantity
    for again in (copy.copy(quantity), copy.deepcopy(quantity), pickle.loads(pickle.dumps(quantity))):
        assert (again, again.value, again.unit, hash(again)) == (quantity, number, unit, hash(quantity))


def test_another_unit_is_exact_or_refused():
    assert lw.Meters("50 ft").to("m") == Decimal("15.24")
    assert lw.Celsius("104 °F").to("degC") == 40
    with pytest.raises(lw.QuantityError, match="no decimal") as raised:
        lw.Meters("1 m").to("ft")
    assert raised.value.code == "too-fine"
    with pytest.raises(lw.QuantityError, match="unknown unit"):
        lw.Meters("1 m").to("furlong")


def test_quantities_compare_with_their_own_kind_alone():
    assert lw.Amperes("500 mA") < lw.Amperes(1) <= lw.Amperes(1)
    assert lw.Amperes(1) != 1
    assert lw.Amperes(1) != lw.Volts(1)
    with pytest.raises(TypeError):
        _ = lw.Amperes(1) < lw.Volts(2)
    with pytest.raises(TypeError):
        _ = lw.Amperes(1) < 2
    assert lw.WireSize("8 AWG") < lw.WireSize("6 AWG") < lw.WireSize("1/0 AWG") < lw.WireSize("250 kcmil")
    assert len({lw.WireSize("8 AWG"), lw.WireSize("8AWG")}) == 1
    assert pickle.loads(pickle.dumps(lw.WireSize("1/0 AWG"))) == lw.WireSize("1/0 AWG")


@pytest.mark.parametrize(
    ("value", "code", "message"),
    [
        (16.5, "wrong-type", "`16.5` is a binary floating-point number; write a current as text such as `\"16.5 A\"`"),
        (True, "wrong-type", "a value of type `bool` is not a current"),
        (None, "wrong-type", "a value of type `NoneType` is not a current"),
        ("16", "missing-unit", "`16` has no unit; write a current such as `16 A`"),
        ("16 V", "wrong-quantity", "`16 V` is a voltage; write a current such as `16 A`"),
        ("16 apples", "unknown-unit", "unknown unit `apples`"),
        ("many A", "not-a-number", "`many A` is not a current"),
        (-1, "out-of-range", "`-1 A` is out of range"),
        (Decimal("Infinity"), "not-a-number", "`Infinity A` is not a current"),
        (Decimal("1e-9"), "too-fine", "finer than current is kept"),
    ],
)
def test_what_is_no_quantity_says_so(value, code, message):
    with pytest.raises(lw.QuantityError) as raised:
        lw.Amperes(value)
    assert raised.value.code == code
    assert message in str(raised.value)
    assert isinstance(raised.value, TypeError) == (code == "wrong-type")
    again = pickle.loads(pickle.dumps(raised.value))
    assert (str(again), again.code) == (str(raised.value), code)


pint = pytest.importorskip("pint")
REGISTRY = pint.UnitRegistry()


def test_quantities_of_pint_are_understood():
    measured = REGISTRY.Quantity
    answer = lw.voltage_drop(
        method="dc",
        circuit="two-wire",
        supply=measured(120, "volt"),
        size="12 AWG",
        material="copper",
        length=measured(50, "foot"),
        current=measured(16.5, "ampere"),
        conductor_temperature=measured(75, "degC"),
    )
    assert answer == lw.voltage_drop(
        method="dc",
        circuit="two-wire",
        supply="120 V",
        size="12 AWG",
        material="copper",
        length="50 ft",
        current="16.5 A",
        conductor_temperature="75 °C",
    )


@pytest.mark.parametrize(
    "magnitude",
    [np.float64(45.1), np.float32(45.1), np.array(45.1), np.array(45.1, dtype=np.float32), Decimal("45.1")],
    ids=repr,
)
def test_a_single_number_of_numpy_is_one(magnitude):
    plain = lw.continuous_load(continuous="45.1 A", non_continuous="0 A")
    assert lw.continuous_load(continuous=REGISTRY.Quantity(magnitude, "ampere"), non_continuous="0 A") == plain
    whole = REGISTRY.Quantity(np.int64(45), "ampere")
    assert lw.continuous_load(continuous=whole, non_continuous="0 A").figures == (
        lw.continuous_load(continuous="45 A", non_continuous="0 A").figures
    )


@pytest.mark.parametrize(
    ("magnitude", "unit", "message"),
    [
        (np.float64(0.1) + np.float64(0.2), "ampere", "computed binary floating-point"),
        (np.float32(1) / np.float32(3), "ampere", "computed binary floating-point"),
        (np.float64("nan"), "ampere", "not a finite number"),
        (float("inf"), "ampere", "not a finite number"),
        (np.bool_(True), "ampere", "no single number"),
        (np.complex128(1), "ampere", "no single number"),
        (np.array([45.0]), "ampere", "no single number"),
        (0.1 + 0.2, "ampere", "computed binary floating-point"),
        (1, "furlong", "has the unit `furlong`"),
        ([1, 2], "ampere", "no single number"),
        (1, "volt", "is a voltage; write a current"),
    ],
)
def test_what_of_pint_is_not_understood(magnitude, unit, message):
    with pytest.raises(lw.QuestionError, match=message):
        lw.continuous_load(continuous=REGISTRY.Quantity(magnitude, unit), non_continuous="0 A")


def test_every_unit_of_pint_that_is_listed_is_one_here():
    from loadworthy import _pint

    units = {symbol for symbol in _pint.UNITS.values() if symbol}
    kinds = [kind for kind in vars(lw).values() if hasattr(kind, "to") and isinstance(kind, type)]
    for symbol in units - {"hp"}:
        assert any(_holds(kind, symbol) for kind in kinds), symbol


def _holds(kind, symbol):
    try:
        return kind(1, symbol).unit
    except lw.QuantityError:
        return False
