"""The check of the brakes laid out for its pictures."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Final

from bareshell.brakes.yardstick import Adhesion, Yardstick
from bareshell.draw.brake_balance import AdhesionUsed
from bareshell.draw.brake_car import CarPlan, PlanFailure
from bareshell.draw.brake_chart import Forbidden
from bareshell.draw.brake_places import circuits_of, plan_of
from bareshell.draw.brake_rungs import FailureLadder, FailureRung
from bareshell.draw.brake_travel import PedalTravel, TravelPiece, TravelRow
from bareshell.model.brake import BrakeSystem, PartKind, Role
from bareshell.model.temp import Departure
from bareshell.whole.brake_check import BrakeCheck
from bareshell.whole.brake_parts import FailedElement, FailureView, PushCurve, TravelView

FAILED_WORDS: Final[Mapping[str, str]] = {
    "pipe or hose burst": "burst",
    "joint leaks": "leaks",
    "part leaks": "leaks",
    "seal fails inside": "seal gone",
    "air in a circuit": "air",
    "servo dead": "gives nothing",
    "vacuum lost": "no vacuum",
    "shuttle tripped": "to one side",
    "circuit blanked": "blanked",
    "parking cable broken": "cable broken",
}
"""What is written at a failed element, by the kind of failure."""

MOST_ADHESION: Final = 1.2
_SHOWN_GONE: Final = (PartKind.SERVO, PartKind.REMOTE_SERVO, PartKind.VALVE, PartKind.DRUM)
"""What is drawn as taken off: the rest of the old layout would only fill the picture."""
_LOST: Final = "run to the stop"


def chosen_failure(check: BrakeCheck) -> tuple[FailureView, FailedElement] | None:
    """Return the failure that is shown, and what fails in it; None when nothing does."""
    for group in check.failures:
        for element in group.elements:
            if element.id == check.failure:
                return group, element
    return None


def car_plate(
    system: BrakeSystem,
    standard: BrakeSystem | None,
    departures: Mapping[str, Departure],
) -> CarPlan:
    """Lay the car from above out, with what was taken off when it is drawn as built.

    Departures are told beside the picture, not in its margins.
    """
    drawn = replace(
        system,
        parts=tuple(replace(part, departure="") for part in system.parts),
        lines=tuple(replace(line, departure="") for line in system.lines),
    )
    if system.role is not Role.AS_BUILT or standard is None:
        return plan_of(drawn)
    taken_off = replace(
        standard, parts=tuple(part for part in standard.parts if part.kind in _SHOWN_GONE)
    )
    brought = {part.departure for part in system.parts} - {""}
    known = [departures[key] for key in sorted(brought) if key in departures]
    gone = {}
    for part in taken_off.parts:
        words = set(part.title.casefold().split())
        best = max(known, key=lambda one: _named_in(words, one), default=None)
        if best is not None and _named_in(words, best):
            gone[part.id] = best.title
    return plan_of(drawn, standard=taken_off, gone=gone)


def _named_in(words: set[str], departure: Departure) -> int:
    """Count the words of a part's name that a departure says of what was there."""
    was = departure.what_was.casefold()
    return sum(word in was for word in words)


def failure_on_plan(system: BrakeSystem, check: BrakeCheck) -> PlanFailure | None:
    """Say on the plan what failed, which circuit is lost and which wheels nothing brakes."""
    found = chosen_failure(check)
    if found is None:
        return None
    group, element = found
    numbers = {name: number for number, name in enumerate(circuits_of(system).ids, 1)}
    word = FAILED_WORDS.get(element.kind, "failed")
    if element.kind == "valve sticks":
        word = f"stuck {element.id.rpartition('-')[2].replace('knee', 'at its knee')}"
    lost = tuple(sorted(numbers[name] for name in group.lost_circuits if name in numbers))
    return PlanFailure(
        f"{sentence_start(element.words)}: {group.left} left.",
        dict.fromkeys(element.element.split("+"), word),
        lost,
        without_brake=group.lost_wheels,
    )


def sentence_start(words: str) -> str:
    """Words with a capital at their beginning."""
    return words[:1].upper() + words[1:]


# --- travel ----------------------------------------------------------------------------------


def travel_plate(check: BrakeCheck) -> PedalTravel | None:
    """Lay the travel of the pedal out: whole, then with what failed."""
    if check.whole is None or check.whole.travel is None:
        return None
    rows = [_travel_row("nothing failed", check.whole.travel)]
    found = chosen_failure(check)
    if found is not None and check.now is not None and check.now.travel is not None:
        rows.append(_travel_row(found[1].words, check.now.travel))
    return PedalTravel(
        tuple(rows), floor_mm=check.whole.travel.floor_m * 1000, push_n=check.pedal_force_n
    )


def _travel_row(title: str, travel: TravelView) -> TravelRow:
    pieces = tuple(
        TravelPiece(piece.key, piece.words, piece.length_m * 1000, lost=piece.key == _LOST)
        for piece in travel.pieces
    )
    return TravelRow(title, pieces, on_floor=travel.on_floor)


# --- the axles -------------------------------------------------------------------------------


def adhesion_plate(
    curve: PushCurve, standard: PushCurve | None, picked: Iterable[Yardstick], result: str
) -> AdhesionUsed:
    """Lay the adhesion that each axle uses out, the yardsticks' forbidden sides with it."""
    return AdhesionUsed(
        front=_used(curve, curve.front_adhesion_used),
        rear=_used(curve, curve.rear_adhesion_used),
        standard_front=() if standard is None else _used(standard, standard.front_adhesion_used),
        standard_rear=() if standard is None else _used(standard, standard.rear_adhesion_used),
        forbidden=tuple(_forbidden(one) for one in picked if isinstance(one.asks, Adhesion)),
        result=result,
        load=curve.load,
    )


def _used(curve: PushCurve, used: tuple[float, ...]) -> tuple[tuple[float, float], ...]:
    points = zip(curve.deceleration_g, used, strict=True)
    return tuple((z, k) for z, k in points if 0.0 < z <= MOST_ADHESION and k <= MOST_ADHESION)


def _forbidden(one: Yardstick) -> Forbidden:
    """Return the line of a yardstick with deceleration along and adhesion up."""
    asks = one.asks
    if not isinstance(asks, Adhesion):
        raise TypeError(f"{one.id} asks for no use of adhesion")
    line = tuple((0.1 + asks.slope * (k - 0.2), k) for k in (asks.from_k, asks.to_k))
    return Forbidden(one.family, line, above=True)


def first_words(check: BrakeCheck) -> str:
    """Say which axle locks first at the load that was asked about.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.whole.brake_check import Head, brake_check
    >>> check = brake_check(small_car("single line"), Head(datetime(2026, 3, 4, tzinfo=UTC)))
    >>> first_words(check)
    'the rear wheels lock first, at 0.62 g on a road of 0.8: the car swings round'
    """
    lock = next((one for one in check.locks if one.load == check.load), None)
    if lock is None:
        return ""
    at = f"at {lock.before_lock_g:.2f} g on a road of {lock.friction_of_road:g}"
    words = {
        "front": f"the front wheels lock first, {at}",
        "rear": f"the rear wheels lock first, {at}: the car swings round",
        "both": f"both axles lock together, {at}",
    }
    return words.get(lock.first, f"no push locks a wheel on a road of {lock.friction_of_road:g}")


# --- failures --------------------------------------------------------------------------------


def ladder_plate(check: BrakeCheck) -> FailureLadder | None:
    """Lay every different outcome of a single failure out as rungs, the whole car on top."""
    if check.whole is None or not check.failures:
        return None
    floor = check.whole.travel.floor_m * 1000 if check.whole.travel else None
    whole = FailureRung(
        "",
        ("nothing failed",),
        "all wheels",
        min(check.whole.deceleration_m_s2, check.whole.on_road_m_s2),
        travel_mm=check.whole.travel.total_m * 1000 if check.whole.travel else None,
        shown=not check.failure,
    )
    rungs = [_rung(check, group) for group in check.failures]
    return FailureLadder(
        (whole, *rungs), push_n=check.pedal_force_n, floor_mm=floor, load=check.load
    )


def _rung(check: BrakeCheck, group: FailureView) -> FailureRung:
    names = [group.words]
    more = len(group.elements) - 1
    if more:
        names.append(f"and {more} more that leave the same")
    return FailureRung(
        group.id,
        tuple(names),
        group.left,
        min(group.deceleration_m_s2, group.on_road_m_s2),
        asked_m_s2=group.asked_m_s2,
        travel_mm=None if group.travel_m is None else group.travel_m * 1000,
        on_floor=bool(group.on_floor),
        shown=any(one.id == check.failure for one in group.elements),
    )
