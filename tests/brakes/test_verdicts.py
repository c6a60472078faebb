"""Results held against yardsticks, one at a time and ten thousand at a time."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.brakes import verdicts
from bareshell.brakes.distribution import Curves, adhesion_margin, curves, lock_order_margin
from bareshell.brakes.verdict import not_worked_out, share_words
from bareshell.brakes.yardstick import Adhesion, LockOrder, Subject
from bareshell.brakes.yardsticks import YARDSTICKS, yardstick
from bareshell.calc import balance
from bareshell.calc.values import Array
from bareshell.errors import BadInput

KGF, PSI = 9.80665, 6894.757
OLD_ORDER = yardstick("un-r13-lock-order").asks
NEW_ORDER = yardstick("un-r13h-lock-order").asks
BAND = yardstick("fr-1955-lock-order").asks


# ------------------------------------------------------------------------ words and shares


def test_a_verdict_is_said_in_three_ways_only() -> None:
    meets = verdicts.hold_deceleration(yardstick("un-r13-circuit"), 2.9)
    short = verdicts.hold_deceleration(yardstick("un-r13-circuit"), 2.89)
    nothing = not_worked_out(yardstick("un-r13-circuit"), "no pedal ratio")
    assert [each.words for each in (meets, short, nothing)] == [
        "meets 2.9 m/s2",
        "short of 2.9 m/s2",
        "not worked out",
    ]
    assert (meets.met, short.met, nothing.met) == (True, False, None)
    assert short.margin == pytest.approx(-0.01)
    assert (nothing.share, nothing.worst) == (None, None)


def test_many_combinations_are_a_share_and_have_a_worst_one() -> None:
    reached = np.array([3.1, 2.5, 2.95, 4.0])
    verdict = verdicts.hold_deceleration(yardstick("un-r13-circuit"), reached)
    assert verdict.share == 0.75
    assert verdict.worst == 1
    assert verdict.words == "meets 2.9 m/s2 in 75 of 100 combinations"
    np.testing.assert_allclose(np.asarray(verdict.margin), reached - 2.9)


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (1.0, "in all combinations"),
        (0.0, "in no combinations"),
        (0.9999, "in 99.9 of 100 combinations"),
        (0.0001, "in 0.1 of 100 combinations"),
        (0.981, "in 98 of 100 combinations"),
        (0.997, "in 99.7 of 100 combinations"),
    ],
)
def test_a_share_is_never_rounded_to_all_or_none(share: float, words: str) -> None:
    assert share_words(share) == words


@given(st.floats(0.0, 1.0))
def test_no_share_is_called_a_chance(share: float) -> None:
    words = share_words(share)
    assert "combinations" in words
    assert ("all" in words) == (share == 1.0)
    assert ("no " in words) == (share == 0.0)


@pytest.mark.parametrize("one", list(YARDSTICKS))
def test_a_yardstick_held_against_the_wrong_thing_is_refused(one: str) -> None:
    it = yardstick(one)
    holders: dict[Callable[[], object], set[str]] = {
        lambda: verdicts.hold_deceleration(it, 3.0): {"Slow", "Effort"},
        lambda: verdicts.hold_effort(it, 0.5): {"Effort"},
        lambda: verdicts.hold_hot(it, 3.0, 5.0): {"Hot"},
        lambda: verdicts.hold_slope(it, 0.2, 0.2): {"Hold"},
        lambda: verdicts.hold_even(it, 900.0, 800.0): {"Even"},
        lambda: verdicts.hold_volume(it, 1e-4, 1e-4): {"Volume"},
    }
    for hold, kinds in holders.items():
        if type(it.asks).__name__ in kinds:
            hold()
        else:
            with pytest.raises(BadInput, match=it.id):
                hold()


# ------------------------------------------------------------------------ slowing


def test_a_distance_is_held_only_from_the_speed_it_is_asked_from() -> None:
    """Within 98 % of the speed prescribed (read: GRRF-56-3, Annex 4 1.1.2)."""
    from_100 = verdicts.hold_distance(yardstick("fmvss-135-cold"), 69.0, 98.0 / 3.6)
    too_slow = verdicts.hold_distance(yardstick("fmvss-135-cold"), 69.0, 97.9 / 3.6)
    assert from_100.words == "meets 70 m"
    assert from_100.margin == pytest.approx(1.0)
    assert too_slow.words == "not worked out"
    assert "100 km/h" in too_slow.because
    with pytest.raises(BadInput, match="no distance"):
        verdicts.hold_distance(yardstick("de-stvzo-service"), 69.0, 28.0)


def test_a_deceleration_stands_for_force_over_weight() -> None:
    """50 % is 4.90 m/s2 and StVZO's 5.0 is 51 % (computed)."""
    mot = yardstick("uk-mot-service")
    assert verdicts.hold_deceleration(mot, 4.91).met
    assert not verdicts.hold_deceleration(mot, 4.89).met
    assert verdicts.hold_deceleration(mot, 5.0).reached == pytest.approx(0.51, abs=0.005)


def test_hot_brakes_are_held_against_both_figures() -> None:
    hot = yardstick("un-r13h-hot")
    assert verdicts.hold_hot(hot, 4.83, 7.0).met  # 60 % of cold is 4.2: the prescribed figure binds
    assert not verdicts.hold_hot(hot, 4.81, 7.0).met
    assert not verdicts.hold_hot(hot, 5.0, 8.5).met  # 60 % of cold is 5.1
    recovered = yardstick("fmvss-135-recovery")
    met = [verdicts.hold_hot(recovered, 6.0 * share, 6.0).met for share in (0.69, 0.7, 1.5, 1.51)]
    assert met == [False, True, True, False]


# ------------------------------------------------------------------------ the British inspection


@pytest.mark.parametrize(
    ("locked", "braked", "met"), [(3, 4, True), (2, 4, False), (2, 2, True), (1, 2, False)]
)
def test_more_than_half_the_wheels_locked_meets_it(locked: int, braked: int, met: bool) -> None:
    """MOT manual 1.2.1 and 1.4.2 (read): 3 of 4 and 2 of 2 do, 2 of 4 and 1 of 2 do not."""
    for one in ("uk-mot-service", "uk-mot-parking", "uk-mot-secondary"):
        verdict = verdicts.hold_effort(
            yardstick(one), 0.01, wheels_locked=locked, wheels_braked=braked
        )
        assert verdict.met is met
        assert ("by locking" in verdict.because) is met


def test_the_construction_rules_know_no_locking() -> None:
    assert not verdicts.hold_effort(yardstick("uk-cu-service"), 0.4, wheels_locked=4).met


@pytest.mark.parametrize(
    ("left", "right", "met"),
    [
        (200.0, 140.0, True),  # exactly 70 % (read: MOT manual 1.2.1; boundary computed)
        (200.0, 139.0, False),
        (139.0, 200.0, False),
        (40.0, 0.0, None),  # the stronger reads 40 kgf: left aside
        (41.0, 0.0, False),
        (0.0, 0.0, None),
    ],
)
def test_imbalance_at_its_corners(left: float, right: float, met: bool | None) -> None:
    verdict = verdicts.hold_even(yardstick("uk-mot-imbalance"), left * KGF, right * KGF)
    assert verdict.met is met


def test_a_steered_axle_has_a_second_limit() -> None:
    """MOT manual 1.2.1 (b), read: front 100 and 49 kgf is below half."""
    steered = yardstick("uk-mot-imbalance-steered")
    assert not verdicts.hold_even(steered, 100 * KGF, 49 * KGF, steered=True).met
    assert verdicts.hold_even(steered, 100 * KGF, 50 * KGF, steered=True).met
    assert verdicts.hold_even(steered, 100 * KGF, 10 * KGF).met is None


def test_the_weaker_wheel_that_locked_is_left_aside() -> None:
    mot = yardstick("uk-mot-imbalance")
    aside = verdicts.hold_even(mot, 200 * KGF, 100 * KGF, right_locked=True)
    assert aside.met is None
    assert "weaker wheel locked" in aside.because
    stronger = verdicts.hold_even(mot, 200 * KGF, 100 * KGF, left_locked=True)
    assert stronger.met is False


# ------------------------------------------------------------------------ parking and reservoir


def test_a_slope_is_held_both_ways() -> None:
    fmvss = yardstick("fmvss-135-parking")
    assert verdicts.hold_slope(fmvss, 0.21, 0.20).met
    assert not verdicts.hold_slope(fmvss, 0.30, 0.19).met
    assert "5 minutes" in verdicts.hold_slope(fmvss, 0.3, 0.3).because


def test_sixteen_per_cent_on_rollers_does_not_show_twenty() -> None:
    """It holds 16.2 % (sin atan; computed)."""
    from bareshell.calc import slope

    held = slope.slope_held(0.16, 1.0)
    assert held == pytest.approx(0.162, abs=5e-4)
    assert not verdicts.hold_slope(yardstick("un-r13h-parking"), held, held).met


def test_the_german_slope_is_asked_for() -> None:
    rule = yardstick("de-stvzo-parking")
    assert verdicts.hold_slope(rule, 0.3, 0.3).met is None
    assert verdicts.hold_slope(rule, 0.3, 0.3, steepest_climbed=0.28).met
    assert verdicts.hold_slope(yardstick("un-r13h-parking-trailer"), 0.3, 0.3).met is None


def test_a_reservoir_holds_what_its_pistons_take() -> None:
    rule = yardstick("fmvss-135-reservoir")
    assert verdicts.hold_volume(rule, 80e-6, 80e-6).met
    assert verdicts.hold_volume(rule, 80e-6, 79e-6).words == "short of 80 ml"


# ------------------------------------------------------------------------ distribution


def truck(pressures_psi: Array) -> Curves:
    """The textbook's light truck with its valve (inputs from memory), gravity as it is."""
    rear = np.where(pressures_psi <= 290, pressures_psi, 290 + 0.3 * (pressures_psi - 290))
    lbf, inch = 4.4482216152605, 0.0254
    front_n = 2 * 20 * pressures_psi / 12.11 * lbf
    rear_n = 2 * 14 * rear / 12.11 * lbf
    mass = 4074 * 0.45359237
    return curves(
        front_n, rear_n, mass, 108.5 * inch, 108.5 * inch * 1864 / 4074, 20.5 * inch, 9.80665
    )


def test_the_textbook_s_valve_row_by_row() -> None:
    """Gillespie example 3.2: inputs from memory, the table our own arithmetic (regression)."""
    drawn = truck(np.arange(100.0, 800.0, 100.0))
    np.testing.assert_allclose(
        drawn.z, [0.1378, 0.2757, 0.4095, 0.5076, 0.6057, 0.7038, 0.8019], atol=2e-4
    )
    np.testing.assert_allclose(
        drawn.front, [0.143, 0.273, 0.392, 0.508, 0.617, 0.720, 0.818], atol=1e-3
    )
    np.testing.assert_allclose(
        drawn.rear, [0.132, 0.280, 0.437, 0.507, 0.584, 0.670, 0.766], atol=1e-3
    )


def test_the_truck_s_rear_locks_first_in_the_middle_and_the_exception_does_not_save_it() -> None:
    drawn = truck(np.linspace(0.0, 800.0, 81))
    assert isinstance(NEW_ORDER, LockOrder)
    assert isinstance(OLD_ORDER, LockOrder)
    new, old = lock_order_margin(drawn, NEW_ORDER), lock_order_margin(drawn, OLD_ORDER)
    # At the valve's knee, 290 psi and 0.400 g, by hand: front 957.9 lbf on 2517.7, rear 670.6 on
    # 1556.3, so 0.380 and 0.431.
    assert new == pytest.approx(957.9 / 2517.7 - 670.6 / 1556.3, abs=2e-4)
    assert old < 0.0  # it crosses from 0.17 g, and the exception begins at 0.30
    assert old > new


def line(z: Array, slope: float) -> Array:
    return np.asarray((z - 0.1) / slope + 0.2)


@pytest.mark.parametrize("slope", [0.70, 0.85])
def test_a_curve_along_the_line_has_no_margin(slope: float) -> None:
    """At k of 0.2, 0.5, 0.8 z is 0.10, 0.31, 0.52 or 0.10, 0.355, 0.61 (computed)."""
    z = np.linspace(0.0, 0.9, 37)
    k = line(z, slope)
    rule = {
        0.70: balance.prescribed_deceleration_r13h,
        0.85: balance.prescribed_deceleration_71_320,
    }[slope]
    np.testing.assert_allclose(rule(k[k >= 0.2]), z[k >= 0.2], atol=1e-12)
    asks = Adhesion(slope)
    assert adhesion_margin(Curves(z, k, 0.0 * z), asks) == pytest.approx(0.0, abs=1e-12)
    assert adhesion_margin(Curves(z, k + 0.01, 0 * z), asks) == pytest.approx(-0.01 * slope)
    assert adhesion_margin(Curves(z, 0.0 * z, k - 0.01), asks) == pytest.approx(0.01 * slope)


def test_the_corners_of_the_span_are_found_between_the_points() -> None:
    z = np.array([0.0, 1.0])
    asks = Adhesion(0.7)
    # k = 1.2 z: at k = 0.8 z is 0.667, the line 0.52; at k = 0.2 z is 0.167, the line 0.1.
    assert adhesion_margin(Curves(z, 1.2 * z, 0.0 * z), asks) == pytest.approx(0.2 / 1.2 - 0.1)
    assert np.isnan(adhesion_margin(Curves(0.1 * z, 0.12 * z, 0.0 * z), asks))


def test_the_old_rule_lets_the_rear_lead_a_little_in_the_middle() -> None:
    """0.30 to 0.45 g within 0.05 of k = z (from memory)."""
    assert isinstance(OLD_ORDER, LockOrder)
    z = np.linspace(0.0, 1.0, 1001)
    inside = (z > 0.32) & (z < 0.43)
    leads = Curves(z, z, z - 0.02 + np.where(inside, 0.06, 0.0))
    assert lock_order_margin(leads, OLD_ORDER) == pytest.approx(0.01, abs=1e-9)
    assert lock_order_margin(leads, NEW_ORDER) == pytest.approx(-0.04)  # type: ignore[arg-type]
    too_far = Curves(z, z, z - 0.02 + np.where(inside, 0.08, 0.0))
    assert lock_order_margin(too_far, OLD_ORDER) == pytest.approx(-0.01, abs=1e-9)
    outside = Curves(z, z, z - 0.02 + np.where((z > 0.47) & (z < 0.5), 0.06, 0.0))
    assert lock_order_margin(outside, OLD_ORDER) == pytest.approx(-0.04)


def test_the_other_way_of_the_french_order() -> None:
    """Both within k = z +/- 0.08 from 0.15 to 0.30 g (read: arrete, annex 3.1.1)."""
    assert isinstance(BAND, LockOrder)
    z = np.linspace(0.0, 0.6, 61)
    near = Curves(z, z - 0.03, z + 0.05)
    far = Curves(z, z - 0.03, z + 0.09)
    assert lock_order_margin(near, BAND) == pytest.approx(0.03)
    assert lock_order_margin(far, BAND) == pytest.approx(-0.01)
    front_first = Curves(z, z + 0.2, z)
    assert lock_order_margin(front_first, BAND) == pytest.approx(0.2)


shares = st.floats(0.02, 0.6)


@given(st.lists(shares, min_size=4, max_size=9), st.lists(shares, min_size=9, max_size=9))
def test_margins_against_a_fine_search(steps: list[float], ups: list[float]) -> None:
    """Any curves at all, searched point by point on ten thousand of them."""
    z = np.concatenate([[0.0], np.cumsum(steps)])
    front = np.concatenate([[0.0], np.cumsum(ups[: len(steps)])])
    rear = front[::-1].max() * np.linspace(0, 1, len(z)) ** 1.5
    drawn = Curves(z, front, rear)
    fine = np.linspace(0.0, z[-1], 10_001)
    f, r = np.interp(fine, z, front), np.interp(fine, z, rear)
    for asks in (NEW_ORDER, OLD_ORDER, BAND):
        assert isinstance(asks, LockOrder)
        found = lock_order_margin(drawn, asks)
        margin = f - r
        if asks.crossing:
            low, high, within = asks.crossing
            eased = np.maximum(margin, fine + within - r)
            margin = np.where((fine > low) & (fine < high), eased, margin)
        if asks.or_band:
            off = np.maximum(np.abs(f - fine), np.abs(r - fine))
            margin = np.maximum(margin, asks.or_band - off)
        asked = (fine >= asks.from_z) & (fine <= asks.to_z)
        if asked.any():
            slack = 3.0 * (z[-1] / 1e4) * (1 + max(np.abs(np.diff(front) / np.diff(z)).max(), 3.0))
            assert found <= margin[asked].min() + 1e-9
            assert found >= margin[asked].min() - slack * 5
    for slope in (0.7, 0.85):
        found = adhesion_margin(drawn, Adhesion(slope))
        worst = np.inf
        for used in (f, r):
            asked = (used >= 0.2) & (used <= 0.8)
            if asked.any():
                worst = min(worst, float((fine - 0.1 - slope * (used - 0.2))[asked].min()))
        if np.isfinite(worst):
            assert found <= worst + 1e-9


def test_samples_together_are_the_samples_alone() -> None:
    push = np.linspace(0.0, 1.0, 41)
    fronts = np.array([6500.0, 7000.0, 5000.0])
    rears = np.array([1500.0, 5000.0, 7500.0])
    masses = np.array([1000.0, 1100.0, 1300.0])
    for one, hold in (
        ("un-r13h-adhesion", verdicts.hold_adhesion),
        ("un-r13h-lock-order", verdicts.hold_lock_order),
        ("un-r13-lock-order", verdicts.hold_lock_order),
    ):
        together = hold(
            yardstick(one),
            fronts[:, None] * push,
            rears[:, None] * push,
            masses,
            2.4,
            np.array([1.05, 1.1, 1.15]),
            0.53,
        )
        assert np.asarray(together.margin).shape == (3,)
        for i in range(3):
            alone = hold(
                yardstick(one),
                fronts[i] * push,
                rears[i] * push,
                masses[i],
                2.4,
                1.05 + 0.05 * i,
                0.53,
            )
            assert np.asarray(together.margin)[i] == pytest.approx(alone.margin)
    assert together.share is not None
    assert 0.0 < together.share < 1.0


def test_the_annex_takes_gravity_as_ten() -> None:
    """Read: arrete of 1955, annex, paragraph 2. A deceleration of 5 m/s2 is z of 0.5 there."""
    drawn = curves(np.array([0.0, 3500.0]), np.array([0.0, 1500.0]), 1000.0, 2.4, 1.1, 0.5, 10.0)
    assert drawn.z[-1] == pytest.approx(0.5)


def test_brakes_too_weak_to_say_are_said_to_be() -> None:
    push = np.array([0.0, 100.0])
    verdict = verdicts.hold_lock_order(
        yardstick("un-r13h-lock-order"), push, push, 1000.0, 2.4, 1.1, 0.5
    )
    assert verdict.words == "not worked out"
    assert "do not slow the car enough" in verdict.because
    assert yardstick("un-r13h-lock-order").subject is Subject.LOCK_ORDER
    with pytest.raises(BadInput, match="no use of adhesion"):
        verdicts.hold_adhesion(yardstick("un-r13h-lock-order"), push, push, 1000.0, 2.4, 1.1, 0.5)
    with pytest.raises(BadInput, match="no order of locking"):
        verdicts.hold_lock_order(yardstick("un-r13h-adhesion"), push, push, 1000.0, 2.4, 1.1, 0.5)
