"""Parts of a document as objects: what an answer or a finding has besides its words."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import Any


class Record:
    """A part of a document: equal to another where all that it says is equal; pickled and copied by what it says."""

    __slots__: tuple[str, ...] = ()

    def _fields(self) -> tuple[object, ...]:
        return tuple(getattr(self, name) for name in self.__slots__)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Record) and type(self) is type(other) and self._fields() == other._fields()

    def __hash__(self) -> int:
        return hash((type(self), self._fields()))

    def __reduce__(self) -> tuple[type, tuple[object, ...]]:
        return type(self), self._fields()

    def __repr__(self) -> str:
        said = ", ".join(f"{name}={getattr(self, name)!r}" for name in self.__slots__)
        return f"{type(self).__name__}({said})"


class Step(Record):
    """One step of a derivation; the last three are `None` where there is no such thing.

    Attributes:
        what: what was done, in a few words.
        result: what came of it, with its unit.
        citation: the section that asks for it, or the table that it was read from.
        cell: the row and the column of the cell.
        grade: how the cell is witnessed.
    """

    __slots__ = ("what", "result", "citation", "cell", "grade")  # noqa: RUF023  in the order of the constructor

    def __init__(
        self,
        what: str,
        result: str,
        citation: str | None = None,
        cell: str | None = None,
        grade: str | None = None,
    ) -> None:
        self.what = what
        self.result = result
        self.citation = citation
        self.cell = cell
        self.grade = grade

    def __str__(self) -> str:
        place = "; ".join(part for part in (self.citation, self.cell, self.grade) if part)
        return f"{self.what}: {self.result}" + (f" ({place})" if place else "")


class Gap(Record):
    """Why something cannot be told.

    Attributes:
        what: what was looked for.
        why: why it is not known.
    """

    __slots__ = ("what", "why")

    def __init__(self, what: str, why: str) -> None:
        self.what = what
        self.why = why


class Place(Record):
    """Where something stands in a description. Lines and columns count from 1; 0 where it was changed after reading.

    Attributes:
        file: the description, as it was named.
        line: the line.
        column: the column.
        path: the path of the field: `cord[0].size`.
    """

    __slots__ = ("file", "line", "column", "path")  # noqa: RUF023  in the order of the constructor

    def __init__(self, file: str, line: int, column: int, path: str) -> None:
        self.file = file
        self.line = line
        self.column = column
        self.path = path

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


def words(text: str | None) -> str:
    """A text; empty where there is none."""
    return text or ""


def texts(listed: Sequence[str] | None) -> tuple[str, ...]:
    """A list of texts."""
    return tuple(listed or ())


def figures(named: Mapping[str, str] | None) -> dict[str, str]:
    """Figures by name."""
    return dict(named or {})


def records(listed: Sequence[dict[str, Any]] | None) -> tuple[dict[str, Any], ...]:
    """Records as the document has them."""
    return tuple(listed or ())


def steps(listed: Sequence[Mapping[str, str]] | None) -> tuple[Step, ...]:
    """The steps of a derivation."""
    return tuple(Step(**step) for step in listed or ())


def gap(said: Mapping[str, str] | None) -> Gap | None:
    """Why something cannot be told, where it cannot."""
    return Gap(**said) if said else None


def place(said: Mapping[str, Any] | None) -> Place | None:
    """Where something stands, where it stands anywhere."""
    return Place(**said) if said else None
