"""Random questions, right and wrong, through both doors: the same answers, and the same complaints."""

import inspect
import json
import re
from decimal import Decimal

import loadworthy as lw
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from loadworthy import _core

SIZES = ["14 AWG", "12 AWG", "10AWG", "6 AWG", "1/0 AWG", "250 kcmil", "600 kcmil", "18 AWG", "2.5 mm2", "11 AWG", "6"]
MATERIALS = ["copper", "Aluminum", "copper-clad aluminum", "gold"]
CURRENTS = ["0 A", "7.5 A", "16 A", "20 A", "40 A", "125 A", "800 A", "16", "16 V", "-1 A", "1e3 A", "0.0001 A", "A"]
VOLTAGES = ["120 V", "240 V", "208 V", "0.48 kV", "0 V", "120", "12 furlong"]
LENGTHS = ["50 ft", "6 in", "30 m", "0 ft", "1000 m", "50"]
TEMPERATURES = ["30 °C", "104 °F", "86 degF", "75 °C", "-5 °C", "200 °C", "30"]
PERCENTS = ["3 %", "80 %", "100 %", "0.5 percent", "3", "101 %"]
COUNTS = ["1", "3", "6", "40", "0", "three", " 2 "]
OHMS = ["0.2 ohm/kft", "1.98 ohm/km", "0.2"]
OUTLETS = ["14-50", "L14-30", "5-20", "CS-50-125/250", "14-50P", "L14-30R", "99-99"]
CONFIGURATIONS = [*OUTLETS, "IEC 60309 32 A blue 2P+E", "5-15P"]

POOLS = {
    "ambient": TEMPERATURES,
    "ampacity": CURRENTS,
    "built_size": SIZES,
    "cable": ["NM-B", "UF-B", "MC", "SE", "ROMEX-LIKE"],
    "circuit": ["two-wire", "three-wire", "three-phase", "one-wire"],
    "circuit_rating": CURRENTS,
    "clamps": ["internal", "none", "some"],
    "conductor": ["3 x 6 AWG THWN-2", "1 x 10 AWG bare", "4 x 14 AWG", "4 x 12 AWG", "x", "3 x 4/0 AWG compact XHHW-2"],
    "conductor_temperature": TEMPERATURES,
    "conductors": ["line-and-neutral", "two-lines", "two-lines-and-neutral", "three-phase", "none"],
    "conduit": ["PVC", "aluminum", "steel", "paper"],
    "connector": CONFIGURATIONS,
    "continuous": CURRENTS,
    "continuous_rating": ["80 %", "100 %", "90 %"],
    "cord": ["SOOW", "SJTW", "STW", "SPT-2", "ROPE"],
    "cord_length": LENGTHS,
    "cord_place": ["dry", "wet"],
    "current": CURRENTS,
    "current_carrying": COUNTS,
    "device": [*CURRENTS, "1 x 12 AWG", "2 x 14 AWG", "none", "inverse-time breaker", "dual-element fuse"],
    "device_rating": CURRENTS,
    "drop_limit": PERCENTS,
    "duty": ["continuous", "non-continuous", "sometimes"],
    "extent": ["run", "nipple", "long"],
    "feeder_length": LENGTHS,
    "fittings": ["0", "1", "2", "3"],
    "grounding": ["3 x 12 AWG", "none", "12 AWG"],
    "grounding_material": [*MATERIALS, "none"],
    "installation": ["raceway", "cable", "buried", "free air", "on the moon"],
    "installed": SIZES,
    "insulation": ["THHN", "thwn-2", "XHHW-2", "TW", "RHW", "TNNH"],
    "k": ["12.9", "21.2", "0", "-1", "k"],
    "kind": ["breaker", "fuse", "EMT", "PVC-40", "FMC", "wire"],
    "least_device": CURRENTS,
    "length": LENGTHS,
    "marked": ["60 °C", "90 °C", "105 °C", "90"],
    "material": MATERIALS,
    "method": ["dc", "constant", "impedance", "phasor", "guess"],
    "most_sets": ["1", "2", "9", "10"],
    "motor_kind": ["design-b-energy-or-premium-efficient", "wound-rotor", "direct-current", "small"],
    "needed": SIZES,
    "neutral": ["unbalance-only", "counted", "none", "maybe"],
    "neutral_load": CURRENTS,
    "neutral_material": MATERIALS,
    "neutral_reactance": OHMS,
    "neutral_resistance": OHMS,
    "neutral_size": SIZES,
    "non_continuous": CURRENTS,
    "other_leg": CURRENTS,
    "outlet": [*OUTLETS, "14-50 = 40 A", "L14-30 = 30 A, 100 %", "14-50 ="],
    "output": ["3 hp", "7-1/2 hp", "1/2 hp", "3 kW"],
    "panel_rating": CURRENTS,
    "panel_system": ["120/240 V", "120 V", "208Y/120 V", "12"],
    "phases": ["single-phase", "three-phase", "two"],
    "place": ["dry", "damp", "wet", "moist"],
    "plug": CONFIGURATIONS,
    "power_factor": ["0.85", "1", "0", "1.2", "85 %"],
    "price": ["flanged inlet = 85.00", "cord = 12", "cord"],
    "raceway": ["EMT", "PVC-80", "pipe"],
    "rating": CURRENTS,
    "reactance": OHMS,
    "receptacle": CONFIGURATIONS,
    "required": CURRENTS,
    "resistance": OHMS,
    "role": ["branch", "feeder", "main"],
    "rooftop_clearance": LENGTHS,
    "segment": ["12 AWG copper, 50 ft, 16 A", "resistance 0.2 ohm/kft, 20 m, 5 A", "50 ft", "other leg 3 A"],
    "service_material": MATERIALS,
    "service_size": SIZES,
    "sets": ["1", "2", "ten"],
    "shape": ["round", "square", "device", "oval"],
    "size": SIZES,
    "source_current": CURRENTS,
    "source_neutral": ["bonded", "floating", "loose"],
    "source_system": ["120/240 V", "120 V", "wall"],
    "supplies": ["several-receptacles", "other", "one"],
    "supply": [*VOLTAGES, "40 A"],
    "terminals": ["60 °C", "75 °C", "90 °C", "unmarked", "hot"],
    "thermal_insulation": ["yes", "no", "perhaps"],
    "transfer": ["none", "switch"],
    "type": ["SOOW", "STW", "ROPE"],
    "ungrounded": COUNTS,
    "unknown": ["length", "load", "ambient", "conductors", "luck"],
    "usage": ["not hard", "hard", "extra hard", "gentle"],
    "voltage": VOLTAGES,
    "want": ["well pump = 240 V, 8 A", "refrigerator = 120 V, 6 A, plug 5-15", "furnace = 120 V, 5 A, leg A", "tea"],
}
SEVERAL = {
    ("voltage-drop", "segment"),
    ("size-raceway", "conductor"),
    ("size-box", "conductor"),
    ("size-box", "device"),
    ("size-kit", "outlet"),
    ("size-kit", "want"),
    ("size-kit", "price"),
}
#: Options that a question cannot do without: stated more often, so that most answers are numbers.
OFTEN = {
    "size", "material", "insulation", "cord", "continuous", "non_continuous", "device", "conductors", "supplies",
    "method", "circuit", "supply", "length", "current", "plug", "receptacle", "service_size", "service_material",
    "rating", "output", "voltage", "phases", "kind", "conductor", "grounding", "clamps", "fittings", "outlet", "usage",
    "place", "unknown", "device_rating", "built_size", "duty", "source_system", "source_current", "panel_system",
    "panel_rating", "want", "cord_length", "cord_place", "feeder_length",
}  # fmt: skip
FUNCTIONS = {question: getattr(lw, name) for name, question in _core.QUESTIONS}


def options(question):
    names = inspect.signature(FUNCTIONS[question]).parameters
    return [name for name in names if name not in ("edition", "accept")]


@st.composite
def questions(draw, of):
    question = draw(st.sampled_from(of))
    stated = {}
    for option in options(question):
        if draw(st.integers(0, 9)) < (9 if option in OFTEN else 2):
            # The first of a pool are right; the wrong ones stand behind and come less often.
            pool = POOLS[option]
            value = pool[min(draw(st.integers(0, len(pool) - 1)), draw(st.integers(0, len(pool) - 1)))]
            if (question, option) in SEVERAL:
                value = draw(st.lists(st.sampled_from(pool), min_size=1, max_size=3))
            stated[option] = value
    edition = draw(st.sampled_from([None, None, "nec-2017", "nec-2020", "nec-2023", "nec-1999"]))
    return question, stated, edition


def as_keywords(complaint):
    """What the command says, with its options as keywords."""
    parts = complaint.split("`")
    # Between backticks stand whole arguments, as in `--size "6 AWG" --material copper`.
    parts[1::2] = [re.sub(r'--([a-z-]+) ([^"-].*?)(?= --|$)', r'--\1 "\2"', part) for part in parts[1::2]]
    stated = re.sub('" --', '", --', "`".join(parts))
    named = re.sub(r'--([a-z-]+)( ")?', lambda m: m[1].replace("-", "_") + ('="' if m[2] else ""), stated)
    return named.rstrip("\n").replace("\nloadworthy: ", "\n").removeprefix("loadworthy: ")


def through_python(question, stated, edition):
    try:
        return FUNCTIONS[question](**stated, edition=edition)
    except lw.QuestionError as error:
        return error


def agree(answer):
    """The brief answer says what the document says."""
    document = answer.to_dict()
    said = document.get("answer") or {}
    assert answer.outcome == document["outcome"]
    assert answer.governed_by == document.get("governed_by")
    assert answer.unit == said.get("unit")
    if answer.value is not None:
        assert answer.value == Decimal(said["value"])
        assert str(answer.value) == said["value"]
    elif said.get("value") is not None:
        assert said["unit"] in ("AWG", "kcmil") or answer.question == "size-raceway"
    if answer.quantity is not None:
        assert type(answer.quantity)(f"{said['value']} {said['unit']}") == answer.quantity
    assert [step.what for step in answer.derivation] == [step["what"] for step in document["working"]]
    assert list(answer.assumed) == document["assumed"]


CALC = [question for question in FUNCTIONS if not question.startswith("size-")]


@given(st.lists(questions(CALC), min_size=20, max_size=40))
def test_calc_in_many_lines(command, asked):
    lines = []
    for question, stated, edition in asked:
        line = {"question": question, **{option.replace("_", "-"): value for option, value in stated.items()}}
        lines.append(json.dumps(line | ({"edition": edition} if edition else {})))
    _, out, complaints = command("calc", "--questions", "-", stdin="\n".join(lines).encode())
    assert complaints == ""
    for one, line in zip(asked, out.splitlines(), strict=True):
        answer, printed = through_python(*one), json.loads(line)
        if printed["outcome"] == "not-read":
            assert isinstance(answer, lw.QuestionError), one
            assert str(answer) == as_keywords(printed["problem"])
        else:
            assert answer.to_dict() == printed, one
            agree(answer)


@settings(max_examples=150)
@given(questions(list(FUNCTIONS)))
def test_each_question_byte_for_byte(command, asked):
    question, stated, edition = asked
    words = ["size", question.removeprefix("size-")] if question.startswith("size-") else ["calc", question]
    for option, values in stated.items():
        for value in values if isinstance(values, list) else [values]:
            words.append(f"--{option.replace('_', '-')}={value}")
    if edition:
        words.append(f"--edition={edition}")
    answer = through_python(*asked)
    status, out, complaint = command(*words, "--format", "json")
    if status == 3:
        assert str(answer) == as_keywords(complaint)
        return
    assert answer.to_json() == out
    assert {"answered": 0, "no": 1, "cannot-tell": 2}[answer.outcome.value] == status
    agree(answer)
    if status != 1 or question != "size-kit":
        assert str(answer) == command(*words)[1]


@pytest.mark.parametrize("question", FUNCTIONS)
def test_every_option_has_a_pool_and_is_documented(question):
    documentation = " ".join(FUNCTIONS[question].__doc__.split())
    for option in options(question):
        assert option in POOLS
        wanted = _core.wanted(question, option)
        assert as_keywords(" ".join(f"{option}: {wanted}".split())) in documentation
        assert ((question, option) in SEVERAL) == takes_several(question, option)


def takes_several(question, option):
    try:
        _core.ask(question, [(option, ["1", "2"])])
    except lw.QuestionError as error:
        return "is said once" not in str(error)
    return True
