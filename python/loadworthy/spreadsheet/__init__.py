"""Workbooks of circuits, one a row, checked in place.

A sheet whose heading names its columns (`material`, `size`, `insulation`, `load_continuous_a` …; the names carry the
units) gets a verdict a row, the checks that it consists of, and the figures that decided; what does not hold is marked,
with a note that says why and by which section. `python -m loadworthy.spreadsheet FILE` does the same::

    import loadworthy.spreadsheet

    found = loadworthy.spreadsheet.check("circuits.xlsx")
    for row in found.rows("fails"):
        print(row, found.why[row])

`figure`, `spoken` and `working` answer one question for a cell, and `results` judges a list of rows: with them any
spreadsheet program that reaches Python gets the same answers. `template(path)` writes a workbook to begin with. What
reads workbooks needs lxml: `pip install loadworthy[spreadsheet]`.
"""

from __future__ import annotations

from loadworthy.spreadsheet._answers import figure, spoken, working
from loadworthy.spreadsheet._columns import CHECKS, FIGURES, RESULTS, STATED
from loadworthy.spreadsheet._errors import SheetError
from loadworthy.spreadsheet._judged import results

TYPE_CHECKING = False
if TYPE_CHECKING:
    import os

    from loadworthy.spreadsheet._check import Checked, check

__all__ = [
    "CHECKS",
    "FIGURES",
    "RESULTS",
    "STATED",
    "Checked",
    "SheetError",
    "check",
    "figure",
    "results",
    "spoken",
    "template",
    "working",
]


def template(path: str | os.PathLike[str]) -> None:
    """Writes the workbook that ships with the package: three examples, lists to choose words from, and explanations.

    Raises `FileExistsError` where there is a file already.
    """
    from importlib.resources import files
    from pathlib import Path

    content = files(__name__).joinpath("template.xlsx").read_bytes()
    try:
        with Path(path).open("xb") as file:
            file.write(content)
    except FileExistsError as error:
        what = "there is a file of this name already; give another name, or move it away"
        raise FileExistsError(error.errno, what, str(path)) from None


def __getattr__(name: str) -> object:
    # What reads workbooks needs lxml; the columns and the template do not.
    if name not in ("check", "Checked"):
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    try:
        found = getattr(import_module("loadworthy.spreadsheet._check"), name)
    except ModuleNotFoundError as error:
        if error.name != "lxml":
            raise
        advice = "workbooks are read through lxml, which is not installed: pip install 'loadworthy[spreadsheet]'"
        raise ModuleNotFoundError(advice, name="lxml") from None
    globals()[name] = found
    return found
