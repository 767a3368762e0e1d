"""Somebody's own order of switching: steps from a file, a text, a list or a mapping."""

from __future__ import annotations

import json
import os

from loadworthy._errors import QuestionTypeError

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Any


def read(steps: Any) -> tuple[str, str]:
    """The name that problems carry, and the text of the steps."""
    if isinstance(steps, os.PathLike) or (isinstance(steps, str) and "\n" not in steps):
        with open(steps, encoding="utf-8") as stream:
            return os.fspath(steps), stream.read()
    if isinstance(steps, str):
        return "steps", steps
    if hasattr(steps, "keys"):
        return "steps", _written(steps)
    if hasattr(steps, "__iter__") and not isinstance(steps, (bytes, bytearray)):
        return "steps", _written({"step": list(steps)})
    raise QuestionTypeError(
        f"verify: steps are a path, a text, a list or a mapping, not a value of type `{type(steps).__name__}`", "verify"
    )


def _written(steps: Mapping[str, Any]) -> str:
    """A document of steps, a line a field, so that a problem has a line of its own."""
    return "".join(f"{_value(name)} = {_value(value, top=True)}\n" for name, value in steps.items())


def _value(value: Any, top: bool = False) -> str:
    if hasattr(value, "keys"):
        return "{ " + ", ".join(f"{_value(str(name))} = {_value(one)}" for name, one in value.items()) + " }"
    if isinstance(value, (list, tuple)):
        between = ",\n  " if top else ", "
        return "[" + between.join(map(_value, value)) + "]"
    if isinstance(value, (str, bool, int)):
        # What JSON writes of these TOML reads as the same.
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    raise QuestionTypeError(f"verify: a value of type `{type(value).__name__}` has no place in steps", "verify")
