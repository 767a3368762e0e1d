"""What a cell function gives: a number in its unit, or a text that says why there is none."""

from __future__ import annotations

from loadworthy import _core
from loadworthy._errors import Error

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Any

    from loadworthy import Answer


class NotStated(Exception):
    """What a cell does not say."""


def figure(question: str, unit: str, stated: Sequence[Any]) -> float | str:
    """The answer as a number in its unit; a text where there is none."""
    try:
        answer = _asked(question, stated)
    except (Error, NotStated) as error:
        return str(error)
    if answer.value is None:
        return _said(answer)
    if answer.unit != unit:
        return f"the answer is in {answer.unit}, not in {unit}: {_said(answer)}"
    return float(answer.value)


def spoken(question: str, stated: Sequence[Any]) -> str:
    """The answer in words, such as `50 A`."""
    try:
        return _said(_asked(question, stated))
    except (Error, NotStated) as error:
        return str(error)


def working(question: str, stated: Sequence[Any]) -> str:
    """The answer with its working, sections and cautions."""
    try:
        return str(_asked(question, stated)).strip()
    except (Error, NotStated) as error:
        return str(error)


def _said(answer: Answer) -> str:
    if answer.text is not None:
        return answer.text
    gap = answer.gap
    return f"cannot tell {gap.what}: {gap.why}" if gap else "cannot tell"


def _asked(question: str, stated: Sequence[Any]) -> Answer:
    if len(stated) % 2:
        raise NotStated("after the first arguments come pairs: the name of a keyword, then its value")
    pairs = list(zip(stated[::2], stated[1::2], strict=True))
    if unnamed := [name for name, _ in pairs if not isinstance(name, str)]:
        raise NotStated(f"the name of a keyword belongs where `{_text(unnamed[0])}` stands")
    edition = next((value for name, value in pairs if name == "edition"), None)
    options = [(name, _value(name, value)) for name, value in pairs if name != "edition"]
    # By the name of the function of the package, or by that of the command.
    question = dict(_core.QUESTIONS).get(str(question), str(question))
    return _core.ask(question, options, None if edition is None else str(edition))


def _value(name: str, value: Any) -> Any:
    """What a cell says; several cells say several values."""
    if isinstance(value, tuple):
        return [_value(name, one) for row in value for one in (row if isinstance(row, tuple) else (row,))]
    # A fact that a formula points at, and that is not there, is missing; it is not assumed.
    if value is None or value == "":
        raise NotStated(f"cannot tell: `{name}` points at an empty cell")
    return _text(value)


def _text(value: Any) -> str:
    return repr(value).removesuffix(".0") if isinstance(value, float) else str(value)
