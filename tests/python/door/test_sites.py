"""Described sites through both doors: the same documents, and every problem of a document at once."""

import copy
import json
import pickle
import tomllib
from pathlib import Path

import loadworthy as lw
import numpy as np
import pint
import pytest
from conftest import EXAMPLES
from hypothesis import given
from hypothesis import strategies as st
from loadworthy import Outcome, _core

COTTAGE = EXAMPLES / "cottage.toml"
EXAMPLE_SITES = sorted(EXAMPLES.glob("*.toml"))


def test_every_site_is_checked_as_by_the_command(command, sites):
    _, out, complaints = command("check", *map(str, sites), "--format", "json")
    printed = iter(out.splitlines(keepends=True))
    told = []
    for path in sites:
        try:
            report = lw.check(path)
        except lw.InputError as error:
            told += str(error).splitlines()
            continue
        assert report.to_json() == next(printed), path
    assert next(printed, None) is None
    assert told == [line.removeprefix("loadworthy: ") for line in complaints.splitlines()]


@pytest.mark.parametrize("path", EXAMPLE_SITES, ids=lambda path: path.name)
@pytest.mark.parametrize("edition", [None, "nec-2017"])
def test_every_page_of_an_example_is_the_commands(command, path, edition):
    site = lw.Site.load(str(path))
    stated = ["--edition", edition] if edition else []

    def printed(*words):
        status, out, complaint = command(*words, str(path), *stated)
        assert complaint == ""
        return out, status

    report = site.check(edition=edition, working=True)
    assert report.to_json() == printed("check", "--working", "--format", "json")[0]
    status = {"loadworthy": 0, "not-loadworthy": 1, "cannot-tell": 2}[report.outcome]
    assert (report.text, status) == printed("check", "--working")
    switching = site.sequence(edition=edition)
    assert switching.to_json() == printed("sequence", "--format", "json")[0]
    assert switching.text == printed("sequence")[0]
    assert switching.checklist() == printed("sequence", "--format", "checklist")[0]
    plan = site.plan(hours="8 h", start_hour=18, edition=edition)
    words = ("plan", "--hours", "8 h", "--start-hour", "18")
    assert plan.to_json() == printed(*words, "--format", "json")[0]
    assert (plan.text, {"holds": 0, "fails": 1, "cannot-tell": 2}[plan.outcome]) == printed(*words)


FIELDS = {
    "generator cord.length": ["10 ft", "100 ft", "", "300 ft"],
    "generator cord.size": ["6 AWG", "12 AWG", "", "14 AWG"],
    "kettle.current": ["5 A", "15 A", "16.001 A", ""],
    "well pump circuit.rating": ["15 A", "20 A", "30 A"],
    "generator.neutral": ["bonded", "floating", ""],
}


@given(st.dictionaries(st.sampled_from(sorted(FIELDS)), st.integers(0, 3), max_size=3))
def test_a_changed_site_is_planned_as_by_the_command(command, chosen):
    site, words = lw.Site.load(str(COTTAGE)), ["plan", str(COTTAGE), "--format", "json"]
    changes = {field: FIELDS[field][which % len(FIELDS[field])] for field, which in sorted(chosen.items())}
    for field, value in changes.items():
        words += ["--set", f"{field}={value}"]
    status, out, complaint = command(*words)
    try:
        for field, value in changes.items():
            site = site.with_field(field, value)
        assert site.plan().to_json() == out
        assert pickle.loads(pickle.dumps(site)).check() == site.check()
    except lw.Error as error:
        assert status == 3
        assert complaint.splitlines()[0].removeprefix("loadworthy: --set: ") == str(error).splitlines()[0]


def test_a_field_is_set_to_a_word_a_quantity_or_a_truth():
    site = lw.Site.load(COTTAGE)
    longer = site.with_field("generator cord.length", lw.Meters("100 ft"))
    assert longer.check() == site.with_field("generator cord.length", "100 ft").check() != site.check()
    assert site.with_field("generator cord.sound", False).check().outcome is Outcome.NOT_LOADWORTHY
    unknown = site.with_field("generator cord.sound", None).check()
    assert [question.field for question in unknown.questions] == ["sound"]
    with pytest.raises(lw.QuestionError, match="does not name a field"):
        site.with_field("nothing", "5 A")
    with pytest.raises(lw.InputError, match="is a current"):
        site.with_field("generator cord.length", lw.Amperes(5))


def test_a_path_a_text_and_a_mapping_say_the_same(tmp_path):
    text = COTTAGE.read_text(encoding="utf-8")
    described = tomllib.loads(text)
    of_path = lw.check(COTTAGE)
    messages = [finding.message for finding in of_path]
    for source in (str(COTTAGE), text, described, json.dumps(described), lw.Site.load(COTTAGE)):
        report = lw.check(source)
        assert report.outcome is Outcome.LOADWORTHY
        assert [finding.message for finding in report] == messages
    assert lw.plan(described).outcome == lw.plan(COTTAGE).outcome
    assert lw.sequence(described).outcome == lw.sequence(COTTAGE).outcome
    with pytest.raises(FileNotFoundError):
        lw.check(str(tmp_path / "none.toml"))
    with pytest.raises(lw.QuestionTypeError):
        lw.check(5)


def test_a_mapping_takes_quantities_and_refuses_bare_numbers():
    described = tomllib.loads(COTTAGE.read_text(encoding="utf-8"))
    described["cord"][0]["length"] = lw.Meters(25, "ft")
    assert lw.check(described).outcome is Outcome.LOADWORTHY
    described["cord"][0]["length"] = 25
    with pytest.raises(lw.InputError) as raised:
        lw.check(described)
    (problem,) = raised.value.problems
    assert (problem.code, problem.path) == ("missing-unit", "cord[0].length")
    # Nobody has seen the text that the mapping was read from.
    assert (problem.line, problem.column) == (0, 0)
    assert str(raised.value) == "site: cord[0].length: `25` has no unit; write a length such as `25 ft`"
    assert pickle.loads(pickle.dumps(raised.value)).problems == raised.value.problems


class Shown:
    def __str__(self):
        return "25 ft"


def test_a_mapping_takes_what_has_a_text_and_numbers_of_other_libraries():
    described = tomllib.loads(COTTAGE.read_text(encoding="utf-8"))
    plain = lw.check(described)
    for length in (lw.Meters("25 ft"), pint.UnitRegistry().Quantity(np.float64(25), "foot"), Shown()):
        described["cord"][0]["length"] = length
        assert lw.check(described).outcome is plain.outcome
    for sound in (np.True_, np.array(True)):
        described["cord"][0]["sound"] = sound
        assert lw.check(described).outcome is plain.outcome


HALF = "x\ud800"
CIRCLE = {"name": "shed"}
CIRCLE["again"] = [CIRCLE]
DEEP = {}
for _ in range(100_000):
    DEEP = {"a": DEEP}


@pytest.mark.parametrize(
    ("value", "code", "path", "message"),
    [
        (float("nan"), "not-a-number", "load[1].x", "`nan` is not a finite number"),
        (float("-inf"), "not-a-number", "load[1].x", "`-inf` is not a finite number"),
        (np.float64("inf"), "not-a-number", "load[1].x", "`inf` is not a finite number"),
        (10**5000, "out-of-range", "load[1].x", "more than 40 digits"),
        (HALF, "not-text", "load[1].x", "half a character"),
        ({HALF: 1}, "not-text", "load[1].x.x?", "half a character"),
        ({1: 1}, "wrong-type", "load[1].x", "`1` is no name of a field"),
        (CIRCLE, "wrong-type", "load[1].x.again[0]", "stands in itself"),
        (DEEP, "too-deep", None, "too deep"),
        ({1, 2}, "wrong-type", "load[1].x", "a value of type `set` has no place"),
        (b"x", "wrong-type", "load[1].x", "a value of type `bytes` has no place"),
        (object(), "wrong-type", "load[1].x", "a value of type `object` has no place"),
        (np.array([1]), "wrong-type", "load[1].x", "a value of type `ndarray` has no place"),
        ((one for one in "ab"), "wrong-type", "load[1].x", "a value of type `generator` has no place"),
        (pint.UnitRegistry().Quantity(1, "furlong"), "wrong-type", "load[1].x", "has the unit `furlong`"),
    ],
    # Some of them cannot be written out.
    ids=map(str, range(15)),
)
def test_what_no_document_can_hold_is_a_problem_with_its_path(value, code, path, message):
    with pytest.raises(lw.InputError) as raised:
        lw.check({"load": [{"x": 1}, {"x": value}], "site": {"name": float("inf")}})
    first, second = raised.value.problems
    assert (first.code, first.line, first.column, first.file) == (code, 0, 0, "site")
    assert path is None or first.path == path
    assert first.message.startswith(f"site: {first.path}: ") and message in first.message
    assert second.path == "site.name"
    str(raised.value).encode()
    assert pickle.loads(pickle.dumps(raised.value)).problems == raised.value.problems


@pytest.mark.parametrize("text", ["[1,\n2]", "[]\n", "3\n", "null\n", '"shed"\n'])
def test_a_text_of_json_that_is_no_table_is_told_so(text):
    with pytest.raises(lw.InputError, match="^site:1:1: this is a value of JSON that describes nothing; a site is a"):
        lw.check(text)


@pytest.mark.parametrize("text", ["", "  ", "\n"])
def test_an_empty_text_is_told_so(text):
    with pytest.raises(lw.InputError, match="^site: the text is empty"):
        lw.check(text)


def test_every_problem_comes_at_once_with_its_place():
    text = '[site]\nname = "shed"\ncode = "nec-2023"\nambient = 25\ncolour = "blue"\n'
    with pytest.raises(lw.InputError) as raised:
        lw.Site.parse(text, "shed.toml")
    error = raised.value
    assert isinstance(error, lw.Error)
    assert isinstance(error, ValueError)
    found = [(one.code, one.file, one.line, one.column, one.path) for one in error.problems]
    assert found == [
        ("missing-unit", "shed.toml", 4, 11, "site.ambient"),
        ("unknown-field", "shed.toml", 5, 1, "site"),
    ]
    assert str(error).splitlines()[0] == "shed.toml:4:11: `25` has no unit; write a temperature such as `25 °C`"
    again = pickle.loads(pickle.dumps(error))
    assert (again.problems, str(again)) == (error.problems, str(error))
    assert copy.deepcopy(error.problems) == error.problems
    findings = lw.check(EXAMPLES / "cottage-failing.toml").failures
    assert pickle.loads(pickle.dumps(findings)) == findings == copy.copy(findings)


@pytest.mark.parametrize("document", [b"", b"\xff\xfe", b"[site", b"{", b"\x00", "[site]\nname = \"\U0001f600\"".encode()])
def test_what_is_no_description_is_refused(document):
    with pytest.raises(lw.InputError) as raised:
        lw.Site("odd", document)
    assert raised.value.problems[0].line >= 1


@given(st.one_of(st.binary(max_size=60), st.text(max_size=60).map(lambda text: text.encode("utf-8", "surrogatepass"))))
def test_whatever_is_read_is_a_site_or_has_problems(document):
    try:
        lw.Site("odd", document)
    except lw.InputError as error:
        assert error.problems


VALUES = st.recursive(
    st.one_of(st.text(max_size=9), st.integers(-5, 5), st.booleans(), st.none(), st.floats(-1, 1)),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(st.text(max_size=9), inner, max_size=3)),
    max_leaves=8,
)


@given(st.dictionaries(st.sampled_from(["site", "source", "cord", "load", "name", ""]), VALUES))
def test_whatever_is_mapped_is_a_site_or_has_problems(description):
    try:
        lw.Site.from_dict(description)
    except lw.InputError as error:
        assert error.problems


def test_findings_are_iterated_and_filtered():
    report = lw.check(EXAMPLES / "cottage-failing.toml")
    assert report.outcome is Outcome.NOT_LOADWORTHY
    assert len(report) == len(report.findings) == len(list(report))
    failing = report.findings.where(outcome="fails")
    assert failing == report.failures != ()
    assert all(one.outcome is Outcome.FAILS and one.place.line > 0 for one in failing)
    first = failing[0]
    assert first in failing.where(rule=first.rule, component=first.component, severity=first.severity)
    assert report.findings.where(matching=lambda one: one.remedy is not None).where(outcome=Outcome.HOLDS) == ()
    assert all(not one.working for one in report)
    assert any(one.working for one in lw.check(EXAMPLES / "cottage-failing.toml", working=True))
    with pytest.raises(ValueError, match="perhaps"):
        report.findings.where(outcome="perhaps")
    assert report.findings.where(kind="") == report.findings.where(component="") != ()
    with pytest.raises(TypeError, match="ask for its `outcome`"):
        bool(report)


@pytest.mark.parametrize(
    ("wanted", "message"),
    [
        ({"outcome": "fail"}, "outcome: `fail` is not known; did you mean `fails`?"),
        ({"outcome": "cannot tell"}, "outcome: `cannot tell` is not known; did you mean `cannot-tell`?"),
        (
            {"outcome": Outcome.LOADWORTHY},
            "outcome: `loadworthy` is not known; write one of: cannot-tell, fails, holds",
        ),
        ({"rule": "cord-ampacty"}, "rule: `cord-ampacty` is not known; did you mean `cord-ampacity`?"),
        ({"rule": ""}, "rule: `` is not known"),
        ({"severity": "violaton"}, "severity: `violaton` is not known; did you mean `violation`?"),
        ({"kind": "cords"}, "kind: `cords` is not known; did you mean `cord`?"),
        ({"component": "generator crod"}, "component: `generator crod` is not known; did you mean `generator cord`?"),
        ({"rule": 3}, "rule: a value of type `int` is not a word"),
    ],
)
def test_a_word_that_is_not_known_is_no_filter(wanted, message):
    report = lw.check(COTTAGE)
    copied = pickle.loads(pickle.dumps(report.findings))
    # Also where little or nothing is left, and what is left was copied.
    for findings in (report.findings, report.failures, report.findings.where(rule="cord-ampacity"), copied):
        with pytest.raises(lw.QuestionError) as raised:
            findings.where(**wanted)
        assert str(raised.value) == message
        assert raised.value.option == next(iter(wanted))


def test_every_word_of_a_finding_is_known(sites):
    slugs, severities = map(set, zip(*_core.rules(), strict=True))
    kinds = {*_core.kinds(), ""}
    for path in sites:
        try:
            report = lw.check(path)
        except lw.InputError:
            continue
        components = {*report.site._described.components, ""}
        for one in report:
            assert one.rule in slugs and one.severity in severities, path
            assert one.kind in kinds and one.component in components, path
        assert all(report.failures.where(component=name) is not None for name in components)


def test_what_fails_by_its_size_is_sized():
    # A breaker of 20 A ahead of 14 AWG, which 240.4(D) limits to 15 A; Table 250.122 asks for 12 AWG behind it too.
    text = COTTAGE.read_text(encoding="utf-8").replace('rating = "15 A"', 'rating = "20 A"', 1)
    sized = lw.size(text)
    assert [(one.component, one.rule) for one in sized] == [
        ("lighting circuit", "breaker-protects-conductor"),
        ("lighting circuit", "equipment-grounding-conductor"),
    ]
    assert all("12 AWG" in one.remedy for one in sized)
    assert lw.size(COTTAGE) == ()


def test_open_questions_are_listed():
    report = lw.check(EXAMPLES / "cottage-unknown.toml")
    assert report.outcome is Outcome.CANNOT_TELL
    assert report.questions
    for question in report.questions:
        assert question.decides
        assert str(question).endswith("?") or str(question)


def test_what_is_acknowledged_is_quiet_and_said():
    text = COTTAGE.read_text(encoding="utf-8").replace("name =", 'acknowledged = ["co-alarms"]\nname =', 1)
    report = lw.check(text.replace("carbon_monoxide_alarms = true", "carbon_monoxide_alarms = false"))
    (finding,) = report.findings.where(matching=lambda one: one.acknowledged)
    assert (finding.rule, finding.outcome, report.outcome) == ("co-alarms", Outcome.FAILS, Outcome.LOADWORTHY)
    shown = report._repr_html_()
    assert "acknowledged and not shown: co-alarms" in shown and finding.message not in shown


def test_a_notebook_shows_what_a_plan_keeps_off_and_what_it_asks():
    planned = lw.plan(EXAMPLES / "cottage-plan.toml")._repr_html_()
    assert "<td>kettle</td><td>the surge of leg B" in planned
    asking = lw.plan(EXAMPLES / "cottage-unknown.toml")._repr_html_()
    assert "generator: the current or power that it gives for hours, which decides" in asking and "<td>" not in asking


def test_somebodys_own_steps_are_judged(command, tmp_path):
    steps = tmp_path / "steps.toml"
    steps.write_text('[[step]]\ndo = "stop"\ndevice = "generator"\n', encoding="utf-8")
    _, out, complaint = command("sequence", str(COTTAGE), "--verify", str(steps), "--format", "json")
    assert complaint == ""
    assert lw.sequence(COTTAGE, verify=steps).to_json() == out


STEPS = """[start]
"no such device" = "open"

[[step]]
do = "stopp"
device = "generator"

[[step]]
do = "open"
on = "generator"

[[step]]
do = "close"
device = 7
"""


OWN = [
    {"do": "close", "device": "panel interlock"},
    {"do": "touch", "at": "main panel", "isolators": ["generator", 'a "device"']},
]


def test_steps_come_as_a_file_a_text_a_list_or_a_mapping(tmp_path):
    text = '[[step]]\ndo = "stop"\ndevice = "generator"\n'
    file = tmp_path / "steps.toml"
    file.write_text(text, encoding="utf-8")
    step = {"do": "stop", "device": "generator"}
    ways = (file, str(file), text, [step], (step,), iter([step]), {"step": [step]}, {"step": [step], "start": {}})
    first, *others = (lw.sequence(COTTAGE, verify=way) for way in ways)
    assert all(other == first for other in others) and pickle.loads(pickle.dumps(others[-1])).text == first.text


def test_problems_of_a_list_of_steps_have_their_places():
    with pytest.raises(lw.InputError) as raised:
        lw.sequence(COTTAGE, verify=OWN)
    problems = raised.value.problems
    assert [(one.path, one.line, one.file) for one in problems] == [
        ("step[0].device", 1, "steps"),
        ("step[1].isolators", 2, "steps"),
    ]
    assert 'no device is called `a "device"`' in problems[1].message
    for wrong in (7, b"steps", [{"do": 1.5}]):
        with pytest.raises(lw.QuestionTypeError, match="^verify: "):
            lw.sequence(COTTAGE, verify=wrong)


def test_every_problem_of_steps_has_its_place(command, tmp_path):
    steps = tmp_path / "steps.toml"
    steps.write_text(STEPS, encoding="utf-8")
    status, _, complaint = command("sequence", str(COTTAGE), "--verify", str(steps))
    with pytest.raises(lw.InputError) as raised:
        lw.sequence(COTTAGE, verify=steps)
    problems = raised.value.problems
    assert [(one.code, one.line, one.column, one.path) for one in problems] == [
        ("unknown-field", 10, 1, "step[1].on"),
        ("dangling-reference", 2, 1, "start.no such device"),
        ("unknown-word", 5, 6, "step[0].do"),
        ("missing-field", 8, 1, "step[1].device"),
        ("wrong-type", 14, 10, "step[2].device"),
    ]
    assert all(one.file == str(steps) and one.message.startswith(f"{steps}:{one.line}:") for one in problems)
    told = [line.removeprefix("loadworthy: ") for line in complaint.splitlines()]
    assert status == 3 and str(raised.value).splitlines() == told
    assert pickle.loads(pickle.dumps(raised.value)).problems == problems
    steps.write_text("[[step]\n", encoding="utf-8")
    with pytest.raises(lw.InputError) as raised:
        lw.sequence(COTTAGE, verify=steps)
    assert raised.value.problems[0].code == "syntax" and raised.value.problems[0].line == 1


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        ({"hours": 8}, "`8` has no unit"),
        ({"hours": 8.5}, "`8.5` has no unit"),
        ({"start_hour": 24}, "the day has no hour 24"),
        ({"source": "windmill"}, "windmill"),
        ({"edition": "nec-1881"}, "not an edition"),
        ({"measured": "none.csv"}, "measured_share"),
        ({"start_hour": 1.5}, "start_hour: the day has no hour 1.5"),
        ({"start_hour": True}, "start_hour: the day has no hour True"),
        ({"source": 3}, "source: a value of type `int` is not a name"),
        ({"start_order": [3]}, "start_order: a value of type `int` is not a name"),
        ({"measured_for": 3}, "measured_for: a value of type `int` is not a name"),
        ({"measured": 3}, "measured: a value of type `int` is not the path of a file"),
        ({"edition": 2023}, "edition: a value of type `int` is not the name of an edition; write one of: nec-2017"),
        ({"accept": "x"}, "accept: a value of type `str` is not accepted cells; give an Acceptance"),
    ],
)
def test_what_cannot_be_planned_says_why(asked, message):
    with pytest.raises(lw.QuestionError, match=message):
        lw.plan(COTTAGE, **asked)


PAGES = [
    lw.check(COTTAGE),
    lw.check(EXAMPLES / "cottage-failing.toml", working=True, edition="nec-2020"),
    lw.plan(EXAMPLES / "cottage-plan.toml", hours=lw.Seconds("8 h")),
    lw.sequence(COTTAGE),
]


@pytest.mark.parametrize("page", PAGES, ids=repr)
def test_a_page_survives_copying_and_shows_itself_escaped(page):
    for again in (copy.copy(page), copy.deepcopy(page), pickle.loads(pickle.dumps(page))):
        assert again == page
        assert hash(again) == hash(page)
        assert again.text == page.text
    assert page.to_dict() == json.loads(page.to_json())
    assert "<script" not in page._repr_html_()
    for part in (getattr(page, "findings", ()), getattr(page, "questions", ())):
        for one in part:
            assert pickle.loads(pickle.dumps(one)) == one == copy.deepcopy(one)
            assert hash(one) == hash(copy.copy(one))


def test_names_are_escaped_where_they_are_shown():
    text = COTTAGE.read_text(encoding="utf-8").replace("Lakeside cottage", "<script>alert(1)</script>")
    for page in (lw.check(text), lw.plan(text), lw.sequence(text)):
        shown = page._repr_html_()
        assert "<script" not in shown
        assert "&lt;script&gt;" in shown or "script" not in page.text


def test_the_readme_of_the_package_exists():
    assert (Path(lw.__file__).parent / "py.typed").is_file()
