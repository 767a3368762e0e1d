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


def main():
    cells, problems = formula_40c()
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
