"""Circuits in a range of cells, judged where they are; the document is handed in."""

from __future__ import annotations

from loadworthy.libreoffice._ranges import cells, merged
from loadworthy.libreoffice._results import refuse_loss, write
from loadworthy.spreadsheet import _columns
from loadworthy.spreadsheet._cells import Unread
from loadworthy.spreadsheet._errors import SheetError
from loadworthy.spreadsheet._judged import judged
from loadworthy.spreadsheet._others import Around

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from typing import Any


#: LibreOffice takes as long for a note as for a hundred rows: beyond so many the column `why` says it alone.
MOST_NOTES = 500

# Constants of com.sun.star: FormulaResult.ERROR, and of util.NumberFormat DATE, TIME and PERCENT.
_ERROR, _DATE, _TIME, _PERCENT = 4, 2, 4, 128

_DATED = "holds a date or a time; give the cell a number format and write the value again"
_SHARED = "is shown as a percentage; write the number in plain format"


def check(document: Any, area: Any, edition: str | None = None, most_notes: int = MOST_NOTES) -> str:
    """Judges the circuits of an area, whose first row is the heading; gives a summary.

    Results are written to the columns with their headings, or right of everything that the sheet uses. What does not
    hold is marked, and says why in a note, up to `most_notes` of them; the column `why` says it of every row.
    """
    sheet, area = area.Spreadsheet, _used(area)
    at = area.RangeAddress
    heading, *lines = area.DataArray
    names = {column: text.strip() for column, text in enumerate(heading) if isinstance(text, str)}
    if not _columns.is_heading(list(names.values())):
        raise SheetError("the first row of the area is no heading of circuits; select the heading too")
    stated, results = _columns.placed(names)
    free = max(at.EndColumn, _last_column(sheet)) - at.StartColumn + 1
    for name in _columns.RESULTS:
        if name not in results:
            results[name], free = free, free + 1
    together = merged(sheet, at, at.StartColumn + max(results.values()))
    unread = _unread(document, area, lines, together)
    columns = {name: [line[column] for line in lines] for name, column in stated.items()}
    for (row, column), why in unread.items():
        if row >= 0 and (name := names.get(column, "")) in columns:
            columns[name][row] = why
    found = judged(columns, edition, around=_Around(area, lines, stated))
    refuse_loss(sheet, at, results, found, together)
    left_out = write(document, sheet, at, results, found, most_notes)
    return found.summary + (f"; `why` says what {left_out} notes more would" if left_out else "")


class _Around(Around):
    """What a sheet knows beside the columns of circuits; the first row of the area is the heading."""

    def __init__(self, area: Any, lines: Sequence[Sequence[Any]], stated: Mapping[str, int]) -> None:
        self._area = area
        self._lines = lines
        self._stated = stated

    def texts(self, row: int) -> Iterable[object]:
        own = frozenset(range(len(self._lines[row]))).difference(self._stated.values())
        return (self._lines[row][column] for column in own)

    def formula(self, row: int, name: str) -> tuple[str, int] | None:
        formula = self._area.getCellByPosition(self._stated[name], row + 1).Formula
        return (formula, self._area.RangeAddress.StartRow + row + 2) if formula.startswith("=") else None


def area_of(selection: Any) -> Any:
    """The area of a selection: that of several cells as it is, that of one cell as far as cells are used around it."""
    if not hasattr(selection, "RangeAddress"):
        raise SheetError("select one area of cells with its heading")
    at = selection.RangeAddress
    if (at.StartRow, at.StartColumn) != (at.EndRow, at.EndColumn):
        return selection
    cursor = selection.Spreadsheet.createCursorByRange(selection)
    cursor.collapseToCurrentRegion()
    return cursor


def _unread(
    document: Any, area: Any, lines: Sequence[Sequence[Any]], together: Mapping[tuple[int, int], str]
) -> dict[tuple[int, int], Unread]:
    """Cells whose value cannot be used, by row below the heading and column: errors, dates, percentages, merged."""
    found: dict[tuple[int, int], Unread] = {}
    top, left = area.RangeAddress.StartRow + 1, area.RangeAddress.StartColumn
    # Cells that look alike come together, however many there are.
    for alike in area.UniqueCellFormatRanges:
        kind = document.NumberFormats.getByKey(alike.NumberFormat).Type
        why = _DATED if kind & (_DATE | _TIME) else _SHARED if kind & _PERCENT else None
        for part in alike.RangeAddresses if why else ():
            for row, column in cells(part, top, left):
                if row >= 0 and isinstance(lines[row][column], float):
                    found[row, column] = Unread(str(why))
    for part in area.queryFormulaCells(_ERROR).RangeAddresses:
        for row, column in cells(part, top, left):
            error = area.getCellByPosition(column, row + 1).String
            found[row, column] = Unread(f"holds the error {error}")
    for (row, column), anchor in together.items():
        found[row - top, column - left] = Unread.merged_with(anchor)
    return found


def _used(area: Any) -> Any:
    """The area without what lies beyond the last cell that the sheet uses: whole columns may be selected."""
    at, cursor = area.RangeAddress, area.Spreadsheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    end = cursor.RangeAddress
    right, bottom = max(at.StartColumn, min(at.EndColumn, end.EndColumn)), max(at.StartRow, min(at.EndRow, end.EndRow))
    return area.Spreadsheet.getCellRangeByPosition(at.StartColumn, at.StartRow, right, bottom)


def _last_column(sheet: Any) -> int:
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    last: int = cursor.RangeAddress.EndColumn
    return last
