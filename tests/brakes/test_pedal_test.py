"""The two-force pedal test, on a car whose air, clearance and flex are known."""

from __future__ import annotations

from datetime import UTC, datetime
from functools import cache

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bareshell.brakes.examples import small_car
from bareshell.brakes.figures import gather, ranges
from bareshell.brakes.pedal_expected import Between, Expected, expected_of, light_force
from bareshell.brakes.pedal_test import CAUTIONS, PedalResult, Pushes, pedal_result, pushes_of
from bareshell.brakes.solve import solve
from bareshell.calc import air
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeReading, ReadingKind

FIRM = 300.0
NOON = datetime(2026, 6, 1, 12, tzinfo=UTC)


@cache
def figures(layout: str) -> dict[str, float]:
    """Everything known, and no air."""
    return {**gather(small_car(layout)).figures, "fluid.air_m3": 0.0}


@cache
def light_of(layout: str) -> float:
    pushed = solve(small_car(layout), figures(layout), np.linspace(5, 200, 118), "driver only")
    found = light_force(pushed)
    assert found is not None
    return found


def travels(layout: str, light: float, **changes: float) -> tuple[float, float]:
    """Travel at both pushes of the car as it really is."""
    now = dict(figures(layout))
    for ending, times in changes.items():
        if ending == "air_m3":
            now["fluid.air_m3"] = times
            continue
        now |= {path: value * times for path, value in now.items() if path.endswith(ending)}
    answer = solve(small_car(layout), now, np.array([light, FIRM]), "driver only")
    assert answer.travel is not None
    one, other = np.asarray(answer.travel.total_m)
    return float(one), float(other)


def tried(layout: str, light: float | None = None, **changes: float) -> PedalResult:
    light = light or light_of(layout)
    forces = np.array([light, FIRM])
    expected = expected_of(solve(small_car(layout), figures(layout), forces, "driver only"))
    return pedal_result(Pushes(light, FIRM, *travels(layout, light, **changes)), expected)


def fitting(result: PedalResult) -> set[str]:
    return {each.name for each in result.causes if each.fits}


LAYOUTS = ["front-rear tandem", "single line", "diagonal tandem"]


# ------------------------------------------------------------------------ telling


@pytest.mark.parametrize("layout", LAYOUTS)
def test_a_car_as_entered_is_as_expected(layout: str) -> None:
    result = tried(layout)
    assert result.as_expected
    assert result.air_m3.low == 0.0
    assert result.words.startswith("Both pushes are as expected")


@pytest.mark.parametrize("layout", LAYOUTS)
def test_air_is_told_and_measured(layout: str) -> None:
    circuits = 1 if layout == "single line" else 2
    each = 1e-6 if circuits == 1 else 6e-7
    result = tried(layout, air_m3=each)
    assert fitting(result) == {"air"}
    assert result.words.startswith("Trapped air explains")
    amount = result.causes[0].amount
    assert amount is not None
    assert amount.low <= circuits * each <= amount.high
    assert amount.high - amount.low < 0.6 * circuits * each
    assert result.air_m3.holds(circuits * each)
    assert "Bleed again" in result.next_step


@pytest.mark.parametrize("layout", LAYOUTS)
def test_clearance_is_told(layout: str) -> None:
    result = tried(layout, clearance_m=1.6)
    assert fitting(result) == {"clearance"}
    assert result.words.startswith("More clearance than was expected explains")
    before, after = (travels(layout, light_of(layout), clearance_m=by)[0] for by in (1.0, 1.6))
    amount = result.causes[1].amount
    assert amount is not None
    assert amount.holds(after - before)


@pytest.mark.parametrize("layout", LAYOUTS)
def test_flex_is_told(layout: str) -> None:
    result = tried(layout, flex_m3_pa=1.7, swell_ratio=1.7)
    assert fitting(result) == {"flex"}
    assert result.words.startswith("Hoses or parts that give more than was expected explain")


def test_more_than_one_cause_is_said_to_be_more_than_one() -> None:
    result = tried("front-rear tandem", air_m3=4e-7, clearance_m=1.5)
    assert fitting(result) == set()
    assert "more than one is at work" in result.words
    assert result.air_m3.holds(8e-7)


def test_a_little_air_cannot_be_told_from_a_little_clearance_and_it_says_so() -> None:
    result = tried("front-rear tandem", air_m3=1.5e-7)
    assert fitting(result) == {"air", "clearance"}
    assert result.words == "The two pushes cannot tell air and clearance apart."
    assert result.next_step.startswith("To part them")
    assert result.least_air_seen_m3 > 3e-7


def test_a_first_push_that_is_not_light_sees_less() -> None:
    light, firm = (tried("front-rear tandem", push, air_m3=5e-7) for push in (45.0, 140.0))
    assert firm.least_air_seen_m3 > 3.0 * light.least_air_seen_m3
    assert fitting(light) == {"air"}
    assert {"air", "clearance"} <= fitting(firm)
    assert "only just touch" in firm.next_step


def test_ranges_of_the_inputs_make_the_test_say_less() -> None:
    car, layout = small_car(), "front-rear tandem"
    light = light_of(layout)
    draws = np.random.default_rng(5)
    samples = {
        each.path: draws.uniform(each.low, each.high, 100) for each in ranges(car, gather(car))
    }
    answer = solve(car, samples, np.array([light, FIRM]), "driver only")
    vague = pedal_result(
        Pushes(light, FIRM, *travels(layout, light, air_m3=5e-7)), expected_of(answer)
    )
    sharp = tried(layout, air_m3=5e-7)
    assert fitting(sharp) == {"air"}
    assert vague.as_expected or len(fitting(vague)) > 1
    assert vague.air_m3.high > sharp.air_m3.high


# ------------------------------------------------------------------------ by hand

PLAIN = Expected(
    Between(0.030, 0.030),
    Between(0.020, 0.020),
    Between(2e5, 2e5),
    Between(60e5, 60e5),
    Between(13e3, 13e3),
    Between(0.001, 0.001),
    Between(0.021, 0.021),
)


@given(st.floats(0.0, 3e-6), st.just(0.0) | st.floats(1e-6, 0.02))
def test_air_and_clearance_made_up_by_boyle_are_found_again(volume: float, gap: float) -> None:
    """V p / (p + p_a), slow (Boyle); the same as `calc.air.air_from_two_pushes` finds."""
    taken = [air.entrained_air_volume(p, volume, 101325.0) for p in (2e5, 60e5)]
    light, firm = (0.030 + 13e3 * taken[0] + gap), (0.050 + 13e3 * taken[1] + gap)
    result = pedal_result(Pushes(40.0, 300.0, light, firm, read_to_m=1e-9), PLAIN)
    assert result.air_m3.low - 1e-9 <= volume <= result.air_m3.high + 1e-9
    found = air.air_from_two_pushes(
        (light - 0.030) / 13e3, (firm - 0.050) / 13e3, 2e5, 60e5, 0.0, 101325.0
    )
    assert found == pytest.approx(volume, abs=1e-12)
    if volume > 1e-7:
        assert ("air" in fitting(result)) is (gap == 0.0)
        assert "clearance" not in fitting(result)


@given(st.floats(0.0, 2e-6))
def test_air_is_shown_as_millimetres_of_pedal(volume: float) -> None:
    squeezed = [air.entrained_air_volume(p, volume, 101325.0) * 13e3 for p in (2e5, 60e5)]
    result = pedal_result(
        Pushes(40.0, 300.0, 0.030 + squeezed[0], 0.050 + squeezed[1], read_to_m=1e-9), PLAIN
    )
    assert result.air_pedal_m.high == pytest.approx(volume * 13e3, abs=1e-6)


def test_a_pedal_shorter_than_it_can_be_points_at_what_was_entered() -> None:
    result = pedal_result(Pushes(40.0, 300.0, 0.020, 0.032), PLAIN)
    assert "less than was expected" in result.words
    assert fitting(result) == set()


def test_pumping_that_changes_nothing_rules_clearance_out() -> None:
    """Common practice, no source."""
    pair = (40.0, 300.0, 0.034, 0.0545)
    alone = pedal_result(Pushes(*pair), PLAIN)
    assert fitting(alone) >= {"air", "clearance"}
    assert "cannot tell" in alone.words
    pumped = pedal_result(Pushes(*pair, pumped_travel_m=0.0543), PLAIN)
    assert pumped.words.startswith("Trapped air explains")
    rises = pedal_result(Pushes(*pair, pumped_travel_m=0.045), PLAIN)
    assert rises.words == alone.words


# ------------------------------------------------------------------------ what cannot be


def test_a_pedal_on_the_floor_tells_nothing() -> None:
    with pytest.raises(BadInput, match="stood on it"):
        pedal_result(Pushes(40.0, 300.0, 0.05, 0.135, floor_m=0.135), PLAIN)
    assert tried("front-rear tandem").causes
    with pytest.raises(BadInput, match="stood on it"):
        tried("front-rear tandem", air_m3=4e-6)


@pytest.mark.parametrize(
    ("pushes", "field"),
    [
        ((300.0, 300.0, 0.03, 0.05), "force of the firm push"),
        ((300.0, 40.0, 0.03, 0.05), "force of the firm push"),
        ((40.0, 300.0, 0.06, 0.05), "travel of the firm push"),
    ],
)
def test_pushes_that_cannot_be_are_refused(pushes: tuple[float, ...], field: str) -> None:
    with pytest.raises(BadInput, match=field):
        Pushes(*pushes)


def test_pressures_too_close_together_are_refused() -> None:
    near = Expected(
        PLAIN.light_m,
        PLAIN.rise_m,
        Between(50e5, 70e5),
        Between(60e5, 60e5),
        PLAIN.pad_m_per_m3,
        PLAIN.flex_light_m,
        PLAIN.flex_firm_m,
    )
    with pytest.raises(BadInput, match="too close together"):
        pedal_result(Pushes(250.0, 300.0, 0.04, 0.05), near)


def test_a_test_as_it_was_kept() -> None:
    kept = {
        "first_force_n": 45.0,
        "second_force_n": 300.0,
        "first_travel_m": 0.044,
        "second_travel_m": 0.081,
        "floor_m": 0.135,
    }
    pushes = pushes_of(BrakeReading("p", ReadingKind.PEDAL_TEST, NOON, kept))
    assert (pushes.light_force_n, pushes.firm_travel_m, pushes.floor_m) == (45.0, 0.081, 0.135)
    assert pushes.pumped_travel_m is None
    del kept["first_travel_m"]
    with pytest.raises(BadInput, match="travel at the lighter force"):
        pushes_of(BrakeReading("p", ReadingKind.PEDAL_TEST, NOON, kept))
    with pytest.raises(BadInput, match="not a pedal test"):
        pushes_of(BrakeReading("p", ReadingKind.PARKING, NOON, {}))
    assert "sinks" in CAUTIONS[0]


def test_a_solve_at_one_force_is_refused() -> None:
    one = solve(small_car(), figures("front-rear tandem"), FIRM, "driver only")
    with pytest.raises(BadInput, match="two forces"):
        expected_of(one)
