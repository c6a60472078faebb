"""Bedding series, brakes gone hot, the reservoir, the order of commissioning, and 50 miles on."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.brakes import bedding, heat, heat_course
from bareshell.brakes.bedding import BEDDING, bedding_course, bedding_series, warmed_by
from bareshell.brakes.commissioning import COMMISSIONING, COMPARED
from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import gather
from bareshell.brakes.heat_body import (
    HeatInput,
    heat_input,
    shares_of_answer,
)
from bareshell.brakes.heat_fade import drum_growth, friction_needed, hot_figures, hot_verdict
from bareshell.brakes.heat_figures import gather_heat
from bareshell.brakes.pedal_expected import Between, Expected
from bareshell.brakes.pedal_test import Pushes
from bareshell.brakes.prepared import prepare
from bareshell.brakes.reservoir import LINING_WEAR_M, PAD_WEAR_M, reservoir_needs
from bareshell.brakes.since_then import since_then
from bareshell.brakes.solve import solve
from bareshell.brakes.verdicts import hold_volume
from bareshell.brakes.yardsticks import yardstick
from bareshell.calc.values import Value
from bareshell.errors import BadInput, NotFound
from bareshell.model.brake import Wheel
from bareshell.sources import SOURCES
from bareshell.trade.data.gates import GATES
from tests.brakes.heat_cars import car, shares_of_axles

MPH, FOOT, KMH = 0.44704, 0.3048, 1 / 3.6
FRONT, REAR = Wheel.FRONT_LEFT, Wheel.REAR_LEFT


def of_the_car() -> HeatInput:
    system = car()
    figures = gather_heat(system, "driver only").figures
    return heat_input(system, figures, shares_of_axles(system, 0.7), "driver only")


# ------------------------------------------------------------------------ bedding


@pytest.mark.parametrize(
    ("series", "stops", "speeds", "interval", "slowing"),
    [  # all read second-hand but the hardness where the source does not say
        ("thirty stops", 30, {(30.0, 0.0)}, 30.0, 12 * FOOT),
        ("twenty stops", 20, {(30.0, 0.0)}, 30.0, 3.0),
        ("twenty slow-downs", 20, {(50.0, 20.0)}, 30.0, 3.0),
        ("two rounds", 15, {(30.0, 10.0), (60.0, 15.0)}, 30.0, 3.0),
    ],
)
def test_a_published_series_is_what_was_published(
    series: str, stops: int, speeds: set[tuple[float, float]], interval: float, slowing: float
) -> None:
    it = bedding_series(series)
    assert it.stops == stops
    assert {
        (round(each.begin_m_s / MPH, 6), round(each.end_m_s / MPH, 6)) for each in it.rounds
    } == speeds
    assert it.rounds[0].interval_s == interval
    assert it.deceleration_m_s2 == pytest.approx(slowing)
    assert it.source_id in SOURCES
    assert round(12 * FOOT, 1) == 3.7


def test_the_magazine_s_rests_and_the_standard_s_two_hundred() -> None:
    """Rests of 15 and 30 minutes (read second-hand); 200 stops (read second-hand), rest memory."""
    rounds = bedding_series("two rounds").rounds
    assert [each.rest_s for each in rounds] == [900.0, 1800.0]
    burnish = bedding_series("burnish")
    assert burnish.stops == 200
    assert burnish.rounds[0].begin_m_s * burnish.rounds[0].interval_s == pytest.approx(2000.0)
    assert burnish.rounds[0].begin_m_s == pytest.approx(80 * KMH)
    with pytest.raises(NotFound, match="thirty stops"):
        bedding_series("a hundred")


@pytest.mark.parametrize("series", [one for one in BEDDING if one != "burnish"])
def test_every_series_can_be_driven_and_warms_the_brakes(series: str) -> None:
    given = of_the_car()
    it = bedding_series(series)
    course = bedding_course(it)
    assert sum(phase.braked for phase in course) == it.stops
    warmed = warmed_by(it, given, ambient_c=15.0)
    assert warmed.hottest.is_front
    assert set(warmed.metal_c) == set(Wheel)
    assert 60.0 < warmed.metal_c[FRONT] < 500.0
    assert warmed.lining_c[FRONT] < warmed.metal_c[FRONT]
    assert str(warmed.hottest) in warmed.words
    energy = sum(float(np.ravel(each.energy_j)[0]) for each in warmed.history.wheels)
    falls = sum(each.count * (each.begin_m_s**2 - each.end_m_s**2) for each in it.rounds)
    assert energy == pytest.approx(1.04 * 1050.0 * falls / 2)


def test_harder_advice_gets_hotter_and_a_rest_cools() -> None:
    given = of_the_car()
    thirty, two = (
        warmed_by(bedding_series(one), given, ambient_c=15.0)
        for one in ("thirty stops", "two rounds")
    )
    assert thirty.metal_c[FRONT] != two.metal_c[FRONT]
    begins = two.history.begins
    place = next(i for i, (words, _) in enumerate(begins) if words == "standing")
    metal = two.history.at(FRONT).metal_c[begins[place][1] : begins[place + 1][1] + 1]
    assert (np.diff(metal) < 0.0).all()
    assert any("smokes" in caution for caution in bedding.CAUTIONS)


# ------------------------------------------------------------------------ hot brakes


def test_shares_come_from_the_solve() -> None:
    it = small_car()
    answer = solve(it, gather(it).figures, np.linspace(0.0, 500.0, 51), "laden")
    light, firm = (shares_of_answer(answer, slowing) for slowing in (1.0, 6.0))
    for shares in (light, firm):
        assert sum(float(each) for each in shares.values()) == pytest.approx(1.0)
    assert firm[FRONT] > light[FRONT]  # its valve holds the rear back
    one = solve(it, gather(it).figures, 200.0, "laden")
    assert sum(float(each) for each in shares_of_answer(one, 9.9).values()) == pytest.approx(1.0)


def test_a_drum_loses_more_than_its_linings_do_and_a_disc_just_as_much() -> None:
    it = small_car()
    cold = gather(it).figures
    ratios = {f"{part.id}.hot_friction_ratio": 0.8 for part in it.parts}
    hot = hot_figures(it, cold, ratios, {REAR: 0.0002})
    assert hot["caliper-front-left.pad_friction"] == pytest.approx(0.8 * 0.38)
    assert hot["drum-rear-left.brake_factor"] < 0.8 * cold["drum-rear-left.brake_factor"]
    assert hot["drum-rear-left.shoe_clearance_m"] == pytest.approx(0.0006)
    assert hot["drum-rear-right.shoe_clearance_m"] == cold["drum-rear-right.shoe_clearance_m"]
    assert set(hot) == set(cold)


def test_friction_that_stays_changes_no_verdict() -> None:
    it = small_car()
    cold = gather(it).figures
    ready = prepare(it, cold)
    same = {f"{part.id}.hot_friction_ratio": 1.0 for part in it.parts}
    verdict = hot_verdict(
        ready, prepare(it, hot_figures(it, cold, same)), yardstick("fmvss-135-hot")
    )
    assert verdict.reached == pytest.approx(float(np.ravel(verdict.required)[0]) / 0.6)  # type: ignore[arg-type]
    assert verdict.met


@pytest.mark.parametrize("one", ["fmvss-135-hot", "un-r13-hot"])
def test_the_friction_that_is_needed_is_the_corner_of_the_verdict(one: str) -> None:
    it = small_car()
    cold = gather(it).figures
    ready = prepare(it, cold)
    needed = friction_needed(it, cold, yardstick(one))
    for step, met in ((0.01, True), (-0.01, False)):
        ratios = {f"{part.id}.hot_friction_ratio": needed + step for part in it.parts}
        hot = prepare(it, hot_figures(it, cold, ratios))
        assert hot_verdict(ready, hot, yardstick(one)).met is met


def test_hot_verdicts_of_samples_are_those_of_each() -> None:
    it = small_car()
    cold = gather(it).figures
    keeps = np.array([0.5, 0.8, 1.0])
    masses = np.array([1200.0, 1280.0, 1350.0])
    samples: dict[str, Value] = {**cold, "car.laden_mass_kg": masses}
    ratios = {f"{part.id}.hot_friction_ratio": keeps for part in it.parts}
    rule = yardstick("un-r13-hot")
    together = hot_verdict(
        prepare(it, samples), prepare(it, hot_figures(it, samples, ratios)), rule
    )
    for i in range(3):
        alone = {**cold, "car.laden_mass_kg": float(masses[i])}
        one = {path: float(keeps[i]) for path in ratios}
        verdict = hot_verdict(prepare(it, alone), prepare(it, hot_figures(it, alone, one)), rule)
        assert np.asarray(together.margin)[i] == pytest.approx(verdict.margin, abs=0.02)
    assert together.share is not None
    assert 0.0 < together.share < 1.0


def test_a_hot_drum_grows_away_from_its_shoes() -> None:
    """Radius times 1.1e-5 times the warming: 101.5 mm (from memory)."""
    given = of_the_car()
    ran = heat.run(given, heat_course.snubs(8, 30.0, 15.0, 45.0, 3.0), ambient_c=20.0)
    grown = drum_growth(ran, REAR)
    hottest = float(ran.peak(REAR, "metal").temperature_c)
    assert grown == pytest.approx(0.1015 * 1.1e-5 * (hottest - 20.0))
    with pytest.raises(BadInput, match="is a disc"):
        drum_growth(ran, FRONT)


# ------------------------------------------------------------------------ reservoir


def test_what_the_pistons_take_until_the_linings_are_worn() -> None:
    """FMVSS 135 S5.4.2 (from memory), by hand.

    Two 48 mm sliding calipers, 2 A (clearance + wear) each, and two 19.05 mm cylinders of two
    pistons, whose shoes swing as levers.
    """
    it = small_car()
    ready = prepare(it, gather(it).figures)
    (need,) = reservoir_needs(ready)
    caliper = 2 * np.pi / 4 * 0.048**2 * (0.00015 + PAD_WEAR_M[1])
    lever = 0.86 / 0.43
    drum = 2 * np.pi / 4 * 0.01905**2 * (0.0004 + LINING_WEAR_M[1]) * lever
    assert need.circuits == ("master-primary", "master-floating")
    assert need.needed_m3 == pytest.approx(2 * caliper + 2 * drum, rel=1e-6)
    assert len(need.assumed) == 4
    assert need.there_is_m3 is None
    assert hold_volume(yardstick("fmvss-135-reservoir"), need.needed_m3, 60e-6).met is False
    assert hold_volume(yardstick("fmvss-135-reservoir"), need.needed_m3, 120e-6).met


# ------------------------------------------------------------------------ the order of work


def test_the_order_of_commissioning() -> None:
    order = [step.id for step in COMMISSIONING]
    for before, after in (
        ("choose fluid", "assemble clean"),  # before the first part is wetted
        ("assemble clean", "bench bleed"),
        ("first fill", "bleed"),
        ("bleed", "graded holds"),
        ("graded holds", "overnight hold"),
        ("overnight hold", "bleed again"),  # the usual order: hold, bleed again, pedal
        ("bleed again", "pedal test"),
        ("pedal test", "walking pace"),
        ("walking pace", "low speed"),
        ("low speed", "bedding"),
        ("bedding", "measured"),
        ("measured", "50 miles"),
        ("50 miles", "500 miles"),
    ):
        assert order.index(before) < order.index(after)
    assert len(set(order)) == len(order)
    assert all(not step.source_id or step.source_id in SOURCES for step in COMMISSIONING)


def test_the_gates_named_are_gates_there_are() -> None:
    titles = {gate.title.lower() for gate in GATES}
    assert {step.gate for step in COMMISSIONING if step.gate} <= titles


def test_bench_bleeding_as_the_manuals_have_it() -> None:
    """Strokes of one inch, front down, up, level (read: TM 5-4210-224-14&P); 8 to 10 (2nd hand)."""
    step = next(step for step in COMMISSIONING if step.id == "bench bleed")
    assert "8 to 10" in step.words
    assert "25 mm" in step.words
    assert step.mark == "read"


def test_what_moves_or_squirts_names_its_harm_first() -> None:
    for step in COMMISSIONING:
        for caution in step.cautions:
            assert caution[0].isupper()
    hurting = {"bleed", "graded holds", "overnight hold", "walking pace", "low speed", "bedding"}
    assert all(step.cautions for step in COMMISSIONING if step.id in hurting)
    assert {each.id for each in COMPARED} >= {"pedal light", "pedal rise", "clicks", "level"}


# ------------------------------------------------------------------------ since then

EXPECTED = Expected(
    Between(0.03, 0.03),
    Between(0.02, 0.02),
    Between(2e4, 4e4),
    Between(60e5, 70e5),
    Between(13e3, 14e3),
    Between(0.001, 0.002),
    Between(0.021, 0.025),
)
FIRST = Pushes(45.0, 300.0, 0.040, 0.062)


@given(st.floats(0.0, 0.03))
def test_what_was_there_from_the_first_is_not_found_again(offset: float) -> None:
    first = Pushes(45.0, 300.0, 0.03 + offset, 0.052 + offset)
    assert since_then(first, first, EXPECTED).as_expected


def test_wear_and_air_since_then_are_told_apart() -> None:
    worn = since_then(FIRST, Pushes(45.0, 300.0, 0.052, 0.074), EXPECTED)
    airy = since_then(FIRST, Pushes(45.0, 300.0, 0.048, 0.090), EXPECTED)
    assert worn.words.startswith("More clearance")
    assert airy.words.startswith("Trapped air")
    with pytest.raises(BadInput, match="lighter force: was 45 N then and 60 N now"):
        since_then(FIRST, Pushes(60.0, 300.0, 0.05, 0.07), EXPECTED)
