"""Rows of circuits judged: what is written beside each, whatever the sheet is kept in."""

from __future__ import annotations

from dataclasses import dataclass

from loadworthy import _core
from loadworthy._errors import QuestionError
from loadworthy.spreadsheet._cells import Unread, column, unread
from loadworthy.spreadsheet._columns import CHECKS, RESULTS, WORDS, placed
from loadworthy.spreadsheet._errors import SheetError
from loadworthy.spreadsheet._others import Around, no_circuits

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
    from typing import Any

HOLDS, FAILS, CANNOT_TELL, NOT_ASKED = "holds", "fails", "cannot tell", "not asked"

CAUTION = (
    "Electricity and engine exhaust kill. Local codes and the authority having jurisdiction decide; connection to "
    "premises wiring is work for licensed people; a verdict covers only what the row states."
)


@dataclass(frozen=True)
class Judged:
    """A sheet, judged. Rows are counted from 0, the first below the heading."""

    edition: str
    #: What was assumed of every row, since no column states it.
    assumed: tuple[str, ...]
    #: What is written, by the name of the column: a value for each row, `None` for a cell that stays empty.
    columns: dict[str, list[Any]]
    #: For each row that does not hold why it does not, and why checks fail, with the sections of the code; by the name
    #: of the column.
    notes: dict[int, dict[str, str]]
    #: Rows that are no circuits, and why; empty where a row states nothing.
    no_circuits: dict[int, str]

    @property
    def heading_note(self) -> str:
        """What a reader of the results must know."""
        assumed = "\n".join(f"assumed: {text}" for text in self.assumed)
        return f"Judged by {self.edition.upper().replace('-', ' ')}.\n{assumed}\n{CAUTION}"

    @property
    def summary(self) -> str:
        """How many circuits there are, and how they end."""
        told = self.columns["verdict"]
        counts = ", ".join(f"{told.count(verdict)} {verdict}" for verdict in (HOLDS, FAILS, CANNOT_TELL))
        others = sum(1 for why in self.no_circuits.values() if why)
        more = f"; {others} not a circuit" if others else ""
        return f"{len(told) - len(self.no_circuits)} circuits by {self.edition}: {counts}{more}"

    def marks(self) -> Iterator[tuple[int, str, str]]:
        """The cells to mark: row, name of the column, and `fails` or `cannot tell`."""
        for row in self.notes:
            for name in ("verdict", *CHECKS):
                ends = self.columns[name][row]
                if ends in (FAILS, CANNOT_TELL):
                    yield row, name, ends


def results(cells: Sequence[Sequence[Any]], edition: str | None = None) -> list[list[str | float | None]]:
    """What belongs beside rows of cells, the first of which names the columns: a heading, and a row for each.

    >>> heading = ["material", "size", "insulation", "load_continuous_a", "load_other_a", "device_a", "supplies"]
    >>> beside = results([heading, ["copper", "12 AWG", "THWN-2", 16, 0, 20, "other"]])
    >>> beside[0][:2], beside[1][:2]
    (['verdict', 'why'], ['holds', None])

    Raises `SheetError` where the columns cannot be judged.
    """
    stated_at, _ = placed({column: str(name or "").strip() for column, name in enumerate(cells[0] if cells else ())})
    columns = {
        name: [row[column] if column < len(row) else None for row in cells[1:]] for name, column in stated_at.items()
    }
    found = judged(columns, edition, around=_Listed(cells[1:], stated_at.values()))
    return [list(RESULTS), *map(list, zip(*(found.columns[name] for name in RESULTS), strict=True))]


class _Listed(Around):
    """What stands beside the circuits in rows of cells; of their formulas nothing is known."""

    def __init__(self, rows: Sequence[Sequence[Any]], stated_at: Collection[int]) -> None:
        self._rows = rows
        self._stated_at = frozenset(stated_at)

    def texts(self, row: int) -> Iterable[object]:
        return (value for column, value in enumerate(self._rows[row]) if column not in self._stated_at)


def judged(
    columns: Mapping[str, Sequence[Any]], edition: str | None, accept: Any = None, around: Around | None = None
) -> Judged:
    """Judges rows: the values of the cells of each column, by its name, and what the sheet knows `around` them."""
    read = {name: column(name, values) for name, values in columns.items()}
    asked = {name: _known(values) for name, values in read.items()}
    numbers = [(name, values) for name, values in asked.items() if name not in WORDS]
    words = [(name, values) for name, values in asked.items() if name in WORDS]
    try:
        answer = _core.judge_sheet(numbers, words, edition, accept)
    except QuestionError as error:
        raise SheetError(error.message) from None
    checks = {_underscored(slug): ends for slug, ends in answer.checks}
    whys: list[Any] = [None] * len(answer.verdict)
    written: dict[str, list[Any]] = {"verdict": answer.verdict, "why": whys, **checks, **dict(answer.figures)}
    found = Judged(answer.edition, tuple(answer.assumed), written, {}, no_circuits(read, around or Around()))
    for remark in answer.remarks:
        _say(found, read, remark)
    for row, why in unread(read).items():
        # Nothing was said to the engine of these cells: whatever it answers is not about this row.
        _write(found, row, {"verdict": CANNOT_TELL, **dict.fromkeys(CHECKS, CANNOT_TELL), "why": why})
        found.notes[row] = {"verdict": why}
    for row, why in found.no_circuits.items():
        _write(found, row, {"why": f"not a circuit: {why}"} if why else {})
        found.notes.pop(row, None)
    return found


def _underscored(slug: str) -> str:
    return slug.replace("-", "_")


def _known(values: Sequence[Any]) -> list[Any]:
    """What can be judged; of a cell that cannot be used nothing is said here, and its row is not judged."""
    return [None if type(value) is Unread else value for value in values]


def _write(found: Judged, row: int, values: Mapping[str, str]) -> None:
    for name, cells in found.columns.items():
        cells[row] = values.get(name)


def _say(found: Judged, read: Mapping[str, Sequence[Any]], remark: Mapping[str, Any]) -> None:
    row, reason = remark["row"], _reason(read, remark)
    notes = {_underscored(slug): f"{said} ({sections})" for slug, said, sections in remark["failures"]}
    why = [*notes.values(), *([reason] if reason else [])]
    if why:
        found.columns["why"][row] = "; ".join(why)
    if found.columns["verdict"][row] != HOLDS:
        found.notes[row] = {**notes, "verdict": "\n".join(why) or "a fact is missing"}


def _reason(read: Mapping[str, Sequence[Any]], remark: Mapping[str, Any]) -> str | None:
    """Why something could not be judged, by the names of this sheet."""
    column = next((name for name in remark["reason_columns"] if name in read), None)
    if column is not None and read[column][remark["row"]] is None:
        return f"`{column}` is empty"
    reason: str | None = remark["reason"]
    if reason and column and remark["reason_columns"][0] != column:
        reason = reason.replace(f"`{remark['reason_columns'][0]}`", f"`{column}`")
    if reason and column and "not a short decimal" in reason:
        # What a quotient comes to has no end; rounded by whoever knows what it is, it can be judged.
        reason += "; round it in its formula, a load upwards: ROUNDUP(…, 3)"
    return reason
