"""What a call from Python costs, beside the same questions in plain Python, in one run.

    .venv/bin/python benches/python_calls.py

The plain ones look a cell up in a dictionary and reckon in `Decimal`, with the texts parsed as one would parse them.
They know one table each, cite nothing, check no grade, and explain nothing.
"""

import subprocess
import sys
import time
import timeit
from decimal import Decimal

import loadworthy as lw

ROUNDS, CALLS = 7, 20_000

#: Table 310.16, copper: 60, 75 and 90 °C.
AMPACITY = {
    "14 AWG": (15, 20, 25), "12 AWG": (20, 25, 30), "10 AWG": (30, 35, 40), "8 AWG": (40, 50, 55),
    "6 AWG": (55, 65, 75), "4 AWG": (70, 85, 95), "3 AWG": (85, 100, 115), "2 AWG": (95, 115, 130),
}  # fmt: skip
#: Table 310.15(B)(1)(1), 90 °C, by the upper end of each band.
AMBIENT = [(10, "1.15"), (15, "1.12"), (20, "1.08"), (25, "1.04"), (30, "1.00"), (35, "0.96"), (40, "0.91"), (45, "0.87")]
#: Table 310.15(C)(1).
ADJUSTMENT = [(3, "1"), (6, "0.8"), (9, "0.7"), (20, "0.5")]
#: Section 240.6(A).
RATINGS = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100]
COLUMNS = {"60 °C": 0, "75 °C": 1, "90 °C": 2}


def plain_quantity(text, unit):
    number, written = text.split()
    if written != unit:
        raise ValueError(f"{text}: not in {unit}")
    return Decimal(number)


def plain_ampacity(*, size, material, insulation, installation, place, ambient, current_carrying, terminals, circuit_rating):
    if (material, insulation, installation, place) != ("copper", "THHN", "raceway", "dry"):
        raise ValueError("one table, one column")
    degrees = plain_quantity(ambient, "°C")
    correction = next(Decimal(factor) for most, factor in AMBIENT if degrees <= most)
    adjustment = next(Decimal(factor) for most, factor in ADJUSTMENT if int(current_carrying) <= most)
    plain_quantity(circuit_rating, "A")
    row = AMPACITY[size]
    return min(Decimal(row[2]) * correction * adjustment, Decimal(row[COLUMNS[terminals]]))


def plain_device(*, required, kind):
    least = plain_quantity(required, "A")
    return next(Decimal(rating) for rating in RATINGS if rating >= least)


def plain_continuous(*, continuous, non_continuous, continuous_rating):
    share = plain_quantity(continuous_rating, "%") / 100
    return plain_quantity(continuous, "A") / share + plain_quantity(non_continuous, "A")


PAIRS = [
    (
        "ampacity, 9 keywords",
        lw.ampacity,
        plain_ampacity,
        {
            "size": "8 AWG", "material": "copper", "insulation": "THHN", "installation": "raceway", "place": "dry",
            "ambient": "38 °C", "current_carrying": "6", "terminals": "75 °C", "circuit_rating": "40 A",
        },
    ),
    ("next device, 2 keywords", lw.overcurrent_device, plain_device, {"required": "45 A", "kind": "breaker"}),
    (
        "continuous load, 3 keywords",
        lw.continuous_load,
        plain_continuous,
        {"continuous": "16 A", "non_continuous": "4 A", "continuous_rating": "80 %"},
    ),
]  # fmt: skip

ALONE = [
    (
        "largest device, 13 keywords",
        lw.overcurrent_device,
        {
            "size": "8 AWG", "material": "copper", "insulation": "THHN", "installation": "raceway", "place": "dry",
            "ambient": "38 °C", "current_carrying": "6", "terminals": "75 °C", "circuit_rating": "40 A",
            "kind": "breaker", "supplies": "other", "edition": "nec-2023", "accept": None,
        },
    ),
    ("cord, 3 keywords", lw.cord_ampacity, {"cord": "SOOW", "size": "10 AWG", "current_carrying": 2}),
    ("equipment grounding, 2 keywords", lw.equipment_grounding, {"device": "100 A", "material": "copper"}),
    ("plug, 2 keywords", lw.plug_fit, {"plug": "14-50P", "receptacle": "14-50R"}),
    (
        "voltage drop, 7 keywords",
        lw.voltage_drop,
        {
            "method": "dc", "circuit": "two-wire", "supply": "120 V", "size": "12 AWG", "material": "copper",
            "length": "50 ft", "current": "16 A",
        },
    ),
    (
        "circuit sized, 6 keywords",
        lw.size_circuit,
        {
            "continuous": "16 A", "non_continuous": "0 A", "conductors": "line-and-neutral", "supplies": "other",
            "material": "copper", "insulation": "THHN",
        },
    ),
]  # fmt: skip


def microseconds(function, stated):
    """The best of some rounds, in processor time: the call alone, with its keywords written out."""
    words = ", ".join(f"{name}={value!r}" for name, value in stated.items())
    timer = timeit.Timer(f"f({words})", globals={"f": function}, timer=time.process_time)
    return min(timer.repeat(ROUNDS, CALLS)) / CALLS * 1e6


def milliseconds_of_import():
    """The import alone, by the clock of a fresh interpreter: the best of twenty."""
    program = "import time; began = time.perf_counter(); import loadworthy; print(time.perf_counter() - began)"
    found = [subprocess.run([sys.executable, "-c", program], capture_output=True, check=True).stdout for _ in range(20)]
    return min(map(float, found)) * 1e3


def main():
    print(f"{'':34}{'package':>10}{'plain':>10}{'plain / package':>17}")
    for name, ours, plain, stated in PAIRS:
        assert ours(**stated).value == plain(**stated), name
        one, other = microseconds(ours, stated), microseconds(plain, stated)
        print(f"{name:34}{one:7.2f} µs{other:7.2f} µs{other / one:17.2f}")
    for name, ours, stated in ALONE:
        print(f"{name:34}{microseconds(ours, stated):7.2f} µs")
    stated = PAIRS[0][3]
    answer = lw.ampacity(**stated)
    print(f"{'value of an answer':34}{microseconds(lambda: answer.value, {}):7.2f} µs")
    print(f"{'answer and derivation':34}{microseconds(lambda: lw.ampacity(**stated).derivation, {}):7.2f} µs")
    print(f"{'import, over the bare interpreter':34}{milliseconds_of_import():7.2f} ms")


if __name__ == "__main__":
    main()
