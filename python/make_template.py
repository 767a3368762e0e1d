"""Makes the workbook that ships with the package from the list of columns; needs openpyxl.

python python/make_template.py [FILE]
"""

from __future__ import annotations

import datetime
import sys
from pathlib import Path

from loadworthy.spreadsheet._columns import CHECKS, RESULTS, STATED, WORDS, unit_of
from loadworthy.spreadsheet._judged import CAUTION
from openpyxl import Workbook
from openpyxl.styles import Alignment, Font, PatternFill
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation

PLACE = Path(__file__).parent / "loadworthy/spreadsheet/template.xlsx"

#: What each column states.
EXPLAINED = {
    "material": "The material of the conductors. Required.",
    "size": 'The size of the conductors: "12 AWG", "1/0 AWG", "250 kcmil". Required.',
    "insulation": "The insulation, as it is printed on the conductor. This or `cable` is required.",
    "cable": "The cable that the conductors lie in; empty where they lie in none.",
    "installation": "How the conductors lie. Without this column: in a raceway, or in the cable that is named.",
    "place": "The kind of place. Without this column: dry.",
    "thermal_insulation": "Whether the cable lies in thermal insulation. Asked for only where it decides.",
    "terminals": "The lower temperature mark of the terminals. Without this column: unmarked, 110.14(C)(1).",
    "ambient": "The temperature around the conductors. Without this column: 30 °C (86 °F), the base of the table.",
    "current_carrying": "How many conductors carry current in the raceway or cable. Without this column: 3.",
    "load_continuous": "The part of the load that lasts three hours or more. Required; 0 where there is none.",
    "load_other": "The rest of the load. Required; 0 where there is none.",
    "device": "The rating of the overcurrent device. Required.",
    "device_kind": "The kind of the overcurrent device. Without this column: a breaker.",
    "continuous_rating": "Whether the device is listed for 100 % of its rating. Without this column: it is not.",
    "supplies": "What the circuit supplies. Asked for only where it decides, 240.4(B).",
    "voltage": "The voltage, between lines where there are two. Required for the voltage drop.",
    "circuit": "The conductors that drop voltage: there and back, or three balanced phases. Required for the drop.",
    "length": "The length of the circuit, one way. Required for the drop.",
    "drop_limit": "The voltage drop that is accepted. Without this column the drop is given and not judged.",
}

#: What is written beside the circuits.
WRITTEN = {
    "verdict": "How the circuit ends: holds, fails, or cannot tell, which is no pass: a fact is missing.",
    "why": "Why it does not hold.",
    "conductor_ampacity": "The load is within the ampacity of the conductor in its conditions.",
    "continuous_load_on_conductor": "The conductor before correction and adjustment suits the continuous load.",
    "continuous_load_on_device": "The device suits the continuous load.",
    "breaker_protects_conductor": "The device is not too large for the conductor.",
    "voltage_drop": "The voltage drop is within its limit.",
    "ampacity_a": "The ampacity of the conductor in its conditions.",
    "least_device_a": "The smallest standard device for the load.",
    "largest_device_a": "The largest device that protects the conductor.",
    "drop_v": "The voltage drop, rounded up.",
    "drop_percent": "The voltage drop as a share of the voltage, rounded up.",
}

#: Columns of the sheet to fill in, `name` being the user's own, with a circuit that holds, one that fails for its
#: device, and one of which nothing can be said since its size is missing.
EXAMPLES = {
    "name": ("kitchen", "water heater", "pump"),
    "material": ("copper", "copper", "copper"),
    "size": ("12 AWG", "12 AWG", None),
    "insulation": ("THWN-2", "THWN-2", "THWN-2"),
    "cable": (None, None, None),
    "installation": ("raceway", "raceway", "raceway"),
    "place": ("dry", "dry", "wet"),
    "terminals": ("75 °C", "75 °C", "75 °C"),
    "ambient_f": (86, 86, 95),
    "current_carrying": (2, 2, 3),
    "load_continuous_a": (12, 19, 8),
    "load_other_a": (4, 0, 0),
    "device_a": (20, 30, 20),
    "supplies": ("several-receptacles", "other", "other"),
    "voltage_v": (120, 240, 208),
    "circuit": ("two-wire", "two-wire", "three-phase"),
    "length_ft": (50, 40, 120),
    "drop_limit_percent": (3, 3, 3),
}

#: Rows that the lists to choose from reach down to.
ROWS = 1000

HEADING = PatternFill("solid", fgColor="FFDDEBF7")


def made() -> Workbook:
    """The workbook."""
    workbook = Workbook()
    # The date of making would change the file whenever it is made anew.
    workbook.properties.created = workbook.properties.modified = datetime.datetime(2024, 1, 1)
    workbook.properties.creator = "Loadworthy"
    circuits = workbook.active
    circuits.title = "Circuits"
    for column, (name, values) in enumerate(EXAMPLES.items(), 1):
        _column(circuits, column, [name, *values])
    for column, name in enumerate(RESULTS, len(EXAMPLES) + 1):
        _column(circuits, column, [name])
    circuits.freeze_panes = "B2"
    _words(workbook, circuits)
    _explained(workbook.create_sheet("Columns"))
    return workbook


def _column(sheet, column: int, values: list) -> None:
    for row, value in enumerate(values, 1):
        sheet.cell(row, column, value)
    sheet.cell(1, column).font = Font(bold=True)
    sheet.cell(1, column).fill = HEADING
    sheet.column_dimensions[get_column_letter(column)].width = max(11, len(values[0]) + 2)


def _words(workbook: Workbook, circuits) -> None:
    """The lists to choose words from, on a sheet of their own: some are longer than a rule may be."""
    words = workbook.create_sheet("Words")
    listed = [name for name in EXAMPLES if STATED.get(name)]
    for column, name in enumerate(listed, 1):
        _column(words, column, [name, *STATED[name]])
        letter = get_column_letter(column)
        rule = DataValidation("list", formula1=f"Words!${letter}$2:${letter}${len(STATED[name]) + 1}", allow_blank=True)
        rule.error, rule.errorTitle = "Choose a word of the list.", name
        _applied(circuits, rule, name)
    for name in EXAMPLES:
        if name in STATED and name not in WORDS:
            least = "-60" if name.startswith("ambient") else "0"
            rule = DataValidation("decimal", operator="greaterThanOrEqual", formula1=least, allow_blank=True)
            rule.error, rule.errorTitle = f"Write a number{_in(name)}.", name
            _applied(circuits, rule, name)


def _applied(sheet, rule: DataValidation, name: str) -> None:
    letter = get_column_letter(list(EXAMPLES).index(name) + 1)
    sheet.add_data_validation(rule)
    rule.add(f"{letter}2:{letter}{ROWS}")


def _in(name: str) -> str:
    unit = unit_of(name)
    return f" in {unit}" if unit else ""


def _explained(sheet) -> None:
    lines = [
        ("Caution", CAUTION),
        (
            "How to use",
            "One circuit a row on the sheet Circuits; write over the examples. Columns of your own may stand between.",
        ),
        ("", "An empty cell in a column is a fact that is missing. A column that is left out is assumed as said here."),
        ("", "Check it with: python -m loadworthy.spreadsheet FILE"),
        ("", ""),
        ("Column", "What it states"),
    ]
    for name in STATED:
        field = name if name in EXPLAINED else name.rsplit("_", 1)[0]
        lines.append(
            (name, EXPLAINED[field] + (f" In {unit_of(name)}." if name not in WORDS and unit_of(name) else ""))
        )
    lines += [("", ""), ("Result", "What it says")]
    lines += [
        (name, WRITTEN[name] + (" holds, fails, cannot tell, not asked." if name in CHECKS else "")) for name in RESULTS
    ]
    for row, (name, text) in enumerate(lines, 1):
        sheet.cell(row, 1, name).font = Font(bold=True)
        sheet.cell(row, 2, text).alignment = Alignment(wrap_text=True, vertical="top")
    sheet.column_dimensions["A"].width, sheet.column_dimensions["B"].width = 30, 110


if __name__ == "__main__":
    made().save(sys.argv[1] if len(sys.argv) > 1 else PLACE)
