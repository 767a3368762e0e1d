"""Where a cell is: `C7` is column 3 of row 7."""

from __future__ import annotations

import re

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
        raise ValueError(f"`{name}` is no cell")
    column = 0
    for letter in found[1]:
        column = column * 26 + ord(letter) - ord("A") + 1
    return int(found[2]), column


def area(name: str) -> tuple[int, int, int, int]:
    """First row, first column, last row and last column of an area such as `A1:C7`."""
    first, _, last = name.partition(":")
    return (*placed(first), *placed(last or first))
