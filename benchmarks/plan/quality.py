"""How good the plans are: against the bound, against a solver, and on fates never seen.

Run it as ``python benchmarks/plan/quality.py`` from the top of the project; it takes some minutes.
All cars are invented.

Three tables. *On paper*: eighteen cars of 150, 300 and 400 jobs, a helper every Saturday, no
season; the rule, and a search on the exact hours, as shares above the bound, with and without
positions, and what of the bound the moves make. *On fates*: cars harder than most, an unheated
garage and a helper every other Saturday; what tuning gains on fates it has never met. *By a
solver*: cars of six jobs under every rule, whose soonest finish is proven.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent.parent))

import numpy as np

from bareshell.plan.bound import bound
from bareshell.plan.engine import Engine, warm_up
from bareshell.plan.policy import Policy
from bareshell.plan.ready import ready
from bareshell.plan.searching import climb
from bareshell.plan.tuning import Changes, tuned_rule
from bareshell.plan.walk import walk
from tests.plan.garages import Shape, garage
from tests.plan.test_exact import KINDS, solved

DAY_MINUTES = 24 * 60
SIZES = (150, 300, 400)
CARS = 6
SEED = 1
MOVES = 3000


def on_paper(engine: Engine, start: Policy) -> int:
    """The soonest finish that a search on the exact hours reaches."""
    changes = Changes(engine.problem, start, np.random.default_rng(SEED))

    def cost(policy: Policy) -> float:
        finish = engine.planned_finish(policy)
        return float("inf") if finish is None else finish

    best = cost(start)
    for _, least in climb(start, cost, changes, MOVES):
        best = least
    return int(best)


def paper_table() -> None:
    print(f"\nOn paper: shares above the bound; search of {MOVES} moves")
    print("jobs car | no positions: rule search | positions: rule search (moves left out) | moved")
    sums = np.zeros(5)
    for jobs in SIZES:
        for car in range(CARS):
            row: list[float] = []
            moved = 0
            for supports in (0.0, 0.5):
                shape = Shape(jobs=jobs, parts=0.12, gates=5, supports=supports, cold=0.0,
                              helper_every=1)  # fmt: skip
                made = ready(garage(car, shape), seed=SEED)
                least = bound(made.problem).finish_minute
                still = bound(made.problem, moves=False).finish_minute
                rule = made.engine.planned_finish(made.policy)
                assert least is not None
                assert still is not None
                assert rule is not None
                best = on_paper(made.engine, made.policy)
                assert least <= best
                row += [rule / least - 1, best / least - 1]
                if supports:
                    row.append(best / still - 1)
                    blocks = walk(made.problem, made.policy).schedule.blocks
                    moved = sum(block.kind == "change" for block in blocks)
            sums += row
            print(
                f"{jobs:4d} {car:3d} | {row[0]:18.1%} {row[1]:6.1%} | {row[2]:15.1%} {row[3]:6.1%}"
                f" {row[4]:17.1%} | {moved:3d} times",
                flush=True,
            )
    mean = sums / (len(SIZES) * CARS)
    print(
        f"    mean | {mean[0]:18.1%} {mean[1]:6.1%} | {mean[2]:15.1%} {mean[3]:6.1%}"
        f" {mean[4]:17.1%}"
    )


def fates_table() -> None:
    print("\nOn fates: what tuning gains, on fates that neither rule has met")
    print("jobs car |  P50  P80  P95 days | 400 moves | 1,500 moves")
    for jobs in (60, *SIZES):
        for car in range(4):
            made = ready(garage(car, Shape(jobs=jobs, parts=0.12, gates=5)), seed=SEED)
            finish = made.engine.run(made.policy, seed=SEED + 1, samples=2000).finish
            days = np.quantile(finish, (0.5, 0.8, 0.95)) / DAY_MINUTES
            gains = []
            for moves in (400, 1500):
                tuned = tuned_rule(made.engine, made.policy, seed=SEED, moves=moves)
                kept = "kept" if tuned.kept else "left"
                gains.append(f"{tuned.gain_days:5.1f} +- {tuned.standard_error_days:.1f} d, {kept}")
            print(
                f"{jobs:4d} {car:3d} | {days[0]:5.0f}{days[1]:5.0f}{days[2]:5.0f}      | "
                + " | ".join(gains),
                flush=True,
            )


def solver_table() -> None:
    print("\nBy a solver: six jobs under every rule, days to the proven soonest finish")
    print("kind   | proven | bound reaches it | best of 31 walks reaches it | solver | 31 walks")
    for kind in KINDS:
        began = time.perf_counter()
        cases = [solved(seed, kind) for seed in range(10)]
        took = time.perf_counter() - began
        began = time.perf_counter()
        for problem, _, _ in cases:
            for _ in range(31):
                walk(problem, Policy(tuple(1 for _ in problem.jobs)))
        walked = time.perf_counter() - began
        proven = [case for case in cases if case[2].status == "proven"]
        tight = sum(bound(p).finish_minute == found.finish_minute for p, _, found in proven)
        reached = sum(best.finish_minute == found.finish_minute for _, best, found in proven)
        print(
            f"{kind:6s} | {len(proven):3d}/10 | {tight:13d}/{len(proven)} | "
            f"{reached:24d}/{len(proven)} | {max(0.0, took - walked) / 10:5.2f} s | "
            f"{walked / 10:5.2f} s",
            flush=True,
        )


def main() -> None:
    warm_up()
    paper_table()
    fates_table()
    solver_table()


if __name__ == "__main__":
    main()
