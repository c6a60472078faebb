"""The pipe sheet: each pipe on a page that can lie on the bench, bend by bend.

What is drawn from above gives straights and corners in the plan only; rises and the curve of a
floor are not in it. The sheet says so, and leaves room to write what was measured on the shell.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from bareshell.brakes.cut_list import CutList, CutPipe, cut_list
from bareshell.brakes.joints import JointSchedule, joint_schedule
from bareshell.model.brake import BrakeSystem, Line

__all__ = ["Leg", "PipeSheet", "SheetPipe", "pipe_sheet"]

Point = tuple[float, float]

_STRAIGHT_DEG = 1.0


@dataclass(frozen=True, slots=True)
class Leg:
    """One straight of a pipe as drawn from above, and the corner after it.

    Parameters
    ----------
    straight_m : float
        Its length in the plan. [m]
    from_end_m : float
        How far along the plan the corner is from the first end. [m]
    corner_deg : float or None
        How far it turns there; None at the last end. [degree]
    turns : str
        ``left``, ``right``, ``straight on`` or empty.
    """

    straight_m: float
    from_end_m: float
    corner_deg: float | None
    turns: str


@dataclass(frozen=True, slots=True)
class SheetPipe:
    """One pipe of the sheet: what the cut list says of it, and its way bend by bend."""

    pipe: CutPipe
    route_m: tuple[Point, ...]
    legs: tuple[Leg, ...]
    plan_m: float | None

    @property
    def rises_m(self) -> float | None:
        """How much longer the pipe is than its way from above; None when either is not known."""
        if self.plan_m is None or self.pipe.length_m is None:
            return None
        return round(self.pipe.length_m - self.plan_m, 4)


@dataclass(frozen=True, slots=True)
class PipeSheet:
    """Every pipe on its page, with the joint list and the cut list they go by."""

    title: str
    pipes: tuple[SheetPipe, ...]
    joints: JointSchedule
    cuts: CutList
    says: tuple[str, ...] = (
        "Straights and corners are those seen from above; rises are not in them.",
        "Measure on the shell with wire or string before you cut.",
        "A length marked assumed was not measured on this car.",
        "Keep clear of steering, exhaust and anything that moves at bump, droop and full lock.",
    )


def pipe_sheet(system: BrakeSystem) -> PipeSheet:
    """Make the pipe sheet of a system.

    Parameters
    ----------
    system : BrakeSystem
        As entered.

    Examples
    --------
    >>> from bareshell.brakes.starters import starter
    >>> sheet = pipe_sheet(starter("twin cylinders"))
    >>> long = sheet.pipes[-1]
    >>> long.pipe.title, [leg.turns for leg in long.legs]
    ('long pipe to the rear', ['right', 'left', 'right', ''])
    """
    cuts = cut_list(system)
    pipes = tuple(_sheet_pipe(cut, _route(system, system.line(cut.line))) for cut in cuts.pipes)
    return PipeSheet(system.title, pipes, joint_schedule(system), cuts)


def _route(system: BrakeSystem, line: Line) -> tuple[Point, ...]:
    """Return the points of a line from above, its ends included where they are drawn."""
    places = {part.id: part.at_m for part in system.parts}
    first, last = places.get(line.ends[0].part), places.get(line.ends[1].part)
    points = (first, *line.route_m, last)
    return tuple(point for point in points if point is not None)


def _sheet_pipe(cut: CutPipe, route: tuple[Point, ...]) -> SheetPipe:
    legs: list[Leg] = []
    along = 0.0
    steps = [(one, other) for one, other in pairwise(route) if one != other]
    for number, (one, other) in enumerate(steps):
        along += math.dist(one, other)
        after = steps[number + 1] if number + 1 < len(steps) else None
        corner = None if after is None else _corner(one, other, after[1])
        legs.append(
            Leg(
                round(math.dist(one, other), 4),
                round(along, 4),
                None if corner is None else round(abs(corner), 1),
                "" if corner is None else _turns(corner),
            )
        )
    return SheetPipe(cut, route, tuple(legs), round(along, 4) if legs else None)


def _corner(one: Point, middle: Point, other: Point) -> float:
    """Return how far a way turns at its middle; above zero to the right as seen going along it.

    Points are metres behind the front axle and metres to the right; going rearwards, the car's
    right is on the left hand.
    """
    first = math.atan2(middle[1] - one[1], middle[0] - one[0])
    second = math.atan2(other[1] - middle[1], other[0] - middle[0])
    turn = math.degrees(second - first)
    return -((turn + 180.0) % 360.0 - 180.0)


def _turns(corner_deg: float) -> str:
    if abs(corner_deg) < _STRAIGHT_DEG:
        return "straight on"
    return "right" if corner_deg > 0 else "left"
