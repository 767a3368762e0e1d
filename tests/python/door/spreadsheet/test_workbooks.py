"""Workbooks checked in place, read back by another library."""

import datetime
import errno
import os
import random
import re
import stat
import subprocess
import sys
from decimal import Decimal

import loadworthy as lw
import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some
from loadworthy.spreadsheet import RESULTS, SheetError, check, template
from lxml import etree
from openpyxl.chart import BarChart, Reference
from openpyxl.comments import Comment
from openpyxl.worksheet.table import Table
from sheets import FAILS, HEADING, HOLDS, made, parts, results, rewritten, with_results_of_formulas

__all__ = ["made"]  # a fixture, asked for by its name


def changed(row, **values):
    named = dict(zip(HEADING, row, strict=True)) | values
    return list(named.values())


def refused(path, **asked):
    before = path.read_bytes()
    with pytest.raises(SheetError) as error:
        check(path, **asked)
    assert path.read_bytes() == before, "a workbook that is refused stays as it was"
    assert os.listdir(path.parent) == [path.name], "nothing is left behind"
    return str(error.value)


def test_a_verdict_a_row_with_the_reason_and_the_section(made):
    path = made(HOLDS, FAILS, changed(HOLDS, size=None))
    found = check(path)
    assert found.verdicts == {2: "holds", 3: "fails", 4: "cannot tell"}
    assert [row["verdict"] for row in results(path)] == ["holds", "fails", "cannot tell"]
    holds, fails, cannot_tell = results(path)
    assert list(holds) == list(RESULTS) and holds["why"] is None
    # 310.16: 12 AWG THWN-2 at 60 °C, unmarked terminals on a circuit of at most 100 A: 20 A.
    assert (holds["ampacity_a"], holds["least_device_a"], holds["largest_device_a"]) == (20, 20, 20)
    # 125 % of 16.1 A is 20.125 A: more than the device of 20 A, and than the conductor of 20 A.
    assert "20.125 A; it is rated 20 A (NEC 2023 210.20(A)" in fails["why"]
    assert fails["continuous_load_on_device"] == fails["continuous_load_on_conductor"] == "fails"
    assert fails["conductor_ampacity"] == "holds" and fails["voltage_drop"] == "not asked"
    assert cannot_tell["why"] == found.why[4] == "`size` is empty" and cannot_tell["ampacity_a"] is None


def test_what_does_not_hold_is_marked_with_a_note(made):
    path = made(HOLDS, FAILS, changed(HOLDS, size=None))
    check(path)
    sheet = openpyxl.load_workbook(path)["Circuits"]
    cells = [cell for row in sheet.iter_rows(min_row=2) for cell in row]
    notes = {cell.coordinate: cell.comment.text for cell in cells if cell.comment}
    grounds = {cell.coordinate: cell.fill.fgColor.rgb for cell in cells if cell.fill.fgColor.rgb != "00000000"}
    assert {cell for cell, ground in grounds.items() if ground == "FFFFC7CE"} == {"I3", "L3", "M3"}
    assert {cell for cell, ground in grounds.items() if ground == "FFFFEB9C"} == {"I4", "K4", "L4", "M4", "N4", "O4"}
    assert set(grounds.values()) == {"FFFFC7CE", "FFFFEB9C"}
    assert set(notes) == {"I3", "L3", "M3", "I4"}
    assert "210.20(A)" in notes["M3"]
    assert notes["I4"] == "`size` is empty"
    heading = sheet["I1"].comment.text
    assert "NEC 2023" in heading and "assumed: a breaker" in heading and "Electricity" in heading


def test_everything_else_is_kept(made, tmp_path):
    def more(workbook, sheet):
        chart = BarChart()
        chart.add_data(Reference(sheet, min_col=5, min_row=1, max_row=3), titles_from_data=True)
        sheet.add_chart(chart, "A10")
        sheet["A20"], sheet["B20"] = "total", "=SUM(E2:E3)"
        sheet["A2"].comment = Comment("mine", "somebody")
        sheet["E2"].number_format = "0.00"
        sheet.merge_cells("A22:C22")
        sheet.row_dimensions[3].hidden = True
        sheet.conditional_formatting.add("E2:E3", openpyxl.formatting.rule.CellIsRule("greaterThan", ["16"]))
        other = workbook.create_sheet("Other")
        other["A1"], other["A2"] = 1, "=A1*2"

    path = with_results_of_formulas(made(HOLDS, FAILS, more=more), {"B20": 32.1})
    rewritten(path, lambda found: found | {"xl/media/image1.bin": b"\x00picture", "customXml/item1.xml": b"<a/>"})
    before, old = parts(path), openpyxl.load_workbook(path)
    check(path)
    after, new = parts(path), openpyxl.load_workbook(path)
    ours = {"xl/worksheets/sheet1.xml", "xl/styles.xml", "xl/workbook.xml", "xl/worksheets/_rels/sheet1.xml.rels"}
    ours |= {name for name in before if "omments" in name or name.endswith(".vml") or name == "[Content_Types].xml"}
    assert {name for name, content in before.items() if after.get(name) != content} <= ours
    for sheet in old:
        for row in sheet.iter_rows():
            for cell in row:
                same = new[sheet.title][cell.coordinate]
                assert same.value == cell.value and same.number_format == cell.number_format, cell.coordinate
    sheet = new["Circuits"]
    assert sheet["A2"].comment.text == "mine" and sheet["A2"].comment.author == "somebody"
    assert sheet.row_dimensions[3].hidden and str(sheet.merged_cells) == "A22:C22"
    assert len(sheet._charts) == 1 and len(sheet.conditional_formatting) == 1
    kept = openpyxl.load_workbook(path, data_only=True)["Circuits"]
    assert kept["B20"].value == 32.1, "what the formula came to is still there"


def test_a_formula_counts_by_what_it_came_to(made):
    path = made(changed(HOLDS, load_continuous_a="=8*2"), changed(HOLDS, load_continuous_a="=8*2"))
    with_results_of_formulas(path, {"E2": 16})
    found = check(path)
    assert found.verdicts == {2: "holds", 3: "cannot tell"}
    assert (
        found.why[3] == "`load_continuous_a` holds a formula that was never calculated; open the workbook and save it"
    )
    assert openpyxl.load_workbook(path)["Circuits"]["E2"].value == "=8*2"
    assert check(path).verdicts == found.verdicts, "checked again, it says the same"


@pytest.mark.parametrize(
    ("column", "value", "why"),
    [
        ("load_continuous_a", "sixteen", "`load_continuous_a` holds the text `sixteen`, where a number belongs"),
        ("load_continuous_a", "16 mA", "`load_continuous_a` holds `16 mA`, but its column is in A; convert it"),
        ("load_continuous_a", "1,5", "`load_continuous_a` holds `1,5`, but its column is in A; convert it"),
        ("load_continuous_a", datetime.date(2024, 1, 16), "`load_continuous_a` holds a date or a time"),
        ("load_continuous_a", True, "`load_continuous_a` holds TRUE, where a number belongs"),
        ("load_continuous_a", "#N/A", "`load_continuous_a` holds the error #N/A"),
        ("load_continuous_a", -1, "`load_continuous_a` is out of range"),
        ("load_continuous_a", 50 / 3, "; round it in its formula, a load upwards: ROUNDUP(…, 3)"),
        ("load_continuous_a", 1e300, "`load_continuous_a` is out of range"),
        ("load_continuous_a", None, "`load_continuous_a` is empty"),
        ("size", 12, '`size` holds the number 12, where text belongs such as "12 AWG"'),
        ("material", "coper", "`material`: `coper` is not a known conductor material; did you mean `copper`?"),
        ("insulation", None, "neither `insulation` nor `cable` is stated"),
        ("supplies", "#REF!", "`supplies` holds the error #REF!"),
    ],
)
def test_a_cell_that_cannot_be_used_says_so_in_its_row(made, column, value, why):
    found = check(made(HOLDS, changed(HOLDS, **{column: value}), FAILS))
    assert found.verdicts == {2: "holds", 3: "cannot tell", 4: "fails"}
    assert why in found.why[3]


@pytest.mark.parametrize("value", ["16", " 16 A", "16A", "+16.0", "16."])
def test_text_is_a_number_where_it_says_nothing_else(made, value):
    assert check(made(changed(HOLDS, load_continuous_a=value))).verdicts == {2: "holds"}


def test_a_percentage_is_not_read_as_a_plain_number(made):
    heading = [*HEADING, "voltage_v", "circuit", "length_ft", "drop_limit_percent"]
    drop = [*HOLDS, 120, "two-wire", 50]

    def more(_, sheet):
        sheet["L2"].number_format = "0%"

    found = check(made([*drop, 0.03], [*drop, 3], [*drop, 2.64], [*drop, 2.63], heading=heading, more=more))
    # Chapter 9 Table 8: 1.98 ohm/kft x 100 ft x 16 A = 3.168 V, which is exactly 2.64 % of 120 V.
    assert found.verdicts == {2: "cannot tell", 3: "holds", 4: "holds", 5: "fails"}
    assert (
        "shown as a percentage" in found.why[2]
        and "3.168 V, 2.64 % of 120 V; the limit stated is 2.63 %" in found.why[5]
    )


def test_merged_blank_and_hidden_rows(made):
    def more(_, sheet):
        sheet.merge_cells("C2:C3")
        sheet.row_dimensions[5].hidden = True

    path = made(HOLDS, FAILS, [None] * 8, FAILS, ["a name alone", *[None] * 7], more=more)
    found = check(path)
    assert found.verdicts == {2: "holds", 3: "cannot tell", 5: "fails"}
    assert found.why[3] == "`size` is merged with C2; write the value in every row"
    assert results(path)[2]["verdict"] is None


NOTHING = [None] * 8


def total(*numbers, name=None):
    return [name, None, None, None, *numbers, None]


@pytest.mark.parametrize(
    ("row", "why"),
    [
        (total("=SUM(E2:E3)", "=SUM(F2:F3)", "=SUM(G2:G3)"), "its numbers are sums of other rows"),
        (total("=SUBTOTAL(109,Circuits[load_continuous_a])", None, None), "its numbers are sums of other rows"),
        (total(32.1, 0, 40, name="Total"), "it is called `Total`"),
        (["", "TOTALS:", None, None, 32.1, 0, 40, None], "it is called `TOTALS:`"),
    ],
)
def test_a_row_of_totals_is_no_circuit(made, row, why):
    path = made(HOLDS, FAILS, row)
    for _ in range(2):
        found = check(path)
        assert found.verdicts == {2: "holds", 3: "fails"} and found.no_circuits == {4: why}
        assert str(found).endswith("1 holds, 1 fails, 0 cannot tell; 1 not a circuit")
        last = results(path)[2]
        assert (last.pop("verdict"), last.pop("why")) == (None, f"not a circuit: {why}") and not any(last.values())
    sheet = openpyxl.load_workbook(path)["Circuits"]
    assert sheet["I4"].comment is None and sheet["E4"].value == row[4]


@pytest.mark.parametrize(
    "row",
    [
        # A survey of wires that nobody has seen yet.
        total(16, 0, 20),
        # Its load is the sum of its parts, which stand beside it.
        total("=SUM(J4:L4)", None, None),
        total("=SUM(Sheet!E2:E3)", None, None),
        # A feeder: a sum, behind a device that somebody read.
        total("=SUM(E2:E3)", "=SUM(F2:F3)", 60),
        # A calculation that is no sum.
        total("=MAX(E2:E3)", None, None),
        # A circuit to somewhere that is called so, with a wire.
        ["Total", "copper", None, None, 16, 0, 20, None],
        total(16, 0, 20, name="Total Wine Shop"),
    ],
)
def test_what_may_be_a_circuit_stays_one(made, row):
    found = check(made(HOLDS, FAILS, row))
    assert found.verdicts[4] == "cannot tell" and not found.no_circuits


def test_what_stands_under_the_table(made):
    under = [
        total(32.1, 0, None),
        ["checked in May", *NOTHING[1:]],
        [None, "every wire is new, and was pulled in May", *NOTHING[2:]],
    ]
    found = check(made(HOLDS, NOTHING, FAILS, NOTHING, *under))
    assert found.verdicts == {2: "holds", 4: "fails"} and list(found.no_circuits) == [6, 8]
    assert "states no material" in found.no_circuits[6] and "holds a text alone" in found.no_circuits[8]
    # Without the empty row, with a device, with a word of a circuit, or with a circuit behind: a mistake, not a total.
    assert check(made(HOLDS, under[0])).verdicts[3] == "cannot tell"
    assert check(made(HOLDS, NOTHING, total(32.1, 0, 20))).verdicts[4] == "cannot tell"
    assert check(made(HOLDS, NOTHING, [None, "coper", *NOTHING[2:]])).verdicts[4] == "cannot tell"
    assert check(made(HOLDS, NOTHING, under[0], HOLDS)).verdicts == {2: "holds", 4: "cannot tell", 5: "holds"}
    # Loads alone, in groups: of no row it is certain that it is a circuit, so none is taken for a total.
    assert check(made(under[0], NOTHING, under[0])).verdicts == {2: "cannot tell", 4: "cannot tell"}


def test_a_total_may_be_called_so_across_merged_cells(made):
    def more(_, sheet):
        sheet.merge_cells("B4:D4")

    path = made(HOLDS, FAILS, [None, "TOTAL", None, None, 32.1, 0, 40, None], more=more)
    assert check(path).no_circuits == {4: "it is called `TOTAL`"}
    # Cells that are merged with those above belong to a circuit.
    path = made(HOLDS, [None, None, None, None, 16, 0, 20, None], more=lambda _, sheet: sheet.merge_cells("C2:C3"))
    assert check(path).verdicts == {2: "holds", 3: "cannot tell"}


def test_what_is_counted_under_the_results_stays(made):
    heading = [*HEADING, "verdict"]
    path = made(HOLDS, FAILS, [*NOTHING, '=COUNTIF(I2:I3,"fails")'], heading=heading)
    assert check(path).verdicts == {2: "holds", 3: "fails"}
    assert openpyxl.load_workbook(path)["Circuits"]["I4"].value == '=COUNTIF(I2:I3,"fails")'


def test_a_formula_that_cells_share_is_known_by_where_it_was_written(made):
    path = made(HOLDS, FAILS, total("=SUM(E2:E3)", "=1", "=1"))

    def shared(found):
        text = found["xl/worksheets/sheet1.xml"].decode()
        text = text.replace("<f>SUM(E2:E3)</f>", '<f t="shared" ref="E4:G4" si="0">SUM(E2:E3)</f>')
        return found | {"xl/worksheets/sheet1.xml": text.replace("<f>1</f>", '<f t="shared" si="0"/>').encode()}

    assert check(rewritten(path, shared)).no_circuits == {4: "its numbers are sums of other rows"}


def test_results_follow_what_is_written_over(made):
    path = made(HOLDS, FAILS)
    check(path)
    workbook = openpyxl.load_workbook(path)
    sheet = workbook["Circuits"]
    for column in range(1, 9):
        sheet.cell(2, column).value = None
    sheet["E3"] = 16
    workbook.save(path)
    assert check(path).verdicts == {3: "holds"}
    sheet = openpyxl.load_workbook(path)["Circuits"]
    noted = [cell.coordinate for row in sheet.iter_rows() for cell in row if cell.comment]
    assert noted == ["I1"] and sheet["I2"].value is None
    assert sheet["I3"].fill.fgColor.rgb == "00000000" and sheet["I3"].value == "holds"


def test_checked_twice_is_checked_once(made):
    path = made(HOLDS, FAILS, changed(HOLDS, size=None))
    check(path)
    once = parts(path)
    check(path)
    assert parts(path) == once


def test_results_stand_beside_a_table_of_the_workbook(made):
    def more(_, sheet):
        sheet.add_table(Table(displayName="Circuits", ref="A1:H3"))

    path = made(HOLDS, FAILS, more=more)
    table = parts(path)["xl/tables/table1.xml"]
    assert check(path).verdicts == {2: "holds", 3: "fails"}
    assert parts(path)["xl/tables/table1.xml"] == table
    tags = [etree.QName(child).localname for child in etree.fromstring(parts(path)["xl/worksheets/sheet1.xml"])]
    # ECMA-376 Part 1, 18.3.1.99: notes come before tables.
    assert tags.index("legacyDrawing") < tags.index("tableParts")


def test_whoever_opens_it_is_asked_to_calculate(made):
    path = made(HOLDS)
    rewritten(path, lambda found: {name: re.sub(b"<calcPr[^>]*>", b"", text) for name, text in found.items()})
    check(path)
    tags = [etree.QName(child).localname for child in etree.fromstring(parts(path)["xl/workbook.xml"])]
    # ECMA-376 Part 1, 18.2.27: it comes behind sheets and names.
    assert tags.index("calcPr") == len(tags) - 1 > tags.index("sheets")
    assert openpyxl.load_workbook(path).calculation.fullCalcOnLoad


@pytest.mark.parametrize("lock", ["~$circuits.xlsx", ".~lock.circuits.xlsx#"])
def test_a_workbook_that_is_open_elsewhere_is_left_alone(made, lock):
    path = made(FAILS)
    before = path.read_bytes()
    path.with_name(lock).write_bytes(b"")
    with pytest.raises(SheetError, match="is open in another program"):
        check(path)
    assert path.read_bytes() == before


def test_a_heading_that_is_there_stays_as_it_is(made):
    path = made([*HOLDS], heading=[*HEADING, "verdict"])
    before = re.search(rb'<c r="I1".*?</c>', parts(path)["xl/worksheets/sheet1.xml"])
    check(path)
    assert re.search(rb'<c r="I1".*?</c>', parts(path)["xl/worksheets/sheet1.xml"])[0] == before[0]


def test_written_elsewhere_the_original_stays(made, tmp_path):
    path = made(FAILS)
    path.chmod(0o640)
    before = path.read_bytes()
    target = tmp_path / "out.xlsx"
    assert check(path, to=target).path == target
    assert path.read_bytes() == before and results(target)[0]["verdict"] == "fails"
    assert stat.S_IMODE(target.stat().st_mode) == 0o640


def test_columns_of_ones_own_and_a_heading_further_down(made):
    def more(_, sheet):
        sheet.insert_rows(1, 3)
        sheet["A1"] = "Circuits of the workshop"
        sheet["Z9"] = "far away"

    path = made(HOLDS, FAILS, more=more)
    assert check(path).verdicts == {5: "holds", 6: "fails"}
    assert results(path, heading=4)[0]["verdict"] == "holds"
    sheet = openpyxl.load_workbook(path)["Circuits"]
    assert sheet["AA4"].value == "verdict" and sheet["Z9"].value == "far away"


def test_nothing_is_written_over(made):
    heading = [*HEADING, "verdict"]
    assert "I2 holds a formula where `verdict` belongs" in refused(made([*HOLDS, "=1+1"], heading=heading))

    def more(_, sheet):
        sheet.merge_cells("H2:I2")

    assert "I2 is merged with another cell where `verdict` belongs" in refused(
        made([*HOLDS], heading=heading, more=more)
    )

    def note(_, sheet):
        sheet["I2"].comment = Comment("mind the gap", "somebody")

    assert "I2 has a note of somebody else" in refused(made([*FAILS], heading=heading, more=note))


@pytest.mark.parametrize(
    ("wrong", "right", "said"),
    [
        ("material", "materail", "the heading `materail` is not known; did you mean `material`?"),
        (
            "device_a",
            "device",
            "the heading `device` is not known; its unit is missing: write `device_a` or `device_ma`",
        ),
        ("device_a", "Device A", "the heading `Device A` is not known; write it `device_a`"),
        ("size", "sise", "the heading `sise` is not known; did you mean `size`, which is missing?"),
        ("name", "size", "the heading `size` stands twice"),
        ("device_a", "mine", "column `device_a` or `device_ma` is missing and decides"),
        ("name", "length_ft", "is missing and decides the voltage drop"),
        ("name", "device_ma", "columns `device_ma` and `device_a` say the same"),
    ],
)
def test_a_heading_that_is_wrong(made, wrong, right, said):
    assert said in refused(made(HOLDS, heading=[right if name == wrong else name for name in HEADING]))


@pytest.mark.parametrize(
    ("keywords", "said"),
    [({"edition": 2023}, "edition: a value of type `int`"), ({"accept": "x"}, "accept: a value of type `str`")],
)
def test_keywords_of_wrong_types_are_named(made, keywords, said):
    with pytest.raises(SheetError, match=said):
        check(made(HOLDS), **keywords)


def test_sheets_are_told_apart(made):
    def more(workbook, _):
        workbook.copy_worksheet(workbook["Circuits"]).title = "Again"

    path = made(FAILS, more=more)
    assert "has circuits on several sheets; name one of: Circuits, Again" in refused(path)
    assert "has no sheet `None such`" in refused(path, sheet="None such")
    assert check(path, sheet="Again").sheet == "Again"
    assert [cell.value for cell in openpyxl.load_workbook(path)["Circuits"][1]] == HEADING
    assert "no heading of circuits" in refused(made([1], heading=["something", "else"]))


def truncated(path):
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def without(part):
    return lambda path: rewritten(path, lambda found: {name: text for name, text in found.items() if name != part})


def with_part(part, content):
    return lambda path: rewritten(path, lambda found: found | {part: content})


@pytest.mark.parametrize(
    ("harm", "said"),
    [
        (truncated, "it may be truncated"),
        (lambda path: path.write_bytes(b""), "is no workbook"),
        (lambda path: path.write_text("name,size\n"), "is no workbook"),
        (lambda path: path.write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600)), "encrypted with a password"),
        (without("xl/worksheets/sheet1.xml"), "lacks its part `xl/worksheets/sheet1.xml`"),
        (without("xl/workbook.xml"), "lacks its part `xl/workbook.xml`"),
        (without("_rels/.rels"), "is no workbook"),
        (with_part("xl/worksheets/sheet1.xml", b"<worksheet"), "is damaged"),
        (with_part("xl/worksheets/sheet1.xml", b"<worksheet xmlns='x'/>"), "holds no cells"),
        (
            with_part("xl/worksheets/sheet1.xml", b"<!DOCTYPE a [<!ENTITY b 'c'>]><a>&b;</a>"),
            "declares a document type",
        ),
        (with_part("_xmlsignatures/origin.sigs", b""), "is signed"),
    ],
)
def test_a_workbook_that_is_damaged_or_none(made, harm, said):
    path = made(HOLDS)
    harm(path)
    assert said in refused(path)


def test_a_damaged_byte_is_noticed(made):
    path = made(HOLDS)
    content = bytearray(path.read_bytes())
    content[len(content) // 3] ^= 0xFF
    path.write_bytes(content)
    assert "truncated" in refused(path) or "damaged" in refused(path)


def test_no_file_and_a_folder(tmp_path):
    with pytest.raises(SheetError, match="cannot be read: No such file"):
        check(tmp_path / "none.xlsx")
    with pytest.raises(SheetError, match="cannot be read: Is a directory"):
        check(tmp_path)


def test_macros_in_a_workbook_are_kept(made):
    path = made(FAILS, name="circuits.xlsm")
    macro = "application/vnd.ms-excel.sheet.macroEnabled.main+xml"
    usual = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"
    kinds = parts(path)["[Content_Types].xml"].decode().replace(usual, macro).encode()
    rewritten(path, lambda found: found | {"xl/vbaProject.bin": b"\x01macro", "[Content_Types].xml": kinds})
    assert check(path).verdicts == {2: "fails"}
    assert parts(path)["xl/vbaProject.bin"] == b"\x01macro" and macro.encode() in parts(path)["[Content_Types].xml"]


def test_a_thousand_rows_with_a_hundred_bad_ones(made):
    rows = [changed(HOLDS, load_continuous_a="?") if row % 10 == 0 else HOLDS for row in range(1000)]
    found = check(made(*rows))
    assert len(found.rows("cannot tell")) == 100 and len(found.rows("holds")) == 900


def test_the_error_is_one_of_the_package(tmp_path):
    with pytest.raises(lw.Error) as error:
        check(tmp_path / "none.xlsx")
    assert isinstance(error.value, ValueError) and error.value.place.endswith("none.xlsx")
    with pytest.raises(TypeError, match="no truth value"):
        bool(_checked())


def _checked():
    from pathlib import Path

    from loadworthy.spreadsheet import Checked

    return Checked(Path("a"), "b", "nec-2023", (), {}, {})


loads = some.integers(1, 300).map(lambda tenths: Decimal(tenths) / 10)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
@given(rows=some.lists(some.tuples(loads, loads, some.sampled_from([15, 20, 25, 30])), min_size=1, max_size=12))
def test_every_verdict_is_that_of_the_scalar_questions(made, rows):
    """The device suits its load exactly where the scalar question says so, at the limits too."""
    path = made(*[changed(HOLDS, load_continuous_a=float(a), load_other_a=float(b), device_a=c) for a, b, c in rows])
    check(path)
    for (continuous, other, device), result in zip(rows, results(path), strict=True):
        least = lw.continuous_load(continuous=f"{continuous} A", non_continuous=f"{other} A").value
        assert result["continuous_load_on_device"] == ("holds" if least <= device else "fails")
        ampacity = lw.ampacity(
            size="12 AWG", material="copper", insulation="THWN-2", circuit_rating=f"{device} A"
        ).value
        assert Decimal(str(result["ampacity_a"])) == ampacity
        assert result["conductor_ampacity"] == ("holds" if continuous + other <= ampacity else "fails")


def run(*arguments):
    command = [sys.executable, "-m", "loadworthy.spreadsheet", *map(str, arguments)]
    done = subprocess.run(
        command, capture_output=True, encoding="utf-8", env=os.environ | {"PYTHONIOENCODING": "utf-8"}
    )
    return done.returncode, done.stdout, done.stderr


def test_cells_that_somebody_read_and_accepts_count(made, tmp_path):
    accepted = """
    [[cell]]
    table = "ampacity-free-air"
    row = "10 AWG"
    column = "copper_75c_a"
    value = "50"
    read_by = "A. Reader"
    """
    file = tmp_path / "accepted.toml"
    file.write_text(accepted, encoding="utf-8")
    in_air = [*changed(HOLDS, size="10 AWG", insulation="THWN"), "free air"]
    path = made(in_air, heading=[*HEADING, "installation"])
    before = check(path)
    assert before.verdicts == {2: "cannot tell"} and "witnessed too weakly" in before.why[2]
    assert check(path, accept=lw.Acceptance(accepted)).verdicts == {2: "holds"}
    assert run(path)[0] == 2 and run(path, "--accept", file)[0] == 0
    assert run(path, "--accept", tmp_path / "none.toml")[0] == 3


def test_the_command(made, tmp_path):
    status, said, _ = run(made(HOLDS, FAILS), "--edition", "nec-2020")
    assert status == 1 and "row 3 fails: " in said and "NEC 2020" in said and "1 holds, 1 fails, 0 cannot tell" in said
    assert run(made(HOLDS))[0] == 0 and run(made(changed(HOLDS, size=None)))[0] == 2
    assert run(made())[0] == 2, "of no circuit nothing is said to hold"
    assert run(tmp_path / "none.xlsx")[::2] == (
        3,
        f"loadworthy: {tmp_path}/none.xlsx: cannot be read: No such file or directory\n",
    )
    assert "nec-2019" in run(made(HOLDS), "--edition", "nec-2019")[2]
    assert run(tmp_path / "new.xlsx", "--template")[0] == 0 and run(tmp_path / "new.xlsx", "--template")[0] == 3


@pytest.mark.parametrize("arguments", [[], ["--no-such-option", "x.xlsx"], ["x.xlsx", "--sheet"]])
def test_arguments_that_are_not_understood_are_no_verdict(arguments):
    status, said, complaint = run(*arguments)
    assert (status, said) == (3, "") and complaint.startswith("usage: ") and "\nloadworthy: " in complaint


def test_the_template_is_written_over_nothing(tmp_path):
    path = tmp_path / "new.xlsx"
    path.write_text("mine", encoding="utf-8")
    said = f"loadworthy: {path}: there is a file of this name already; give another name, or move it away\n"
    assert run(path, "--template") == (3, "", said)
    with pytest.raises(FileExistsError, match="already") as raised:
        template(path)
    assert (raised.value.errno, raised.value.filename) == (errno.EEXIST, str(path))
    assert path.read_text(encoding="utf-8") == "mine"


def test_a_verdict_that_is_none_gives_no_empty_list(made):
    found = check(made(HOLDS, FAILS))
    assert (found.rows("holds"), found.rows("fails"), found.rows("cannot tell")) == ([2], [3], [])
    for wrong, meant in (("fail", "fails"), ("cannot-tell", "cannot tell"), ("Holds", "holds")):
        with pytest.raises(lw.QuestionError) as raised:
            found.rows(wrong)
        assert str(raised.value) == f"verdict: `{wrong}` is not known; did you mean `{meant}`?"
    assert repr(found) == f"<Checked {found}>" and "row" not in repr(found)


def test_the_template_can_be_checked(tmp_path):
    path = tmp_path / "new.xlsx"
    template(path)
    assert list(check(path).verdicts.values()) == ["holds", "fails", "cannot tell"]


@pytest.mark.parametrize(
    "part", ["xl/worksheets/sheet1.xml", "xl/styles.xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels"]
)
def test_whatever_is_damaged_is_an_error_that_is_understood(made, part):
    """Values in the parts are exchanged at random; no other error comes than ours, and no file is half written."""
    path = made(HOLDS, FAILS)
    check(path)
    sound, chance = parts(path), random.Random(part)
    text = sound[part].decode()
    places = [found.span(1) for found in re.finditer(r'"([^"]*)"|>([^<]+)<', text) if found.group(1) is not None]
    refused_ones = 0
    for _ in range(80):
        first, last = chance.choice(places)
        damage = chance.choice(["", "x", "-1", "0", "99999999", "A0", "ZZZZ1", "rId1", "s", "1e5", "\u0663"])
        harmed = text[:first] + damage + text[last:]
        rewritten(path, lambda _, harmed=harmed: sound | {part: harmed.encode()})
        before = path.read_bytes()
        try:
            check(path)
        except SheetError:
            refused_ones += 1
            assert path.read_bytes() == before
    assert refused_ones or part == "xl/styles.xml"
    assert os.listdir(path.parent) == [path.name]
