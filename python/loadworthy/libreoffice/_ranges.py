"""Ranges of cells: which are in one, and which are merged with another."""

from __future__ import annotations

from loadworthy.spreadsheet import _place

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any


def cells(address: Any, top: int, left: int) -> Iterator[tuple[int, int]]:
    """The cells of a range, by row and column from a first one on."""
    for row in range(address.StartRow, address.EndRow + 1):
        for column in range(address.StartColumn, address.EndColumn + 1):
            yield row - top, column - left


def column_of(sheet: Any, at: Any, across: int) -> Any:
    """A column of the area, with its heading."""
    return sheet.getCellRangeByPosition(at.StartColumn + across, at.StartRow, at.StartColumn + across, at.EndRow)


def merged(sheet: Any, at: Any, right: int) -> dict[tuple[int, int], str]:
    """Cells of an area, and beside it as far as `right`, that are merged with another, and with which.

    One may lie above or left of the area.
    """
    found: dict[tuple[int, int], str] = {}
    for part in _with_merged(sheet, 0, 0, right, at.EndRow):
        cursor = sheet.createCursorByRange(part)
        cursor.collapseToMergedArea()
        first = part.RangeAddress
        place, covered = (first.StartRow, first.StartColumn), cells(cursor.RangeAddress, 0, 0)
        anchor = _place.cell(place[0] + 1, place[1] + 1)
        found |= {other: anchor for other in covered if other != place}
    inside = (range(at.StartRow, at.EndRow + 1), range(at.StartColumn, right + 1))
    return {place: anchor for place, anchor in found.items() if place[0] in inside[0] and place[1] in inside[1]}


def _with_merged(sheet: Any, left: int, top: int, right: int, bottom: int) -> Iterator[Any]:
    """The cells of an area that others are merged with: halves without any are passed over."""
    part = sheet.getCellRangeByPosition(left, top, right, bottom)
    if not part.IsMerged:
        return
    if (left, top) == (right, bottom):
        yield part
    elif bottom - top >= right - left:
        middle = (top + bottom) // 2
        yield from _with_merged(sheet, left, top, right, middle)
        yield from _with_merged(sheet, left, middle + 1, right, bottom)
    else:
        middle = (left + right) // 2
        yield from _with_merged(sheet, left, top, middle, bottom)
        yield from _with_merged(sheet, middle + 1, top, right, bottom)
