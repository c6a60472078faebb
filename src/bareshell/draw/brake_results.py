"""From what the brakes' solve answers to what the pictures draw.

Each function takes results of `bareshell.brakes` and fills in the input of one picture. Where a
result has many samples, the first is drawn; a range is given beside it by whoever has one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Final

from bareshell.brakes.answer import Answer, Limited
from bareshell.brakes.failures import Failure
from bareshell.brakes.figures import Figures
from bareshell.brakes.yardstick import Adhesion, Effort, Slow, Subject, Yardstick
from bareshell.calc.loads import ideal_rear_share
from bareshell.calc.stopping import GRAVITY_M_S2
from bareshell.draw.brake_balance import AdhesionUsed, Distribution
from bareshell.draw.brake_car import WHEELS, PlanFailure
from bareshell.draw.brake_chart import Curve, Forbidden
from bareshell.draw.brake_pedal import Asked, Level, Panel, PedalCurve
from bareshell.draw.brake_places import circuits_of
from bareshell.draw.brake_rungs import FailureLadder, FailureRung
from bareshell.draw.brake_sheet import Point, figure, listed
from bareshell.draw.brake_travel import PedalTravel, TravelPiece, TravelRow
from bareshell.model.brake import BrakeSystem

Range = tuple[float, float]

_SUBJECTS: Final[Mapping[str, Subject]] = {
    "pipe or hose burst": Subject.CIRCUIT,
    "joint leaks": Subject.CIRCUIT,
    "part leaks": Subject.CIRCUIT,
    "seal fails inside": Subject.CIRCUIT,
    "circuit blanked": Subject.CIRCUIT,
    "servo dead": Subject.SERVO,
    "vacuum lost": Subject.SERVO,
    "valve sticks": Subject.VALVE,
}
_WORDS: Final[Mapping[str, str]] = {
    "pipe or hose burst": "burst",
    "joint leaks": "leaks",
    "part leaks": "leaks",
    "seal fails inside": "seal lets past",
    "circuit blanked": "blanked",
    "servo dead": "dead",
    "vacuum lost": "no vacuum",
    "shuttle tripped": "to one side",
}
_IDEAL_G: Final = tuple(step / 40 for step in range(49))


# ---------------------------------------------------------------- curves over the push


def adhesion_plate(
    answer: Answer,
    *,
    standard: Answer | None = None,
    yardsticks: Iterable[Yardstick] = (),
    result: str = "",
) -> AdhesionUsed:
    """Adhesion used against deceleration, from an answer over a rising push.

    Parameters
    ----------
    answer : Answer
        Of one car over many forces of the foot.
    standard : Answer, optional
        The same of the standard car.
    yardsticks : iterable of Yardstick
        Those that ask for a line between deceleration and adhesion are drawn in.
    result : str
        What it comes to, in a sentence.

    Examples
    --------
    >>> import numpy as np
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.solve import solve
    >>> car = small_car()
    >>> answer = solve(car, gather(car).figures, np.linspace(0, 500, 6), "driver only")
    >>> plate = adhesion_plate(answer)
    >>> len(plate.front), plate.load
    (6, 'driver only')
    """
    front, rear = _adhesions(answer)
    was = _adhesions(standard) if standard is not None else ((), ())
    lines = tuple(
        Forbidden(each.family, _adhesion_line(each.asks))
        for each in yardsticks
        if isinstance(each.asks, Adhesion)
    )
    return AdhesionUsed(front, rear, *was, lines, result, answer.load)


def distribution_plate(
    answer: Answer, figures: Figures, *, standard: Answer | None = None, result: str = ""
) -> Distribution:
    """Front brake force against rear, from an answer over a rising push.

    Parameters
    ----------
    answer : Answer
        Of one car over many forces of the foot.
    figures : mapping of str to float
        What it was worked out with; the car's weights and heights are read.
    standard : Answer, optional
        The same of the standard car.
    result : str
        What it comes to, in a sentence.
    """
    laden = answer.load == "laden"
    name, height = ("laden", "laden_cg_height_m") if laden else ("driver_only", "cg_height_m")
    weight = _first(figures[f"car.{name}_mass_kg"]) * GRAVITY_M_S2
    share = _first(figures[f"car.{name}_front_share"])
    base, high = _first(figures["car.wheelbase_m"]), _first(figures[f"car.{height}"])
    ideal = []
    for g in _IDEAL_G:
        rear = max(0.0, float(ideal_rear_share(base, base * (1 - share), high, g)))
        ideal.append((g * (1 - rear), g * rear))
    return Distribution(
        tuple(ideal),
        _forces(answer, weight),
        _forces(standard, weight) if standard is not None else (),
        (),
        result,
        answer.load,
    )


def pedal_plate(
    answers: Sequence[Answer],
    *,
    standard: Answer | None = None,
    yardsticks: Iterable[Yardstick] = (),
    stroke_mm: float | None = None,
    result: str = "",
) -> PedalCurve:
    """Deceleration and travel over the push, from answers over a rising push.

    Parameters
    ----------
    answers : sequence of Answer
        The same car at one or two loads, over the same forces; travel is that of the first.
    standard : Answer, optional
        The standard car at the first of these loads.
    yardsticks : iterable of Yardstick
        Those that ask the service brake for a deceleration are drawn as corners.
    stroke_mm : float, optional
        Travel at which the cylinder ends. [mm]
    result : str
        What it comes to, in a sentence.
    """
    first = answers[0]
    curves = [
        Curve(each.load, _over_push(each, each.deceleration_m_s2), style)
        for each, style in zip(answers, ("front", "rear"), strict=False)
    ]
    if standard is not None:
        points = _over_push(standard, standard.deceleration_m_s2)
        curves.append(Curve("standard", points, "standard"))
    most = max(_list(first.pedal_force_n))
    asked = tuple(
        Asked(f"{each.family} {figure(least, 2)}", each.forces.most_foot_n or most, least)
        for each in yardsticks
        if each.subject is Subject.SERVICE and (least := asked_m_s2(each)) is not None
    )
    panels = [Panel("deceleration, m/s²", tuple(curves), asked)]
    if first.travel is not None:
        floor = 1000 * _first(first.travel.floor_m)
        travelled = tuple((n, 1000 * m) for n, m in _over_push(first, first.travel.total_m))
        levels = [Level(f"floor {figure(floor)}", floor)]
        if stroke_mm is not None:
            levels.append(Level(f"stroke {figure(stroke_mm)}", stroke_mm, heavy=False))
        panels.append(Panel("travel, mm", (Curve("", travelled),), (), tuple(levels)))
    return PedalCurve(tuple(panels), most, _run_out(first), result)


def _run_out(answer: Answer) -> tuple[tuple[float, str], ...]:
    """The first push at which a servo gives all it has."""
    found = zip(_list(answer.pedal_force_n), _list(answer.servo_run_out), strict=False)
    first = next((push for push, out in found if out), None)
    return () if not first else ((first, "servo gives all it has"),)


# ---------------------------------------------------------------- travel


def travel_plate(
    rows: Sequence[tuple[str, Answer]],
    *,
    ranges: Mapping[str, Range] | None = None,
    stroke_mm: float | None = None,
) -> PedalTravel:
    """Where the travel goes, for the car whole and with failures beside it.

    Parameters
    ----------
    rows : sequence of (str, Answer)
        A title for each, and the answer at one push. A row without travel is left out.
    ranges : mapping of str to (float, float), optional
        The range of the whole travel by a row's title. [mm]
    stroke_mm : float, optional
        Travel at which the cylinder ends. [mm]

    Raises
    ------
    ValueError
        When travel was worked out for none of them.
    """
    drawn: list[TravelRow] = []
    floor, push = None, 0.0
    for title, answer in rows:
        if answer.travel is None:
            continue
        lengths: dict[str, float] = {}
        words: dict[str, str] = {}
        for piece in answer.travel.pieces:
            lengths[piece.key] = lengths.get(piece.key, 0.0) + 1000 * _first(piece.length_m)
            words.setdefault(piece.key, piece.words)
        pieces = tuple(
            TravelPiece(key, words[key], mm, lost=key == "run to the stop")
            for key, mm in lengths.items()
            if mm > 0.05
        )
        low, high = (ranges or {}).get(title, (None, None))
        on_floor = bool(_first(answer.travel.on_floor))
        drawn.append(TravelRow(title, pieces, low, high, on_floor))
        floor, push = 1000 * _first(answer.travel.floor_m), _first(answer.pedal_force_n)
    if not drawn:
        raise ValueError("Travel was worked out for none of the rows.")
    return PedalTravel(tuple(drawn), floor, stroke_mm, push)


# ---------------------------------------------------------------- failures


def ladder_plate(
    system: BrakeSystem,
    whole: Answer,
    found: Sequence[Failure],
    *,
    on_road: Limited | None = None,
    asked: Callable[[Failure | None], float | None] | None = None,
    ranges: Mapping[str, Range] | None = None,
    shown: str = "",
) -> FailureLadder:
    """What is left after each failure; those that leave the same stand on one rung.

    Parameters
    ----------
    system : BrakeSystem
        What they are failures of.
    whole : Answer
        With nothing failed, at the same push and load.
    found : sequence of Failure
        As `bareshell.brakes.failures.failures` gives them; those of the parking cable are left
        out, since the pedal knows nothing of them.
    on_road : Limited, optional
        The whole car on the road that the failures were worked out for.
    asked : callable, optional
        What the yardsticks ask after a failure, and of the whole car for None; see `asking`. [m/s2]
    ranges : mapping of str to (float, float), optional
        The range of a rung's deceleration, by the id of the failure it is called after. [m/s2]
    shown : str
        The id of the failure that the car plan shows.
    """
    asks = asked or (lambda _: None)
    numbers = _numbers(system)
    groups: dict[str, list[Failure]] = {}
    for each in found:
        if each.kind != "parking cable broken":
            groups.setdefault(each.alike, []).append(each)
    rungs = [
        _rung(alike, members, numbers, asks(members[0]), (ranges or {}).get(alike), shown)
        for alike, members in groups.items()
    ]
    rungs.sort(key=lambda rung: -(rung.deceleration_m_s2 or 0.0))
    travel = whole.travel
    low, high = (ranges or {}).get("", (None, None))
    top = FailureRung(
        "",
        ("nothing failed",),
        "all wheels",
        _first((on_road or whole).deceleration_m_s2),
        low,
        high,
        asks(None),
        None if travel is None else 1000 * _first(travel.total_m),
        travel is not None and bool(_first(travel.on_floor)),
        not shown,
    )
    floor = None if travel is None else 1000 * _first(travel.floor_m)
    return FailureLadder((top, *rungs), _first(whole.pedal_force_n), floor, whole.load)


def asking(
    yardsticks: Iterable[Yardstick], push_n: float, load: str
) -> Callable[[Failure | None], float | None]:
    """What some yardsticks ask after a failure, as `ladder_plate` wants it.

    Only those that are meant for this push of the foot and this load speak; of several the
    highest is asked.

    Parameters
    ----------
    yardsticks : iterable of Yardstick
        Those that were picked.
    push_n : float
        The push of the foot. [N]
    load : str
        How the car is loaded.
    """
    picked = [
        each
        for each in yardsticks
        if each.load in (load, "both", "as tested")
        and (not each.forces.most_foot_n or abs(each.forces.most_foot_n - push_n) < 1.0)
    ]

    def asked(failure: Failure | None) -> float | None:
        subject = Subject.SERVICE if failure is None else _SUBJECTS.get(failure.kind)
        found = [asked_m_s2(each) for each in picked if each.subject is subject]
        return max((each for each in found if each is not None), default=None)

    return asked


def asked_m_s2(yardstick: Yardstick) -> float | None:
    """The least deceleration that a yardstick asks for, in m/s2; None when it asks otherwise."""
    asks = yardstick.asks
    if isinstance(asks, Slow):
        return asks.steady_m_s2
    return asks.least * GRAVITY_M_S2 if isinstance(asks, Effort) else None


def failure_shown(system: BrakeSystem, failure: Failure) -> PlanFailure:
    """What the car plan shows of a failure.

    Parameters
    ----------
    system : BrakeSystem
        What it is a failure of.
    failure : Failure
        One failure, or two at once.
    """
    numbers = _numbers(system)
    lost = [wheel.value for wheel in failure.lost_wheels]
    weak = [wheel.value for wheel in failure.weakened_wheels]
    braked = [wheel for wheel in WHEELS if _braked(system, wheel)]
    words = {wheel: "weaker" if wheel in weak else "grips" for wheel in braked}
    elements = [each for each in failure.element.split("+") if each]
    left = _first(failure.limited.deceleration_m_s2)
    floor = " The pedal stands on the floor." if _truth(failure.floor_reached) else ""
    return PlanFailure(
        f"{failure.words.capitalize()}: {_left(lost, weak, braked)}; "
        f"{figure(left, 1)} m/s2 at {figure(_first(failure.answer.pedal_force_n))} N.{floor}",
        {element: _word(failure) for element in elements},
        tuple(numbers[each] for each in failure.lost_circuits if each in numbers),
        {} if len(lost) == len(braked) else words,
        tuple(lost),
    )


def _rung(
    alike: str,
    members: Sequence[Failure],
    numbers: Mapping[str, int],
    asked: float | None,
    ranged: Range | None,
    shown: str,
) -> FailureRung:
    one = members[0]
    travel = one.answer.travel
    lost = [wheel.value for wheel in one.lost_wheels]
    weak = [wheel.value for wheel in one.weakened_wheels]
    circuits = sorted(numbers[each] for each in one.lost_circuits if each in numbers)
    low, high = ranged or (None, None)
    names = tuple(each.words for each in members)
    if circuits and len(members) > 1:
        which = listed([str(each) for each in circuits])
        plural = "s" if len(circuits) > 1 else ""
        names = (f"circuit{plural} {which} lost by any of {len(members)} elements",)
    return FailureRung(
        alike,
        names,
        _left(lost, weak, WHEELS),
        _first(one.limited.deceleration_m_s2),
        low,
        high,
        asked,
        None if travel is None else 1000 * _first(travel.total_m),
        _truth(one.floor_reached),
        any(each.id == shown for each in members),
    )


def _left(lost: Sequence[str], weak: Sequence[str], braked: Sequence[str]) -> str:
    """Which wheels still brake, in words.

    Examples
    --------
    >>> _left(["rear left", "rear right"], [], WHEELS), _left([], ["front left"], WHEELS)
    ('front wheels brake', 'all wheels brake, front left weaker')
    """
    left = [wheel for wheel in braked if wheel not in lost]
    if not left:
        return "no wheel brakes"
    if not lost:
        said = "all wheels brake"
    elif len(left) == 2 and left[0].split()[0] == left[1].split()[0]:
        said = f"{left[0].split()[0]} wheels brake"
    else:
        said = f"{listed(left)} {'brakes' if len(left) == 1 else 'brake'}"
    still = [wheel for wheel in weak if wheel in left]
    return f"{said}, {listed(still)} weaker" if still else said


def _word(failure: Failure) -> str:
    if failure.kind == "valve sticks":
        return failure.words.rpartition("sticks ")[2].join(("stuck ", ""))
    return _WORDS.get(failure.kind, "failed")


def _numbers(system: BrakeSystem) -> dict[str, int]:
    """The number of each circuit on the plan, by its id."""
    return {name: index for index, name in enumerate(circuits_of(system).ids, 1)}


def _braked(system: BrakeSystem, wheel: str) -> bool:
    return any(part.wheel is not None and part.wheel.value == wheel for part in system.parts)


# ---------------------------------------------------------------- numbers


def _adhesions(answer: Answer) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    z = _list(answer.deceleration_g)
    front, rear = _list(answer.front_adhesion_used), _list(answer.rear_adhesion_used)
    return tuple(zip(z, front, strict=True)), tuple(zip(z, rear, strict=True))


def _adhesion_line(asks: Adhesion) -> tuple[Point, ...]:
    return tuple((0.1 + asks.slope * (k - asks.from_k), k) for k in (asks.from_k, asks.to_k))


def _forces(answer: Answer, weight_n: float) -> tuple[Point, ...]:
    front, rear = _list(answer.front_force_n), _list(answer.rear_force_n)
    return tuple((f / weight_n, r / weight_n) for f, r in zip(front, rear, strict=True))


def _over_push(answer: Answer, value: object) -> tuple[Point, ...]:
    return tuple(zip(_list(answer.pedal_force_n), _list(value), strict=True))


def _list(value: object) -> list[float]:
    """The numbers of one sample, along the pushes."""
    import numpy as np

    array = np.asarray(value, dtype=np.float64)
    while array.ndim > 1:
        array = array[0]
    return [float(each) for each in np.atleast_1d(array)]


def _first(value: object) -> float:
    return _list(value)[0]


def _truth(value: object) -> bool:
    return value is not None and bool(_first(value))
