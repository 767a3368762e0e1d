"""`python -m loadworthy.spreadsheet`: checks a workbook from the command line."""

from __future__ import annotations

import argparse
import sys

from loadworthy import Acceptance, Error
from loadworthy.spreadsheet import template

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import NoReturn

_NOT_READ = 3


def run(arguments: Sequence[str] | None = None) -> int:
    """Runs the command and gives its exit status, as the command `loadworthy` does.

    0 every circuit holds, 1 one fails, 2 one cannot be told, 3 a workbook that could not be read, or wrong arguments.
    """
    asked = _parser().parse_args(arguments)
    try:
        if asked.template:
            template(asked.file)
            return 0
        from loadworthy.spreadsheet import check

        accept = Acceptance.load(asked.accept) if asked.accept else None
        found = check(asked.file, to=asked.to, sheet=asked.sheet, edition=asked.edition, accept=accept)
    except (Error, OSError, ImportError) as error:
        said = f"{error.filename}: {error.strerror}" if isinstance(error, OSError) and error.filename else error
        print(f"loadworthy: {said}", file=sys.stderr)
        return _NOT_READ
    for row, why in found.why.items():
        print(f"row {row} {found.verdicts[row]}: {why}")
    for row, why in found.no_circuits.items():
        print(f"row {row} is not a circuit: {why}")
    for assumed in found.assumed:
        print(f"assumed: {assumed}")
    print(found)
    return 1 if found.rows("fails") else 2 if found.rows("cannot tell") or not found.verdicts else 0


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        # The status that argparse has for this says here that a circuit cannot be told.
        self.print_usage(sys.stderr)
        self.exit(_NOT_READ, f"loadworthy: {message}\n")


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="python -m loadworthy.spreadsheet",
        description="Check a workbook with one circuit a row; results are written beside the circuits.",
    )
    parser.add_argument("file", help="the workbook, .xlsx or .xlsm")
    parser.add_argument("--to", metavar="FILE", help="write to another file; without it the workbook itself is written")
    parser.add_argument("--sheet", metavar="NAME", help="the sheet, where several hold circuits")
    parser.add_argument("--edition", help="the edition of the code: nec-2017, nec-2020 or nec-2023")
    parser.add_argument("--accept", metavar="FILE", help="a file of cells that you read in the book and accept")
    parser.add_argument(
        "--template", action="store_true", help="write a workbook with three examples to begin with, and check nothing"
    )
    return parser


if __name__ == "__main__":
    sys.exit(run())
