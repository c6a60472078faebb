"""How good the plans are: how far above the bound, and what tuning gains on fresh fates.

Run it as ``python benchmarks/plan/quality.py`` from the top of the project; it takes a minute.
The cars are invented and harder than most: a helper every other Saturday, an unheated garage.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from bareshell.plan.engine import warm_up
from bareshell.plan.ready import ready
from bareshell.plan.road import road
from bareshell.plan.tuning import tuned_rule
from tests.plan.garages import Shape, garage

DAY_MINUTES = 24 * 60
SIZES = (60, 150, 300, 400)
CARS = 4
SEED = 1


def main() -> None:
    warm_up()
    print("jobs car | plan above bound | P50 P80 P95 in days | moves of the car | tuning gains")
    for jobs in SIZES:
        for car in range(CARS):
            problem = garage(car, Shape(jobs=jobs, parts=0.12, gates=5))
            made = ready(problem, seed=SEED)
            ahead = road(problem, seed=SEED, policy=made.policy)
            assert not ahead.violations
            assert ahead.forecast is not None
            tuned = tuned_rule(made.engine, made.policy, seed=SEED)
            days = "  ".join(
                f"{quantile.minute / DAY_MINUTES:5.0f}"
                for quantile in (ahead.forecast.p50, ahead.forecast.p80, ahead.forecast.p95)
            )
            moves = sum(block.kind == "change" for block in ahead.schedule.blocks)
            kept = "kept" if tuned.kept else "left"
            print(
                f"{jobs:4d} {car:3d} | {ahead.gap_share or 0:16.1%} | {days} | {moves:4d} | "
                f"{tuned.gain_days:5.1f} +- {tuned.standard_error_days:.1f} days, {kept}"
            )


if __name__ == "__main__":
    main()
