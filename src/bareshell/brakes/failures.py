"""Every single failure of a brake system, and what is left of the car's brakes after it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from bareshell.brakes.answer import Answer, Limited, SidePull, Truth
from bareshell.brakes.state import State
from bareshell.model.brake import Wheel

__all__ = ["Failure", "FailureKind"]

FailureKind: TypeAlias = Literal[
    "pipe or hose burst",
    "joint leaks",
    "part leaks",
    "seal fails inside",
    "servo dead",
    "vacuum lost",
    "valve sticks",
    "shuttle tripped",
    "circuit blanked",
    "parking cable broken",
]


@dataclass(frozen=True, slots=True)
class Failure:
    """One failure, and what is left.

    Parameters
    ----------
    id : str
        Short and steady: ``leak-front-pipe``, ``valve-rear-shut``.
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
        At the pedal force asked about; shared by all failures that do the same.
    limited : Limited
        The same on the road asked about.
    side_pull : SidePull
        How unevenly the car is braked then.
    floor_reached : bool or array
        Whether the pedal meets the floor first.
    alike : str
        Id of the first failure in the list that does exactly the same; its own when it is first.
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
    side_pull: SidePull
    floor_reached: Truth
    alike: str
