"""Trust in a verdict: what is drawn, in how many combinations it is met, what would settle it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from scipy import stats

from bareshell.brakes.against import held_against
from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import Gathered, gather
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.sensitivity import Orders, first_order_shares
from bareshell.brakes.trust import Combinations, draw, trusted, unknowns_of
from bareshell.brakes.verdict import Verdict
from bareshell.brakes.yardsticks import yardstick
from bareshell.model.brake import BrakeSystem
from bareshell.model.trust import Stated, Trust


def vague(layout: str = "front-rear tandem") -> BrakeSystem:
    """A car that nobody has weighed, with linings of unknown friction."""
    shares = {
        "driver_only_front_share": Stated(0.54, Trust.ASSUMED, 0.48, 0.58),
        "laden_front_share": Stated(0.47, Trust.ASSUMED, 0.42, 0.53),
        "laden_mass_kg": Stated(1280.0, Trust.DATA_SHEET, 1200.0, 1350.0),
    }
    left_out = {"pad_friction", "cg_height_m", "laden_cg_height_m", "brake_factor"}
    base = small_car(layout)
    parts = []
    for part in base.parts:
        figures = {name: each for name, each in part.figures.items() if name not in left_out}
        parts.append(replace(part, figures=figures | (shares if part.id == "car" else {})))
    return replace(base, parts=tuple(parts))


def against(*names: str) -> Callable[[Prepared], Iterable[Verdict]]:
    chosen = [yardstick(name) for name in names]
    return lambda ready: held_against(ready, chosen)


CAR = vague()
DRAWN = draw(CAR, gather(CAR), count=2000)


# ------------------------------------------------------------------ what is drawn


def test_every_piece_of_every_range_is_drawn_from_once() -> None:
    low = np.array([each.low for each in DRAWN.unknowns])
    high = np.array([each.high for each in DRAWN.unknowns])
    pieces = np.floor((DRAWN.drawn - low) / (high - low) * DRAWN.count).astype(int)
    for column in np.sort(pieces, axis=0).T:
        np.testing.assert_array_equal(column, np.arange(DRAWN.count))


def test_unknowns_are_drawn_apart_from_each_other() -> None:
    """No pair goes together more than chance has it (rank correlation by a general library)."""
    correlated = np.asarray(stats.spearmanr(DRAWN.drawn[:, :12]).statistic)
    off_diagonal = correlated[~np.eye(12, dtype=bool)]
    assert np.max(np.abs(off_diagonal)) < 4.5 / math.sqrt(DRAWN.count)


def test_pads_of_one_axle_are_one_unknown_and_each_measured_figure_its_own() -> None:
    by_path = {each.path: each for each in DRAWN.unknowns}
    pads = by_path["caliper-front-left.pad_friction"]
    assert pads.paths == tuple(f"caliper-front-{side}.pad_friction" for side in ("left", "right"))
    assert pads.words == "friction of the pads (front left caliper and 1 like it)"
    left, right = (DRAWN.figures[path] for path in pads.paths)
    assert left is right
    system = CAR
    for side in ("left", "right"):
        caliper = system.part(f"caliper-front-{side}")
        measured = Stated(0.38, Trust.MEASURED, 0.36, 0.40)
        new = replace(caliper, figures={**caliper.figures, "pad_friction": measured})
        system = replace(
            system, parts=tuple(new if p.id == caliper.id else p for p in system.parts)
        )
    paths = {each.paths for each in unknowns_of(system, gather(system))}
    assert ("caliper-front-left.pad_friction",) in paths
    assert ("caliper-front-right.pad_friction",) in paths


def test_what_is_exact_or_counted_is_not_drawn() -> None:
    drawn = {path for each in DRAWN.unknowns for path in each.paths}
    assert "master.bore_m" not in drawn
    assert "parking.clicks" not in drawn
    assert isinstance(DRAWN.figures["parking.clicks"], float)
    assert set(DRAWN.figures) == set(gather(CAR).figures)


def test_the_same_seed_draws_the_same() -> None:
    again = draw(CAR, gather(CAR), count=2000)
    np.testing.assert_array_equal(again.drawn, DRAWN.drawn)
    other = draw(CAR, gather(CAR), count=2000, seed=2)
    assert not np.array_equal(other.drawn, DRAWN.drawn)


# ------------------------------------------------------------------ shares


@pytest.mark.parametrize(
    "name", ["un-r13h-service-engine", "un-r13h-adhesion", "uk-mot-service-2010", "un-r13h-circuit"]
)
def test_a_share_is_that_of_combinations_worked_out_one_by_one(name: str) -> None:
    few = draw(CAR, gather(CAR), count=40)
    together = trusted(few, against(name)).verdicts[0]
    alone = [
        next(iter(against(name)(prepare(CAR, few.one(number))))) for number in range(few.count)
    ]
    assert together.share == np.mean([each.met for each in alone])
    margins = [float(np.asarray(each.margin, dtype=float)) for each in alone]
    np.testing.assert_allclose(
        np.broadcast_to(np.asarray(together.verdict.margin), 40), margins, rtol=1e-7, atol=1e-9
    )
    assert together.worst_margin == pytest.approx(min(margins))


def test_the_worst_combination_is_told_by_the_inputs_that_matter() -> None:
    found = trusted(DRAWN, against("un-r13h-service-engine")).verdicts[0]
    assert found.is_open
    assert found.share_said.startswith("in ")
    assert found.share_said.endswith("of 100 combinations")
    told = {unknown.path for unknown, _ in found.worst}
    assert told == {each.unknown.path for each in found.settles}
    for unknown, value in found.worst:
        assert unknown.low <= value <= unknown.high


def test_with_nothing_unknown_all_or_none_meet_it() -> None:
    base = small_car()
    lines = tuple(
        replace(line, figures={name: Stated(each.value) for name, each in line.figures.items()})
        for line in base.lines
    )
    base = replace(base, lines=lines)
    exact = Gathered(gather(base).figures, (), ())
    found = trusted(draw(base, exact, count=50), against("de-stvzo-service", "uk-mot-pedal"))
    assert found.unknowns == 0
    assert found.verdicts[0].share in {0.0, 1.0}
    assert found.verdicts[0].settles == ()
    assert found.verdicts[1].share is None
    assert found.verdicts[1].share_said == "not worked out"
    assert found.measure_first == ()


def test_weigh_the_axles_first() -> None:
    found = trusted(draw(CAR, gather(CAR)), against("un-r13h-adhesion", "un-r13h-service-engine"))
    first = found.measure_first[0]
    assert first.unknown.path == "car.laden_front_share"
    assert first.advice.startswith("weigh each axle loaded, or take the plated axle weights: ")
    assert first.advice.endswith(
        'per cent of whether "distribution between the axles" (UN R13-H) is met'
    )
    assert found.verdicts[0].settles[0].advice.endswith("per cent of whether this is met")
    assert 0.2 < first.share < 0.9
    assert [each.share for each in found.measure_first] == sorted(
        (each.share for each in found.measure_first), reverse=True
    )


# ------------------------------------------------------------------ the measure


def ishigami(drawn: Any) -> Any:
    one, two, three = drawn.T
    return np.sin(one) + 7.0 * np.sin(two) ** 2 + 0.1 * three**4 * np.sin(one)


def test_first_order_shares_of_a_published_function() -> None:
    """Ishigami and Homma, 1990 (from memory): 0.3139, 0.4424 and 0 with a of 7 and b of 0.1."""
    drawn = stats.qmc.LatinHypercube(3, rng=np.random.default_rng(5)).random(10_000)
    shares = first_order_shares(Orders(drawn), ishigami(np.pi * (2.0 * drawn - 1.0)))
    np.testing.assert_allclose(shares, [0.3139, 0.4424, 0.0], atol=0.02)


def test_first_order_shares_of_a_sum_are_its_squares() -> None:
    drawn = np.random.default_rng(2).uniform(-1.0, 1.0, (10_000, 5))
    weights = np.array([5.0, 3.0, 2.0, 1.0, 0.0])
    shares = first_order_shares(Orders(drawn), drawn @ weights)
    np.testing.assert_allclose(shares, weights**2 / np.sum(weights**2), atol=0.01)


def test_a_verdict_that_hangs_on_one_input_is_settled_by_it() -> None:
    drawn = np.random.default_rng(2).uniform(0.0, 1.0, (4000, 3))
    shares = first_order_shares(Orders(drawn), (drawn[:, 1] > 0.3).astype(float))
    assert shares[1] > 0.95
    assert max(shares[0], shares[2]) < 0.01


def test_an_outcome_without_spread_leaves_nothing_to_settle() -> None:
    drawn = np.random.default_rng(2).uniform(0.0, 1.0, (500, 3))
    assert not np.any(first_order_shares(Orders(drawn), np.ones(500)))


def spread_left(system: BrakeSystem, path: str, name: str) -> float:
    """Spread of a verdict, met or not, once one input is known: the mean over what it may be."""
    known = gather(system)
    whole = draw(system, known, count=3000, seed=9)
    unknown = next(each for each in whole.unknowns if each.path == path)
    left = []
    for share in (np.arange(8) + 0.5) / 8.0:
        value = unknown.low + share * (unknown.high - unknown.low)
        figures = {**whole.figures, **dict.fromkeys(unknown.paths, float(value))}
        one = replace(whole, figures=figures)
        met = held_of(one, name).met
        left.append(float(np.var(np.broadcast_to(np.asarray(met, dtype=float), (3000,)))))
    return float(np.mean(left))


def held_of(combinations: Combinations, name: str) -> Verdict:
    ready = prepare(combinations.system, combinations.figures)
    return next(iter(against(name)(ready)))


@pytest.mark.parametrize(
    ("layout", "name"),
    [
        ("front-rear tandem", "un-r13h-adhesion"),
        ("front-rear tandem", "un-r13h-service-engine"),
        ("diagonal tandem", "un-r13-adhesion"),
        ("single line", "uk-mot-service"),
    ],
)
def test_measuring_the_first_input_shrinks_the_spread_more_than_measuring_the_second(
    layout: str, name: str
) -> None:
    system = vague(layout)
    found = trusted(draw(system, gather(system)), against(name)).verdicts[0]
    assert found.is_open
    assert found.share is not None
    first, second = found.settles[0], found.settles[1]
    before = found.share * (1.0 - found.share)
    after_first = spread_left(system, first.unknown.path, name)
    after_second = spread_left(system, second.unknown.path, name)
    assert after_first < after_second < before * 1.02
    # And it shrinks by about as much as was said.
    assert 1.0 - after_first / before == pytest.approx(first.share, abs=0.06)
