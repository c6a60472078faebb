"""The owner's pace: the closed answer is the textbook's, and a known truth is found again.

The form is the conjugate normal linear model, Gelman et al., Bayesian Data Analysis, 3rd ed.,
sections 3.3 and 14.2 (from memory): worked here with whole matrices and checked against SciPy's
own distributions.
"""

from __future__ import annotations

from math import exp, log, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, stats

from bareshell.plan.pace_model import (
    COMMON_SPREAD,
    LEAST_SPREAD,
    SPREAD_SHAPE,
    SYSTEM_SPREAD,
    Finished,
    learn_pace,
    offset_and_spread,
)

SYSTEMS = ("brakes", "fuel", "electrics", "interior")


def done(number: int, system: str, ratio: float, spread: float = 0.4) -> Finished:
    """A job with an even spread that took so many times its estimate."""
    return Finished(f"j{number}", f"Job {number}", system, 120, 120 * ratio, spread, spread)


jobs_done = st.lists(
    st.builds(
        done,
        st.just(1),
        st.sampled_from(SYSTEMS),
        st.floats(0.4, 2.5),
        st.floats(0.3, 0.8),
    ),
    max_size=30,
)


@given(jobs_done)
def test_it_is_the_textbooks_linear_model(jobs: list[Finished]) -> None:
    """V = (V0^-1 + X'WX)^-1, m = V X'Wy, b = b0 + (y'Wy - m'V^-1 m) / 2, by whole matrices."""
    belief = learn_pace(jobs)
    systems = [one.system for one in belief.systems]
    design = np.zeros((len(jobs), 1 + len(systems)))
    design[:, 0] = 1
    for row, job in enumerate(jobs):
        design[row, 1 + systems.index(job.system)] = 1
    weights = np.diag([max(job.below, LEAST_SPREAD) ** -2 for job in jobs])
    ratios = np.array([job.ratio for job in jobs])
    prior = np.diag([COMMON_SPREAD**-2] + [SYSTEM_SPREAD**-2] * len(systems))
    precision = prior + design.T @ weights @ design
    covariance = np.linalg.inv(precision)
    mean = covariance @ design.T @ weights @ ratios
    assert log(belief.common.factor) == pytest.approx(mean[0], abs=1e-9)
    assert belief.common.spread == pytest.approx(sqrt(covariance[0, 0]))
    scale = SPREAD_SHAPE - 1 + (ratios @ weights @ ratios - mean @ precision @ mean) / 2
    assert belief.spread_scale == pytest.approx(scale)
    assert belief.spread_shape == SPREAD_SHAPE + len(jobs) / 2
    for at, one in enumerate(belief.systems, 1):
        both = covariance[0, 0] + covariance[at, at] + 2 * covariance[0, at]
        assert log(one.factor) == pytest.approx(mean[0] + mean[at], abs=1e-9)
        told = (one.common_share * belief.common.spread) ** 2 + one.spread**2
        assert told == pytest.approx(both)
        shared = one.common_share * belief.common.spread**2
        assert shared == pytest.approx(covariance[0, 0] + covariance[0, at])


@given(jobs_done, st.randoms())
def test_the_order_in_which_jobs_were_done_says_nothing(jobs: list[Finished], dice: object) -> None:
    shuffled = list(jobs)
    dice.shuffle(shuffled)  # type: ignore[attr-defined]
    one, other = learn_pace(jobs), learn_pace(shuffled)
    assert one.common.factor == pytest.approx(other.common.factor)
    for pace in one.systems:
        assert other.of(pace.system).factor == pytest.approx(pace.factor)


@given(st.floats(0.5, 2.0), st.integers(1, 40))
def test_the_record_draws_the_pace_from_the_estimates_towards_itself(
    ratio: float, count: int
) -> None:
    few = learn_pace([done(n, "brakes", ratio) for n in range(count)])
    more = learn_pace([done(n, "brakes", ratio) for n in range(2 * count)])
    for belief in (few, more):
        common, own = log(belief.common.factor), log(belief.of("brakes").factor)
        assert abs(common) <= abs(own) + 1e-12 <= abs(log(ratio)) + 2e-12
        assert common * log(ratio) >= 0
    assert abs(log(more.of("brakes").factor)) >= abs(log(few.of("brakes").factor)) - 1e-12


def test_a_system_that_is_slow_is_told_from_the_others() -> None:
    jobs = [done(n, "brakes", 1.5) for n in range(20)] + [done(n, "fuel", 1.0) for n in range(20)]
    belief = learn_pace(jobs)
    assert belief.of("brakes").factor > belief.of("interior").factor > belief.of("fuel").factor
    assert belief.of("interior") is belief.common
    assert belief.of("brakes").sentence.startswith("You run 1.4 times your estimates on brakes")


def test_a_sure_estimate_weighs_more() -> None:
    sure, vague = done(1, "brakes", 2.0, 0.3), done(2, "brakes", 1.0, 0.9)
    assert learn_pace([sure, vague]).common.factor > learn_pace([vague]).common.factor
    other = [done(1, "brakes", 2.0, 0.9), done(2, "brakes", 1.0, 0.3)]
    assert learn_pace([sure, vague]).common.factor > learn_pace(other).common.factor


def test_one_slip_of_the_pen_does_not_carry_the_pace_away() -> None:
    steady = [done(n, "brakes", 1.0) for n in range(20)]
    assert learn_pace([*steady, done(99, "brakes", 1000.0)]).common.factor < 1.1


def test_hours_that_spread_wider_than_estimated_are_said_to() -> None:
    tight = [done(n, "brakes", 1.0) for n in range(40)]
    loose = [done(n, "brakes", exp(0.9 * (-1) ** n)) for n in range(40)]
    assert learn_pace(tight).wider < 0.6
    assert learn_pace(loose).wider > 1.4


@pytest.mark.parametrize(("below", "above"), [(0.3, 0.3), (0.2, 0.6), (0.5, 0.1)])
def test_the_mean_and_spread_of_two_halves_are_what_integrating_gives(
    below: float, above: float
) -> None:
    """Against scipy.integrate over the two half normals."""

    def expected(power: int) -> float:
        def part(z: float) -> float:
            value = z * (below if z < 0 else above)
            return float(value**power * stats.norm.pdf(z))

        return float(integrate.quad(part, -9, 0)[0] + integrate.quad(part, 0, 9)[0])

    offset, spread = offset_and_spread(below, above)
    assert offset == pytest.approx(expected(1), abs=1e-6)
    assert spread**2 == pytest.approx(expected(2) - expected(1) ** 2, abs=1e-6)


def test_known_paces_are_found_again_as_often_as_the_ranges_say() -> None:
    """400 seeded owners drawn from the model; eight in ten lie within the range that is shown.

    The count is held against its binomial spread (three standard deviations).
    """
    dice = np.random.default_rng(11)
    owners, common, brakes = 400, 0, 0
    for _ in range(owners):
        wider = np.sqrt((SPREAD_SHAPE - 1) / dice.gamma(SPREAD_SHAPE))
        pace = dice.normal(0, COMMON_SPREAD) * wider
        own = {system: dice.normal(0, SYSTEM_SPREAD) * wider for system in SYSTEMS}
        jobs = []
        for number in range(30):
            system = SYSTEMS[number % 4]
            luck = dice.normal(0, 0.4) * wider
            jobs.append(done(number, system, float(np.exp(pace + own[system] + luck))))
        belief = learn_pace(jobs)
        common += belief.common.low <= np.exp(pace) <= belief.common.high
        found = belief.of("brakes")
        brakes += found.low <= np.exp(pace + own["brakes"]) <= found.high
    allowed = 3 * sqrt(0.8 * 0.2 / owners)
    assert common / owners == pytest.approx(0.8, abs=allowed)
    assert brakes / owners == pytest.approx(0.8, abs=allowed)
