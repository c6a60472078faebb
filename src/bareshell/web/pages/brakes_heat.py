"""Heat and fluid: how hot it gets, where the fluid boils, and what hot brakes still do."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import brakes_heat
from bareshell.app.brakes_reading import preference_of
from bareshell.brakes.fluid_state import fluid_part
from bareshell.calc.fluid import FLUID_GRADES
from bareshell.draw.brake_results_heat import boiling_plate, history_plate
from bareshell.draw.brake_sheet import WIDE
from bareshell.draw.brake_warmth import boiling_curve, temperature_history
from bareshell.draw.svg import Svg
from bareshell.units import parse_speed, parse_temperature_c
from bareshell.web.brake_units import Units
from bareshell.web.desk import door_of
from bareshell.web.pages.brakes import SUBPAGES, figure_in, load_in
from bareshell.web.pages.brakes_circuit import query_of, system_in
from bareshell.web.pieces import Figure
from bareshell.web.twin import PageRouter, page
from bareshell.whole.brake_check import LOADS
from bareshell.whole.brake_heat import HeatAsked, HeatView
from bareshell.whole.brake_heat_parts import CourseHeat

router = PageRouter()

_FURTHEST = {"stop": "one stop", "fade": "the series", "descent": "the descent"}


@dataclass(frozen=True, slots=True)
class Plates:
    """A picture for a narrow screen and one for a wide one."""

    narrow: Svg
    wide: Svg


@dataclass(frozen=True, slots=True)
class HeatShown:
    """What the page of heat needs besides."""

    pages: tuple[tuple[str, str], ...]
    here: str
    answers: dict[str, str]
    units: Units
    query: str
    answer: str
    figures: tuple[Figure, ...]
    histories: dict[str, Plates]
    boiling: Plates | None
    fluid_page: str
    loads: tuple[str, ...] = LOADS


@router.page("/brakes/heat")
def heat(request: Request) -> Response:
    """Show how hot brakes and fluid get."""
    door, system_id = door_of(request), system_in(request)
    view = brakes_heat.heat(door, system_id, asked_in(request))
    build = door.build()
    units = Units(preference_of(build))
    found = fluid_part(build.brakes[view.system])
    shown = HeatShown(
        SUBPAGES,
        "/brakes/heat",
        {"system": system_id} if system_id else {},
        units,
        query_of(system_id),
        _answer(view),
        _figures(view, units),
        {one.key: plates for one in view.courses if (plates := _history(view, one))},
        _boiling(view),
        "" if found is None else found.id,
    )
    return page(request, "brakes/heat.html", view, also=shown)


def asked_in(request: Request) -> HeatAsked:
    """Read what was asked of heat from an address.

    Raises
    ------
    BadInput
        Naming what cannot be.
    """
    usual, params = HeatAsked(), request.query_params

    def said(name: str, otherwise: float, read: Callable[[str], float]) -> float:
        text = params.get(name, "").strip()
        return read(text) if text else otherwise

    return HeatAsked(
        said("from", usual.speed_m_s, lambda text: parse_speed(text, "speed at the beginning")),
        figure_in(params.get("slowing", ""), "deceleration", usual.slowing_m_s2),
        said("down", usual.down_speed_m_s, lambda text: parse_speed(text, "speed of the descent")),
        figure_in(params.get("slope", ""), "slope", usual.slope * 100) / 100,
        figure_in(params.get("length", ""), "length of the descent", usual.down_length_m / 1000)
        * 1000,
        figure_in(params.get("stand", ""), "time of standing", usual.stands_s / 60) * 60,
        said("air", usual.ambient_c, lambda text: parse_temperature_c(text, "air")),
        load_in(params.get("load", usual.load)),
    )


def _hottest(view: HeatView) -> CourseHeat | None:
    """Return the course on which the fluid gets hottest."""
    ran = [one for one in view.courses if one.hottest_fluid is not None]
    return max(ran, key=_fluid_c, default=None)


def _fluid_c(course: CourseHeat) -> float:
    return course.hottest_fluid.temperature_c if course.hottest_fluid is not None else 0.0


def _answer(view: HeatView) -> str:
    hottest = _hottest(view)
    if hottest is None:
        return "Not worked out yet."
    named = _FURTHEST[hottest.key]
    low, high = hottest.margin_low_k, hottest.margin_high_k
    if low is None or high is None:
        return f"The fluid is hottest after {named}; where it boils is not known."
    if low >= 0.0:
        return f"The fluid stays below boiling after {named}, in all that was drawn."
    if high < 0.0:
        return f"The fluid boils after {named}, in all that was drawn."
    return f"The fluid may boil after {named}: too much is not known to say."


def _figures(view: HeatView, units: Units) -> tuple[Figure, ...]:
    found = []
    hottest = _hottest(view)
    if hottest is not None and hottest.hottest_fluid is not None:
        fluid = hottest.hottest_fluid
        number, _, unit = units.warm(fluid.temperature_c).partition(" ")
        span = f"{units.warm(fluid.low_c)} to {units.warm(fluid.high_c)}"
        words = f"hottest fluid, {hottest.hottest_wheel}, {hottest.when} ({span})"
        found.append(Figure(number, words, unit))
    if view.fluid is not None and view.fluid.boils_usual_c is not None:
        fluid_now = view.fluid
        number, _, unit = units.warm(fluid_now.boils_usual_c or 0.0).partition(" ")
        low, high = fluid_now.boils_low_c or 0.0, fluid_now.boils_high_c or 0.0
        words = f"where the fluid boils today, {units.warm(low)} to {units.warm(high)}"
        found.append(Figure(number, words, unit))
    if view.hot is not None:
        hot = view.hot
        force = units.force(hot.pedal_force_n)
        words = (
            f"hot at {force}, {hot.low_m_s2:.1f} to {hot.high_m_s2:.1f}; "
            f"cold {hot.cold_m_s2:.1f}; as if no tyre slid"
        )
        found.append(Figure(f"{hot.hot_m_s2:.1f}", words, "m/s\N{SUPERSCRIPT TWO}"))
    return tuple(found)


def _history(view: HeatView, course: CourseHeat) -> Plates | None:
    if course.history is None:
        return None
    state = None if view.fluid is None else view.fluid.state
    drawn = history_plate(course.history, course.words, state=state)
    return Plates(temperature_history(drawn), temperature_history(drawn, width=WIDE))


def _boiling(view: HeatView) -> Plates | None:
    """Draw where today's fluid stands, for a grade that has published figures."""
    if view.fluid is None or view.fluid.state is None or view.fluid.grade not in FLUID_GRADES:
        return None
    if view.fluid.base == "silicone" or view.fluid.boils_low_c is None:
        return None
    hottest = _hottest(view)
    if hottest is None:
        drawn = boiling_plate(view.fluid.state)
    else:
        words = f"hottest, after {_FURTHEST[hottest.key]}"
        drawn = boiling_plate(view.fluid.state, hottest_c=_fluid_c(hottest), hottest_words=words)
    return Plates(boiling_curve(drawn), boiling_curve(drawn, width=WIDE))
