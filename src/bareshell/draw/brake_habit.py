"""Where a brake part usually stands, for those whose place nobody entered.

The places are those of a small car with its engine in front, `common practice, no source`; a plan
that uses one says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from bareshell.draw.brake_sheet import Point
from bareshell.model.brake import BrakeSystem, Part, PartKind

_BASE_M: Final = 2.4
"""The wheelbase that the places below are meant for; along the car they stretch with it."""

# Metres behind the front axle, and right of the middle for a car driven from the right.
_USUAL: Final[Mapping[PartKind, Point]] = {
    PartKind.PEDAL: (0.8, 0.38),
    PartKind.SERVO: (0.48, 0.38),
    PartKind.BALANCE_BAR: (0.65, 0.38),
    PartKind.MASTER: (0.22, 0.38),
    PartKind.RESERVOIR: (0.22, 0.2),
    PartKind.REMOTE_SERVO: (0.1, -0.4),
    PartKind.VALVE: (1.9, 0.3),
    PartKind.PARKING: (1.3, 0.0),
}
_AT_WHEEL: Final[Mapping[PartKind, Point]] = {
    # Behind the wheel's middle, and inboard of it.
    PartKind.DISC: (0.0, 0.11),
    PartKind.DRUM: (0.0, 0.115),
    PartKind.CALIPER: (0.12, 0.13),
    PartKind.WHEEL_CYLINDER: (-0.03, 0.16),
}
_ROUNDS: Final = 30


def habit_places(
    system: BrakeSystem, wheelbase_m: float, front_track_m: float, rear_track_m: float
) -> tuple[dict[str, Point], frozenset[str]]:
    """A place for every part, entered or by habit.

    Parameters
    ----------
    system : BrakeSystem
        The brakes; parts with ``at_m`` keep it.
    wheelbase_m, front_track_m, rear_track_m : float
        The car. [m]

    Returns
    -------
    places : dict of str to Point
        By a part's id. [m]
    by_habit : frozenset of str
        The parts whose place nobody entered.

    Examples
    --------
    >>> from bareshell.model.brake import BrakeSystem, Part, PartKind, Wheel
    >>> disc = Part("disc", "disc", PartKind.DISC, Wheel.REAR_LEFT)
    >>> places, by_habit = habit_places(BrakeSystem("x", "x", parts=(disc,)), 2.4, 1.3, 1.2)
    >>> places["disc"], sorted(by_habit)
    ((2.4, -0.49), ['disc'])
    """
    places = {part.id: part.at_m for part in system.parts if part.at_m is not None}
    seen = [part for part in system.parts if part.kind not in (PartKind.CAR, PartKind.FLUID)]
    habit = frozenset(part.id for part in seen if part.at_m is None)
    side = _driver_side(system)
    used: dict[PartKind, int] = {}
    later = []
    for part in seen:
        if part.id in places:
            continue
        if part.wheel is not None:
            tracks = (wheelbase_m, front_track_m, rear_track_m)
            places[part.id] = _at_wheel(part, tracks)
        elif part.kind in _USUAL:
            behind, right = _USUAL[part.kind]
            again = used.get(part.kind, 0)
            used[part.kind] = again + 1
            across = side * (right - 0.13 * again)
            if named := _side_named(part):
                across = named * abs(right)
            places[part.id] = (round(behind * wheelbase_m / _BASE_M, 3), round(across, 3))
        else:
            later.append(part)
    places.update(_between(system, places, later))
    return places, habit


def _driver_side(system: BrakeSystem) -> int:
    """1 when the driver sits on the right, by where the pedal or what it pushes stands."""
    chain = (PartKind.PEDAL, PartKind.SERVO, PartKind.MASTER, PartKind.BALANCE_BAR)
    known = [part.at_m[1] for part in system.of_kind(*chain) if part.at_m is not None]
    return -1 if known and sum(known) < 0 else 1


def _side_named(part: Part) -> int:
    """-1 when its title says left, 1 when it says right, 0 when it says neither."""
    words = part.title.lower().split()
    return ("right" in words) - ("left" in words)


def _at_wheel(part: Part, car: tuple[float, float, float]) -> Point:
    wheelbase, front_track, rear_track = car
    wheel = part.wheel
    assert wheel is not None  # noqa: S101  the caller asked first
    behind, inboard = _AT_WHEEL.get(part.kind, (0.08, 0.2))
    half = (front_track if wheel.is_front else rear_track) / 2 - inboard
    along = (0.0 if wheel.is_front else wheelbase) + behind
    return round(along, 3), round(-half if wheel.is_left else half, 3)


def _between(
    system: BrakeSystem, places: Mapping[str, Point], later: list[Part]
) -> dict[str, Point]:
    """Put tees and blanks in the midst of what they are joined to, a little off what is there."""
    joined: dict[str, list[str]] = {part.id: [] for part in later}
    for line in system.lines:
        for one, two in ((line.ends[0], line.ends[1]), (line.ends[1], line.ends[0])):
            if one.part in joined and two.part:
                joined[one.part].append(two.part)
    middle = (0.9, 0.0)
    found = {part.id: middle for part in later}
    for _ in range(_ROUNDS):  # each a little nearer to the mean of its neighbours
        for part in later:
            near = [places.get(name) or found.get(name) for name in joined[part.id]]
            known = [point for point in near if point is not None]
            if known:
                found[part.id] = (
                    sum(point[0] for point in known) / len(known),
                    sum(point[1] for point in known) / len(known),
                )
    for index, part in enumerate(later):
        x, y = found[part.id]
        if part.kind is PartKind.STUB:  # its one neighbour stands there already
            x, y = x + 0.16, y + (0.08 if y < 0 else -0.08)
        found[part.id] = (round(x + 0.02 * index, 3), round(y, 3))
    return found
