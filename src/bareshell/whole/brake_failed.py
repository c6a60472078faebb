"""Every single failure as a person reads it: what is left, grouped by what they leave alike."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Final

from bareshell.brakes.failures import Failure
from bareshell.brakes.prepared import Prepared
from bareshell.brakes.yardstick import Effort, Slow, Subject, Yardstick
from bareshell.calc import stopping
from bareshell.model.brake import PartKind, Wheel
from bareshell.units.show import METRIC, Preference, show_pressure
from bareshell.whole.brake_parts import FailedElement, FailureView
from bareshell.whole.brake_push import plain

_SUBJECTS: Final[Mapping[str, Subject]] = {
    "pipe or hose burst": Subject.CIRCUIT,
    "joint leaks": Subject.CIRCUIT,
    "part leaks": Subject.CIRCUIT,
    "seal fails inside": Subject.CIRCUIT,
    "servo dead": Subject.SERVO,
    "vacuum lost": Subject.SERVO,
    "valve sticks": Subject.VALVE,
}
"""What a yardstick must be about to speak of a kind of failure."""

_AXLES: Final[Mapping[str, frozenset[Wheel]]] = {
    "fronts": frozenset({Wheel.FRONT_LEFT, Wheel.FRONT_RIGHT}),
    "rears": frozenset({Wheel.REAR_LEFT, Wheel.REAR_RIGHT}),
}


def failure_views(
    prepared: Prepared,
    failures: Iterable[Failure],
    yardsticks: Iterable[Yardstick],
    preference: Preference = METRIC,
) -> tuple[FailureView, ...]:
    """Group failures by what they leave alike, those that leave least last.

    Parameters
    ----------
    prepared : Prepared
        The system they are failures of.
    failures : iterable of Failure
        Each for one push on one road.
    yardsticks : iterable of Yardstick
        Those that were picked.
    preference : Preference
        The owner's units.
    """
    picked = tuple(yardsticks)
    groups: dict[str, list[Failure]] = {}
    for failure in failures:
        groups.setdefault(failure.alike, []).append(failure)
    found = [_view(prepared, group, picked, preference) for group in groups.values()]
    return tuple(sorted(found, key=lambda each: -each.deceleration_m_s2))


def _view(
    prepared: Prepared,
    group: list[Failure],
    picked: tuple[Yardstick, ...],
    preference: Preference,
) -> FailureView:
    first = group[0]
    left = plain(first.answer.deceleration_m_s2)
    on_road = plain(first.limited.deceleration_m_s2)
    asked = asked_of(first.kind, picked)
    met = "meets" if asked is None or min(left, on_road) >= asked else "short of"
    alike = tuple(FailedElement(each.id, each.words, each.element, each.kind) for each in group)
    return FailureView(
        id=first.id,
        words=first.words,
        elements=alike,
        left=left_words(prepared, first, preference),
        lost_circuits=first.lost_circuits,
        lost_wheels=tuple(wheel.value for wheel in first.lost_wheels),
        weakened_wheels=tuple(wheel.value for wheel in first.weakened_wheels),
        loses_fluid=any(each.loses_fluid for each in group),
        deceleration_m_s2=left,
        on_road_m_s2=on_road,
        travel_m=None if first.answer.travel is None else plain(first.answer.travel.total_m),
        on_floor=None if first.floor_reached is None else bool(first.floor_reached),
        pull="" if first.side_pull is None else first.side_pull.words,
        asked_m_s2=asked,
        verdict="" if asked is None else f"{met} {asked:.1f} m/s2",
    )


def asked_of(kind: str, picked: Iterable[Yardstick]) -> float | None:
    """Return the most that a picked yardstick asks after such a failure. [m/s2].

    Examples
    --------
    >>> from bareshell.brakes.yardsticks import yardstick
    >>> asked_of("pipe or hose burst", [yardstick("un-r13-circuit")])
    2.9
    """
    subject = _SUBJECTS.get(kind)
    asked = []
    for each in picked:
        if each.subject is not subject:
            continue
        if isinstance(each.asks, Slow):
            asked.append(each.asks.steady_m_s2)
        elif isinstance(each.asks, Effort):
            asked.append(each.asks.least * stopping.GRAVITY_M_S2)
    return max(asked, default=None)


def left_words(prepared: Prepared, failure: Failure, preference: Preference = METRIC) -> str:
    """Say which wheels still brake, and where a valve holds them back."""
    lost = frozenset(failure.lost_wheels)
    every = frozenset(failure.answer.wheel_torque_nm)
    left = every - lost
    if not left:
        return "nothing but the parking brake"
    weak = [wheel.value for wheel in failure.weakened_wheels]
    words = _wheels(left) if lost else "all wheels"
    if weak:
        words += f", {_listed(weak)} on fewer pistons"
    held = _held_to(prepared, failure, left)
    return f"{words}, held to {show_pressure(held, preference)}" if held is not None else words


def _wheels(left: frozenset[Wheel]) -> str:
    for name, axle in _AXLES.items():
        if left == axle:
            return name
    return _listed([wheel.value for wheel in Wheel if wheel in left])


def _listed(words: list[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def _held_to(prepared: Prepared, failure: Failure, left: frozenset[Wheel]) -> float | None:
    """Return the pressure that a limiting valve holds all that is left to, if one does."""
    topology = prepared.topology(failure.state)
    limits = {part.id: part for part in prepared.system.of_kind(PartKind.VALVE)}
    behind: dict[int, str] = {}
    for circuit in topology.circuits.values():
        for gate in circuit.gates:
            if gate.form == "limiting" and not gate.bypassed and gate.part in limits:
                behind[gate.leg_out] = gate.part
    pressures = []
    for wheel in left:
        legs = {each.leg for each in topology.actuators[wheel] if topology.is_live(each)}
        held = [behind[leg] for leg in legs if leg in behind]
        if not held or not prepared.figured.has(held[0], "knee_pa"):
            return None
        pressures.append(plain(failure.answer.pressure_pa[wheel]))
    knees = {plain(prepared.figured(part, "knee_pa")) for part in set(behind.values())}
    top = max(pressures)
    # Only said when the push does reach the limit.
    return top if any(abs(top - knee) < 1e3 for knee in knees) else None
