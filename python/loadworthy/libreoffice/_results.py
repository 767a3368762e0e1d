"""Results beside circuits: written, marked, and told in notes; nothing of the user's is written over."""

from __future__ import annotations

from contextlib import contextmanager
from itertools import groupby

from loadworthy.libreoffice._ranges import cells, column_of
from loadworthy.spreadsheet._errors import SheetError
from loadworthy.spreadsheet._judged import CANNOT_TELL, FAILS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Collection, Iterator
    from typing import Any

    from loadworthy.spreadsheet._judged import Judged

#: The colours of cells that do not hold, as in workbooks; the words in the cells say the same.
_GROUNDS = {FAILS: 0xFFC7CE, CANNOT_TELL: 0xFFEB9C}

#: How a note of ours begins.
_OURS = "Loadworthy: "

# Constants of com.sun.star.sheet.CellFlags: ANNOTATION and FORMULA.
_NOTE, _FORMULA = 8, 16


def refuse_loss(
    sheet: Any, at: Any, results: dict[str, int], found: Judged, together: Collection[tuple[int, int]]
) -> None:
    """Nothing of the user's is written over. Where no circuit stands, somebody may count what the circuits came to.

    Raises `SheetError` where something of the user's stands in the place of a result.
    """
    shared = {column for _, column in together}
    for name, across in results.items():
        results_of = column_of(sheet, at, across)
        for part in results_of.queryContentCells(_FORMULA).RangeAddresses:
            if any(row - 1 not in found.no_circuits for row, _ in cells(part, at.StartRow, 0)):
                raise SheetError(f"a formula stands in the column where `{name}` belongs; move it")
        if across + at.StartColumn in shared:
            raise SheetError(f"a cell is merged in the column where `{name}` belongs; split it")
        for part in results_of.queryContentCells(_NOTE).RangeAddresses:
            for row, column in cells(part, 0, 0):
                if not sheet.getCellByPosition(column, row).Annotation.String.startswith(_OURS):
                    raise SheetError("there is a note of somebody else where ours belongs; move it to another cell")


def write(document: Any, sheet: Any, at: Any, results: dict[str, int], found: Judged, most_notes: int) -> int:
    """Writes the results of an area; gives how many notes are left out, since they are too many."""
    document.lockControllers()
    try:
        with _heights_kept(document, unless=_wraps(sheet, at, results)):
            _write(sheet, at, results, found)
        with _heights_kept(document):
            _mark(document, sheet, at, results, found)
            return _note(sheet, at, results, found, most_notes)
    finally:
        document.unlockControllers()


@contextmanager
def _heights_kept(document: Any, unless: bool = False) -> Iterator[None]:
    """Measuring how high each row must be takes longer than all else, and only wrapped text makes one higher."""
    if unless or not document.IsAdjustHeightEnabled:
        yield
        return
    # LibreOffice counts: what is forbidden twice is not allowed again by one word.
    document.IsAdjustHeightEnabled = False
    try:
        yield
    finally:
        document.IsAdjustHeightEnabled = True


def _wraps(sheet: Any, at: Any, results: dict[str, int]) -> bool:
    # Nothing is said of cells that differ.
    return any(column_of(sheet, at, across).IsTextWrapped is not False for across in results.values())


def _write(sheet: Any, at: Any, results: dict[str, int], found: Judged) -> None:
    """Writes columns that stand side by side at once, and leaves formulas where they are."""
    for run in _side_by_side(results):
        first, last = at.StartColumn + results[run[0]], at.StartColumn + results[run[-1]]
        # An empty text empties a cell.
        values = [["" if value is None else value for value in found.columns[name]] for name in run]
        lines = [tuple(run), *zip(*values, strict=True)]
        formulas = sheet.getCellRangeByPosition(first, at.StartRow, last, at.EndRow).queryContentCells(_FORMULA)
        kept = {(row, column) for part in formulas.RangeAddresses for row, column in cells(part, at.StartRow, first)}
        start = 0
        for row in (*sorted({row for row, _ in kept}), len(lines)):
            if row > start:
                block = sheet.getCellRangeByPosition(first, at.StartRow + start, last, at.StartRow + row - 1)
                block.setDataArray(tuple(lines[start:row]))
            for column, value in enumerate(lines[row] if row < len(lines) else ()):
                if (row, column) not in kept:
                    sheet.getCellByPosition(first + column, at.StartRow + row).setString(str(value))
            start = row + 1


def _side_by_side(results: dict[str, int]) -> list[list[str]]:
    runs: list[list[str]] = []
    for name in sorted(results, key=results.__getitem__):
        if runs and results[runs[-1][-1]] == results[name] - 1:
            runs[-1].append(name)
        else:
            runs.append([name])
    return runs


def _mark(document: Any, sheet: Any, at: Any, results: dict[str, int], found: Judged) -> None:
    address = type(at)
    marked: dict[str, list[Any]] = {mark: [] for mark in _GROUNDS}
    for (mark, name), rows in _by_column(found).items():
        column = at.StartColumn + results[name]
        for first, last in _runs(rows):
            top, bottom = at.StartRow + 1 + first, at.StartRow + 1 + last
            marked[mark].append(address(at.Sheet, column, top, column, bottom))
    for across in results.values():
        for alike in column_of(sheet, at, across).UniqueCellFormatRanges:
            if alike.CellBackColor in _GROUNDS.values():
                alike.CellBackColor = -1
    for mark in (mark for mark in marked if marked[mark]):
        # All cells of a colour at once: one by one each takes as long as a hundred rows.
        together = document.createInstance("com.sun.star.sheet.SheetCellRanges")
        together.addRangeAddresses(tuple(marked[mark]), False)
        together.CellBackColor = _GROUNDS[mark]


def _by_column(found: Judged) -> dict[tuple[str, str], list[int]]:
    """The rows to mark, in order, by mark and column."""
    rows: dict[tuple[str, str], list[int]] = {}
    for row, name, mark in sorted(found.marks()):
        rows.setdefault((mark, name), []).append(row)
    return rows


def _runs(rows: list[int]) -> Iterator[tuple[int, int]]:
    """The first and the last of rows that follow each other."""
    for _, run in groupby(enumerate(rows), lambda pair: pair[1] - pair[0]):
        whole = [row for _, row in run]
        yield whole[0], whole[-1]


def _note(sheet: Any, at: Any, results: dict[str, int], found: Judged, most: int) -> int:
    """Writes the notes, in place of ours of before; gives how many are left out, since they are too many."""
    for across in results.values():
        column_of(sheet, at, across).clearContents(_NOTE)
    notes = [(row + 1, name, text) for row in sorted(found.notes) for name, text in found.notes[row].items()]
    for row, name, text in [(0, "verdict", found.heading_note), *notes[:most]]:
        cell = column_of(sheet, at, results[name]).getCellByPosition(0, row)
        sheet.Annotations.insertNew(cell.CellAddress, _OURS + text)
    return max(len(notes) - most, 0)
