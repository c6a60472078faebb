"""Every single failure of a brake system, and what is left of the car's brakes after it.

A failure is an edit to the graph, solved like anything else. Failures that leave the same brakes
are solved once and share their answer. A leak is taken to have run its circuit dry: what a full
reservoir still gives on the first push is not counted on.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import combinations

from bareshell.brakes.answer import Answer, Limited, Load, SidePull, Truth
from bareshell.brakes.cases import Case, FailureKind, single_cases
from bareshell.brakes.figures import Figures
from bareshell.brakes.inverse import limited
from bareshell.brakes.parking import ParkingAnswer, parked
from bareshell.brakes.prepared import Prepared, prepare
from bareshell.brakes.side_pull import side_pull
from bareshell.brakes.solve import answered
from bareshell.brakes.state import State
from bareshell.brakes.topology import Topology
from bareshell.calc.values import Value
from bareshell.model.brake import BrakeSystem, Wheel

__all__ = [
    "DRY_ROAD",
    "Failure",
    "FailureKind",
    "failed",
    "failures",
    "pair_cases",
]

DRY_ROAD = 0.8
"""Adhesion of a dry road, as it is commonly taken (common practice, no source)."""

HAND_N = 400.0
"""Pull of the hand for a broken cable: the most that present rules allow (from memory)."""


@dataclass(frozen=True, slots=True)
class Failure:
    """One failure, and what is left.

    Parameters
    ----------
    id : str
        Short and steady: ``leak-pipe-rear``, ``valve-rear-shut``.
    kind : str
        What sort of failure.
    element : str
        Id of the line, joint or part that fails.
    words : str
        What fails, to a person.
    state : State
        The edits that it stands for.
    lost_circuits : tuple of str
        Circuits that hold no pressure any more (``master-primary``).
    lost_wheels : tuple of Wheel
        Wheels whose brake does nothing any more.
    weakened_wheels : tuple of Wheel
        Wheels that some but not all of their pistons still brake.
    loses_fluid : bool
        Whether fluid runs out.
    answer : Answer
        At the pedal force asked about; shared by all failures that leave the same brakes.
    limited : Limited
        The same on the road asked about.
    side_pull : SidePull or None
        How unevenly the car is braked then, on that road; None when a track is not known.
    floor_reached : bool, array or None
        Whether the pedal meets the floor first; None when travel is not worked out.
    alike : str
        Id of the first failure in the list that leaves the same brakes; its own when it is first.
    parking : ParkingAnswer or None
        For a cable of the parking brake: what the lever still holds; None where nothing of it is
        lost, or it is not worked out.
    """

    id: str
    kind: FailureKind
    element: str
    words: str
    state: State
    lost_circuits: tuple[str, ...]
    lost_wheels: tuple[Wheel, ...]
    weakened_wheels: tuple[Wheel, ...]
    loses_fluid: bool
    answer: Answer
    limited: Limited
    side_pull: SidePull | None
    floor_reached: Truth | None
    alike: str
    parking: ParkingAnswer | None = None


def failures(
    system: BrakeSystem,
    figures: Figures,
    pedal_force_n: Value,
    load: Load,
    *,
    friction_of_road: Value = DRY_ROAD,
) -> tuple[Failure, ...]:
    """Let every element fail, one at a time.

    Parameters
    ----------
    system : BrakeSystem
        As entered.
    figures : mapping of str to float or array
        By path.
    pedal_force_n : float or array
        Force of the foot. [N]
    load : {"driver only", "laden"}
        How the car is loaded.
    friction_of_road : float or array
        Adhesion of the road, for what is reached on it and how the car pulls. [-]

    Returns
    -------
    tuple of Failure
        Lines, joints, parts, seals, servos, valves, blanked circuits, cables; in that order.

    Raises
    ------
    BadInput
        As for `bareshell.brakes.solve.solve`.

    Examples
    --------
    >>> from bareshell.brakes.examples import small_car
    >>> from bareshell.brakes.figures import gather
    >>> car = small_car("diagonal tandem")
    >>> found = {each.id: each for each in failures(car, gather(car).figures, 400.0, "laden")}
    >>> one = found["seal-master-floating"]
    >>> [wheel.value for wheel in one.lost_wheels], round(one.answer.deceleration_m_s2, 1)
    (['front right', 'rear left'], 3.8)
    >>> one.side_pull.words
    'the car turns to the left, and its steering pulls to the left'
    """
    cases = single_cases(system)
    return failed(prepare(system, figures), cases, pedal_force_n, load, friction_of_road)


def pair_cases(prepared: Prepared) -> tuple[Case, ...]:
    """List each two failures that leave different brakes by themselves, as one case."""
    whole = prepared.topology().effect()
    first: dict[object, Case] = {}
    for case in single_cases(prepared.system):
        effect = prepared.topology(case.state).effect()
        if effect != whole:
            first.setdefault(effect, case)
    return tuple(
        Case(
            f"{one.id}+{other.id}",
            "two at once",
            f"{one.element}+{other.element}",
            f"{one.words}, and {other.words}",
            one.state.also(other.state),
            loses_fluid=one.loses_fluid or other.loses_fluid,
        )
        for one, other in combinations(first.values(), 2)
        # One valve sticks one way at a time.
        if one.kind != other.kind or one.kind != "valve sticks" or one.element != other.element
    )


def failed(
    prepared: Prepared,
    cases: Iterable[Case],
    pedal_force_n: Value,
    load: Load,
    friction_of_road: Value = DRY_ROAD,
) -> tuple[Failure, ...]:
    """Do what `failures` does, for some cases of a system that was looked over before."""
    found: list[Failure] = []
    first: dict[object, Failure] = {}
    for case in cases:
        effect = prepared.topology(case.state).effect()
        if effect in first:
            made = _like(case, first[effect])
        else:
            made = first[effect] = _made(prepared, case, (pedal_force_n, load, friction_of_road))
        if case.kind == "parking cable broken" and not prepared.missing_for("parking"):
            made = replace(made, parking=parked(prepared, HAND_N, load=load, state=case.state))
        found.append(made)
    return tuple(found)


def _made(prepared: Prepared, case: Case, asked: tuple[Value, Load, Value]) -> Failure:
    pedal_force_n, load, friction_of_road = asked
    answer = answered(prepared, pedal_force_n, load, state=case.state)
    on_road = limited(prepared, pedal_force_n, load, friction_of_road, state=case.state)
    topology = prepared.topology(case.state)
    lost, weakened = _wheels(prepared.topology(), topology)
    return Failure(
        id=case.id,
        kind=case.kind,
        element=case.element,
        words=case.words,
        state=case.state,
        lost_circuits=tuple(name for name, each in topology.circuits.items() if each.lost),
        lost_wheels=lost,
        weakened_wheels=weakened,
        loses_fluid=case.loses_fluid,
        answer=answer,
        limited=on_road,
        side_pull=side_pull(prepared, on_road.wheel_force_n),
        floor_reached=None if answer.travel is None else answer.travel.on_floor,
        alike=case.id,
    )


def _like(case: Case, known: Failure) -> Failure:
    """Give what a known failure leaves to another that leaves the same brakes."""
    return replace(
        known,
        id=case.id,
        kind=case.kind,
        element=case.element,
        words=case.words,
        state=case.state,
        loses_fluid=case.loses_fluid,
        alike=known.id,
    )


def _wheels(whole: Topology, topology: Topology) -> tuple[tuple[Wheel, ...], tuple[Wheel, ...]]:
    lost: list[Wheel] = []
    weakened: list[Wheel] = []
    for wheel in Wheel:
        before = {
            (each.part, each.chamber) for each in whole.actuators[wheel] if whole.is_live(each)
        }
        left = {
            (each.part, each.chamber)
            for each in topology.actuators[wheel]
            if topology.is_live(each)
        }
        if before and not left:
            lost.append(wheel)
        elif before - left:
            weakened.append(wheel)
    return tuple(lost), tuple(weakened)
