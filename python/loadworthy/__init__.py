"""Whether every part of an electrical path is fit to carry what it is asked to carry.

Questions are functions with keywords; quantities are texts with units or objects; answers are exact::

    >>> import loadworthy as lw
    >>> answer = lw.ampacity(size="8 AWG", material="copper", insulation="THHN", terminals="75 °C")
    >>> answer
    <Answer ampacity: 50 A, governed by terminals>
    >>> answer.value
    Decimal('50')

Sites are described in TOML, JSON or mappings, and judged as a whole: see `Site` and `check`. Nobody is told "safe" by
omission: an outcome is one of the words of `Outcome`, and "cannot tell" is one of them.

This work can kill. Electricity and engine exhaust kill; local codes and the authority having jurisdiction decide;
connection to premises wiring is work for licensed people; an answer covers only what was stated.
"""

from loadworthy._core import (
    VERSION as __version__,
)
from loadworthy._core import (
    Acceptance,
    Amperes,
    Answer,
    Celsius,
    CubicMillimeters,
    Hertz,
    Meters,
    Ohms,
    OhmsPerLength,
    Ratio,
    Seconds,
    SquareMillimeters,
    VoltAmperes,
    Volts,
    WattHours,
    Watts,
    WireSize,
    ampacity,
    continuous_load,
    cord_ampacity,
    dwelling_service,
    equipment_grounding,
    grounding_electrode,
    overcurrent_device,
    plug_fit,
    size_box,
    size_circuit,
    size_cord,
    size_kit,
    size_motor,
    size_raceway,
    size_solve,
    voltage_drop,
)
from loadworthy._errors import (
    Error,
    InputError,
    Problem,
    QuantityError,
    QuantityTypeError,
    QuestionError,
    QuestionTypeError,
)

#: What is read when it is first asked for: not everybody needs it, and it takes longer to read than all the rest.
_LATER = {
    "ColumnError": "_columns",
    "JudgedCircuits": "_core",
    "judge_circuits": "_columns",
    "Site": "_site",
    "check": "_site",
    "plan": "_site",
    "sequence": "_site",
    "size": "_site",
    "Finding": "_reports",
    "Findings": "_reports",
    "Plan": "_reports",
    "Question": "_reports",
    "Report": "_reports",
    "Switching": "_reports",
    "Outcome": "_outcome",
    "Gap": "_views",
    "Place": "_views",
    "Step": "_views",
}

TYPE_CHECKING = False
if TYPE_CHECKING:
    from loadworthy._columns import ColumnError, judge_circuits
    from loadworthy._core import JudgedCircuits
    from loadworthy._outcome import Outcome
    from loadworthy._reports import Finding, Findings, Plan, Question, Report, Switching
    from loadworthy._site import Site, check, plan, sequence, size
    from loadworthy._views import Gap, Place, Step

__all__ = [
    "Acceptance",
    "Amperes",
    "Answer",
    "Celsius",
    "ColumnError",
    "CubicMillimeters",
    "Error",
    "Finding",
    "Findings",
    "Gap",
    "Hertz",
    "InputError",
    "JudgedCircuits",
    "Meters",
    "Ohms",
    "OhmsPerLength",
    "Outcome",
    "Place",
    "Plan",
    "Problem",
    "QuantityError",
    "QuantityTypeError",
    "Question",
    "QuestionError",
    "QuestionTypeError",
    "Ratio",
    "Report",
    "Seconds",
    "Site",
    "SquareMillimeters",
    "Step",
    "Switching",
    "VoltAmperes",
    "Volts",
    "WattHours",
    "Watts",
    "WireSize",
    "__version__",
    "ampacity",
    "check",
    "continuous_load",
    "cord_ampacity",
    "dwelling_service",
    "equipment_grounding",
    "grounding_electrode",
    "judge_circuits",
    "overcurrent_device",
    "plan",
    "plug_fit",
    "sequence",
    "size",
    "size_box",
    "size_circuit",
    "size_cord",
    "size_kit",
    "size_motor",
    "size_raceway",
    "size_solve",
    "voltage_drop",
]


def __getattr__(name: str) -> object:
    if name not in _LATER:
        raise AttributeError(f"module 'loadworthy' has no attribute {name!r}")
    from importlib import import_module

    found = getattr(import_module(f"loadworthy.{_LATER[name]}"), name)
    globals()[name] = found
    return found


def __dir__() -> list[str]:
    return [*__all__]
