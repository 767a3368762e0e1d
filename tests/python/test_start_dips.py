"""The voltage at a load while it starts, as `plan` gives it, against OpenDSS on random sites and orders.

Both sides take loads as the impedance that draws the stated current at the rated voltage, behind the source's internal
impedance, one loop a leg.
"""

import cmath
import json
import math
import random
import subprocess

import opendssdirect as dss
import pytest

LEG = 120
# What the stiff sources of the other side take, in volts.
STIFF = 5e-5


@pytest.fixture
def pick():
    return random.Random(20030814)


def impedance(volts, amperes, factor):
    return cmath.rect(volts / amperes, math.acos(factor))


def reactor(name, one, other, ohms):
    dss.Text.Command(f"New Reactor.{name} phases=1 bus1={one} bus2={other} R={ohms.real:.12f} X={ohms.imag:.12f}")


def solved(source, running, starting):
    """The voltage across the load that starts, beside those that run."""
    dss.Text.Command("Clear")
    stiff = "R1=0 X1=1e-7 R0=0 X0=1e-7"
    dss.Text.Command(f"New Circuit.c phases=1 bus1=a.1 basekv={LEG / 1000} pu=1 angle=0 {stiff}")
    dss.Text.Command(f"New Vsource.b phases=1 bus1=b.1 basekv={LEG / 1000} pu=1 angle=180 {stiff}")
    for leg in "ab":
        reactor(f"z{leg}", f"{leg}.1", f"{leg}end.1", source)
    ends = {"A": ("aend.1", "aend.0"), "B": ("bend.1", "bend.0"), "both": ("aend.1", "bend.1")}
    for number, (leg, ohms) in enumerate([*running, starting]):
        reactor(f"load{number}", *ends[leg], ohms)
    dss.Text.Command("Set tolerance=1e-12")
    dss.Text.Command("Solve mode=snapshot")
    assert dss.Solution.Converged()

    def at(bus):
        dss.Circuit.SetActiveBus(bus)
        real, imaginary = dss.Bus.Voltages()[:2]
        return complex(real, imaginary)

    leg = starting[0]
    return abs(at("aend") - at("bend")) if leg == "both" else abs(at("aend" if leg == "A" else "bend"))


SITE = """
[site]
name = "dips"
code = "nec-2023"
ambient = "30 °C"
base_load = "0 W"

[[source]]
name = "set"
kind = "generator"
system = "120/240 V"
continuous_current = "200 A"
starting_current = "900 A"
starting_time = "10 s"
no_load_voltage = "120 V"
internal_resistance = "{r} ohm"
internal_reactance = "{x} ohm"

[[source.outlet]]
name = "terminals"
configuration = "hardwired"
overcurrent_device = "200 A"

[[panel]]
name = "panel"
from = "terminals"
system = "120/240 V"
busbar = "200 A"
"""

LOAD = """
[[circuit]]
name = "circuit {name}"
from = "panel"
voltage = "{volts} V"
overcurrent_device = {{ rating = "200 A", kind = "breaker", poles = {poles} }}
wiring = {{ material = "copper", size = "12 AWG", length = "{feet} ft" }}

[[load]]
name = "{name}"
from = "circuit {name}"
voltage = "{volts} V"
current = "{amperes} A"
power_factor = {factor}
duty = "non-continuous"
leg = "{leg}"
kind = "motor"
starting_current = "{start} A"
starting_power_factor = {start_factor}
starting_time = "1 s"
greatest_dip = "100 %"
automatic = false
"""


def random_load(pick, name, legs):
    leg = pick.choice(legs)
    amperes = pick.randint(5, 200) / 10
    return {
        "name": name, "leg": leg, "volts": 240 if leg == "both" else 120, "poles": 2 if leg == "both" else 1,
        "amperes": amperes, "factor": pick.randint(50, 100) / 100, "start": round(amperes * pick.uniform(1, 6), 1),
        "start_factor": pick.randint(20, 90) / 100, "feet": 0,
    }


def planned(command, tmp_path, source, loads):
    site = tmp_path / "dips.toml"
    site.write_text(SITE.format(**source) + "".join(LOAD.format(**load) for load in loads), encoding="utf-8")
    order = ", ".join(load["name"] for load in loads)
    command = [command, "plan", site, "--format", "json", "--start-order", order]
    run = subprocess.run(command, capture_output=True, text=True, encoding="utf-8", check=False)
    assert run.returncode < 3, run.stderr
    steps = json.loads(run.stdout)["proposed"]["steps"]
    return [float(step["voltage"][0].removesuffix(" V")) for step in steps]


def cases(pick, count, legs):
    for _ in range(count):
        source = {"r": pick.randint(1, 300) / 1000, "x": pick.randint(0, 600) / 1000}
        yield source, [random_load(pick, f"motor {number}", legs) for number in range(pick.randint(2, 6))]


def expected(source, loads):
    ohms = complex(float(source["r"]), float(source["x"]))
    voltages = []
    for at, load in enumerate(loads):
        running = [(one["leg"], impedance(one["volts"], one["amperes"], one["factor"])) for one in loads[:at]]
        starting = (load["leg"], impedance(load["volts"], load["start"], load["start_factor"]))
        voltages.append(solved(ohms, running, starting))
    return voltages


def test_loads_on_one_leg_each(built, tmp_path, pick):
    for source, loads in cases(pick, 40, ["A", "B"]):
        # Rounded down to the millivolt, towards less voltage.
        for ours, theirs in zip(planned(built, tmp_path, source, loads), expected(source, loads), strict=True):
            assert theirs - 0.002 <= ours <= theirs + STIFF, (source, loads)


def test_loads_between_the_legs(built, tmp_path, pick):
    for source, loads in cases(pick, 20, ["both"]):
        for ours, theirs in zip(planned(built, tmp_path, source, loads), expected(source, loads), strict=True):
            assert theirs - 0.004 <= ours <= theirs + STIFF, (source, loads)


def test_loads_on_legs_and_between_them(built, tmp_path, pick):
    """What unequal legs add to the drop counts at its greatest: never more voltage than OpenDSS leaves."""
    for source, loads in cases(pick, 40, ["A", "B", "both"]):
        for ours, theirs in zip(planned(built, tmp_path, source, loads), expected(source, loads), strict=True):
            assert theirs * 0.985 <= ours <= theirs + STIFF, (source, loads)


def test_a_way_of_its_own_takes_at_least_what_its_resistance_takes(built, tmp_path, pick):
    """The way counts with the whole rated current in phase: never more voltage than OpenDSS leaves."""
    for source, loads in cases(pick, 20, ["A", "B"]):
        near = planned(built, tmp_path, source, loads)
        far = planned(built, tmp_path, source, [{**load, "feet": 100} for load in loads])
        ohms = complex(float(source["r"]), float(source["x"]))
        # 12 AWG copper: 1.93 (solid) to 1.98 (stranded) ohm/kft by Chapter 9, Table 8; 100 ft there and back.
        way = 0.2 * 1.93
        for at, (ours, without) in enumerate(zip(far, near, strict=True)):
            def behind(one, current, factor):
                return impedance(one["volts"], one[current], one[factor]) + way
            running = [(one["leg"], behind(one, "amperes", "factor")) for one in loads[:at]]
            start = behind(loads[at], "start", "start_factor")
            across = solved(ohms, running, (loads[at]["leg"], start)) * abs(start - way) / abs(start)
            assert ours <= across + STIFF
            assert ours >= without - 0.2 * 1.98 * loads[at]["start"] - 0.01
