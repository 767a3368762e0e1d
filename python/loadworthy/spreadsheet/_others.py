"""Rows below a heading that are no circuits: empty ones, totals, and what stands under the table.

What only may be one stays a circuit, and is judged: it ends in "cannot tell", and nothing is lost.
"""

from __future__ import annotations

import re
from difflib import get_close_matches

from loadworthy.spreadsheet._columns import STATED, WORDS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from typing import Any

    _Columns = Mapping[str, Sequence[Any]]

#: What a row of totals is called.
_CALLED = re.compile(r"(grand |sub-?)?totals?|sums?", re.IGNORECASE)

#: A formula that adds up, and the rows and the fields of a table that it names.
_ADDS_UP = re.compile(r"=?(SUM|SUBTOTAL|AGGREGATE)\s*\(.*\)", re.IGNORECASE | re.DOTALL)
_ROWS = re.compile(r"\$?\b[A-Z]{1,3}\$?([0-9]{1,7})\b")
_FIELD = re.compile(r"\w\[[^@#]+\]")

#: A cell of another sheet, as workbooks write it and as LibreOffice does.
_ELSEWHERE = re.compile(r"!|\.\$?[A-Z]")

_DEVICE = ("device_a", "device_ma")


class Around:
    """What a sheet knows beside the columns of circuits; rows are counted as the columns count them."""

    def texts(self, row: int) -> Iterable[object]:
        """What stands in the columns of the user's own."""
        return ()

    def formula(self, row: int, name: str) -> tuple[str, int] | None:
        """The formula of a cell, and the number of the row for which it is written."""
        return None


def no_circuits(read: _Columns, around: Around) -> dict[int, str]:
    """The rows that are no circuits, and why: with no reason, those that state nothing.

    A row without a word of a circuit is none where it is called a total, or where each of its numbers is a sum of
    other rows. Under an empty row that ends the circuits, neither is one that states no device as well, nor a remark.
    """
    found: dict[int, str] = {}
    for row in sorted(_wordless(read)):
        why = _why(read, row, around)
        if why is not None:
            found[row] = why
    return dict(sorted((found | _under_the_table(read, found)).items()))


def _wordless(read: _Columns) -> set[int]:
    """Rows that hold no word; a cell merged with another may be the rest of what a total is called."""
    rows: set[int] | None = None
    for values in (values for name, values in read.items() if name in WORDS):
        called = {text for text in {value for value in values if type(value) is str} if _is_called_total(text)}
        found = {
            row
            for row, value in enumerate(values)
            if value is None or (value in called if type(value) is str else value.merged)
        }
        rows = found if rows is None else rows & found
    return rows or set()


def _is_called_total(value: object) -> bool:
    return isinstance(value, str) and _CALLED.fullmatch(value.strip(" :=")) is not None


def _why(read: _Columns, row: int, around: Around) -> str | None:
    stands = {name: value for name, values in read.items() if (value := values[row]) is not None}
    if not stands:
        return ""
    called = [text for text in (*stands.values(), *around.texts(row)) if _is_called_total(text)]
    if called:
        return f"it is called `{str(called[0]).strip()}`"
    adds_up = all(name not in WORDS and _adds_up(around.formula(row, name)) for name in stands)
    return "its numbers are sums of other rows" if adds_up else None


def _adds_up(formula: tuple[str, int] | None) -> bool:
    if formula is None or _ADDS_UP.fullmatch(formula[0]) is None or _ELSEWHERE.search(formula[0]):
        return False
    rows = {int(row) for row in _ROWS.findall(formula[0])}
    # A load that is the sum of its parts, in the same row or on another sheet, is that of a circuit.
    return formula[1] not in rows and (bool(rows) or _FIELD.search(formula[0]) is not None)


def _under_the_table(read: _Columns, known: Mapping[int, str]) -> dict[int, str]:
    """Rows under an empty one, where nothing that may be a circuit follows."""
    rows = max((len(values) for values in read.values()), default=0)
    first = rows
    why: dict[int, str] = {}
    while first > 0:
        said = None if first - 1 in known else _may_be_none(read, first - 1)
        if said is not None:
            why[first - 1] = said
        elif first - 1 not in known:
            break
        first -= 1
    empty = next((row for row in range(first, rows) if known.get(row) == ""), rows)
    # Where no row is a circuit for certain, none is taken for anything else.
    return {row: said for row, said in why.items() if row > empty} if first > 0 else {}


def _may_be_none(read: _Columns, row: int) -> str | None:
    stands = {name: value for name, values in read.items() if (value := values[row]) is not None}
    if len(stands) == 1:
        ((name, value),) = stands.items()
        if isinstance(value, str) and STATED[name] and not get_close_matches(value.lower(), STATED[name], 1):
            return "it stands under the table and holds a text alone"
    if not any(name in WORDS or name in _DEVICE for name in stands):
        return "it stands under the table and states no material, size, insulation or device"
    return None
