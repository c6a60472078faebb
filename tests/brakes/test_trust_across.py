"""Trust held against plain draws and the single solve: shares, locks, floor, left and right."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bareshell.brakes.across import Outcome, different_cases, outcomes, spans
from bareshell.brakes.against import held_against
from bareshell.brakes.examples import small_car
from bareshell.brakes.failures import failures
from bareshell.brakes.figures import gather
from bareshell.brakes.heat_figures import gather_heat
from bareshell.brakes.inverse import locking
from bareshell.brakes.prepared import prepare
from bareshell.brakes.reached import most_without_lock
from bareshell.brakes.sensitivity import Orders, settles
from bareshell.brakes.solve import solve
from bareshell.brakes.starters import STARTERS
from bareshell.brakes.trust import draw, trusted, unknowns_of
from bareshell.brakes.unknowns import Unknown
from bareshell.brakes.yardstick import Asks, Effort, Slow
from bareshell.brakes.yardsticks import yardstick
from bareshell.model.brake import BrakeSystem, Wheel
from bareshell.model.trust import Stated, Trust
from bareshell.whole.brake_others import others_of
from tests.brakes.bare_cars import G, car, one_line_car

FOOT_N = 500.0
FEW = 24


def stated(system: BrakeSystem, part_id: str, **figures: Stated) -> BrakeSystem:
    part = system.part(part_id)
    new = replace(part, figures={**part.figures, **figures})
    return replace(system, parts=tuple(new if p.id == part_id else p for p in system.parts))


# ------------------------------------------------------------------ shares against plain draws


RATIO, MASS, RADIUS = (4.0, 5.5), (900.0, 1250.0), (0.27, 0.30)
FRONT_PADS, REAR_PADS = (0.30, 0.45), (0.28, 0.40)
MASTER_M, BORE_M, DISC_M = 0.01905, 0.038, 0.09


def ranged(low: float, high: float) -> Stated:
    return Stated((low + high) / 2.0, Trust.ASSUMED, low, high)


def bare() -> BrakeSystem:
    """One line, four discs, no losses: what it does is a line of arithmetic."""
    brake = (BORE_M, 0.35, DISC_M)
    system = one_line_car(
        car(1000.0 * G, 2.4, 1.2, 0.5), dict.fromkeys(Wheel, brake), master_bore_m=MASTER_M
    )
    system = stated(system, "pedal", ratio=ranged(*RATIO))
    system = stated(
        system,
        "car",
        laden_mass_kg=ranged(*MASS),
        front_rolling_radius_m=ranged(*RADIUS),
        rear_rolling_radius_m=ranged(*RADIUS),
    )
    for wheel in Wheel:
        pads = FRONT_PADS if wheel.is_front else REAR_PADS
        name = f"caliper-{wheel.value.replace(' ', '-')}"
        system = stated(system, name, pad_friction=ranged(*pads))
    return system


def plainly_drawn(count: int) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Deceleration of as many cars, each figure drawn by itself, in numbers alone."""
    any_of = np.random.default_rng(77)
    ratio, mass, front_r, rear_r, front_mu, rear_mu = (
        any_of.uniform(low, high, count)
        for low, high in (RATIO, MASS, RADIUS, RADIUS, FRONT_PADS, REAR_PADS)
    )
    clamp = FOOT_N * ratio * (BORE_M / MASTER_M) ** 2
    return 4.0 * clamp * DISC_M * (front_mu / front_r + rear_mu / rear_r) / mass


@pytest.mark.parametrize("name", ["un-r13-service", "de-stvzo-service", "uk-cu-service"])
def test_a_share_is_that_of_a_plain_draw_of_the_formula_itself(name: str) -> None:
    system, one = bare(), yardstick(name)
    one = replace(one, load="laden")
    plain = plainly_drawn(400_000)
    # The yardstick is set into the middle of what is reached, so that its share says something.
    level = float(np.quantile(plain, 0.37))
    asks: Asks = Effort(level / G) if isinstance(one.asks, Effort) else Slow(level)
    one = replace(one, asks=asks, forces=replace(one.forces, most_foot_n=FOOT_N))
    drawn = draw(system, gather(system), count=10_000, seed=3)
    found = trusted(drawn, lambda ready: held_against(ready, [one], friction_of_road=4.9))
    assert found.verdicts[0].share == pytest.approx(np.mean(plain >= level), abs=0.015)
    # Nothing that is not in the formula is said to settle it.
    settled = {each.unknown.path.partition(".")[2] for each in found.verdicts[0].settles}
    in_formula = {"ratio", "laden_mass_kg", "pad_friction"}
    assert in_formula <= settled
    assert settled <= in_formula | {"front_rolling_radius_m", "rear_rolling_radius_m"}


def test_with_four_times_as_many_the_share_hardly_moves() -> None:
    system = bare()
    shares = []
    for count, seed in ((5000, 1), (20_000, 8)):
        drawn = draw(system, gather(system), count=count, seed=seed)
        reached = most_without_lock(prepare(system, drawn.figures), FOOT_N, "laden", 4.9)
        shares.append(float(np.mean(np.asarray(reached) > 0.75)))
    assert shares[0] == pytest.approx(shares[1], abs=0.02)


# ------------------------------------------------------------------ left and right


def paths_of(system: BrakeSystem) -> set[tuple[str, ...]]:
    return {each.paths for each in unknowns_of(system, gather(system))}


LEFT, RIGHT = "caliper-front-left.pad_friction", "caliper-front-right.pad_friction"


def test_pads_entered_alike_vary_together_and_entered_differently_apart() -> None:
    both = ranged(0.30, 0.45)
    system = stated(small_car(), "caliper-front-left", pad_friction=both)
    alike = stated(system, "caliper-front-right", pad_friction=both)
    assert (LEFT, RIGHT) in paths_of(alike)
    other = stated(system, "caliper-front-right", pad_friction=ranged(0.30, 0.44))
    assert {(LEFT,), (RIGHT,)} <= paths_of(other)
    drawn = draw(other, gather(other), count=400).figures
    assert abs(np.corrcoef(np.asarray(drawn[LEFT]), np.asarray(drawn[RIGHT]))[0, 1]) < 0.2


def test_front_and_rear_vary_apart_even_when_entered_alike() -> None:
    system = bare()
    for wheel in Wheel:
        name = f"caliper-{wheel.value.replace(' ', '-')}"
        system = stated(system, name, pad_friction=ranged(*FRONT_PADS))
    rear = tuple(path.replace("front", "rear") for path in (LEFT, RIGHT))
    assert {(LEFT, RIGHT), rear} <= paths_of(system)


def test_pipes_are_cut_one_by_one() -> None:
    single = {path for path in paths_of(small_car()) if path[0].endswith(".length_m")}
    pipes = {path for path in single if path[0].startswith("pipe-")}
    assert len(pipes) > 2
    assert all(len(path) == 1 for path in pipes)


# ------------------------------------------------------------------ our own questions


@pytest.mark.parametrize("layout", STARTERS)
def test_questions_and_spans_are_those_of_combinations_one_by_one(layout: str) -> None:
    system = small_car(layout)
    drawn = draw(system, gather(system), count=FEW, seed=4)
    together = outcomes(prepare(system, drawn.figures), FOOT_N)
    alone = [outcomes(prepare(system, drawn.one(each)), FOOT_N) for each in range(FEW)]
    for place, outcome in enumerate(together):
        margins = [float(np.asarray(one[place].margin, dtype=float)) for one in alone]
        found = np.broadcast_to(np.asarray(outcome.margin, dtype=float), (FEW,))
        np.testing.assert_allclose(found, margins, rtol=1e-6, atol=2e-5)
    spanned = spans(prepare(system, drawn.figures), FOOT_N)
    reached = [
        float(np.asarray(most_without_lock(prepare(system, drawn.one(each)), FOOT_N, "laden", 0.8)))
        for each in range(FEW)
    ]
    laden = next(one for one in spanned if one.id == "slowing-laden")
    assert laden.middle == pytest.approx(float(np.median(reached)) * G, rel=1e-6)
    assert all(one.low <= one.middle <= one.high for one in spanned)


@pytest.mark.parametrize("layout", ["front-rear tandem", "diagonal tandem", "single line"])
def test_the_axle_that_locks_first_is_the_one_of_the_lock_order(layout: str) -> None:
    system = small_car(layout)
    cylinders = [part.id for part in system.parts if part.id.startswith("drum-")]
    for name in cylinders:  # drums so fierce that sometimes the rear locks first
        system = stated(system, name, brake_factor=ranged(1.5, 9.0))
    system = stated(system, "car", laden_front_share=ranged(0.35, 0.6))
    drawn = draw(system, gather(system), count=300, seed=6)
    ready = prepare(system, drawn.figures)
    margin = np.asarray(_named(outcomes(ready, FOOT_N), "front-first-laden").margin, dtype=float)
    order = locking(ready, 0.8, "laden")
    asked = np.asarray(order.front_force_n) <= 1500.0
    asked |= np.asarray(order.rear_force_n) <= 1500.0
    told = np.asarray(order.first)
    np.testing.assert_array_equal((margin >= 0.0)[asked], (told == "front")[asked])
    assert 0.05 < np.mean(margin >= 0.0) < 1.0


def _named(found: tuple[Outcome, ...], name: str) -> Outcome:
    return next(one for one in found if one.id == name)


@pytest.mark.parametrize("layout", ["front-rear tandem", "two lines into one caliper"])
def test_the_floor_is_where_the_solve_and_the_failures_have_it(layout: str) -> None:
    system = small_car(layout)
    drawn = draw(system, gather(system), count=60, seed=2)
    found = outcomes(prepare(system, drawn.figures), FOOT_N)
    travel = solve(system, drawn.figures, FOOT_N, "laden").travel
    assert travel is not None
    whole = np.asarray(_named(found, "off-floor").margin)
    np.testing.assert_array_equal(whole < 0.0, np.asarray(travel.on_floor))
    failed = failures(system, drawn.figures, FOOT_N, "laden")
    any_floor = np.any([np.asarray(each.floor_reached) for each in failed], axis=0)
    least = np.asarray(_named(found, "off-floor-failed").margin)
    np.testing.assert_array_equal(least < 0.0, any_floor)


def test_each_failure_that_leaves_other_brakes_is_asked_about_once() -> None:
    system = small_car("two lines into one caliper")
    ready = prepare(system, gather(system).figures)
    alike = {each.alike for each in failures(system, gather(system).figures, FOOT_N, "laden")}
    cases = different_cases(ready)
    assert len({ready.topology(case.state).effect() for case in cases}) == len(cases)
    assert {case.id for case in cases} <= alike


# ------------------------------------------------------------------ hot linings


def test_how_much_friction_stays_hot_is_drawn_and_settles_the_hot_verdict() -> None:
    system, one = small_car(), yardstick("un-r13h-hot")
    hot = gather_heat(system)
    drawn = draw(system, gather(system), hot=hot, count=2000)
    paths = {each.path for each in drawn.unknowns if each.path.endswith("hot_friction_ratio")}
    assert len(paths) == 2  # the pads of one axle, the shoes of the other
    found = trusted(
        drawn, lambda ready: held_against(ready, [one], others=others_of(system, ready))
    ).verdicts[0]
    assert found.is_open
    assert found.settles[0].unknown.path in paths
    few = [
        others_of(system, prepare(system, drawn.one(each)))[one.subject](one).met
        for each in range(FEW)
    ]
    np.testing.assert_array_equal(np.asarray(found.verdict.met)[:FEW], few)


# ------------------------------------------------------------------ measuring the first


@given(
    weights=st.lists(st.integers(1, 9), min_size=3, max_size=5, unique=True),
    level=st.floats(0.25, 0.75),
    seed=st.integers(0, 1000),
)
@settings(max_examples=25, deadline=None)
def test_of_a_sum_the_heaviest_range_is_measured_first(
    weights: list[int], level: float, seed: int
) -> None:
    """Of straight sums, knowing the input of the widest effect takes most of the spread away."""
    count = 4000
    drawn = np.random.default_rng(seed).uniform(0.0, 1.0, (count, len(weights)))
    outcome = drawn @ np.asarray(weights, dtype=float)
    margin = outcome - np.quantile(outcome, level)
    unknowns = tuple(
        Unknown((f"part.{place}",), f"{place}", 0.0, 0.5, 1.0, Trust.ASSUMED, "measure it")
        for place in range(len(weights))
    )
    found = settles(unknowns, Orders(drawn), margin, margin >= 0.0)
    order = sorted(weights, reverse=True)
    first = weights[int(found[0].unknown.words)]
    assert first == order[0] or first / order[0] > 0.85  # a near tie may fall either way
    assert all(each.better_high for each in found)


def test_measuring_what_comes_first_shrinks_the_span_of_the_answer_more() -> None:
    """The same in the figure itself: the deceleration's variance, by drawing it anew."""
    system = bare()
    known = gather(system)
    drawn = draw(system, known, count=4000)

    def spread(one: BrakeSystem) -> float:
        figures = draw(one, gather(one), count=4000).figures
        return float(np.var(most_without_lock(prepare(one, figures), FOOT_N, "laden", 4.9)))

    reached = np.asarray(most_without_lock(prepare(system, drawn.figures), FOOT_N, "laden", 4.9))
    first, second = settles(
        drawn.unknowns, Orders(drawn.drawn), reached, np.ones(4000, dtype=bool)
    )[:2]
    before = spread(system)
    after = [spread(_measured(system, each.unknown)) for each in (first, second)]
    assert after[0] < after[1] < before
    assert 1.0 - after[0] / before == pytest.approx(first.share, abs=0.06)


def _measured(system: BrakeSystem, unknown: Unknown) -> BrakeSystem:
    for path in unknown.paths:
        part, _, name = path.partition(".")
        system = stated(system, part, **{name: Stated(unknown.value, Trust.MEASURED)})
    return system
