"""How long the macro that checks circuits takes in LibreOffice, beside one that copies cells and judges nothing.

    /usr/bin/python3 benches/libreoffice.py PACKAGE [ROWS]

Runs in the Python of LibreOffice; PACKAGE is the folder of the installed package, such as
`.venv/lib/python3.11/site-packages/loadworthy`. Prints ratios of one run. The macro beside it is what one writes first: it
reads the cells of a row one by one and writes twelve results; nothing is judged, marked or noted.
"""

import os
import shutil
import signal
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "tests" / "python" / "door" / "spreadsheet"))
import in_office

HEADING = ("material", "size", "insulation", "load_continuous_a", "load_other_a", "device_a", "supplies")

MACROS = """
import time
from loadworthy.libreoffice import _circuits


def timed(document, rows, cell_by_cell, most_notes):
    sheet = document.Sheets.getByIndex(0)
    area = sheet.getCellRangeByPosition(0, 0, 6, rows)
    start = time.perf_counter()
    if cell_by_cell:
        for row in range(1, rows + 1):
            for column in range(7):
                cell = sheet.getCellByPosition(column, row)
                cell.String if column in (0, 1, 2, 6) else cell.Value
            for column in range(20, 27):
                sheet.getCellByPosition(column, row).String = "holds"
            for column in range(27, 32):
                sheet.getCellByPosition(column, row).Value = 20
    else:
        _circuits.check(document, area, None, most_notes)
    return time.perf_counter() - start
"""


def main(package, rows):
    with tempfile.TemporaryDirectory() as folder:
        scripts = Path(folder) / "user" / "Scripts" / "python"
        shutil.copytree(package, scripts / "pythonpath" / "loadworthy", ignore=shutil.ignore_patterns("__pycache__"))
        (scripts / "loadworthy_macros.py").write_text(MACROS, encoding="utf-8")
        process, context = in_office.started(folder)
        try:
            session = in_office.Session(context)
            session.open()
            # The first call loads the package.
            measured(session, 10, 0, False, 0)
            beside = measured(session, rows, 0, True, 0)
            print(f"{rows} circuits, one run")
            print(f"{'cell by cell, nothing judged':44} {beside / rows * 1e6:8.1f} us a row")
            for name, every, notes in (
                ("all hold", 0, 500),
                ("every tenth fails, no notes", 10, 0),
                ("every tenth fails, 500 notes", 10, 500),
            ):
                seconds = measured(session, rows, every, False, notes)
                print(f"{name:44} {seconds / rows * 1e6:8.1f} us a row  {seconds / beside:6.2f} of cell by cell")
        finally:
            os.killpg(process.pid, signal.SIGKILL)
            process.wait()


def measured(session, rows, every, cell_by_cell, notes):
    session.open()
    lines = [
        ("copper", "12 AWG", "THWN-2", 16.1 if every and row % every == 0 else 16, 0, 20, "other")
        for row in range(rows)
    ]
    session.document.Sheets.getByIndex(0).getCellRangeByPosition(0, 0, 6, rows).setDataArray((HEADING, *lines))
    found = session.macro("timed", "document", rows, cell_by_cell, notes)
    session.document.close(True)
    return found


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 5_000)
