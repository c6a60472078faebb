"""The courses that brakes are put through, run with every combination of what is not known."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from bareshell.brakes import heat
from bareshell.brakes.answer import Load
from bareshell.brakes.figures import Figures, Gathered, ranges
from bareshell.brakes.fluid_state import FluidState, margin_to
from bareshell.brakes.heat_body import heat_input, shares_of_answer
from bareshell.brakes.heat_course import Course, rest
from bareshell.brakes.heat_fade import drum_growth
from bareshell.brakes.heat_figures import heat_needs, heat_ranges
from bareshell.brakes.heat_history import HeatHistory, Peak, WheelHistory
from bareshell.brakes.needs import Need, needs_of
from bareshell.brakes.prepared import prepare
from bareshell.brakes.solve import answered
from bareshell.brakes.unknowns import grouped
from bareshell.calc.values import Array, Value
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, Wheel
from bareshell.whole.brake_heat_parts import CourseHeat, LumpPeak, WheelHeat

__all__ = ["COMBINATIONS", "Asking", "Drawn", "course_heat", "drawn_figures"]

COMBINATIONS: Final = 64
"""Drawn besides the figures as they stand; enough to see how wide the answer is."""

_PUSHES: Final = 46
_MOST_PUSH_N: Final = 900.0
_MINUTE_S: Final = 60.0


@dataclass(frozen=True, slots=True)
class Drawn:
    """All figures, those that are not known exactly as arrays; first of each is as it stands."""

    system: BrakeSystem
    figures: Figures
    load: Load


@dataclass(frozen=True, slots=True)
class Asking:
    """A course before it is run.

    Parameters
    ----------
    make : callable
        Gives the course; what cannot be driven is refused there.
    slowing_m_s2 : float
        Deceleration at which the wheels share the work as they do in it. [m/s2]
    """

    key: str
    words: str
    make: Callable[[], Course]
    slowing_m_s2: float
    cite: str = ""
    mark: str = ""


def drawn_figures(system: BrakeSystem, cold: Gathered, warm: Gathered, load: Load) -> Drawn:
    """Draw combinations of every figure that the sharing and the heat are read from.

    Parameters
    ----------
    system : BrakeSystem
        As described.
    cold, warm : Gathered
        Figures of the solve and of heat.
    load : {"driver only", "laden"}
        How the car is loaded.
    """
    import numpy as np
    from scipy.stats import qmc

    figures: dict[str, Value] = {**cold.figures, **warm.figures}
    listed = {one.path: one for one in (*ranges(system, cold), *heat_ranges(system, warm))}
    needs = {one.path: one for one in (*needs_of(system), *heat_needs(system, load))}
    for path in listed:
        if path not in needs:  # a mass or an area that is read because somebody stated it
            owner, _, name = path.partition(".")
            needs[path] = Need(system.part(owner), name, ("heat",), "")
    unknown = grouped(listed.values(), needs)
    if unknown:
        # A Latin hypercube [S:mckay-1979] with a fixed seed, so that a page never flickers.
        rng = np.random.default_rng(1)
        even = qmc.LatinHypercube(len(unknown), rng=rng).random(COMBINATIONS)
        for place, each in enumerate(unknown):
            column = each.low + even[:, place] * (each.high - each.low)
            for path in each.paths:
                figures[path] = np.concatenate((np.atleast_1d(figures[path]), column))
    return Drawn(system, figures, load)


def course_heat(
    drawn: Drawn, asking: Asking, stands_s: float, ambient_c: float, fluid: FluidState | None
) -> CourseHeat:
    """Run a course and the standing after it.

    Parameters
    ----------
    drawn : Drawn
        The figures.
    asking : Asking
        What is driven.
    stands_s : float
        How long the car stands after it. [s]
    ambient_c : float
        The air. [degC]
    fluid : FluidState or None
        For the margin; None when it is not known.
    """
    try:
        course = tuple(asking.make())
        shares = _shares(drawn, asking.slowing_m_s2)
        given = heat_input(drawn.system, drawn.figures, shares, drawn.load)
        found = heat.run(given, (*course, *rest(stands_s)), ambient_c=ambient_c)
    except BadInput as error:
        because = " ".join(problem.describe() for problem in error.problems[:3])
        return CourseHeat(
            asking.key, asking.words, cite=asking.cite, mark=asking.mark, because=because
        )
    wheel, peak = found.hottest("fluid")
    hottest = _lump("fluid", "fluid", peak)
    # Where the fluid gets hottest in one combination is not where it does in another.
    every = [_lump("fluid", "fluid", found.peak(one.body.wheel, "fluid")) for one in found.wheels]
    high = max(one.high_c for one in every)
    low, best, words = _margin(fluid, hottest, high)
    driven = _first(found.time_s[found.begins[-1][1]])
    return CourseHeat(
        asking.key,
        asking.words,
        driven,
        tuple(_wheel(found, one) for one in found.wheels),
        wheel.value,
        hottest,
        _when(hottest.at_s, driven, driven + stands_s),
        low,
        best,
        words,
        asking.cite,
        asking.mark,
        history=found,
    )


def _shares(drawn: Drawn, slowing_m_s2: float) -> Mapping[Wheel, Value]:
    import numpy as np

    figures = {
        path: value if np.ndim(value) == 0 else np.asarray(value)
        for path, value in drawn.figures.items()
    }
    pushes = np.linspace(0.0, _MOST_PUSH_N, _PUSHES)
    answer = answered(prepare(drawn.system, figures), pushes, drawn.load)
    return shares_of_answer(answer, slowing_m_s2)


def _wheel(found: HeatHistory, one: WheelHistory) -> WheelHeat:
    body = one.body
    metal = "disc" if body.form == "disc" else "drum"
    holder = "caliper" if body.form == "disc" else "cylinder"
    linings = "pads" if body.form == "disc" else "shoes"
    named = (("metal", metal), ("lining", linings), ("body", holder), ("fluid", "fluid"))
    grown = _first(drum_growth(found, body.wheel)) if body.form == "drum" else None
    return WheelHeat(
        body.wheel.value,
        body.title,
        body.form,
        _first(body.energy_share),
        _first(one.energy_j),
        (
            _lump("face", "rubbed face", one.face_peak),
            *(_lump(key, words, found.peak(body.wheel, key)) for key, words in named),
        ),
        grown,
    )


def _lump(key: str, words: str, peak: Peak) -> LumpPeak:
    import numpy as np

    every: Array = np.ravel(np.asarray(peak.temperature_c))
    return LumpPeak(
        key, words, float(every[0]), float(every.min()), float(every.max()), _first(peak.at_s)
    )


def _margin(
    fluid: FluidState | None, hottest: LumpPeak, high_c: float
) -> tuple[float | None, float | None, str]:
    """Give the worst and best margin, and the words with every figure as it stands."""
    if fluid is None or fluid.boiling_c is None:
        return None, None, "where the fluid boils is not known, so no margin can be said"
    stated = margin_to(fluid, hottest.temperature_c)
    low = _first(fluid.boiling_c.low) - high_c
    best = _first(fluid.boiling_c.high) - hottest.low_c
    return low, best, "" if stated is None else stated.words


def _when(at_s: float, driven_s: float, end_s: float) -> str:
    """Say when the fluid is hottest, from when the car came to stand."""
    after = at_s - driven_s
    if after <= 1.0:
        return f"{_time(at_s)} after the beginning, while driving"
    still = ", still rising" if at_s >= end_s - 1.0 else ""
    return f"{_time(after)} after the car has stopped{still}"


def _time(seconds: float) -> str:
    return f"{seconds:.0f} s" if seconds < 2 * _MINUTE_S else f"{seconds / _MINUTE_S:.0f} min"


def _first(value: Value) -> float:
    import numpy as np

    return float(np.ravel(np.asarray(value))[0])
