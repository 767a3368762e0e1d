"""Tables of circuits through every kind of frame, beside the questions one at a time."""

import copy
import pickle
import signal
import threading
import time
from decimal import Decimal

import duckdb
import loadworthy as lw
import numpy as np
import pandas as pd
import polars as pl
import pyarrow as pa
import pytest
from hypothesis import given
from hypothesis import strategies as st
from loadworthy import _core
from pyarrow import dataset

CIRCUITS = {
    "material": ["copper", "copper", "aluminum", None],
    "size": ["12 AWG", "12 AWG", "2 AWG", "12 AWG"],
    "insulation": ["THWN-2", "THWN-2", "XHHW-2", "THWN-2"],
    "terminals": ["75 °C", "75 °C", "75 °C", "75 °C"],
    "load_continuous_a": [16.0, 16.000001, 40.0, 16.0],
    "load_other_a": [0.0, 0.0, 12.5, 0.0],
    "device_a": [20.0, 20.0, 70.0, 20.0],
    "supplies": ["other", "other", "other", "other"],
    "voltage_v": [120.0, 120.0, 240.0, 120.0],
    "circuit": ["two-wire", "two-wire", "two-wire", "two-wire"],
    "length_ft": [90.0, 90.0, 150.0, 90.0],
    "drop_limit_percent": [4.752, 4.752, 3.0, 3.0],
}
#: 16 A is exactly 80 % of 20 A; 12 AWG copper, 2 x 1.98 ohm/kft, drops 5.7024 V over 90 ft: exactly 4.752 % of 120 V.
VERDICTS = ["holds", "fails", "holds", "cannot tell"]


def answers(judged):
    return pa.table(judged).to_pydict()


def same(judged):
    found = answers(judged)
    assert found["verdict"] == VERDICTS
    assert found["decided_by"] == [None, "continuous-load-on-device", None, None]
    assert found["reason"] == [None, None, None, "`material` is null"]
    assert found["drop_v"][:1] == [5.703]
    assert found["ampacity_a"] == [25.0, 25.0, 90.0, None]
    return found


def frames():
    arrow = pa.table(CIRCUITS)
    yield "pyarrow table", arrow
    yield "pyarrow batch", arrow.to_batches()[0]
    yield "pyarrow reader", arrow.to_reader()
    yield "pyarrow chunks", pa.concat_tables([arrow.slice(0, 1), arrow.slice(1, 0), arrow.slice(1)])
    words = ["material", "size", "insulation"]
    encoded = [arrow[name].dictionary_encode() if name in words else arrow[name] for name in arrow.column_names]
    yield "pyarrow dictionaries", pa.table(encoded, names=arrow.column_names)
    yield "polars", pl.DataFrame(CIRCUITS)
    yield "polars categories", pl.DataFrame(CIRCUITS).with_columns(pl.col(words).cast(pl.Categorical))
    yield "pandas", pd.DataFrame(CIRCUITS)
    yield "pandas categories", pd.DataFrame(CIRCUITS).astype(dict.fromkeys(words, "category"))
    yield "mapping of lists", CIRCUITS
    arrays = {name: np.array(values) if isinstance(values[0], float) else values for name, values in CIRCUITS.items()}
    yield "mapping of arrays", arrays
    decimals = {name: [Decimal(str(v)) for v in values] for name, values in CIRCUITS.items() if isinstance(values[0], float)}
    yield "decimals", pa.table({**CIRCUITS, **decimals})


@pytest.mark.parametrize("frame", [frame for _, frame in frames()], ids=[name for name, _ in frames()])
def test_every_frame_gives_the_same(frame):
    same(lw.judge_circuits(frame))


def test_a_relation_of_duckdb_is_judged_and_its_answers_are_queried():
    circuits = pa.table(CIRCUITS)
    connection = duckdb.connect()
    judged = lw.judge_circuits(connection.from_arrow(circuits))
    same(judged)
    # The answers are whole and no lazy stream over the connection: another one reads them.
    table = pa.table(judged)
    counted = duckdb.connect().from_arrow(table).aggregate("verdict, count(*) as n", "verdict").fetchall()
    assert sorted(counted) == [("cannot tell", 1), ("fails", 1), ("holds", 2)]


def test_answers_are_read_as_often_as_one_likes():
    judged = lw.judge_circuits(CIRCUITS)
    assert len(judged) == 4
    assert answers(judged) == answers(judged)
    assert pl.DataFrame(judged)["verdict"].to_list() == VERDICTS
    assert pd.DataFrame.from_arrow(judged)["verdict"].tolist() == VERDICTS
    assert pa.schema(judged).names == judged.column_names
    assert repr(judged).startswith("<JudgedCircuits of 4 rows: verdict, decided_by, status")
    assert "ambient 30 °C, the base of the table" in judged.assumed


def test_columns_are_carried_along_when_named():
    table = pa.table({"id": [7, 8, 9, 10], **CIRCUITS})
    assert answers(lw.judge_circuits(table, carry=["id"]))["id"] == [7, 8, 9, 10]
    assert answers(lw.judge_circuits(table, carry="id"))["id"] == [7, 8, 9, 10]
    assert lw.judge_circuits(table, carry=["id", "id"]).column_names.count("id") == 1
    with pytest.raises(lw.ColumnError, match="column `id` is not known; leave it out, or name it in `carry`$"):
        lw.judge_circuits(table)
    with pytest.raises(lw.ColumnError, match="column `none` cannot be carried along; no column has this name"):
        lw.judge_circuits(table, carry=["id", "none"])
    with pytest.raises(lw.ColumnError, match="column `verdict` cannot be carried along; its name is that of an answer"):
        lw.judge_circuits({"verdict": [1, 2, 3, 4], **CIRCUITS}, carry=["verdict"])


def test_a_fact_is_carried_along_and_read():
    judged = lw.judge_circuits(CIRCUITS, carry=["size", "drop_limit_percent"])
    found = same(judged)
    assert (found["size"], found["drop_limit_percent"]) == (CIRCUITS["size"], CIRCUITS["drop_limit_percent"])
    assert judged.column_names[:3] == ["size", "drop_limit_percent", "verdict"]


@pytest.mark.parametrize(
    "labelled",
    [
        lambda frame: frame.sort_values("device_a", ascending=False),
        lambda frame: frame[frame["device_a"] != 70.0],
        lambda frame: pd.concat([frame, frame]),
        lambda frame: frame.set_index([["a", "b", "c", "d"], [4, 3, 2, 1]]),
    ],
    ids=["sorted", "filtered", "concatenated", "two levels"],
)
def test_the_labels_of_a_frame_are_no_columns(labelled):
    frame = labelled(pd.DataFrame(CIRCUITS))
    assert "__index_level_0__" in pa.table(frame).column_names
    plain = answers(lw.judge_circuits(frame.reset_index(drop=True)))
    assert answers(lw.judge_circuits(frame)) == plain
    carried = answers(lw.judge_circuits(frame, carry=["__index_level_0__"]))
    assert carried.pop("__index_level_0__") == pa.table(frame)["__index_level_0__"].to_pylist()
    assert carried == plain


def test_a_named_index_is_a_column_that_may_be_carried():
    frame = pd.DataFrame({"id": [7, 9, 8, 10], **CIRCUITS}).set_index("id")
    assert answers(lw.judge_circuits(frame, carry=["id"]))["id"] == [7, 9, 8, 10]
    with pytest.raises(lw.ColumnError, match="`id` is not known; leave it out, or name it in `carry`"):
        lw.judge_circuits(frame)
    for name in ("__index_level___", "__index_level_a__", "index_level_0"):
        with pytest.raises(lw.ColumnError, match=name):
            lw.judge_circuits({name: [1, 2, 3, 4], **CIRCUITS})


def test_a_type_that_is_not_taken_says_which_are():
    table = pa.table(CIRCUITS)
    half = table.set_column(6, "device_a", table["device_a"].cast("float16"))
    with pytest.raises(lw.ColumnError, match="holds Float16; it must hold numbers: floating point of 32 or 64 bits"):
        lw.judge_circuits(half)
    coded = table.set_column(1, "size", table["size"].cast("binary"))
    with pytest.raises(lw.ColumnError, match="holds Binary; it must hold text, or a dictionary of text"):
        lw.judge_circuits(coded)


def test_all_problems_of_the_columns_come_at_once():
    wrong = {"load_continuous": [1.0], "size": [12], "device_a": ["20 A"], "lenght_ft": [1.0], "day": [pd.Timestamp(0)]}
    with pytest.raises(lw.ColumnError) as raised:
        lw.judge_circuits(pa.table(wrong))
    error = raised.value
    assert isinstance(error, ValueError)
    assert isinstance(error, lw.Error)
    assert error.problems[:5] == (
        "column `load_continuous` is not known; its unit is missing; write `load_continuous_a` or `load_continuous_ma`",
        "column `size` holds whole numbers; it must hold text",
        "column `device_a` holds text; it must hold numbers",
        "column `lenght_ft` is not known; did you mean `length_ft`?",
        "column `day` is not known; leave it out, or name it in `carry`",
    )
    assert "column `insulation` or `cable` is missing and decides" in error.problems
    again = pickle.loads(pickle.dumps(error))
    assert (again.problems, str(again)) == (error.problems, str(error))
    assert copy.copy(error).problems == error.problems


@pytest.mark.parametrize("table", [3, None, "copper", object()])
def test_what_is_no_table_is_refused(table):
    with pytest.raises(lw.QuestionTypeError, match="is no table; give one"):
        lw.judge_circuits(table)


def test_what_makes_a_table_later_is_told_how():
    with pytest.raises(lw.QuestionTypeError, match=r"`collect\(\)` makes one of it"):
        lw.judge_circuits(pl.DataFrame(CIRCUITS).lazy())
    with pytest.raises(lw.QuestionTypeError, match=r"`to_table\(\)` makes one of it"):
        lw.judge_circuits(dataset.dataset(pa.table(CIRCUITS)))


def test_arguments_are_checked():
    with pytest.raises(lw.QuestionError, match="edition: `nec-1899` is not known"):
        lw.judge_circuits(CIRCUITS, edition="nec-1899")
    for threads in (0, -1, -(10**30), 1.5, True, np.True_, "2", None):
        with pytest.raises(lw.QuestionError, match="threads: ") as raised:
            lw.judge_circuits(CIRCUITS, threads=threads)
        assert raised.value.option == "threads"
    for threads in (np.int64(2), np.uint8(1), 10**30):
        same(lw.judge_circuits(CIRCUITS, threads=threads))
    for wrong in (
        {"edition": 2023},
        {"edition": "nec-2023\ud800"},
        {"accept": "x"},
        {"progress": 3},
        {"carry": 3},
        {"carry": [3]},
    ):
        (option,) = wrong
        with pytest.raises(lw.QuestionTypeError, match=f"^{option}: a value of type") as raised:
            lw.judge_circuits(CIRCUITS, **wrong)
        assert raised.value.option == option
    for array in (pa.array([1.0]), pa.chunked_array([[1.0]]), pl.Series([1.0]), pd.Series([1.0])):
        with pytest.raises(TypeError, match="a table is needed, an array of columns by name"):
            lw.judge_circuits(array)
    reader = pa.table(CIRCUITS).to_reader()
    reader.read_all()
    assert len(lw.judge_circuits(reader)) == 0


def test_verdicts_are_the_same_without_figures_and_in_many_small_batches():
    whole = pa.table(lw.judge_circuits(CIRCUITS))
    few = pa.table(lw.judge_circuits(CIRCUITS, figures=False))
    figures = ["ampacity_a", "ampacity_governed_by", "least_device_a", "largest_device_a"]
    figures += ["largest_device_governed_by", "drop_v", "drop_percent"]
    assert set(whole.column_names) - set(few.column_names) == set(figures)
    assert few.equals(whole.select(few.column_names))
    rows = pa.concat_tables([pa.table(CIRCUITS)] * 50)
    small = pa.Table.from_batches(rows.to_batches(max_chunksize=3))
    assert pa.table(lw.judge_circuits(small)).to_pydict() == pa.table(lw.judge_circuits(rows)).to_pydict()


def test_a_capsule_is_consumed_once():
    class Once:
        def __init__(self, capsule):
            self.capsule = capsule

        def __arrow_c_stream__(self, requested_schema=None):
            return self.capsule

    once = Once(pa.table(CIRCUITS).__arrow_c_stream__())
    same(lw.judge_circuits(once))
    with pytest.raises(ValueError, match="consumed before"):
        lw.judge_circuits(once)
    with pytest.raises(ValueError, match="PyCapsule_GetPointer"):
        lw.judge_circuits(Once(pa.schema([]).__arrow_c_schema__()))


def million(rows=1_000_000):
    tenths = np.arange(rows) % 200
    text = lambda word: pa.DictionaryArray.from_arrays(np.zeros(rows, dtype=np.int8), [word])
    return {
        "material": text("copper"),
        "size": text("12 AWG"),
        "cable": text("NM-B"),
        "load_continuous_a": tenths / 10.0,
        "load_other_a": np.zeros(rows),
        "device_a": np.full(rows, 20.0),
        "supplies": text("other"),
    }


def test_a_thousand_bad_rows_of_a_million_say_why_and_stop_nothing():
    columns = million()
    bad = np.arange(0, 1_000_000, 1000)
    odd = [np.nan, np.inf, -1.0, 0.1 + 0.2, 1e300]
    columns["load_continuous_a"][bad] = np.resize(odd, bad.size)
    table = pa.table(lw.judge_circuits(pa.table(columns), threads=2))
    status = table["status"].to_numpy()
    assert np.flatnonzero(status).tolist() == bad.tolist()
    reasons = dict(_core.reasons())
    assert [reasons[number] for number in status[bad[:5]]] == [
        "`load_continuous_a` is not a finite number",
        "`load_continuous_a` is not a finite number",
        "`load_continuous_a` is out of range",
        "`load_continuous_a` is not a short decimal: it has more decimals than are kept, or was rounded on its way",
        "`load_continuous_a` is out of range",
    ]
    # 16 A at 125 % is 20 A: the verdict of every other row is known without any table.
    good = np.ones(1_000_000, dtype=bool)
    good[bad] = False
    holds = np.asarray(table["verdict"].to_pylist(), dtype=object) == "holds"
    assert (holds[good] == (np.arange(1_000_000) % 200 <= 160)[good]).all()


def test_threads_give_the_same_and_others_run_meanwhile():
    table = pa.table(million())
    one = pa.table(lw.judge_circuits(table))
    ran = threading.Event()
    other = threading.Thread(target=ran.set)
    seen = []

    def progress(done):
        if not seen:
            other.start()
            other.join()
        seen.append(done)

    assert pa.table(lw.judge_circuits(table, threads=4, progress=progress)).equals(one)
    assert ran.is_set()
    assert seen == sorted(seen)
    assert len(seen) > 1


def test_many_threads_of_python_judge_at_once():
    table = pa.table(million(100_000))
    expected = pa.table(lw.judge_circuits(table))
    found = []
    threads = [threading.Thread(target=lambda: found.append(pa.table(lw.judge_circuits(table)))) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(found) == 6
    assert all(table.equals(expected) for table in found)


def test_what_the_callback_raises_ends_the_work():
    class Enough(Exception):
        pass

    def progress(done):
        raise Enough(done)

    with pytest.raises(Enough):
        lw.judge_circuits(pa.table(million()), progress=progress, threads=2)


def test_an_interrupt_ends_the_work():
    def progress(done):
        signal.raise_signal(signal.SIGINT)
        time.sleep(0)

    # Where the tests run in the background, Python was started with interrupts ignored.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        with pytest.raises(KeyboardInterrupt):
            lw.judge_circuits(pa.table(million()), progress=progress)
    finally:
        signal.signal(signal.SIGINT, before)


SIZES = ["14 AWG", "12 AWG", "10 AWG", "8 AWG", "4 AWG", "1 AWG", "2/0 AWG", "250 kcmil", "18 AWG", "1750 kcmil"]


@st.composite
def rows(draw):
    tenths = st.integers(0, 2000).map(lambda n: n / 10)
    return {
        "material": draw(st.sampled_from(["copper", "aluminum", "copper-clad aluminum"])),
        "size": draw(st.sampled_from(SIZES)),
        "insulation": draw(st.sampled_from(["THHN", "THWN-2", "XHHW-2", "TW", "RHW"])),
        "installation": draw(st.sampled_from(["raceway", "free air"])),
        "place": draw(st.sampled_from(["dry", "damp", "wet"])),
        "terminals": draw(st.sampled_from(["60 °C", "75 °C", "90 °C", "unmarked"])),
        "ambient_c": draw(st.integers(-20, 90).map(float)),
        "current_carrying": draw(st.integers(1, 45)),
        "load_continuous_a": draw(tenths),
        "load_other_a": draw(tenths),
        "device_a": draw(st.sampled_from([15.0, 20.0, 30.0, 45.0, 100.0, 110.0, 200.0])),
        "continuous_rating": draw(st.sampled_from(["80 %", "100 %"])),
        "device_kind": draw(st.sampled_from(["breaker", "fuse"])),
        "supplies": draw(st.sampled_from(["other", "several-receptacles"])),
        "voltage_v": draw(st.sampled_from([120.0, 240.0, 277.0, 480.0])),
        "circuit": draw(st.sampled_from(["two-wire", "three-phase"])),
        "length_ft": draw(st.integers(1, 4000).map(lambda n: n / 10)),
        "drop_limit_percent": draw(st.sampled_from([1.5, 3.0, 5.0])),
    }


def with_unit(number, unit):
    return f"{number:f} {unit}"


@given(st.lists(rows(), min_size=1, max_size=8))
def test_every_row_is_what_the_questions_say_of_it(circuits):
    table = pa.Table.from_pylist(circuits)
    for row, found in zip(circuits, pa.table(lw.judge_circuits(table)).to_pylist(), strict=True):
        conductor = {name: row[name] for name in ("material", "size", "insulation", "installation", "place", "terminals")}
        conductor |= {
            "ambient": with_unit(row["ambient_c"], "°C"),
            "current_carrying": row["current_carrying"],
            "circuit_rating": with_unit(row["device_a"], "A"),
        }
        ampacity = lw.ampacity(**conductor)
        assert found["ampacity_a"] == (None if ampacity.value is None else float(ampacity.value))
        assert found["ampacity_governed_by"] == ampacity.governed_by
        kind, supplies = row["device_kind"], row["supplies"]
        largest = lw.overcurrent_device(**conductor, kind=kind, supplies=supplies)
        assert found["largest_device_a"] == (None if largest.value is None else float(largest.value))
        assert found["largest_device_governed_by"] == (None if largest.value is None else largest.governed_by)
        load = {
            "continuous": with_unit(row["load_continuous_a"], "A"),
            "non_continuous": with_unit(row["load_other_a"], "A"),
            "continuous_rating": row["continuous_rating"],
        }
        needs = lw.continuous_load(**load)
        device = Decimal(str(row["device_a"]))
        current = Decimal(str(row["load_continuous_a"])) + Decimal(str(row["load_other_a"]))
        least = lw.overcurrent_device(**load, kind=kind)
        assert found["least_device_a"] == (None if least.value is None else float(least.value))
        drop = lw.voltage_drop(
            method="dc",
            circuit=row["circuit"],
            supply=with_unit(row["voltage_v"], "V"),
            size=row["size"],
            material=row["material"],
            length=with_unit(row["length_ft"], "ft"),
            current=with_unit(current, "A"),
        )

        def verdict(holds):
            return "cannot tell" if holds is None else "holds" if holds else "fails"

        limit = Decimal(str(row["drop_limit_percent"]))
        share = None if drop.value is None else drop.value * 100 <= limit * Decimal(str(row["voltage_v"]))
        assert found["conductor_ampacity"] == verdict(None if ampacity.value is None else current <= ampacity.value)
        assert found["continuous_load_on_device"] == verdict(needs.value <= device)
        assert found["breaker_protects_conductor"] == verdict(None if largest.value is None else device <= largest.value)
        assert found["voltage_drop"] == verdict(share)
