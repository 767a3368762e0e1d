"""The command against a second derivation, on random conditions and at the edges of the tables."""

import random
from fractions import Fraction
from math import ceil

import derive
import pytest
from derive import rows
from second_copy import size

EDITIONS = (2017, 2020, 2023)
MATERIALS = ("copper", "copper", "aluminum", "copper-clad aluminum")
AMERICAN = [size(r["size"], r["unit"]) for r in rows("ampacity_310_16")]
UNITS = {"A": 1, "mA": Fraction(1, 1000), "kA": 1000, "V": 1, "mV": Fraction(1, 1000), "kV": 1000}


@pytest.fixture
def pick():
    return random.Random(20240229)


def value(text):
    number, unit = text.split()
    return Fraction(number) * UNITS[unit] if unit in UNITS else text


def compare(ask, asked, derivation):
    """Every question through the command and through `derivation`; at least some of each outcome must occur."""
    answers = ask([dict(question, edition=f"nec-{year}") for question, year in asked])
    answered = 0
    for (question, year), answer in zip(asked, answers, strict=True):
        try:
            expected = derivation(question, year)
        except derive.CannotTell as gap:
            assert answer["outcome"] == "cannot-tell", (question, year, gap, answer)
            continue
        assert answer["outcome"] == "answered", (question, year, expected, answer)
        assert value(answer["answer"]["text"]) == expected, (question, year, answer)
        answered += 1
    assert answered > len(asked) // 4, "too few questions had an answer to mean anything"
    return answers


def ambient(pick):
    # Edges of the bands as often as anything else: the last degree of one, the first of the next, a hair over.
    edge = pick.choice([10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 70, 85])
    return pick.choice([
        f"{edge} °C", f"{edge}.001 °C", f"{edge + 1} °C", f"{pick.randint(-20, 90)} °C",
        f"{edge * 9 // 5 + 32} °F", f"{edge * 9 // 5 + 33} °F", f"{pick.randint(0, 190)} °F",
    ])


def ampacity_question(pick):
    question = {
        "question": "ampacity", "size": pick.choice(AMERICAN), "material": pick.choice(MATERIALS),
        "ambient": ambient(pick),
        "current-carrying": str(pick.choice([1, 3, 4, 6, 7, 9, 10, 20, 21, 30, 31, 40, 41, 60])),
        "terminals": pick.choice(["60 °C", "75 °C", "90 °C", "unmarked"]), "place": pick.choice(["dry", "damp", "wet"]),
    }
    if pick.random() < 0.2:
        question["cable"] = pick.choice(["NM-B", "UF-B"])
    else:
        names = [n.strip() for r in rows("insulation_types") if "cable" not in r["type"] for n in r["type"].split(",")]
        question["insulation"] = pick.choice([n for n in names if "(" not in n])
        question["installation"] = pick.choice(["raceway", "buried", "free air"])
        if pick.random() < 0.3:
            question["rooftop-clearance"] = pick.choice(["0 in", "18.9 mm", "19 mm", "22.9 mm", "23 mm", "2 in"])
            question["ambient"] = f"{pick.randint(5, 50)} °C"
    if pick.random() < 0.4:
        question["circuit-rating"] = pick.choice(["15 A", "100 A", "100.001 A", "200 A"])
    return question


def test_ampacity(ask, pick):
    asked = [(ampacity_question(pick), pick.choice(EDITIONS)) for _ in range(900)]
    answers = compare(ask, asked, lambda q, year: derive.ampacity(q, year)[0])
    for (question, year), answer in zip(asked, answers, strict=True):
        if answer["outcome"] == "answered":
            corrected = value(answer["figures"]["corrected_and_adjusted"])
            assert corrected == derive.ampacity(question, year)[1], question


def test_cord(ask, pick):
    types = [r["type"] for r in rows("flexible_cord_types_400_4")]
    sizes = [f"{n} AWG" for n in range(18, 0, -1)] + ["1/0 AWG", "4/0 AWG", "250 kcmil", "500 kcmil"]
    asked = []
    for _ in range(900):
        question = {
            "question": "cord", "cord": pick.choice(types), "size": pick.choice(sizes), "ambient": ambient(pick),
            "current-carrying": str(pick.choice([1, 2, 3, 4, 6, 7, 9, 10, 20, 21, 41])),
        }
        if pick.random() < 0.6:
            question["marked"] = pick.choice(["59 °C", "60 °C", "74 °C", "75 °C", "89 °C", "90 °C", "105 °C"])
        asked.append((question, pick.choice(EDITIONS)))
    compare(ask, asked, lambda q, _: derive.cord(q))


def near(pick, ratings):
    rating = pick.choice(ratings)
    return f"{pick.choice([f'{rating - 1}.999999', rating, f'{rating}.000001', pick.randint(1, 690)])} A"


def test_largest_device(ask, pick):
    ratings = [r for r, _ in derive.standard("fuse", 2023) if r < 700]
    asked = [({
        "question": "overcurrent-device", "ampacity": near(pick, ratings), "size": pick.choice(AMERICAN),
        "material": pick.choice(MATERIALS), "kind": pick.choice(["breaker", "fuse"]),
        "supplies": pick.choice(["several-receptacles", "other"]),
    }, pick.choice(EDITIONS)) for _ in range(600)]
    compare(ask, asked, derive.largest_device)


def test_next_device(ask, pick):
    ratings = [r for r, _ in derive.standard("fuse", 2023)]
    asked = [({
        "question": "overcurrent-device", "required": near(pick, ratings), "kind": pick.choice(["breaker", "fuse"]),
    }, pick.choice(EDITIONS)) for _ in range(400)]
    compare(ask, asked, derive.next_device)


def test_continuous_load(ask, pick):
    def amperes():
        return f"{pick.randint(0, 999)}.{pick.randint(0, 999):03} A"

    asked = [({
        "question": "continuous-load", "continuous": amperes(), "non-continuous": amperes(),
        "continuous-rating": pick.choice(["80 %", "100 %"]),
    }, pick.choice(EDITIONS)) for _ in range(300)]
    compare(ask, asked, lambda q, _: derive.continuous_load(q))


def test_equipment_grounding(ask, pick):
    ratings = [int(r["ocpd_not_exceeding_a"]) for r in rows("egc_250_122")]
    asked = []
    for _ in range(600):
        rating = pick.choice(ratings)
        device = pick.choice([rating - 1, rating, rating + 1])
        question = {"question": "equipment-grounding", "device": f"{device} A", "material": pick.choice(MATERIALS)}
        if pick.random() < 0.7:
            question["needed"], question["installed"] = pick.choice(AMERICAN), pick.choice(AMERICAN)
        asked.append((question, pick.choice(EDITIONS)))
    compare(ask, asked, derive.equipment_grounding)


def test_grounding_electrode(ask):
    asked = [({
        "question": "grounding-electrode", "service-size": of, "service-material": service, "material": material,
    }, 2023) for of in AMERICAN for service in ("copper", "aluminum") for material in ("copper", "aluminum")]
    compare(ask, asked, lambda q, _: derive.grounding_electrode(q))


def wire(pick, reactance):
    if pick.random() < 0.6:
        return {"size": pick.choice(AMERICAN), "material": pick.choice(["copper", "aluminum"])}
    unit = pick.choice(["ohm/kft", "ohm/km"])
    stated = {"resistance": f"0.{pick.randint(1, 99999):05} {unit}"}
    return dict(stated, reactance=f"0.{pick.randint(0, 9999):05} {unit}") if reactance else stated


def text_of(parts, name=""):
    if "size" in parts:
        return f"{name}{parts['size']} {parts['material']}"
    return ", ".join(f"{name}{part} {parts[part]}" for part in parts)


def drop_question(pick, method):
    question = {
        "question": "voltage-drop", "method": method, "supply": pick.choice(["120 V", "240 V", "208 V", "480 V"]),
        "circuit": pick.choice(["two-wire", "three-wire", "three-phase"]),
    }
    if method == "dc":
        question["conductor-temperature"] = pick.choice(["75 °C", "20 °C", "60 °C", "90 °C", "33.3 °C"])
    elif method == "constant":
        question["k"] = pick.choice(["12.9", "21.2", "12", "10.8"])
    else:
        question["conduit"] = pick.choice(["PVC", "aluminum", "steel"])
        question["power-factor"] = pick.choice(["1", "0.85", "0.8", "0.123457", f"0.{pick.randint(1, 99):02}"])
    path, texts = [], []
    for _ in range(pick.randint(1, 4)):
        segment = {
            "wire": wire(pick, method == "impedance"),
            "length": f"{pick.randint(1, 600) / 2} {pick.choice(['ft', 'm'])}",
            "current": f"{pick.randint(0, 60000) / 1000} A",
            "other": f"{pick.randint(0, 60000) / 1000} A",
        }
        parts = [text_of(segment["wire"]), segment["length"], segment["current"]]
        if question["circuit"] != "three-phase" and pick.random() < 0.5:
            segment["neutral"] = wire(pick, method == "impedance")
            parts.append(text_of(segment["neutral"], "neutral "))
        if question["circuit"] == "three-wire":
            parts.append(f"other leg {segment['other']}")
        path.append(segment)
        texts.append(", ".join(parts))
    return dict(question, segment=texts), path


@pytest.mark.parametrize("method", ["dc", "constant", "impedance"])
def test_voltage_drop(ask, pick, method):
    asked = [drop_question(pick, method) for _ in range(400)]
    answered = exact = 0
    for (question, path), answer in zip(asked, ask([q for q, _ in asked]), strict=True):
        try:
            drop, rounding = derive.voltage_drop(question, path)
        except derive.CannotTell as gap:
            assert answer["outcome"] == "cannot-tell", (question, gap, answer)
            continue
        assert answer["outcome"] == "answered", (question, answer)
        printed = Fraction(answer["answer"]["value"])
        printed = -printed if answer["figures"]["direction"] == "rise" else printed
        assert abs(printed - drop) <= rounding, (question, float(drop), answer)
        answered, exact = answered + 1, exact + (abs(printed) == Fraction(ceil(abs(drop) * 10**12), 10**12))
        if question["circuit"] != "three-wire":
            assert printed >= drop, "a drop is never printed smaller than it is"
    assert answered > 100
    # Only a correction for temperature, K and a power factor round at all, and then by far less than is printed.
    assert exact > answered // 2, "where nothing is rounded the figures are the same"
