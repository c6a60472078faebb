"""Figures of regulations and test rules, each with its source and how far it was read.

*Read*: seen in the text. *From memory*: recalled. What is only our own arithmetic is said to be so.
"""

from __future__ import annotations

import numpy as np
import pytest

from bareshell.calc import balance, slope, stopping

FOOT = 0.3048
MPH = 0.44704
KMH = 1 / 3.6


@pytest.mark.parametrize(
    ("squared", "deceleration", "metres"),
    [
        (0.0060, 6.43, 70),  # UN R13-H type-0 (memory); FMVSS 135 S7.5, 70 m (read, 11409.MLS)
        (0.0158, 2.44, 168),  # UN R13-H secondary; FMVSS 135 S7.10 (memory)
        (0.0067, 5.76, 77),  # UN R13-H engine connected; FMVSS 135 S7.6 (memory)
        (0.0080, 4.82, 90),  # UN R13-H hot performance (memory)
        (0.0075, 5.14, 85),  # FMVSS 135 S7.8 (memory)
        (0.0100, 3.86, 110),  # FMVSS 135 S7.9 (memory)
        (0.0079, 4.88, 89),  # FMVSS 135 S7.14 alternative (memory)
    ],
)
def test_a_regulation_s_distance_and_deceleration_are_a_pair(
    squared: float, deceleration: float, metres: int
) -> None:
    distance = stopping.prescribed_stopping_distance(100 * KMH, deceleration)
    assert distance == pytest.approx(0.1 * 100 + squared * 100**2, abs=0.3)
    assert round(distance) == metres


@pytest.mark.parametrize(
    ("divisor", "deceleration"),
    [(150.0, 5.8), (75.0, 2.9)],  # UN R13 rev. 4, Annex 4: service (memory), secondary (read)
)
def test_the_older_rule_s_pairs(divisor: float, deceleration: float) -> None:
    older = stopping.prescribed_stopping_distance(80 * KMH, deceleration)
    assert older == pytest.approx(0.1 * 80 + 80**2 / divisor, rel=3e-3)


def test_mean_fully_developed_deceleration_has_the_regulation_s_constant() -> None:
    """GRRF-56-3, R13 Annex 4 1.1.2 (read): (v_b^2 - v_e^2) / (25.92 (s_e - s_b)) in km/h."""
    from_definition = (80.0**2 - 10.0**2) / (25.92 * (62.0 - 20.0))
    got = stopping.mean_fully_developed_deceleration(80 * KMH, 10 * KMH, 20.0, 62.0)
    assert got == pytest.approx(from_definition, rel=1e-12)


def test_the_first_american_requirement() -> None:
    """FMVSS 105 as of 1968: 20 ft/s2 from 60 mph is 194 ft (read, NHTSA letter of 29 Apr 1970)."""
    feet = stopping.stopping_distance(60 * MPH, 20 * FOOT, 0.0, 0.0) / FOOT
    assert feet == pytest.approx(194, abs=0.5)
    assert feet == pytest.approx(193.6, abs=0.05)


def test_braking_distances_of_the_highway_code_are_one_deceleration() -> None:
    """20 to 70 mph: 20, 45, 80, 125, 180, 245 ft (read second-hand)."""
    speeds = np.array([20, 30, 40, 50, 60, 70]) * MPH
    feet = np.array([20, 45, 80, 125, 180, 245.0])
    slowing = stopping.deceleration_over_distance(speeds, feet * FOOT)
    np.testing.assert_allclose(slowing / FOOT, 21.51, atol=0.005)
    np.testing.assert_allclose(stopping.share_of_g(slowing), 0.669, atol=5e-4)
    np.testing.assert_allclose(slowing, 6.56, atol=0.005)


def test_lines_of_the_use_of_adhesion() -> None:
    """0.85: arrete of 1955, annex (read). 0.7: R13-H Annex 5 (from memory). Values computed."""
    k = np.array([0.2, 0.5, 0.8])
    np.testing.assert_allclose(balance.prescribed_deceleration_r13h(k), [0.10, 0.31, 0.52])
    np.testing.assert_allclose(balance.prescribed_deceleration_71_320(k), [0.10, 0.355, 0.61])
    assert balance.prescribed_deceleration_r13h(0.0) == 0.0
    assert balance.prescribed_deceleration_71_320(0.0) == 0.0


def test_german_rule_as_a_decelerometer_shows_it() -> None:
    """StVZO s.41 (read): 5.0 m/s2."""
    assert stopping.share_of_g(5.0) == pytest.approx(0.51, abs=0.005)
    assert stopping.deceleration_from_share(0.50) == pytest.approx(4.90, abs=0.005)


@pytest.mark.parametrize(
    ("higher", "lower", "below_70", "below_50"),
    [
        (200.0, 140.0, False, False),  # exactly 0.7
        (200.0, 139.0, True, False),
        (100.0, 49.0, True, True),
        (100.0, 50.0, True, False),  # exactly 0.5
    ],
)
def test_roller_test_on_its_limits(
    higher: float, lower: float, below_70: bool, below_50: bool
) -> None:
    """MOT manual 1.2.1 (b) (rule read, cases computed)."""
    for pair in ((higher, lower), (lower, higher)):
        ratio = stopping.weaker_wheel_ratio(*pair)
        assert (ratio < 0.7, ratio < 0.5) == (below_70, below_50)
        assert stopping.wheel_imbalance(*pair) == pytest.approx(1 - ratio)


def test_roller_test_when_wheels_lock() -> None:
    """MOT manual 1.2.1: more than half (rule read, cases computed)."""
    met = [stopping.share_of_wheels_locked(*case) > 0.5 for case in ((3, 4), (2, 4), (2, 2))]
    assert met == [True, False, True]


def test_pull_down_a_slope() -> None:
    """12, 16, 18, 20 and 30 per cent: trigonometry."""
    grades = np.array([0.12, 0.16, 0.18, 0.20, 0.30])
    pulls = slope.slope_pull(np.ones(5), grades)
    np.testing.assert_allclose(pulls, np.sin(np.arctan(grades)), rtol=1e-12)
    np.testing.assert_allclose(pulls, [0.1191, 0.1580, 0.1772, 0.1961, 0.2873], atol=5e-5)


def test_a_roller_test_s_16_per_cent_does_not_show_20() -> None:
    held = slope.slope_held(0.16, 1.0)
    assert held == pytest.approx(0.162, abs=5e-4)
    assert held < 0.20


def test_tyres_of_a_parked_car() -> None:
    """a/L 0.45, h/L 0.22, rear braked (regression only)."""
    grades = np.array([0.16, -0.16, 0.20, -0.20])
    one = np.ones(4)
    needed = slope.rear_parking_adhesion(grades, one, 0.45 * one, 0.22 * one)
    np.testing.assert_allclose(needed, [0.330, 0.386, 0.405, 0.493], atol=5e-4)


def test_parked_nose_up_the_rear_holds_better_when_the_weight_is_behind() -> None:
    """Jazar, p. 48 (read): rear better than front, nose up, when a >= b."""
    for behind in (1.2, 1.4):
        rear = slope.rear_slope_limit(0.6, 2.4, behind, 0.55)
        assert rear > slope.front_slope_limit(0.6, 2.4, behind, 0.55)
