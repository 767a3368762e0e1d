"""What a question takes and gives. The expected values are cells of the printed tables, named beside each."""

import copy
import inspect
import pickle
from decimal import Decimal

import loadworthy as lw
import pytest
from hypothesis import given
from hypothesis import strategies as st
from loadworthy import Outcome, _core

EIGHT = {"size": "8 AWG", "material": "copper", "insulation": "THHN"}


def test_an_answer_has_its_value_unit_and_governor():
    # Table 310.16: 8 AWG copper, 55 A at 90 °C, 50 A at 75 °C; 40 °C: times 0.91, which is 50.05 A.
    answer = lw.ampacity(**EIGHT, ambient="104 °F", terminals="75 °C")
    assert (answer.value, answer.unit, answer.governed_by) == (Decimal(50), "A", "terminals")
    assert answer.quantity == lw.Amperes(50)
    assert answer.outcome is Outcome.ANSWERED
    assert answer.figures["corrected_and_adjusted"] == "50.05 A"
    assert repr(answer) == "<Answer ampacity: 50 A, governed by terminals>"
    assert str(answer).startswith("50 A: ampacity of 8 AWG copper, THHN\n")
    assert answer.derivation[0].result == "55 A"
    assert "Table 310.16" in answer.derivation[0].citation
    assert "place: dry" in answer.assumed
    assert answer.gap is None


def test_a_wire_size_answers_as_a_size_not_as_a_number():
    # Table 250.122: behind 100 A, 8 AWG copper.
    answer = lw.equipment_grounding(device=lw.Amperes(100), material="copper")
    assert (answer.value, answer.unit, answer.quantity) == (None, "AWG", lw.WireSize("8 AWG"))


def test_no_and_cannot_tell_are_neither_true_nor_false():
    no = lw.plug_fit(plug="L14-30P", receptacle="14-50R")
    assert (no.outcome, no.value, no.text) == (Outcome.NO, None, "it does not mate")
    # 18 AWG has no row among the ampacities.
    unknown = lw.ampacity(size="18 AWG", material="copper", insulation="THHN")
    assert (unknown.outcome, unknown.value, unknown.text) == (Outcome.CANNOT_TELL, None, None)
    assert unknown.gap is not None
    assert unknown.gap.what
    for answer in (no, unknown):
        with pytest.raises(TypeError, match="ask for its `outcome`"):
            bool(answer)
    with pytest.raises(TypeError, match="Outcome.NO"):
        bool(no.outcome)


@pytest.mark.parametrize("ambient", ["40 °C", "104 °F", lw.Celsius(40), lw.Celsius("104 °F"), lw.Celsius(104, "°F")])
def test_quantities_are_texts_or_objects(ambient):
    assert lw.ampacity(**EIGHT, ambient=ambient).figures["corrected_and_adjusted"] == "50.05 A"


@pytest.mark.parametrize("count", [6, "6", Decimal(6)])
def test_a_count_needs_no_unit(count):
    # Six conductors: times 0.8 of 55 A.
    assert lw.ampacity(**EIGHT, current_carrying=count).figures["corrected_and_adjusted"] == "44 A"


def test_a_count_of_another_library_is_a_count():
    numpy = pytest.importorskip("numpy")
    assert lw.ampacity(**EIGHT, current_carrying=numpy.int64(6)) == lw.ampacity(**EIGHT, current_carrying=6)
    for wrong in (numpy.float64(6), numpy.bool_(True), numpy.array([6])):
        with pytest.raises(lw.QuestionError, match="current_carrying"):
            lw.ampacity(**EIGHT, current_carrying=wrong)


def test_a_truth_value_of_another_library_is_no_count():
    # Those of numpy before 2.3 say that they are the numbers 0 and 1.
    truth = type("bool_", (), {"__index__": lambda self: 1})
    with pytest.raises(lw.QuestionTypeError, match="current_carrying: a value of type `bool_` is not understood"):
        lw.ampacity(**EIGHT, current_carrying=truth())


def test_what_is_said_several_times_is_a_list():
    several = lw.voltage_drop(
        method="dc", circuit="two-wire", supply="120 V", segment=["12 AWG copper, 50 ft, 16 A", "14 AWG copper, 20 ft, 4 A"]
    )
    one = lw.voltage_drop(method="dc", circuit="two-wire", supply="120 V", segment="12 AWG copper, 50 ft, 16 A")
    assert several.value > one.value > 0


@pytest.mark.parametrize(
    ("stated", "kind", "message"),
    [
        ({"size": 8}, lw.QuestionError, "size: `8` has no unit; write a wire size such as `8 AWG`"),
        ({"ambient": 30}, lw.QuestionError, "ambient: `30` has no unit; write a temperature such as `30 °C`"),
        (
            {"ambient": 30.5},
            lw.QuestionError,
            "ambient: `30.5` is a bare binary floating-point number; write text or a quantity: "
            'The ambient temperature: "30 °C", "95 °F"',
        ),
        (
            {"ambient": float("nan")},
            lw.QuestionError,
            "ambient: `nan` is a bare binary floating-point number; write text or a quantity: "
            'The ambient temperature: "30 °C", "95 °F"',
        ),
        (
            {"ambient": Decimal("NaN")},
            lw.QuestionError,
            "ambient: `NaN` is not a temperature; write a number and a unit, such as `25 °C`",
        ),
        (
            {"current_carrying": True},
            lw.QuestionTypeError,
            "current_carrying: a value of type `bool` is not understood; write text or a quantity: "
            "How many conductors carry current",
        ),
        (
            {"current_carrying": 3.0},
            lw.QuestionError,
            "current_carrying: `3.0` is a bare binary floating-point number; write text or a quantity: "
            "How many conductors carry current",
        ),
        (
            {"current_carrying": 0},
            lw.QuestionError,
            "current_carrying: `0` is not a count of conductors; write a whole number from 1 to 999",
        ),
        ({"ambient": "5 A"}, lw.QuestionError, "ambient: `5 A` is a current; write a temperature such as `5 °C`"),
        ({"material": "coper"}, lw.QuestionError, "material: `coper` is not a known conductor material; did you mean `copper`?"),
        ({"size": ["8 AWG", "6 AWG"]}, lw.QuestionError, "size: is said once; leave the other values out"),
        (
            {"edition": "nec-1881"},
            lw.QuestionError,
            "edition: `nec-1881` is not an edition that is carried; did you mean `nec-2017`?",
        ),
        (
            {"edition": 2023},
            lw.QuestionTypeError,
            "edition: a value of type `int` is not the name of an edition; write one of: nec-2017, nec-2020, nec-2023",
        ),
        (
            {"accept": "x"},
            lw.QuestionTypeError,
            "accept: a value of type `str` is not accepted cells; give an Acceptance, such as "
            'Acceptance.load("cells.toml")',
        ),
        (
            {"size": None},
            lw.QuestionError,
            'size is missing and decides the answer; write it, as in `size="6 AWG"`',
        ),
    ],
)
def test_what_cannot_be_understood_says_what_to_write(stated, kind, message):
    with pytest.raises(lw.QuestionError) as raised:
        lw.ampacity(**{**EIGHT, **stated})
    assert type(raised.value) is kind
    assert str(raised.value) == message
    assert raised.value.option == next(iter(stated))
    assert isinstance(raised.value, ValueError)
    assert isinstance(raised.value, lw.Error)


def test_what_somebody_wrote_stands_in_the_complaint_as_it_was():
    with pytest.raises(lw.QuestionError) as raised:
        lw.ampacity(**{**EIGHT, "material": "--5 --gold"})
    assert str(raised.value).startswith("material: `--5 --gold` is not a known conductor material; ")


def test_what_to_state_instead_is_written_as_python_has_it():
    with pytest.raises(lw.QuestionError) as raised:
        lw.overcurrent_device()
    assert str(raised.value) == (
        'nothing to protect and nothing to supply; state a conductor, as in `size="6 AWG", material="copper", '
        'insulation="THHN"`, or a load, as in `required="45 A"`'
    )
    with pytest.raises(lw.QuestionError) as raised:
        lw.ampacity(size="8 AWG", material="copper")
    assert str(raised.value) == (
        'insulation or cable is missing and decides the answer; write one, as in `insulation="THHN"` or `cable="NM-B"`'
    )


def test_an_unknown_keyword_is_the_interpreters_own_error():
    with pytest.raises(TypeError, match="colour"):
        lw.ampacity(**EIGHT, colour="blue")


ANSWERS = [
    lw.ampacity(**EIGHT),
    lw.voltage_drop(
        method="dc", circuit="two-wire", supply="120 V", segment=["12 AWG copper, 50 ft, 16 A"], edition="nec-2017"
    ),
    lw.plug_fit(plug="L14-30P", receptacle="14-50R"),
]


@pytest.mark.parametrize("answer", ANSWERS, ids=repr)
@pytest.mark.parametrize("again", [copy.copy, copy.deepcopy, lambda one: pickle.loads(pickle.dumps(one))])
def test_an_answer_survives_copying(answer, again):
    other = again(answer)
    assert other == answer
    assert hash(other) == hash(answer)
    assert other.to_json() == answer.to_json()
    assert answer != lw.ampacity(**EIGHT, ambient="31 °C")
    assert answer != 5


def test_accepted_cells_answer_what_memory_alone_does_not(tmp_path):
    cell = """
[[cell]]
table = "ampacity-free-air"
row = "10 AWG"
column = "copper_75c_a"
value = "50"
read_by = "somebody, in the book"
"""
    question = {"size": "10 AWG", "material": "copper", "insulation": "THWN", "installation": "free air"}
    accept = lw.Acceptance(cell)
    assert len(accept) == 1
    before, after = lw.ampacity(**question), lw.ampacity(**question, accept=accept)
    assert before.outcome is Outcome.CANNOT_TELL
    assert after.outcome is Outcome.ANSWERED
    assert before != after
    again = pickle.loads(pickle.dumps(after))
    assert (again, again.value) == (after, after.value)
    file = tmp_path / "accepted.toml"
    file.write_text(cell, encoding="utf-8")
    assert lw.Acceptance.load(file) == accept
    with pytest.raises(FileNotFoundError, match="none.toml"):
        lw.Acceptance.load(tmp_path / "none.toml")
    with pytest.raises(lw.QuestionError, match="there is no row") as raised:
        lw.Acceptance(cell.replace("10 AWG", "11 AWG"))
    assert raised.value.option == "accept"


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("", "line 1, column 1: missing field `cell`"),
        ("cell = 3", "line 1, column 8: invalid type: integer `3`, expected a sequence"),
        ("[[cell]]\ntable = 'x'", "line 1, column 1: missing field `row`"),
        ("[[cell]]\ntable = ", "line 2, column 9: string values must be quoted, expected literal string"),
    ],
)
def test_what_is_no_list_of_accepted_cells_is_said_in_a_line(text, what):
    with pytest.raises(lw.QuestionError) as raised:
        lw.Acceptance(text)
    fields = "`table`, `row`, `column`, `value` and `read_by`"
    assert str(raised.value) == f"accept: {what}; each accepted cell is an entry `[[cell]]` with {fields}, each a text"
    assert raised.value.option == "accept"


def test_a_notebook_shows_tables_with_escaped_text():
    shown = lw.voltage_drop(
        method="dc", circuit="two-wire", supply="120 V", segment="12 AWG copper, 50 ft, 16 A"
    )._repr_html_()
    assert "<table>" in shown
    assert shown.count("<td>") == shown.count("</td>") > 4
    from loadworthy import _html

    assert _html.table(["<a>"], [["<script>"]]).count("<script>") == 0


ANYTHING = st.one_of(
    st.text(max_size=30),
    st.binary(max_size=5),
    st.integers(),
    st.integers(10**30, 10**5000),
    st.floats(),
    st.booleans(),
    st.decimals(),
    st.complex_numbers(),
    st.fractions(),
    st.lists(st.text(max_size=9), max_size=3),
    st.builds(object),
    st.sampled_from([Decimal("1E+999999999"), Decimal("-1E-999999999"), "8 AWG\0", "\ud800", "A" * 10_000, b"8 AWG"]),
)
NAMED = [name for name, _ in _core.QUESTIONS]


@given(st.sampled_from(NAMED), st.data())
def test_whatever_is_handed_in_is_answered_or_refused_by_name(name, data):
    function = getattr(lw, name)
    known = [option for option in inspect.signature(function).parameters if option not in ("edition", "accept")]
    stated = data.draw(st.dictionaries(st.sampled_from(known), ANYTHING, max_size=6))
    try:
        answer = function(**stated)
    except lw.QuestionError as error:
        assert str(error)
        assert pickle.loads(pickle.dumps(error)).option == error.option
    else:
        assert answer.outcome in tuple(Outcome)


@given(ANYTHING)
def test_whatever_is_handed_in_is_a_quantity_or_refused(value):
    try:
        assert lw.Amperes(value) == lw.Amperes(str(lw.Amperes(value)))
    except lw.QuantityError as error:
        assert error.code
