"""A workbook checked in place: results beside the circuits, marks and notes where something does not hold."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from loadworthy._errors import not_known
from loadworthy.spreadsheet import _columns, _place
from loadworthy.spreadsheet._errors import SheetError
from loadworthy.spreadsheet._judged import CANNOT_TELL, FAILS, HOLDS, judged
from loadworthy.spreadsheet._notes import Notes
from loadworthy.spreadsheet._others import Around
from loadworthy.spreadsheet._styles import Styles
from loadworthy.spreadsheet._workbook import Workbook

TYPE_CHECKING = False
if TYPE_CHECKING:
    import os
    from collections.abc import Collection, Iterable, Mapping, Sequence

    from loadworthy import Acceptance
    from loadworthy.spreadsheet._grid import Grid
    from loadworthy.spreadsheet._judged import Judged

#: The last column and the last row that a sheet can have.
_LAST_COLUMN = 16384


@dataclass(frozen=True, repr=False)
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
    #: Rows that state something and are no circuits, such as totals, and why; they have no verdict.
    no_circuits: dict[int, str] = field(default_factory=dict)

    def rows(self, verdict: str) -> list[int]:
        """The rows that end so. Raises QuestionError for a word that is no verdict."""
        if verdict not in (HOLDS, FAILS, CANNOT_TELL):
            raise not_known("verdict", str(verdict), (HOLDS, FAILS, CANNOT_TELL))
        return [row for row, found in self.verdicts.items() if found == verdict]

    def __bool__(self) -> bool:
        raise TypeError("a check has no truth value; ask for its `verdicts`")

    def __repr__(self) -> str:
        return f"<Checked {self}>"

    def __str__(self) -> str:
        counts = ", ".join(f"{len(self.rows(verdict))} {verdict}" for verdict in (HOLDS, FAILS, CANNOT_TELL))
        others = f"; {len(self.no_circuits)} not a circuit" if self.no_circuits else ""
        return f"{self.path}: sheet `{self.sheet}`: {len(self.verdicts)} circuits by {self.edition}: {counts}{others}"


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
    lines = _lines(grid, heading)
    cells = {name: [grid.value(row, column) for row in lines] for name, column in stated.items()}
    found = judged(cells, edition, accept, _Around(grid, lines, stated))
    for name in _columns.RESULTS:
        if name not in results:
            results[name] = max(grid.last_column, *results.values(), *stated.values()) + 1
    _write(workbook, title, grid, heading, results, lines, found)
    workbook.calculate_on_opening()
    workbook.package.write(to)
    ends, said = found.columns["verdict"], found.columns["why"]
    circuits = [(at, row) for at, row in enumerate(lines) if at not in found.no_circuits]
    verdicts = {row: ends[at] for at, row in circuits}
    why = {row: said[at] for at, row in circuits if ends[at] != HOLDS}
    others = {lines[at]: why for at, why in found.no_circuits.items() if why}
    return Checked(to, title, found.edition, found.assumed, verdicts, why, others)


def _lines(grid: Grid, heading: int) -> list[int]:
    """The rows below the heading; where some are not there, the first of them stands for all: nothing is in it."""
    found: list[int] = []
    for row in sorted(row for row in grid.rows if row > heading):
        if row > (found[-1] if found else heading) + 1:
            found.append((found[-1] if found else heading) + 1)
        found.append(row)
    return found


class _Around(Around):
    """What a sheet of a workbook knows beside the columns of circuits."""

    def __init__(self, grid: Grid, lines: Sequence[int], stated: Mapping[str, int]) -> None:
        self._grid = grid
        self._lines = lines
        self._stated = stated

    def texts(self, row: int) -> Iterable[object]:
        line, stated = self._lines[row], frozenset(self._stated.values())
        return (self._grid.text(line, column) for column in self._grid.columns(line) if column not in stated)

    def formula(self, row: int, name: str) -> tuple[str, int] | None:
        return self._grid.formula(self._lines[row], self._stated[name])


def _write(
    workbook: Workbook,
    title: str,
    grid: Grid,
    heading: int,
    results: dict[str, int],
    lines: Sequence[int],
    found: Judged,
) -> None:
    if workbook.styles is None:
        raise SheetError("the workbook has no styles; open it and save it once")
    others = {lines[at] for at in found.no_circuits}
    _refuse_loss(grid, results, [heading, *(row for row in lines if row not in others)])
    styles = Styles(workbook.package, workbook.styles)
    marks = {(lines[at], name): ends for at, name, ends in found.marks()}
    for name, column in results.items():
        # A heading that is there stays as it is: a table of the workbook may know it by its cell.
        if (grid.text(heading, column) or "").strip() != name:
            grid.write(heading, column, name, grid.style(heading, column))
        for row, value in zip(lines, found.columns[name], strict=True):
            # Where no circuit stands somebody may count what the circuits came to.
            if row not in others or not grid.formula(row, column):
                grid.write(row, column, value, styles.marked(grid.style(row, column), marks.get((row, name))))
    grid.finish()
    notes = {(lines[at], results[name]): text for at, said in found.notes.items() for name, text in said.items()}
    notes[heading, results["verdict"]] = found.heading_note
    kept = Notes(workbook.package, workbook.sheets[title])
    if strange := kept.others(notes):
        raise SheetError(f"{strange[0]} has a note of somebody else where ours belongs; move it to another cell")
    kept.write(notes)


def _refuse_loss(grid: Grid, results: dict[str, int], rows: Collection[int]) -> None:
    """Nothing of the user's is written over."""
    if max(results.values()) > _LAST_COLUMN:
        raise SheetError("has no columns left beside the circuits for the results")
    for row in rows:
        for name, column in results.items():
            if grid.has_formula(row, column):
                raise SheetError(f"{_place.cell(row, column)} holds a formula where `{name}` belongs; move it")
            if grid.merged_with(row, column):
                raise SheetError(
                    f"{_place.cell(row, column)} is merged with another cell where `{name}` belongs; split it"
                )
