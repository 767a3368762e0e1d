"""The macros in a real LibreOffice without a screen, beside the functions of the package."""

import json
import shutil
import subprocess
from pathlib import Path

import loadworthy as lw
import loadworthy.spreadsheet
import pytest
from loadworthy.libreoffice.__main__ import install
from loadworthy.spreadsheet import check, template

HERE = Path(__file__).parent

#: Pythons that LibreOffice may bring or use, the first of which knows it is taken.
PYTHONS = ("/usr/bin/python3", "/usr/lib/libreoffice/program/python", "/opt/libreoffice/program/python")

HEADING = ["material", "size", "insulation", "load_continuous_a", "load_other_a", "device_a", "supplies"]
HOLDS = ["copper", "12 AWG", "THWN-2", 16, 0, 20, "other"]
FAILS = ["copper", "12 AWG", "THWN-2", 16.1, 0, 20, "other"]


#: The package needs 3.10.
FIT = "import sys, uno; sys.exit(sys.version_info < (3, 10))"


def knows_office(python):
    return Path(python).exists() and subprocess.run([python, "-c", FIT], capture_output=True).returncode == 0


@pytest.fixture(scope="module")
def office(tmp_path_factory):
    """Does steps in a LibreOffice that has the macros; see `in_office.py`."""
    python = next((python for python in PYTHONS if knows_office(python)), None)
    if shutil.which("soffice") is None or python is None:
        pytest.skip("no LibreOffice with Python 3.10 or later; `tests/run` installs it when it runs as root")
    profile = tmp_path_factory.mktemp("profile")
    install(profile)

    def doing(*steps):
        command = [python, HERE / "in_office.py", profile]
        run = subprocess.run(command, input=json.dumps(steps), capture_output=True, text=True, timeout=300)
        assert run.returncode == 0, run.stderr
        return json.loads(run.stdout.splitlines()[-1])

    return doing


def values_of(office, formulas, *before):
    steps = [["add_functions"], ["open"], *before]
    steps += [["put", f"H{row}", formula] for row, formula in enumerate(formulas, 1)]
    steps += [["get", f"H{row}"] for row in range(1, len(formulas) + 1)]
    return office(*steps)[-len(formulas) :]


def test_cell_functions_say_what_the_functions_of_the_package_say(office):
    formulas = {
        '=LOADWORTHY_AMPACITY_A("8 AWG";"copper";"THHN")': lw.ampacity(
            size="8 AWG", material="copper", insulation="THHN"
        ),
        '=LOADWORTHY_AMPACITY_A("8 AWG";"copper";"THHN";"terminals";"75 °C";"ambient";"104 °F")': lw.ampacity(
            size="8 AWG", material="copper", insulation="THHN", terminals="75 °C", ambient="104 °F"
        ),
        '=LOADWORTHY_AMPACITY_A("8 AWG";"copper";"THHN";"current_carrying";9;"edition";"nec-2017")': lw.ampacity(
            size="8 AWG", material="copper", insulation="THHN", current_carrying=9, edition="nec-2017"
        ),
        '=LOADWORTHY_CORD_A("SOOW";"10 AWG";2)': lw.cord_ampacity(cord="SOOW", size="10 AWG", current_carrying=2),
        '=LOADWORTHY_DROP_V("12 AWG";"copper";"50 ft";"16 A";"120 V";"two-wire")': lw.voltage_drop(
            method="dc",
            size="12 AWG",
            material="copper",
            length="50 ft",
            current="16 A",
            supply="120 V",
            circuit="two-wire",
        ),
        '=LOADWORTHY_BREAKER_A("45 A")': lw.overcurrent_device(required="45 A", kind="breaker"),
        '=LOADWORTHY_BREAKER_A("45.1 A")': lw.overcurrent_device(required="45.1 A", kind="breaker"),
    }
    found = values_of(office, list(formulas))
    assert found == [float(answer.value) for answer in formulas.values()]
    # 310.16: 8 AWG copper at 60 °C carries 40 A; 240.6(A): 45 A is standard, and 50 A is the next.
    assert (found[0], found[5], found[6]) == (40, 45, 50)


def test_a_cell_that_cannot_be_answered_says_why_and_no_number(office):
    formulas = {
        '=LOADWORTHY_AMPACITY_A("8 AWG";"copper";"THHN";"ambient";40)': "ambient: `40` has no unit",
        '=LOADWORTHY_AMPACITY_A("8 AWG";"copper";"THHN";"ambient";A9)': "tell: `ambient` points at an empty cell",
        '=LOADWORTHY_AMPACITY_A("8 AWG";"coper";"THHN")': "did you mean `copper`?",
        '=LOADWORTHY_AMPACITY_A(A1:A2;"copper";"THHN")': "size",
        '=LOADWORTHY_AMPACITY_A("8 AWG";"copper";"THHN";"ambient")': "come pairs",
        '=LOADWORTHY_CORD_A("SOOW";"1000 kcmil";3)': "cannot tell",
        '=LOADWORTHY("no such question")': "is not a question",
    }
    found = values_of(office, list(formulas), ["put", "A1", "8 AWG"], ["put", "A2", "6 AWG"])
    for (formula, part), said in zip(formulas.items(), found, strict=True):
        assert isinstance(said, str) and part in said, (formula, said)


def test_an_argument_that_is_left_out_is_not_stated(office):
    """Basic ends a function at an argument that must be there, and its cell then holds 0: `=H1+5` would go on with that."""
    formulas = {
        '=LOADWORTHY_AMPACITY_A("8 AWG";"copper";"THHN")': 40,
        '=LOADWORTHY_AMPACITY_A("8 AWG";"copper")': "insulation",
        "=LOADWORTHY_AMPACITY_A()": "size",
        '=LOADWORTHY_AMPACITY_A("8 AWG";;"THHN")': "material",
        '=LOADWORTHY_CORD_A("SOOW")': "size",
        '=LOADWORTHY_DROP_V("12 AWG";"copper";"50 ft";"16 A";"120 V")': "circuit",
        "=LOADWORTHY_BREAKER_A()": "nothing to supply",
        "=LOADWORTHY()": "is not a question",
        "=LOADWORTHY_WHY()": "is not a question",
    }
    # As everywhere, cords are taken to have three conductors that carry current where nothing is stated.
    cord = lw.cord_ampacity(cord="SOOW", size="10 AWG")
    found = values_of(office, [*formulas, '=LOADWORTHY_CORD_A("SOOW";"10 AWG")'])
    assert (found[0], found.pop()) == (40, float(cord.value)), cord.assumed
    for (formula, part), said in list(zip(formulas.items(), found, strict=True))[1:]:
        assert isinstance(said, str) and part in said, (formula, said)
    # Each in a document of its own: where nothing was answered before, there is nothing to go on with either.
    for formula, part in list(formulas.items())[1:]:
        (said,) = values_of(office, [formula])
        assert isinstance(said, str) and part in said, (formula, said)


def test_words_and_working_and_cells_that_change(office):
    formula = '=LOADWORTHY("ampacity";"size";A1;"material";"copper";"insulation";"THHN")'
    why = formula.replace("LOADWORTHY(", "LOADWORTHY_WHY(")
    steps = [["add_functions"], ["open"], ["put", "A1", "8 AWG"], ["put", "H1", formula], ["put", "H2", why]]
    steps += [["get", "H1"], ["get", "H2"], ["put", "A1", "6 AWG"], ["get", "H1"]]
    *_, before, said, _, after = office(*steps)
    assert (before, after) == ("40 A", "55 A")
    assert "caution: " in said and "NEC 2023" in said


def test_circuits_are_judged_where_they_are(office):
    rows = [HEADING, HOLDS, FAILS, [*HOLDS[:5], "#", "other"], [None] * 7, ["copper", *[None] * 6]]
    steps = [
        ["open"],
        ["rows", [0, 0], rows],
        ["macro", "check_area", "document", "Sheet1", "A1:G6"],
        ["area", "H1:S6"],
    ]
    steps += [["notes"], ["colour", "H2"], ["colour", "H3"], ["colour", "H4"]]
    _, _, said, results, notes, holds, fails, cannot_tell = office(*steps)
    assert said == "4 circuits by nec-2023: 1 holds, 1 fails, 2 cannot tell"
    assert [row[0] for row in results] == ["verdict", "holds", "fails", "cannot tell", "", "cannot tell"]
    beside = loadworthy.spreadsheet.results([[None if cell == "" else cell for cell in row] for row in rows])
    assert results == [["" if cell is None else cell for cell in row] for row in beside]
    # 16.1 A x 125 % = 20.125 A, more than 20 A; 210.20(A).
    assert "20.125 A" in results[2][1] and "210.20(A)" in results[2][1]
    assert "holds the text `#`" in results[3][1] and results[5][1] == "`size` is empty"
    assert "20.125 A" in notes["7,2"] and "4,0" not in notes
    assert (holds, fails, cannot_tell) == (-1, 0xFFC7CE, 0xFFEB9C)


def test_totals_are_no_circuits(office):
    nothing = [None] * 7
    rows = [HEADING, HOLDS, FAILS, [None, None, None, "=SUM(D2:D3)", "=SUM(E2:E3)", None, None], nothing]
    rows += [["Total", None, None, 32.1, 0, 40, None], [None, None, None, 16, 0, 20, None]]
    _, _, said, cells, _, again, notes, kept = office(
        ["open"],
        ["rows", [0, 0], rows],
        ["macro", "check_area", "document", "Sheet1", "A1:G7"],
        ["area", "H1:S7"],
        ["put", "H4", '=COUNTIF(H2:H3;"fails")'],
        ["macro", "check_area", "document", "Sheet1", "A1:S7"],
        ["notes"],
        ["area", "H1:S7"],
    )
    assert said == again == "3 circuits by nec-2023: 1 holds, 1 fails, 1 cannot tell; 2 not a circuit"
    assert [row[0] for row in cells] == ["verdict", "holds", "fails", "", "", "", "cannot tell"]
    assert cells[3][1] == "not a circuit: its numbers are sums of other rows"
    assert cells[5][1] == "not a circuit: it is called `Total`" and not any(cells[3][2:] + cells[5][2:])
    assert kept[3][0] == 1 and kept[3][1:] == cells[3][1:] and kept[6] == cells[6]
    assert not {"7,3", "7,5"} & set(notes) and "7,6" in notes


def test_many_notes_take_too_long_and_why_says_it_of_every_row(office):
    rows = [HEADING, *[FAILS] * 5]
    *_, said, notes, whys, marked = office(
        ["open"],
        ["rows", [0, 0], rows],
        ["macro", "check_area", "document", "Sheet1", "A1:G6", None, 3],
        ["notes"],
        ["area", "I2:I6"],
        ["colour", "H2:H6"],
    )
    # A circuit that fails has three: of its verdict, of its continuous load, and of its conductor's.
    assert said.endswith("5 fails, 0 cannot tell; `why` says what 12 notes more would")
    assert len(notes) == 4 and "Electricity" in notes["7,0"] and all(place.endswith((",0", ",1")) for place in notes)
    assert all("210.20(A)" in why for (why,) in whys) and marked == 0xFFC7CE


def test_rows_grow_where_text_wraps_and_stay_as_high_elsewhere(office):
    rows = [HEADING, HOLDS, FAILS]
    check = ["macro", "check_area", "document", "Sheet1", "A1:I3"]
    steps = [["open"], ["rows", [0, 0], [[*HEADING, "verdict", "why"], *rows[1:]]], ["height", "A3"]]
    *_, before, _, plain, _, _, wrapped = office(
        *steps, check, ["height", "A3"], ["wrap", "I1:I3"], check, ["height", "A3"]
    )
    assert before == plain < wrapped


def test_cells_that_say_something_else_than_they_show(office):
    rows = [["cable", *HEADING], *[["", *HOLDS] for _ in range(5)], ["NM-B", *HOLDS], ["", *HOLDS]]
    steps = [["open"], ["rows", [0, 0], rows]]
    steps += [["put", "E2", "=NA()"], ["format", "F3", "YYYY-MM-DD"], ["format", "G4", "0%"], ["put", "E5", "=8+8"]]
    steps += [["put", "G6", "20 A"], ["merge", "A7:A8"]]
    steps += [["macro", "check_area", "document", "Sheet1", "A1:H8"], ["area", "I1:J8"]]
    results = office(*steps)[-1][1:]
    assert [row[0] for row in results] == ["cannot tell"] * 3 + ["holds"] * 3 + ["cannot tell"]
    for row, part in (
        (0, "`load_continuous_a` holds the error"),
        (1, "a date"),
        (2, "percentage"),
        (6, "merged with A7"),
    ):
        assert part in results[row][1]


def test_nothing_of_the_users_is_written_over(office):
    start = [["open"], ["rows", [0, 0], [[*HEADING, "verdict", "mine"], [*HOLDS, None, 7]]]]
    check = ["macro", "check_area", "document", "Sheet1", "A1:I2"]
    *_, said, cells = office(*start, check, ["area", "H1:K2"])
    assert said.startswith("1 circuits") and cells[1][:2] == ["holds", 7] and cells[0][2] == "why"
    for harm, part in (
        (["put", "H2", "=1+1"], "formula"),
        (["note", "H2", "mind"], "note"),
        (["merge", "G2:H2"], "merged"),
    ):
        said = office(*start, harm, check)[-1]
        assert said.startswith("refused") and part in said, said
    said = office(
        ["open"],
        ["rows", [0, 0], [["lenght_ft", *HEADING], [50, *HOLDS]]],
        ["macro", "check_area", "document", "Sheet1", "A1:H2"],
    )[-1]
    assert "did you mean `length_ft`" in said


def test_checked_again_nothing_piles_up(office):
    check = ["macro", "check_area", "document", "Sheet1", "A1:S3"]
    steps = [["open"], ["rows", [0, 0], [HEADING, HOLDS, FAILS]], check, ["notes"], ["area", "A1:S3"]]
    steps += [check, ["notes"], ["area", "A1:S3"], ["put", "D3", 16], check, ["notes"], ["colour", "H3"], ["get", "H3"]]
    *_, first_notes, first, _, notes, cells, _, _, cured, colour, verdict = office(*steps)
    assert (notes, cells) == (first_notes, first)
    assert list(cured) == ["7,0"] and colour == -1 and verdict == "holds"


def test_a_workbook_that_was_checked_is_read_with_its_marks(office, tmp_path):
    path = tmp_path / "new.xlsx"
    template(path)
    check(path)
    *_, verdicts, notes, fails, cannot_tell = office(
        ["open", str(path)], ["area", "S1:S4"], ["notes"], ["colour", "S3"], ["colour", "S4"]
    )
    assert [row[0] for row in verdicts] == ["verdict", "holds", "fails", "cannot tell"]
    assert (fails, cannot_tell) == (0xFFC7CE, 0xFFEB9C)
    assert "NEC 2023 240.4" in notes["18,2"] and notes["18,3"] == "`size` is empty" and "Electricity" in notes["18,0"]


def test_a_workbook_that_libreoffice_wrote_is_checked(office, tmp_path):
    path = tmp_path / "written.xlsx"
    rows = [HEADING, [*HOLDS[:3], "=8*2", *HOLDS[4:]], FAILS, [*HOLDS[:3], "=1/0", *HOLDS[4:]]]
    office(["open"], ["rows", [0, 0], rows], ["note", "A2", "mine"], ["save", str(path)])
    found = check(path)
    assert found.verdicts == {2: "holds", 3: "fails", 4: "cannot tell"}
    assert "holds the error #DIV/0!" in found.why[4]
    *_, formula, notes = office(["open", str(path)], ["area", "D2:H2"], ["notes"])
    assert formula == [[16, 0, 20, "other", "holds"]] and notes["0,1"] == "mine" and "7,2" in notes


def test_the_macros_as_their_user_runs_them(office):
    steps = [["show"], ["rows", [1, 2], [HEADING, HOLDS, FAILS]], ["select", "C4"], ["macro", "check_circuits"]]
    steps += [
        ["area", "I3:I5"],
        ["macro", "add_cell_functions"],
        ["put", "A9", '=LOADWORTHY_BREAKER_A("45.1 A")'],
        ["get", "A9"],
    ]
    *_, verdicts, _, _, breaker = office(*steps)
    assert verdicts == [["verdict"], ["holds"], ["fails"]]
    assert breaker == 50
    # In the next session the functions are there, and the macros add them again without harm.
    steps = [["show"], ["put", "A9", '=LOADWORTHY_BREAKER_A("45 A")'], ["get", "A9"], ["macro", "add_cell_functions"]]
    *_, breaker, said = office(*steps)
    assert breaker == 45
    assert said is None
    # What cannot be judged is said in a message, and nothing is written.
    *_, said, cells = office(["show"], ["put", "A1", "nothing"], ["macro", "check_circuits"], ["area", "B1:B1"])
    assert said is None
    assert cells == [[""]]
