"""Tables of circuits: a row a circuit, from anything that speaks Arrow."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from importlib import import_module
from operator import index
from typing import Any

from loadworthy._core import Acceptance, JudgedCircuits, judge_columns
from loadworthy._errors import Error, QuestionError, QuestionTypeError

#: More threads than any computer has processors are of no use.
_MOST_THREADS = 1024


class ColumnError(Error, ValueError):
    """Columns that are not those of circuits: unknown, missing, of a wrong type; all `problems` at once."""

    def __init__(self, problems: list[str]) -> None:
        super().__init__(problems)
        #: A line each.
        self.problems = tuple(problems)

    def __str__(self) -> str:
        return "\n".join(self.problems)


def judge_circuits(
    table: Any,
    *,
    edition: str | None = None,
    accept: Acceptance | None = None,
    carry: Iterable[str] = (),
    threads: int = 1,
    figures: bool = True,
    progress: Callable[[int], object] | None = None,
) -> JudgedCircuits:
    """Judges every row of a table as one circuit; gives a table of answers, row for row.

    `table` is anything with ``__arrow_c_stream__`` or ``__arrow_c_array__`` (a pyarrow table, a polars or pandas frame, a
    DuckDB relation), or a mapping of names to numpy arrays or lists, for which pyarrow or polars must be installed. The
    labels that pandas hands over unasked (``__index_level_0__``, of rows that were filtered, sorted or joined) are left
    out unless they are carried; an index with a name is a column.

    Columns, whose names carry the units:

    - required: material, size ("12 AWG"), insulation or cable, load_continuous_a, load_other_a, device_a;
    - assumed where left out: installation, place (dry), terminals (unmarked), ambient_c or ambient_f (30 °C),
      current_carrying (3), device_kind (breaker), continuous_rating (80 %);
    - for the drop: voltage_v, circuit (two-wire, three-phase), length_ft or length_m; judged with drop_limit_percent;
    - told where known: supplies (several-receptacles, other), thermal_insulation (yes, no).

    Numbers may be float64, float32, whole numbers or decimal128. A floating-point number stands for the short decimal that
    it is nearest to; where there is none, the row says so. A null is a missing fact: that row cannot be judged.

    The answers: verdict ("holds", "fails", "cannot tell"), decided_by, status (0 where all was judged) and its reason, a
    verdict for each check, and the figures ampacity_a, least_device_a, largest_device_a, drop_v, drop_percent (null above
    100,000 %) with what governs them. No verdict is taken from a figure: every verdict is exact, and is that of the
    circuit alone.

    Args:
        table: the circuits.
        edition: nec-2017, nec-2020 or nec-2023; the newest where nothing is said.
        accept: cells that somebody has read in the book and accepts.
        carry: columns to carry along as they are, such as an identifier; a column of the above among them is read all
            the same. Any other unknown column is an error. A column that is carried shares the memory of the table: who
            changes a numpy array later changes it there too.
        threads: how many threads to use; the interpreter's lock is released.
        figures: whether to give the figures as well; verdicts and reasons alone take a quarter of the memory.
        progress: called from time to time with the count of rows that are done; what it raises ends the work.

    Raises ColumnError with everything that is wrong with the columns, QuestionError for another argument.
    Source: NEC 210.19(A)(1), 210.20(A), 240.4, 310.16, 310.15, 110.14(C); Chapter 9 Table 8.
    """
    if progress is not None and not callable(progress):
        raise QuestionTypeError(f"progress: a value of type `{type(progress).__name__}` is not called", "progress")
    if isinstance(table, Mapping):
        table = _arrow_of(table)
    judged = judge_columns(table, edition, accept, _names(carry), _count(threads), figures, progress)
    if judged is None:
        # What is worked out or read when somebody asks for it, where that has a known name.
        later = next((f"; `{name}()` makes one of it" for name in ("collect", "to_table") if hasattr(table, name)), "")
        raise QuestionTypeError(
            f"a value of type `{type(table).__name__}` is no table{later}; give one with __arrow_c_stream__, such as a "
            "pyarrow table or a polars frame, or a mapping of columns",
            "table",
        )
    return judged


def _count(threads: Any) -> int:
    """A count of threads; whole numbers of other libraries count too."""
    try:
        count = 0 if isinstance(threads, bool) else index(threads)
    except TypeError:
        count = 0
    if count < 1:
        raise QuestionError(f"threads: `{threads!r}` is not a count of threads; write a whole number from 1", "threads")
    return min(count, _MOST_THREADS)


def _names(carry: Any) -> list[str]:
    """The names to carry along, each once."""
    names = [carry] if isinstance(carry, str) else list(carry) if isinstance(carry, Iterable) else [carry]
    for name in names:
        if not isinstance(name, str):
            kind = type(name).__name__
            raise QuestionTypeError(f"carry: a value of type `{kind}` is not the name of a column", "carry")
    return list(dict.fromkeys(names))


def _arrow_of(columns: Mapping[str, Any]) -> Any:
    """A mapping as a table of whichever library is there; numpy arrays are taken as they are."""
    for library, make in (("pyarrow", "table"), ("polars", "DataFrame")):
        try:
            found = import_module(library)
        except ImportError:
            continue
        return getattr(found, make)(dict(columns))
    raise ImportError("a mapping of columns is read through pyarrow or polars; install one of them")
