"""Workbooks made for the tests, and a reader that shares nothing with the package."""

import re
import zipfile

import openpyxl
import pytest

HEADING = ["name", "material", "size", "insulation", "load_continuous_a", "load_other_a", "device_a", "supplies"]
HOLDS = ["first", "copper", "12 AWG", "THWN-2", 16, 0, 20, "other"]
FAILS = ["second", "copper", "12 AWG", "THWN-2", 16.1, 0, 20, "other"]


@pytest.fixture
def made(tmp_path):
    """Makes a workbook with these rows, and hands it to `more` before it is saved."""

    def making(*rows, name="circuits.xlsx", more=None, heading=HEADING):
        workbook = openpyxl.Workbook()
        sheet = workbook.active
        sheet.title = "Circuits"
        for row in (heading, *rows):
            sheet.append(row)
        if more:
            more(workbook, sheet)
        path = tmp_path / name
        workbook.save(path)
        return path

    return making


def results(path, sheet="Circuits", heading=1):
    """The results of each row as dictionaries, read by openpyxl."""
    rows = list(openpyxl.load_workbook(path)[sheet].iter_rows(min_row=heading, values_only=True))
    start = rows[0].index("verdict")
    return [dict(zip(rows[0][start:], row[start:], strict=True)) for row in rows[1:]]


def parts(path):
    """The parts of a workbook, byte for byte."""
    with zipfile.ZipFile(path) as archive:
        return {entry.filename: archive.read(entry) for entry in archive.infolist()}


def rewritten(path, change):
    """Writes a workbook again with its parts changed by `change`, which gets and gives a dictionary."""
    changed = change(parts(path))
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in changed.items():
            archive.writestr(name, content)
    return path


def with_results_of_formulas(path, values, sheet="xl/worksheets/sheet1.xml"):
    """Puts what formulas came to into the cells, as whoever calculated them would have."""

    def change(found):
        text = found[sheet].decode()
        for cell, value in values.items():
            kind = ' t="str"' if isinstance(value, str) else ""
            pattern = rf'<c r="{cell}"([^>]*?)( t="\w+")?>(<f>.*?</f>)<v ?/?>(</v>)?</c>'
            text, count = re.subn(pattern, rf'<c r="{cell}"\1{kind}>\3<v>{value}</v></c>', text)
            assert count == 1, cell
        return found | {sheet: text.encode()}

    return rewritten(path, change)
