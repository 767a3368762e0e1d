"""What a table of circuits costs, beside the same questions in what one would use instead, in one run.

    .venv/bin/python benches/columns.py [rows]

All of them read dictionary codes and doubles of one random table and find the same verdict: ampacity in its conditions, what
the continuous load needs, the device and the small conductor, the drop. The others trust every value and every code, and
answer less: those with decimals no figure, none of them which check decided. Where a line says "same answers" they do as much
as is done here: a row with a number that is none or out of its range is told apart, with its reason, and each row has its
checks, the one that decides, and the figures. None cites anything or checks a grade; those in doubles are wrong at limits,
which is counted. Times are ratios of processor time, of all threads together, each in the shortest of several rounds in which
all take turns: what else the machine does counts little.
"""

import csv
import ctypes
import math
import sys
import time
from decimal import ROUND_UP, Decimal
from pathlib import Path

import duckdb
import loadworthy as lw
import numpy as np
import polars as pl
import pyarrow as pa

ROWS = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000
SAMPLE, ROUNDS = 5_000, 9
DATA = Path(__file__).resolve().parents[1] / "core" / "data" / "nec"
SIZES = "12 AWG,10 AWG,8 AWG,6 AWG,4 AWG,3 AWG,2 AWG,1 AWG,1/0 AWG,2/0 AWG,3/0 AWG,4/0 AWG".split(",")
INSULATIONS, TERMINALS = ["THHN", "XHHW-2", "TW"], ["60 °C", "75 °C", "90 °C"]
COLUMN = {"THHN": 2, "XHHW-2": 2, "TW": 0}


def table(name):
    lines = [line for line in (DATA / f"{name}.csv").read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


def copper():
    ampacity = {row["size"]: [row[f"copper_{c}c_a"] for c in (60, 75, 90)] for row in table("ampacity-raceway")}
    # Of a solid and a stranded row the stranded one stands below.
    resistance = {row["size"]: row["copper_uncoated_ohm_per_kft"] for row in table("conductor-properties")}
    small = {row["size"]: row["overcurrent_max_a"] for row in table("small-conductor") if row["material"] == "copper"}
    return [ampacity[s] for s in SIZES], [resistance[s] for s in SIZES], [small.get(s, "99999") for s in SIZES]


AMPACITY, RESISTANCE, SMALL = copper()
AMBIENT = [(int(r["ambient_c_to"]), [r[f"factor_{c}c"] or "0" for c in (60, 75, 90)]) for r in table("ambient-correction-30c")]
BUNDLING = [(3, "100"), (6, "80"), (9, "70"), (20, "50")]
RATINGS = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400]
# What a number may be, for those that look at their values.
RANGES = {
    "ambient_c": (-40, 90),
    "current_carrying": (1, 1000),
    "load_continuous_a": (0, 100_000),
    "load_other_a": (0, 100_000),
    "device_a": (0, 100_000),
    "voltage_v": (1, 1_000_000),
    "length_ft": (0, 32_800),
    "drop_limit_percent": (0, 100),
}


def circuits(rows):
    rng = np.random.default_rng(1)
    words = lambda of: pa.DictionaryArray.from_arrays(rng.integers(0, len(of), rows, dtype=np.int8), of)
    return pa.table(
        {
            "material": pa.DictionaryArray.from_arrays(np.zeros(rows, dtype=np.int8), ["copper"]),
            "size": words(SIZES),
            "insulation": words(INSULATIONS),
            "terminals": words(TERMINALS),
            "ambient_c": rng.integers(10, 51, rows).astype(float),
            "current_carrying": rng.integers(1, 13, rows).astype(float),
            "load_continuous_a": rng.integers(0, 800, rows) / 10,
            "load_other_a": rng.integers(0, 200, rows) / 10,
            "device_a": rng.choice([15.0, 20.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0, 125.0], rows),
            "supplies": pa.DictionaryArray.from_arrays(np.zeros(rows, dtype=np.int8), ["other"]),
            "voltage_v": rng.choice([120.0, 208.0, 240.0, 480.0], rows),
            "circuit": pa.DictionaryArray.from_arrays(np.zeros(rows, dtype=np.int8), ["two-wire"]),
            "length_ft": rng.integers(5, 255, rows).astype(float),
            "drop_limit_percent": rng.choice([2.0, 3.0, 5.0], rows),
        }
    )


def arrays(of):
    codes = {n: of[n].combine_chunks().indices.to_numpy() for n in ("size", "insulation", "terminals")}
    return codes | {name: of[name].to_numpy() for name in RANGES}


def as_text(of):
    """The same table with its words written out, row by row."""
    fields = [pa.field(f.name, pa.string() if pa.types.is_dictionary(f.type) else f.type) for f in of.schema]
    return of.cast(pa.schema(fields))


def judge_numpy(c, tuned):
    own = np.array([COLUMN[i] for i in INSULATIONS])[c["insulation"]]
    terminal = np.minimum(c["terminals"], own)
    base = np.array(AMPACITY, dtype=float)
    if tuned:
        # Every factor is an array by whole degrees or by count; the ratings are found by whole amperes.
        by_degree = np.array([next([float(f) for f in fs] for most, fs in AMBIENT if d <= most) for d in range(60)])
        by_count = np.array([next(float(p) / 100 for most, p in BUNDLING if n <= most) for n in range(20)])
        ambient = by_degree[c["ambient_c"].astype(np.int32), own]
        bundling = by_count[c["current_carrying"].astype(np.int32)]
    else:
        edges = np.array([most for most, _ in AMBIENT])
        ambient = np.array([[float(f) for f in fs] for _, fs in AMBIENT])[np.searchsorted(edges, c["ambient_c"]), own]
        edges = np.array([most for most, _ in BUNDLING])
        bundling = np.array([float(p) / 100 for _, p in BUNDLING])[np.searchsorted(edges, c["current_carrying"])]
    before = base[c["size"], terminal]
    usable = np.minimum(base[c["size"], own] * ambient * bundling, before)
    ratings = np.array(RATINGS, dtype=float)
    needs = c["load_continuous_a"] * 1.25 + c["load_other_a"]
    load = c["load_continuous_a"] + c["load_other_a"]
    largest = np.minimum(ratings[np.searchsorted(ratings, usable)], np.array(SMALL, dtype=float)[c["size"]])
    least = ratings[np.minimum(np.searchsorted(ratings, needs), len(ratings) - 1)]
    drop = 2 * np.array(RESISTANCE, dtype=float)[c["size"]] * c["length_ft"] / 1000 * load
    percent = drop / c["voltage_v"] * 100
    checks = [load <= usable, needs <= before, needs <= c["device_a"], c["device_a"] <= largest]
    checks.append(percent <= c["drop_limit_percent"])
    holds = np.logical_and.reduce(checks)
    return holds, usable, largest, least, drop, percent, checks


def judge_numpy_with_reasons(c, tuned):
    """The same after a look at every value: a row with a bad one has the number of its column, and neither holds nor fails."""
    reason = np.zeros(len(c["size"]), dtype=np.uint16)
    looked_at = dict(c)
    for number, (name, (least, most)) in enumerate(RANGES.items(), 1):
        good = np.isfinite(c[name]) & (c[name] >= least) & (c[name] <= most)
        reason[~good & (reason == 0)] = number
        # What tables are asked with must be something.
        looked_at[name] = np.where(good, c[name], least)
    for number, (name, words) in enumerate((("size", SIZES), ("insulation", INSULATIONS), ("terminals", TERMINALS)), 9):
        good = (c[name] >= 0) & (c[name] < len(words))
        reason[~good & (reason == 0)] = number
        looked_at[name] = np.where(good, c[name], 0)
    holds, usable, largest, least, drop, percent, checks = judge_numpy(looked_at, tuned)
    verdict = np.where(reason != 0, 2, np.where(holds, 0, 1)).astype(np.int8)
    decided_by = np.select([~check for check in checks], [1, 2, 3, 4, 5], 0).astype(np.int8)
    figures = [np.where(reason == 0, figure, np.nan) for figure in (usable, largest, least, drop, percent)]
    return verdict == 0, verdict, reason, decided_by, checks, figures


def judge_polars(frame):
    text = pl.String
    sizes = pl.DataFrame({"size": SIZES, "ohm": [float(r) for r in RESISTANCE], "small": [float(s) for s in SMALL]})
    long = [(s, c, float(AMPACITY[i][c])) for i, s in enumerate(SIZES) for c in range(3)]
    base = pl.DataFrame(long, schema=["size", "column", "table_a"], orient="row")
    own = pl.DataFrame({"insulation": INSULATIONS, "own": [COLUMN[i] for i in INSULATIONS]})
    marks = pl.DataFrame({"terminals": TERMINALS, "mark": [0, 1, 2]})
    bands = [(d, c, float(fs[c])) for d in range(10, 52) for most, fs in AMBIENT if d <= most for c in range(3)]
    ambient = pl.DataFrame(bands, schema=["ambient_c", "own", "factor"], orient="row")
    ambient = ambient.group_by("ambient_c", "own", maintain_order=True).first().with_columns(pl.col("ambient_c").cast(float))
    counts = [(float(n), next(float(p) / 100 for most, p in BUNDLING if n <= most)) for n in range(1, 20)]
    bundling = pl.DataFrame(counts, schema=["current_carrying", "adjust"], orient="row")
    ratings = pl.DataFrame({"rating": [float(r) for r in RATINGS]})
    load = pl.col("load_continuous_a") + pl.col("load_other_a")
    found = (
        frame.lazy()
        .with_row_index("row")
        .with_columns(pl.col("size", "insulation", "terminals").cast(text))
        .join(sizes.lazy(), on="size")
        .join(own.lazy(), on="insulation")
        .join(marks.lazy(), on="terminals")
        .with_columns(column=pl.min_horizontal("mark", "own"), load=load)
        .with_columns(needs=pl.col("load_continuous_a") * 1.25 + pl.col("load_other_a"))
        .join(base.lazy().rename({"table_a": "before"}), on=["size", "column"])
        .join(base.lazy(), left_on=["size", "own"], right_on=["size", "column"])
        .join(ambient.lazy(), on=["ambient_c", "own"])
        .join(bundling.lazy(), on="current_carrying")
        .with_columns(usable=pl.min_horizontal(pl.col("table_a") * pl.col("factor") * pl.col("adjust"), "before"))
        .sort("usable")
        .join_asof(ratings.lazy(), left_on="usable", right_on="rating", strategy="forward", coalesce=False)
        .with_columns(drop=2 * pl.col("ohm") * pl.col("length_ft") / 1000 * pl.col("load"))
        .with_columns(percent=pl.col("drop") / pl.col("voltage_v") * 100, largest=pl.min_horizontal("rating", "small"))
        .with_columns(
            holds=(pl.col("load") <= pl.col("usable"))
            & (pl.col("needs") <= pl.col("before"))
            & (pl.col("needs") <= pl.col("device_a"))
            & (pl.col("device_a") <= pl.col("largest"))
            & (pl.col("percent") <= pl.col("drop_limit_percent"))
        )
        .sort("row")
        .select("holds", "usable", "largest", "drop", "percent")
    )
    return found.collect()


def judge_decimal(rows, with_reasons=False):
    """One row after the other, in exact decimals, the drop by cross-multiplication."""
    base = [[Decimal(a) for a in row] for row in AMPACITY]
    ambient = [(most, [Decimal(f) for f in fs]) for most, fs in AMBIENT]
    bundling = [(most, Decimal(p) / 100) for most, p in BUNDLING]
    ohms, small, ratings = [Decimal(r) for r in RESISTANCE], [Decimal(s) for s in SMALL], [Decimal(r) for r in RATINGS]
    at = {size: index for index, size in enumerate(SIZES)}
    found, answers = [], []
    for row in rows:
        if with_reasons:
            bad = (name for name, (least, most) in RANGES.items() if row[name] is None or not least <= row[name] <= most)
            if (reason := next(bad, None)) or row["size"] not in at or row["insulation"] not in COLUMN:
                found.append(False)
                answers.append((2, reason))
                continue
        size, own = at[row["size"]], COLUMN[row["insulation"]]
        terminal = min(TERMINALS.index(row["terminals"]), own)
        degrees, count = row["ambient_c"], row["current_carrying"]
        factor = next(fs[own] for most, fs in ambient if degrees <= most)
        factor *= next(f for most, f in bundling if count <= most)
        usable = min(base[size][own] * factor, base[size][terminal])
        number = lambda name: Decimal(str(row[name]))
        continuous, other, device = number("load_continuous_a"), number("load_other_a"), number("device_a")
        load, needs = continuous + other, continuous * Decimal("1.25") + other
        largest = min(next(rating for rating in ratings if rating >= usable), small[size])
        drop, voltage = 2 * ohms[size] * number("length_ft") / 1000 * load, number("voltage_v")
        if not with_reasons:
            found.append(
                load <= usable
                and needs <= base[size][terminal]
                and needs <= device
                and device <= largest
                and drop * 100 <= number("drop_limit_percent") * voltage
            )
            continue
        checks = [load <= usable, needs <= base[size][terminal], needs <= device, device <= largest]
        checks.append(drop * 100 <= number("drop_limit_percent") * voltage)
        least = next((rating for rating in ratings if rating >= needs), None)
        percent = (drop * 100 / voltage).quantize(Decimal("0.0001"), ROUND_UP)
        decided_by = next((check for check, holds in enumerate(checks, 1) if not holds), 0)
        figures = (usable, least, largest, drop.quantize(Decimal("0.001"), ROUND_UP), percent)
        found.append(decided_by == 0)
        answers.append((decided_by and 1, None, decided_by, checks, figures))
    return found


def duckdb_query():
    connection = duckdb.connect(config={"threads": 1})
    long = [(s, c, AMPACITY[i][c]) for i, s in enumerate(SIZES) for c in range(3)]
    connection.execute("create table base(size varchar, col int, amps decimal(9,4))")
    connection.executemany("insert into base values (?, ?, ?)", long)
    connection.execute("create table sizes(size varchar, ohm decimal(9,6), small decimal(9,4))")
    connection.executemany("insert into sizes values (?, ?, ?)", list(zip(SIZES, RESISTANCE, SMALL, strict=True)))
    connection.execute("create table own(insulation varchar, own int)")
    connection.executemany("insert into own values (?, ?)", list(COLUMN.items()))
    connection.execute("create table marks(terminals varchar, mark int)")
    connection.executemany("insert into marks values (?, ?)", [(t, i) for i, t in enumerate(TERMINALS)])
    connection.execute("create table ambient(degrees int, own int, factor decimal(5,3))")
    degrees = [(d, c, next(fs[c] for most, fs in AMBIENT if d <= most)) for d in range(10, 52) for c in range(3)]
    connection.executemany("insert into ambient values (?, ?, ?)", degrees)
    connection.execute("create table bundling(n int, adjust decimal(5,3))")
    counts = [(n, str(Decimal(next(p for most, p in BUNDLING if n <= most)) / 100)) for n in range(1, 20)]
    connection.executemany("insert into bundling values (?, ?)", counts)
    connection.execute("create table ratings(rating decimal(9,4))")
    connection.executemany("insert into ratings values (?)", [(r,) for r in RATINGS])
    query = """
    with read as (
      select row_number() over () as row, size::varchar as size, insulation::varchar as insulation,
        terminals::varchar as terminals, ambient_c::int as degrees, current_carrying::int as n,
        load_continuous_a::decimal(9,4) as continuous, load_other_a::decimal(9,4) as other,
        device_a::decimal(9,4) as device, voltage_v::decimal(9,3) as voltage, length_ft::decimal(9,3) as feet,
        drop_limit_percent::decimal(5,2) as limit_percent from circuits),
    joined as (
      select *, least(terminal.amps, whole.amps * factor * adjust) as usable, continuous + other as load,
        continuous * 1.25 + other as needs, terminal.amps as before, 2 * ohm * feet as loop
      from read join sizes using (size) join own using (insulation) join marks using (terminals)
        join base terminal on terminal.size = read.size and terminal.col = least(mark, own.own)
        join base whole on whole.size = read.size and whole.col = own.own
        join ambient on ambient.degrees = read.degrees and ambient.own = own.own join bundling using (n))
    select load <= usable and needs <= before and needs <= device and device <= least(rating, small)
        and loop * load <= limit_percent * voltage * 10 as holds
      from joined asof join ratings on usable <= rating order by row
    """
    return connection, query


def shortest(works, rounds, clock=time.process_time):
    """The shortest time of each in rounds where all take turns, so that no one has the quiet moments; and what each found."""
    times, found = {}, {}
    for _ in range(rounds):
        for name, work in works.items():
            start = clock()
            found[name] = work()
            times[name] = min(times.get(name, math.inf), clock() - start)
    return times, found


def peak(work):
    """The most memory that a piece of work adds to that of the process, where the system tells it (Linux)."""
    status = Path("/proc/self/status")
    said = lambda name: next(int(line.split()[1]) * 1024 for line in status.read_text().splitlines() if line.startswith(name))
    try:
        # What was freed before must not be taken again unseen.
        ctypes.CDLL(None).malloc_trim(0)
        Path("/proc/self/clear_refs").write_text("5")
        before = said("VmRSS")
    except (OSError, AttributeError, StopIteration):
        return None, work()
    result = work()
    return said("VmHWM") - before, result


def main():
    table_of = circuits(ROWS)
    most, judged = peak(lambda: lw.judge_circuits(table_of))
    if most is not None:
        print(f"memory at its peak: {most / pa.table(judged).nbytes:.2f} times the answers")
    columns, frame = arrays(table_of), pl.from_arrow(table_of)
    sample = table_of.slice(0, SAMPLE).to_pylist()
    from_numpy = dict(zip(table_of.column_names, table_of.columns, strict=True)) | {name: columns[name] for name in RANGES}
    text, small = as_text(table_of), pa.Table.from_batches(table_of.to_batches(max_chunksize=1000))
    connection, query = duckdb_query()
    connection.register("circuits", table_of)
    ours = {
        "this": lambda: lw.judge_circuits(table_of),
        "this, verdicts without figures": lambda: lw.judge_circuits(table_of, figures=False),
        "this, from numpy columns": lambda: lw.judge_circuits(from_numpy),
        "this, words as text": lambda: lw.judge_circuits(text),
        "this, batches of 1000 rows": lambda: lw.judge_circuits(small),
    }
    others = {
        "numpy, tuned by hand": lambda: judge_numpy(columns, tuned=True)[0],
        "numpy, tuned, same answers": lambda: judge_numpy_with_reasons(columns, tuned=True)[0],
        "numpy, plain": lambda: judge_numpy(columns, tuned=False)[0],
        "numpy, plain, same answers": lambda: judge_numpy_with_reasons(columns, tuned=False)[0],
        f"polars with joins, {pl.thread_pool_size()} threads": lambda: judge_polars(frame)["holds"].to_numpy(),
        "SQL with decimals": lambda: connection.execute(query).fetchnumpy()["holds"],
        "Python decimals": lambda: judge_decimal(sample),
        "Python decimals, same answers": lambda: judge_decimal(sample, with_reasons=True),
    }
    times, found = shortest(ours | others, ROUNDS)
    answers = pa.table(found["this"])
    # Where no device of the standard ratings protects a hot conductor, the others make one up: not counted.
    told = answers["status"].to_numpy() == 0
    holds = np.asarray(answers["verdict"].combine_chunks().indices) == 0
    print(f"{ROWS} circuits, {holds.mean():.1%} hold, {(~told).sum()} cannot be told")
    print(f"this, one thread: {times['this'] / ROWS * 1e9:.0f} ns a row")
    for name in list(ours)[1:]:
        print(f"{name:32} {times[name] / times['this']:7.2f} times as long")
    threads = {n: lambda n=n: lw.judge_circuits(table_of, threads=n) for n in (1, 2)}
    clock, _ = shortest(threads, ROUNDS, time.perf_counter)
    print(f"{'this, two threads, by the clock':32} {clock[2] / clock[1]:7.2f} times as long")
    for name in others:
        rows = len(found[name])
        wrong = int(((np.asarray(found[name]) != holds[:rows]) & told[:rows]).sum())
        ratio = times[name] / rows / (times["this"] / ROWS)
        print(f"{name:32} {ratio:7.1f} times as long, {wrong} wrong verdicts of {rows}")


if __name__ == "__main__":
    main()
