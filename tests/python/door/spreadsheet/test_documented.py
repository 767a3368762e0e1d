"""What the page on spreadsheets says, run; and the template that ships, made anew."""

import datetime
import doctest
import importlib.util
import re
import subprocess
import sys
from pathlib import Path

import loadworthy.spreadsheet
import openpyxl
import pytest
from loadworthy.spreadsheet import _judged, _place
from sheets import FAILS, HEADING, HOLDS, made

__all__ = ["made"]  # a fixture, asked for by its name

ROOT = Path(__file__).resolve().parents[4]
PAGE = (ROOT / "python" / "SPREADSHEETS.md").read_text(encoding="utf-8")
CHECKING, EXCEL = re.findall(r"```python\n(.*?)```", PAGE, re.DOTALL)


def test_the_check_of_a_workbook(made, monkeypatch, capsys):
    monkeypatch.chdir(made(HOLDS, FAILS).parent)
    exec(CHECKING, {})
    assert (
        capsys.readouterr().out.startswith("3 ")
        and "20.125 A" in openpyxl.load_workbook("circuits.xlsx").active["J3"].value
    )


def test_what_workbooks_need_is_said_where_it_is_missing(tmp_path):
    program = "import sys; sys.modules['lxml'] = None; from loadworthy.spreadsheet.__main__ import run; sys.exit(run(['x.xlsx']))"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, cwd=tmp_path, check=False)
    assert done.returncode == 3 and done.stderr.startswith("loadworthy: workbooks are read through lxml")
    assert "pip install 'loadworthy[spreadsheet]'" in done.stderr and len(done.stderr.splitlines()) == 1


@pytest.fixture
def excel():
    """The module for Excel, with the library that reaches it."""
    pytest.importorskip("xlwings", reason="xlwings is not installed")
    found = {}
    exec(EXCEL, found)
    return found


def test_the_functions_for_excel(excel):
    assert excel["LOADWORTHY_AMPACITY_A"]("8 AWG", "copper", "THHN", "terminals", "75 °C") == 50
    assert excel["LOADWORTHY_BREAKER_A"]("45.1 A") == 50
    assert "has no unit" in excel["LOADWORTHY_BREAKER_A"](45.0)
    assert "empty cell" in excel["LOADWORTHY_AMPACITY_A"]("8 AWG", None, "THHN")


def test_the_examples_in_the_modules_are_true():
    for module in (_judged, _place):
        found = doctest.testmod(module)
        assert found.attempted >= 2
        assert found.failed == 0


class Selection:
    """What Excel hands over: cells, and a place beside them."""

    def __init__(self, cells):
        self.cells, self.columns, self.written = cells, self, {}
        self.count = len(cells[0])

    def options(self, **asked):
        assert asked == {"err_to_str": True, "ndim": 2}
        return type("Cells", (), {"value": self.cells})

    def offset(self, column_offset):
        assert column_offset == self.count
        return self

    def __getitem__(self, at):
        assert at == (0, 0)
        return self

    def __setattr__(self, name, value):
        if name == "value":
            self.written = value
        else:
            super().__setattr__(name, value)


def test_the_macro_for_excel(excel, monkeypatch):
    dated = [*HOLDS[:4], datetime.datetime(2024, 1, 1), *HOLDS[5:]]
    area = Selection([HEADING, HOLDS, FAILS, [*HOLDS[:7], "#N/A"], dated, [None] * 8])
    monkeypatch.setattr(excel["xw"].Book, "caller", lambda: type("Book", (), {"selection": area}))
    excel["check_circuits"]()
    assert [row[0] for row in area.written] == ["verdict", "holds", "fails", "cannot tell", "cannot tell", None]


def test_the_page_names_every_column_and_function():
    names = {name.rsplit("_", 1)[0] for name in loadworthy.spreadsheet.STATED if "_" in name}
    assert not [name for name in names if name not in PAGE]
    basic = (ROOT / "python/loadworthy/libreoffice/installed/Loadworthy.bas").read_text(encoding="utf-8")
    for function in re.findall(r"^Function (\w+)", basic, re.MULTILINE):
        assert f"={function}(" in PAGE


def content(workbook):
    """Everything of a workbook that somebody sees."""
    return {
        sheet.title: (
            [[cell.value for cell in row] for row in sheet.iter_rows()],
            [[(cell.font.b, cell.fill.fgColor.rgb) for cell in row] for row in sheet.iter_rows()],
            sorted(
                (str(rule.sqref), rule.type, rule.formula1, rule.error)
                for rule in sheet.data_validations.dataValidation
            ),
            {name: column.width for name, column in sheet.column_dimensions.items()},
        )
        for sheet in workbook
    }


def test_the_template_is_that_of_the_list_of_columns(tmp_path):
    script = ROOT / "python" / "make_template.py"
    spec = importlib.util.spec_from_file_location("make_template", script)
    making = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(making)
    anew = tmp_path / "anew.xlsx"
    making.made().save(anew)
    shipped = content(openpyxl.load_workbook(making.PLACE))
    assert shipped == content(openpyxl.load_workbook(anew)), f"run `{Path(sys.executable).name} {script}`"
    listed = [rule for rule in shipped["Circuits"][2] if rule[1] == "list"]
    words = openpyxl.load_workbook(anew)["Words"]
    for _, _, formula, _ in listed:
        column = [cell.value for (cell,) in words[formula.removeprefix("Words!").replace("$", "")]]
        assert all(column), "a list has no gaps"
        assert loadworthy.spreadsheet.STATED[words[f"{formula[7]}1"].value] == tuple(column)
