"""How long a workbook takes to be checked, beside reading it into objects and writing it back with a library.

    .venv/bin/python benches/spreadsheet.py [ROWS]

Prints ratios of one run: of every ten circuits one fails and has notes. The library neither judges anything nor keeps
what formulas came to; it is what somebody would use instead to write results into a workbook.
"""

import sys
import tempfile
import time
from pathlib import Path

import openpyxl
from loadworthy.spreadsheet import check, results

HEADING = ["material", "size", "insulation", "load_continuous_a", "load_other_a", "device_a", "supplies"]


def timed(what, *arguments):
    start = time.perf_counter()
    what(*arguments)
    return time.perf_counter() - start


def read_and_write(path):
    workbook = openpyxl.load_workbook(path)
    workbook.save(path.with_name("copy.xlsx"))


def main(rows):
    cells = [["copper", "12 AWG", "THWN-2", 16.1 if row % 10 == 0 else 16, 0, 20, "other"] for row in range(rows)]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "circuits.xlsx"
        workbook = openpyxl.Workbook(write_only=True)
        sheet = workbook.create_sheet("Circuits")
        for row in (HEADING, *cells):
            sheet.append(row)
        workbook.save(path)
        beside = timed(read_and_write, path)
        first = timed(check, path)
        again = timed(check, path)
    alone = timed(results, [HEADING, *cells])
    print(f"{rows} circuits, one run")
    for name, seconds in (
        ("first check", first),
        ("check again, with notes there", again),
        ("rows alone, no workbook", alone),
    ):
        print(f"{name:32} {seconds / rows * 1e6:8.1f} us a row  {seconds / beside:6.2f} of reading and writing")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20_000)
