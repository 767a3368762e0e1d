"""What can go wrong: a small family under one base."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    _Record = tuple[str, str, str, int, int, str]


class Error(Exception):
    """Anything that this package raises of its own."""


class QuantityError(Error, ValueError):
    """A text or a number that is not the quantity that was wanted.

    `code` is a stable word: missing-unit, wrong-quantity, unknown-unit, not-a-number, out-of-range, too-fine, wrong-type.
    """

    def __init__(self, message: str, code: str) -> None:
        super().__init__(message, code)
        self.message = message
        self.code = code

    def __str__(self) -> str:
        return self.message


class QuantityTypeError(QuantityError, TypeError):
    """A value whose type no quantity is made from, such as a bare binary floating-point number."""


class QuestionError(Error, ValueError):
    """A question that could not be understood; `option` names the keyword, where it concerns one."""

    def __init__(self, message: str, option: str | None = None) -> None:
        super().__init__(message, option)
        self.message = message
        self.option = option

    def __str__(self) -> str:
        return self.message


def not_known(option: str, word: str, known: Iterable[str]) -> QuestionError:
    """A word that is none of those that are known; the nearest of them is offered, or all where they are few."""
    from difflib import get_close_matches

    known = sorted(set(known))
    near = get_close_matches(word, known, n=1)
    few = 8
    listed = f"; write one of: {', '.join(known)}" if len(known) <= few else ""
    advice = f"; did you mean `{near[0]}`?" if near else listed
    return QuestionError(f"{option}: `{word}` is not known{advice}", option)


class QuestionTypeError(QuestionError, TypeError):
    """A value whose type no option takes."""


class Problem:
    """One thing wrong with a document, with its place.

    Lines and columns count from 1; both are 0 for what has no text, such as a mapping: its path says where.

    Attributes:
        code: a stable word: missing-unit, unknown-field, syntax and so on.
        message: the place, what is wrong there, and what to do; one line.
        file: the document, as it was named.
        line: the line.
        column: the column.
        path: the path of the field: `cord[0].size`.
    """

    __slots__ = ("code", "column", "file", "line", "message", "path")

    def __init__(self, code: str, message: str, file: str, line: int, column: int, path: str) -> None:
        self.code = code
        self.message = message
        self.file = file
        self.line = line
        self.column = column
        self.path = path

    def _record(self) -> _Record:
        return (self.code, self.message, self.file, self.line, self.column, self.path)

    def __repr__(self) -> str:
        return f"<Problem {self.code}: {self.message}>"

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Problem) and self._record() == other._record()

    def __hash__(self) -> int:
        return hash(self._record())


class InputError(Error, ValueError):
    """A description with problems: all of them at once, in the order of their places."""

    def __init__(self, records: Sequence[_Record]) -> None:
        super().__init__(records)
        self.problems = tuple(Problem(*record) for record in records)

    def __str__(self) -> str:
        return "\n".join(problem.message for problem in self.problems)
