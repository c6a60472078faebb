"""Whether to believe the forecast: simulated restorers whose truth is known, and only to the test.

`benchmarks/plan/restorers.py` does the same with 400 of them and 1,000 futures each.
"""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from scipy import stats

from tests.plan.restorer import Case, a_case

RESTORERS = 100
SAMPLES = 300


@pytest.fixture(scope="module")
def cases() -> list[Case]:
    return [a_case(seed, samples=SAMPLES) for seed in range(RESTORERS)]


@pytest.mark.parametrize(("name", "share"), [("p50", 0.5), ("p80", 0.8), ("p95", 0.95)])
def test_as_many_finishes_lie_under_each_date_as_it_says(
    cases: list[Case], name: str, share: float
) -> None:
    """The count against its binomial spread: three standard deviations."""
    under = sum(case.came_minute <= getattr(case.forecast, name).minute for case in cases)
    assert under / RESTORERS == pytest.approx(share, abs=3 * sqrt(share * (1 - share) / RESTORERS))


def test_where_finishes_lie_among_their_futures_is_spread_evenly(cases: list[Case]) -> None:
    """Dawid 1984 (from memory): the ranks of right forecasts are uniform."""
    ranks = [np.mean([f <= case.came_minute for f in case.forecast.futures]) for case in cases]
    spread = np.histogram(ranks, bins=5, range=(0, 1))[0]
    assert stats.chisquare(spread).pvalue > 0.001


def test_paces_are_found_again(cases: list[Case]) -> None:
    """Eight in ten lie within the range that is shown."""
    found = [
        case.pace.of(system).low <= case.truth.pace(system) <= case.pace.of(system).high
        for case in cases
        for system in ("brakes", "fuel")
    ]
    # Two systems of one owner share his pace, so they count for little more than one.
    assert np.mean(found) == pytest.approx(0.8, abs=3 * sqrt(0.16 / RESTORERS))


def test_forecasts_tell_quick_owners_from_slow_ones(cases: list[Case]) -> None:
    """What is learned moves the date the right way."""
    slow = [case.truth.common for case in cases]
    learned = [np.log(case.pace.common.factor) for case in cases]
    assert stats.spearmanr(slow, learned).statistic > 0.7


def test_the_same_restorer_gets_the_same_forecast_whatever_the_threads() -> None:
    one, two = (a_case(3, samples=100, threads=threads) for threads in (1, 2))
    assert one.forecast == two.forecast
    assert one.came_minute == two.came_minute
