"""From heat, fluid and the parking brake to what their pictures draw; see `brake_results`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from bareshell.brakes.fluid_state import FluidState, boiling_curve
from bareshell.brakes.heat import HeatHistory, WheelHistory
from bareshell.brakes.parking import Holding, ParkingAnswer
from bareshell.brakes.yardstick import Hold, Yardstick
from bareshell.draw.brake_chart import Curve
from bareshell.draw.brake_sheet import Point, figure
from bareshell.draw.brake_slope import ParkingSlope, SlopeHeld
from bareshell.draw.brake_warmth import Boiling, BoilingCurve, Stage, TemperatureHistory

_LONG_S: Final = 600.0
_MOST_POINTS: Final = 400
_MOST_STAGES: Final = 4


def history_plate(
    history: HeatHistory, title: str, *, state: FluidState | None = None
) -> TemperatureHistory:
    """Temperatures of the hottest front and rear brake and of the hottest fluid.

    Parameters
    ----------
    history : HeatHistory
        A course as it was run.
    title : str
        What is driven.
    state : FluidState, optional
        The fluid; without it no boiling point is drawn.
    """
    moments = _series(history.time_s)
    unit, scale = ("min", 60.0) if moments[-1] > _LONG_S else ("s", 1.0)
    times = [each / scale for each in moments]
    curves = []
    for front, style in ((True, "front"), (False, "rear")):
        axle = [each for each in history.wheels if each.body.wheel.is_front is front]
        if axle:
            hot = max(axle, key=lambda each: max(_series(each.face_c)))
            name = f"{'front' if front else 'rear'} {hot.body.form}"
            curves.append(Curve(name, _thinned(times, _series(hot.face_c)), style))
    wettest = max(history.wheels, key=_hottest_fluid)
    fluid = _thinned(times, _series(wettest.fluid_c))
    return TemperatureHistory(
        title, tuple(curves), fluid, unit, _boiling(state), _stages(history, times)
    )


def boiling_plate(
    state: FluidState, *, hottest_c: float | None = None, hottest_words: str = "hottest"
) -> BoilingCurve:
    """The published boiling points of a grade against water, with the fluid as it is today.

    Parameters
    ----------
    state : FluidState
        The fluid, of a grade that has published figures.
    hottest_c : float, optional
        The hottest that the fluid gets in what was worked out. [C]
    hottest_words : str
        When that is.

    Raises
    ------
    BadInput
        When its grade has no published figures.
    """
    rows = boiling_curve(state.grade)
    boils = state.boiling_c
    water = state.water
    return BoilingCurve(
        state.grade,
        tuple((wet, (low + high) / 2) for wet, low, high in rows),
        tuple((wet, low) for wet, low, _ in rows),
        tuple((wet, high) for wet, _, high in rows),
        water=None if water is None else _triple(water.low, water.usual, water.high),
        boils=None if boils is None else _triple(boils.low, boils.usual, boils.high),
        measured=state.how == "water was measured",
        hottest_c=hottest_c,
        hottest_words=hottest_words,
    )


def slope_plate(
    answer: ParkingAnswer, *, yardstick: Yardstick | None = None, braked: str = "rear"
) -> ParkingSlope:
    """The slope held both ways.

    Parameters
    ----------
    answer : ParkingAnswer
        The parking brake for one pull.
    yardstick : Yardstick, optional
        What it is held against.
    braked : {'rear', 'front', 'all'}
        The wheels that it acts on.
    """
    asks = yardstick.asks if yardstick is not None else None
    asked = asks.slope if isinstance(asks, Hold) else None
    return ParkingSlope(
        (_held(answer.nose_up), _held(answer.nose_down)),
        asked,
        yardstick.family if yardstick is not None else "",
        _first(answer.hand_force_n),
        braked,
    )


def _held(holding: Holding) -> SlopeHeld:
    import numpy as np

    ends = str(np.ravel(np.asarray(holding.limited_by))[0])
    because = "the tyres" if ends == "tyres" else "the pull"
    return SlopeHeld(holding.direction == "nose up", _first(holding.slope), because)


def _boiling(state: FluidState | None) -> Boiling | None:
    if state is None or state.boiling_c is None:
        return None
    boils = state.boiling_c
    age = "" if state.age_years is None else f", {figure(_first(state.age_years), 1)} years"
    likely, low, high = (_first(each) for each in (boils.usual, boils.low, boils.high))
    return Boiling(likely, low, high, f"{state.grade}{age.replace('.0 ', ' ')}")


def _stages(history: HeatHistory, times: Sequence[float]) -> tuple[Stage, ...]:
    """The phases of a course, where they are few enough to be named."""
    begins = [(words, times[min(at, len(times) - 1)]) for words, at in history.begins]
    if not 1 < len(begins) <= _MOST_STAGES:
        return ()
    ends = [start for _, start in begins[1:]] + [times[-1]]
    return tuple(Stage(words, start, end) for (words, start), end in zip(begins, ends, strict=True))


def _thinned(times: Sequence[float], values: Sequence[float]) -> tuple[Point, ...]:
    """Fewer points of a long history: of each stretch the coldest and the hottest, in order."""
    points = list(zip(times, values, strict=True))
    each = -(-2 * len(points) // _MOST_POINTS)
    if each <= 2:
        return tuple(points)
    kept: list[Point] = []
    for start in range(0, len(points), each):
        stretch = points[start : start + each]
        ends = {min(stretch, key=lambda p: p[1]), max(stretch, key=lambda p: p[1])}
        kept += sorted(ends)
    return tuple(dict.fromkeys([points[0], *kept, points[-1]]))


def _hottest_fluid(history: WheelHistory) -> float:
    return max(_series(history.fluid_c))


def _series(values: object) -> list[float]:
    """A history of one sample: time is its first axis."""
    import numpy as np

    array = np.asarray(values, dtype=np.float64)
    return [float(each) for each in array.reshape(array.shape[0], -1)[:, 0]]


def _triple(low: object, usual: object, high: object) -> tuple[float, float, float]:
    return _first(low), _first(usual), _first(high)


def _first(value: object) -> float:
    import numpy as np

    return float(np.ravel(np.asarray(value, dtype=np.float64))[0])
