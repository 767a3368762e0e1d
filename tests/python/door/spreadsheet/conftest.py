"""Workbooks made for the tests."""

import openpyxl
import pytest
from sheets import HEADING


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
