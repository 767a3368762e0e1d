"""Circuits in a range of cells, judged where they are; the document is handed in."""

from __future__ import annotations

from loadworthy.spreadsheet import _columns, _place
from loadworthy.spreadsheet._cells import Unread
from loadworthy.spreadsheet._errors import SheetError
from loadworthy.spreadsheet._judged import CANNOT_TELL, FAILS, HOLDS, judged

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

    from loadworthy.spreadsheet._judged import Judged

#: The colours of cells that do not hold, as in workbooks; the words in the cells say the same.
_GROUNDS = {FAILS: 0xFFC7CE, CANNOT_TELL: 0xFFEB9C}

#: How a note of ours begins.
_OURS = "Loadworthy: "

# Constants of com.sun.star: FormulaResult.ERROR, CellFlags.FORMULA, and of util.NumberFormat DATE, TIME and PERCENT.
_ERROR, _FORMULA, _DATE, _TIME, _PERCENT = 4, 16, 2, 4, 128

_DATED = "holds a date or a time; give the cell a number format and write the value again"
_SHARED = "is shown as a percentage; write the number in plain format"


def check(document: Any, area: Any, edition: str | None = None) -> str:
    """Judges the circuits of an area, whose first row is the heading; gives a summary.

    Results are written to the columns with their headings, or right of everything that the sheet uses.
    """
    sheet, area = area.Spreadsheet, _used(area)
    at = area.RangeAddress
    cells = [list(row) for row in area.DataArray]
    names = {column: text.strip() for column, text in enumerate(cells[0]) if isinstance(text, str)}
    if not _columns.is_heading(list(names.values())):
        raise SheetError("the first row of the area is no heading of circuits; select the heading too")
    stated, results = _columns.placed(names)
    for (row, column), why in _unread(document, area).items():
        cells[row][column] = Unread(why)
    rows = [{name: row[column] for name, column in stated.items()} for row in cells[1:]]
    found = judged(rows, list(stated), edition)
    free = max(at.EndColumn, _last_column(sheet)) - at.StartColumn + 1
    for name in _columns.RESULTS:
        if name not in results:
            results[name], free = free, free + 1
    _refuse_loss(sheet, at, results)
    document.lockControllers()
    try:
        _write(document, sheet, at, results, found)
    finally:
        document.unlockControllers()
    told = [row.verdict for row in found.rows if row is not None]
    counts = ", ".join(f"{told.count(verdict)} {verdict}" for verdict in (HOLDS, FAILS, CANNOT_TELL))
    return f"{len(told)} circuits by {found.edition}: {counts}"


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


def _unread(document: Any, area: Any) -> dict[tuple[int, int], str]:
    """Cells whose value cannot be used, by row and column within the area: errors, dates, percentages, merged ones."""
    found: dict[tuple[int, int], str] = {}
    top, left = area.RangeAddress.StartRow, area.RangeAddress.StartColumn
    formats = document.NumberFormats
    for part in area.CellFormatRanges:
        kind = formats.getByKey(part.NumberFormat).Type
        why = _DATED if kind & (_DATE | _TIME) else _SHARED if kind & _PERCENT else None
        for row, column in _cells(part.RangeAddress, top, left) if why else ():
            if area.getCellByPosition(column, row).Type.value not in ("EMPTY", "TEXT"):
                found[row, column] = str(why)
    for part in area.queryFormulaCells(_ERROR):
        for row, column in _cells(part.RangeAddress, top, left):
            found[row, column] = f"holds the error {area.getCellByPosition(column, row).String}"
    for (row, column), anchor in _merged(area.Spreadsheet, area.RangeAddress).items():
        found[row - top, column - left] = f"is merged with {anchor}; write the value in every row"
    return found


def _merged(sheet: Any, at: Any) -> dict[tuple[int, int], str]:
    """Cells of an area that are merged with another, and with which: one may lie above or left of the area."""
    found: dict[tuple[int, int], str] = {}
    for part in sheet.getCellRangeByPosition(0, 0, at.EndColumn, at.EndRow).CellFormatRanges:
        if not part.IsMerged:
            continue
        for row, column in _cells(part.RangeAddress, 0, 0):
            cursor = sheet.createCursorByRange(sheet.getCellByPosition(column, row))
            cursor.collapseToMergedArea()
            anchor, covered = _place.cell(row + 1, column + 1), _cells(cursor.RangeAddress, 0, 0)
            found |= {place: anchor for place in covered if place != (row, column)}
    inside = (range(at.StartRow, at.EndRow + 1), range(at.StartColumn, at.EndColumn + 1))
    return {place: anchor for place, anchor in found.items() if place[0] in inside[0] and place[1] in inside[1]}


def _cells(address: Any, top: int, left: int) -> Iterator[tuple[int, int]]:
    for row in range(address.StartRow, address.EndRow + 1):
        for column in range(address.StartColumn, address.EndColumn + 1):
            yield row - top, column - left


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


def _columns_of(sheet: Any, at: Any, results: dict[str, int]) -> Iterator[tuple[str, Any]]:
    for name, column in results.items():
        across = at.StartColumn + column
        yield name, sheet.getCellRangeByPosition(across, at.StartRow, across, at.EndRow)


def _refuse_loss(sheet: Any, at: Any, results: dict[str, int]) -> None:
    """Nothing of the user's is written over."""
    for name, cells in _columns_of(sheet, at, results):
        if cells.queryContentCells(_FORMULA).Count:
            raise SheetError(f"a formula stands in the column where `{name}` belongs; move it")
        if _merged(sheet, cells.RangeAddress):
            raise SheetError(f"a cell is merged in the column where `{name}` belongs; split it")
    for _, note in _notes(sheet, at, results):
        if not note.String.startswith(_OURS):
            raise SheetError("there is a note of somebody else where ours belongs; move it to another cell")


def _notes(sheet: Any, at: Any, results: dict[str, int]) -> list[tuple[int, Any]]:
    ours = {at.StartColumn + column for column in results.values()}
    listed = enumerate(sheet.Annotations)
    return [
        (number, note)
        for number, note in listed
        if note.Position.Column in ours and at.StartRow <= note.Position.Row <= at.EndRow
    ]


def _write(document: Any, sheet: Any, at: Any, results: dict[str, int], found: Judged) -> None:
    for number, _ in reversed(_notes(sheet, at, results)):
        sheet.Annotations.removeByIndex(number)
    marked: dict[str, list[Any]] = {mark: [] for mark in _GROUNDS}
    for name, cells in _columns_of(sheet, at, results):
        values = [row.values.get(name, "") if row else "" for row in found.rows]
        cells.DataArray = tuple((value,) for value in (name, *values))
        for part in cells.CellFormatRanges:
            if part.CellBackColor in _GROUNDS.values():
                part.CellBackColor = -1
        for number, row in enumerate(found.rows, 1):
            if row and (mark := row.mark(name)):
                marked[mark].append(cells.getCellByPosition(0, number).RangeAddress)
    for mark in (mark for mark in marked if marked[mark]):
        # All cells of a colour at once: one by one each takes as long as a hundred rows.
        together = document.createInstance("com.sun.star.sheet.SheetCellRanges")
        together.addRangeAddresses(tuple(marked[mark]), True)
        together.CellBackColor = _GROUNDS[mark]
    _note(sheet, at, results, found)


def _note(sheet: Any, at: Any, results: dict[str, int], found: Judged) -> None:
    notes = sheet.Annotations
    for name, cells in _columns_of(sheet, at, results):
        if name == "verdict":
            notes.insertNew(cells.getCellByPosition(0, 0).CellAddress, _OURS + found.heading_note)
        for number, row in enumerate(found.rows, 1):
            if row and name in row.notes:
                notes.insertNew(cells.getCellByPosition(0, number).CellAddress, _OURS + row.notes[name])
