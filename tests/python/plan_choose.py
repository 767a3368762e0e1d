#!/usr/bin/env python3
"""Compares the choice of loads with a mixed-integer solver on random cases.

    plan_choose.py PATH_OF_THE_EXAMPLE [CASES [SEED]]
    plan_choose.py --time SECONDS < CASES

The second form solves cases that come as JSON, one a line, and prints for each the seconds that the solver itself took
and the weight by class, or null where it had no answer within the time allowed.

The example is `cargo build --release --example plan_choose`; the solver is `highspy`, from PyPI. Exits 1 on the first
difference. Prints how long both took in one run.
"""

import json
import random
import subprocess
import sys
import time

import highspy


# How long each run of the solver took, without the building of its model.
solver_seconds = []


def case(rng):
    def load(group):
        ma = rng.choice([rng.randrange(100, 20000, 100), rng.randrange(1, 20000)])
        start = round(ma * rng.uniform(0.5, 6)) if surge and rng.random() < 0.4 else None
        return {"ma": ma, "start_ma": start,
                "placement": rng.choice(["A", "B", "both", "either", "either"]), "class": rng.randrange(classes),
                "weight": rng.randrange(1, rng.choice([3, 10, 1000])), "must": rng.random() < 0.04,
                "group": rng.choice([0, 0, 0, 0, group])}
    classes = rng.choice([1, 2, 4])
    leg = rng.randrange(10000, 60000, 100)
    surge = rng.choice([None, rng.randrange(leg, 2 * leg)])
    return {"legs_ma": [leg, rng.choice([leg, rng.randrange(0, 60000, 100)])],
            "surge_ma": surge, "total_va": rng.choice([None, rng.randrange(2000, 12000)]),
            "neutral": rng.choice([None, None, ("greater leg", rng.randrange(5000, 40000)),
                                   ("difference", rng.randrange(0, 20000)), ("sum", rng.randrange(5000, 60000))]),
            "loads": [load(rng.randrange(1, 4)) for _ in range(rng.choice([5, 10, 20, 30, 40]))]}


def solve(case, seconds=None):
    """The weight by class, most important first; None where the loads that must be on do not fit."""
    model = highspy.Highs()
    model.silent()
    if seconds:
        model.setOptionValue("time_limit", seconds)
    model.setOptionValue("mip_feasibility_tolerance", 1e-9)
    model.setOptionValue("mip_rel_gap", 0.0)
    model.setOptionValue("mip_abs_gap", 0.5)
    ways = {"A": ["A"], "B": ["B"], "both": ["both"], "either": ["A", "B"]}
    terms = []
    for load in case["loads"]:
        on = [(model.addBinary(), way) for way in ways[load["placement"]]]
        taken = sum(x for x, _ in on)
        model.addConstr(taken == 1 if load["must"] else taken <= 1)
        terms.append((load, on, taken))

    def current(legs):
        parts = [load["ma"] * x for load, on, _ in terms for x, way in on if way in legs]
        return sum(parts) if parts else None

    def limit(expression, most):
        if expression is not None:
            model.addConstr(expression <= most)

    limit(current(["A", "both"]), case["legs_ma"][0])
    limit(current(["B", "both"]), case["legs_ma"][1])
    if case["total_va"] is not None:
        # Thousandths of VA at 120 V a leg.
        model.addConstr(sum((240 if way == "both" else 120) * load["ma"] * x for load, on, _ in terms for x, way in on)
                        <= case["total_va"] * 1000)
    if case["neutral"]:
        kind, most = case["neutral"]
        a, b = current(["A"]), current(["B"])
        if kind == "greater leg":
            limit(a, most)
            limit(b, most)
        elif kind == "sum":
            limit(current(["A", "B"]), most)
        elif a is not None and b is not None:
            model.addConstr(a - b <= most)
            model.addConstr(b - a <= most)
        else:
            limit(a, most)
            limit(b, most)
    if case.get("surge_ma") is not None:
        # The two greatest starts that count on a leg are the least of 2 t plus what each is above t.
        for leg in "AB":
            surplus = [((load["start_ma"] - load["ma"]) * x) for load, on, _ in terms for x, way in on
                       if way in (leg, "both") and (load.get("start_ma") or 0) > load["ma"]]
            if surplus:
                t = model.addVariable(lb=0)
                above = [model.addVariable(lb=0) for _ in surplus]
                for part, over in zip(surplus, above):
                    model.addConstr(over >= part - t)
                model.addConstr(current([leg, "both"]) + 2 * t + sum(above) <= case["surge_ma"])
    for group in {load["group"] for load in case["loads"]} - {0}:
        model.addConstr(sum(taken for load, _, taken in terms if load["group"] == group) <= 1)
    worth = []
    for name in sorted({load["class"] for load in case["loads"]}):
        goal = sum(load["weight"] * taken for load, _, taken in terms if load["class"] == name)
        start = time.perf_counter()
        model.maximize(goal)
        solver_seconds.append(time.perf_counter() - start)
        if model.getModelStatus() == highspy.HighsModelStatus.kInfeasible:
            return None
        assert model.getModelStatus() == highspy.HighsModelStatus.kOptimal, model.getModelStatus()
        values = model.getSolution().col_value
        best = round(sum(load["weight"] * values[x.index] for load, on, _ in terms if load["class"] == name for x, _ in on))
        model.addConstr(goal >= best)
        worth.append([name, best])
    return worth


def time_cases(seconds):
    """Solves the cases of the standard input."""
    highspy.Highs().run()  # The first call loads the library.
    for line in sys.stdin:
        solver_seconds.clear()
        try:
            worth = solve(json.loads(line), seconds)
        except AssertionError:
            worth = None
        print(json.dumps([sum(solver_seconds), worth]), flush=True)


def main():
    if sys.argv[1] == "--time":
        time_cases(float(sys.argv[2]))
        return 0
    example, *rest = sys.argv[1:]
    count, seed = [int(text) for text in rest] + [600, 1][len(rest):]
    rng = random.Random(seed)
    cases = [case(rng) for _ in range(count)]
    lines = "".join(json.dumps(case) + "\n" for case in cases)
    answers = subprocess.run([example], input=lines, capture_output=True, text=True, check=True).stdout.splitlines()
    ours = theirs = 0.0
    slowest = impossible = 0
    for number, (case_, line) in enumerate(zip(cases, answers, strict=True)):
        answer = json.loads(line)
        solver_seconds.clear()
        expected = solve(case_)
        theirs += sum(solver_seconds)
        ours += answer["microseconds"] / 1e6
        slowest = max(slowest, answer["microseconds"])
        impossible += expected is None
        if answer["worth"] != expected or (expected is not None and not answer["best"]):
            print(f"case {number}: {answer}, the solver has {expected}\n{json.dumps(case_)}")
            return 1
    print(f"{count} cases agree ({impossible} without an answer); {ours:.3f} s, the slowest {slowest} us; "
          f"the solver itself {theirs:.3f} s: {theirs / ours:.0f} times as long")
    return 0


if __name__ == "__main__":
    sys.exit(main())
