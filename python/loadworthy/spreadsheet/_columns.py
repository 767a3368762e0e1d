"""The columns of a sheet: what a circuit states, and what is written beside it."""

from __future__ import annotations

from difflib import get_close_matches

from loadworthy import _core
from loadworthy.spreadsheet._errors import SheetError

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

#: Every column that states something: its name, and its words where it holds words of a closed list.
STATED: dict[str, tuple[str, ...]] = {name: tuple(words) for names, words in _core.circuit_columns() for name in names}

#: The columns that hold words; the others hold numbers in the unit that their name ends in.
WORDS = frozenset(name for name, words in STATED.items() if words) | {"size"}

#: The units that a column's name ends in, as they are written after a number.
UNITS = {
    "a": "A", "ma": "mA", "v": "V", "mv": "mV", "kv": "kV", "c": "°C", "f": "°F",
    "ft": "ft", "in": "in", "m": "m", "mm": "mm", "percent": "%",
}  # fmt: skip

#: The checks of a circuit, each with a column of its own: the slug with underscores.
CHECKS = (
    "conductor_ampacity",
    "continuous_load_on_conductor",
    "continuous_load_on_device",
    "breaker_protects_conductor",
    "voltage_drop",
)

#: The figures that a circuit is given.
FIGURES = ("ampacity_a", "least_device_a", "largest_device_a", "drop_v", "drop_percent")

#: What is written, from left to right.
RESULTS = ("verdict", "why", *CHECKS, *FIGURES)

#: What no sheet can be judged without, a column of each.
_NEEDED = (
    ("material",),
    ("size",),
    ("insulation", "cable"),
    ("load_continuous_a", "load_continuous_ma"),
    ("load_other_a", "load_other_ma"),
    ("device_a", "device_ma"),
)

#: How many columns a row must know to be the heading.
_ENOUGH = 3


def unit_of(name: str) -> str | None:
    """The unit of a column of numbers; `None` for a count."""
    return UNITS.get(name.rsplit("_", 1)[-1]) if "_" in name else None


def is_heading(names: Sequence[str]) -> bool:
    """Whether a row with these texts is the heading of a sheet of circuits."""
    known = {name for name in names if name in STATED}
    # A list of words to choose from has headings too, but none of a number.
    return len(known) >= _ENOUGH and not known <= WORDS


def placed(names: Mapping[int, str]) -> tuple[dict[str, int], dict[str, int]]:
    """The columns that state something and those for results, by name; the others are the user's own.

    A name that is nearly one of ours is an error: left out in silence, a check would be too.
    """
    stated: dict[str, int] = {}
    results: dict[str, int] = {}
    for column, name in names.items():
        if name in STATED or name in RESULTS:
            kept = stated if name in STATED else results
            if name in kept:
                raise SheetError(f"the heading `{name}` stands twice; give one of them another name")
            kept[name] = column
        elif advice := _meant(name):
            raise SheetError(f"the heading `{name}` is not known; {advice}, or give your own column another name")
    _ask_for_needed(stated, [name for name in names.values() if name not in stated and name not in results])
    return stated, results


def _ask_for_needed(stated: Mapping[str, int], own: Sequence[str]) -> None:
    """Where something is missing that decides, a heading that is only somewhat like it may be meant."""
    for needed in _NEEDED:
        if not any(name in stated for name in needed):
            plain = {_plain(name): name for name in own}
            for name in needed:
                for near in get_close_matches(name, plain, n=1, cutoff=0.6):
                    raise SheetError(f"the heading `{plain[near]}` is not known; did you mean `{name}`, which is missing?")


def _plain(name: str) -> str:
    return name.strip().lower().replace(" ", "_").replace("-", "_")


def _meant(name: str) -> str | None:
    plain = _plain(name)
    if plain in STATED:
        return f"write it `{plain}`"
    with_unit = [known for known in STATED if unit_of(known) and known.rsplit("_", 1)[0] == plain]
    if with_unit:
        return "its unit is missing: write " + " or ".join(f"`{known}`" for known in with_unit)
    near = get_close_matches(plain, STATED, n=1, cutoff=0.85)
    return f"did you mean `{near[0]}`?" if near else None
