"""Heat and fluid: a stop, a fade series, a descent, the standing after each, and what is left."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from bareshell.brakes.against import FOOT_N
from bareshell.brakes.answer import Load
from bareshell.brakes.figures import Gathered, gather
from bareshell.brakes.fluid_mix import meetings
from bareshell.brakes.fluid_state import CAUTIONS as FLUID_CAUTIONS
from bareshell.brakes.fluid_state import FluidState, Span, fluid_part, fluid_state
from bareshell.brakes.heat import CAUTIONS as HEAT_CAUTIONS
from bareshell.brakes.heat_course import FADE_SERIES, Course, descent, single_stop, snubs
from bareshell.brakes.heat_fade import friction_needed, hot_figures
from bareshell.brakes.heat_figures import gather_heat, heat_ranges
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.solve import answered
from bareshell.brakes.yardstick import Subject, Yardstick
from bareshell.brakes.yardsticks import CAUTIONS
from bareshell.calc.stopping import GRAVITY_M_S2
from bareshell.calc.values import Value
from bareshell.errors import BadInput
from bareshell.model.brake import BrakeSystem, Wheel
from bareshell.sources import source
from bareshell.units.show import (
    METRIC,
    Preference,
    figure,
    show_speed,
)
from bareshell.whole.brake_check import NOT_PROVED, Head, load_called, troubled, verdict_view
from bareshell.whole.brake_heat_parts import CourseHeat, FluidToday, HotBrakes, NeededFriction
from bareshell.whole.brake_heat_runs import COMBINATIONS, Asking, course_heat, drawn_figures
from bareshell.whole.brake_others import others_of
from bareshell.whole.brake_parts import (
    AssumedFigure,
    EntryProblem,
    MissingFigure,
    SystemName,
    TrustCount,
    VerdictView,
)
from bareshell.whole.brake_push import plain
from bareshell.whole.brake_said import assumed_figures, count_trust, odd_entries

HEAT_NOT_PROVED: Final = (
    (
        "cooling is rough by a factor of one and a half, and how heat reaches the fluid rests on "
        "figures that nobody has published"
    ),
    f"each range holds {COMBINATIONS + 1} combinations of what is not known; it proves no bound",
    "the engine and the air give no help here: every joule goes into the brakes",
    *(one for one in NOT_PROVED if "cold, dry" not in one),
)
"""What no temperature on these pages proves."""


@dataclass(frozen=True, slots=True)
class HeatAsked:
    """What was asked of heat.

    Parameters
    ----------
    speed_m_s, slowing_m_s2 : float
        One stop: from which speed, how hard. [m/s, m/s2]
    down_speed_m_s, slope, down_length_m : float
        A descent: how fast, how steep (rise over run), how long. [m/s, -, m]
    stands_s : float
        How long the car stands after each. [s]
    ambient_c : float
        The air. [degC]
    load : {"driver only", "laden"}
        How the car is loaded.
    """

    speed_m_s: float = 100.0 / 3.6
    slowing_m_s2: float = 6.0
    down_speed_m_s: float = 50.0 / 3.6
    slope: float = 0.08
    down_length_m: float = 6000.0
    stands_s: float = 1800.0
    ambient_c: float = 20.0
    load: Load = "laden"

    def __post_init__(self) -> None:
        """Refuse what no car or road can be.

        Raises
        ------
        BadInput
            Naming what was asked and what may be.
        """
        for words, value, low, high, unit, scale in (
            ("speed at the beginning", self.speed_m_s, 3.0, 90.0, "km/h", 3.6),
            ("deceleration", self.slowing_m_s2, 0.5, 12.0, "m/s2", 1.0),
            ("speed of the descent", self.down_speed_m_s, 1.0, 60.0, "km/h", 3.6),
            ("slope", self.slope, 0.01, 0.5, "%", 100.0),
            ("length of the descent", self.down_length_m, 50.0, 100_000.0, "km", 0.001),
            ("time of standing", self.stands_s, 60.0, 14_400.0, "min", 1.0 / 60.0),
            ("temperature of the air", self.ambient_c, -40.0, 60.0, "C", 1.0),
        ):
            if not low <= value <= high:
                raise BadInput(
                    words,
                    f"{value * scale:g} {unit} is none to ask about",
                    f"ask from {low * scale:g} to {high * scale:g} {unit}",
                )
        load_called(self.load)


@dataclass(frozen=True, slots=True)
class HeatView:
    """How hot brakes and fluid get, where the fluid boils, and what the brakes still do hot.

    Parameters
    ----------
    asked : HeatAsked
        What was asked.
    courses : tuple of CourseHeat
        One stop, the fade series, the descent; the car stands after each.
    fluid : FluidToday or None
        The fluid; None when what is said of it cannot be.
    hot : HotBrakes or None
        What is reached hot; None when it cannot be worked out.
    meetings : tuple of EntryProblem
        Fluids and rubbers that would meet, or of which nobody knows.
    because : str
        Why nothing was worked out.
    """

    made_at: datetime
    seq: int
    car: str
    invented: bool
    system: str
    title: str
    role: str
    systems: tuple[SystemName, ...]
    asked: HeatAsked
    courses: tuple[CourseHeat, ...]
    fluid: FluidToday | None
    hot: HotBrakes | None
    verdicts: tuple[VerdictView, ...]
    yardsticks_chosen: bool
    meetings: tuple[EntryProblem, ...]
    trust: TrustCount
    assumed: tuple[AssumedFigure, ...]
    missing: tuple[MissingFigure, ...]
    problems: tuple[EntryProblem, ...]
    because: str
    cautions: tuple[str, ...] = (*HEAT_CAUTIONS, *FLUID_CAUTIONS, *CAUTIONS)
    not_proved: tuple[str, ...] = HEAT_NOT_PROVED

    def course(self, key: str) -> CourseHeat:
        """Return one course by its key."""
        return next(one for one in self.courses if one.key == key)


def heat_view(
    system: BrakeSystem,
    head: Head,
    asked: HeatAsked = HeatAsked(),
    yardsticks: Iterable[Yardstick] | None = None,
) -> HeatView:
    """Work out how hot brakes and fluid get.

    Parameters
    ----------
    system : BrakeSystem
        As described; it may be half finished.
    head : Head
        Whose they are; the fluid is as old as on that day.
    asked : HeatAsked
        The stop, the descent, the standing, the air, the load.
    yardsticks : iterable of Yardstick or None
        Those that were picked; None when nobody picked any.

    Examples
    --------
    >>> from datetime import UTC
    >>> from bareshell.brakes.examples import small_car
    >>> view = heat_view(small_car(), Head(datetime(2026, 3, 4, tzinfo=UTC)))
    >>> view.course("stop").wheels[0].lump("metal").temperature_c > 150
    True
    >>> view.course("fade").because[:21]
    'top speed of the car:'
    """
    cold, warm = gather(system), gather_heat(system, asked.load)
    prepared = prepare(system, cold.figures)
    picked = tuple(one for one in yardsticks or () if one.subject is Subject.HOT)
    state, because_fluid = _fluid(system, head)
    because = _untold(prepared, asked.load)
    courses: tuple[CourseHeat, ...] = ()
    if not because:
        drawn = drawn_figures(system, cold, warm, asked.load)
        courses = tuple(
            course_heat(drawn, one, asked.stands_s, asked.ambient_c, state)
            for one in _courses(asked, warm, head.preference)
        )
    hold = others_of(system, prepared)[Subject.HOT]
    read = _both(cold, warm)
    about = {path.partition(".")[0] for path in warm.figures}
    return HeatView(
        made_at=head.made_at,
        seq=head.seq,
        car=head.car,
        invented=head.invented,
        system=system.id,
        title=system.title,
        role=system.role.value,
        systems=head.systems,
        asked=asked,
        courses=courses,
        fluid=None if state is None else fluid_today(state),
        hot=None if because else _hot(prepared, warm, courses, picked, asked.load),
        verdicts=tuple(verdict_view(hold(one)) for one in picked),
        yardsticks_chosen=yardsticks is not None,
        meetings=tuple(
            EntryProblem("", each.where, each.what, each.remedy, each.severity)
            for each in meetings(system)
        ),
        trust=count_trust(system, warm),
        assumed=assumed_figures(system, warm.assumed, head.preference),
        missing=tuple(
            MissingFigure(one.path, one.words, one.question, one.purposes)
            for one in read.missing
            if {"heat", "fade", "pressure", "torque", asked.load} & set(one.purposes)
        ),
        problems=tuple(one for one in odd_entries(system) if one.about in about),
        because=" ".join(filter(None, (because, because_fluid))),
    )


def _both(cold: Gathered, warm: Gathered) -> Gathered:
    missing = {one.path: one for one in (*warm.missing, *cold.missing)}
    return Gathered(warm.figures, warm.assumed, tuple(missing.values()))


def _untold(prepared: Prepared, load: Load) -> str:
    """Say why the wheels' shares of the work cannot be told; nothing when they can."""
    if troubled(prepared):
        return "The circuit cannot be reckoned yet: look at what is odd about the entry."
    if prepared.missing_for("pressure", "torque", load):
        return "How the wheels share the braking is not known: figures are missing."
    return ""


def _fluid(system: BrakeSystem, head: Head) -> tuple[FluidState | None, str]:
    try:
        return fluid_state(fluid_part(system), head.made_at.date()), ""
    except BadInput as error:
        return None, " ".join(problem.describe() for problem in error.problems)


def _courses(asked: HeatAsked, warm: Gathered, preference: Preference = METRIC) -> list[Asking]:
    """Lay out the courses that are driven, the prescribed one with its clause."""
    series = FADE_SERIES["un-r13-h"]
    top = next(
        (value for path, value in warm.figures.items() if path.endswith(".top_speed_m_s")), None
    )

    def fade() -> Course:
        begin = series.begin_speed_m_s(top)
        return snubs(
            series.count,
            begin,
            begin * series.end_share,
            series.interval_s,
            series.deceleration_m_s2,
        )

    stop = f"one stop from {show_speed(asked.speed_m_s, preference)}"
    km = figure(asked.down_length_m / 1000.0, significant=3)
    slope = f"{figure(asked.slope * 100.0, significant=3)} %"
    down = f"{km} km down {slope} at {show_speed(asked.down_speed_m_s, preference)}"
    begins = (
        ""
        if top is None
        else f", from {show_speed(float(series.begin_speed_m_s(top)), preference)}"
    )
    return [
        Asking(
            "stop",
            stop,
            lambda: single_stop(asked.speed_m_s, asked.slowing_m_s2),
            asked.slowing_m_s2,
        ),
        Asking(
            "fade",
            series.words + begins,
            fade,
            series.deceleration_m_s2,
            f"{source(series.source_id).title}, {series.clause}",
            series.mark,
        ),
        Asking(
            "descent",
            down,
            lambda: descent(asked.slope, asked.down_speed_m_s, asked.down_length_m),
            asked.slope * GRAVITY_M_S2,
        ),
    ]


def fluid_today(state: FluidState) -> FluidToday:
    """Lay the state of a fluid out as plain figures.

    Examples
    --------
    >>> from bareshell.model.brake import Part, PartKind
    >>> dot4 = Part("fluid", "fluid", PartKind.FLUID, choices={"grade": "DOT 4"})
    >>> fluid_today(fluid_state(dot4, water_share=0.02)).boils_low_c
    160.0
    """
    water, boils = state.water, state.boiling_c
    return FluidToday(
        state.grade,
        state.base,
        None if state.age_years is None else plain(state.age_years),
        *_span(water),
        *_span(boils),
        state.how,
        state.mark,
        state.words,
        state.asks,
        state,
    )


def _span(span: Span | None) -> tuple[float | None, float | None, float | None]:
    if span is None:
        return None, None, None
    return plain(span.low), plain(span.usual), plain(span.high)


def _hot(
    cold: Prepared,
    warm: Gathered,
    courses: Iterable[CourseHeat],
    picked: Iterable[Yardstick],
    load: Load,
) -> HotBrakes:
    """Push once cold and once hot: friction fallen, drums grown as in the hottest course."""
    system = cold.system
    growth = _growth(courses)

    def reached(ratios: dict[str, float]) -> tuple[float, Prepared]:
        hot = prepare(system, hot_figures(system, cold.figures, ratios, growth))
        return plain(answered(hot, FOOT_N, load).deceleration_m_s2), hot

    usual = {path: value for path, value in warm.figures.items() if path.endswith(_KEPT_HOT)}
    ends = {one.path: one for one in heat_ranges(system, warm) if one.path in usual}
    before = answered(cold, FOOT_N, load)
    middle, hot = reached(usual)
    after = answered(hot, FOOT_N, load)
    return HotBrakes(
        FOOT_N,
        plain(before.deceleration_m_s2),
        middle,
        reached({path: one.low for path, one in ends.items()})[0],
        reached({path: one.high for path, one in ends.items()})[0],
        None if before.travel is None else plain(before.travel.total_m),
        None if after.travel is None else plain(after.travel.total_m),
        None if after.travel is None else plain(after.travel.floor_m),
        None if after.travel is None else bool(after.travel.on_floor),
        tuple(_needed(cold, one, load) for one in picked),
    )


_KEPT_HOT: Final = ".hot_friction_ratio"


def _growth(courses: Iterable[CourseHeat]) -> dict[Wheel, Value]:
    found: dict[Wheel, Value] = {}
    for course in courses:
        for one in course.wheels:
            if one.grown_m is not None:
                wheel = Wheel(one.wheel)
                found[wheel] = max(plain(found.get(wheel, 0.0)), one.grown_m)
    return found


def _needed(cold: Prepared, yardstick: Yardstick, load: Load) -> NeededFriction:
    figures = {path: plain(value) for path, value in cold.figures.items()}
    share = friction_needed(cold.system, figures, yardstick, load)
    return NeededFriction(yardstick.id, yardstick.words, share)
