"""A workbook checked in place: results beside the circuits, marks and notes where something does not hold."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from loadworthy.spreadsheet import _columns, _place
from loadworthy.spreadsheet._errors import SheetError
from loadworthy.spreadsheet._judged import CANNOT_TELL, FAILS, HOLDS, judged
from loadworthy.spreadsheet._notes import Notes
from loadworthy.spreadsheet._styles import Styles
from loadworthy.spreadsheet._workbook import Workbook

TYPE_CHECKING = False
if TYPE_CHECKING:
    import os
    from collections.abc import Iterable, Mapping

    from loadworthy import Acceptance
    from loadworthy.spreadsheet._grid import Grid
    from loadworthy.spreadsheet._judged import Row

#: The last column and the last row that a sheet can have.
_LAST_COLUMN = 16384


@dataclass(frozen=True)
class Checked:
    """What a check of a workbook found."""

    #: The workbook that was written.
    path: Path
    #: The sheet of the circuits.
    sheet: str
    #: The edition that the circuits were judged by.
    edition: str
    #: What was assumed of every row, since no column states it.
    assumed: tuple[str, ...]
    #: How each circuit ends, by the number of its row: `holds`, `fails` or `cannot tell`.
    verdicts: dict[int, str]
    #: Why, for each row that does not hold.
    why: dict[int, str]

    def rows(self, verdict: str) -> list[int]:
        """The rows that end so."""
        return [row for row, found in self.verdicts.items() if found == verdict]

    def __bool__(self) -> bool:
        raise TypeError("a check has no truth value; ask for its `verdicts`")

    def __str__(self) -> str:
        counts = ", ".join(f"{len(self.rows(verdict))} {verdict}" for verdict in (HOLDS, FAILS, CANNOT_TELL))
        return f"{self.path}: sheet `{self.sheet}`: {len(self.verdicts)} circuits by {self.edition}: {counts}"


def check(
    path: str | os.PathLike[str],
    *,
    to: str | os.PathLike[str] | None = None,
    sheet: str | None = None,
    edition: str | None = None,
    accept: Acceptance | None = None,
) -> Checked:
    """Checks a workbook with one circuit a row and writes the results beside the circuits.

    One row of the sheet names the columns (`loadworthy.spreadsheet.STATED`); the rows below it are circuits. Columns
    with other headings are the user's own. The workbook is written to `to`, or back to `path`; there is never half of
    one. Whatever is not a result stays as it is, to the byte wherever the part holds no result: other sheets, formulas
    with what they came to, formats, charts, pictures, macros.

    Raises `SheetError` for what cannot be read, or could not be written without losing something.
    """
    path = Path(path)
    try:
        return _checked(path, path if to is None else Path(to), sheet, edition, accept)
    except SheetError as error:
        raise error if error.place else SheetError(error.message, str(path)) from None


def _checked(path: Path, to: Path, sheet: str | None, edition: str | None, accept: Acceptance | None) -> Checked:
    workbook = Workbook(path)
    title, grid, heading = workbook.circuits(sheet)
    names = {column: text.strip() for column in grid.columns(heading) if (text := grid.text(heading, column))}
    stated, results = _columns.placed(names)
    lines = [row for row in grid.rows if row > heading]
    cells = [{name: grid.value(row, column) for name, column in stated.items()} for row in lines]
    found = judged(cells, list(stated), edition, accept)
    for name in _columns.RESULTS:
        if name not in results:
            results[name] = max(grid.last_column, *results.values(), *stated.values()) + 1
    told = dict(zip(lines, found.rows, strict=True))
    _write(workbook, title, grid, heading, results, told, found.heading_note)
    workbook.calculate_on_opening()
    workbook.package.write(to)
    circuits = {row: one for row, one in told.items() if one is not None}
    verdicts = {row: one.verdict for row, one in circuits.items()}
    why = {row: str(one.values["why"]) for row, one in circuits.items() if one.verdict != HOLDS}
    return Checked(to, title, found.edition, found.assumed, verdicts, why)


def _write(
    workbook: Workbook,
    title: str,
    grid: Grid,
    heading: int,
    results: dict[str, int],
    rows: Mapping[int, Row | None],
    heading_note: str,
) -> None:
    if workbook.styles is None:
        raise SheetError("the workbook has no styles; open it and save it once")
    _refuse_loss(grid, heading, results, rows)
    styles = Styles(workbook.package, workbook.styles)
    notes = {(heading, results["verdict"]): heading_note}
    for name, column in results.items():
        # A heading that is there stays as it is: a table of the workbook may know it by its cell.
        if (grid.text(heading, column) or "").strip() != name:
            grid.write(heading, column, name, grid.style(heading, column))
    for row, one in rows.items():
        for name, column in results.items():
            value = None if one is None else one.values.get(name)
            mark = None if one is None else one.mark(name)
            grid.write(row, column, value, styles.marked(grid.style(row, column), mark))
            if one is not None and name in one.notes:
                notes[row, column] = one.notes[name]
    grid.finish()
    said = Notes(workbook.package, workbook.sheets[title])
    if others := said.others(notes):
        raise SheetError(f"{others[0]} has a note of somebody else where ours belongs; move it to another cell")
    said.write(notes)


def _refuse_loss(grid: Grid, heading: int, results: dict[str, int], rows: Iterable[int]) -> None:
    """Nothing of the user's is written over."""
    if max(results.values()) > _LAST_COLUMN:
        raise SheetError("has no columns left beside the circuits for the results")
    for row in (heading, *rows):
        for name, column in results.items():
            if grid.has_formula(row, column):
                raise SheetError(f"{_place.cell(row, column)} holds a formula where `{name}` belongs; move it")
            if grid.merged_with(row, column):
                raise SheetError(
                    f"{_place.cell(row, column)} is merged with another cell where `{name}` belongs; split it"
                )
