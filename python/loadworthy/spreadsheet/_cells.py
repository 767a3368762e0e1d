"""What stands in a cell, and what it states; nothing is guessed."""

from __future__ import annotations

import math
import re

from loadworthy.spreadsheet._columns import WORDS, unit_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import Any, Final

_NUMBER: Final = re.compile(r"([+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+))\s*(.*)", re.DOTALL)

#: A binary floating-point number holds every decimal of so many digits.
_DIGITS: Final = 15


class Unread:
    """A cell whose value cannot be used, and why; `merged` where another holds what it shows."""

    __slots__ = ("merged", "why")

    def __init__(self, why: str, merged: bool = False) -> None:
        self.why = why
        self.merged = merged

    @classmethod
    def merged_with(cls, anchor: str) -> Unread:
        """A cell that is merged with another."""
        return cls(f"is merged with {anchor}; write the value in every row", merged=True)


def column(name: str, values: Sequence[object]) -> list[Any]:
    """What the cells of a column state: nearly all hold a number, or one of a few words, and need no second look."""
    if name in WORDS:
        words = {text: stated(name, text) for text in {value for value in values if type(value) is str}}
        return [words[value] if type(value) is str else stated(name, value) for value in values]
    # What is left of a number that is not finite, less itself, is no zero.
    return [value if type(value) is float and value - value == 0 else stated(name, value) for value in values]


def unread(read: Mapping[str, Sequence[Any]]) -> dict[int, str]:
    """The rows with cells that cannot be used, and why."""
    found: dict[int, str] = {}
    for name, values in read.items():
        for row, value in enumerate(values):
            if type(value) is Unread:
                said = f"`{name}` {value.why}"
                found[row] = f"{found[row]}; {said}" if row in found else said
    return found


def stated(name: str, value: object) -> float | str | Unread | None:
    """What a cell of the column of that name states: a number, a word, nothing, or why it cannot be read."""
    if isinstance(value, str):
        value = value.strip() or None
    if value is None or isinstance(value, Unread):
        return value
    if not isinstance(value, (str, bool, int, float)):
        # Spreadsheets know no other kinds; programs that read them make dates of some cells.
        return Unread("holds a date or a time" if hasattr(value, "isoformat") else f"holds a {type(value).__name__}")
    return _word(name, value) if name in WORDS else _number(name, value)


def _word(name: str, value: float | str | bool) -> str | Unread:
    if isinstance(value, bool):
        if name == "thermal_insulation":
            return "yes" if value else "no"
        return Unread(f"holds {str(value).upper()}, where a word belongs")
    if isinstance(value, (int, float)):
        return Unread(f"holds the number {value:.15g}, where text belongs{_with_unit(name, value)}")
    return value


def _with_unit(name: str, value: float) -> str:
    return f' such as "{value:.15g} AWG"' if name == "size" else ""


def _number(name: str, value: float | str | bool) -> float | Unread:
    if isinstance(value, bool):
        return Unread(f"holds {str(value).upper()}, where a number belongs")
    if isinstance(value, (int, float)):
        if isinstance(value, int) and abs(value) >= 10**_DIGITS:
            return Unread("holds a number that is too long to be exact")
        return float(value) if math.isfinite(value) else Unread("holds no finite number")
    found = _NUMBER.fullmatch(value)
    if found is None:
        return Unread(f"holds the text `{value[:60]}`, where a number belongs")
    digits, unit = found.groups()
    wanted = unit_of(name)
    if unit and unit != wanted:
        column = f"its column is in {wanted}" if wanted else "its column counts"
        return Unread(f"holds `{value[:60]}`, but {column}; convert it")
    if len(digits.strip("+-").replace(".", "").lstrip("0")) > _DIGITS:
        return Unread("holds a number with more digits than are kept")
    return float(digits)
