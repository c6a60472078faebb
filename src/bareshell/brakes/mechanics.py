"""From the pedal to the master cylinders: which part pushes which."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bareshell.errors import Problem
from bareshell.model.brake import BrakeSystem, Part, PartKind

__all__ = ["Chain", "Pushed", "chain_of"]


@dataclass(frozen=True, slots=True)
class Pushed:
    """A master cylinder and the share of the push that reaches it.

    Parameters
    ----------
    part : str
        Its id.
    side : {"all", "front", "rear"}
        All of the push, or what the balance bar gives its front or rear rod.
    """

    part: str
    side: Literal["all", "front", "rear"] = "all"


@dataclass(frozen=True, slots=True)
class Chain:
    """What stands between the foot and the master cylinders; empty for what is not there."""

    pedal: str = ""
    servo: str = ""
    bar: str = ""
    masters: tuple[Pushed, ...] = ()


def chain_of(system: BrakeSystem) -> tuple[Chain, tuple[Problem, ...]]:
    """Follow the push from the pedal.

    Where a part does not say what it pushes and there is only one thing that it can, it pushes
    that.

    Returns
    -------
    Chain
        As far as it goes.
    tuple of Problem
        Why it goes no further.

    Examples
    --------
    >>> from bareshell.model.brake import Port
    >>> pedal = Part("pedal", "pedal", PartKind.PEDAL)
    >>> master = Part("master", "cylinder", PartKind.MASTER, ports=(Port("out", "primary"),))
    >>> chain_of(BrakeSystem("x", "x", parts=(pedal, master)))[0].masters
    (Pushed(part='master', side='all'),)
    """
    pedals = system.of_kind(PartKind.PEDAL)
    if len(pedals) != 1 or not system.of_kind(PartKind.MASTER):
        return Chain(), (
            (Problem("pedal", f"there are {len(pedals)}", "a car has one brake pedal"),)
            if len(pedals) > 1
            else ()
        )
    pedal, servo, bar = pedals[0].id, "", ""
    pushed = _pushed_by(system, pedals[0], (PartKind.SERVO, PartKind.BALANCE_BAR))
    if pushed is not None and pushed.kind is PartKind.SERVO:
        servo = pushed.id
        pushed = _pushed_by(system, pushed, (PartKind.BALANCE_BAR,))
    if pushed is None:
        last = system.part(servo or pedal)
        return Chain(pedal, servo), (
            Problem(last.title, "pushes nothing that is known", "say what it pushes"),
        )
    if pushed.kind is PartKind.MASTER:
        return Chain(pedal, servo, "", (Pushed(pushed.id),)), ()
    bar = pushed.id
    masters = _behind_bar(system, pushed)
    if masters is None:
        return Chain(pedal, servo, bar), (
            Problem(pushed.title, "does not say which cylinder brakes which axle", "choose both"),
        )
    return Chain(pedal, servo, bar, masters), ()


def _pushed_by(system: BrakeSystem, part: Part, kinds: tuple[PartKind, ...]) -> Part | None:
    """Find what a part pushes: as it says, or the only thing that it can."""
    said = part.choices.get("pushes", "").strip()
    named = [each for each in system.parts if each.id == said]
    if named and named[0].kind in {*kinds, PartKind.MASTER}:
        return named[0]
    for kind in (*kinds, PartKind.MASTER):
        there = system.of_kind(kind)
        if there:
            return there[0] if len(there) == 1 else None
    return None


def _behind_bar(system: BrakeSystem, bar: Part) -> tuple[Pushed, ...] | None:
    masters = {part.id for part in system.of_kind(PartKind.MASTER)}
    front, rear = bar.choices.get("front", ""), bar.choices.get("rear", "")
    if front not in masters or rear not in masters or front == rear:
        return None
    return Pushed(front, "front"), Pushed(rear, "rear")
