"""Forecasts held against what came: the scores are the published ones, and tell good from bad.

Definitions: Gneiting and Raftery 2007, Strictly proper scoring rules, prediction, and estimation
(from memory), checked against their own integrals and closed forms with SciPy.
"""

from __future__ import annotations

from itertools import pairwise, product
from math import exp, pi, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, stats

from bareshell.plan.foretold import score_hours, score_parts
from bareshell.plan.lateness import OrderOutcome, SourcePrior
from bareshell.plan.pace_model import Finished
from bareshell.plan.scoring import SHARES, Coverage, crps, pinball, scored

values = st.lists(st.floats(-100, 100), min_size=1, max_size=12)


@given(values, st.floats(-100, 100))
def test_crps_is_the_integral_it_is_defined_by(futures: list[float], came: float) -> None:
    """CRPS = integral of (F(x) - 1{came <= x})^2 dx, section 4.2, summed over the steps of F."""
    edges = sorted([*futures, came])
    total = 0.0
    for left, right in pairwise(edges):
        middle = (left + right) / 2
        cumulative = sum(value <= middle for value in futures) / len(futures)
        total += (cumulative - (came <= middle)) ** 2 * (right - left)
    assert crps(futures, came) == pytest.approx(total, abs=1e-9)


@given(values, st.floats(-100, 100))
def test_crps_is_the_mean_distance_less_half_the_mean_distance_apart(
    futures: list[float], came: float
) -> None:
    """Equation 21, by every pair."""
    off = np.mean([abs(value - came) for value in futures])
    apart = np.mean([abs(a - b) for a, b in product(futures, futures)])
    assert crps(futures, came) == pytest.approx(off - apart / 2, abs=1e-9)


def test_crps_of_many_normal_values_is_the_closed_form() -> None:
    """Section 4.2 for a normal: s (z (2 Phi(z) - 1) + 2 phi(z) - 1 / sqrt(pi))."""
    futures = stats.norm(10, 3).ppf((np.arange(4000) + 0.5) / 4000)
    for came in (4.0, 10.0, 15.5):
        z = (came - 10) / 3
        closed = 3 * (z * (2 * stats.norm.cdf(z) - 1) + 2 * stats.norm.pdf(z) - 1 / sqrt(pi))
        assert crps(list(futures), came) == pytest.approx(closed, rel=2e-3)


def test_crps_is_twice_the_pinball_loss_over_all_shares() -> None:
    """CRPS = 2 * integral over shares of the pinball loss (Laio and Tamea 2007, from memory)."""
    told = stats.norm(10, 3)
    mean = integrate.quad(lambda share: pinball(told.ppf(share), share, 12.0), 0, 1)[0]
    z = 2 / 3
    closed = 3 * (z * (2 * stats.norm.cdf(z) - 1) + 2 * stats.norm.pdf(z) - 1 / sqrt(pi))
    assert 2 * mean == pytest.approx(closed, rel=1e-4)


@given(st.lists(st.floats(0, 50), min_size=3, max_size=30), st.sampled_from(SHARES))
def test_saying_the_true_quantile_costs_least(came: list[float], share: float) -> None:
    """The quantile of what comes has the least mean pinball loss of all values said."""
    costs = {said: sum(pinball(said, share, value) for value in came) for said in came}
    best = float(np.quantile(came, share, method="inverted_cdf"))
    assert costs[best] == pytest.approx(min(costs.values()), abs=1e-9)


def test_right_hopeful_and_cautious_forecasts_are_told_apart() -> None:
    dice = np.random.default_rng(1)
    words = []
    for off in (0.0, -1.5, 1.5):
        cases = [(list(dice.normal(off, 1, 200)), float(dice.normal())) for _ in range(80)]
        words.append(scored("x", "h", cases).coverages[1].word)
    assert words == ["as often as said", "too hopeful", "too cautious"]


def test_a_quantile_in_a_lump_is_not_called_too_cautious_for_it() -> None:
    """Nine in ten such parts are in time, and nine in ten were."""
    told = [0.0] * 90 + [10.0] * 10
    cases = [(told, 0.0)] * 90 + [(told, 10.0)] * 10
    eight = scored("day of a part", "days", cases).coverages[1]
    assert eight.under == 90
    assert eight.expected == pytest.approx(90)
    assert eight.word == "as often as said"


def test_few_cases_say_nothing() -> None:
    assert Coverage(0.8, 0, 9).word == "too few to tell"
    assert scored("x", "h", []).sentence.startswith("No forecast of the x")


def _job(number: int, ratio: float, spread: float = 0.4) -> Finished:
    return Finished(f"j{number}", "", "brakes", 120, 120 * ratio, spread, spread)


def test_learning_helps_an_owner_who_is_slow_and_harms_none_who_is_not() -> None:
    dice = np.random.default_rng(2)
    slow = [_job(n, exp(0.6 + float(dice.normal(0, 0.4)))) for n in range(60)]
    true = [_job(n, exp(float(dice.normal(0, 0.4)))) for n in range(60)]
    helped, level = score_hours(slow), score_hours(true)
    assert helped.skill is not None
    assert helped.skill > 0.15
    assert "takes" in helped.sentence
    assert level.skill is not None
    assert level.skill == pytest.approx(0, abs=0.06)


def test_the_hours_of_an_owner_of_the_model_are_covered_as_often_as_said() -> None:
    """40 seeded owners of 25 jobs; the count within three binomial standard deviations."""
    dice = np.random.default_rng(7)
    under = cases = 0
    for _ in range(40):
        pace = dice.normal(0, 0.3)
        found = score_hours([_job(n, exp(pace + float(dice.normal(0, 0.4)))) for n in range(25)])
        under += found.coverages[1].under
        cases += found.cases
    assert under / cases == pytest.approx(0.8, abs=3 * sqrt(0.16 / cases))


def test_a_job_is_foretold_from_those_before_it_alone() -> None:
    jobs = [_job(n, 1.0) for n in range(20)]
    before = score_hours(jobs[:10])
    assert score_hours([*jobs[:10], _job(99, 4.0)]).crps > before.crps
    assert score_hours(jobs[:10]) == before


def test_parts_are_scored_against_what_their_shop_was_believed_to_be() -> None:
    prior = {"general": SourcePrior(0.2, 4.0, 0.05, 7.0)}
    late = [OrderOutcome("general", "a", days_late=20.0) for _ in range(40)]
    found = score_parts([*late, OrderOutcome("general", "a", None, 3.0)], prior)
    assert found.cases == 40
    assert found.skill is not None
    assert found.skill > 0.2
