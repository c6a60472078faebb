"""The graded holds of each circuit: what to hold, what the gauge may do, what was held so far."""

from __future__ import annotations

import contextlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from bareshell.brakes.fluid_mix import base_of
from bareshell.brakes.holds import (
    HOLD_STEPS,
    Closed,
    HoldStep,
    Seen,
    allowed_shift,
    closed_circuit,
    judged_reading,
    steps_for,
)
from bareshell.brakes.joints import joint_schedule
from bareshell.brakes.prepared import Prepared
from bareshell.errors import BareshellError
from bareshell.model.brake import BrakeReading, BrakeSystem, PartKind, ReadingKind
from bareshell.whole.brake_owed import Standing
from bareshell.whole.brake_proofs import circuit_names, joint_proof_id
from bareshell.whole.brake_words import describe_reading

__all__ = ["CircuitHolds", "HeldJoint", "HoldDone", "HoldToDo", "circuit_holds", "shift_of_pipes"]

_RIGID: Final = (1e-4, 1e-4)
"""Fluid of plugged pipes: a rigid line shifts alike, however much there is in it. [m3]"""


@dataclass(frozen=True, slots=True)
class HoldToDo:
    """One hold of the graded series, in one circuit.

    Parameters
    ----------
    pressure_pa, minutes : float
        What to hold, and for how long. [Pa], [min]
    low_pa_k, high_pa_k : float or None
        What the gauge rises for each degree that the fluid warms, least and most; None when
        figures for it are missing. [Pa/K]
    """

    id: str
    words: str
    pressure_pa: float
    minutes: float
    look: str
    mark: str
    low_pa_k: float | None
    high_pa_k: float | None


@dataclass(frozen=True, slots=True)
class HeldJoint:
    """One joint that a hold looks at, and how its proof stands; empty while nobody asks for it."""

    id: str
    number: int
    words: str
    proof: str
    state: str


@dataclass(frozen=True, slots=True)
class HoldDone:
    """A hold as it was written down.

    Parameters
    ----------
    state : {"held", "failed", "not proven"}
        By the joints alone.
    joints, gauge : str
        What the joints say, and the gauge as context.
    """

    id: str
    at: datetime
    said: str
    state: str
    joints: str
    gauge: str
    words: str


@dataclass(frozen=True, slots=True)
class CircuitHolds:
    """The holds of one circuit.

    Parameters
    ----------
    because : str
        Why the gauge's allowance is not worked out; empty when it is.
    """

    circuit: str
    title: str
    steps: tuple[HoldToDo, ...]
    joints: tuple[HeldJoint, ...]
    done: tuple[HoldDone, ...]
    because: str


def circuit_holds(
    system: BrakeSystem,
    prepared: Prepared,
    most_pressure_pa: float | None,
    readings: Iterable[BrakeReading] = (),
    standings: Iterable[Standing] = (),
) -> tuple[CircuitHolds, ...]:
    """Lay the holds of every circuit out.

    Parameters
    ----------
    system : BrakeSystem
        As described.
    prepared : Prepared
        The same with its figures, or with combinations of them.
    most_pressure_pa : float or None
        The hardest that a foot presses. [Pa]
    readings : iterable of BrakeReading
        What was held so far, newest first.
    standings : iterable of Standing
        How the joints' proofs stand.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> from bareshell.brakes.prepared import prepare
    >>> car = small_car()
    >>> first, _ = circuit_holds(car, prepare(car, gather(car).figures), 70e5)
    >>> [round(step.pressure_pa / 1e5) for step in first.steps]
    [1, 10, 35, 70, 10]
    >>> first.because
    "the fluid's grade is not known, and fluids grow unlike"
    """
    held = [one for one in readings if one.kind is ReadingKind.HOLD]
    states = {one.id: one.state for one in standings}
    schedule = joint_schedule(system)
    found = []
    for circuit, title in circuit_names(system).items():
        joints = tuple(
            HeldJoint(one.id, one.number, one.words, joint_proof_id(one.id), states.get(one.id, ""))
            for one in schedule.joints
            if circuit in one.circuits
        )
        closed, because = _closed(system, prepared, circuit)
        steps = tuple(
            _to_do(step, _at(system, prepared, circuit, step) if closed else None)
            for step in steps_for(most_pressure_pa)
        )
        mine = [one for one in held if one.choices.get("circuit", circuit) == circuit]
        done = tuple(_done(system, prepared, circuit, one, joints) for one in mine)
        found.append(CircuitHolds(circuit, title, steps, joints, done, because))
    return tuple(found)


def shift_of_pipes(system: BrakeSystem) -> tuple[float, float] | None:
    """Return what a gauge on plugged bare pipes rises for each degree; None for no known fluid.

    Parameters
    ----------
    system : BrakeSystem
        For its fluid.

    Returns
    -------
    tuple of two float, or None
        Least and most. [Pa/K]
    """
    base = _base(system)
    if not base:
        return None
    shift = allowed_shift(Closed(base, _RIGID, (0.0, 0.0)), 1.0, unsure_k=0.0)
    return shift.low_pa, shift.high_pa


def _base(system: BrakeSystem) -> str:
    fluids = system.of_kind(PartKind.FLUID)
    return (base_of(fluids[0].choices.get("grade", "")) if fluids else None) or ""


def _closed(system: BrakeSystem, prepared: Prepared, circuit: str) -> tuple[Closed | None, str]:
    base = _base(system)
    if not base:
        return None, "the fluid's grade is not known, and fluids grow unlike"
    try:
        return closed_circuit(prepared, circuit, HOLD_STEPS[1].pressure_pa, base), ""
    except BareshellError as error:
        return None, error.describe()


def _at(system: BrakeSystem, prepared: Prepared, circuit: str, step: HoldStep) -> Closed:
    return closed_circuit(prepared, circuit, step.pressure_pa, _base(system))


def _to_do(step: HoldStep, closed: Closed | None) -> HoldToDo:
    shift = None if closed is None else allowed_shift(closed, 1.0, unsure_k=0.0)
    return HoldToDo(
        step.id,
        step.words,
        step.pressure_pa,
        step.minutes,
        step.look,
        step.mark,
        None if shift is None else shift.low_pa,
        None if shift is None else shift.high_pa,
    )


def _done(
    system: BrakeSystem,
    prepared: Prepared,
    circuit: str,
    reading: BrakeReading,
    joints: Iterable[HeldJoint],
) -> HoldDone:
    began, base = reading.figures.get("first_pressure_pa"), _base(system)
    closed = None
    if began and base:
        with contextlib.suppress(BareshellError):  # the gauge is context, and goes without
            closed = closed_circuit(prepared, circuit, began, base)
    judged = judged_reading(reading, dict(_seen(reading, joints)), closed)
    return HoldDone(
        reading.id,
        reading.at,
        describe_reading(reading),
        judged.state,
        judged.words,
        judged.gauge,
        reading.words,
    )


def _seen(reading: BrakeReading, joints: Iterable[HeldJoint]) -> Iterator[tuple[str, Seen]]:
    """Say of each joint what was seen; one that was wet stands by name in the reading's words."""
    wet = reading.choices.get("joints") == "one wet"
    for joint in joints:
        named = wet and joint.words in reading.words
        yield joint.words, "wet" if named else "not looked at"
    if wet and not any(joint.words in reading.words for joint in joints):
        yield "a joint that was not named", "wet"
