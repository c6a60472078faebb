"""The figures by which two brake systems are put side by side."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from bareshell.brakes.answer import Load
from bareshell.brakes.cases import single_cases
from bareshell.brakes.failures import Failure, failed
from bareshell.brakes.figures import gather
from bareshell.brakes.inverse import force_found, locking
from bareshell.brakes.parking import parked
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.solve import answered
from bareshell.model.brake import BrakeSystem, PartKind

__all__ = ["Measure", "Measured", "measured", "words_of"]

_LOADS: Final[tuple[Load, ...]] = ("driver only", "laden")


@dataclass(frozen=True, slots=True)
class Measure:
    """One figure of a system.

    Parameters
    ----------
    words, quantity : str
        What it is and what it measures.
    value : float
        In SI units; not a number when it is not reached.
    """

    words: str
    quantity: str
    value: float


@dataclass(frozen=True, slots=True)
class Measured:
    """All of them, and what else is worth a word.

    Parameters
    ----------
    figures : dict of str to Measure
        By key; what could not be worked out is not there.
    circuits : int
        How many there are.
    first_to_lock : dict of str to str
        The axle that locks first, by load.
    worst : str
        What the worst single failure is.
    not_worked_out : tuple of str
        What could not be, and what it needs.
    """

    figures: dict[str, Measure]
    circuits: int
    first_to_lock: dict[str, str]
    worst: str
    not_worked_out: tuple[str, ...]


def measured(
    system: BrakeSystem,
    deceleration_m_s2: float,
    pedal_force_n: float,
    hand_force_n: float,
    friction_of_road: float,
) -> Measured:
    """Work out a system's figures for a comparison.

    Raises
    ------
    BadInput
        When its parts cannot belong together.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> found = measured(small_car(), 4.9, 500.0, 400.0, 0.8)
    >>> found.circuits, found.first_to_lock["driver only"]
    (2, 'front')
    """
    ready = prepare(system, gather(system).figures)
    figures: dict[str, Measure] = {}
    locks: dict[str, str] = {}
    lacking: list[str] = []
    worst = ""
    for load in _LOADS:
        missing = ready.missing_for("pressure", "torque", load)
        if missing:
            needed = ", ".join(each.words for each in missing)
            lacking.append(f"{load}: needs {needed}")
            continue
        figures.update(_pushes(ready, load, deceleration_m_s2, pedal_force_n))
        order = locking(ready, friction_of_road, load)
        locks[load] = str(order.first)
        for axle, value in (("front", order.front_g), ("rear", order.rear_g)):
            words = f"deceleration at which the {axle} axle locks at {friction_of_road:g}, {load}"
            figures[f"{axle} locks, {load}"] = Measure(words, "share_of_g", _known(value))
        if load == "laden":
            worst = _failures(ready, pedal_force_n, figures)
    if system.of_kind(PartKind.PARKING):
        needed = ", ".join(each.words for each in ready.missing_for("parking"))
        if needed:
            lacking.append(f"parking brake: needs {needed}")
        else:
            figures.update(_parks(ready, hand_force_n, friction_of_road))
    return Measured(figures, len(ready.topology().circuits), locks, worst, tuple(lacking))


def _known(value: object) -> float:
    number = float(value) if isinstance(value, float | int) else math.nan
    return number if math.isfinite(number) else math.nan


def _pushes(
    ready: Prepared, load: Load, deceleration_m_s2: float, pedal_force_n: float
) -> Iterator[tuple[str, Measure]]:
    found = force_found(ready, deceleration_m_s2, load)
    slowing = f"for {deceleration_m_s2:g} m/s2, {load}"
    force = _known(found.pedal_force_n)
    yield f"force, {load}", Measure(f"force of the foot {slowing}", "force", force)
    at = answered(ready, 0.0 if math.isnan(force) else force, load)
    reached = not math.isnan(force)
    share = _known(at.front_share) if reached else math.nan
    yield f"front share, {load}", Measure(f"front share of the braking {slowing}", "share", share)
    if at.travel is not None:
        travel = _known(at.travel.total_m) if reached else math.nan
        words = f"travel of the pedal {slowing}"
        yield f"travel, {load}", Measure(words, "length", travel)
    firm = answered(ready, pedal_force_n, load)
    words = f"deceleration for {pedal_force_n:g} N, {load}"
    yield f"deceleration, {load}", Measure(words, "share_of_g", _known(firm.deceleration_g))
    if firm.travel is not None:
        words = f"travel of the pedal for {pedal_force_n:g} N, {load}"
        total = _known(firm.travel.total_m)
        yield f"firm travel, {load}", Measure(words, "length", total)


def _failures(ready: Prepared, pedal_force_n: float, figures: dict[str, Measure]) -> str:
    cases = [each for each in single_cases(ready.system) if each.kind != "parking cable broken"]
    found = failed(ready, cases, pedal_force_n, "laden")
    with_force = f"for {pedal_force_n:g} N, laden"
    leaks = [each for each in found if each.loses_fluid]
    dead = [each for each in found if each.kind == "vacuum lost"]
    for key, words, group in (
        ("worst leak", "least deceleration left by a leak", leaks),
        ("no vacuum", "deceleration with no vacuum", dead),
    ):
        if group:
            least = min(_known(each.answer.deceleration_g) for each in group)
            figures[key] = Measure(f"{words} {with_force}", "share_of_g", least)
    return _worst(found)


def _worst(found: tuple[Failure, ...]) -> str:
    if not found:
        return ""
    least = min(found, key=lambda each: _known(each.answer.deceleration_g))
    return f"{least.words}: {_known(least.answer.deceleration_g):.2f} g left"


def _parks(
    ready: Prepared, hand_force_n: float, friction_of_road: float
) -> Iterator[tuple[str, Measure]]:
    held = parked(ready, hand_force_n, friction_of_road=friction_of_road)
    for holding in (held.nose_up, held.nose_down):
        words = f"slope held {holding.direction} for {hand_force_n:g} N at the lever, laden"
        yield f"parked {holding.direction}", Measure(words, "share", _known(holding.slope))


def words_of(built: Measured, standard: Measured) -> tuple[str, ...]:
    """Say what changed that is no figure."""
    said: list[str] = []
    if built.circuits != standard.circuits:
        said.append(
            f"as built there {_are(built.circuits)}, standard there {_are(standard.circuits)}"
        )
    for load, axle in built.first_to_lock.items():
        before = standard.first_to_lock.get(load, axle)
        if axle != before:
            said.append(f"{load}: as built {_locks(axle)}, standard {_locks(before)}")
    if built.worst != standard.worst:
        said.append(f"worst single failure as built: {built.worst}; standard: {standard.worst}")
    return tuple(said)


def _are(circuits: int) -> str:
    return "is 1 circuit" if circuits == 1 else f"are {circuits} circuits"


def _locks(axle: str) -> str:
    named = {
        "front": "the front axle locks first",
        "rear": "the rear axle locks first",
        "both": "both axles lock together",
    }
    return named.get(axle, "no axle locks")
