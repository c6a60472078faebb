"""The fluid: its age, its water, the span of its boiling point, and what must not meet."""

from __future__ import annotations

from datetime import date
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.brakes.fluid_mix import base_of, meetings
from bareshell.brakes.fluid_state import (
    CAUTIONS,
    PUBLISHED_POINTS,
    FluidState,
    age_years,
    boiling_curve,
    fluid_part,
    fluid_state,
    margin_to,
)
from bareshell.calc.mixing import SEAL_RULES
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, Line, LineEnd, LineKind, Part, PartKind, Wheel
from tests.brakes.heat_cars import stated

TODAY = date(2026, 11, 25)


def fluid(grade: str = "DOT 4", filled: str = "", **figures: float) -> Part:
    choices = {"grade": grade} | ({"filled_on": filled} if filled else {})
    return Part("fluid", "the fluid", PartKind.FLUID, figures=stated(**figures), choices=choices)


def boiling(state: FluidState) -> tuple[float, float]:
    assert state.boiling_c is not None
    return float(state.boiling_c.low), float(state.boiling_c.high)


# ------------------------------------------------------------------------ published


@pytest.mark.parametrize(("water", "celsius"), list(PUBLISHED_POINTS.items()))
def test_every_published_point_of_dot_3_lies_in_its_span(water: float, celsius: float) -> None:
    """Trade figures (read second-hand): 187, 160, 145 at 1, 2, 3 %; 118 at 6 by a refractometer."""
    low, high = boiling(fluid_state(fluid("DOT 3"), water_share=water))
    assert low - 0.5 <= celsius <= high + 0.5


def test_the_laboratory_s_vapour_lock_lies_in_the_span() -> None:
    """LR 903 (abstract read second-hand): near 250 C dry, 180 at 1 % and 145 at 3 %."""
    for water, celsius in ((0.0, 250.0), (0.01, 180.0), (0.03, 145.0)):
        low, high = boiling(fluid_state(fluid("DOT 3"), water_share=water))
        assert low <= celsius <= high


@pytest.mark.parametrize(
    ("grade", "dry", "wet"),
    [  # FMVSS 116 S5.1.1 and S5.1.2 (read second-hand)
        ("DOT 3", 205, 140),
        ("DOT 4", 230, 155),
        ("DOT 5.1", 260, 180),
    ],
)
def test_a_grade_s_minima_are_its_least_figures(grade: str, dry: float, wet: float) -> None:
    """A table that gives DOT 4 the 205 of DOT 3 is in circulation; it is wrong."""
    curve = {row[0]: row[1:] for row in boiling_curve(grade, 3)}
    assert curve[0.0][0] == pytest.approx(dry - 2.8)
    low, high = boiling(fluid_state(fluid(grade), water_share=0.037))
    assert low <= wet <= high


def test_a_good_dot_4_new_from_the_can() -> None:
    """A maker's data sheet (read second-hand): 290 dry, 198 wet; 230 and 155 are the minima."""
    low, high = boiling(fluid_state(fluid("DOT 4", age_years=0.0)))
    assert low == pytest.approx(230 - 2.8)
    assert high == pytest.approx(290 + 2.8)


def test_half_the_cars_of_a_sample_held_three_per_cent() -> None:
    """LR 903: over half of 1000 cars held 3 % or more; our span of age holds that from 1 year."""
    for years in (1.0, 2.0, 4.0, 8.0):
        water = fluid_state(fluid("DOT 3", age_years=years)).water
        assert water is not None
        assert water.low < 0.03 <= water.high


@pytest.mark.parametrize(
    ("years", "low", "high"),
    [  # all read second-hand, and contradicting one another
        (1.0, 0.02, 0.03),  # 2 to 3 % a year; 2 % after one
        (1.5, 0.03, 0.03),
        (2.0, 0.03, 0.04),  # 3 to 4 % in two
        (5.0, 0.07, 0.08),  # 7 to 8 % after several
        (8.0, 0.026, 0.026),  # the mean of a random sample, of a mean age of eight
    ],
)
def test_the_span_of_water_holds_what_has_been_published(
    years: float, low: float, high: float
) -> None:
    water = fluid_state(fluid("DOT 3", age_years=years)).water
    assert water is not None
    assert water.low - 1e-12 <= low <= high <= water.high + 1e-12


# ------------------------------------------------------------------------ age


def test_age_runs_from_the_first_fill() -> None:
    assert age_years(fluid(filled="2024-11-25"), TODAY) == pytest.approx(2.0, abs=0.005)
    assert age_years(fluid(filled="2026-11-25"), TODAY) == 0.0
    assert age_years(fluid(age_years=3.0), TODAY) == 3.0
    assert age_years(fluid(filled="2024-11-25", age_years=9.0), None) == 9.0
    assert age_years(fluid(), TODAY) is None


@pytest.mark.parametrize(
    ("filled", "said"), [("last spring", "is no date"), ("2026-11-26", "has not come yet")]
)
def test_a_day_that_cannot_be_is_refused(filled: str, said: str) -> None:
    with pytest.raises(BadInput, match=said):
        age_years(fluid(filled=filled), TODAY)


@given(st.floats(0.0, 15.0), st.floats(0.0, 15.0), st.sampled_from(["DOT 3", "DOT 4", "DOT 5.1"]))
def test_older_fluid_never_boils_later(one: float, other: float, grade: str) -> None:
    younger, older = (
        boiling(fluid_state(fluid(grade, age_years=age))) for age in sorted((one, other))
    )
    assert older[0] <= younger[0] + 1e-9
    assert older[1] <= younger[1] + 1e-9


@given(st.floats(0.0, 0.08), st.sampled_from(["DOT 3", "DOT 4", "DOT 5.1"]))
def test_a_measurement_narrows_what_age_leaves_open(water: float, grade: str) -> None:
    by_age = fluid_state(fluid(grade, age_years=4.0))
    measured = fluid_state(fluid(grade, age_years=4.0), water_share=water)
    assert by_age.boiling_c is not None
    assert measured.boiling_c is not None
    assert (measured.how, by_age.how) == ("water was measured", "from its age")
    assert boiling(measured)[0] <= measured.boiling_c.usual <= boiling(measured)[1]
    assert by_age.asks
    assert not measured.asks


def test_a_boiled_sample_counts_before_everything() -> None:
    state = fluid_state(fluid("unknown", age_years=10.0, water_share=0.05), boiling_c=171.0)
    assert state.how == "a sample was boiled"
    assert boiling(state) == (166.0, 176.0)
    assert fluid_state(fluid("mineral", boiling_c=210.0)).boiling_c is not None


# ------------------------------------------------------------------------ what is not known


def test_fluid_that_nobody_knows_has_the_widest_span_and_says_so() -> None:
    nobody = fluid_state(None)
    low, high = boiling(nobody)
    assert low == 100.0
    assert high > 290.0
    assert nobody.how == "nothing is known"
    assert any("colour never proves it" in ask for ask in nobody.asks)
    aged = fluid_state(fluid("unknown", age_years=1.0))
    assert boiling(aged)[0] > low or boiling(aged)[1] < high
    assert "unknown grade" in aged.words


def test_mineral_fluid_has_no_published_figure_here() -> None:
    state = fluid_state(fluid("mineral", age_years=2.0))
    assert (state.base, state.boiling_c, state.water) == ("mineral", None, None)
    assert "maker's figure" in state.words
    assert margin_to(state, 120.0) is None


def test_silicone_takes_up_nothing_and_free_water_in_it_boils_as_water() -> None:
    assert boiling(fluid_state(fluid("DOT 5", age_years=9.0))) == (260.0, 260.0)
    assert boiling(fluid_state(fluid("DOT 5"), water_share=0.0)) == (260.0, 260.0)
    assert boiling(fluid_state(fluid("DOT 5"), water_share=0.001)) == (100.0, 260.0)


# ------------------------------------------------------------------------ margin


@pytest.mark.parametrize(
    ("hottest", "begins"), [(100.0, "Stays"), (200.0, "May boil"), (300.0, "Boils")]
)
def test_the_margin_is_said_in_words(hottest: float, begins: str) -> None:
    margin = margin_to(fluid_state(fluid("DOT 4"), water_share=0.02), hottest)
    assert margin is not None
    assert margin.words.startswith(begins)
    assert margin.low_k <= margin.high_k


def test_margins_of_samples_come_as_arrays() -> None:
    water = np.array([0.0, 0.02, 0.05])
    state = fluid_state(fluid("DOT 4"), water_share=water)
    margin = margin_to(state, np.array([150.0, 150.0, 150.0]))
    assert margin is not None
    low = np.asarray(margin.low_k)
    assert low.shape == (3,)
    assert (np.diff(low) < 0.0).all()
    for i, each in enumerate(water):
        alone = margin_to(fluid_state(fluid("DOT 4"), water_share=float(each)), 150.0)
        assert alone is not None
        assert low[i] == pytest.approx(alone.low_k)


def test_the_cautions_name_the_harm_first() -> None:
    assert "eyes" in CAUTIONS[0]
    assert fluid_part(BrakeSystem("x", "x", parts=(fluid(),))) == fluid()
    assert fluid_part(BrakeSystem("x", "x")) is None


# ------------------------------------------------------------------------ what must not meet


def caliper(held: str = "", seals: str = "EPDM") -> Part:
    choices = {"seals": seals} | ({"held": held} if held else {})
    return Part("c", "the caliper", PartKind.CALIPER, Wheel.FRONT_LEFT, choices=choices)


def found(*parts: Part, lines: tuple[Line, ...] = ()) -> list[tuple[str, str]]:
    system = BrakeSystem("x", "x", parts=parts, lines=lines)
    return [(problem.severity, problem.where) for problem in meetings(system)]


@pytest.mark.parametrize(
    ("grade", "held"),
    [
        (grade, held)
        for grade, held in product(("DOT 3", "DOT 4", "DOT 5", "DOT 5.1", "mineral"), repeat=2)
        if base_of(grade) != base_of(held)
    ],
)
def test_bases_that_would_meet_stop_the_filling(grade: str, held: str) -> None:
    seals = "nitrile" if grade == "mineral" else "EPDM"
    assert found(fluid(grade), caliper(held, seals)) == [("stops", "the caliper")]


def test_glycol_grades_blend_and_it_is_said() -> None:
    assert found(fluid("DOT 4"), caliper("DOT 3")) == [("note", "the caliper")]
    assert found(fluid("DOT 4"), caliper("DOT 4")) == []
    assert found(fluid("DOT 4"), caliper("nothing")) == []


@pytest.mark.parametrize("rule", SEAL_RULES, ids=lambda rule: f"{rule.base}-{rule.rubber}")
def test_every_seal_is_judged_by_the_table(rule) -> None:  # type: ignore[no-untyped-def]  # noqa: ANN001
    grade = {"glycol": "DOT 4", "silicone": "DOT 5", "mineral": "mineral"}[rule.base]
    expected = {
        "suits": [],
        "ask the maker": [("doubtful", "the caliper")],
        "attacks": [("stops", "the caliper")],
    }[rule.suits]
    assert found(fluid(grade), caliper(seals=rule.rubber)) == expected


@pytest.mark.parametrize(
    ("grade", "severity"), [("DOT 4", "note"), ("DOT 5", "doubtful"), ("mineral", "doubtful")]
)
def test_rubber_that_nobody_knows_is_asked(grade: str, severity: str) -> None:
    assert found(fluid(grade), caliper(seals="unknown")) == [(severity, "the caliper")]


def test_a_hose_has_a_lining_and_ptfe_bears_anything() -> None:
    def hose(lining: str) -> Line:
        choices = {"lining": lining}
        return Line("h", "the hose", LineKind.HOSE, (LineEnd(), LineEnd()), choices=choices)

    assert found(fluid("mineral"), lines=(hose("EPDM"),)) == [("stops", "the hose")]
    assert found(fluid("mineral"), lines=(hose("PTFE"),)) == []


def test_a_reservoir_is_asked_what_it_held() -> None:
    tank = Part("r", "the reservoir", PartKind.RESERVOIR, choices={"held": "mineral"})
    assert found(fluid("DOT 4"), tank) == [("stops", "the reservoir")]


def test_unknown_histories_are_questions_and_never_harmless() -> None:
    assert found(fluid("DOT 4"), caliper("unknown")) == [("doubtful", "the caliper")]
    assert found(fluid("unknown"), caliper("DOT 5")) == [("doubtful", "the fluid")]
    assert found(caliper()) == [("doubtful", "fluid")]


def test_two_fluids_in_one_car_are_compared() -> None:
    other = Part("f2", "clutch fluid", PartKind.FLUID, choices={"grade": "mineral"})
    assert found(fluid("DOT 4"), other) == [("stops", "the fluid")]


def test_what_stops_comes_first_and_says_what_to_do() -> None:
    system = BrakeSystem(
        "x", "x", parts=(fluid("DOT 5"), caliper("unknown"), caliper_two := _second())
    )
    problems = meetings(system)
    assert [problem.severity for problem in problems] == ["stops", "doubtful"]
    assert problems[0].where == caliper_two.title
    assert "renew every seal and hose" in problems[0].remedy


def _second() -> Part:
    choices = {"seals": "EPDM", "held": "DOT 4"}
    return Part("c2", "the other caliper", PartKind.CALIPER, Wheel.FRONT_RIGHT, choices=choices)
