"""Where a cell is: `C7` is column 3 of row 7."""

from __future__ import annotations

import re

from loadworthy.spreadsheet._errors import SheetError

#: A sheet has 1,048,576 rows.
_DIGITS = 7

_CELL = re.compile(r"\$?([A-Z]{1,3})\$?([0-9]{1,7})")


def letters(column: int) -> str:
    """The letters of a column, counted from 1.

    >>> letters(28)
    'AB'
    """
    found = ""
    while column > 0:
        column, digit = divmod(column - 1, 26)
        found = chr(ord("A") + digit) + found
    return found


def number(text: str) -> int:
    """A number of a row or of a style, as it stands in a workbook."""
    if not (text.isascii() and text.isdecimal() and len(text) <= _DIGITS):
        raise SheetError(f"`{text[:60]}` is no number of a row or of a style; the workbook is damaged")
    return int(text)


def cell(row: int, column: int) -> str:
    """The name of a cell."""
    return f"{letters(column)}{row}"


def placed(name: str) -> tuple[int, int]:
    """Row and column of a cell.

    >>> placed("C7")
    (7, 3)
    """
    found = _CELL.fullmatch(name)
    if found is None:
        raise SheetError(f"`{name[:60]}` is no cell; the workbook is damaged")
    column = 0
    for letter in found[1]:
        column = column * 26 + ord(letter) - ord("A") + 1
    return int(found[2]), column


def area(name: str) -> tuple[int, int, int, int]:
    """First row, first column, last row and last column of an area such as `A1:C7`."""
    first, _, last = name.partition(":")
    return (*placed(first), *placed(last or first))
