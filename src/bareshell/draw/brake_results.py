"""From readings of the brakes to what some pictures draw.

Here stand the pictures over a rising push, the pipes, and the trust in an answer; those of heat,
fluid and parking are in `brake_results_heat`, the car plan in `brake_places`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from bareshell.brakes.bleed_plan import BleedPlan
from bareshell.brakes.pipe_sheet import PipeSheet, SheetPipe
from bareshell.brakes.yardstick import Slow, Subject, Yardstick
from bareshell.calc.loads import ideal_rear_share
from bareshell.calc.stopping import GRAVITY_M_S2
from bareshell.draw.brake_balance import Distribution
from bareshell.draw.brake_car import BleedMark
from bareshell.draw.brake_chart import Curve
from bareshell.draw.brake_pedal import Asked, Level, Panel, PedalCurve
from bareshell.draw.brake_pipes import DrawnBend, DrawnEnd, DrawnPipe
from bareshell.draw.brake_sheet import Point, figure
from bareshell.draw.brake_trust import Sensitivity, ShareRow, Unsettled
from bareshell.whole.brake_parts import PushCurve, Settling
from bareshell.whole.brake_trust import TrustedAnswer

_IDEAL_G: Final = tuple(step / 40 for step in range(49))


def distribution_plate(
    curve: PushCurve,
    figures: Mapping[str, float],
    *,
    standard: PushCurve | None = None,
    result: str = "",
) -> Distribution:
    """Front brake force against rear over a rising push, with the ideal line of that load.

    Parameters
    ----------
    curve : PushCurve
        The car as it is drawn.
    figures : mapping of str to float
        By path; the car's weights, wheelbase and heights are read.
    standard : PushCurve, optional
        The standard car.
    result : str
        What it comes to, in a sentence.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> from bareshell.whole.brake_push import push_curve
    >>> car = small_car()
    >>> known = gather(car).figures
    >>> plate = distribution_plate(push_curve(prepare(car, known), 500.0, "laden"), known)
    >>> [round(force, 3) for force in plate.ideal[20]], plate.load  # at half of g
    ([0.292, 0.208], 'laden')
    """
    name, height = (
        ("laden", "laden_cg_height_m") if curve.load == "laden" else ("driver_only", "cg_height_m")
    )
    car = {path.partition(".")[2]: value for path, value in figures.items()}
    weight = car[f"{name}_mass_kg"] * GRAVITY_M_S2
    share, base = car[f"{name}_front_share"], car["wheelbase_m"]
    ideal = []
    for g in _IDEAL_G:
        rear = float(ideal_rear_share(base, base * (1 - share), car[height], g))
        ideal.append((g * (1 - rear), g * rear))
    was = () if standard is None else _forces(standard, weight)
    return Distribution(tuple(ideal), _forces(curve, weight), was, (), result, curve.load)


def pedal_plate(
    curves: Sequence[PushCurve],
    *,
    standard: PushCurve | None = None,
    yardsticks: Iterable[Yardstick] = (),
    floor_m: float | None = None,
    stroke_m: float | None = None,
    servo_gives_all_at_n: float | None = None,
    result: str = "",
) -> PedalCurve:
    """Deceleration and travel over a rising push.

    Parameters
    ----------
    curves : sequence of PushCurve
        The same car at one or two loads over the same pushes; travel is that of the first.
    standard : PushCurve, optional
        The standard car at the first of these loads.
    yardsticks : iterable of Yardstick
        Those that ask the service brake for a deceleration are drawn as corners.
    floor_m, stroke_m : float, optional
        Travel to the floor, and to the end of the cylinder. [m]
    servo_gives_all_at_n : float, optional
        The push at which the servo gives all it has. [N]
    result : str
        What it comes to, in a sentence.

    Raises
    ------
    ValueError
        When there is no curve.
    """
    if not curves:
        raise ValueError("A pedal curve needs the answer for one load at least.")
    first = curves[0]
    lines = [
        Curve(each.load, _slowing(each), style)
        for each, style in zip(curves, ("front", "rear"), strict=False)
    ]
    if standard is not None:
        lines.append(Curve("standard", _slowing(standard), "standard"))
    most = max(first.pedal_force_n)
    asked = tuple(
        Asked(f"{each.family} {figure(least, 2)}", each.forces.most_foot_n or most, least)
        for each in yardsticks
        if each.subject is Subject.SERVICE and isinstance(each.asks, Slow)
        for least in (each.asks.steady_m_s2,)
    )
    panels = [Panel("deceleration, m/s²", tuple(lines), asked)]
    if first.travel_m:
        travelled = tuple(
            (push, 1000 * m) for push, m in zip(first.pedal_force_n, first.travel_m, strict=True)
        )
        levels = [
            Level(f"{word} {figure(1000 * metres)}", 1000 * metres, heavy=word == "floor")
            for word, metres in (("floor", floor_m), ("stroke", stroke_m))
            if metres is not None
        ]
        panels.append(Panel("travel, mm", (Curve("", travelled),), (), tuple(levels)))
    knees = (
        () if servo_gives_all_at_n is None else ((servo_gives_all_at_n, "servo gives all it has"),)
    )
    return PedalCurve(tuple(panels), most, knees, result)


# ---------------------------------------------------------------- bleeding and pipes


def bleed_marks(plan: BleedPlan) -> tuple[BleedMark, ...]:
    """The turns of the bleed plan, and the far ends to vent, for the car plan.

    Parameters
    ----------
    plan : BleedPlan
        In its order.

    Examples
    --------
    >>> from bareshell.brakes.bleed_plan import bleed_plan
    >>> from bareshell.brakes.examples import small_car
    >>> marks = bleed_marks(bleed_plan(small_car()))
    >>> [mark.number for mark in marks], marks[0].part, marks[0].words.split(",")[0][-2:]
    ([1, 2, 3, 4], 'cylinder-rear-left', 'ml')
    """
    turns = [
        BleedMark(step.number, step.part, _to_draw(step.draw_m3, step.strokes))
        for step in plan.steps
    ]
    ends = [
        BleedMark(0, part, _to_draw(leg.draw_m3, None))
        for leg in plan.dead_legs
        if not leg.vented
        for part in leg.vent_at
    ]
    return (*turns, *ends)


def _to_draw(draw_m3: float, strokes: int | None) -> str:
    drawn = f"{figure(draw_m3 * 1e6)} ml"
    return drawn if strokes is None else f"{drawn}, {strokes} strokes"


def pipes_plate(
    sheet: PipeSheet, circuits: Mapping[str, int] | None = None
) -> tuple[DrawnPipe, ...]:
    """Every pipe of the pipe sheet as it is cut.

    Parameters
    ----------
    sheet : PipeSheet
        The pipes.
    circuits : mapping of str to int, optional
        The number of a pipe's circuit by its id.

    Examples
    --------
    >>> from bareshell.brakes.pipe_sheet import pipe_sheet
    >>> from bareshell.brakes.starters import starter
    >>> pipes = pipes_plate(pipe_sheet(starter("twin cylinders", threads="metric")))
    >>> pipes[-1].title, pipes[-1].ends[0].nut, len(pipes[-1].bends)
    ('long pipe to the rear', 'M10x1 male', 3)
    """
    return tuple(_drawn_pipe(each, (circuits or {}).get(each.pipe.line, 0)) for each in sheet.pipes)


def _drawn_pipe(made: SheetPipe, circuit: int) -> DrawnPipe:
    pipe = made.pipe
    ends = [
        DrawnEnd(end.into, " ".join(word for word in (end.thread, end.sex) if word), end.flare)
        for end in pipe.ends
    ]
    size = "" if pipe.outside_diameter_m is None else f"{1000 * pipe.outside_diameter_m:.4g} mm"
    bends = tuple(
        DrawnBend(1000 * leg.from_end_m, leg.corner_deg, leg.turns)
        for leg in made.legs
        if leg.corner_deg is not None and leg.turns in ("left", "right")
    )
    return DrawnPipe(
        pipe.line,
        pipe.title,
        None if pipe.cut_m is None else 1000 * pipe.cut_m,
        (ends[0], ends[1]),
        ", ".join(word for word in (size, pipe.material) if word),
        bends,
        circuit,
    )


# ---------------------------------------------------------------- trust


def settling_plate(answer: str, inputs: Iterable[Settling], *, measure: str = "") -> Sensitivity:
    """What to measure next, as bars.

    Parameters
    ----------
    answer : str
        What it would settle: ``which axle locks first``.
    inputs : iterable of Settling
        The one that settles most first.
    measure : str
        The published measure that ranks them.
    """
    bars = tuple(
        Unsettled(each.path, each.words, each.share, each.range_said, each.advice)
        for each in inputs
    )
    return Sensitivity(answer, bars, measure)


def trusted_rows(answers: Iterable[TrustedAnswer]) -> tuple[ShareRow, ...]:
    """A strip for each answer that was worked out over all combinations."""
    return tuple(
        ShareRow(
            each.id,
            each.title[:1].upper() + each.title[1:],
            each.share,
            f"the worst {each.worst}" if each.worst else "",
        )
        for each in answers
        if each.share is not None
    )


# ---------------------------------------------------------------- points


def _forces(curve: PushCurve, weight_n: float) -> tuple[Point, ...]:
    return tuple(
        (front / weight_n, rear / weight_n)
        for front, rear in zip(curve.front_force_n, curve.rear_force_n, strict=True)
    )


def _slowing(curve: PushCurve) -> tuple[Point, ...]:
    return tuple(
        (push, g * GRAVITY_M_S2)
        for push, g in zip(curve.pedal_force_n, curve.deceleration_g, strict=True)
    )
