"""Whether to believe the forecast: 400 simulated restorers, 1,000 futures each.

Run it as ``python benchmarks/plan/restorers.py`` from the top of the project. The tests do the
same with fewer. Each restorer has a truth that only this script knows; the share of finishes under
each date is shown beside what it should be and two standard deviations of such a count.
"""

from __future__ import annotations

import sys
import time
from math import sqrt
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent.parent))

import numpy as np

from bareshell.plan.engine import warm_up
from bareshell.plan.scoring import crps
from tests.plan.restorer import a_case

RESTORERS = 400
SAMPLES = 1000
DAY_MINUTES = 24 * 60


def main() -> None:
    warm_up()
    began = time.perf_counter()
    cases = [a_case(seed, samples=SAMPLES) for seed in range(RESTORERS)]
    took = time.perf_counter() - began
    print(f"{RESTORERS} restorers, {SAMPLES} futures each, {took:.0f} s")
    for name, share in (("p50", 0.5), ("p80", 0.8), ("p95", 0.95)):
        under = np.mean([c.came_minute <= getattr(c.forecast, name).minute for c in cases])
        give = 2 * sqrt(share * (1 - share) / RESTORERS)
        print(f"finishes under {name}: {under:.3f}, to be {share} give or take {give:.3f}")
    for system in ("brakes", "fuel", "electrics"):
        held = np.mean(
            [c.pace.of(system).low <= c.truth.pace(system) <= c.pace.of(system).high for c in cases]
        )
        off = np.mean([abs(np.log(c.pace.of(system).factor / c.truth.pace(system))) for c in cases])
        print(f"pace of {system}: {held:.3f} within the eight in ten range, off by {off:.3f}")
    scores = [crps(list(c.forecast.futures), c.came_minute) / DAY_MINUTES for c in cases]
    middle = [abs(c.came_minute - c.forecast.p50.minute) / DAY_MINUTES for c in cases]
    print(f"CRPS {np.mean(scores):.1f} days; P50 off by {np.mean(middle):.1f} days on average")


if __name__ == "__main__":
    main()
