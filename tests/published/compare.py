#!/usr/bin/env python3
"""Compares core/data, cell by cell, with the second copy of the published tables beside this file.

Prints every difference, then `N cells compared, M differ`. Exits 1 on a difference, on a table that nobody compares,
and on a grade that does not fit its row.
"""

import csv
import math
import re
import sys
from pathlib import Path

import second_copy

DATA = Path(__file__).resolve().parents[2] / "core" / "data"

# Tables without a second copy, and why that is so.
SINGLE = {
    "nec/ambient-correction-40c": "recalculated from the printed formula below",
    "nec/rooftop-addition": "a rule in words; no table was printed",
    "nec/box-volume": "too few figures; each row carries its own grade",
    "nec/boxes": "too few figures; each row carries its own grade",
    "nec/raceway-fill": "four figures; each row carries its own grade",
    "nec/raceway-dimensions": "recalculated from the diameters below",
    "nec/insulated-conductor-dimensions": "recalculated from conductor and wall below",
    "nec/compact-conductor-dimensions": "recalculated from the diameters below",
    "nec/connection-limits": "single figures read after the second copy was made; each row carries its own grade",
    "nec/generator-shutdown": "duties in words; each row carries its own grade",
    "nec/sections": "section numbers; each row carries its own grade",
}
# Rows that only core/data has, inside tables that are compared.
EXTRA_ROWS = {"nec/rule-factors"}


# Rules whose text was read after the second copy was made: from memory there, from two texts in core/data, which the
# `# source:` lines of the file name.
RAISED = {"nec/next-size-up", "nec/cables"}


def load(path):
    """The graded columns and the rows of a table of core/data."""
    lines = path.read_text(encoding="utf-8").splitlines()
    table = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    named = [line.removeprefix("# graded: ").split(", ") for line in lines if line.startswith("# graded: ")]
    return table, named[0] if named else None


def grades(name, table, graded):
    """The grade of every graded cell, row by row, and the rows whose grade does not fit."""
    by_row, problems = [], []
    for row in table:
        *columns, _ = row
        # Without a `# graded:` line the marks belong to the last columns; a single mark grades the whole row.
        columns = graded or columns[-len(row["grade"]):]
        whole = len(row["grade"]) == 1
        marks = dict(zip(columns, row["grade"] * len(columns) if whole else row["grade"]))
        fits = whole or len(row["grade"]) == len(columns) and all((row[c] == "") == (g == "-") for c, g in marks.items())
        if not fits or not row["grade"] or set(row["grade"]) - set("2p1cm-"):
            problems.append(f"{name}: grade `{row['grade']}` does not fit the row {list(row.values())}")
        by_row.append(marks)
    return by_row, problems


def compare(name, keys, second):
    """The number of cells compared and the differences of one table."""
    table, graded = load(DATA / f"{name}.csv")
    marks, problems = grades(name, table, graded)
    ours = {tuple(row[k] for k in keys): (row, g) for row, g in zip(table, marks)}
    if len(ours) != len(table):
        problems.append(f"{name}: a key stands twice")
    theirs = dict(second())
    for key in theirs.keys() - ours.keys():
        problems.append(f"{name} {key}: missing in core/data")
    for key in ours.keys() - theirs.keys():
        if name not in EXTRA_ROWS:
            problems.append(f"{name} {key}: not in the second copy")
    cells = 0
    for key in ours.keys() & theirs.keys():
        row, own_grades = ours[key]
        for column, (value, mark) in theirs[key].items():
            cells += 1
            # A grade of None: the second copy grades nothing there.
            raised = mark == "m" and own_grades.get(column) == "2" and name in RAISED
            if row[column] != value or (mark is not None and own_grades.get(column) != mark and not raised):
                problems.append(f"{name} {key} {column}: core/data has `{row[column]}` graded {own_grades.get(column)}, "
                                f"the second copy `{value}` graded {mark}")
    return cells, problems


def formula_40c():
    """Every factor equals sqrt((Tc - Ta) / (Tc - 40)) to two decimals."""
    table, _ = load(DATA / "nec/ambient-correction-40c.csv")
    cells, problems, last = 0, [], None
    for row in table:
        # Bands of whole degrees leave no gap; the Fahrenheit edge is the Celsius edge, converted.
        edges = [row[f"ambient_{unit}_to"] for unit in "cf"]
        starts = [row[f"ambient_{unit}_from"] for unit in "cf"]
        if int(edges[1]) != int(edges[0]) * 9 // 5 + 32 or starts != (["", ""] if last is None else last):
            problems.append(f"nec/ambient-correction-40c to {edges[0]} °C: the band does not join the one before")
        last = [str(int(edge) + 1) for edge in edges]
        for column, text in row.items():
            rated = re.fullmatch(r"factor_(\d+)c", column)
            if rated and text:
                cells += 1
                tc, ta = int(rated[1]), int(row["ambient_c_to"])
                if ta >= tc or abs(math.sqrt((tc - ta) / (tc - 40)) - float(text)) > 0.005:
                    problems.append(f"nec/ambient-correction-40c to {ta} °C {column}: {text} is not what the formula gives")
    return cells, problems


def circles():
    """Every area of Chapter 9 Tables 4, 5 and 5A is that of its diameter; every diameter of Table 5 that of the stranded
    conductor of Table 8 and the wall of its insulation, in thousandths of an inch, by the size from which a wall holds."""
    walls = {"thhn": {"14": 19, "10": 24, "8": 35, "4": 46, "1": 57, "250": 68, "600": 79},
             "xhhw": {"14": 30, "8": 45, "1": 55, "250": 65, "600": 80},
             "thw": {"14": 30, "8": 45, "6": 60, "1": 80, "250": 95, "600": 110}}
    properties, _ = load(DATA / "nec/conductor-properties.csv")
    bare = {r["size"]: float(r["overall_diameter_in"]) for r in properties}
    cells, problems = 0, []
    for name in ("raceway-dimensions", "insulated-conductor-dimensions", "compact-conductor-dimensions"):
        table, _ = load(DATA / f"nec/{name}.csv")
        wall = {}
        for row in table:
            key = next(iter(row.values()))
            for column in [c for c in row if c.endswith("diameter_in") and row[c]]:
                family = column.split("_")[0]
                diameter, printed = float(row[column]), row[column.replace("internal_diameter_in", "area_in2").replace("diameter_in", "area_in2")]
                cells += 2
                area, last = math.pi / 4 * diameter**2, 10 ** -len(printed.split(".")[1])
                if abs(area - float(printed)) > max(1.1 * last, area * 2e-4):
                    problems.append(f"nec/{name} {key}: {printed} is not the area of {row[column]}")
                if name.startswith("insulated"):
                    wall[family] = walls[family].get(key.split()[0], wall.get(family))
                    if abs(bare[key] + 2 * wall[family] / 1000 - diameter) > 0.0021:
                        problems.append(f"nec/{name} {key} {column}: {diameter} is not conductor and wall")
    return cells, problems


def main():
    cells, problems = formula_40c()
    more, wrong = circles()
    cells, problems = cells + more, problems + wrong
    for name, (keys, second) in second_copy.TABLES.items():
        more, wrong = compare(name, keys.split(), second)
        cells += more
        problems += wrong
    for name in SINGLE:
        table, graded = load(DATA / f"{name}.csv")
        problems += grades(name, table, graded)[1]
    # The rooms that this copy covers; other codes have their own.
    present = {f"{p.parent.name}/{p.stem}" for room in ("nec", "wd6", "iec60309") for p in (DATA / room).glob("*.csv")}
    for name in sorted(present - second_copy.TABLES.keys() - SINGLE.keys()):
        problems.append(f"{name}: nobody compares this table")
    for path in sorted(second_copy.HERE.glob("*.csv")):
        if path.stem not in second_copy.used:
            problems.append(f"tables/{path.name}: nobody compares this table")
    print(*problems, sep="\n", end="\n" if problems else "")
    print(f"{cells} cells compared, {len(problems)} differ")
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
