"""A description that is a mapping: as the JSON that the core reads, or what is wrong with it, with the paths."""

from __future__ import annotations

import json
from math import isfinite

from loadworthy import _pint
from loadworthy._errors import InputError, QuestionTypeError

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Any

    from loadworthy._errors import _Record

#: What stands deeper is refused by the core too, which says so.
_DEEPEST = 64

#: A whole number of more digits counts nothing.
_MOST = 10**40


def written(description: Mapping[str, Any], file: str) -> bytes:
    """The document. Raises InputError with everything in the mapping that no document can hold."""
    reading = _Reading(file)
    document = reading.value(description, "", ())
    if reading.problems:
        raise InputError(reading.problems)
    return json.dumps(document, ensure_ascii=False).encode()


def without_lines(error: InputError) -> InputError:
    """The same problems, each by the path of its field: nobody has seen the lines and columns of the JSON."""
    return InputError([_without_line(*problem._record()) for problem in error.problems])


def _without_line(code: str, message: str, file: str, line: int, column: int, path: str) -> _Record:
    what = message.removeprefix(f"{file}:{line}:{column}: ")
    return code, ": ".join(part for part in (file, path, what) if part), file, 0, 0, path


class _Reading:
    """Values as JSON has them, and what has no place there."""

    def __init__(self, file: str) -> None:
        self._file = file
        self.problems: list[_Record] = []

    def _say(self, code: str, path: str, what: str) -> None:
        """Notes a problem."""
        path = path.encode("utf-8", "replace").decode()
        self.problems.append(_without_line(code, what, self._file, 0, 0, path))

    def value(self, value: Any, path: str, around: tuple[int, ...]) -> Any:
        """A value; `around` are the mappings and lists that it stands in."""
        if getattr(value, "ndim", None) == 0 and hasattr(value, "item") and not hasattr(value, "magnitude"):
            # A number or a truth value of numpy.
            value = value.item()
        if value is None or isinstance(value, bool):
            return value
        if isinstance(value, str):
            return self._text(str(value), path)
        if isinstance(value, int):
            if abs(value) < _MOST:
                return int(value)
            self._say("out-of-range", path, "this is a whole number of more than 40 digits; write less")
            return None
        if isinstance(value, float):
            if isfinite(value):
                return float(value)
            self._say("not-a-number", path, f"`{value!r}` is not a finite number; leave out what is not known")
            return None
        table = hasattr(value, "keys")
        if not table and not isinstance(value, (list, tuple)):
            return self._object(value, path)
        if id(value) in around:
            self._say("wrong-type", path, "this stands in itself; write what it holds")
            return None
        if len(around) > _DEEPEST:
            self._say("too-deep", path, "tables and lists stand too deep inside one another; write them flatter")
            return None
        around = (*around, id(value))
        if not table:
            return [self.value(one, f"{path}[{at}]", around) for at, one in enumerate(value)]
        fields: dict[str | None, Any] = {}
        for name in value.keys():  # noqa: SIM118  a mapping is whatever has keys
            if isinstance(name, str):
                below = f"{path}.{name}" if path else str(name)
                fields[self._text(str(name), below)] = self.value(value[name], below, around)
            else:
                self._say("wrong-type", path, f"`{name!r}` is no name of a field, which is a text")
        return fields

    def _text(self, text: str, path: str) -> str | None:
        try:
            text.encode()
        except UnicodeEncodeError:
            self._say("not-text", path, "this is text with half a character, a lone surrogate; write plain text")
            return None
        return text

    def _object(self, value: Any, path: str) -> str | None:
        """A quantity, a decimal or a date as a document has it: as text."""
        kind: Any = type(value)
        if hasattr(value, "magnitude"):
            try:
                text = _pint.text(value)
            except QuestionTypeError as error:
                self._say("wrong-type", path, error.message)
                return None
            if text is not None:
                return text
        if isinstance(value, (bytes, bytearray)) or hasattr(kind, "__iter__") or kind.__str__ is object.__str__:
            what = f"a value of type `{kind.__name__}` has no place in a description"
            self._say("wrong-type", path, f"{what}; write a text, a number, a list or a mapping")
            return None
        return self._text(str(value), path)
