"""Rows of circuits judged: what is written beside each, whatever the sheet is kept in."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeVar

from loadworthy import _core
from loadworthy._errors import QuestionError
from loadworthy.spreadsheet._cells import Unread, stated
from loadworthy.spreadsheet._columns import CHECKS, FIGURES, RESULTS, WORDS, placed
from loadworthy.spreadsheet._errors import SheetError

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import Any

Kind = TypeVar("Kind", float, str)

HOLDS, FAILS, CANNOT_TELL, NOT_ASKED = "holds", "fails", "cannot tell", "not asked"

CAUTION = (
    "Electricity and engine exhaust kill. Local codes and the authority having jurisdiction decide; connection to "
    "premises wiring is work for licensed people; a verdict covers only what the row states."
)


@dataclass(frozen=True)
class Row:
    """A row, judged."""

    #: What is written, by the name of the column; a column without a value stays empty.
    values: dict[str, str | float]
    #: Why the verdict is no pass, and why checks fail, with the sections of the code; by the name of the column.
    notes: dict[str, str] = field(default_factory=dict)

    def mark(self, name: str) -> str | None:
        """How a cell is marked: as one that fails, as one that cannot be told, or not."""
        ends = self.values.get(name) if name == "verdict" or name in CHECKS else None
        return str(ends) if ends in (FAILS, CANNOT_TELL) else None

    @property
    def verdict(self) -> str:
        """`holds`, `fails` or `cannot tell`."""
        return str(self.values["verdict"])


@dataclass(frozen=True)
class Judged:
    """A sheet, judged."""

    edition: str
    #: What was assumed of every row, since no column states it.
    assumed: tuple[str, ...]
    #: One a row, in order; `None` for a row that states nothing.
    rows: tuple[Row | None, ...]

    @property
    def heading_note(self) -> str:
        """What a reader of the results must know."""
        assumed = "\n".join(f"assumed: {text}" for text in self.assumed)
        return f"Judged by {self.edition.upper().replace('-', ' ')}.\n{assumed}\n{CAUTION}"


def results(cells: Sequence[Sequence[Any]], edition: str | None = None) -> list[list[str | float | None]]:
    """What belongs beside rows of cells, the first of which names the columns: a heading, and a row for each.

    >>> heading = ["material", "size", "insulation", "load_continuous_a", "load_other_a", "device_a", "supplies"]
    >>> beside = results([heading, ["copper", "12 AWG", "THWN-2", 16, 0, 20, "other"]])
    >>> beside[0][:2], beside[1][:2]
    (['verdict', 'why'], ['holds', None])

    Raises `SheetError` where the columns cannot be judged.
    """
    stated_at, _ = placed({column: str(name or "").strip() for column, name in enumerate(cells[0] if cells else ())})
    rows = [
        {name: row[column] if column < len(row) else None for name, column in stated_at.items()} for row in cells[1:]
    ]
    found = judged(rows, list(stated_at), edition)
    return [list(RESULTS), *([row.values.get(name) if row else None for name in RESULTS] for row in found.rows)]


def judged(rows: Sequence[Mapping[str, Any]], names: Sequence[str], edition: str | None, accept: Any = None) -> Judged:
    """Judges rows: each maps the names of columns to what the cells hold."""
    read = [{name: stated(name, row.get(name)) for name in names} for row in rows]
    numbers = [(name, [_of(float, row[name]) for row in read]) for name in names if name not in WORDS]
    words = [(name, [_of(str, row[name]) for row in read]) for name in names if name in WORDS]
    try:
        edition, assumed, answers = _core.judge_sheet(numbers, words, edition, accept)
    except QuestionError as error:
        raise SheetError(error.message) from None
    return Judged(edition, tuple(assumed), tuple(map(_row, read, answers)))


def _of(kind: type[Kind], value: object) -> Kind | None:
    """What can be judged; of a cell that cannot be used nothing is said here, and its row is not judged."""
    return value if isinstance(value, kind) else None


def _row(read: Mapping[str, Any], answer: Mapping[str, Any]) -> Row | None:
    if all(value is None for value in read.values()):
        return None
    unread = [f"`{name}` {value.why}" for name, value in read.items() if isinstance(value, Unread)]
    if unread:
        # Nothing was said to the engine of these cells: whatever it answers is not about this row.
        return _untold("; ".join(unread))
    reason = _reason(read, answer)
    checks = {slug.replace("-", "_"): verdict for slug, verdict in answer["checks"]}
    notes = {slug.replace("-", "_"): f"{said} ({sections})" for slug, said, sections in answer["failures"]}
    why = [*notes.values(), *([reason] if reason else [])]
    values: dict[str, str | float] = {"verdict": answer["verdict"], **checks}
    if why:
        values["why"] = "; ".join(why)
    values |= {name: answer[name] for name in FIGURES if answer[name] is not None}
    if answer["verdict"] != HOLDS:
        notes["verdict"] = "\n".join(why) or "a fact is missing"
    return Row(values, notes)


def _untold(why: str) -> Row:
    cells = {"verdict": CANNOT_TELL, **dict.fromkeys(CHECKS, CANNOT_TELL)}
    return Row({**cells, "why": why}, {"verdict": why})


def _reason(read: Mapping[str, Any], answer: Mapping[str, Any]) -> str | None:
    """Why something could not be judged, by the names of this sheet."""
    column = next((name for name in answer["reason_columns"] if name in read), None)
    if column is not None and read[column] is None:
        return f"`{column}` is empty"
    reason: str | None = answer["reason"]
    if reason and column and answer["reason_columns"][0] != column:
        reason = reason.replace(f"`{answer['reason_columns'][0]}`", f"`{column}`")
    if reason and column and "not a short decimal" in reason:
        # What a quotient comes to has no end; rounded by whoever knows what it is, it can be judged.
        reason += "; round it in its formula, a load upwards: ROUNDUP(…, 3)"
    return reason
