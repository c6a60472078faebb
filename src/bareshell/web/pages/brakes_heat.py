"""Heat and fluid: how hot it gets, where the fluid boils, and what hot brakes still do."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

from bareshell.app import brakes_heat
from bareshell.app.brakes_reading import kept, preference_of
from bareshell.brakes.fluid_state import fluid_part
from bareshell.calc.fluid import FLUID_GRADES
from bareshell.draw.brake_results_heat import boiling_plate, history_plate
from bareshell.draw.brake_sheet import WIDE
from bareshell.draw.brake_warmth import boiling_curve, temperature_history
from bareshell.draw.svg import Svg
from bareshell.units import parse_speed, parse_temperature_c
from bareshell.web.brake_units import Units
from bareshell.web.desk import door_of
from bareshell.web.pages.brakes import SUBPAGES, figure_in
from bareshell.web.pages.brakes_circuit import query_of, system_in
from bareshell.web.pieces import Figure
from bareshell.web.twin import PageRouter, page
from bareshell.whole.brake_check import LOADS, load_called
from bareshell.whole.brake_heat import HeatAsked, HeatView
from bareshell.whole.brake_heat_parts import CourseHeat, WheelHeat
from bareshell.whole.brake_heat_runs import COMBINATIONS

router = PageRouter()

_ALIKE_K = 5.0
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
    margins: dict[str, str]
    rows: dict[str, tuple[tuple[str, WheelHeat], ...]]
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
    # Names find their room among six long curves; that takes longer than all the rest of the page.
    histories, boiling = kept(
        door,
        ("heat drawn", view.system, view.made_at.date(), view.asked),
        lambda _: (
            {one.key: plates for one in view.courses if (plates := _history(view, one))},
            _boiling(view),
        ),
    )
    shown = HeatShown(
        SUBPAGES,
        "/brakes/heat",
        {"system": system_id} if system_id else {},
        units,
        query_of(system_id),
        _answer(view, units),
        _figures(view, units),
        histories,
        {one.key: _margins(view, one, units) for one in view.courses},
        {one.key: _rows(one) for one in view.courses},
        boiling,
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
        load_called(params.get("load", usual.load)),
    )


def _hottest(view: HeatView) -> CourseHeat | None:
    """Return the course on which the fluid gets hottest."""
    ran = [one for one in view.courses if one.hottest_fluid is not None]
    return max(ran, key=_fluid_c, default=None)


def _fluid_c(course: CourseHeat) -> float:
    return course.hottest_fluid.temperature_c if course.hottest_fluid is not None else 0.0


def _nearest(view: HeatView) -> CourseHeat | None:
    """Return the course that comes nearest to boiling."""
    known = [one for one in view.courses if one.margin_low_k is not None]
    return min(known, key=lambda one: one.margin_low_k or 0.0, default=None)


def _answer(view: HeatView, units: Units) -> str:
    near, hottest = _nearest(view), _hottest(view)
    if hottest is None:
        return "Not worked out yet."
    if near is None or near.margin_low_k is None or near.margin_high_k is None:
        return f"The fluid is hottest after {_FURTHEST[hottest.key]}; where it boils is not known."
    words = _below(near.margin_low_k, near.margin_high_k, units)
    open_ = near.margin_low_k < 0.0 <= near.margin_high_k
    said = "the fluid may boil" if open_ else "the fluid at its nearest"
    over = f"over {COMBINATIONS + 1} combinations of what is not known"
    return f"After {_FURTHEST[near.key]} {said}: {words}, {over}."


def _below(low_k: float, high_k: float, units: Units) -> str:
    """Say how far below boiling something is, in the owner's degrees.

    >>> _below(-5.2, 40.0, Units()), _below(3.0, 40.0, Units()), _below(-9.0, -3.0, Units())
    ('5 C above boiling to 40 C below', '3 to 40 C below boiling', '3 to 9 C above boiling')
    """
    unit = units.preference.temperature
    scale = 1.0 if unit == "C" else 1.8
    low, high = round(low_k * scale), round(high_k * scale)
    if low >= 0:
        return f"{low} to {high} {unit} below boiling"
    if high < 0:
        return f"{-high} to {-low} {unit} above boiling"
    return f"{-low} {unit} above boiling to {high} {unit} below"


def _margins(view: HeatView, course: CourseHeat, units: Units) -> str:
    """Say the margin as the figures stand, and with all that is not known."""
    fluid, hottest = view.fluid, course.hottest_fluid
    if fluid is None or fluid.boils_low_c is None or fluid.boils_high_c is None:
        return ""
    if hottest is None or course.margin_low_k is None or course.margin_high_k is None:
        return ""
    peak = hottest.temperature_c
    stated = _below(fluid.boils_low_c - peak, fluid.boils_high_c - peak, units)
    wide = _below(course.margin_low_k, course.margin_high_k, units)
    return f"{stated} by what is published of it; {wide} over all that was drawn"


def _rows(course: CourseHeat) -> tuple[tuple[str, WheelHeat], ...]:
    """Put the two sides of an axle together where they differ by nothing that counts."""
    found: list[tuple[str, WheelHeat]] = []
    for axle in ("front", "rear"):
        pair = [one for one in course.wheels if one.wheel.startswith(axle)]
        if len(pair) == 2 and _alike(*pair):
            hotter = max(pair, key=lambda one: one.lump("fluid").temperature_c)
            found.append((f"{axle}, either side", hotter))
        else:
            found += [(one.wheel, one) for one in pair]
    return tuple(found)


def _alike(one: WheelHeat, other: WheelHeat) -> bool:
    pairs = zip(one.lumps, other.lumps, strict=True)
    return one.form == other.form and all(
        abs(a.temperature_c - b.temperature_c) < _ALIKE_K for a, b in pairs
    )


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
