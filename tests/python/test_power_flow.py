"""The exact phasor method against two general-purpose power-flow libraries, on random circuits."""

import math
import random

import opendssdirect as dss
import pytest
import split_phase
from power_grid_model import CalculationMethod, ComponentType, LoadGenType, PowerGridModel, initialize_array

# Volts and amperes: what the agreement is.
NEAR = 1e-4


@pytest.fixture
def pick():
    return random.Random(19990924)


def conductor(pick):
    """Ohms per 1000 ft as texts, so that both sides read the same figures."""
    return f"{pick.randint(50, 3000) / 1000}", f"{pick.randint(30, 80) / 1000}"


def ohms(wire, feet):
    return tuple(float(part) * feet / 1000 for part in wire)


def stated(wire, name=""):
    return f"{name}resistance {wire[0]} ohm/kft, {name}reactance {wire[1]} ohm/kft"


def random_path(pick):
    return [(conductor(pick), conductor(pick), pick.randint(2, 200) / 2) for _ in range(pick.randint(1, 4))]


def question(circuit, supply, power_factor, segments):
    return {
        "question": "voltage-drop", "method": "phasor", "circuit": circuit, "supply": f"{supply} V",
        "power-factor": power_factor, "segment": segments,
    }


def drop(answer):
    assert answer["outcome"] == "answered", answer
    value = float(answer["answer"]["value"])
    return -value if answer["figures"]["direction"] == "rise" else value


def lag(power_factor):
    return math.degrees(math.acos(float(power_factor)))


def power_factor(pick):
    return pick.choice(["1", "0.85", f"0.{pick.randint(40, 99)}"])


def test_two_wires(ask, pick):
    questions, expected = [], []
    for _ in range(60):
        path, factor, amperes = random_path(pick), power_factor(pick), pick.randint(1, 20000) / 1000
        split_phase.start(120)
        split_phase.wires([(ohms(wire, feet), ohms(back, feet)) for wire, back, feet in path])
        left = split_phase.solve_at_angle([("a", len(path), amperes)], len(path), lag(factor))
        expected.append(120 - abs(left))
        assert abs(split_phase.current("reactor.n1")) == pytest.approx(amperes, abs=NEAR)
        texts = [f"{stated(wire)}, {stated(back, 'neutral ')}, {feet} ft, {amperes} A" for wire, back, feet in path]
        questions.append(question("two-wire", 120, factor, texts))
    assert [drop(a) for a in ask(questions)] == pytest.approx(expected, abs=NEAR)


def test_three_wires_with_unequal_legs(ask, pick):
    """One load a leg at the end: the voltage of the leg that is asked about, with what the neutral carries."""
    questions, expected = [], []
    for _ in range(80):
        path, factor = random_path(pick), power_factor(pick)
        this, other = pick.randint(0, 20000) / 1000, pick.randint(0, 20000) / 1000
        end = len(path)
        split_phase.start(120)
        split_phase.wires([(ohms(wire, feet), ohms(neutral, feet)) for wire, neutral, feet in path])
        left = split_phase.solve_at_angle([("a", end, this), ("b", end, other)], end, lag(factor))
        expected.append(120 - abs(left))
        currents = [abs(split_phase.current(f"reactor.{name}1")) for name in "abn"]
        assert currents == pytest.approx([this, other, abs(this - other)], abs=NEAR)
        texts = [f"{stated(wire)}, {stated(neutral, 'neutral ')}, {feet} ft, {this} A, other leg {other} A"
                 for wire, neutral, feet in path]
        questions.append(question("three-wire", 120, factor, texts))
    drops = [drop(a) for a in ask(questions)]
    assert drops == pytest.approx(expected, abs=NEAR)
    assert any(value < 0 for value in drops), "a lightly loaded leg must gain somewhere"


def test_three_wires_with_loads_along_the_way(ask, pick):
    """Loads at the end of every segment: what each segment carries is what the power flow says, leg by leg."""
    questions, expected = [], []
    for _ in range(60):
        path = random_path(pick)
        end = len(path)
        split_phase.start(120)
        split_phase.wires([(ohms(wire, feet), ohms(neutral, feet)) for wire, neutral, feet in path])
        loads = [(leg, number, pick.randint(1, 6000) / 1000) for number in range(1, end + 1) for leg in "ab"]
        factor = power_factor(pick)
        left = split_phase.solve_at_angle(loads, end, lag(factor))
        expected.append(120 - abs(left))
        texts = []
        for number, (wire, neutral, feet) in enumerate(path, 1):
            a, b = (round(sum(m for load, at, m in loads if load == leg and at >= number), 6) for leg in "ab")
            currents = [abs(split_phase.current(f"reactor.{name}{number}")) for name in "abn"]
            assert currents == pytest.approx([a, b, abs(a - b)], abs=NEAR)
            texts.append(f"{stated(wire)}, {stated(neutral, 'neutral ')}, {feet} ft, {a:.6f} A, other leg {b:.6f} A")
        questions.append(question("three-wire", 120, factor, texts))
    assert [drop(a) for a in ask(questions)] == pytest.approx(expected, abs=NEAR)


def test_an_open_neutral_puts_both_loads_in_series(ask, pick):
    """With the neutral open the legs are a two-wire circuit of 240 V: one current, and what is left is shared by
    resistance, whatever that does to the smaller load."""
    questions, expected = [], []
    for _ in range(40):
        path = random_path(pick)
        end = len(path)
        a, b = pick.randint(500, 5000) / 100, pick.randint(500, 5000) / 100
        split_phase.start(120)
        split_phase.wires([(ohms(wire, feet), None) for wire, _, feet in path], open_neutral=True)
        split_phase.run(
            f"new reactor.load_a phases=1 bus1=bus{end}.1 bus2=bus{end}.3 r={a} x=0",
            f"new reactor.load_b phases=1 bus1=bus{end}.3 bus2=bus{end}.2 r={b} x=0",
        )
        dss.Solution.Solve()
        current = split_phase.current("reactor.load_a")
        assert abs(split_phase.current("reactor.load_b") - current) < NEAR
        at_a, at_b = abs(split_phase.voltage_of_leg("a", end)), abs(split_phase.voltage_of_leg("b", end))
        assert at_a / at_b == pytest.approx(a / b, rel=1e-6)
        assert at_a == pytest.approx(abs(current) * a, abs=NEAR)
        # The wires are inductive and the loads are not: at the loads the current is in phase.
        expected.append(240 - (at_a + at_b))
        texts = [f"{stated(wire)}, {feet} ft, {abs(current):.6f} A" for wire, _, feet in path]
        questions.append(question("two-wire", 240, "1", texts))
    assert [drop(a) for a in ask(questions)] == pytest.approx(expected, abs=NEAR)


def test_three_phases(ask, pick):
    questions, expected = [], []
    for _ in range(100):
        path, factor, volts = random_path(pick), power_factor(pick), pick.choice([208, 480])
        amperes = pick.randint(1, 20000) / 1000
        expected.append(three_phase(volts, [ohms(wire, feet) for wire, _, feet in path], amperes, float(factor)))
        texts = [f"{stated(wire)}, {feet} ft, {amperes} A" for wire, _, feet in path]
        questions.append(question("three-phase", volts, factor, texts))
    assert [drop(a) for a in ask(questions)] == pytest.approx(expected, abs=NEAR)


def three_phase(volts, path, amperes, factor):
    """The drop between lines of a balanced path with a load of constant current at its end."""
    node = initialize_array("input", ComponentType.node, len(path) + 1)
    node["id"] = range(len(path) + 1)
    node["u_rated"] = volts

    line = initialize_array("input", ComponentType.line, len(path))
    line["id"] = [100 + at for at in range(len(path))]
    line["from_node"], line["to_node"] = range(len(path)), range(1, len(path) + 1)
    line["from_status"] = line["to_status"] = 1
    line["r1"], line["x1"] = [r for r, _ in path], [x for _, x in path]
    line["c1"] = line["tan1"] = 0

    source = initialize_array("input", ComponentType.source, 1)
    source["id"], source["node"], source["status"], source["u_ref"], source["sk"] = 200, 0, 1, 1.0, 1e18

    load = initialize_array("input", ComponentType.sym_load, 1)
    load["id"], load["node"], load["status"], load["type"] = 300, len(path), 1, LoadGenType.const_current
    apparent = math.sqrt(3) * volts * amperes
    load["p_specified"], load["q_specified"] = apparent * factor, apparent * math.sqrt(1 - factor * factor)

    model = PowerGridModel({
        ComponentType.node: node, ComponentType.line: line, ComponentType.source: source, ComponentType.sym_load: load,
    })
    result = model.calculate_power_flow(
        calculation_method=CalculationMethod.iterative_current, error_tolerance=1e-12, max_iterations=1000
    )
    carried = result[ComponentType.line]["i_from"]
    assert carried == pytest.approx([amperes] * len(path), abs=NEAR)
    return volts - float(result[ComponentType.node]["u"][-1])
